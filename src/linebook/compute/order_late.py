"""What cannot come in time: which van is missed, when that had to be ordered, what comes next, and whom it touches.

Works on services that are already computed. Knows neither packs nor paper, and reads no clock.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, time, timedelta

from linebook.compute.deliveries import last_delivery, lead_days
from linebook.compute.order_needs import Wanted
from linebook.compute.results import Night
from linebook.model.amounts import Amount, Unit
from linebook.model.house import House
from linebook.model.pantry import PantryItem
from linebook.model.supply import Supplier
from linebook.model.units import from_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class TooLate:
    """What must be in the house before it can come: ``by`` the first day, ``comes`` the first delivery there can be.

    ``missed`` is the delivery it should come with, ``order_by`` the day that had to be ordered by (None where no lead
    time is known) and ``until`` the time of that day. ``serves`` is the first of the services that ``comes`` is in time
    for, None where there is none. ``users`` are the cards that take it, ``dishes`` what it touches on the ``services``.
    """

    item: str
    amount: Amount
    by: date
    comes: date
    users: tuple[str, ...]
    services: tuple[date, ...]
    missed: date
    order_by: date | None = None
    until: time | None = None
    serves: date | None = None
    dishes: tuple[str, ...] = ()


class LateFinder:
    """Tells of what comes too late, for the services of one order."""

    def __init__(self, house: House, nights: Mapping[date, Night]) -> None:
        """Take the nights by their day, all of them."""
        self._house = house
        self._nights = nights
        self._known: dict[date, Mapping[str, tuple[str, ...]]] = {}

    def too_late(
        self,
        item: PantryItem,
        supplier: Supplier | None,
        unit: Unit,
        comes: date,
        late: Sequence[tuple[Wanted, Fraction]],
        wanted: Iterable[Wanted],
    ) -> TooLate:
        """Return what is said of an item whose delivery comes after it is wanted.

        ``late`` is what it is too late for, with amounts in the base measure of ``unit``; ``wanted`` is all of it that
        the services take.
        """
        by = min(one.by for one, _ in late)
        missed, days = last_delivery(supplier, by), lead_days(item.lead)
        touched = dict.fromkeys(dish for one, _ in late for dish in self._dishes(one.service).get(one.user, ()))
        return TooLate(
            item=item.id,
            amount=from_base(sum((number for _, number in late), Fraction(0)), unit),
            by=by,
            comes=comes,
            users=tuple(dict.fromkeys(one.user for one, _ in late)),
            services=tuple(sorted({one.service for one, _ in late})),
            missed=missed,
            order_by=None if days is None else missed - timedelta(days=days),
            until=supplier.order_by if supplier is not None and days is not None else None,
            serves=_first_served(wanted, comes),
            dishes=tuple(touched),
        )

    def _dishes(self, day: date) -> Mapping[str, tuple[str, ...]]:
        if day not in self._known:
            self._known[day] = dishes_by_user(self._house, self._nights[day])
        return self._known[day]


def dishes_by_user(house: House, night: Night) -> Mapping[str, tuple[str, ...]]:
    """Return, by dish and component of a night, the dishes that it is in at any depth, by-products too."""
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for dish in dict.fromkeys(demand.dish for demand in night.demands):
        found[dish][dish] = None
        for user in _inside(house, night, [element.item for element in house.dishes[dish].elements]):
            found[user][dish] = None
    return {user: tuple(dishes) for user, dishes in found.items()}


def _inside(house: House, night: Night, items: list[str]) -> Iterator[str]:
    """Yield the components of a night that some items are made of."""
    seen: set[str] = set()
    while items:
        item = items.pop()
        for id_ in (item, *(maker.id for maker, _ in house.by_products.get(item, ()))):
            if id_ in night.batches and id_ not in seen:
                seen.add(id_)
                yield id_
                items += [line.ingredient.item for line in night.batches[id_].ingredients]


def _first_served(wanted: Iterable[Wanted], comes: date) -> date | None:
    """Return the first service of which nothing is wanted before a delivery comes."""
    earliest: dict[date, date] = {}
    for one in wanted:
        earliest[one.service] = min(one.by, earliest.get(one.service, one.by))
    return min((service for service, by in earliest.items() if by >= comes), default=None)
