"""What one load of a stage holds: by hand, and against the loads that are computed from the same contents."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil
from types import MappingProxyType
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.compute.batches import compute_batch
from linebook.compute.stage_contents import load_of_stage, vessels_at_least
from linebook.compute.stage_times import loads_of_stages
from linebook.model.body import Body
from linebook.model.component import ByProduct, Component, Ingredient, Stage
from linebook.model.house import AllergenPolicy, House, HouseFile, Vessel
from linebook.model.pantry import PantryItem
from linebook.model.quantities import parse_amount
from linebook.model.units import METRIC_ONLY, to_base
from linebook.source.spans import SourceFile

SPAN = SourceFile(path="held", text="held").whole()


def made(kind: Any, **fields: Any) -> Any:
    return kind(span=SPAN, spans=MappingProxyType({}), **fields)


def amount(text: str) -> Any:
    return parse_amount(text, METRIC_ONLY)


def house(*stages: Stage, **fields: Any) -> House:
    """28 kg of rib and 18 L of water go into a brine, 400 g of pepper into a smoke; 2 kg of trim leave before it."""
    lines = (("rib", "28 kg", "brine", False), ("water", "18 L", "brine", True), ("pepper", "400 g", "smoke", False))
    component = made(
        Component,
        id="short-rib",
        name="Short rib",
        line="hearth",
        makes=amount("18 kg"),
        ingredients=tuple(
            made(Ingredient, item=item, amount=amount(text), stage=stage, medium=medium)
            for item, text, stage, medium in lines
        ),
        also_makes=(made(ByProduct, item="trim", name="trim", amount=amount("2 kg"), after="brine"),),
        stages=stages,
        body=Body(sections=()),
        **fields,
    )
    tub = made(Vessel, id="tub", name="tub", holds=amount("30 L"), fill=Fraction(9, 10), count=6)
    policy = made(AllergenPolicy, lists=("uk",), avoid={})
    file = made(
        HouseFile,
        name="H",
        rules="UK",
        currency="£",
        fahrenheit=False,
        measures=METRIC_ONLY,
        lines=(),
        allergens=policy,
        vessels=(tub,),
    )
    pantry = {
        id_: made(PantryItem, id=id_, name=id_, weighs={}, density=density)
        for id_, density in (("rib", None), ("water", Fraction(1)), ("pepper", None))
    }
    trim = {"trim": ((component, component.also_makes[0]),)}
    return House(file=file, pantry=pantry, components={"short-rib": component}, dishes={}, menus={}, by_products=trim)


BRINE, SMOKE = made(Stage, name="brine"), made(Stage, name="smoke")


def held(kitchen: House, stage: int, times: str = "1") -> Fraction | None:
    batch = compute_batch(kitchen, "short-rib", times=Fraction(times))
    load = load_of_stage(kitchen, batch, stage, [line.total for line in batch.ingredients])
    return None if load is None else to_base(load)


@pytest.mark.parametrize(
    ("most", "of", "stage", "grams"),
    [
        ("46 kg", (), 0, 46_000),  # the sum of the issue: 28 kg of rib and 18 L of brine, in one load
        ("28 kg", ("rib",), 0, 28_000),
        ("14 kg", ("rib",), 0, 14_000),
        ("30 kg", (), 1, 26_400),  # the brine is out, and 2 kg of trim; 400 g of pepper are in
        ("10 kg", (), 1, 8_800),
    ],
)
def test_a_load_holds_what_its_most_counts(most, of, stage, grams):
    stages = [BRINE, SMOKE]
    stages[stage] = replace(stages[stage], at_most=amount(most), of=of)
    assert held(house(*stages), stage) == grams


def test_without_a_most_nothing_is_said():
    assert held(house(BRINE, SMOKE), 0) is None


def test_pieces_are_those_of_the_card():
    smoke = replace(SMOKE, at_most=amount("40 each"))
    assert held(house(BRINE, smoke, pieces=Fraction(120)), 1, "2") == 40


@given(
    times=st.fractions(min_value=Fraction(1, 20), max_value=20, max_denominator=40),
    most=st.integers(min_value=5, max_value=60),
)
def test_no_load_is_over_its_most_and_one_load_fewer_would_be(times, most):
    brine = replace(BRINE, at_most=amount(f"{most} kg"))
    kitchen = house(brine, SMOKE)
    loads = loads_of_stages(compute_batch(kitchen, "short-rib", times=times))[0]
    grams = held(kitchen, 0, str(times))
    assert grams is not None
    assert grams * loads == 46_000 * times
    assert grams <= most * 1000
    assert loads == 1 or grams * loads > most * 1000 * (loads - 1)


def test_a_load_fills_at_least_so_many_vessels():
    kitchen = house(replace(BRINE, vessel="tub"), SMOKE)
    for times in (1, 2, 5):
        batch = compute_batch(kitchen, "short-rib", times=Fraction(times))
        # 28 kg of rib as water and 18 L of brine, 27 L a tub
        assert vessels_at_least(kitchen, batch, 0) == ceil(Fraction(46 * times, 27) / batch.stage_loads[0])
        assert vessels_at_least(kitchen, batch, 1) == 1
