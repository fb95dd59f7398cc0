"""The set-up sheet of a line: which pans of what size stand on the line and wait behind it, how cold or hot, and where.

Works from computed pans alone. For a binder it has a column for each standard night, for one service its amounts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from enum import Enum
from typing import Final, TypeAlias

from linebook.compute.pans import LinePans, Missing, line_pans
from linebook.compute.results import Night
from linebook.compute.whole_pieces import in_whole_pieces
from linebook.documents.measures import Measures
from linebook.documents.naming import kicker, line_of, made_by
from linebook.documents.parts import Member
from linebook.documents.second import (
    dish_name,
    item_name,
    line_name,
    menu_name,
    place_name,
    plate_name,
    tool_text,
    vessel_name,
)
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.amounts import Temperature
from linebook.model.dish import Dish, Element
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

DOCUMENT: Final = "set-up-sheet"
_HOT: Final = 45
"""°C from which a thing waits hot on a line; a group of the sheet, and no limit of safety."""
_COLD: Final = 10
"""°C up to which it waits cold."""

_Item: TypeAlias = tuple[LinePans, list[LinePans | None]]
"""An item of the line as the first night has it that needs it, and as each night has it."""


class _Waits(Enum):
    """How an item waits on the line: the groups of the sheet, in order."""

    HOT = "hot"
    COLD = "cold"
    AT_HAND = "at-hand"


@frozen
class SetUpRow:
    """One item to set up."""

    key: str
    """For data-key."""
    name: Text
    """What it is."""
    note: Text
    """The dishes it is for, and which line or card it comes from."""
    amounts: tuple[Text, ...]
    """All of it for one night; none in a binder."""
    on_line: Text
    """The vessel on the line, at what temperature, and the tool; may be empty."""
    behind: tuple[Text, ...]
    """How many vessels wait behind it, one figure a night; empty where no vessel is named or it cannot be counted."""
    asks: bool
    """Whether a vessel is named whose number cannot be worked out, and must be written in."""
    waits_in: Text
    """The vessel and the place of those behind; empty where none waits."""


@frozen
class SetUpGroup:
    """What waits hot, cold or at hand."""

    key: str
    """For data-key."""
    title: Text
    """How it waits."""
    rows: tuple[SetUpRow, ...]
    """The items, in the order they are plated."""


@frozen
class PlateRow:
    """One kind of plate and how many of it."""

    key: str
    """For data-key."""
    name: Text
    """The plate, warmed or not."""
    dishes: Text
    """For which dishes."""
    figures: tuple[Text, ...]
    """How many, one figure a night."""


@frozen
class SetUpSheet:
    """All a set-up sheet shows. ``night`` is true for a sheet of one service."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    night: bool
    """Whether it is for one night, and not for a binder."""
    kicker: Text
    """Over the name: the house and what this is."""
    title: Text
    """The name of the line."""
    aside: Text
    """For which night, or of which menu."""
    facts: Text
    """By when it is set up, when the doors open, and for how many; may be empty."""
    rule: Text
    """How the pans are counted."""
    night_heads: tuple[Text, ...]
    """The heads of the figures: the standard nights, or one."""
    groups: tuple[SetUpGroup, ...]
    """What to set up."""
    also: tuple[Member, ...]
    """What is only laid ready, in no pan that the specs name: herbs, salt, lemons; for one service with its amounts."""
    plate_heads: tuple[Text, ...]
    """The heads of the counts of plates."""
    plates: tuple[PlateRow, ...]
    """The plates to have ready."""
    unknown: Text
    """What it means where a count is not known; empty where all are."""

    @property
    def width(self) -> int:
        """Return how many columns the table of pans has."""
        return 3 + 2 * self.night + len(self.night_heads)


def set_up_sheet(house: House, line: str, menu: str, nights: Sequence[Night], wording: Wording) -> SetUpSheet:
    """Return the set-up sheet of a line for the nights given: the standard ones of a binder, or one with a date."""
    night = nights[0].occasion.date is not None
    items = tuple(_items(house, line, nights))
    writer = _SetUpWriter(
        house=house,
        line=line,
        nights=tuple(nights),
        items=items,
        night=night,
        measures=Measures(house=house.file, wording=wording),
        wording=wording,
    )
    groups = tuple(writer.groups())
    asked = any(row.asks for group in groups for row in group.rows)
    say = wording.say
    return SetUpSheet(
        id=f"{DOCUMENT}:{line}" + (f":{_occasion_key(nights[0].occasion)}" if night else ""),
        line=line,
        night=night,
        kicker=kicker(house, line, DOCUMENT, wording),
        title=say("set-up.title", line=line_name(house, line)),
        aside=strong(writer.aside(menu)),
        facts=joined(writer.facts(), wording.say("kicker.between")),
        rule=say("set-up.rule"),
        night_heads=writer.heads(),
        groups=groups,
        also=tuple(writer.also()),
        plate_heads=writer.plate_heads(),
        plates=tuple(writer.plates()),
        unknown=writer.unknown() if asked else EMPTY,
    )


