"""What was issued: each sheet by its fingerprint, and the issues of a house in order. Knows no files and no paper.

A sheet is known by its fingerprint, in Crockford's base 32: read aloud, an O is a zero, and an I or an L is a one.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from hashlib import blake2b
from typing import Final

from linebook.source.frozen import frozen

FRONT_OF_HOUSE: Final = ""
"""In place of a line: what hangs in front of house."""

_LETTERS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_ALSO: Final = str.maketrans({"O": "0", "I": "1", "L": "1", "-": None, " ": None, "\u2011": None, "\u00a0": None})
_LENGTH: Final = 8


@frozen
class IssuedSheet:
    """One sheet as it was issued. ``line`` is its binder's, '' for front of house; ``title`` is its name then."""

    id: str
    line: str
    fingerprint: str
    pages: int
    title: str

    @property
    def document(self) -> str:
        """Return which document it is."""
        return self.id.partition(":")[0]

    @property
    def place(self) -> str:
        """Return by what another issue of the same sheet is known: in front of house there is one of each document."""
        return self.id if self.line else self.document

    @property
    def subject(self) -> str:
        """Return the id of the dish, component or line it is about."""
        return self.id.partition(":")[2]


@frozen
class Issue:
    """All that was issued at one time. ``lines`` are those whose binders it covers, also those that have none.

    ``number`` puts issues of one day in order. ``options`` say how it was printed, by name. ``check`` is that of its
    file, '' before it is written. ``known`` are the checks of the last issues that were in the register when it was
    made, through which it knew of all before them; None where it does not tell.
    """

    menu: str
    menu_name: str
    day: date
    number: int
    options: Mapping[str, str]
    lines: tuple[str, ...]
    sheets: tuple[IssuedSheet, ...]
    known: tuple[str, ...] | None = None
    check: str = ""

    def of_line(self, line: str) -> tuple[IssuedSheet, ...]:
        """Return the sheets of a line's binder in their order."""
        return tuple(sheet for sheet in self.sheets if sheet.line == line)


@frozen
class Register:
    """Every issue of a house, oldest first."""

    issues: tuple[Issue, ...] = ()


def in_order(issues: tuple[Issue, ...]) -> Register:
    """Return the register of these issues; two of one day that know nothing of each other stand by their menu."""
    return Register(issues=tuple(sorted(issues, key=lambda one: (one.day, one.number, one.menu))))


def folded(word: str) -> str:
    """Return a fingerprint, or the start of one, as it is printed; '' where the word cannot be one."""
    plain = word.strip().upper().translate(_ALSO)
    return plain if 1 <= len(plain) <= _LENGTH and set(plain) <= set(_LETTERS) else ""


def check_of(text: str) -> str:
    """Return the check of a text: eight characters that any change of it changes."""
    number = int.from_bytes(blake2b(text.encode(), digest_size=5).digest(), "big")
    return "".join(_LETTERS[number >> place & 31] for place in range(35, -1, -5))
