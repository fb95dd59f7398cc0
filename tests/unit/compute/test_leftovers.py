"""Whether what is over keeps until the next service: days counted by hand on a calendar of March 2027."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any

import pytest

from linebook.compute.leftovers import keeps_until_next, next_service
from linebook.model.body import Body
from linebook.model.component import Component, Ingredient
from linebook.model.house import House, HouseFile, Service
from linebook.model.quantities import parse_amount, parse_duration
from linebook.model.units import METRIC_ONLY
from linebook.source.spans import SourceFile

SPAN = SourceFile(path="left", text="left").whole()
FRIDAY, SATURDAY, TUESDAY, WEDNESDAY = date(2027, 3, 5), date(2027, 3, 6), date(2027, 3, 9), date(2027, 3, 10)


def made(kind: Any, **fields: Any) -> Any:
    return kind(span=SPAN, spans=MappingProxyType({}), **fields)


def house(*closed: date, service: bool = True) -> House:
    week = made(Service, days=("tue", "wed", "thu", "fri", "sat"), closed=closed) if service else None
    file = made(
        HouseFile,
        name="H",
        rules="UK",
        currency="£",
        fahrenheit=False,
        measures=METRIC_ONLY,
        service=week,
        lines=(),
        allergens=None,
    )
    return House(file=file, pantry={}, components={}, dishes={}, menus={}, by_products={})


def component(keeps: str | None) -> Component:
    length = None if keeps is None else parse_duration(keeps)
    makes = parse_amount("4 kg", METRIC_ONLY)
    return made(Component, id="x", name="X", line="l", makes=makes, keeps=length, body=Body(sections=()))


def test_the_next_service_is_the_next_open_day():
    assert next_service(house(), FRIDAY) == SATURDAY
    assert next_service(house(), SATURDAY) == TUESDAY
    assert next_service(house(TUESDAY), SATURDAY) == WEDNESDAY
    assert next_service(house(service=False), SATURDAY) == date(2027, 3, 7)


@pytest.mark.parametrize(
    ("keeps", "day", "following", "made_from"),
    [
        ("2 d", FRIDAY, SATURDAY, FRIDAY),  # made on Friday, day 1; Saturday is day 2
        ("3 d", FRIDAY, SATURDAY, date(2027, 3, 4)),
        ("1 d", FRIDAY, SATURDAY, None),
        ("3 d", SATURDAY, TUESDAY, None),  # Saturday, Sunday, Monday
        ("4 d", SATURDAY, TUESDAY, SATURDAY),
        ("6 h", FRIDAY, SATURDAY, None),
    ],
)
def test_it_keeps_where_its_last_day_is_no_earlier(keeps, day, following, made_from):
    kept = keeps_until_next(house(), component(keeps), day)
    assert kept is not None
    assert (kept.next_service, kept.made_from, kept.known) == (following, made_from, True)


def test_what_says_nothing_of_its_life_is_not_known():
    kept = keeps_until_next(house(), component(None), FRIDAY)
    assert kept is not None
    assert not kept.known


@pytest.mark.parametrize(("sauce_keeps", "made_from"), [("2 d", FRIDAY), ("1 d", None)])
def test_what_is_in_it_counts_too(sauce_keeps, made_from):
    line = made(Ingredient, item="sauce", amount=parse_amount("1 kg", METRIC_ONLY))
    pie = replace(component("5 d"), ingredients=(line,))
    sauce = replace(component(sauce_keeps), id="sauce")
    kept = keeps_until_next(replace(house(), components={"x": pie, "sauce": sauce}), pie, FRIDAY)
    assert kept is not None
    assert (kept.made_from, kept.known) == (made_from, True)
