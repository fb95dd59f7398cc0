"""What is on the board as the batches of a plan: with clock times, dates, shares and strains.

Knows how to tell what was planned; plans nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import gcd

from linebook.compute.placing import Place
from linebook.compute.plan_board import Board
from linebook.compute.plan_dates import Dates
from linebook.compute.plan_legs import LegPlan
from linebook.compute.plan_results import Making, PlannedStage, Share, Strain
from linebook.compute.plan_trims import takes_earlier_trim
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.amounts import Amount


def numbered(board: Board) -> dict[int, int]:
    """Return the number on the plan of each batch of the board: in order of their start."""
    starts = [min(leg.start for _, leg in place.legs) for place in board.placed]
    order = sorted(range(len(starts)), key=lambda at: (starts[at], at))
    return {at: number for number, at in enumerate(order)}


def makings_of(board: Board) -> tuple[Making, ...]:
    """Return the batches in order of their start."""
    dates, numbers = Dates.of(board), numbered(board)
    found = [_making(board, at, numbers, dates) for at in numbers]
    return tuple(sorted(found, key=lambda making: making.number))


def _making(board: Board, at: int, numbers: Mapping[int, int], dates: Dates) -> Making:
    place, calendar = board.placed[at], board.calendar
    batch = place.placing.sized.batch
    strains: list[Strain] = [strain for strain in place.placing.strains if strain is Strain.IN_SERVICE]
    if Strain.SHORT_OF_COOKS in place.placing.strains and _is_short(board, place):
        strains.append(Strain.SHORT_OF_COOKS)
    if dates.is_over(at):
        strains.append(Strain.PART_OVER)
    if takes_earlier_trim(board, place, dates.lefts):
        strains.append(Strain.EARLIER_TRIM)
    return Making(
        number=numbers[at],
        batch=batch,
        stages=_stages(place, calendar),
        shares=tuple(
            Share(
                amount=Amount(number=one.amount, unit=batch.total.unit),
                services=one.services,
                user=one.user,
                line=one.plating,
                taker=None if one.batch is None else numbers[one.batch],
            )
            for one in place.demands
        ),
        ready=calendar.when(place.placing.ready),
        due=calendar.when(min(one.due for one in place.demands)),
        life_from=calendar.day_ending(place.placing.life),
        use_by=dates.ends[at],
        strains=tuple(strains),
    )


def _is_short(board: Board, place: Place) -> bool:
    """Return whether its line is short of cooks while it is worked, now that all others are where they are."""
    spans = (span for leg in place.placing.legs for span in ((leg.start, leg.alone), (leg.done, leg.over)))
    return any(board.placer.taken.is_over(f"cooks:{place.component.line}", *span) for span in spans)


def _stages(place: Place, calendar: WorkCalendar) -> tuple[PlannedStage, ...]:
    chains = gcd(*(plan.loads for plan, _ in place.legs))
    turns = _turns(place, chains)

    def load_of(plan: LegPlan) -> int:
        chain, within = divmod(plan.load, plan.loads // chains)
        return turns[chain] * (plan.loads // chains) + within

    return tuple(
        PlannedStage(
            number=plan.stage,
            load=load_of(plan),
            loads=plan.loads,
            start=calendar.when(leg.start),
            alone=calendar.when(leg.alone),
            may_be_done=calendar.when(leg.alone + plan.least),
            done=calendar.when(leg.done),
            over=calendar.when(leg.over),
            minutes=plan.minutes,
        )
        for plan, leg in place.legs
    )


def _turns(place: Place, chains: int) -> dict[int, int]:
    """Return which of the chains of loads is begun first, second and so on: placed backwards, the last came first."""
    begun: dict[int, int] = {}
    for plan, leg in place.legs:
        chain = plan.load // (plan.loads // chains)
        begun[chain] = min(begun.get(chain, leg.start), leg.start)
    return {chain: turn for turn, chain in enumerate(sorted(begun, key=lambda one: (begun[one], one)))}
