"""What several sheets of a prep plan say alike: days and clock times, what is made, and for which services."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta

from linebook.compute.plan_results import Barrier, Making, PlannedStage, PrepPlan, Strain, Unready
from linebook.compute.results import Batch
from linebook.documents.ingredients import pieces_text
from linebook.documents.measures import Measures, duration_text
from linebook.documents.second import find_said, item_name, line_name, stage_name
from linebook.documents.text import EMPTY, NO_BREAK, Text, joined, unbroken, words
from linebook.documents.wording import Wording
from linebook.model.amounts import Duration
from linebook.model.component import Component
from linebook.model.house import House
from linebook.model.units import times
from linebook.read.ids import kebab
from linebook.source.exact import Fraction


def days_of(plan: PrepPlan) -> Sequence[date]:
    """Return the days of a plan."""
    return [plan.first + timedelta(days=at) for at in range((plan.last - plan.first).days + 1)]


def clock(moment: datetime) -> Text:
    """Return a clock time: *09:05*."""
    return words(moment.strftime("%H:%M"))


def clock_of_end(moment: datetime) -> Text:
    """Return the clock time at which something is over: *24:00* at midnight, which is of the day that ends."""
    return words("24:00") if moment.time() == time(0) else clock(moment)


def clock_on(moment: datetime, day: date, wording: Wording) -> Text:
    """Return a clock time, with its weekday where it is not that of the sheet: *Fri 08:00*."""
    if moment.date() == day:
        return clock(moment)
    return joined((wording.say(f"weekday.{moment.weekday()}"), clock(moment)), NO_BREAK)


def window(first: datetime, last: datetime, day: date, wording: Wording) -> Text:
    """Return two clock times: *Fri 08:00 to 12:00*; one where they are the same."""
    start = clock_on(first, day, wording)
    if first == last:
        return start
    if first.date() == last.date():
        return unbroken(wording.say("duration.range", least=start, most=clock(last)))
    return wording.say("duration.range", least=start, most=clock_on(last, day, wording))


def days_text(days: Sequence[date], plan: PrepPlan, wording: Wording) -> Text:
    """Return services by their weekdays: *Tue to Thu*, *Tue and Fri*, with their dates where the weekday alone
    may be of another week; their number where they run past a week."""
    if len(days) > 1 and (days[-1] - days[0]).days > 6:
        return wording.say("plan.services", count=len(days), last=wording.day(days[-1]))
    is_plain = (plan.last - plan.first).days <= 6 and all(plan.first <= day <= plan.last for day in days)
    names = [wording.say(f"weekday.{day.weekday()}") if is_plain else wording.day(day) for day in days]
    served = [one.day for one in (*plan.services, *plan.later)]
    between = [day for day in served if days[0] <= day <= days[-1]] if days else []
    if len(days) > 2 and list(days) == between:
        said = wording.say("duration.range", least=names[0], most=names[-1])
        return unbroken(said) if is_plain else said
    said = wording.listed_with_and(names)
    return unbroken(said) if is_plain and len(names) == 2 else said


def stage_text(house: House, component: Component, number: int) -> Text:
    """Return the name of a stage as its heading has it; empty where a card has no stages."""
    if not component.stages:
        return EMPTY
    stage = component.stages[number].name
    return stage_name(house, component, stage, find_said(house, component, kebab(stage)))


def minutes_text(minutes: int, wording: Wording) -> Text:
    """Return minutes as hours and minutes: *2 h 40*."""
    return duration_text(Duration(least=Fraction(minutes), most=Fraction(minutes)), wording)


def made_text(making: Making, stages: Sequence[PlannedStage], measures: Measures) -> Text:
    """Return how much these loads of a stage make in the end: *4.2 kg*, *2 × 4.2 kg*; what is counted *60 pieces*."""
    part = Fraction(1, stages[0].loads)
    load = load_pieces(making.batch, part, measures.wording) or measures.short(times(making.batch.total, part))
    return _in_loads(load, stages, measures.wording)


def weighed_text(making: Making, stages: Sequence[PlannedStage], measures: Measures) -> Text:
    """Return what is counted by its weight: until it is cut or shaped there are no pieces; empty of all else."""
    part = Fraction(1, stages[0].loads)
    if not load_pieces(making.batch, part, measures.wording):
        return EMPTY
    return _in_loads(measures.short(times(making.batch.total, part)), stages, measures.wording)


def _in_loads(load: Text, stages: Sequence[PlannedStage], wording: Wording) -> Text:
    return load if len(stages) == 1 else unbroken(wording.say("plan.loads", count=len(stages), load=load))


def load_pieces(batch: Batch, part: Fraction, wording: Wording) -> Text:
    """Return how many pieces a part of a batch is: *60 pieces*; empty where it is not counted, or not in whole ones."""
    if batch.pieces is None or (batch.pieces * part).denominator != 1:
        return EMPTY
    return unbroken(pieces_text(batch, wording, part))


def load_text(stages: Sequence[PlannedStage], wording: Wording) -> Text:
    """Return which load of several it is: *load 2 of 3*; empty where it is all of them."""
    if len(stages) > 1 or stages[0].loads == 1:
        return EMPTY
    return unbroken(wording.say("plan.load", load=stages[0].load + 1, loads=stages[0].loads))


def unready_runs(unready: Iterable[Unready]) -> Sequence[tuple[Unready, tuple[date, ...]]]:
    """Return what cannot be ready, once for all services that the same limit keeps it from."""
    found: dict[Unready, list[date]] = {}
    for one in unready:
        found.setdefault(replace(one, service=date.min), []).append(one.service)
    return [(replace(one, service=days[0]), tuple(days)) for one, days in found.items()]


def unready_text(house: House, plan: PrepPlan, one: Unready, days: Sequence[date], wording: Wording) -> Text:
    """Return what cannot be ready, for which services, which limit prevents it and when it can be."""
    needed = [line.item for line in house.components[one.component].ingredients]
    late = [item for item in dict.fromkeys(needed) if item in plan.arrives]
    if one.barrier is Barrier.ARRIVAL and late:
        comes = [
            wording.say("plan.arrives", item=item_name(house, item), day=wording.day(plan.arrives[item]))
            for item in late
        ]
        why = wording.say("plan.barrier.arrival-of", items=wording.listed_with_and(comes))
    else:
        why = wording.say(
            f"plan.barrier.{one.barrier.value}",
            part=item_name(house, one.part) if one.part else EMPTY,
            days=wording.listed_with_and(wording.day(day) for day in one.closed),
        )
    served = wording.day(days[0]) if len(days) == 1 else days_text(days, plan, wording)
    said = wording.say("plan.unready", item=item_name(house, one.component), day=served, why=why)
    if one.first is None and one.barrier is Barrier.PART:
        return said  # the part says it
    first = wording.say("plan.first", day=wording.day(one.first)) if one.first else wording.say("plan.first-none")
    return joined((said, first), wording.say("sentence.between"))


def strain_text(house: House, plan: PrepPlan, making: Making, strain: Strain, wording: Wording) -> Text:
    """Return what a batch is planned against, and what to do."""
    values: dict[str, Text] = {}
    if strain is Strain.PART_OVER:
        last = making.use_by or making.life_from
        late = [day for day in making.services if day > last] or making.services[-1:]
        values = {"last": wording.day(last), "services": days_text(late, plan, wording)}
    elif strain is Strain.EARLIER_TRIM:
        items = dict.fromkeys(line.item for line in making.batch.component.ingredients)
        left = [item for item in items if item in house.by_products and item not in house.pantry]
        values = {"items": wording.listed_with_and(item_name(house, item) for item in left)}
    return wording.say(f"plan.strain.{strain.value.replace(' ', '-')}", **values)


def lines_of(house: House, lines: Iterable[str], wording: Wording) -> Text:
    """Return the names of lines as a list."""
    return wording.listed_with_and(line_name(house, line) for line in lines)
