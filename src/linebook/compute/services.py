"""Which services a span of days has: the days the house is open, the menu in force on each, and for how many covers.

Knows the calendar of a house; knows nothing of what is cooked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from types import MappingProxyType
from typing import Final

from linebook.model.house import House, Service
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen
from linebook.source.spans import Span

WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_NAMES: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@frozen
class CoversAsked:
    """Covers said for now, which stand before the menu's: those of a date, then of a weekday, then of every service."""

    every: int | None = None
    weekdays: Mapping[str, int] = MappingProxyType({})
    dates: Mapping[date, int] = MappingProxyType({})


NOT_ASKED: Final = CoversAsked()


@frozen
class ServiceDay:
    """One service: its day, the menu in force and the covers expected."""

    day: date
    menu: str
    covers: int


@frozen
class Services:
    """The services of a span, in order. ``without_menu`` are days of service on which no menu is in force."""

    days: tuple[ServiceDay, ...]
    without_menu: tuple[date, ...] = ()


def weekday_of(day: date) -> str:
    """Return the weekday as specs write it: ``mon`` … ``sun``."""
    return WEEKDAYS[day.weekday()]


def menu_in_force(house: House, day: date) -> str | None:
    """Return the id of the menu in force on a day: the latest to have begun that has not ended."""
    begun = [menu for menu in house.menus.values() if menu.first <= day]
    if not begun:
        return None
    latest = max(begun, key=lambda menu: menu.first)
    return None if latest.last is not None and latest.last < day else latest.id


def last_day_of(house: House, menu: str) -> date | None:
    """Return the last day a menu is served: its own, or the day before the next begins; None if neither is known."""
    own = house.menus[menu]
    later = [other.first - timedelta(days=1) for other in house.menus.values() if other.first > own.first]
    ends = [*later, *([own.last] if own.last is not None else [])]
    return min(ends, default=None)


def is_service_day(house: House, day: date) -> bool:
    """Return whether the house serves on a day; a house that names no days serves on all that are not closed."""
    service = house.file.service
    if service is None:
        return True
    return weekday_of(day) in service.days and day not in service.closed


def find_services(house: House, first: date, days: int, asked: CoversAsked = NOT_ASKED) -> Outcome[Services]:
    """Return the services of ``days`` days from ``first``, closed days left out; a menu may change within them.

    A service with no covers expected is none. Faults: LB902 where no day has a menu in force, LB709 where a day has no
    covers, neither asked for nor in its menu, where there is no service at all, and where covers are asked for a day
    without one.
    """
    span = tuple(first + timedelta(days=at) for at in range(days))
    open_days = tuple(day for day in span if is_service_day(house, day))
    menus = {day: menu for day in open_days if (menu := menu_in_force(house, day)) is not None}
    faults = [*_no_service(house, span, open_days), *_asked_elsewhere(house, open_days, asked)]
    if open_days and not menus:
        faults.append(_no_menu(house, open_days[0]))
    known = {day: _covers(house, menu, day, asked) for day, menu in menus.items()}
    if house.file.service is None and any(known.values()):
        known = {day: covers for day, covers in known.items() if covers is not None}
    faults += _without_covers(house, {day: menus[day] for day, covers in known.items() if covers is None})
    if faults:
        return Outcome(value=None, faults=tuple(faults))
    found = tuple(ServiceDay(day=day, menu=menus[day], covers=covers) for day, covers in known.items() if covers)
    return Outcome(value=Services(days=found, without_menu=tuple(day for day in open_days if day not in menus)))


def later_services(house: House, first: date, last: date, asked: CoversAsked) -> tuple[ServiceDay, ...]:
    """Return the services from ``first`` to ``last`` whose covers are known, those without are left out."""
    found = []
    for at in range((last - first).days + 1):
        day = first + timedelta(days=at)
        menu = menu_in_force(house, day) if is_service_day(house, day) else None
        covers = None if menu is None else _covers(house, menu, day, asked)
        if menu is not None and covers:
            found.append(ServiceDay(day=day, menu=menu, covers=covers))
    return tuple(found)


def say_day(day: date) -> str:
    """Return a day as faults name it: *Tuesday 2027-03-02*."""
    return f"{_NAMES[day.weekday()]} {day.isoformat()}"


def _covers(house: House, menu: str, day: date, asked: CoversAsked) -> int | None:
    weekday = weekday_of(day)
    for given in (asked.dates.get(day), asked.weekdays.get(weekday), asked.every):
        if given is not None:
            return given
    return house.menus[menu].covers.get(weekday)


def _no_service(house: House, span: tuple[date, ...], open_days: tuple[date, ...]) -> Iterator[Fault]:
    if open_days:
        return
    service = house.file.service
    days = ", ".join(service.days) if service is not None else ""
    told = say_day(span[0]) if len(span) == 1 else f"{say_day(span[0])} to {say_day(span[-1])}"
    closed = [day for day in span if service is not None and day in service.closed]
    are = "is" if len(closed) == 1 else "are"
    also = f"; {', '.join(day.isoformat() for day in closed)} {are} closed" if closed else ""
    yield fault(
        "LB709",
        f"there is no service from {told}" if len(span) > 1 else f"there is no service on {told}",
        None if service is None else service.at("days"),
        hints=(f"the house serves on {days}{also}", "begin on another day with --from, or take more with --days"),
    )


def _asked_elsewhere(house: House, open_days: tuple[date, ...], asked: CoversAsked) -> Iterator[Fault]:
    """Yield a fault for each day that covers are asked for and that has no service: it is a slip, or a closed day."""
    if not open_days:
        return
    weekdays = {weekday_of(day) for day in open_days}
    there_are = ", ".join(f"{weekday_of(day)} {day.isoformat()}" for day in open_days[:7])
    for word in (
        *(day.isoformat() for day in asked.dates if day not in open_days),
        *(weekday for weekday in asked.weekdays if weekday not in weekdays),
    ):
        service = house.file.service
        closed = service is not None and any(word == day.isoformat() for day in service.closed)
        yield fault(
            "LB709",
            f"covers are given for `{word}`, which is a closed day"
            if closed
            else f"covers are given for `{word}`, and there is no service then",
            _closed_span(service, word) if service is not None and closed else None,
            hints=(
                f"the services of these days are {there_are}",
                f"take `{word}` off `closed:`, or give no covers for it"
                if closed
                else "give covers for one of them, take more days with --days, or add the day to `days:` in house.yaml",
            ),
        )


def _closed_span(service: Service, word: str) -> Span:
    number = next(at for at, day in enumerate(service.closed) if day.isoformat() == word)
    return service.spans.get(f"closed.{number}", service.at("closed"))


def _no_menu(house: House, day: date) -> Fault:
    listing = ", ".join(f"{menu.name} from {menu.first}" for menu in house.menus.values())
    return fault(
        "LB902", f"no menu is in force on {day}", None, hints=(f"the house has: {listing}; choose another day",)
    )


def _without_covers(house: House, missing: Mapping[date, str]) -> Iterator[Fault]:
    """Yield one fault for each weekday of a menu, at its covers."""
    told: set[tuple[str, str]] = set()
    for day, menu in missing.items():
        weekday = weekday_of(day)
        if (menu, weekday) in told:
            continue
        told.add((menu, weekday))
        yield fault(
            "LB709",
            f"no covers are known for {say_day(day)}",
            house.menus[menu].at("covers"),
            hints=(
                f"say them with --covers {weekday}=80, --covers {day.isoformat()}=80 or --covers 80 for every service",
                f"or add `{weekday}: 80` to `covers:` in the menu",
            ),
        )
