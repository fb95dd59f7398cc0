"""What is bought for the services of some days: by supplier and delivery, in whole packs, with the day to order it.

Exact, but for packs and things that are counted, which are whole. Knows neither money nor paper, and reads no clock.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, time
from typing import Final

from linebook.compute.deliveries import Arrival, Purchase, arrival_for, last_delivery, purchases
from linebook.compute.order_late import LateFinder, TooLate
from linebook.compute.order_needs import Short, Wanted, not_counted, short_for, wanted_for
from linebook.compute.order_stock import Held, Nights, Served, run_services, take_off
from linebook.compute.results import StockUse, Uncounted
from linebook.compute.services import NOT_ASKED, CoversAsked, ServiceDay, Services, last_day_of, later_services
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.conversion import convert, facts_of
from linebook.model.house import House
from linebook.model.pantry import PantryItem, Season
from linebook.model.supply import StockEntry, Supplier
from linebook.model.units import GRAM, from_base, same_measure, to_base
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen

_ONE: Final = Fraction(1)


@frozen
class OrderLine:
    """One item of one delivery, as purchased, all in one unit.

    ``needed`` is what is wanted until the next delivery, less stock and what the last one left over; ``over`` what the
    packs leave of it. ``pack`` and ``packs`` are None where no pack is known that it can be counted in. ``users`` are
    the dishes and components that take it, ``services`` the days they are served.
    """

    item: str
    needed: Amount
    ordered: Amount
    over: Amount
    pack: Amount | None
    packs: int | None
    users: tuple[str, ...]
    services: tuple[date, ...]


@frozen
class Delivery:
    """What one supplier brings on one day and is ordered by one day. ``supplier`` is '' where none is named.

    ``order_by`` is None where no item says how long it takes; ``until`` is the time of that day.
    """

    supplier: str
    day: date
    order_by: date | None
    until: time | None
    lines: tuple[OrderLine, ...]


@frozen
class InSeason:
    """An item with a season, and what is still needed of it, stock taken off.

    ``here`` is needed for these services, ``in_all`` until ``ends``, the last day of the menu (None where no end is
    known: then it is the same as ``here``). ``after`` of it must be in the house after its last day, ``after_here`` of
    that for these services; ``before`` before its first. ``last_delivery`` is the last on which it can come in season.
    """

    item: str
    season: Season
    here: Amount
    in_all: Amount
    after: Amount
    after_here: Amount
    before: Amount
    ends: date | None
    last_delivery: date


@frozen
class Order:
    """All there is to order for some services, and what must be said of it.

    ``short`` are by-products to make or buy, ``uncounted`` the items that are taken without an amount, ``idle`` is
    stock that does not count, with the reason. ``written`` is the day it is ordered from.
    """

    first: date
    last: date
    written: date
    services: tuple[ServiceDay, ...]
    without_menu: tuple[date, ...]
    deliveries: tuple[Delivery, ...]
    too_late: tuple[TooLate, ...]
    seasons: tuple[InSeason, ...]
    short: tuple[Short, ...]
    uncounted: tuple[str, ...]
    idle: tuple[StockUse, ...]


def compute_order(
    house: House,
    services: Services,
    *,
    first: date,
    last: date,
    written: date,
    on_hand: Sequence[StockEntry] = (),
    asked: CoversAsked = NOT_ASKED,
) -> Order:
    """Return what is to be bought for services between two days, if it is ordered on ``written`` or later.

    Each service takes stock before it buys, the earliest first. What is wanted comes with the last delivery on or
    before the day it must be in the house; each delivery brings what is wanted until the next, in whole packs over all
    of its uses, and what these leave is carried on. ``asked`` are the covers of services after these days, which only
    the seasons look at.
    """
    nights = Nights(house)
    served = run_services(house, nights, services.days, on_hand)
    days = [service.day for service in services.days]
    wanted = [one for night, day in zip(served.nights, days, strict=True) for one in wanted_for(house, night, day)]
    shares = tuple(_shares(house, wanted, served.bought))
    by_day = dict(zip(days, served.nights, strict=True))
    lines, too_late = _arranged(house, shares, written, LateFinder(house, by_day))
    ordered = {line.item for _, line in lines}
    return Order(
        first=first,
        last=last,
        written=written,
        services=services.days,
        without_menu=services.without_menu,
        deliveries=tuple(_deliveries(house, lines)),
        too_late=too_late,
        seasons=tuple(_seasons(house, nights, services, shares, asked, served.left)),
        short=tuple(
            one for night, day in zip(served.nights, days, strict=True) for one in short_for(house, night, day)
        ),
        uncounted=tuple(item for item in not_counted(house, served.nights) if item not in ordered),
        idle=tuple(_idle(served, shares, days)),
    )


@frozen
class _Share:
    """All that is wanted of one item in one measure, stock taken off: each ``wanted`` with what is ``still`` to buy.

    ``unit`` is what it is told in; ``pack`` is in its base measure, None where it is not bought so.
    """

    item: PantryItem
    unit: Unit
    pack: Fraction | None
    wanted: tuple[Wanted, ...]
    numbers: tuple[Fraction, ...]
    still: tuple[Fraction, ...]
    unmet: tuple[StockEntry, ...] = ()


def _shares(house: House, wanted: Iterable[Wanted], stock: Iterable[StockEntry]) -> Iterator[_Share]:
    by_item: dict[str, list[Wanted]] = {}
    for one in wanted:
        by_item.setdefault(one.item, []).append(one)
    held: dict[str, list[StockEntry]] = {}
    for entry in stock:
        held.setdefault(entry.item, []).append(entry)
    for item, found in by_item.items():
        yield from _item_shares(house.pantry[item], found, held.get(item, []))


def _item_shares(item: PantryItem, wanted: list[Wanted], stock: list[StockEntry]) -> Iterator[_Share]:
    """Yield what is wanted of an item: in its pack's measure, else by weight, else in each measure by itself."""
    left = list(wanted)
    while left:
        unit = _unit_for(item, left)
        mine = [(one, number) for one in left if (number := _in_measure(item, one.amount, unit)) is not None]
        left = [one for one in left if _in_measure(item, one.amount, unit) is None]
        mine.sort(key=lambda pair: (pair[0].service, pair[0].by))
        held = [(entry, _in_measure(item, entry.amount, unit)) for entry in stock]
        still = take_off(
            [(one.service, number) for one, number in mine],
            [Held(number=number, last=entry.use_by) for entry, number in held if number is not None],
        )
        stock = [entry for entry, number in held if number is None]
        has_pack = item.pack is not None and same_measure(item.pack.unit, unit)
        yield _Share(
            item=item,
            unit=unit,
            pack=to_base(item.pack) if has_pack and item.pack is not None else None,
            wanted=tuple(one for one, _ in mine),
            numbers=tuple(number for _, number in mine),
            still=tuple(still),
            unmet=() if left else tuple(stock),
        )


