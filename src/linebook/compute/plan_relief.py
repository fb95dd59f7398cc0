"""Makes way for a batch: another that takes what it needs is worked earlier, where nothing forbids it.

Knows the batches on the plan; why one has no way without it is not its business.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from linebook.compute.placing import FREE, Limits, Place, Placing, later_of
from linebook.compute.plan_board import Board
from linebook.compute.plan_results import Barrier, Strain
from linebook.compute.plan_sizes import Sized
from linebook.compute.plan_trims import leaves_in_time, moments_now
from linebook.compute.slots import A_DAY

_MOST_TRIED: Final = (12, 6, 3)
"""How many others are tried, those first that have the most to do on those days; then of what is in their way."""

_DAYS_NEAR: Final = 2
"""How many days before its best place others may stand in its way: it can be made there where that is taken."""


def relieve(
    board: Board,
    sized: Sized,
    limits: Limits,
    earliest: Mapping[int, int],
    loose: frozenset[Strain] = FREE,
    moving: tuple[int, ...] = (),
    *,
    partless: bool = False,
) -> Placing | None:
    """Return how a batch is made once others have been moved out of its way, None where no move helps.

    It is strained by no more than is ``loose``.

    One is moved, and where it finds no place so another for it, and so on a few times; ``moving`` are those that are
    being moved. Each is moved earlier only: not one that the batch is for, not before its own parts are ready where
    these are planned, and only to where it has no strain that it did not have.
    Where they are to be ``partless``, only those are moved that are made from no other component: no part is then
    wanted at another time.
    """
    alone = loose | {Strain.SHORT_OF_COOKS}
    ideal = board.placer.place(sized, limits, earliest, alone, lifted=Barrier.ROOM)
    if ideal is None:
        return None
    for number in _others(board, ideal, moving):
        if partless and any(line.item in board.house.components for line in board.placed[number].component.ingredients):
            continue
        other = board.placed[number]
        board.placer.give_back(other.placing)
        found = board.placer.place(sized, limits, earliest, loose)
        if found is not None:
            board.placer.take(found)
            moved = _moved(board, number, moving)
            board.placer.give_back(found)
            if moved is not None:
                board.move(number, moved)
                return found
        board.placer.take(other.placing)
    return None


def shorten(board: Board) -> None:
    """Have what stands by itself longer than it must do so no longer, where nothing is ready or started later."""
    for number, place in enumerate(board.placed):
        if all(leg.done - leg.alone <= plan.least for plan, leg in place.legs):
            continue
        board.placer.give_back(place.placing)
        found = _no_later(board, number)
        if found is not None and found.ready == place.placing.ready and leaves_in_time(board, number, found):
            board.move(number, found)
        else:
            board.placer.take(place.placing)


def _no_later(board: Board, number: int) -> Placing | None:
    """Return the latest place of a batch taken off at which no stage starts later than now."""
    other = board.placed[number]
    return board.placer.place(other.placing.sized, *_limits_now(board, number), frozenset(other.placing.strains))


def _moved(board: Board, number: int, moving: tuple[int, ...]) -> Placing | None:
    """Return the latest other place of a batch at which no stage starts later than now."""
    found = _no_later(board, number)
    if found is None and len(moving) + 1 < len(_MOST_TRIED):
        other = board.placed[number].placing
        limits, earliest = _limits_now(board, number)
        found = relieve(board, other.sized, limits, earliest, frozenset(other.strains), (*moving, number))
    return found if found is not None and leaves_in_time(board, number, found) else None


def _limits_now(board: Board, number: int) -> tuple[Limits, Mapping[int, int]]:
    """Return the limits of a batch as it stands, none of its stages to start later, and when its parts are ready."""
    other = board.placed[number]
    starts = {stage: min(found) for stage, found in other.starts.items()}
    until = {stage: min(start, other.limits.parts_until.get(stage, start)) for stage, start in starts.items()}
    due = min(demand.due for demand in other.demands)
    trims = moments_now(board, other)
    limits = replace(other.limits, due=min(due, other.limits.due), parts_until=until, trims=trims)
    return limits, later_of(other.earliest, board.parts_ready(number))


def _others(board: Board, ideal: Placing, moving: tuple[int, ...]) -> list[int]:
    """Return the batches that work with the same hands, places or vessels near a placing, the most work first."""
    first, last = ideal.start // A_DAY - _DAYS_NEAR, ideal.ready // A_DAY
    line, takes = ideal.sized.batch.component.line, {key for plan in ideal.plans for key, _ in plan.takes}
    items = {one.item for one in ideal.sized.batch.component.ingredients}
    found = []
    for number, place in enumerate(board.placed):
        if place.placing.ready // A_DAY < first or place.placing.start // A_DAY > last or number in moving:
            continue
        if any(one.item == ideal.sized.component for one in place.component.ingredients):
            continue
        if not items.isdisjoint(made.item for made in place.component.also_makes if made.keeps is not None):
            continue  # what it leaves would be older than was counted on
        work = _in_the_way(place, first, last, line, takes)
        if work:
            found.append((-work, number))
    return [number for _, number in sorted(found)[: _MOST_TRIED[len(moving)]]]


def _in_the_way(place: Place, first: int, last: int, line: str, takes: set[str]) -> int:
    """Return for how many moments a batch has the hands of a line, or something of these, from one day to another."""
    near = [(plan, leg) for plan, leg in place.legs if leg.start // A_DAY <= last and leg.over // A_DAY >= first]
    hands = sum(plan.hands + plan.finish for plan, _ in near) if place.component.line == line else 0
    return hands + sum(leg.over - leg.start for plan, leg in near if takes.intersection(key for key, _ in plan.takes))
