"""The small house of the cases, planned for a week: what the sheets of a plan are tested on."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from pathlib import Path

from linebook.compute.plan_results import PrepPlan
from linebook.compute.prep_plan import compute_plan, days_ahead
from linebook.compute.services import CoversAsked, find_services, later_services
from linebook.model.house import House
from linebook.pipeline import load_house

SMALL = Path(__file__).parents[2] / "cases" / "small-house"
WEDNESDAY = date(2027, 3, 3)
COVERS = CoversAsked(every=60)


@cache
def small_house() -> House:
    loaded = load_house(SMALL, "small-house")
    assert loaded.value is not None, loaded.faults
    return loaded.value


@cache
def week_plan(days: int = 7, covers: int = 60, first: date = WEDNESDAY) -> PrepPlan:
    house, asked = small_house(), CoversAsked(every=covers)
    services = find_services(house, first, days, asked).value
    assert services is not None
    last = first + timedelta(days=days - 1)
    later = later_services(house, last + timedelta(days=1), last + timedelta(days=days_ahead(house)), asked)
    return compute_plan(house, services.days, later, first=first, last=last)
