"""Baker's percentages: every ingredient as a percentage of the weight of the flour.

Sources: Baker's Math slides (slideplayer.com 7820492) for the 40 lb dough; netcookingtalk.com tutorial inputs for the
48 oz one, worked out here.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from typed_house import read, typed_house

from linebook.compute.base import base_batch
from linebook.compute.batches import compute_batch
from linebook.model.units import OUNCE, POUND, in_unit, to_base

SLIDES = {
    "flour": "40 lb",
    "salt": "1.75 % of flour",
    "sugar": "2 % of flour",
    "yeast": "0.375 % of flour",
    "water": "58 % of flour",
}


def _totals(kitchen, **size) -> dict:
    return {line.ingredient.item: line.total for line in compute_batch(kitchen, "it", **size).ingredients}


def test_from_the_flour():
    found = _totals(typed_house("64.85 lb", SLIDES))
    assert found["salt"] == read("11.2 oz")
    assert in_unit(found["salt"], POUND).number == Fraction("0.7")
    dough = sum(to_base(amount) for amount in found.values())
    assert dough == to_base(read("64.85 lb"))
    assert dough / to_base(found["flour"]) * 100 == Fraction("162.125")


def test_from_the_weight_of_dough():
    lines = {"flour": "100 oz", "water": "59 % of flour", "salt": "2 % of flour", "yeast": "1 % of flour"}
    found = _totals(typed_house("162 oz", lines), makes=read("48 oz"))
    ounces = {item: in_unit(amount, OUNCE).number for item, amount in found.items()}
    assert sum(ounces.values()) == 48
    expected = {"flour": 29.6296, "water": 17.4815, "salt": 0.5926, "yeast": 0.2963}
    for item, number in expected.items():
        assert float(ounces[item]) == pytest.approx(number, abs=0.00005)


def test_in_reverse():  # 23 lb of water on 40 lb of flour is 57.5 %
    found = _totals(typed_house("63 lb", {"flour": "40 lb", "water": "57.5 % of flour"}))
    assert in_unit(found["water"], POUND).number == 23


def test_the_rate_is_grams_a_kilogram():
    salt = base_batch(typed_house("64.85 lb", SLIDES), "it").ingredients[1]
    assert salt.rate == Fraction("17.5")
