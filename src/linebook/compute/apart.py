"""Which issues know of which, and what stands in a binder where two of them that differ do not. Knows no files.

An issue names the last ones that were in the register when it was made, and so knows of all that those knew of. Two
that people made on branches of their own know nothing of each other; one that was made ahead does not know of what was
issued since for the days before it. Each was told against what stood before both, so nobody can tell from the register
which of their sheets are in the binder: what turns any of them into the next issue is told.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from linebook.compute.issued import binders_on
from linebook.compute.swap import printed_alike
from linebook.model.issue import Issue, IssuedSheet, Register


def last_made(register: Register) -> tuple[str, ...]:
    """Return the checks of the issues that no other knows of, which the next one names."""
    found: list[Issue] = []
    seen: set[str] = set()
    for one in reversed(register.issues):
        if one.check not in seen:
            found.append(one)
            seen |= known_to(register, one)
    return tuple(sorted(one.check for one in _last(register, found)))


def known_to(register: Register, issue: Issue) -> frozenset[str]:
    """Return the checks of all issues that one knew of.

    One that does not tell, or names one that is no longer there, is taken to have known all before it.
    """
    there = {one.check: one for one in register.issues}
    found: set[str] = set()
    left = [issue]
    while left:
        one = left.pop()
        if one.known is None or not there.keys() >= {*one.known}:
            found |= {other.check for other in register.issues if (other.day, other.number) < (one.day, one.number)}
            continue
        left += [there[check] for check in one.known if check not in found]
        found |= {*one.known}
    return frozenset(found)


def open_on(register: Register, day: date) -> Mapping[str, tuple[Issue, ...]]:
    """Return the issues of which any may be what a line's binder holds on a day, the last one first; by line.

    A line whose binder is of one issue is left out. Any later issue that knows of them all settles it.
    """
    found = {line: _open(register, line, last, day) for line, last in binders_on(register, day).items()}
    return {line: issues for line, issues in found.items() if len(issues) > 1}


def side_by_side(register: Register, day: date) -> Mapping[str, tuple[Issue, ...]]:
    """Return the issues of which neither knows of the other and that put different sheets in a line's binder, by line.

    Two people leave them so who each issued on a branch of their own. What was issued while another was ahead is none:
    whoever did it knew of that one, which holds from its day on.
    """
    found = {}
    for line, (last, *others) in open_on(register, day).items():
        apart = [one for one in others if last.check not in known_to(register, one)]
        if apart:
            found[line] = (*apart, last)
    return found


def is_disputed(register: Register, fingerprint: str, day: date) -> bool:
    """Return whether a sheet is in one and not in another of the issues that stand ``side_by_side``."""
    return any(
        len({any(fingerprint == sheet.fingerprint for sheet in one.of_line(line)) for one in issues}) > 1
        for line, issues in side_by_side(register, day).items()
    )


def next_ahead(register: Register, day: date, lines: Collection[str]) -> Issue | None:
    """Return the first issue that was made for a later day of any of these lines; None where there is none."""
    later = [one for one in register.issues if one.day > day and {*one.lines} & {*lines}]
    return max((one for one in later if one.day == later[0].day), key=lambda one: one.number, default=None)


def either(line: str, issues: Sequence[Issue], after: Issue) -> Issue:
    """Return what is to be turned into ``after`` so that a binder of any of these issues is turned into it.

    A sheet is left where all have it as it is to be. Where one has not, another print of it stands for it, or none.
    """
    rows = [{sheet.place: sheet for sheet in one.of_line(line)} for one in issues]
    now = {sheet.place: sheet for sheet in after.of_line(line)}
    found = (_whichever([row.get(place) for row in rows], now.get(place)) for place in _merged(rows))
    base = next((one for one in issues if not printed_alike(one, after)), issues[0])
    return replace(base, sheets=tuple(sheet for sheet in found if sheet is not None))


def _whichever(there: Sequence[IssuedSheet | None], now: IssuedSheet | None) -> IssuedSheet | None:
    """Return which of the prints of a sheet is to come out; None where none is, and one is to be put in."""
    others = (one for one in there if one and (not now or (one.fingerprint, one.pages) != (now.fingerprint, now.pages)))
    return next(others, there[0] if None not in there else None)


def _merged(rows: Iterable[Mapping[str, IssuedSheet]]) -> list[str]:
    """Return all places in the order of the first row, those of others behind what they stand behind there."""
    merged: list[str] = []
    for row in rows:
        behind = 0
        for place in row:
            if place not in merged:
                merged.insert(behind, place)
            behind = merged.index(place) + 1
    return merged


def _open(register: Register, line: str, last: Issue, day: date) -> tuple[Issue, ...]:
    seen = {*known_to(register, last), last.check}
    left = [one for one in register.issues if line in one.lines and one.day <= day and one.check not in seen]
    return (last, *(one for one in _last(register, left) if _prints(one, line) != _prints(last, line)))


def _last(register: Register, issues: Sequence[Issue]) -> list[Issue]:
    """Return the issues that no other of them knows of; of two that would each have known the other, both."""
    known = {one.check: known_to(register, one) for one in issues}
    return [
        one
        for one in issues
        if not any(one.check in known[other.check] and other.check not in known[one.check] for other in issues)
    ]


def _prints(issue: Issue, line: str) -> tuple[tuple[str, int], ...]:
    return tuple((sheet.fingerprint, sheet.pages) for sheet in issue.of_line(line))