def _unit_for(item: PantryItem, wanted: Sequence[Wanted]) -> Unit:
    """Return the unit to tell an item in: of its pack where anything can be turned into that, else as it is taken."""
    if item.pack is not None and any(_in_measure(item, one.amount, item.pack.unit) is not None for one in wanted):
        return item.pack.unit
    first = wanted[0].amount.unit
    if all(same_measure(first, one.amount.unit) for one in wanted):
        return first
    if all(_in_measure(item, one.amount, GRAM) is not None for one in wanted):
        weighed = [one.amount.unit for one in wanted if one.amount.unit.kind is Kind.MASS]
        return weighed[0] if weighed else GRAM
    return first


def _in_measure(item: PantryItem, amount: Amount, unit: Unit) -> Fraction | None:
    """Return an amount in the base measure of a unit, None where the item does not say how."""
    if same_measure(amount.unit, unit):
        return to_base(amount)
    try:
        return convert(amount, unit.kind, facts_of(item), counts=unit.counts or "each")
    except ValueMistake:
        return None


def _arranged(
    house: House, shares: Iterable[_Share], written: date, finder: LateFinder
) -> tuple[list[tuple[Arrival, OrderLine]], tuple[TooLate, ...]]:
    """Return every line with its delivery, and what cannot come in time."""
    lines: list[tuple[Arrival, OrderLine]] = []
    too_late: list[TooLate] = []
    for share in shares:
        late: dict[date, list[tuple[Wanted, Fraction]]] = {}
        supplier = find_supplier(house, share.item)
        coming: dict[date, tuple[Arrival, list[tuple[Wanted, Fraction]]]] = {}
        first = min((one.by for one, number in zip(share.wanted, share.still, strict=True) if number), default=written)
        for one, number in zip(share.wanted, share.still, strict=True):
            if number:
                arrival = arrival_for(supplier, share.item.lead, one.by if share.item.supplier else first, written)
                coming.setdefault(arrival.day, (arrival, []))[1].append((one, number))
                if arrival.day > one.by and is_bought(share.item):
                    late.setdefault(arrival.day, []).append((one, number))
        sums = {day: sum((number for _, number in found), Fraction(0)) for day, (_, found) in coming.items()}
        whole = share.unit.kind is Kind.COUNT
        for purchase in purchases(sums, share.pack, whole=whole):
            arrival, found = coming[purchase.day]
            lines.append((arrival, _line(share, purchase, [one for one, _ in found])))
        for comes, found in late.items():
            too_late.append(finder.too_late(share.item, supplier, share.unit, comes, found, share.wanted))
    return lines, tuple(sorted(too_late, key=lambda one: (one.comes, one.item)))


def _line(share: _Share, purchase: Purchase, found: Sequence[Wanted]) -> OrderLine:
    return OrderLine(
        item=share.item.id,
        needed=from_base(purchase.needed, share.unit),
        ordered=from_base(purchase.ordered, share.unit),
        over=from_base(purchase.over, share.unit),
        pack=None if purchase.packs is None else share.item.pack,
        packs=purchase.packs,
        users=_users(found),
        services=_services(found),
    )


