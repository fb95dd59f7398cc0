"""What the register says of a day: which sheets stand in each binder, since when, and what became of a sheet.

An issue holds from its day on, for the lines it covers alone. Knows no files.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from enum import Enum

from linebook.compute.swap import renamed
from linebook.model.issue import Issue, IssuedSheet, Register
from linebook.source.frozen import frozen

KnownAgain = Callable[[str, Issue, Issue], Issue]
"""Returns the first issue with the sheets of a line's binder under the ids that they have in the second."""


class Fate(Enum):
    """What became of a sheet by a day."""

    CURRENT = "current"
    AHEAD = "ahead"
    REPLACED = "replaced"
    WITHDRAWN = "withdrawn"


@frozen
class Standing:
    """One sheet on a day. ``first`` is the day its fingerprint was first issued.

    ``turn`` is the issue that put an end to it, or from which it is to hold; ``by`` is what took its place.
    """

    sheet: IssuedSheet
    fate: Fate
    first: date
    issue: Issue
    turn: Issue | None = None
    by: IssuedSheet | None = None


def binders_on(register: Register, day: date) -> Mapping[str, Issue]:
    """Return the issue that each line's binder is of on a day, by line; a line never issued by then is left out."""
    return {line: issue for issue in register.issues if issue.day <= day for line in issue.lines}


def first_days(register: Register) -> Mapping[str, date]:
    """Return the day on which each fingerprint was first issued."""
    return {sheet.fingerprint: issue.day for issue in reversed(register.issues) for sheet in issue.sheets}


def find_issued(register: Register, start: str) -> tuple[str, ...]:
    """Return the fingerprints ever issued that begin so, sorted."""
    return tuple(sorted(one for one in first_days(register) if one.startswith(start)))


def standing_of(
    register: Register, fingerprint: str, day: date, known_again: KnownAgain | None = None
) -> tuple[Standing, ...]:
    """Return how a fingerprint stands on a day, once for each binder it is or was in; () where none was ever issued.

    In whichever binder it is in force, it is: no page shows the id of its line, which may be another since. Where
    neither id nor name tells what took its place, ``known_again`` may.
    """
    first = first_days(register)
    held = [
        Standing(sheet=sheet, fate=Fate.CURRENT, first=first[fingerprint], issue=issue)
        for line, issue in binders_on(register, day).items()
        for sheet in issue.of_line(line)
        if sheet.fingerprint == fingerprint
    ]
    if held:
        return tuple({one.sheet.line: one for one in held}.values())
    found = {(sheet.line, sheet.document): (issue, sheet) for issue, sheet in _carrying(register, fingerprint)}
    return tuple(
        _standing(register, issue, sheet, first[fingerprint], day, known_again) for issue, sheet in found.values()
    )


def _carrying(register: Register, fingerprint: str) -> Iterator[tuple[Issue, IssuedSheet]]:
    """Yield the issues that carry a fingerprint, oldest first."""
    for issue in register.issues:
        yield from ((issue, sheet) for sheet in issue.sheets if sheet.fingerprint == fingerprint)


def _standing(
    register: Register, last: Issue, sheet: IssuedSheet, first: date, day: date, known_again: KnownAgain | None
) -> Standing:
    if last.day > day:
        carrying = (issue for issue, one in _carrying(register, sheet.fingerprint) if one.line == sheet.line)
        ahead = next(issue for issue in carrying if issue.day > day)
        return Standing(sheet=sheet, fate=Fate.AHEAD, first=first, issue=last, turn=ahead)
    later = register.issues[register.issues.index(last) + 1 :]
    turn = next(issue for issue in later if sheet.line in issue.lines)
    by = _in_place_of(sheet, last, turn)
    if by is None and known_again:
        again = known_again(sheet.line, last, turn)
        named = (one for one in again.of_line(sheet.line) if one.fingerprint == sheet.fingerprint)
        by = next((found for one in named if (found := _in_place_of(one, again, turn))), None)
    fate = Fate.REPLACED if by else Fate.WITHDRAWN
    return Standing(sheet=sheet, fate=fate, first=first, issue=last, turn=turn, by=by)


def _in_place_of(sheet: IssuedSheet, last: Issue, turn: Issue) -> IssuedSheet | None:
    """Return the sheet that took the place of another, in its own binder or in that of another line."""
    now = renamed(last.sheets, turn.sheets).get(sheet.place, sheet.place)
    return next((one for one in (*turn.of_line(sheet.line), *turn.sheets) if one.place == now), None)
