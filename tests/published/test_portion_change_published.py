"""A changed portion size compares total yields, through the real sizing: new total yield over old total yield.

Method: USDA FNS with NFSMI, Measuring Success with Standardized Recipes (2002). The source of each sum is beside it.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from typed_house import AT, read, typed_house

from linebook.compute.asked import size_by_pieces, size_by_portions
from linebook.compute.have import size_from_had
from linebook.model.pantry import PantryItem
from linebook.model.units import to_base


@pytest.mark.parametrize(
    ("makes", "portions", "portion", "factor"),
    [
        # Kendall College library guide, recipe conversions: 5 portions x 8 oz and 10 x 4 oz are one total yield, so the
        # factor is 1 and not 2.
        ("40 oz", 10, "4 oz", "1.000000"),
        # Own sum by the same formula: 35 x 185 g = 6475 g, 50 x 230 g = 11500 g.
        ("6475 g", 50, "230 g", "1.776062"),
        # Worksheet, scribd.com 701046145: 75 to 300 portions, here of 100 g.
        ("7.5 kg", 300, "100 g", "4.000000"),
        # Minnesota Department of Education, standardized recipes page: 23 lb 4 oz for 50, 7.44 oz each, to 100.
        ("23 lb 4 oz", 100, "7.44 oz", "2.000000"),
    ],
)
def test_the_factor_is_of_total_yields(makes, portions, portion, factor):
    kitchen = typed_house(makes, {"stock": "1 kg"})
    sized = size_by_portions(kitchen, "it", "menu", Fraction(portions), read(portion))
    assert f"{float(sized.batch.factor):.6f}" == factor
    assert to_base(sized.batch.ingredients[0].total) == 1000 * sized.batch.factor


def test_what_is_lost_between_pan_and_plate_is_made_too():
    # own sum: 50 x 230 g is 11.5 kg on plates; at 4 % loss 11.5 / 0.96 = 11.979 kg is made
    kitchen = typed_house("6475 g", {"stock": "1 kg"})
    part = replace(kitchen.components["it"], loss=Fraction(4, 100))
    kitchen = replace(kitchen, components={"it": part})
    sized = size_by_portions(kitchen, "it", "menu", Fraction(50), read("230 g"))
    assert sized.batch.factor == Fraction(11500, 6475) / Fraction(96, 100)


def test_the_portion_of_the_menu_stands_where_none_is_given():
    # Basics at a Glance (NFSMI/ICN): a US quart holds 8 level no. 8 scoops, 3 quarts 48 of no. 16
    kitchen = typed_house("1 qt", {"stock": "1 qt"}, portion="1 no. 16 scoop")
    assert size_by_portions(kitchen, "it", "menu", Fraction(48)).batch.factor == 3


def test_trade_facts_of_trout():
    # common practice, no source: a third of a 30 lb delivery is 10 lb; six portions a fillet
    kitchen = typed_house("30 lb", {"trout": "30 lb"}, pieces=18, portion="1 piece")
    trout = PantryItem(id="trout", name="trout", weighs={}, **AT)
    kitchen = replace(kitchen, pantry={"trout": trout})
    had = size_from_had(kitchen, "it", {"trout": read("10 lb")}, "menu")
    assert (had.batch.factor, had.batch.pieces) == (Fraction(1, 3), 6)
    assert [given.count for given in had.portions] == [6]


def test_two_cubes_a_portion():
    # common practice, no source: two cubes a portion; 48 cubes are 24 portions
    kitchen = typed_house("3 kg", {"jelly": "3 kg"}, pieces=60, portion="2 pieces")
    sized = size_by_pieces(kitchen, "it", "menu", Fraction(48))
    assert sized.batch.total == read("2.4 kg")
    assert [given.count for given in sized.portions] == [24]
