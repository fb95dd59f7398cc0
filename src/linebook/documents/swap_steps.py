"""The rows of a swap sheet: what to do with a binder, front to back, and what its sheets are called.

What is left in a row is one row, and so is a binder that is pulled or put in as a whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from linebook.compute.swap import Act, LineSwap, SwapStep, cover_title, leaves_of
from linebook.documents.second import item_name, line_name
from linebook.documents.text import EMPTY, Text, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.issue import FRONT_OF_HOUSE, Issue, IssuedSheet
from linebook.source.frozen import frozen


@frozen
class StepRow:
    """One row of what to do, in the order of the binder."""

    key: str
    """For data-key."""
    ticks: int
    """How many boxes to tick: none where nothing is done."""
    act: Text
    """What to do."""
    name: Text
    """The sheet it is done with."""
    note: Text
    """Which document it is, and how many leaves."""
    old: Text
    """The fingerprint of what comes out; may be empty."""
    new: Text
    """The fingerprint of what goes in; may be empty."""


def step_rows(
    house: House,
    swap: LineSwap,
    before: Mapping[str, Issue],
    after: Issue,
    titles: Mapping[str, Text],
    wording: Wording,
) -> tuple[StepRow, ...]:
    """Return what to do with a binder; ``before`` is the issue each binder is of now, by line.

    ``titles`` are the names of the new sheets by fingerprint, in both languages where they have two.
    """
    writer = _StepWriter(house=house, before=before, after=after, titles=titles, wording=wording)
    return tuple(writer.steps(swap))


def line_words(house: House, line: str, before: Mapping[str, Issue], wording: Wording) -> Text:
    """Return the name of a line, of one that is no longer in the house the one it had; front of house is one too."""
    if line == FRONT_OF_HOUSE:
        return wording.say("swap.front")
    if any(one.id == line for one in house.file.lines):
        return line_name(house, line)
    return words((cover_title(before[line], line) if line in before else None) or line)


def name_of(house: House, subject: str, title: str) -> Text:
    """Return the name of what a sheet is about, as it is called now; as it was where it is no longer there."""
    known = subject in house.dishes or subject in house.components
    return item_name(house, subject) if known else words(title)


@frozen
class _StepWriter:
    house: House
    before: Mapping[str, Issue]
    after: Issue
    titles: Mapping[str, Text]
    wording: Wording

    def steps(self, swap: LineSwap) -> Iterator[StepRow]:
        """Yield a row for each thing to do; what is left in a row is one row."""
        if swap.is_gone or swap.is_new:
            yield self._whole(swap)
            return
        left: list[IssuedSheet] = []
        for at, step in enumerate(swap.steps):
            if step.act is Act.LEAVE:
                left.append(step.sheet)
                continue
            yield from self._left(left)
            left = []
            yield self._step(at, step)
        yield from self._left(left)

    def _whole(self, swap: LineSwap) -> StepRow:
        """Return the one row of a binder that is pulled or put in as a whole."""
        sheets, leaves = len(swap.steps), swap.pulled or swap.inserted
        count = self.wording.say_count
        note = self.wording.say(
            "swap.row.left", sheets=count("swap.row.sheets", sheets), leaves=count("swap.leaves", leaves)
        )
        return StepRow(
            key=f"whole.{swap.line or 'front'}",
            ticks=1,
            act=strong(self.wording.say("swap.act.pull" if swap.is_gone else "swap.act.insert")),
            name=self.wording.say("swap.row.whole"),
            note=note,
            old=EMPTY,
            new=EMPTY,
        )

    def _left(self, sheets: Sequence[IssuedSheet]) -> Iterator[StepRow]:
        if not sheets:
            return
        say, count = self.wording.say, self.wording.say_count
        names = [self._called(sheet) for sheet in sheets]
        leaves = sum(leaves_of(sheet.pages, self.after) for sheet in sheets)
        note = say("swap.row.left", sheets=count("swap.row.sheets", len(sheets)), leaves=count("swap.leaves", leaves))
        yield StepRow(
            key=f"left.{sheets[0].id}",
            ticks=0,
            act=say("swap.act.leave"),
            name=names[0] if names[0] == names[-1] else say("swap.row.leave-to", first=names[0], last=names[-1]),
            note=note,
            old=EMPTY,
            new=EMPTY,
        )

    def _step(self, at: int, step: SwapStep) -> StepRow:
        out, into = (sheet if sheet is not None else None for sheet in (step.old, step.new))
        return StepRow(
            key=f"step.{at}.{step.sheet.id}",
            ticks=1,
            act=strong(self.wording.say(f"swap.act.{step.act.value}")),
            name=self._name(step),
            note=self._note(step),
            old=words(out.fingerprint) if out else EMPTY,
            new=words(into.fingerprint) if into else EMPTY,
        )

    def _name(self, step: SwapStep) -> Text:
        """Return the name of a sheet; of one that only comes out what stands on it, were it called otherwise now."""
        name = self._called(step.sheet)
        return name if step.new or name.plain == step.sheet.title else words(step.sheet.title)

    def _note(self, step: SwapStep) -> Text:
        document = self.wording.say(f"document.{step.sheet.document}")
        named = self._called(step.sheet)
        old = self._leaves(step.old, self.before.get(step.sheet.line))
        new = self._leaves(step.new, self.after)
        is_named = document.plain != named.plain  # else the sheet is called by what it is already
        if old and new and old.plain != new.plain:
            key = "swap.row.exchange" if is_named else "swap.row.exchange-alone"
            return self.wording.say(key, document=document, old=old, new=new)
        return self.wording.say("swap.row", document=document, leaves=new or old) if is_named else new or old

    def _called(self, sheet: IssuedSheet) -> Text:
        """Return the name of a sheet as it is called now, or was."""
        name = name_of(self.house, sheet.subject, sheet.title)
        title = self.titles.get(sheet.fingerprint, name)
        return title if title.plain == name.plain and title.second is not None else name

    def _leaves(self, sheet: IssuedSheet | None, issue: Issue | None) -> Text:
        if sheet is None or issue is None:
            return EMPTY
        return self.wording.say_count("swap.leaves", leaves_of(sheet.pages, issue))
