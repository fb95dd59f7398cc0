"""The order sheet: what the purchaser asks of whom and by when, with what cannot be had said first.

Words what ``compute.order`` found; it has no price, and adds up nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from typing import Final

from linebook.compute.order import Delivery, InSeason, Order, OrderLine, is_bought
from linebook.compute.results import StockUse, Uncounted
from linebook.compute.services import WEEKDAYS
from linebook.compute.told_amounts import told
from linebook.documents.measures import Measures
from linebook.documents.order_notices import Notice, NoticesWriter
from linebook.documents.order_words import pack_text, supplier_text, told_text, weekday_text, when_text
from linebook.documents.parts import Labelled
from linebook.documents.second import item_name, menu_name
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.units import times, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

DOCUMENT: Final = "order-sheet"
_REASONS: Final = {
    Uncounted.UNDATED: "undated",
    Uncounted.OVER: "over",
    Uncounted.NO_LIFE: "no-life",
    Uncounted.AHEAD: "ahead",
    Uncounted.UNITS: "units",
    Uncounted.UNKNOWN: "unknown",
}


@frozen
class OrderRow:
    """One item of one delivery."""

    key: str
    """For data-key."""
    name: Text
    """What it is called."""
    note: Text
    """What is wrong with it, and for which services it is; empty where it is for all."""
    order: Text
    """What to ask for: so many packs, or an amount."""
    needed: Text
    """What is needed of it."""
    over: Text
    """What the packs leave over; empty where nothing is."""


@frozen
class OrderGroup:
    """What comes on one day and is ordered by one day."""

    key: str
    """For data-key."""
    title: Text
    """The day of delivery and the day and time to order by."""
    rows: tuple[OrderRow, ...]
    """Its items, by name."""


@frozen
class SupplierPart:
    """All that is asked of one supplier."""

    key: str
    """For data-key."""
    name: Text
    """Who it is."""
    about: Text
    """When they deliver, until when they take orders, how to order."""
    groups: tuple[OrderGroup, ...]
    """Its deliveries, by day."""
    uses: Text
    """What each of its items is for, once, however often it comes."""


@frozen
class SeasonRow:
    """One item of a short season."""

    key: str
    """For data-key."""
    name: Text
    """What it is called."""
    last: Text
    """The last day it can be bought."""
    here: Text
    """How much is needed for these services."""
    in_all: Text
    """How much until the menu ends."""


@frozen
class OrderSheet:
    """All an order sheet shows."""

    id: str
    """The sheet's own id."""
    kicker: Text
    """Over the name: which document it is, and the menus."""
    title: Text
    """For which days."""
    aside: Text
    """When it was written."""
    services: Text
    """The services it covers, with their covers."""
    notices: tuple[Notice, ...]
    """What cannot be had in time, or at all, and what is short."""
    suppliers: tuple[SupplierPart, ...]
    """What is asked of whom."""
    season_head: Text
    """Until when the season's totals run."""
    seasons: tuple[SeasonRow, ...]
    """The items of a short season; none where there are none."""
    also: tuple[Labelled, ...]
    """What is not counted, and why."""
    nothing: Text
    """That nothing has to be ordered; else empty."""


def order_sheet(house: House, order: Order, wording: Wording) -> OrderSheet:
    """Return the sheet of an order."""
    writer = _Writer(house=house, order=order, wording=wording)
    notices = NoticesWriter(house=house, order=order, measures=writer.measures)
    say = wording.say
    menus = dict.fromkeys(service.menu for service in order.services)
    names = wording.listed(menu_name(house, menu) for menu in menus)
    parts = groupby(_said(house, order), key=lambda delivery: delivery.supplier)
    single = order.first == order.last
    return OrderSheet(
        id=f"{DOCUMENT}:{order.first.isoformat()}",
        kicker=joined((say(f"document.{DOCUMENT}"), names), say("kicker.between")),
        title=say(
            "order.title.day" if single else "order.title.span",
            first=wording.day(order.first),
            last=wording.day(order.last),
        ),
        aside=say("order.aside", day=wording.day(order.written)),
        services=writer.services(),
        notices=tuple(notice for notice in notices.notices() if notice.points),
        suppliers=tuple(writer.part(at, name, tuple(found)) for at, (name, found) in enumerate(parts)),
        season_head=writer.season_head(),
        seasons=tuple(map(writer.season, order.seasons)),
        also=tuple(fact for fact in writer.also() if fact.value),
        nothing=EMPTY if order.deliveries else say("order.nothing"),
    )


