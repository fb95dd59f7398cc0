"""From the binder that stands there to the one that is to: what is pulled, put in and left, leaf by leaf in order.

Compares sheets as they were issued, by id and fingerprint. Knows no words and no paper.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from difflib import SequenceMatcher
from enum import Enum
from typing import Final

from linebook.model.issue import Issue, IssuedSheet
from linebook.source.frozen import frozen

STATION_CARD: Final = "station-card"
BATCH_CARD: Final = "batch-card"
COVER: Final = "line-cover"
_ALIKE: Final = ("paper", "sides")
"""The ways of printing in which two binders must be alike for a page of one to stand in the other."""
_LOOK: Final = ("theme", "look")
_BANDS: Final = "bands"


class Act(Enum):
    """What is done with a sheet. What only stands in another place is taken out and put back there.

    Where it goes to comes first in the binder, it is brought forward instead: nothing is put back that is not in the
    hand yet.
    """

    PULL = "pull"
    INSERT = "insert"
    EXCHANGE = "exchange"
    LEAVE = "leave"
    TAKE_OUT = "take-out"
    PUT_BACK = "put-back"
    BRING_FORWARD = "bring-forward"


_KEEPING: Final = (Act.LEAVE, Act.PUT_BACK, Act.BRING_FORWARD)


@frozen
class SwapStep:
    """One thing to do, in the order of the binder. ``old`` stands in it now, ``new`` is to; one of them may be None."""

    act: Act
    old: IssuedSheet | None = None
    new: IssuedSheet | None = None

    @property
    def sheet(self) -> IssuedSheet:
        """Return the sheet by the name it has now, or had."""
        sheet = self.new or self.old
        assert sheet is not None
        return sheet


@frozen
class LineSwap:
    """What is done with one line's binder, its sheets counted in leaves."""

    line: str
    steps: tuple[SwapStep, ...]
    pulled: int
    inserted: int
    left: int

    @property
    def changes(self) -> bool:
        """Return whether there is anything to do."""
        return any(step.act is not Act.LEAVE for step in self.steps)

    @property
    def is_gone(self) -> bool:
        """Return whether all of the binder is pulled and nothing put in."""
        return bool(self.steps) and all(step.act is Act.PULL for step in self.steps)

    @property
    def is_new(self) -> bool:
        """Return whether there was no binder: all of it is put in."""
        return bool(self.steps) and all(step.act is Act.INSERT for step in self.steps)


@frozen
class MenuSwap:
    """What a menu change means for what is cooked, by id: dishes out, in and kept, and components no longer made.

    ``names`` are what each dish was called when issued. A dish or component under another id and the same name is kept.
    """

    out: tuple[str, ...]
    new: tuple[str, ...]
    kept: tuple[str, ...]
    unused: tuple[IssuedSheet, ...]
    names: Mapping[str, str]


def printed_alike(before: Issue, after: Issue) -> bool:
    """Return whether a page of one issue is a page of the other where both say the same."""
    return all(before.options.get(name) == after.options.get(name) for name in _ALIKE)


def looks_alike(before: Issue, after: Issue) -> bool:
    """Return whether the pages of two issues look alike: theme, the house's name, and the bands of the lines in both.

    What an issue does not tell of its looks is no difference.
    """
    if any(before.options.get(name, now) != now for name in _LOOK if (now := after.options.get(name, ""))):
        return False
    old, new = _bands(before), _bands(after)
    return all(old.get(line, band) == band for line, band in new.items())


def _bands(issue: Issue) -> dict[str, str]:
    return dict(one.partition("=")[::2] for one in issue.options.get(_BANDS, "").split())


def new_lines(before: Mapping[str, Issue], names: Mapping[str, str]) -> Mapping[str, str]:
    """Return the ids that lines have now, by those they had when their binders were issued, where it is another.

    ``names`` are what lines are called now, by id. A line that is no more and was called as a new one is that one: a
    binder has its name on the cover, and no id.
    """
    gone = {line: cover_title(issue, line) for line, issue in before.items() if line and line not in names}
    come = {line: name for line, name in names.items() if line not in before}
    now = {old: new for old, title in gone.items() for new, name in come.items() if title == name}
    return now if len({*now.values()}) == len(now) else {}


def cover_title(issue: Issue, line: str) -> str | None:
    """Return what a line was called when its binder was issued."""
    return next((sheet.title for sheet in issue.of_line(line) if sheet.document == COVER), None)


def on_line(issue: Issue, old: str, new: str) -> Issue:
    """Return an issue in which a line has another id, its sheets too."""
    if old == new:
        return issue
    sheets = tuple(replace(sheet, line=new) if sheet.line == old else sheet for sheet in issue.sheets)
    return replace(issue, lines=tuple(new if line == old else line for line in issue.lines), sheets=sheets)