def is_bought(item: PantryItem) -> bool:
    """Return whether an item is bought at all: what costs nothing and has no supplier, pack or lead is water."""
    free = item.price is not None and not item.price.money
    return not free or any(one is not None for one in (item.supplier, item.pack, item.lead))


def find_supplier(house: House, item: PantryItem) -> Supplier | None:
    """Return the supplier of an item as the house lists it, None where it does not."""
    return next((one for one in house.file.suppliers if one.name == item.supplier), None)


def _users(found: Iterable[Wanted]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.user for one in found))


def _services(found: Iterable[Wanted]) -> tuple[date, ...]:
    return tuple(sorted({one.service for one in found}))


def _deliveries(house: House, lines: Iterable[tuple[Arrival, OrderLine]]) -> Iterator[Delivery]:
    """Yield the deliveries: suppliers in the house's order, then others by name, each by day.

    Last comes what has no supplier: all of it together, for the first day it is needed.
    """
    places = {supplier.name: at for at, supplier in enumerate(house.file.suppliers)}
    grouped: dict[tuple[int, str, date, date], list[tuple[date, OrderLine]]] = {}
    for arrival, line in lines:
        name = house.pantry[line.item].supplier or ""
        place = places.get(name, len(places) if name else len(places) + 1)
        key = (place, name, arrival.day if name else date.min, arrival.order_by or date.max)
        grouped.setdefault(key, []).append((arrival.day, line))
    for (_, name, _, order_by), found in sorted(grouped.items(), key=lambda pair: pair[0]):
        supplier = next((one for one in house.file.suppliers if one.name == name), None)
        known = order_by != date.max
        yield Delivery(
            supplier=name,
            day=min(day for day, _ in found),
            order_by=order_by if known else None,
            until=supplier.order_by if supplier is not None and known else None,
            lines=tuple(sorted((line for _, line in found), key=lambda line: house.pantry[line.item].name.casefold())),
        )


def _seasons(
    house: House,
    nights: Nights,
    services: Services,
    shares: Sequence[_Share],
    asked: CoversAsked,
    left: Sequence[StockEntry],
) -> Iterator[InSeason]:
    seasonal = [share for share in shares if share.item.season is not None and any(share.still)]
    if not seasonal:
        return
    ends = last_day_of(house, services.days[-1].menu)
    later = _later_needs(house, nights, services, ends, asked, left)
    for share in seasonal:
        season = share.item.season
        assert season is not None
        here = [(one.by, number) for one, number in zip(share.wanted, share.still, strict=True)]
        more = [
            (one.by, number)
            for one in later.get(share.item.id, ())
            if (number := _in_measure(share.item, one.amount, share.unit)) is not None
        ]
        yield InSeason(
            item=share.item.id,
            season=season,
            here=_told(share, here),
            in_all=_told(share, [*here, *more]),
            after=_told(share, [(by, number) for by, number in (*here, *more) if by > season.last]),
            after_here=_told(share, [(by, number) for by, number in here if by > season.last]),
            before=_told(share, [(by, number) for by, number in (*here, *more) if by < season.first]),
            ends=ends,
            last_delivery=last_delivery(find_supplier(house, share.item), season.last),
        )


def _later_needs(
    house: House,
    nights: Nights,
    services: Services,
    ends: date | None,
    asked: CoversAsked,
    left: Sequence[StockEntry],
) -> Mapping[str, list[Wanted]]:
    """Return what the services need that follow on the last of these until the menu ends, by item.

    ``left`` is what these leave of what is made.
    """
    found: dict[str, list[Wanted]] = {}
    last = services.days[-1].day
    if ends is not None:
        later = [service for service in later_services(house, last, ends, asked) if service.day > last]
        begun = {service.menu for service in services.days}
        after = run_services(house, nights, later, left, begun=begun)
        for service, night in zip(later, after.nights, strict=True):
            for one in wanted_for(house, night, service.day):
                found.setdefault(one.item, []).append(one)
    return found


def _told(share: _Share, found: Iterable[tuple[date, Fraction]]) -> Amount:
    return from_base(sum((number for _, number in found), Fraction(0)), share.unit)


def _idle(served: Served, shares: Iterable[_Share], days: Sequence[date]) -> Iterator[StockUse]:
    """Yield the stock that does not count: past its life before any service, or in a unit that cannot meet."""
    yield from served.idle
    unmet = [entry for share in shares for entry in share.unmet]
    for entry in served.bought:
        if days and entry.use_by is not None and entry.use_by < days[0]:
            yield StockUse(entry=entry, last=entry.use_by, reason=Uncounted.OVER)
        elif entry in unmet:
            yield StockUse(entry=entry, last=entry.use_by, reason=Uncounted.UNITS)
