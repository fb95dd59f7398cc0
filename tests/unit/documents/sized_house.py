"""A sample house whose short rib has all that a size can say: loads by stage, held-back lines, growing times, trim."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import Any

from sample_house import (
    SATURDAY,
    amount,
    made,
    pantry_item,
    sample_components,
    sample_house,
    sample_house_file,
    short_rib,
)

from linebook.compute.allergens import compute_allergens
from linebook.compute.base import base_batch
from linebook.compute.demand import compute_night
from linebook.documents.batch_card import night_batch_card
from linebook.documents.wording import english
from linebook.model.component import Component, Growth, Ingredient, Scale
from linebook.model.house import House, Service
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry, YieldTest

RIB = "short-rib-glazed"


def sized_rib(**changes: Any) -> Component:
    """The short rib: brined in one load, smoked in loads of 14 kg of rib; its vinegar is held back."""
    rib = short_rib()
    brine, smoke, chill = rib.stages
    lines = [
        replace(line, amount=amount("400 ml")) if line.item == "cider-vinegar" else line for line in rib.ingredients
    ]
    lines = [replace(line, scale=Scale.HELD_BACK) if line.item == "cider-vinegar" else line for line in lines]
    stages = (
        replace(brine, work=Growth.GROWS),
        replace(smoke, at_most=amount("14 kg"), of=("beef-short-rib",), work=Growth.GROWS, time=Growth.JUDGE),
        chill,
    )
    return replace(rib, **{"ingredients": tuple(lines), "stages": stages, "largest_batch": None, **changes})


def sized_house(component: Component | None = None, **file: Any) -> House:
    """The house, open from Tuesday to Saturday, with a yield test of its rib."""
    service = made(Service, days=("tue", "wed", "thu", "fri", "sat"), closed=(date(2027, 3, 9),))
    house = sample_house(
        file=sample_house_file(**{"service": service, **file}),
        components=sample_components() | {RIB: component or sized_rib()},
    )
    tests = (made(YieldTest, tested=date(2027, 1, 5), bought=amount("10 kg"), usable=amount("7 kg")),)
    rib = pantry_item("beef-short-rib", "beef short rib, bone in", yield_tests=tests)
    return replace(house, pantry=house.pantry | {"beef-short-rib": rib})


def stock(text: str, **fields: Any) -> StockEntry:
    return made(StockEntry, item=RIB, amount=amount(text), **fields)


def sized_night(
    house: House, covers: int = 140, *on_hand: StockEntry, component: str = RIB, day: date | None = SATURDAY
) -> Any:
    """The card of a night with stock on hand."""
    night = compute_night(house, Occasion(menu="early-spring", covers=covers, date=day, on_hand=on_hand))
    table = compute_allergens(house, "early-spring")
    return night_batch_card(house, base_batch(house, component), night, component, table, english())


def held_back(text: str, first: Fraction | None = None) -> Ingredient:
    """A line that is held back."""
    line = made(Ingredient, item="cider-vinegar", amount=amount(text), stage="smoke", scale=Scale.HELD_BACK)
    return replace(line, first=first)
