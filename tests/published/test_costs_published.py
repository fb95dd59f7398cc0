"""Costs against published sums, through the pantry's prices and yields. Sources are named beside each."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from linebook.compute.cost import Costs
from linebook.model.amounts import Amount
from linebook.model.body import Body
from linebook.model.component import Component, Ingredient
from linebook.model.house import AllergenPolicy, House, HouseFile
from linebook.model.pantry import PantryItem, Price
from linebook.model.quantities import parse_amount
from linebook.model.supply import PartWeighed, YieldTest
from linebook.model.units import METRIC_ONLY
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="test", text="").whole(), "spans": {}}


def amount(text: str) -> Amount:
    return parse_amount(text, METRIC_ONLY)


def item(price: str, **facts: object) -> PantryItem:
    per = Price(money=Fraction(price), per=amount("1 lb"), **AT)
    return PantryItem(id="item", name="item", weighs={}, price=per, **facts, **AT)


def cost_of(bought: PantryItem, how_much: str) -> Fraction:
    """The cost of so much usable, as a card takes it."""
    taken = Ingredient(item="item", amount=amount(how_much), **AT)
    card = Component(
        id="card", name="card", line="stove", makes=amount("1 lb"), ingredients=(taken,), body=Body(sections=()), **AT
    )
    policy = AllergenPolicy(lists=("us",), avoid={}, **AT)
    file = HouseFile(name="Test House", rules="UK", lines=(), allergens=policy, **AT)
    kitchen = House(file=file, pantry={"item": bought}, components={"card": card}, dishes={}, menus={}, by_products={})
    total = Costs(kitchen).batch("card").total
    assert not total.unpriced
    return total.money


# A hotel-school butcher's test of a standing rib (solutioninn.com, question 25939216): 38.75 lb at 3.19 a lb give 22 lb,
# and these parts with their worth a lb. The inputs were read; 123.6125 paid less 10.1775 leaves 113.435 for 22 lb.
PARTS = (("fat", "6.5", "0"), ("bones", "4.25", "0.32"), ("short ribs", "3.25", "1.49"), ("chopped", "2.5", "1.59"))


def standing_rib(price: str = "3.19") -> PantryItem:
    parts = tuple(
        PartWeighed(part=part, weighs=amount(f"{weight} lb"), value=(Fraction(value), amount("1 lb")), **AT)
        for part, weight, value in PARTS
    )
    test = YieldTest(
        tested=date(2027, 1, 14),
        bought=amount("38.75 lb"),
        usable=amount("22 lb"),
        parts=parts,
        price=(Fraction("3.19"), amount("1 lb")),
        **AT,
    )
    return item(price, yield_tests=(test,))


@pytest.mark.parametrize(
    ("price", "how_much", "money"),
    [
        ("3.19", "1 lb", "5.156136"),  # a usable pound
        ("3.19", "22 lb", "113.435"),  # all that is usable
        ("3.19", "10 oz", "3.222585"),  # a portion
        ("3.49", "1 lb", "5.641039"),  # at a new price: the cost factor 1.616344 times it
    ],
)
def test_butchers_test(price, how_much, money):
    assert float(cost_of(standing_rib(price), how_much)) == pytest.approx(float(money), abs=1e-6)


def test_cost_factor():
    assert float(cost_of(standing_rib("1"), "1 lb")) == pytest.approx(1.616344, abs=1e-6)


# Foundations of Cost Control (Traster), slides of chapter 4: 8 lb bought give 6 lb 7 oz, 80.46875 %; a usable pound that
# costs 2.17 at 96 % costs 2.0832 as bought.
def test_price_of_what_is_usable_from_the_price_of_what_is_bought():
    assert cost_of(item("2.0832", usable=Fraction(96, 100)), "1 lb") == Fraction("2.17")


def test_bought_weight_costs_what_was_paid_for_it():
    usable = Fraction("0.8046875")
    assert cost_of(item("1", usable=usable), "6 lb 7 oz") == 8
    before = replace(item("1", usable=usable), yield_tests=())
    assert cost_of(before, "6.4375 lb") == 8


# 40 portions of 150 g at 70 % are 8571.43 g bought (the formula of the same slides; the figure is computed).
def test_forty_portions():
    bought = replace(item("1", usable=Fraction(7, 10)), price=Price(money=Fraction(1), per=amount("1 kg"), **AT))
    assert float(cost_of(bought, "6 kg")) == pytest.approx(8.57143, abs=1e-5)
