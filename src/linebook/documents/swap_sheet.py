"""The swap sheet: what is pulled from each binder, put in and left, and what changed; allergens before anything else.

Words what ``compute.swap`` found. It compares nothing, and knows neither files nor paper.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import field, replace
from typing import Final

from linebook.compute.swap import LineSwap, MenuSwap, looks_alike, printed_alike
from linebook.documents.parts import Labelled, Member
from linebook.documents.second import menu_name
from linebook.documents.swap_steps import StepRow, line_words, name_of, step_rows
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.issue import FRONT_OF_HOUSE, Issue, IssuedSheet
from linebook.source.frozen import frozen

DOCUMENT: Final = "swap-sheet"
_MOST_BOXED: Final = 10
_MOST_LETTERS: Final = 1_200
"""So many points, and letters in them, stand in a box, which never parts at a page's end."""


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
    """Which of its sheets are exchanged; may be empty."""
    allergens: tuple[Text, ...]
    """What changed of its allergens."""
    other: tuple[Text, ...]
    """What else changed."""
    notes: tuple[Member, ...] = ()
    """What was tasted since, and what was changed for it."""
    verdicts: tuple[Member, ...] = ()
    """Of the allergens that changed, the verdicts of dishes, by the id of the dish."""
    stays: bool = True
    """Whether its allergens are to be told to everyone."""
    itself: bool = True
    """Whether more than the standard nights and what it is used for changed."""

    @property
    def points(self) -> tuple[Member, ...]:
        """Return what changed, allergens first and in bold."""
        said = (*map(strong, self.allergens), *self.other)
        return tuple(Member(key=f"{self.key}.{at}", text=text) for at, text in enumerate(said))


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
    use_by: Text
    """What there is of it, and until when it is used up or binned."""


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
    gone: Text = EMPTY
    """That the line has nothing on the menu any more; mostly empty."""

    @property
    def boxed(self) -> bool:
        """Return whether the allergens that changed are few enough for a box, which never parts at a page's end."""
        letters = sum(len(one.text.both) for one in self.alerts)
        return len(self.alerts) <= _MOST_BOXED and letters <= _MOST_LETTERS


@frozen
class Swapping:
    """All that a swap sheet is made of. ``before`` is the issue each binder is of now, by line.

    ``changed`` are the kept dishes of which anything changed, each with the cards that did. ``use_by`` says until when
    a component is used up that is no longer made, and ``oil`` what is to be said of the media. ``left_open`` are the
    lines for which issues were made without each other, so that what stands in a binder may be of any of them.
    """

    before: Mapping[str, Issue]
    after: Issue
    swaps: tuple[LineSwap, ...]
    menu: MenuSwap
    changes: tuple[Change, ...]
    changed: Mapping[str, tuple[str, ...]]
    use_by: Mapping[str, Text]
    oil: tuple[Text, ...]
    left_open: frozenset[str] = frozenset()
    titles: Mapping[str, Text] = field(default_factory=dict)
    """The names of the new sheets by fingerprint, in both languages where they have two."""


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
            unused = [sheet for sheet in swapping.menu.unused if sheet.line == swap.line]
            sheet = writer.sheet(swap.line, writer.alerts(own))
            found.append(replace(sheet, lines=(writer.line_row(swap),), unused=tuple(map(writer.unused, unused))))
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
            how=self.how(line),
            alerts_title=say("swap.allergens.title") if alerts else EMPTY,
            alerts=alerts,
            no_alerts=self.no_alerts(alerts),
            steps=self.steps(swap) if swap else (),
            changes=tuple(one for one in self.swapping.changes if one.line == line and one.points),
            gone=say("swap.gone", line=self.line_name(line)) if swap and swap.is_gone else EMPTY,
        )

    def steps(self, swap: LineSwap) -> tuple[StepRow, ...]:
        """Return what to do with a binder."""
        swapping = self.swapping
        return step_rows(self.house, swap, swapping.before, swapping.after, swapping.titles, self.wording)

    def no_alerts(self, alerts: Collection[Member]) -> Text:
        """Return that nothing that stays has other allergens, where it is so, and where those of what is new stand."""
        say = self.wording.say
        none = EMPTY if alerts else say("swap.allergens.none")
        new = say("swap.allergens.new-dishes") if self.swapping.menu.new else EMPTY
        return joined((none, new), say("sentence.between"))

    def how(self, line: str) -> Text:
        """Return how to work with a binder, why all of it is printed anew where it is, and that it looks otherwise."""
        say, after, before = self.wording.say, self.swapping.after, self.swapping.before.values()
        more = EMPTY
        if any(not printed_alike(issue, after) for issue in before):
            more = say("swap.again")
        elif any(not looks_alike(issue, after) for issue in before):
            more = say("swap.look")
        left_open = say("swap.open") if line in self.swapping.left_open else EMPTY
        return joined((say("swap.how"), left_open, more), say("sentence.between"))

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
        """Return what changed of the allergens of what stays, a point for all that changed alike; a verdict once."""
        stay = [change for change in changes if change.allergens and change.stays]
        told = {change.key for change in stay}
        alike: dict[tuple[Text, ...], list[Change]] = {}
        for change in stay:
            alike.setdefault(change.allergens, []).append(change)
        named = [
            Member(
                key=f"alert.{found[0].key}",
                text=self.wording.say(
                    "swap.allergens.point",
                    name=self.wording.named(change.name for change in found),
                    what=self.wording.separated(allergens),
                ),
            )
            for allergens, found in alike.items()
        ]
        verdicts = {one.text: one for change in changes for one in change.verdicts if one.key not in told}
        judged = (
            Member(key=f"alert.{one.key}.{at}", text=strong(one.text)) for at, one in enumerate(verdicts.values())
        )
        return (*named, *judged)

    def line_name(self, line: str) -> Text:
        """Return the name of a line."""
        return line_words(self.house, line, self.swapping.before, self.wording)

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
        if not (menu.out or menu.new or self.is_new_menu()):
            return
        changed = [dish for dish in menu.kept if dish in self.swapping.changed]
        same = [dish for dish in menu.kept if dish not in self.swapping.changed]
        for key, dishes in (("out", menu.out), ("new", menu.new), ("changed", changed), ("kept", same)):
            names = self.wording.named(self.dish_name(dish) for dish in dishes)
            yield Labelled(
                key=f"dishes.{key}",
                label=self.wording.say(f"swap.dishes.{key}"),
                value=names or self.wording.say("swap.dishes.none"),
            )

    def is_new_menu(self) -> bool:
        """Return whether any binder is of another menu now."""
        return any(one.menu != self.swapping.after.menu for one in self.swapping.before.values())

    def dish_name(self, dish: str) -> Text:
        """Return the name of a dish, with the components whose cards changed where it is not its own that did."""
        name = name_of(self.house, dish, self.swapping.menu.names[dish])
        parts = [one for one in self.swapping.changed.get(dish, ()) if one != dish]
        if not parts:
            return name
        own = dish in self.swapping.changed[dish]
        named = self.wording.listed(name_of(self.house, one, one) for one in parts)
        return self.wording.say("swap.dishes.and-parts" if own else "swap.dishes.parts", name=name, parts=named)

    def unused(self, sheet: IssuedSheet) -> UnusedRow:
        """Return the row of a component that is no longer made."""
        return UnusedRow(
            key=f"unused.{sheet.subject}",
            name=name_of(self.house, sheet.subject, sheet.title),
            line=self.line_name(sheet.line),
            use_by=self.swapping.use_by.get(sheet.subject, EMPTY) or self.wording.say("keeps.unknown"),
        )
