"""When a line tastes before service. It must not know on which sheet that stands."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Final

from linebook.compute.plan_results import PrepPlan
from linebook.compute.services import is_service_day
from linebook.model.house import House

BEFORE_DOORS: Final = timedelta(minutes=15)
"""Common practice, no source: late enough that all is set up, early enough to mend it."""


def tasting_time(house: House, day: date) -> datetime | None:
    """Return when a day's service is tasted, a quarter of an hour before the doors; None where none open then."""
    service = house.file.service
    doors = service.doors if service is not None and is_service_day(house, day) else None
    return None if doors is None else datetime.combine(day, doors) - BEFORE_DOORS


def tasting_on(house: House, plan: PrepPlan, line: str, day: date) -> datetime | None:
    """Return when a line tastes on a day of a plan; None without a service or without a dish of its own on the menu."""
    served = next((one for one in (*plan.services, *plan.later) if one.day == day), None)
    if served is None or all(house.dishes[one.dish].line != line for one in house.menus[served.menu].dishes):
        return None
    return tasting_time(house, day)
