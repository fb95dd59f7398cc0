"""Which by-product a batch takes: when batches on the plan leave it, and how long it keeps from then on.

A batch takes what was left last before it. Knows the batches on the board; what is made where nothing was left in time
is not its business, for nothing is made for the sake of what it leaves.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import groupby, pairwise
from typing import Final

from linebook.compute.placing import Place, Placing
from linebook.compute.plan_board import Board
from linebook.compute.plan_demands import Demand
from linebook.compute.slots import A_DAY, Slots, between, slots_in
from linebook.compute.totals import lead_time
from linebook.model.component import Component
from linebook.model.contents import stage_of
from linebook.model.dating import counting, days_kept, is_kept_frozen
from linebook.source.frozen import frozen

_SLACK: Final = 40 * A_DAY
"""How much longer before it is wanted than it takes a batch may be begun, at the most."""


@frozen
class Left:
    """What batches leave of a by-product at one moment; it keeps until ``last``, None where nobody says."""

    moment: int
    last: date | None


@frozen
class Taking:
    """What is left of a by-product that goes in at a stage, in order; whether what is made must be served in its life.

    Where not, it is enough that it goes in while it keeps: its date does not count there, or it is frozen. ``reach`` is
    how long before it is wanted, at the most, what is made can be begun.
    """

    stage: int
    lefts: tuple[Left, ...]
    counts: bool
    reach: int


def takings_of(board: Board, component: Component) -> tuple[Taking, ...]:
    """Return what a component takes of by-products that batches on the plan leave, but of what can be bought too."""
    house, found = board.house, list[Taking]()
    for at, line in enumerate(component.ingredients):
        if line.item not in house.by_products or line.item in house.pantry:
            continue
        lefts = lefts_of(board, line.item, _at_best(board, line.item, None))
        if lefts:
            stage, reach = stage_of(component, at) or 0, slots_in(lead_time(component).most) + _SLACK
            found.append(Taking(stage=stage, lefts=lefts, counts=_counts(board, component, at), reach=reach))
    return tuple(found)


def lefts_of(
    board: Board,
    item: str,
    parts: Mapping[tuple[int, str], date],
    moved: tuple[int, Placing] | None = None,
) -> tuple[Left, ...]:
    """Return what batches on the plan leave of a by-product, in the order of its moments.

    ``parts`` are the last days of what is in there, by the number of the batch and the by-product, where known.
    """
    keeps = {maker.id: days_kept(made) for maker, made in board.house.by_products[item]}
    found = list[tuple[int, date | None]]()
    for at, place in _leaving(board, item, moved):
        moment, days = place.left_at(item), keeps[place.component.id]
        own = None if days is None else board.calendar.day_ending(moment) + timedelta(days=days - 1)
        ends = [end for end in (own, parts.get((at, item))) if end is not None]
        found.append((moment, min(ends, default=None)))
    found.sort(key=lambda one: one[0])
    return tuple(
        Left(moment=moment, last=min((last for _, last in its if last is not None), default=None))
        for moment, its in groupby(found, key=lambda one: one[0])
    )


def _at_best(board: Board, item: str, moved: tuple[int, Placing] | None) -> dict[tuple[int, str], date]:
    """Return the last days of what is in a by-product, by the batch that leaves it, where it is as fresh as can be."""
    found = dict[tuple[int, str], date]()
    for at, place in _leaving(board, item, moved):
        days = board.in_trims[place.component.id, item]
        ends = [
            board.calendar.day_of(min(place.starts[stage])) + timedelta(days=keeps - 1) for stage, keeps in days.items()
        ]
        if ends:
            found[at, item] = min(ends)
    return found


def _leaving(board: Board, item: str, moved: tuple[int, Placing] | None) -> Iterator[tuple[int, Place]]:
    """Yield the batches that leave a by-product, by their number on the board."""
    for maker, _ in board.house.by_products[item]:
        for at in board.numbers.get(maker.id, ()):
            place = board.placed[at]
            yield at, replace(place, placing=moved[1]) if moved is not None and moved[0] == at else place


def taken(lefts: Sequence[Left], start: int) -> Left | None:
    """Return what goes into something that starts at a moment, None where nothing is left by then."""
    at = bisect_right(lefts, start, key=_moment)
    return lefts[at - 1] if at else None


def is_in_life(left: Left | None, day: date) -> bool:
    """Return whether there is something, and it keeps until a day."""
    return left is not None and (left.last is None or left.last >= day)


def takes_earlier_trim(board: Board, place: Place, lefts: Mapping[str, Sequence[Left]]) -> bool:
    """Return whether a by-product goes in before any batch on the plan has left it, or after that is over.

    ``lefts`` are all that is left, by item.
    """
    for at, line in enumerate(place.component.ingredients):
        if line.item in board.house.pantry or line.item not in board.house.by_products:
            continue
        starts = place.starts[stage_of(place.component, at) or 0]
        if not all(is_in_life(taken(lefts[line.item], start), board.calendar.day_of(start)) for start in starts):
            return True
    return False


def moments(board: Board, takings: Sequence[Taking], demands: Sequence[Demand]) -> Mapping[int, Slots]:
    """Return when each stage may start so that what it takes keeps for all demands of a batch."""
    found = dict[int, Slots]()
    for taking in takings:
        served, due = max(one.served for one in demands), max(one.due for one in demands)
        found[taking.stage] = found.get(taking.stage, -1) & sum(_windows(board, taking, served, due))
    return found


def moments_now(board: Board, place: Place) -> Mapping[int, Slots]:
    """Return when each stage of a batch on the plan may start, by where others are now."""
    return moments(board, takings_of(board, place.component), place.demands)


def leaves_in_time(board: Board, number: int, placing: Placing) -> bool:
    """Return whether, with a batch elsewhere, what it leaves is still in life for all on the plan that it is so for."""
    for made in board.placed[number].component.also_makes:
        users = list(_users(board, made.item)) if made.keeps is not None else []
        if not users:
            continue
        now = lefts_of(board, made.item, _at_best(board, made.item, None))
        then = lefts_of(board, made.item, _at_best(board, made.item, (number, placing)), (number, placing))
        for place, at in users:
            counts, served = _counts(board, place.component, at), max(one.served for one in place.demands)
            for start in place.starts[stage_of(place.component, at) or 0]:
                until = served if counts else board.calendar.day_of(start)
                if is_in_life(taken(now, start), until) and not is_in_life(taken(then, start), until):
                    return False
    return True


def _users(board: Board, item: str) -> Iterator[tuple[Place, int]]:
    """Yield the batches that take a by-product, each with the line of its card."""
    for id_, numbers in board.numbers.items():
        lines = board.house.components[id_].ingredients if numbers else ()
        for at, line in enumerate(lines):
            if line.item == item:
                yield from ((board.placed[number], at) for number in numbers)


def _counts(board: Board, component: Component, line: int) -> bool:
    """Return whether the date of a by-product counts in what is made of it; where that is frozen it stands still."""
    frozen_ = is_kept_frozen(component, {place.id: place for place in board.house.file.places})
    return counting(component, line, None, {}).counts and not frozen_


def _moment(left: Left) -> int:
    return left.moment


def _windows(board: Board, taking: Taking, served: date, due: int) -> Iterator[Slots]:
    """Yield the moments at which each of what is left would go in, and keeps, by when what is made is wanted."""
    calendar = board.calendar
    first = bisect_right(taking.lefts, due - taking.reach, key=_moment)
    lefts = taking.lefts[max(0, first - 1) : bisect_right(taking.lefts, due, key=_moment)]
    ends = [*(later.moment for _, later in pairwise(lefts)), due + 1]
    for left, end in zip(lefts, ends, strict=False):
        if left.last is None or (taking.counts and left.last >= served):
            yield between(left.moment, end)
        elif not taking.counts:
            yield between(left.moment, min(end, calendar.at(left.last + timedelta(days=1), None)))
