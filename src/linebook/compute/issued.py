"""What the register says of a day: which sheets stand in each binder, since when, and what became of a sheet.

An issue holds from its day on, for the lines it covers alone. Knows no files.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from enum import Enum

from linebook.compute.swap import renamed
from linebook.model.issue import Issue, IssuedSheet, Register
from linebook.source.frozen import frozen


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


def side_by_side(register: Register, day: date) -> tuple[tuple[Issue, ...], ...]:
    """Return the issues that hold in one binder on a day, know nothing of each other and put different sheets in it.

    Two people leave them so who each issued on a branch of their own; any later issue settles it.
    """
    found: list[tuple[Issue, ...]] = []
    for line, last in binders_on(register, day).items():
        same = tuple(one for one in register.issues if _is_beside(one, last) and line in one.lines)
        if len({_prints(one, line) for one in same}) > 1 and same not in found:
            found.append(same)
    return tuple(found)


def is_disputed(register: Register, fingerprint: str, day: date) -> bool:
    """Return whether a sheet is in one and not in another of the issues that stand ``side_by_side``."""
    return any(
        len({fingerprint in _prints(one, line) for one in same if line in one.lines}) > 1
        for same in side_by_side(register, day)
        for line in same[0].lines
    )


def _is_beside(one: Issue, other: Issue) -> bool:
    return (one.day, one.number) == (other.day, other.number)


def _prints(issue: Issue, line: str) -> tuple[str, ...]:
    return tuple(sheet.fingerprint for sheet in issue.of_line(line))


def first_days(register: Register) -> Mapping[str, date]:
    """Return the day on which each fingerprint was first issued."""
    return {sheet.fingerprint: issue.day for issue in reversed(register.issues) for sheet in issue.sheets}


def find_issued(register: Register, start: str) -> tuple[str, ...]:
    """Return the fingerprints ever issued that begin so, sorted."""
    return tuple(sorted(one for one in first_days(register) if one.startswith(start)))


def standing_of(register: Register, fingerprint: str, day: date) -> tuple[Standing, ...]:
    """Return how a fingerprint stands on a day, once for each binder it is or was in; () where none was ever issued.

    In whichever binder it is in force, it is: no page shows the id of its line, which may be another since.
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
    return tuple(_standing(register, issue, sheet, first[fingerprint], day) for issue, sheet in found.values())


def _carrying(register: Register, fingerprint: str) -> Iterator[tuple[Issue, IssuedSheet]]:
    """Yield the issues that carry a fingerprint, oldest first."""
    for issue in register.issues:
        yield from ((issue, sheet) for sheet in issue.sheets if sheet.fingerprint == fingerprint)


def _standing(register: Register, last: Issue, sheet: IssuedSheet, first: date, day: date) -> Standing:
    if last.day > day:
        carrying = (issue for issue, one in _carrying(register, sheet.fingerprint) if one.line == sheet.line)
        ahead = next(issue for issue in carrying if issue.day > day)
        return Standing(sheet=sheet, fate=Fate.AHEAD, first=first, issue=last, turn=ahead)
    later = register.issues[register.issues.index(last) + 1 :]
    turn = next(issue for issue in later if sheet.line in issue.lines)
    by = _in_place_of(sheet, last, turn)
    fate = Fate.REPLACED if by else Fate.WITHDRAWN
    return Standing(sheet=sheet, fate=fate, first=first, issue=last, turn=turn, by=by)


def _in_place_of(sheet: IssuedSheet, last: Issue, turn: Issue) -> IssuedSheet | None:
    """Return the sheet that took the place of another, in its own binder or in that of another line."""
    now = renamed(last.sheets, turn.sheets).get(sheet.place, sheet.place)
    return next((one for one in (*turn.of_line(sheet.line), *turn.sheets) if one.place == now), None)
