"""What is on the board as the batches of a plan: with clock times, dates, shares and strains.

Knows how to tell what was planned; plans nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from math import gcd

from linebook.compute.placing import Place
from linebook.compute.plan_board import Board
from linebook.compute.plan_demands import last_counted, taken_out
from linebook.compute.plan_legs import LegPlan
from linebook.compute.plan_results import Making, PlannedStage, Share, Strain
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.amounts import Amount
from linebook.model.contents import stage_of
from linebook.model.dating import counting, days_kept, is_kept_frozen, paused


def numbered(board: Board) -> dict[int, int]:
    """Return the number on the plan of each batch of the board: in order of their start."""
    starts = [min(leg.start for _, leg in place.legs) for place in board.placed]
    order = sorted(range(len(starts)), key=lambda at: (starts[at], at))
    return {at: number for number, at in enumerate(order)}


def makings_of(board: Board) -> tuple[Making, ...]:
    """Return the batches in order of their start."""
    ends, served, numbers = _last_days(board), _last_served(board), numbered(board)
    found = []
    for at in numbers:
        end = ends[at]
        found.append(_making(board, at, numbers, end, is_over=end is not None and end < served[at]))
    return tuple(sorted(found, key=lambda making: making.number))


def _last_days(board: Board) -> list[date | None]:
    """Return the last day of each batch: of its own life, and of those of its parts that set its date."""
    ends, inside = [_own_end(place, board.calendar) for place in board.placed], dict(board.stock.ends)
    for at, place in enumerate(board.placed):
        for last in _trim_ends(board, place):
            inside[at] = min(last, inside.get(at, last))
    # Parts stand after what is made from them, so going backwards what is in each batch is known in time.
    for at in range(len(board.placed) - 1, -1, -1):
        frozen_on = _frozen_on(board, board.placed[at])
        if frozen_on is None:
            ends[at] = _earlier(ends[at], inside.get(at))
        for demand in board.placed[at].demands:
            end = ends[at] if demand.dated else None
            if demand.paused and frozen_on is not None and at in inside:
                end = inside[at] + paused(frozen_on, taken_out(demand, board.calendar))
            if demand.batch is not None and end is not None:
                inside[demand.batch] = min(end, inside.get(demand.batch, end))
    return ends


def _last_served(board: Board) -> list[date]:
    """Return the last day until which each batch should keep: of its last service, or of its use where that will do."""
    found: list[date] = []
    within: list[date] = []
    for place in board.placed:
        frozen_on = _frozen_on(board, place)
        days, counted = [], []
        for demand in place.demands:
            user = within[demand.batch] if demand.batch is not None and (demand.dated or demand.paused) else None
            days.append(user if user is not None and demand.dated else demand.served)
            whole = replace(demand, counted=user) if user is not None else demand
            counted.append(last_counted(whole, frozen_on, board.calendar))
        found.append(max(days))
        within.append(max(counted))
    return found


def _trim_ends(board: Board, place: Place) -> Iterator[date]:
    """Yield the last day of each by-product that goes into a batch: of the one that was left last before it goes in."""
    house, component = board.house, place.component
    for at, line in enumerate(component.ingredients):
        if line.item in house.components or line.item not in house.by_products:
            continue
        if not counting(component, at, None, {}).counts:
            continue
        start = min(place.starts[stage_of(component, at) or 0])
        keeps = {maker.id: days_kept(made) for maker, made in house.by_products[line.item]}
        left = [(one.left_at(line.item), keeps[one.component.id]) for one in board.placed if one.component.id in keeps]
        latest = max((moment for moment, _ in left if moment <= start), default=None)
        for moment, days in left:
            if moment == latest and days is not None:
                yield board.calendar.day_of(moment) + timedelta(days=days - 1)


def _frozen_on(board: Board, place: Place) -> date | None:
    """Return the day on which a batch is frozen, None where it is not kept so."""
    places = {one.id: one for one in board.house.file.places}
    frozen = is_kept_frozen(place.component, places)
    return board.calendar.day_of(place.placing.ready) if frozen else None


def _own_end(place: Place, calendar: WorkCalendar) -> date | None:
    """Return the last day of a batch's own life. What keeps for hours ends with the last use they reach to."""
    days, keeps = days_kept(place.component), place.component.keeps
    if days is None or keeps is None:
        return None
    end = calendar.day_of(place.placing.life) + timedelta(days=days - 1)
    if keeps.in_days:
        return end
    uses = (one.served if one.user is None else calendar.day_of(one.doors) for one in place.demands)
    return max(end, *uses)


def _earlier(one: date | None, other: date | None) -> date | None:
    return min((day for day in (one, other) if day is not None), default=None)


def _making(board: Board, at: int, numbers: Mapping[int, int], use_by: date | None, *, is_over: bool) -> Making:
    place, calendar = board.placed[at], board.calendar
    batch = place.placing.sized.batch
    strains: list[Strain] = [strain for strain in place.placing.strains if strain is Strain.IN_SERVICE]
    if Strain.SHORT_OF_COOKS in place.placing.strains and _is_short(board, place):
        strains.append(Strain.SHORT_OF_COOKS)
    if is_over:
        strains.append(Strain.PART_OVER)
    if _takes_earlier_trim(board, place):
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
        life_from=calendar.day_of(place.placing.life),
        use_by=use_by,
        strains=tuple(strains),
    )


def _is_short(board: Board, place: Place) -> bool:
    """Return whether its line is short of cooks while it is worked, now that all others are where they are."""
    spans = (span for leg in place.placing.legs for span in ((leg.start, leg.alone), (leg.done, leg.over)))
    return any(board.placer.taken.is_over(f"cooks:{place.component.line}", *span) for span in spans)


def _takes_earlier_trim(board: Board, place: Place) -> bool:
    """Return whether a by-product goes in before any batch on the plan has left it."""
    for at, line in enumerate(place.component.ingredients):
        if line.item in board.house.pantry or line.item not in board.house.by_products:
            continue
        start = min(place.starts[stage_of(place.component, at) or 0])
        makers = {maker.id for maker, _ in board.house.by_products[line.item]}
        if not any(one.component.id in makers and one.left_at(line.item) <= start for one in board.placed):
            return True
    return False


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
