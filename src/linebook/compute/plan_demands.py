"""What must be ready when: the needs of every service at set-up time, and of every batch at the stage that uses them.

Knows amounts and moments; where a batch lands on the grid is not its business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from linebook.compute.portions import compute_portions, portion_amounts
from linebook.compute.results import Batch
from linebook.compute.services import ServiceDay
from linebook.compute.slots import A_DAY, slots_in
from linebook.compute.work_calendar import WorkCalendar, doors_of
from linebook.model.component import Component
from linebook.model.contents import stage_of
from linebook.model.conversion import in_makes
from linebook.model.dating import (
    Counting,
    counting,
    counts_in_trim,
    days_kept,
    days_of,
    is_kept_frozen,
    line_days,
    paused,
)
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.units import times
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Demand:
    """So much of a component, in the unit of its yield, wanted by the moment ``due``.

    ``served`` is the last day on which it is served, ``doors`` the moment at which its life in hours must still hold.
    ``user`` is the component whose batch ``batch`` wants it for the ingredient ``line`` of its card, all None where it
    is plated, on the line ``plating``. ``dated`` is true where the life of what is made from it ends no later than its
    own. ``paused`` is true where it comes out of the freezer into something that what is in it sets the date of, and
    ``counted`` the last day on which that is served.
    """

    amount: Fraction
    due: int
    served: date
    doors: int
    services: tuple[date, ...]
    user: str | None = None
    batch: int | None = None
    line: int | None = None
    plating: str | None = None
    dated: bool = True
    paused: bool = False
    counted: date | None = None

    @property
    def key(self) -> tuple[object, ...]:
        """Return what tells it from other demands of its component, wherever its user's batch lands."""
        return (self.user, self.line, self.services, self.plating)


def plated(house: House, services: Sequence[ServiceDay], calendar: WorkCalendar) -> dict[str, list[Demand]]:
    """Return what the plates of each service take of each component, by when the dish's line is set up."""
    found: dict[str, list[Demand]] = {}
    known: dict[tuple[str, int], dict[tuple[str, str], Fraction]] = {}
    for service in services:
        key = (service.menu, service.covers)
        if key not in known:
            known[key] = _on_plates(house, service)
        for (component, line), amount in known[key].items():
            set_up, doors = doors_of(house, line)
            due = calendar.at(service.day, set_up, end=True) if set_up else calendar.at(service.day, None, end=True)
            opens = calendar.at(service.day, doors) if doors else due
            demand = Demand(
                amount=amount, due=due, served=service.day, doors=opens, services=(service.day,), plating=line
            )
            found.setdefault(component, []).append(demand)
    return found


def wanted_by(
    house: House,
    batch: Batch,
    number: int,
    starts: Mapping[int, Sequence[int]],
    ready: int,
    shares: Sequence[Demand],
    calendar: WorkCalendar,
) -> Iterator[tuple[str, Demand]]:
    """Yield what a batch takes of other components, each by the first start of the stage it goes in at.

    ``starts`` are the moments at which the loads of each stage start. What sets its date must keep until the last
    service, less the days that the batch itself is frozen from when it is ``ready``; all else until the last start.
    """
    component = batch.component
    services = tuple(sorted({day for share in shares for day in share.services}))
    places = {place.id: place for place in house.file.places}
    frozen_on = calendar.day_of(ready) if is_kept_frozen(component, places) else None
    until = max(last_counted(share, frozen_on, calendar) for share in shares)
    for at, line in enumerate(batch.ingredients):
        part = house.components.get(line.ingredient.item)
        if part is None or line.total is None or not line.total.number:
            continue
        stage = stage_of(component, at) or 0
        how = counting(component, at, part, places)
        last = max(starts[stage])
        demand = Demand(
            amount=in_makes(part, line.total).number,
            due=min(starts[stage]),
            served=until if how is Counting.ON else calendar.day_of(last),
            doors=last,
            services=services,
            user=component.id,
            batch=number,
            line=at,
            dated=how is Counting.ON,
            paused=how is Counting.PAUSED,
            counted=until if how is Counting.PAUSED else None,
        )
        yield part.id, demand


def last_counted(demand: Demand, frozen_on: date | None, calendar: WorkCalendar) -> date:
    """Return the last day until which what is in a batch must keep for a demand, were it never frozen."""
    last = demand.counted or demand.served
    return last if frozen_on is None else last - paused(frozen_on, taken_out(demand, calendar))


