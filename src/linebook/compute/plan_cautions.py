"""What a line must log on one day of a plan for the sake of food safety, with the clock times of the plan.

Takes a computed plan and the figures of the house's rule set; decides no limit of its own. Where the plan's own times
pass a clock, it is marked. What the cooks measure is theirs.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Final

from linebook.check.cold_keeping import is_from_room
from linebook.check.cooling import kept_at
from linebook.check.limits import Figures, figures_for
from linebook.check.time_control import surest_wait
from linebook.compute.plan_results import Making, PlannedStage, PrepPlan
from linebook.model.amounts import Amount
from linebook.model.component import Limit, Stage
from linebook.model.dating import Places
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_AT_THE_END: Final = (Limit.COOK, Limit.ACIDIFY)
"""Limits that are measured when the stage is done, not when it starts."""


@frozen
class Caution:
    """One limit to log: loads of a stage of a batch that are worked together.

    ``at`` is when the log begins: the start of the stage, or its end where it is measured then. ``until`` is when the
    plan has it done. ``clocks`` are the moments that the rule sets, in its order: to be at 21 °C and at 5 °C by; to be
    hot by; to be binned at; in the freezer until at the least. () where the rule set gives none. ``breaks`` is true
    where the plan's own times pass one. ``out`` is true where what was frozen comes out, ``from_room`` where what is
    cooled never was hot.
    """

    limit: Limit
    making: int
    stages: tuple[PlannedStage, ...]
    at: datetime
    until: datetime
    clocks: tuple[datetime, ...] = ()
    breaks: bool = False
    out: bool = False
    from_room: bool = False


@frozen
class LastDay:
    """What may be served today and not tomorrow. ``made`` is the day its life counts from, None where nobody says."""

    component: str
    amount: Amount
    made: date | None


@frozen
class DayCautions:
    """All of a line on one day: what to log in the order of the clock, and what to use today or bin."""

    logs: tuple[Caution, ...]
    last_days: tuple[LastDay, ...]


def day_cautions(house: House, plan: PrepPlan, line: str, day: date) -> DayCautions:
    """Return the limits that a line logs on a day of a plan, and what ends its life that day."""
    figures = figures_for(house.file.rules)
    places = {where.id: where for where in house.file.places}
    own = [making for making in plan.makings if making.batch.component.line == line]
    found = [one for making in own for one in _of_making(making, figures, places)]
    logs = sorted((one for one in found if one.at.date() == day), key=lambda one: (one.at, one.making))
    return DayCautions(logs=tuple(logs), last_days=tuple(_last_days(house, plan, own, line, day)))


def _of_making(making: Making, figures: Figures | None, places: Places) -> Iterator[Caution]:
    component = making.batch.component
    before: Limit | None = None
    for number, stage in enumerate(component.stages):
        limit, runs_on = stage.limit, stage.limit is before
        before = limit
        if limit is None or (runs_on and limit is Limit.COOL):
            continue
        for stages in _together(making, number):
            yield from _of_stage(making, limit, stages, figures, places)


def _together(making: Making, number: int) -> Iterator[tuple[PlannedStage, ...]]:
    """Yield the loads of a stage that are worked at the same time."""
    found: dict[tuple[datetime, datetime], list[PlannedStage]] = {}
    for stage in making.stages:
        if stage.number == number:
            found.setdefault((stage.start, stage.done), []).append(stage)
    yield from (tuple(stages) for stages in found.values())


def _of_stage(
    making: Making, limit: Limit, stages: tuple[PlannedStage, ...], figures: Figures | None, places: Places
) -> Iterator[Caution]:
    stage, component = stages[0], making.batch.component
    until = _end_of_run(making, stage) if limit is Limit.COOL else stage.over
    at = stage.done if limit in _AT_THE_END else stage.start
    kept = kept_at(component.stages[stage.number], places)
    from_room = limit is Limit.COOL and is_from_room(component, stage.number, places)
    clocks = _clocks(limit, stage, kept, figures, from_room=from_room)
    if limit is Limit.TIME and figures is not None:
        wait = surest_wait(figures, component, stage.number, places)
        clocks = () if wait is None else (stage.start + timedelta(minutes=float(wait)),)
    if limit is Limit.FREEZE and clocks and stage.done < clocks[-1]:
        clocks = ()  # frozen solid here, and for the rest of the time at a stage after it
    breaks = _breaks(limit, clocks, until)
    if limit is Limit.COOL and len(clocks) > 1 and _ends_halfway(component.stages[stage.number], figures):
        breaks = breaks or stage.over > clocks[0]
    caution = Caution(
        limit=limit,
        making=making.number,
        stages=stages,
        at=at,
        until=until,
        clocks=clocks,
        breaks=breaks,
        from_room=from_room,
    )
    yield caution
    if limit is Limit.FREEZE:
        yield Caution(
            limit=limit,
            making=making.number,
            stages=stages,
            at=stage.done,
            until=stage.over,
            clocks=clocks,
            breaks=breaks,
            out=True,
        )


def _end_of_run(making: Making, first: PlannedStage) -> datetime:
    """Return when the cooling that begins with a stage is done: with the last of the cooling stages after it."""
    stages = making.batch.component.stages
    last = first.number
    while last + 1 < len(stages) and stages[last + 1].limit is Limit.COOL:
        last += 1
    same = [one for one in making.stages if one.number == last and (one.loads != first.loads or one.load == first.load)]
    return max(one.done for one in same)


def _clocks(
    limit: Limit, stage: PlannedStage, kept: Fraction | None, figures: Figures | None, *, from_room: bool
) -> tuple[datetime, ...]:
    if figures is None:
        return ()
    minutes: Sequence[Fraction] = ()
    if limit is Limit.COOL:
        minutes = figures.cool_room_minutes if from_room else figures.cool_minutes
    elif limit is Limit.REHEAT and figures.reheat_minutes is not None:
        minutes = (figures.reheat_minutes,)
    elif limit is Limit.FREEZE:
        minutes = [time for heat, time in figures.freeze_minutes if kept is None or kept <= heat][-1:]
        if kept is None:
            minutes = [figures.freeze_minutes[0][1]]
    begins = stage.alone if limit is Limit.FREEZE else stage.start
    return tuple(begins + timedelta(minutes=float(time)) for time in minutes)


def _ends_halfway(stage: Stage, figures: Figures | None) -> bool:
    """Return whether a cooling stage ends where the first clock does: at 21 °C, or above."""
    first = figures.cool_first_to if figures is not None else None
    return first is not None and stage.until is not None and stage.until.celsius >= first


def _breaks(limit: Limit, clocks: Sequence[datetime], until: datetime) -> bool:
    """Return whether the plan's own times pass the last clock."""
    return limit in (Limit.COOL, Limit.REHEAT, Limit.TIME) and bool(clocks) and until > clocks[-1]


def _last_days(house: House, plan: PrepPlan, own: Sequence[Making], line: str, day: date) -> Iterator[LastDay]:
    """Yield what was made on one day together, then what is left of the stock."""
    made: dict[tuple[str, date], Amount] = {}
    for making in own:
        if making.use_by == day and making.ready.date() <= day:
            key, total = (making.component, making.life_from), making.batch.total
            made[key] = replace(total, number=total.number + made[key].number) if key in made else total
    for (id_, since), amount in made.items():
        yield LastDay(component=id_, amount=amount, made=since)
    uses = [use for found in plan.stock.values() for use in found if use.last == day]
    for entry in {id(use.entry): use.entry for use in uses}.values():
        component = house.components.get(entry.item)
        if component is not None and component.line == line:
            yield LastDay(component=component.id, amount=entry.amount, made=entry.made)
