"""Ingoing nitrite against published sums and limits.

Sources, read through the search tool's stored pages: USDA FSIS, Processing Inspectors' Calculations Handbook, 1995, ch. 3
(green weight of the meat block; the second method of immersion: green weight and pickle); worked figures of zanotowane.pl/123/192
for 1 g, 0.75 g and 30 g of a 0.6 % cure; the maximum amounts added of Regulation (EC) 1333/2008, annex II, as EFSA's opinion of
2017 (doi 10.2903/j.efsa.2017.4786, table 5) quotes them: 150 mg/kg, and 100 mg/kg where it is sterilised.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from typed_house import AT, typed_house

from linebook.compute.batches import compute_batch
from linebook.compute.ceilings import ingoing
from linebook.model.pantry import Declaration, PantryItem

NONE = Declaration(contains=(), may_contain=(), says="label", since=date(2027, 1, 1), **AT)
EU, EU_STERILISED = Fraction(150, 10**6), Fraction(100, 10**6)


def parts(lines: dict[str, str], strength: str, ceiling: Fraction = EU, *, brine: tuple[str, ...] = ()):
    made = typed_house("10 kg", lines, portion="100 g")
    items = {
        item: PantryItem(id=item, name=item, allergens=NONE, weighs={}, density=Fraction(1), **AT) for item in lines
    }
    items["cure"] = replace(items["cure"], strength={"sodium-nitrite": Fraction(strength)}, weigh_exactly=True)
    it = made.components["it"]
    marked = tuple(replace(line, medium=line.item in brine) for line in it.ingredients)
    made = replace(
        made,
        pantry=items,
        components={"it": replace(it, ingredients=marked)},
        file=replace(made.file, ceilings={"sodium-nitrite": ceiling}),
    )
    (found,) = ingoing(made, compute_batch(made, "it"))
    return found


@pytest.mark.parametrize(
    ("meat", "cure", "strength", "ppm"),
    [
        ("5 kg", "1 g", "1", 200),
        ("5 kg", "0.75 g", "1", 150),
        ("1 kg", "30 g", "0.006", 180),
        ("100 lb", "4 oz", "0.0625", Fraction(15625, 100)),  # 4 oz of a 6.25 % cure to 100 lb, printed as 156 ppm
    ],
)
def test_weight_of_nitrite_times_a_million_over_the_green_weight(meat, cure, strength, ppm):
    assert parts({"meat": meat, "cure": cure}, strength).part == Fraction(ppm) / 10**6


def test_the_second_method_of_immersion_counts_the_pickle_with_the_meat():
    # lb nitrite x 1,000,000 / (green weight + pickle): 0.05 lb of nitrite, 100 lb of meat, 150 lb of water and cure
    lines = {"meat": "100 lb", "water": "149.2 lb", "cure": "0.8 lb"}
    found = parts(lines, "0.0625", brine=("water", "cure"))
    assert (found.part, found.estimated) == (Fraction(5, 100) / 250, True)


@pytest.mark.parametrize(("ceiling", "over"), [(EU, False), (EU_STERILISED, True)])
def test_the_same_cure_under_two_limits(ceiling, over):
    assert parts({"meat": "10 kg", "cure": "200 g"}, "0.006", ceiling).is_over is over  # 120 ppm