def taken_out(demand: Demand, calendar: WorkCalendar) -> date:
    """Return the day on which it is taken for a demand, out of the freezer where it is in there."""
    return demand.served if demand.user is None else calendar.day_of(demand.due)


def days_parts_keep(house: House) -> dict[str, dict[int, int]]:
    """Return, by component and stage, the days that what goes in there keeps, at the least, counted from that day on.

    Only of what sets the date of the whole. Of what is frozen afterwards the count stands still, and is not told.
    """
    places = {place.id: place for place in house.file.places}
    days = days_of(house.components, places)
    found: dict[str, dict[int, int]] = {}
    for id_, component in house.components.items():
        stages = found.setdefault(id_, {})
        if is_kept_frozen(component, places):
            continue
        for at in range(len(component.ingredients)):
            keeps, stage = line_days(component, at, house.components, days, places), stage_of(component, at) or 0
            if keeps is not None:
                stages[stage] = min(keeps, stages.get(stage, keeps))
    return found


def days_in_trims(house: House) -> dict[tuple[str, str], dict[int, int]]:
    """Return, by component and by-product it leaves, the days that what goes in at a stage lets that keep, at the most.

    Counted from the day it goes in, where it is as fresh as can be then.
    """
    days = days_of(house.components, {place.id: place for place in house.file.places}) if house.by_products else {}
    found: dict[tuple[str, str], dict[int, int]] = {}
    for item, makers in house.by_products.items():
        for maker, made in makers:
            stages = found.setdefault((maker.id, item), {})
            for at, line in enumerate(maker.ingredients):
                part, stage = house.components.get(line.item), stage_of(maker, at) or 0
                keeps = days[line.item].own if part is not None and part.kept_by is None else None
                if keeps is not None and counts_in_trim(maker, at, made):
                    stages[stage] = min(keeps, stages.get(stage, keeps))
    return found


@frozen
class Life:
    """How long a component keeps, in days or in slots; how fresh it must be, in slots; and whether it is made daily."""

    days: int | None
    hours: int | None
    fresh: int | None
    daily: bool

    @classmethod
    def of(cls, component: Component) -> Life:
        """Return the life that a card gives a component."""
        keeps, fresh = component.keeps, component.fresh_within
        return cls(
            days=days_kept(component) if keeps is not None and keeps.in_days else None,
            hours=slots_in(keeps.least) if keeps is not None and not keeps.in_days else None,
            fresh=slots_in(fresh.least) if fresh is not None else None,
            daily=component.make_daily,
        )

    @property
    def is_known(self) -> bool:
        """Return whether anybody has said how long it keeps."""
        return self.days is not None or self.hours is not None

    def ready_from(self, demand: Demand, calendar: WorkCalendar) -> int:
        """Return the moment before which it must not be ready, by its life in hours, its freshness and its day."""
        first = max(0, *(demand.doors - slots for slots in (self.hours, self.fresh) if slots is not None), 0)
        if self.daily:
            day = demand.served if demand.user is None else calendar.day_of(demand.due)
            first = max(first, calendar.at(day, None))
        return first

    def begins_from(self, demand: Demand) -> date | None:
        """Return the first day from which it may count, so that it keeps until it is served; None where all may."""
        return None if self.days is None else demand.served - timedelta(days=self.days - 1)

    def reach(self, moment: int) -> int | None:
        """Return the last moment at which something ready by a moment could be used; None where nobody knows one."""
        if self.days is not None:
            return moment + self.days * A_DAY
        return None if self.hours is None else moment + self.hours


def _on_plates(house: House, service: ServiceDay) -> dict[tuple[str, str], Fraction]:
    """Return how much of each component the dishes of each line plate at a service, what is lost counted in."""
    found: dict[tuple[str, str], Fraction] = {}
    for demand in compute_portions(house, Occasion(menu=service.menu, covers=service.covers, date=service.day)):
        dish = house.dishes[demand.dish]
        for item, amount in portion_amounts(dish, demand.size):
            component = house.components.get(item)
            if component is not None:
                whole = in_makes(component, times(amount, Fraction(demand.portions))).number
                key = (item, dish.line)
                found[key] = found.get(key, Fraction(0)) + whole
    return found
