"""The swap sheet: what is pulled from each binder, put in and left, and what changed; allergens before anything else.

Words what ``compute.swap`` found. It compares nothing, and knows neither files nor paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from linebook.compute.swap import Act, LineSwap, MenuSwap, SwapStep, leaves_of, printed_alike
from linebook.documents.parts import Labelled, Member
from linebook.documents.second import item_name, line_name, menu_name
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.issue import FRONT_OF_HOUSE, Issue, IssuedSheet
from linebook.source.frozen import frozen

DOCUMENT: Final = "swap-sheet"
_MOST_BOXED: Final = 10


@frozen
class Change:
    """What changed of one dish, component or sheet: what its sheets that are exchanged say otherwise.

    ``stays`` says that it was in the binder before: then its allergens are news.
    """

    key: str
    """For data-key."""
    line: str
    """The line whose binder it is in."""
    name: Text
    """What it is called."""
    documents: Text
    """Which of its sheets are exchanged."""
    allergens: tuple[Text, ...]
    """What changed of its allergens."""
    other: tuple[Text, ...]
    """What else changed."""
    stays: bool = True
    """Whether its allergens are to be told to everyone."""

    @property
    def points(self) -> tuple[Member, ...]:
        """Return all of it, allergens first and in bold."""
        said = (*map(strong, self.allergens), *self.other)
        return tuple(Member(key=f"{self.key}.{at}", text=text) for at, text in enumerate(said))


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


@frozen
class LineRow:
    """How much there is to do with one binder, in leaves."""

    key: str
    """For data-key."""
    name: Text
    """Whose it is."""
    pull: Text
    """To pull."""
    insert: Text
    """To put in."""
    leave: Text
    """To leave."""


@frozen
class UnusedRow:
    """A component that is no longer made."""

    key: str
    """For data-key."""
    name: Text
    """What it is."""
    line: Text
    """Where it was made."""
    keeps: Text
    """How long it keeps."""


@frozen
class SwapSheet:
    """All that a swap sheet shows, of the whole house or of one line."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line; empty for the whole house."""
    kicker: Text
    """Over the name: the house and what this is."""
    title: Text
    """The name of the line, or what it is."""
    aside: Text
    """The old menu and the new one."""
    lead: Text
    """Against which issue."""
    how: Text
    """How to work with it."""
    alerts_title: Text
    """The heading over the allergens that changed."""
    alerts: tuple[Member, ...]
    """What changed of the allergens of what stays; none where nothing did."""
    no_alerts: Text
    """That no allergens of what stays changed; empty where some did."""
    steps: tuple[StepRow, ...]
    """What to do, in the order of the binder."""
    changes: tuple[Change, ...]
    """What changed on the sheets that are exchanged."""
    lines: tuple[LineRow, ...] = ()
    """How much there is to do in each binder."""
    dishes: tuple[Labelled, ...] = ()
    """The dishes that are off, new, kept, and kept but changed."""
    oil: tuple[Member, ...] = ()
    """Whether the oil is changed, or what is left in it."""
    unused: tuple[UnusedRow, ...] = ()
    """What is no longer made."""

    @property
    def boxed(self) -> bool:
        """Return whether the allergens that changed are few enough for a box, which never parts at a page's end."""
        return len(self.alerts) <= _MOST_BOXED


@frozen
class Swapping:
    """All that a swap sheet is made of. ``before`` is the issue each binder is of now, by line.

    ``keeps`` says how long a component keeps that is no longer made, and ``oil`` what is to be said of the media.
    """

    before: Mapping[str, Issue]
    after: Issue
    swaps: tuple[LineSwap, ...]
    menu: MenuSwap
    changes: tuple[Change, ...]
    keeps: Mapping[str, Text]
    oil: tuple[Text, ...]


