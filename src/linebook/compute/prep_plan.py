"""When everything starts, so that it is ready for its service and no limit is broken: the prep plan of a span.

What is aimed at, in order: every service has what it needs; nothing is strained; the fewest batches in all; then the
freshest, which is the moments at which the batches are ready, added up, as late as can be. A plan is first made
component by component, those that are plated before those they are made from, by what those before them have left
free. A small one (up to 24 batches) is then held against every other (``plan_best``). Where there is one in which all
is ready and nothing strained, the best of these is the plan, unless more ways would have to be tried than are; and
unless components are on hand, or one takes a by-product that is not bought too, or one kept frozen is made from others.

Otherwise it is looked for, not proven: now and then there is a plan with a batch less, or a clean one where this one is
strained. The plan is made again in other ways (``plan_search``), and one with less that cannot be ready, else fewer
strains, else fewer batches is taken: with batches moved earlier for another to serve more; where it is small (up to 40)
also with components in another order, and with batches started earlier. Of plans that are as good the first stands,
however fresh another is. A large plan is made again once, a huge one not at all. Each is made so:

- The demand that is due first has a batch. It serves, in the order in which they are due, all later demands that it
  keeps for and that can be had with it at no strain more. What it is made beyond them, in whole steps, serves later
  demands as far as it goes.
- A batch is ready as late as its limits let it be, and of the ways that are ready then it starts as late as it can. Its
  loads, where each goes its own way, are placed so one after another.
- No batch is worked during service, before the trim it takes is left or after that is over, or by more hands than its
  line has, unless there is no other way. Before that, and before it is given up, others that take what it needs are
  moved out of its way, to earlier: these are then no longer as late as they could be, and no batch more is made for it.
- A batch goes by what others leave, where that is there and keeps. Nothing is made, nor made earlier, for what it
  leaves: else that must be there already, which is marked.
- What is too much work for the cooks of a line on a day is done earlier, where that breaks no limit.
- A part that finds no way asks the batch that uses it, in turn: to start on an earlier day; to serve fewer services;
  to be content with a part that keeps until its use, which is marked. All that comes after that batch is planned anew.
  Else the part cannot be ready, and nothing made from it, for that service.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from math import ceil
from typing import Final

from linebook.compute.plan_makings import makings_of, numbered
from linebook.compute.plan_order import users_then_parts
from linebook.compute.plan_results import Making, PrepPlan, Unready
from linebook.compute.plan_search import best_run
from linebook.compute.plan_work import Work
from linebook.compute.services import ServiceDay
from linebook.compute.totals import lead_time
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.house import House
from linebook.model.supply import StockEntry
from linebook.source.exact import Fraction

_DAY: Final = 24 * 60
_ROOM_BEFORE: Final = 21
"""Days before the longest way to a service that the grid begins, closed days not counted: a place that is taken."""
_CLOSED_BEFORE: Final = 120
"""Days before the first service whose closed days are looked at."""


def compute_plan(
    house: House,
    services: Sequence[ServiceDay],
    later: Sequence[ServiceDay] = (),
    *,
    first: date,
    last: date,
    on_hand: Sequence[StockEntry] = (),
    arrives: Mapping[str, date] | None = None,
) -> PrepPlan:
    """Return the prep plan for services of a span, and of what must be started within it for those ``later``.

    ``arrives`` are bought items that come late, by the day they are in the house. What cannot be ready is told with the
    limit that prevents it, and so is all that is made from it; the rest is planned as if nobody waited for them.
    """
    every = (*services, *later)
    if not every:
        return PrepPlan(first=first, last=last, services=(), later=(), makings=(), unready=(), work=())
    run = best_run(house, _calendar(house, every), every, on_hand, arrives or {})
    work = Work(run.board)
    work.ease(first, last)
    found = makings_of(run.board)
    days = {service.day for service in services}
    told = [
        replace(one, first=_first_after(found, one, run.asks.told))
        for one in run.asks.told.values()
        if one.service in days
    ]
    end = datetime.combine(last, time.max)
    kept = tuple(one for one in found if one.start <= end or not days.isdisjoint(one.services))
    numbers = {making.number: number for number, making in enumerate(kept)}
    on_board = {at: numbers[number] for at, number in numbered(run.board).items() if number in numbers}
    return PrepPlan(
        first=first,
        last=last,
        services=tuple(services),
        later=tuple(later),
        makings=tuple(_renumbered(one, numbers) for one in kept),
        unready=tuple(sorted(told, key=lambda one: (one.service, one.component))),
        work=work.by_day(on_board, first, last),
        stock=run.board.stock.used,
        arrives=arrives or {},
    )


def days_ahead(house: House) -> int:
    """Return how many days before a service the longest way to it begins at the most, in whole days."""
    longest: dict[str, Fraction] = {}
    for component in reversed(users_then_parts(house)):
        own = lead_time(house.components[component]).most
        parts = [longest.get(line.item, Fraction(0)) for line in house.components[component].ingredients]
        longest[component] = own + max(parts, default=Fraction(0))
    return ceil(max(longest.values(), default=Fraction(0)) / _DAY) + 2


def _calendar(house: House, services: Sequence[ServiceDay]) -> WorkCalendar:
    """Return the grid: from well before the longest way to the first service to the night after the last."""
    start = min(service.day for service in services)
    end = max(service.day for service in services) + timedelta(days=2)
    service = house.file.service
    closed = service.closed if service is not None else ()
    shut = sum(start - timedelta(days=_CLOSED_BEFORE) <= day < start for day in closed)
    begin = start - timedelta(days=2 * days_ahead(house) + _ROOM_BEFORE + shut)
    return WorkCalendar(house, begin, (end - begin).days)


def _renumbered(making: Making, numbers: Mapping[int, int]) -> Making:
    """Return a batch by its number among those kept; what takes a share may have been left out."""
    shares = tuple(replace(one, taker=None if one.taker is None else numbers.get(one.taker)) for one in making.shares)
    return replace(making, number=numbers[making.number], shares=shares)


def _first_after(makings: Sequence[Making], unready: Unready, told: Mapping[tuple[str, date], Unready]) -> date | None:
    """Return the first service after one that cannot have a component which can, for all that is made from it."""
    days = (day for one in makings if one.component == unready.component for day in one.services)
    after = (day for day in days if day > unready.service and (unready.component, day) not in told)
    return min(after, default=None)
