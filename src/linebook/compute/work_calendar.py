"""When somebody is in the building, and when a line serves: the days of a house as sets of moments.

Knows the service week and its hours; knows no component and no task.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import TypeAlias

from linebook.compute.services import is_service_day, weekday_of
from linebook.compute.slots import A_DAY, SLOT, Slots, between
from linebook.model.house import House, Service

_Hours: TypeAlias = tuple[date, time | None, time | None]
"""The day on which hours begin, from when to when."""


class WorkCalendar:
    """The moments from midnight of ``first`` for so many days, some of them staffed.

    On a day of service somebody is in the building in the staffed hours of the house, on a day of preparation in the
    hours given for it; on a closed day, nobody is. A house that gives no staffed hours is staffed around the clock on
    its days of service. Staffed hours over midnight lead to the doors of their day: those of a breakfast begin on the
    evening before it.
    """

    def __init__(self, house: House, first: date, days: int) -> None:
        self.house = house
        self.first = first
        self.width = days * A_DAY
        self.staffed: Slots = 0
        self.serving: Slots = 0
        self.shut: Slots = 0
        for at in range(days + 1):  # the hours of the day after the last may begin on its evening
            day = first + timedelta(days=at)
            for begins, opens, closes in _staffed_on(house, day):
                self.staffed |= self._hours(begins, opens, closes)
            for begins, opens, closes in _shut_on(house, day):
                self.shut |= self._hours(begins, opens, closes)
            for opens, closes in _serving_on(house, day):
                self.serving |= self._hours(day, opens, closes)
        self.staffed &= between(0, self.width)
        self.shut &= between(0, self.width)
        self.serving &= between(0, self.width)
        self._staffed_days = [at for at in range(days) if self.staffed & between(at * A_DAY, (at + 1) * A_DAY)]

    def at(self, day: date, clock: time | None, *, end: bool = False) -> int:
        """Return the moment of a clock time, of midnight where there is none; at an ``end`` that is the next day's."""
        start = (day - self.first).days * A_DAY
        if clock is None or (end and clock == time(0)):
            return start + (A_DAY if end else 0)
        minutes = clock.hour * 60 + clock.minute
        return start + (minutes // SLOT if end else -(-minutes // SLOT))

    def _hours(self, day: date, opens: time | None, closes: time | None) -> Slots:
        """Return the moments of a day's hours, which may end after midnight."""
        first, last = self.at(day, opens), self.at(day, closes, end=True)
        return between(max(0, first), last if last > first else last + A_DAY)

    def when(self, moment: int) -> datetime:
        """Return the day and clock time of a moment."""
        return datetime.combine(self.first, time(0)) + timedelta(minutes=moment * SLOT)

    def day_of(self, moment: int) -> date:
        """Return the day of a moment."""
        return self.first + timedelta(days=moment // A_DAY)

    def day_ending(self, moment: int) -> date:
        """Return the day on which what is over at a moment was made: at midnight that is the day that ends then."""
        return self.day_of(moment - 1)

    def staffed_days_before(self, moment: int, days: int) -> int:
        """Return when the day begins that is so many staffed days before a moment; 0 where there are fewer."""
        at = bisect_left(self._staffed_days, moment // A_DAY) - days
        return self._staffed_days[at] * A_DAY if at >= 0 else 0

    def staffed_minutes(self, day: date, *, outside_service: bool) -> int:
        """Return the minutes of a day in which somebody is in the building, without those of service if asked."""
        start = (day - self.first).days * A_DAY
        moments = self.staffed & between(start, start + A_DAY)
        if outside_service:
            moments &= ~self.serving
        return moments.bit_count() * SLOT


def doors_of(house: House, line: str) -> tuple[time | None, time | None]:
    """Return by when a line is set up on a day of service, and when the doors open; None where nobody has said."""
    service = house.file.service
    doors = service.doors if service is not None else None
    set_up = next((known.set_up for known in house.file.lines if known.id == line), None)
    return set_up or doors, doors or set_up


def _staffed_on(house: House, day: date) -> list[_Hours]:
    service = house.file.service
    if service is None:
        return [(day, None, None)]
    if is_service_day(house, day):
        begins = day - timedelta(days=1) if _is_night_before(service) else day
        return [(begins, service.staffed_from, service.staffed_to)]
    hours = service.prep.get(weekday_of(day))
    return [(day, *hours)] if hours is not None and day not in service.closed else []


def _is_night_before(service: Service) -> bool:
    """Return whether the staffed hours of a day of service begin on the evening before it: the doors open after it."""
    opens, closes, doors = service.staffed_from, service.staffed_to, service.doors
    return opens is not None and closes is not None and doors is not None and doors < closes <= opens


def _shut_on(house: House, day: date) -> list[_Hours]:
    """Return the hours in which somebody would be there for a closed day, were it open."""
    service = house.file.service
    if service is None or day not in service.closed:
        return []
    opened = replace(service, closed=tuple(other for other in service.closed if other != day))
    return _staffed_on(replace(house, file=replace(house.file, service=opened)), day)


def _serving_on(house: House, day: date) -> list[tuple[time | None, time | None]]:
    service = house.file.service
    if service is None or service.doors is None or service.last_seating is None or not is_service_day(house, day):
        return []
    return [(service.doors, service.last_seating)]
