"""When a supplier delivers, by when it must be asked, and how many packs are enough: one item at a time.

Knows weekdays, lead times and packs; knows neither cards nor nights.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from math import ceil
from typing import Final

from linebook.compute.services import weekday_of
from linebook.model.amounts import Duration
from linebook.model.supply import Supplier
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_MINUTES_OF_A_DAY: Final = 24 * 60
_A_WEEK: Final = 7


@frozen
class Arrival:
    """One delivery day for what is needed by some day. ``in_time`` is false where it comes after that day.

    ``order_by`` is the last day to order it, None where the item does not say how long it takes.
    """

    day: date
    order_by: date | None
    in_time: bool = True


@frozen
class Purchase:
    """What one delivery must bring of one item, all in the item's base measure.

    ``needed`` is what is wanted until the next delivery and not left from the last; ``ordered`` that in whole packs,
    ``over`` what the packs leave. ``packs`` is None where no pack is known.
    """

    day: date
    needed: Fraction
    ordered: Fraction
    over: Fraction
    packs: int | None


def lead_days(lead: Duration | None) -> int | None:
    """Return a lead time in whole days, rounded up; None where it is not known."""
    return None if lead is None else ceil(lead.most / _MINUTES_OF_A_DAY)


def delivers_on(supplier: Supplier | None, day: date) -> bool:
    """Return whether a supplier comes on a day; one that names no days comes on any."""
    return supplier is None or not supplier.delivers or weekday_of(day) in supplier.delivers


def arrival_for(supplier: Supplier | None, lead: Duration | None, by: date, ordered_on: date) -> Arrival:
    """Return the last delivery on or before a day, or the first after it where that can no longer be ordered."""
    days = lead_days(lead)
    first = ordered_on + timedelta(days=days or 0)
    last = last_delivery(supplier, by)
    in_time = last >= first
    day = last if in_time else next_delivery(supplier, first)
    return Arrival(day=day, order_by=None if days is None else day - timedelta(days=days), in_time=in_time)


def last_delivery(supplier: Supplier | None, by: date) -> date:
    """Return the last day on or before ``by`` on which a supplier comes."""
    return next(day for at in range(_A_WEEK) if delivers_on(supplier, day := by - timedelta(days=at)))


def next_delivery(supplier: Supplier | None, start: date) -> date:
    """Return the first day from ``start`` on which a supplier comes."""
    return next(day for at in range(_A_WEEK) if delivers_on(supplier, day := start + timedelta(days=at)))


def purchases(wanted: Mapping[date, Fraction], pack: Fraction | None, *, whole: bool = False) -> tuple[Purchase, ...]:
    """Return what each delivery brings, by its day, for what is wanted of it; what a pack leaves goes to the next one.

    A delivery that the last one's leftovers cover is none. Without a pack just what is needed is ordered, and ``whole``
    ones of what is counted.
    """
    found: list[Purchase] = []
    left = Fraction(0)
    for day in sorted(wanted):
        needed = wanted[day] - left
        if needed <= 0:
            left = -needed
            continue
        packs = None if pack is None else ceil(needed / pack)
        ordered = Fraction(ceil(needed)) if whole else needed
        if pack is not None and packs is not None:
            ordered = pack * packs
        left = ordered - needed
        found.append(Purchase(day=day, needed=needed, ordered=ordered, over=left, packs=packs))
    return tuple(found)
