"""What is on hand: which entries of stock count on a day, why others do not, and what a night takes of them.

Stock counts only while it is in life at the service. Knows dates, units and how long things keep; it reads no clock,
and what has to be made is not its business.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from linebook.compute.results import StockUse, Uncounted
from linebook.compute.weights import facts_for
from linebook.model.amounts import Amount, Duration
from linebook.model.conversion import convert_to, in_makes
from linebook.model.dating import own_days
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

_DAY: Final = 24 * 60


def counted_stock(house: House, occasion: Occasion) -> tuple[StockUse, ...]:
    """Return every entry of stock on hand, the occasion's and then its menu's, with what of it counts on the day.

    On a night without a date nothing can be shown to be in life: there is no stock.
    """
    if occasion.date is None:
        return ()
    entries = (*occasion.on_hand, *house.menus[occasion.menu].on_hand)
    return tuple(_counted(house, entry, occasion.date) for entry in entries)


def sums_of(stock: Iterable[StockUse]) -> dict[str, Fraction]:
    """Return how much of each item counts, in the unit that the item is made or left over in."""
    found: dict[str, Fraction] = {}
    for use in stock:
        if use.counted is not None:
            found[use.entry.item] = found.get(use.entry.item, Fraction(0)) + use.counted.number
    return found


def taken(stock: tuple[StockUse, ...], needs: Mapping[str, Fraction]) -> tuple[StockUse, ...]:
    """Return the stock with what a night takes of each entry: what must be served first is taken first.

    ``needs`` are all that is needed of components and by-products, in the unit of their stock. Of what is bought no
    ``used`` is told: how far that goes is a matter of its yield.
    """
    left = dict(needs)
    found = list(stock)
    in_order = sorted(range(len(stock)), key=lambda at: (stock[at].last or date.max, at))
    for at in in_order:
        use = stock[at]
        if use.counted is not None and use.entry.item in left:
            used = min(use.counted.number, left[use.entry.item])
            left[use.entry.item] -= used
            found[at] = replace(use, used=Amount(number=used, unit=use.counted.unit))
    return tuple(found)


def last_day(house: House, entry: StockEntry) -> date | None:
    """Return the last day an entry may be served: its label's, else by when it was made and how long it keeps.

    Day 1 is the day it was made, and no part is taken to be older than that: the label knows. What keeps for hours, or
    does not say how long, lasts for that day alone. None where neither day is known.
    """
    if entry.use_by is not None or entry.made is None:
        return entry.use_by
    component = house.components.get(entry.item)
    if component is None:
        return entry.made + timedelta(days=by_product_days(house, entry.item) - 1)
    if component.keeps is None:
        return entry.made
    days = own_days(component.id, house.components, {place.id: place for place in house.file.places})
    return entry.made + timedelta(days=(days or 1) - 1)


def by_product_days(house: House, item: str) -> int:
    """Return how many days a by-product lasts, the day it is left over included: what the least of its makers say."""
    return min([days_of(made.keeps) for _, made in house.by_products.get(item, ())], default=1)


def days_of(keeps: Duration | None) -> int:
    """Return how many days a keeping time is; one where it is in hours or not known."""
    return max(1, int(keeps.least // _DAY)) if keeps is not None and keeps.in_days else 1


def _counted(house: House, entry: StockEntry, day: date) -> StockUse:
    if entry.item in house.pantry:
        over = entry.use_by is not None and entry.use_by < day
        counted = None if over else entry.amount
        return StockUse(entry=entry, counted=counted, last=entry.use_by, reason=Uncounted.OVER if over else None)
    last = last_day(house, entry)
    reason = _reason(house, entry, last, day)
    if reason is not None:
        return StockUse(entry=entry, last=last, reason=reason)
    try:
        return StockUse(entry=entry, last=last, counted=_in_its_unit(house, entry))
    except ValueMistake:
        return StockUse(entry=entry, last=last, reason=Uncounted.UNITS)


def _reason(house: House, entry: StockEntry, last: date | None, day: date) -> Uncounted | None:
    if entry.item not in house.components and entry.item not in house.by_products:
        return Uncounted.UNKNOWN
    if last is None:
        return Uncounted.UNDATED
    if entry.made is not None and entry.made > day:
        return Uncounted.AHEAD
    if last >= day:
        return None
    component = house.components.get(entry.item)
    says = [made.keeps for _, made in house.by_products.get(entry.item, ())] if component is None else [component.keeps]
    lasts = entry.use_by is not None or all(says)
    return Uncounted.OVER if lasts else Uncounted.NO_LIFE


def _in_its_unit(house: House, entry: StockEntry) -> Amount:
    if entry.item in house.components:
        return in_makes(house.components[entry.item], entry.amount)
    unit = house.by_products[entry.item][0][1].amount.unit
    return convert_to(entry.amount, unit, facts_for(house, entry.item))