def house_swap(house: House, swapping: Swapping, wording: Wording) -> SwapSheet:
    """Return the swap sheet of the whole house, with what is exchanged in front of house."""
    writer = _Writer(house=house, swapping=swapping, wording=wording)
    return replace(
        writer.sheet(FRONT_OF_HOUSE, writer.alerts(swapping.changes)),
        lines=tuple(map(writer.line_row, swapping.swaps)),
        dishes=tuple(writer.dishes()),
        oil=tuple(Member(key=f"oil.{at}", text=text) for at, text in enumerate(swapping.oil)),
        unused=tuple(map(writer.unused, swapping.menu.unused)),
    )


def line_swaps(house: House, swapping: Swapping, wording: Wording) -> tuple[SwapSheet, ...]:
    """Return the swap sheet of each line's binder in which anything changes."""
    writer = _Writer(house=house, swapping=swapping, wording=wording)
    found = []
    for swap in swapping.swaps:
        if swap.line != FRONT_OF_HOUSE and swap.changes:
            own = [change for change in swapping.changes if change.line == swap.line]
            found.append(replace(writer.sheet(swap.line, writer.alerts(own)), lines=(writer.line_row(swap),)))
    return tuple(found)


@frozen
class _Writer:
    house: House
    swapping: Swapping
    wording: Wording

    def sheet(self, line: str, alerts: tuple[Member, ...]) -> SwapSheet:
        """Return what the sheet of a line and that of the house have in common."""
        say = self.wording.say
        swap = next((one for one in self.swapping.swaps if one.line == line), None)
        title = say("swap.title.line", line=self.line_name(line)) if line else say("swap.title")
        return SwapSheet(
            id=f"{DOCUMENT}:{line}",
            line=line,
            kicker=joined((words(self.house.file.name), say(f"document.{DOCUMENT}")), say("kicker.between")),
            title=title,
            aside=strong(self.menus()),
            lead=self.since(),
            how=self.how(),
            alerts_title=say("swap.allergens.title") if alerts else EMPTY,
            alerts=alerts,
            no_alerts=EMPTY if alerts else self.no_alerts(),
            steps=tuple(self.steps(swap)) if swap else (),
            changes=tuple(one for one in self.swapping.changes if one.line == line and one.points),
        )

    def no_alerts(self) -> Text:
        """Return that nothing that stays has other allergens, and where those of what is new stand."""
        say = self.wording.say
        new = say("swap.allergens.new-dishes") if self.swapping.menu.new else EMPTY
        return joined((say("swap.allergens.none"), new), say("sentence.between"))

    def how(self) -> Text:
        """Return how to work with the sheet, and why all of it is printed anew where it is."""
        say, after = self.wording.say, self.swapping.after
        again = any(not printed_alike(issue, after) for issue in self.swapping.before.values())
        return joined((say("swap.how"), say("swap.again") if again else EMPTY), say("sentence.between"))

    def menus(self) -> Text:
        """Return the old menu and the new one; the menu alone where it is the same."""
        after = self.swapping.after
        now = menu_name(self.house, after.menu)
        others = dict.fromkeys(one.menu for one in self.swapping.before.values() if one.menu != after.menu)
        if not others:
            return self.wording.say("swap.aside.same", menu=now)
        old = self.wording.listed(map(self.menu_then, others))
        return self.wording.say("swap.aside.menu", old=old, new=now)

    def menu_then(self, menu: str) -> Text:
        """Return the name of a menu of an earlier issue, which may no longer be in the house."""
        if menu in self.house.menus:
            return menu_name(self.house, menu)
        return words(next(one.menu_name for one in self.swapping.before.values() if one.menu == menu))

    def since(self) -> Text:
        """Return against which day's issue it is."""
        days = sorted({one.day for one in self.swapping.before.values()})
        full = self.wording.full_day
        if len(days) == 1:
            return self.wording.say("swap.since", day=full(days[0]))
        return self.wording.say("swap.since-several", first=full(days[0]), last=full(days[-1]))

    def alerts(self, changes: Sequence[Change]) -> tuple[Member, ...]:
        """Return what changed of the allergens of what stays, a point for each."""
        return tuple(
            Member(
                key=f"alert.{change.key}",
                text=self.wording.say(
                    "swap.allergens.point", name=change.name, what=self.wording.separated(change.allergens)
                ),
            )
            for change in changes
            if change.allergens and change.stays
        )

    def line_name(self, line: str) -> Text:
        """Return the name of a line, of one that is no longer in the house its id; front of house is one too."""
        if line == FRONT_OF_HOUSE:
            return self.wording.say("swap.front")
        return line_name(self.house, line) if any(one.id == line for one in self.house.file.lines) else words(line)

    def line_row(self, swap: LineSwap) -> LineRow:
        """Return how much there is to do with one binder."""
        return LineRow(
            key=f"swap-line.{swap.line or 'front'}",
            name=self.line_name(swap.line),
            pull=words(str(swap.pulled)),
            insert=words(str(swap.inserted)),
            leave=words(str(swap.left)),
        )

    def dishes(self) -> Iterator[Labelled]:
        """Yield the dishes that are off, new, kept, and kept but changed; nothing where the menu is the same."""
        menu = self.swapping.menu
        if not (menu.out or menu.new):
            return
        same = [dish for dish in menu.kept if dish not in menu.changed]
        for key, dishes in (("out", menu.out), ("new", menu.new), ("changed", menu.changed), ("kept", same)):
            names = self.wording.named(self.name_of(dish, menu.names[dish]) for dish in dishes)
            yield Labelled(
                key=f"dishes.{key}",
                label=self.wording.say(f"swap.dishes.{key}"),
                value=names or self.wording.say("swap.dishes.none"),
            )

    def unused(self, sheet: IssuedSheet) -> UnusedRow:
        """Return the row of a component that is no longer made."""
        return UnusedRow(
            key=f"unused.{sheet.subject}",
            name=self.name_of(sheet.subject, sheet.title),
            line=self.line_name(sheet.line),
            keeps=self.swapping.keeps.get(sheet.subject, EMPTY) or self.wording.say("keeps.unknown"),
        )

    def steps(self, swap: LineSwap) -> Iterator[StepRow]:
        """Yield a row for each thing to do; what is left in a row is one row."""
        left: list[IssuedSheet] = []
        for at, step in enumerate(swap.steps):
            if step.act is Act.LEAVE:
                left.append(step.sheet)
                continue
            yield from self._left(left)
            left = []
            yield self._step(at, step)
        yield from self._left(left)

    def _left(self, sheets: Sequence[IssuedSheet]) -> Iterator[StepRow]:
        if not sheets:
            return
        say, count = self.wording.say, self.wording.say_count
        names = [self.sheet_name(sheet) for sheet in sheets]
        leaves = sum(leaves_of(sheet.pages, self.swapping.after) for sheet in sheets)
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
            name=self.sheet_name(step.sheet),
            note=self._note(step),
            old=words(out.fingerprint) if out else EMPTY,
            new=words(into.fingerprint) if into else EMPTY,
        )

    def _note(self, step: SwapStep) -> Text:
        document = self.wording.say(f"document.{step.sheet.document}")
        old = self._leaves(step.old, self.swapping.before.get(step.sheet.line))
        new = self._leaves(step.new, self.swapping.after)
        if old and new and old.plain != new.plain:
            return self.wording.say("swap.row.exchange", document=document, old=old, new=new)
        return self.wording.say("swap.row", document=document, leaves=new or old)

    def _leaves(self, sheet: IssuedSheet | None, issue: Issue | None) -> Text:
        if sheet is None or issue is None:
            return EMPTY
        return self.wording.say_count("swap.leaves", leaves_of(sheet.pages, issue))

    def sheet_name(self, sheet: IssuedSheet) -> Text:
        """Return the name of a sheet."""
        return self.name_of(sheet.subject, sheet.title)

    def name_of(self, subject: str, title: str) -> Text:
        """Return the name of what a sheet is about, as it is called now; as it was where it is no longer there."""
        known = subject in self.house.dishes or subject in self.house.components
        return item_name(self.house, subject) if known else words(title)