def leaves_of(pages: int, issue: Issue) -> int:
    """Return how many leaves so many pages of a sheet are."""
    return -(-pages // 2) if issue.options.get("sides") == "two" else pages


def line_swap(line: str, before: Issue | None, after: Issue) -> LineSwap:
    """Return what turns a line's binder of one issue, None for no binder, into that of another."""
    old, new = before.of_line(line) if before else (), after.of_line(line)
    steps = swap_steps(old, new, again=before is not None and not printed_alike(before, after))
    pulled = [step.old for step in steps if step.old and step.act in (Act.PULL, Act.EXCHANGE)]
    inserted = [step.new for step in steps if step.new and step.act in (Act.INSERT, Act.EXCHANGE)]
    left = [step.new for step in steps if step.new and step.act in _KEEPING]
    return LineSwap(
        line=line,
        steps=steps,
        pulled=sum(leaves_of(sheet.pages, before or after) for sheet in pulled),
        inserted=sum(leaves_of(sheet.pages, after) for sheet in inserted),
        left=sum(leaves_of(sheet.pages, after) for sheet in left),
    )


def swap_steps(old: Sequence[IssuedSheet], new: Sequence[IssuedSheet], *, again: bool = False) -> tuple[SwapStep, ...]:
    """Return what turns one row of sheets into another; ``again`` where even what says the same is printed anew."""
    now = renamed(old, new)
    before, after = {now.get(one.place, one.place): one for one in old}, {one.place: one for one in new}
    steps: list[SwapStep] = []
    in_hand: set[str] = set()
    brought: set[str] = set()
    matcher = SequenceMatcher(a=[*before], b=[*after], autojunk=False)
    for how, old_start, old_end, new_start, new_end in matcher.get_opcodes():
        if how == "equal":
            pairs = zip(old[old_start:old_end], new[new_start:new_end], strict=True)
            steps += (_in_place(one, other, again=again) for one, other in pairs)
            continue
        for one in old[old_start:old_end]:
            place = now.get(one.place, one.place)
            in_hand.add(place)
            if place not in brought:
                steps.append(_out(one, after.get(place), again=again))
        for one in new[new_start:new_end]:
            step = _in(before.get(one.place), one, again=again)
            if step.act is Act.PUT_BACK and one.place not in in_hand:
                step = SwapStep(act=Act.BRING_FORWARD, new=one)
                brought.add(one.place)
            steps.append(step)
    return tuple(steps)


def renamed(old: Sequence[IssuedSheet], new: Sequence[IssuedSheet]) -> Mapping[str, str]:
    """Return the place of a new sheet by that of the old one it is under another id.

    It is the one that says the same, else the one of its name and document: an id is the name of a spec's file, and no
    cook knows it.
    """
    were, are = {one.place for one in old}, {one.place for one in new}
    gone = [one for one in old if one.place not in are]
    come = [one for one in new if one.place not in were]
    found: dict[str, str] = {}
    for known_by in ("fingerprint", "title"):
        taken = {*found.values()}
        before = _by(known_by, (one for one in gone if one.place not in found))
        after = _by(known_by, (one for one in come if one.place not in taken))
        found |= {before[name]: place for name, place in after.items() if before.get(name) and place}
    return found


def menu_swap(before: Mapping[str, Issue], after: Issue, made: Collection[str] = ()) -> MenuSwap:
    """Return what changes for what is cooked on the lines of an issue; ``before`` is what each binder is of now.

    ``made`` are the components that are made now, also on lines that the issue does not cover.
    """
    sheets = [sheet for line in after.lines if line in before for sheet in before[line].of_line(line)]
    now = renamed(sheets, after.sheets)
    old = {now.get(sheet.place, sheet.id): sheet for sheet in sheets}
    new = {sheet.id: sheet for sheet in after.sheets}
    were, are = _dishes(old), _dishes(new)
    unused = [
        sheet
        for id_, sheet in old.items()
        if sheet.document == BATCH_CARD and id_ not in new and sheet.subject not in made
    ]
    return MenuSwap(
        out=tuple(dish for dish in were if dish not in are),
        new=tuple(dish for dish in are if dish not in were),
        kept=tuple(dish for dish in are if dish in were),
        unused=tuple(unused),
        names=were | are,
    )


def _by(known_by: str, sheets: Iterable[IssuedSheet]) -> dict[tuple[str, str], str]:
    """Return the place of each sheet by its document and what it is known by, '' where several have both."""
    found: dict[tuple[str, str], str] = {}
    for sheet in sheets:
        name = sheet.document, getattr(sheet, known_by)
        found[name] = "" if name in found else sheet.place
    return found


def _dishes(sheets: Mapping[str, IssuedSheet]) -> dict[str, str]:
    """Return the names of the dishes by id, as the sheets are known now."""
    return {id_.partition(":")[2]: one.title for id_, one in sheets.items() if one.document == STATION_CARD}


def _same(old: IssuedSheet | None, new: IssuedSheet | None, *, again: bool = False) -> bool:
    """Return whether the printed sheet may stay; one of other pages is another, whatever it says."""
    return old is not None and new is not None and not again and _print(old) == _print(new)


def _print(sheet: IssuedSheet) -> tuple[str, int]:
    return sheet.fingerprint, sheet.pages


def _in_place(old: IssuedSheet, new: IssuedSheet, *, again: bool) -> SwapStep:
    return SwapStep(act=Act.LEAVE if _same(old, new, again=again) else Act.EXCHANGE, old=old, new=new)


def _out(old: IssuedSheet, new: IssuedSheet | None, *, again: bool) -> SwapStep:
    return SwapStep(act=Act.TAKE_OUT if _same(old, new, again=again) else Act.PULL, old=old)


def _in(old: IssuedSheet | None, new: IssuedSheet, *, again: bool) -> SwapStep:
    return SwapStep(act=Act.PUT_BACK if _same(old, new, again=again) else Act.INSERT, new=new)
