"""What the checker of prep plans knows of a house: its hours, its stages, and who takes what; no planner's code."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from math import ceil

from linebook.compute.plan_results import Making, PrepPlan
from linebook.model.component import Attended, Component, Stage
from linebook.model.house import Climate, House

ZERO = Fraction(0)
FIVE = timedelta(minutes=5)
DAY = timedelta(days=1)
NAMES = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
Hours = list[tuple[datetime, datetime]]
Want = tuple[str, int | str | None, tuple[date, ...]]


def grid(minutes: Fraction) -> timedelta:
    """Minutes rounded up to five."""
    return timedelta(minutes=ceil(Fraction(minutes) / 5) * 5)


def merged(spans: Hours) -> Hours:
    """Spans in order, those that touch made one."""
    found: Hours = []
    for begin, end in sorted(spans):
        if found and begin <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        else:
            found.append((begin, end))
    return found


def within(hours: Hours, begin: datetime, end: datetime) -> bool:
    return begin >= end or any(first <= begin and end <= last for first, last in hours)


def meets(hours: Hours, begin: datetime, end: datetime) -> bool:
    return any(first < end and begin < last for first, last in hours)


class HouseFacts:
    """One plan and its house."""

    def __init__(self, house: House, plan: PrepPlan, *, arrives: Mapping[str, date] | None = None) -> None:
        self.house, self.plan, self.arrives = house, plan, arrives or {}
        self.climates = {one.id: one.climate for one in house.file.places}
        begin = min([one.start.date() for one in plan.makings] + [plan.first]) - 2 * DAY
        end = max([one.ready.date() for one in plan.makings] + [plan.last]) + 3 * DAY
        span = [begin + at * DAY for at in range((end - begin).days)]
        self.staffed = merged([hours for day in span for hours in self.hours_of(day)])
        self.serving = merged([hours for day in span for hours in self.service_of(day)])
        self.unready = {(one.component, one.service): one for one in plan.unready}
        self.shown = {service.day for service in plan.services}

    # The calendar of the house.

    def is_open(self, day: date) -> bool:
        service = self.house.file.service
        return service is None or (NAMES[day.weekday()] in service.days and day not in service.closed)

    def span_on(self, day: date, first: time | None, last: time | None) -> tuple[datetime, datetime]:
        begin = datetime.combine(day, first or time(0))
        begin += timedelta(minutes=-begin.minute % 5)
        end = datetime.combine(day, last or time(0))
        if last is None or last == time(0):
            end = datetime.combine(day + DAY, time(0))
        end -= timedelta(minutes=end.minute % 5)
        return begin, end if end > begin else end + DAY

    def hours_of(self, day: date) -> Hours:
        service = self.house.file.service
        if service is None:
            return [self.span_on(day, None, None)]
        if self.is_open(day):
            return [self.span_on(day, service.staffed_from, service.staffed_to)]
        hours = service.prep.get(NAMES[day.weekday()])
        return [] if hours is None or day in service.closed else [self.span_on(day, *hours)]

    def service_of(self, day: date) -> Hours:
        service = self.house.file.service
        if service is None or service.doors is None or service.last_seating is None or not self.is_open(day):
            return []
        return [self.span_on(day, service.doors, service.last_seating)]

    def clock(self, day: date, at: time | None) -> datetime:
        if at is None or at == time(0):
            return datetime.combine(day + DAY, time(0))
        moment = datetime.combine(day, at)
        return moment - timedelta(minutes=moment.minute % 5)

    def due_of(self, line: str, day: date) -> datetime:
        service = self.house.file.service
        set_up = next((one.set_up for one in self.house.file.lines if one.id == line), None)
        return self.clock(day, set_up or (service.doors if service else None))

    def doors_of(self, line: str, day: date) -> datetime:
        service = self.house.file.service
        doors = service.doors if service else None
        return self.clock(day, doors) if doors else self.due_of(line, day)

    # What stages are.

    def climate(self, stage: Stage) -> Climate:
        return self.climates.get(stage.where or "", Climate.ROOM)

    def watched(self, stage: Stage) -> bool:
        if stage.attended is not None:
            return stage.attended is not Attended.LEFT
        return self.climate(stage) is Climate.HOT or bool(stage.through)

    def wait(self, stage: Stage) -> timedelta | None:
        if stage.may_hold is not None:
            return grid(stage.may_hold.most)
        known = {Climate.HOT: timedelta(minutes=30), Climate.ROOM: timedelta(hours=2)}
        return known.get(self.climate(stage))

    def stage_of(self, component: Component, at: int) -> int:
        name = component.ingredients[at].stage
        return next((n for n, one in enumerate(component.stages) if one.name == name), 0)

    def counts(self, component: Component, at: int) -> bool:
        """Whether the date of a component or by-product on a line of a card, or of what is in it, counts on."""
        part = self.house.components.get(component.ingredients[at].item)
        later = component.stages[self.stage_of(component, at) :]
        if component.ingredients[at].medium or any(one.sets_date for one in later):
            return False
        return component.kept_by is None and (part is None or part.kept_by is None)

    def dated(self, component: Component, at: int) -> bool:
        """Whether what goes in on a line of a card counts its own date on: not out of the freezer."""
        part = self.house.components[component.ingredients[at].item]
        return self.counts(component, at) and not self.in_freezer(part)

    def in_freezer(self, component: Component) -> bool:
        """Whether a component waits in a frozen place."""
        return component.store is not None and self.climates.get(component.store.place or "") is Climate.FROZEN

    def stood_still(self, frozen: Making, out: date) -> timedelta:
        """How long the dates of what is in a batch stand still in the freezer: the days between in and out."""
        days = (out - frozen.ready.date()).days - 1
        return max(days, 0) * DAY

    def loads(self, making: Making) -> tuple[int, ...]:
        return making.batch.stage_loads or (making.batch.loads,) * len(making.batch.component.stages)

    def starts(self, making: Making, stage: int) -> list[datetime]:
        return [one.start for one in making.stages if one.number == stage]
