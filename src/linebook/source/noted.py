"""What is looked at while something is made, so that it is known when it must be made again.

Owns the open lists of what is looked at now. It must not know what any number or name in them stands for.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable
from typing import Final, TypeAlias, TypeVar

from linebook.source.frozen import frozen

R = TypeVar("R")

Question: TypeAlias = tuple[str, tuple[object, ...]]
"""What was asked: the name of the function, and the words, numbers of records and rows of words it was told."""

LookedUp: TypeAlias = tuple[int, object]
"""A number and an id: what was looked up in a mapping that has the number."""


@frozen
class Seen:
    """All that was looked at for something: the numbers of fields, numbers with an id, and what was asked.

    The numbers of fields are by far the most, so they are kept as what is read soonest.
    """

    fields: array[int]
    looked_up: frozenset[LookedUp]
    asked: tuple[Question, ...]


_FIELDS: Final[list[int]] = []
_LOOKED_UP: Final[list[LookedUp]] = []
_ASKED: Final[list[Question]] = []
"""What all makings that are under way have looked at so far, each as often as it was, the innermost one's at the end.

They stay these lists: what notes are methods of them.
"""

_UNDER_WAY: Final[list[Callable[[], object]]] = []

note_field: Final = _FIELDS.append
note_look_up: Final = _LOOKED_UP.append


def note_question(question: Question) -> None:
    """Note what was asked; where nothing is made nobody wants to know, and it may be asked without end."""
    if _UNDER_WAY:
        _ASKED.append(question)


def note_all(seen: Seen) -> None:
    """Note all that was looked at for something."""
    _FIELDS.extend(seen.fields)
    _LOOKED_UP.extend(seen.looked_up)
    _ASKED.extend(seen.asked)


def noting(make: Callable[[], R]) -> tuple[R, Seen]:
    """Return what ``make`` gives, and all it looked at; whatever it is a part of has looked at nothing by that."""
    fields, looked_up, asked = (len(_FIELDS), len(_LOOKED_UP), len(_ASKED)) if _UNDER_WAY else (0, 0, 0)
    if not _UNDER_WAY:
        _forget(0, 0, 0)
    _UNDER_WAY.append(make)
    try:
        made = make()
        seen = Seen(
            fields=array("L", list(set(_FIELDS[fields:]))),
            looked_up=frozenset(_LOOKED_UP[looked_up:]),
            asked=tuple(set(_ASKED[asked:])),
        )
        return made, seen
    finally:
        _UNDER_WAY.pop()
        _forget(fields, looked_up, asked)


def _forget(fields: int, looked_up: int, asked: int) -> None:
    del _FIELDS[fields:], _LOOKED_UP[looked_up:], _ASKED[asked:]
