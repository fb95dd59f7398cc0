"""Looks for a plan of fewer batches, of fewer strains or with more ready than the first: it plans again and compares.

Knows how a plan is judged and what is tried; how one is made is ``plan_run``'s business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Final, TypeAlias

from linebook.compute.plan_asks import Asks
from linebook.compute.plan_best import is_clean, whole_run
from linebook.compute.plan_order import parts_of
from linebook.compute.plan_results import Strain
from linebook.compute.plan_run import Run
from linebook.compute.services import ServiceDay
from linebook.compute.slots import A_DAY
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.house import House
from linebook.model.supply import StockEntry
from linebook.source.frozen import frozen

_MOST_PLACED: Final = 300
"""So many batches are placed again at the most while looking."""
_LARGE: Final = 40
"""A plan of more batches is planned again once at the most: others move out of the way of a batch for more services."""
_HUGE: Final = 250
"""A plan of more batches is not planned again at all."""
_AN_HOUR: Final = A_DAY // 24
_EARLIER: Final = (1, 2, 3, 4, 6, 8, 12, 18, 24, 48)
"""Hours by which a batch is asked to start earlier, in turn."""

Judged: TypeAlias = tuple[int, int, int]


@frozen
class Way:
    """How to plan otherwise: in another ``order`` of components, with batches that start by a moment.

    ``until`` is by component and first service. Where it ``gives_way``, a batch is moved for another to serve more.
    """

    order: tuple[str, ...]
    until: Mapping[tuple[str, date], int]
    gives_way: bool = False


def best_run(
    house: House,
    calendar: WorkCalendar,
    services: Sequence[ServiceDay],
    on_hand: Sequence[StockEntry],
    arrives: Mapping[str, date],
) -> Run:
    """Return the run that is best by what cannot be ready, then by strains, then by batches; the first among equals.

    A small one in which all is ready and nothing strained is the freshest of all with so few batches. Else what is
    better is tried otherwise in its turn, until nothing is better or enough has been placed.
    """

    def planned(way: Way) -> Run:
        run = Run(house, calendar, services, on_hand, arrives, way.order, Asks(way.until), gives_way=way.gives_way)
        run.plan()
        return run

    way = Way(order=(), until={})
    best = planned(way)
    better, is_sure = whole_run(best, lambda: Run(house, calendar, services, on_hand, arrives))
    best = better or best
    if is_sure and is_clean(best):
        return best
    number = len(best.board.placed)
    left, found = _MOST_PLACED if number <= _LARGE else number if number <= _HUGE else 0, True
    while found and not _is_least(best):
        found = False
        for other in _others(house, best, way):
            left -= max(1, len(best.board.placed))
            if left < 0:
                return best
            run = planned(other)
            if judged(run) < judged(best) and without_trims(run) <= without_trims(best):
                best, way, found = run, other, True
                break
    return best


def judged(run: Run) -> Judged:
    """Return how good a plan is, the less the better: what cannot be ready, what is strained, how many batches."""
    return (len(run.asks.told), strained(run), len(run.board.placed))


def strained(run: Run) -> int:
    """Return how many strains its batches have, parts that do not keep until the service counted in.

    By-products that are not there in time are not: nothing is made, nor made earlier, for what it leaves.
    """
    kept = sum(1 for place in run.board.placed for demand in place.demands if demand in run.not_kept)
    strains = [strain for place in run.board.placed for strain in place.placing.strains]
    return kept + sum(strain is not Strain.EARLIER_TRIM for strain in strains)


def without_trims(run: Run) -> int:
    """Return how many demands are met by batches that take by-products which must be there already."""
    strained_ = (place for place in run.board.placed if Strain.EARLIER_TRIM in place.placing.strains)
    return sum(len(place.demands) for place in strained_)


def _is_least(run: Run) -> bool:
    """Return whether nothing could be better: one clean batch of each component."""
    placed = run.board.placed
    return not run.asks.told and not strained(run) and len({one.component.id for one in placed}) == len(placed)


def _others(house: House, run: Run, way: Way) -> Iterator[Way]:
    """Yield ways that differ in one thing: a component planned before others, or a batch that starts earlier."""
    if not way.gives_way:
        yield replace(way, gives_way=True)
    parts = parts_of(house)
    for component in run.order:
        order = _brought_forward(component, run.order, parts)
        if order != run.order:
            yield replace(way, order=order)
    for hours in _EARLIER:
        for place in run.board.placed:
            key = (place.component.id, min(day for demand in place.demands for day in demand.services))
            moment = place.placing.start - hours * _AN_HOUR
            if moment > 0:
                yield replace(way, until={**way.until, key: moment})


def _brought_forward(component: str, order: Sequence[str], parts: Mapping[str, set[str]]) -> tuple[str, ...]:
    """Return an order in which a component comes first, only those before it that must be planned before it."""
    before = {component}
    for id_ in reversed(order):
        if parts[id_] & before:
            before.add(id_)
    return (*(id_ for id_ in order if id_ in before), *(id_ for id_ in order if id_ not in before))
