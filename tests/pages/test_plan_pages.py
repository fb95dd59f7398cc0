"""Prep plans, weeks, pull lists and tasting sheets are measured like every page we print."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache

import pytest
from printed_houses import DEMO, Sheets

from linebook.cli.asked import Asked
from linebook.compute.plan_record import plan_changes, record_of
from linebook.compute.plan_results import PrepPlan
from linebook.compute.prep_plan import compute_plan, days_ahead
from linebook.compute.services import CoversAsked, find_services, later_services
from linebook.model.house import House
from linebook.pdf.printing import Printing
from linebook.pipeline import load_house
from linebook.service_sheets import plan_sheets, tasting_sheets
from linebook.workshop import open_workshop

FIRST = date(2027, 3, 9)
LAST = FIRST + timedelta(days=4)


@cache
def demo() -> House:
    house = load_house(DEMO, "house").value
    assert house is not None
    return house


@cache
def planned(saturday: int) -> PrepPlan:
    asked = CoversAsked(weekdays={"sat": saturday})
    services = find_services(demo(), FIRST, 5, asked).value
    assert services is not None
    later = later_services(demo(), LAST + timedelta(days=1), LAST + timedelta(days=days_ahead(demo())), asked)
    return compute_plan(demo(), services.days, later, first=FIRST, last=LAST)


@cache
def sheets(kind: str, *languages: str) -> Sheets:
    """Return the plan of a line with what a bigger Saturday has changed, or the tasting sheet."""
    house = Asked(languages=languages).house(demo())
    plan = planned(160)
    shop = open_workshop(house, plan.services[0].menu, FIRST, DEMO).value
    assert shop is not None
    changes = plan_changes(record_of(planned(100)), record_of(plan))
    assert changes
    made = tasting_sheets(shop, FIRST) if kind == "tasting" else plan_sheets(shop, plan, kind, changes)
    assert made.faults == ()
    return Sheets(shop.theme, shop.theme_folder, made.value)


def defects(found: Sheets, printing: Printing) -> list[str]:
    """Return what is wrong. That the space before *pH* begins where the blank before it ends is no fault."""
    told = [str(one) for one in found.defects(printing)]
    return [one for one in told if not one.endswith("crossed: a line runs through ` pH`")]


@pytest.mark.parametrize("printing", [{}, {"ink": "grey"}], ids=str)
@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("kind", ["hearth", "larder", "tasting"])
def test_a_sheet_has_no_defect(kind, paper, printing):
    assert defects(sheets(kind), Printing(paper=paper, **printing)) == []


@pytest.mark.parametrize("languages", [("en", "es"), ("es",)], ids=str)
@pytest.mark.parametrize("kind", ["hearth", "tasting"])
def test_a_sheet_in_two_languages_has_no_defect(kind, languages):
    assert defects(sheets(kind, *languages), Printing(paper="a4")) == []


@pytest.mark.parametrize("kind", ["stove", "tasting"])
def test_large_sheets_have_no_defect(kind):
    assert defects(sheets(kind), Printing(paper="letter", large=True)) == []