@frozen
class _SetUpWriter:
    house: House
    line: str
    nights: tuple[Night, ...]
    items: tuple[_Item, ...]
    night: bool
    measures: Measures
    wording: Wording

    def aside(self, menu: str) -> Text:
        """Return the one service it is for, or the menu."""
        day = self.nights[0].occasion.date
        return self.wording.say("only-for.day", day=self.wording.day(day)) if day else menu_name(self.house, menu)

    def heads(self) -> tuple[Text, ...]:
        """Return the heads of the figures."""
        if self.night:
            return (self.wording.say("set-up.behind"),)
        return tuple(
            self.wording.say("set-up.behind-for", covers=self.wording.say_count("covers", night.occasion.covers))
            for night in self.nights
        )

    def plate_heads(self) -> tuple[Text, ...]:
        """Return the heads of the counts of plates."""
        if self.night:
            return (self.wording.say("set-up.count"),)
        return tuple(self.wording.say_count("covers", night.occasion.covers) for night in self.nights)

    def facts(self) -> Iterator[Text]:
        """Yield by when the line is set up, when the doors open, and for how many."""
        line, service = line_of(self.house, self.line), self.house.file.service
        if line.set_up:
            yield self.wording.say("set-up.by", time=line.set_up.strftime("%H:%M"))
        if service and service.doors:
            yield self.wording.say("set-up.doors", time=service.doors.strftime("%H:%M"))
        if self.night:
            yield strong(self.wording.say_count("covers", self.nights[0].occasion.covers))

    def also(self) -> Iterator[Member]:
        """Yield what is laid ready in no pan that is known."""
        for first, known in self.items:
            if _is_loose(first):
                name = item_name(self.house, first.item)
                text = joined((name, self._amount(known[0])), " ") if self.night else name
                yield Member(key=f"also.{first.item}", text=text)

    def groups(self) -> Iterator[SetUpGroup]:
        """Yield what waits hot, then cold, then at hand, as far as it stands in a pan or at a temperature."""
        rows: dict[_Waits, list[SetUpRow]] = {waits: [] for waits in _Waits}
        for first, known in self.items:
            if not _is_loose(first):
                rows[_waits(first)].append(self._row(first, known))
        for waits, found in rows.items():
            if found:
                title = self.wording.say(f"set-up.{waits.value}")
                yield SetUpGroup(key=waits.value, title=title, rows=tuple(found))

    def unknown(self) -> Text:
        """Return why some counts are to be written in, and how to find them."""
        say, reasons = self.wording.say, []
        asked = [first for first, _ in self.items if first.missing is not None]
        taking = [item_name(self.house, pans.item) for pans in asked if pans.missing is Missing.ROOM]
        if taking:
            reasons.append(say("set-up.unknown.room", items=self.wording.listed_with_and(taking)))
        vessels = (
            vessel.id
            for pans in asked
            for vessel in (pans.at_hand, pans.behind)
            if pans.missing is Missing.HOLDS and vessel is not None and vessel.holds is None
        )
        holding = [vessel_name(self.house, vessel) for vessel in dict.fromkeys(vessels)]
        if holding:
            reasons.append(say("set-up.unknown.holds", vessels=self.wording.listed_with_and(holding)))
        return say("set-up.unknown", reasons=self.wording.listed_with_and(reasons))

    def plates(self) -> Iterator[PlateRow]:
        """Yield the plates of the line's dishes, with how many portions go on them."""
        kinds: dict[tuple[str, bool], list[str]] = {}
        counts: list[Counter[tuple[str, bool]]] = [Counter() for _ in self.nights]
        for at, night in enumerate(self.nights):
            for demand in night.demands:
                dish = self.house.dishes[demand.dish]
                if dish.line != self.line or dish.plate is None:
                    continue
                kind = (dish.plate, bool(dish.warm))
                counts[at][kind] += demand.portions
                if dish.id not in kinds.setdefault(kind, []):
                    kinds[kind].append(dish.id)
        for (plate, warm), dishes in kinds.items():
            name = plate_name(self.house, plate)
            yield PlateRow(
                key=f"plate.{plate}{'.warm' if warm else ''}",
                name=self.wording.say("set-up.warm-plate", plate=name) if warm else name,
                dishes=self.wording.named(dish_name(self.house, dish) for dish in dishes),
                figures=tuple(strong(words(str(count[plate, warm]))) for count in counts),
            )

    def _row(self, first: LinePans, nights: Sequence[LinePans | None]) -> SetUpRow:
        dishes = dict.fromkeys(dish.id for dish, _ in first.elements)
        source = made_by(self.house, first.item, self.line, self.wording)
        own = first.item in self.house.components and self.house.components[first.item].line == self.line
        named = self.wording.named(dish_name(self.house, dish) for dish in dishes)
        asks = first.at_hand is not None and first.pans_behind is None
        return SetUpRow(
            key=f"item.{first.item}",
            name=strong(item_name(self.house, first.item)),
            note=joined((named, EMPTY if own else source), self.wording.say("note.between")),
            amounts=tuple(self._amount(pans) for pans in nights) if self.night else (),
            on_line=self._on_line(first),
            behind=tuple(self._behind(pans) for pans in nights),
            asks=asks,
            waits_in=self._waits_in(first) if asks or any(pans and pans.pans_behind for pans in nights) else EMPTY,
        )

    def _amount(self, pans: LinePans | None) -> Text:
        amounts = pans.amounts if pans else ()
        return strong(
            self.wording.listed_with_and([self.measures.short(in_whole_pieces(amount)) for amount in amounts])
        )

    def _on_line(self, pans: LinePans) -> Text:
        """Return the vessel on the line, then how hot or cold it is held and with which tool, each said once."""
        vessel = (
            self.wording.say("set-up.one", vessel=vessel_name(self.house, pans.at_hand.id)) if pans.at_hand else EMPTY
        )
        held = [text for dish, element in pans.elements for text in self._held(dish, element)]
        once = {text.both: text for text in held if text}
        return self.wording.listed((vessel, *once.values()))

    def _held(self, dish: Dish, element: Element) -> Iterator[Text]:
        if element.hold and element.hold.temperature:
            yield self.measures.temperature(element.hold.temperature)
        yield tool_text(self.house, dish, element)

    def _behind(self, pans: LinePans | None) -> Text:
        if pans is None or pans.pans_behind is None:
            return EMPTY
        return strong(words(str(pans.pans_behind)))

    def _waits_in(self, pans: LinePans) -> Text:
        component = self.house.components.get(pans.item)
        store = component.store if component else None
        vessel = vessel_name(self.house, pans.behind.id) if pans.behind else EMPTY
        place = place_name(self.house, store.place) if store and store.place else EMPTY
        heat = self.measures.temperature(store.temperature) if store and store.temperature else EMPTY
        return self.wording.listed((vessel, place, heat))


def _items(house: House, line: str, nights: Sequence[Night]) -> Iterator[_Item]:
    """Yield every item as the first night has it that needs it, and as each night has it."""
    computed = [{pans.item: pans for pans in line_pans(house, night, line)} for night in nights]
    for item in dict.fromkeys(item for night in computed for item in night):
        known = [night.get(item) for night in computed]
        yield next(pans for pans in known if pans is not None), known


def _is_loose(pans: LinePans) -> bool:
    """Return whether no spec says in what or how cold it waits."""
    return pans.at_hand is None and not any(element.hold and element.hold.temperature for _, element in pans.elements)


def _waits(pans: LinePans) -> _Waits:
    """Return how an item waits on the line, by the first temperature that a dish gives for it."""
    held = (element.hold.temperature for _, element in pans.elements if element.hold)
    first: Temperature | None = next((heat for heat in held if heat is not None), None)
    if first is not None and first.celsius >= Fraction(_HOT):
        return _Waits.HOT
    return _Waits.COLD if first is not None and first.celsius <= Fraction(_COLD) else _Waits.AT_HAND


def _occasion_key(occasion: Occasion) -> str:
    return occasion.date.isoformat() if occasion.date else f"{occasion.covers}-covers"
