"""Stock over several services: each takes what is in life, the earliest service first, and leaves the rest to the next.

Knows no supplier and no pack.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from math import ceil

from linebook.compute.demand import compute_night
from linebook.compute.order_needs import MINUTES_OF_A_DAY, ways_to_service
from linebook.compute.results import Night, Standing, StockUse
from linebook.compute.services import ServiceDay
from linebook.compute.totals import lead_time
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Served:
    """The nights of a span, in order, and what became of the stock.

    ``bought`` is the stock of bought items, which no night has taken yet; ``idle`` is stock that never counted, each
    with the reason at the last service. ``left`` is what the last service leaves of what is made.
    """

    nights: tuple[Night, ...]
    bought: tuple[StockEntry, ...]
    idle: tuple[StockUse, ...]
    left: tuple[StockEntry, ...] = ()


class Nights:
    """The nights of one house, each computed once: most services of a menu are for covers that come again."""

    def __init__(self, house: House) -> None:
        """Take the house; what its menus have on hand is handed out service by service instead."""
        menus = {id_: replace(menu, on_hand=()) for id_, menu in house.menus.items()}
        self._house = replace(house, menus=menus)
        self._known: dict[tuple[str, int], Night] = {}

    def without_stock(self, service: ServiceDay) -> Night:
        """Return the night of a service with nothing on hand; its day is not to be relied on."""
        key = (service.menu, service.covers)
        if key not in self._known:
            self._known[key] = self.with_stock(service, ())
        return self._known[key]

    def with_stock(self, service: ServiceDay, on_hand: tuple[StockEntry, ...]) -> Night:
        """Return the night of a service with this on hand."""
        occasion = Occasion(menu=service.menu, covers=service.covers, date=service.day, on_hand=on_hand)
        return compute_night(self._house, occasion)


def run_services(
    house: House,
    nights: Nights,
    services: Sequence[ServiceDay],
    on_hand: Sequence[StockEntry],
    *,
    begun: Collection[str] = (),
) -> Served:
    """Return the nights of the services, in order; what a menu has on hand is there from its first service on.

    What whole steps and least batches make over at one service is there at the next, while in life. ``begun`` are the
    menus whose stock was handed out before.
    """
    bought, made = _parted(house, on_hand)
    known, over = {*begun}, list[StockEntry]()
    found, idle = [], dict[StockEntry, StockUse]()
    counted: set[StockEntry] = set()
    for service in services:
        if service.menu not in known:
            known.add(service.menu)
            of_menu = _parted(house, house.menus[service.menu].on_hand)
            bought, made = [*bought, *of_menu[0]], [*made, *of_menu[1]]
        held = (*made, *over)
        night = nights.with_stock(service, held) if held else nights.without_stock(service)
        found.append(night)
        given, own = night.stock[: len(made)], night.stock[len(made) :]
        for use in given:
            if use.counted is None:
                idle[use.entry] = use
            else:
                counted.add(use.entry)
        made = list(_left(given))
        over = [*_left(use for use in own if use.counted is not None), *_made_over(house, night, service.day)]
    return Served(
        nights=tuple(found),
        bought=tuple(bought),
        idle=tuple(use for entry, use in idle.items() if entry not in counted),
        left=(*made, *over),
    )


def _made_over(house: House, night: Night, day: date) -> Iterator[StockEntry]:
    """Yield what a night makes beyond its need and a later one may take; its life is judged there.

    It is made at the latest that its own users allow, in whole days rounded up; what is left over in making it is as
    old as its start. What is made new each day, or at most some hours before service, goes to no other.
    """
    over = {id_: batch for id_, batch in night.batches.items() if batch.surplus is not None and batch.surplus.number}
    spare = [one for one in night.balances.values() if one.standing is Standing.SPARE and one.item not in house.pantry]
    ways = ways_to_service(house, night.batches) if over or spare else {}
    for one in spare:
        left = min(one.difference.number, one.made.number)  # the rest of it is stock, which is there by itself
        makers = [maker for maker, made in house.by_products[one.item] if maker.id in ways and made.keeps is not None]
        if left and makers and len(makers) == len(one.makers):
            made_on = day - timedelta(days=max(ceil(ways[maker.id] / MINUTES_OF_A_DAY) for maker in makers))
            amount = Amount(number=left, unit=one.difference.unit)
            yield StockEntry(item=one.item, amount=amount, made=made_on, span=makers[0].span, spans={})
    for id_, batch in over.items():
        component, surplus = batch.component, batch.surplus
        if surplus is None or component.make_daily or component.fresh_within is not None or component.keeps is None:
            continue
        after = ceil((ways[id_] - lead_time(component).most) / MINUTES_OF_A_DAY)
        made = day - timedelta(days=after)
        yield StockEntry(item=id_, amount=surplus, made=made, span=component.span, spans={})


def _parted(house: House, on_hand: Iterable[StockEntry]) -> tuple[list[StockEntry], list[StockEntry]]:
    entries = tuple(on_hand)
    return [one for one in entries if one.item in house.pantry], [
        one for one in entries if one.item not in house.pantry
    ]


def _left(stock: Iterable[StockUse]) -> Iterator[StockEntry]:
    for use in stock:
        if use.counted is None or use.used is None or not use.used.number:
            yield use.entry
        elif use.used.number < use.counted.number:
            left = Amount(number=use.counted.number - use.used.number, unit=use.counted.unit)
            yield replace(use.entry, amount=left)


@frozen
class Held:
    """One entry of stock of a bought item, in the base measure it is bought in; ``last`` is its last day, if any."""

    number: Fraction
    last: date | None = None


def take_off(wanted: Sequence[tuple[date, Fraction]], held: Iterable[Held]) -> list[Fraction]:
    """Return what is still wanted of each once stock is taken off.

    ``wanted`` are days of service and amounts, in the order in which they are served. What must go first is taken
    first, and nothing after its last day.
    """
    in_order = sorted(held, key=lambda one: one.last or date.max)
    left = [one.number for one in in_order]
    still = []
    for day, number in wanted:
        rest = number
        for at, one in enumerate(in_order):
            if one.last is None or one.last >= day:
                part = min(rest, left[at])
                left[at] -= part
                rest -= part
        still.append(rest)
    return still