def _said(house: House, order: Order) -> Iterator[Delivery]:
    """Yield the deliveries without what costs nothing: tap water is asked of nobody."""
    for delivery in order.deliveries:
        lines = tuple(line for line in delivery.lines if is_bought(house.pantry[line.item]))
        if lines:
            yield replace(delivery, lines=lines)


def _unsaid(house: House, order: Order) -> Iterator[OrderLine]:
    for delivery in order.deliveries:
        yield from (line for line in delivery.lines if not is_bought(house.pantry[line.item]))


@frozen
class _Writer:
    house: House
    order: Order
    wording: Wording

    @property
    def measures(self) -> Measures:
        """Return what writes amounts for this house."""
        return Measures(house=self.house.file, wording=self.wording)

    def services(self) -> Text:
        """Return the services with their covers, and the days without a menu."""
        say = self.wording.say
        each = [
            say(
                "order.service",
                day=self.wording.day(service.day),
                covers=self.wording.say_unparted("covers", service.covers),
            )
            for service in self.order.services
        ]
        if self.order.without_menu:
            days = self.wording.listed_with_and(map(self.wording.day, self.order.without_menu))
            each.append(say("order.without-menu", days=days))
        return self.wording.listed(each)

    def part(self, at: int, name: str, deliveries: Sequence[Delivery]) -> SupplierPart:
        """Return what is asked of one supplier."""
        return SupplierPart(
            key=f"supplier.{at}",
            name=supplier_text(name, self.wording),
            about=self._about(name),
            groups=tuple(self._group(f"supplier.{at}", delivery) for delivery in deliveries),
            uses=self._uses(deliveries),
        )

    def season_head(self) -> Text:
        """Return until when the totals of the seasons run."""
        if not self.order.seasons:
            return EMPTY
        ends = self.order.seasons[0].ends
        if ends is None:
            return self.wording.say("order.season.no-end")
        return self.wording.say("order.season.in-all", day=self.wording.day(ends))

    def season(self, one: InSeason) -> SeasonRow:
        """Return the row of an item with a season."""
        say = self.wording.say
        return SeasonRow(
            key=f"season.{one.item}",
            name=item_name(self.house, one.item),
            last=self.wording.day(one.season.last),
            here=told_text(one.here, self.measures),
            in_all=told_text(one.in_all, self.measures) if one.ends else say("order.season.unknown"),
        )

    def also(self) -> Iterator[Labelled]:
        """Yield what is not in the amounts."""
        say = self.wording.say
        unsaid = (
            say("order.amount-of", item=item_name(self.house, line.item), amount=told_text(line.ordered, self.measures))
            for line in _unsaid(self.house, self.order)
        )
        yield Labelled(key="also.unsaid", label=say("order.unsaid"), value=self.wording.listed(unsaid))
        items = self.wording.named(item_name(self.house, item) for item in self.order.uncounted)
        yield Labelled(key="also.uncounted", label=say("order.uncounted"), value=items)
        idle = self.wording.separated(map(self._idle, self.order.idle))
        yield Labelled(key="also.idle", label=say("order.idle"), value=idle)

    def _about(self, name: str) -> Text:
        say = self.wording.say
        if not name:
            return say("order.supplier.none-rule")
        supplier = next((one for one in self.house.file.suppliers if one.name == name), None)
        if supplier is None:
            return say("order.unlisted")
        days = self.wording.listed(say(f"weekday.{WEEKDAYS.index(day)}") for day in supplier.delivers)
        told_facts = [say("order.delivers", days=days) if days else say("order.delivers-any")]
        if supplier.order_by is not None:
            told_facts.append(say("order.until", time=words(f"{supplier.order_by:%H:%M}")))
        told_facts.append(words(supplier.note or ""))
        return joined(told_facts, say("list.semicolon"))

    def _group(self, key: str, delivery: Delivery) -> OrderGroup:
        say, day = self.wording.say, self.wording.day(delivery.day)
        if not delivery.supplier:
            title = say("order.group.none", day=day)
        elif delivery.order_by is None:
            title = say("order.group.no-lead", day=day)
        else:
            title = say("order.group", day=day, when=when_text(delivery, self.wording))
        own = f"{key}.{delivery.day.isoformat()}.{delivery.order_by.isoformat() if delivery.order_by else 'ask'}"
        return OrderGroup(key=own, title=title, rows=tuple(self._row(own, delivery, line) for line in delivery.lines))

    def _row(self, key: str, delivery: Delivery, line: OrderLine) -> OrderRow:
        return OrderRow(
            key=f"{key}.{line.item}.{line.needed.unit.key}",
            name=item_name(self.house, line.item),
            note=joined((*self._marks(delivery, line), self._days(line)), self.wording.say("list.semicolon")),
            order=pack_text(line, self.measures),
            needed=told_text(line.needed, self.measures),
            over=self._over(line),
        )

    def _over(self, line: OrderLine) -> Text:
        """Return what packs leave over: what is ordered less what is told as needed, so that the row adds up."""
        if line.packs is None or not line.over.number:
            return EMPTY
        rounded_up = to_base(told(self.measures.system.asked(line.needed))) - to_base(line.needed)
        over = times(line.over, max(1 - rounded_up / to_base(line.over), Fraction(0)))
        return told_text(over, self.measures, up=False) if over.number else EMPTY

    def _marks(self, delivery: Delivery, line: OrderLine) -> Iterator[Text]:
        """Yield what is wrong with a line that stands among the others all the same."""
        if any(one.item == line.item and one.comes == delivery.day for one in self.order.too_late):
            yield self.wording.say("order.comes-late")
        season = self.house.pantry[line.item].season
        if season is not None and not season.first <= delivery.day <= season.last:
            yield self.wording.say("order.out-of-season")
        if line.packs is None:
            yield self.wording.say("order.no-pack")

    def _days(self, line: OrderLine) -> Text:
        """Return the services a line is for, where it is not every one of them."""
        if line.services == tuple(service.day for service in self.order.services):
            return EMPTY
        return self.wording.listed(weekday_text(day, self.wording) for day in line.services)

    def _uses(self, deliveries: Sequence[Delivery]) -> Text:
        """Return what each item of a supplier is for, by name."""
        users: dict[str, dict[str, None]] = {}
        for line in (line for delivery in deliveries for line in delivery.lines):
            users.setdefault(line.item, {}).update(dict.fromkeys(line.users))
        in_order = sorted(users, key=lambda item: self.house.pantry[item].name.casefold())
        return self.wording.separated(
            self.wording.say(
                "order.for",
                item=strong(item_name(self.house, item)),
                users=self.wording.named(item_name(self.house, user) for user in users[item]),
            )
            for item in in_order
        )

    def _idle(self, use: StockUse) -> Text:
        item = use.entry.item
        known = any(item in ids for ids in (self.house.pantry, self.house.components, self.house.by_products))
        return self.wording.say(
            "order.idle.entry",
            item=item_name(self.house, item) if known else words(item),
            amount=self.measures.typed(use.entry.amount),
            reason=self.wording.say(f"order.idle.{_REASONS[use.reason]}" if use.reason else "order.idle.undated"),
        )
