"""The factor method: factor = new total yield / old total yield, every amount times the factor, rounded after.

Method: USDA FNS with NFSMI, Measuring Success with Standardized Recipes (2002). The source of each sum is beside it.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from typed_house import US, read, typed_house

from linebook.compute.batches import compute_batch
from linebook.compute.ladders import amount_parts
from linebook.compute.rounding import print_amount
from linebook.model.quantities import parse_amount, write_compound
from linebook.model.units import OUNCE, times, to_base


def _times(amount, number: int):
    return times(amount, Fraction(number))


@pytest.mark.parametrize(
    ("old", "new", "factor"),
    [
        # Kendall College library guide, recipe conversions: 5 portions x 8 oz and 10 x 4 oz are the same total, so the
        # factor is 1 and not 2.
        ((5, "8 oz"), (10, "4 oz"), "1.0"),
        # Own sum by the same formula: 35 x 185 g = 6475 g, 50 x 230 g = 11500 g.
        ((35, "185 g"), (50, "230 g"), "1.776062"),
        # Worksheet, scribd.com 701046145: 75 to 300.
        ((75, "100 g"), (300, "100 g"), "4.0"),
    ],
)
def test_factor_compares_total_yields_not_portions(old, new, factor):
    (old_portions, old_size), (new_portions, new_size) = old, new
    kitchen = typed_house("1 kg", {"stock": "500 g"})
    spec = _times(read(old_size), old_portions)
    made = compute_batch(kitchen, "it", makes=spec).factor
    wanted = compute_batch(kitchen, "it", makes=_times(read(new_size), new_portions)).factor
    assert f"{float(wanted / made):.6f}".rstrip("0").rstrip(".") == factor.rstrip("0").rstrip(".")


def test_factor_of_a_component_typed_at_the_old_yield():
    kitchen = typed_house("6475 g", {"beef": "8 kg"})
    batch = compute_batch(kitchen, "it", makes=parse_amount("11500 g", US))
    assert batch.factor == Fraction(11500, 6475)
    assert f"{float(batch.factor):.6f}" == "1.776062"
    # Each amount times the factor, exact before any rounding.
    assert batch.ingredients[0].total.number == 8 * Fraction(11500, 6475)


@pytest.mark.parametrize(
    ("typed", "factor", "printed"),
    [
        ("23 lb 4 oz", "2", "46 lb 8 oz"),  # Minnesota Department of Education, standardized recipes page
        ("2 lb 8 oz", "3/2", "3 lb 12 oz"),  # own sum
    ],
)
def test_compound_weights_scale_as_one_weight(typed, factor, printed):
    batch = compute_batch(typed_house("10 kg", {"beef": typed}), "it", times=Fraction(factor))
    amount = print_amount(batch.ingredients[0].total, (), Fraction(1, 100))
    assert not amount.moved
    assert write_compound(amount.amount, OUNCE) == printed
    assert len(amount_parts(amount.amount)) == 2


def test_portion_of_the_doubled_weight():  # Minnesota Department of Education: 46 lb 8 oz for 100; the portion computed
    assert to_base(read("46 lb 8 oz")) / 100 == to_base(read("7.44 oz"))


@pytest.mark.parametrize(
    ("batch", "scoop", "portions"),
    [("3 qt", 16, 48), ("1 qt", 8, 8), ("1 qt", 6, 6)],  # Basics at a Glance (NFSMI/ICN): level scoops a US quart
)
def test_scoop_portions(batch, scoop, portions):
    one = compute_batch(typed_house(batch, {}), "it", makes=read(f"no. {scoop} scoop".join(("1 ", ""))))
    assert 1 / one.factor == portions


# USDA, guide for rounding off weights and measures, in: Menu and Recipe Manual for Early Childhood Institutions,
# Appendix 7. Left: an amount inside or at the edge of a band; right: the step it is rounded to.
GUIDE = [
    ("2 oz", "1/4 oz"), ("9.9 oz", "1/4 oz"), ("10 oz", "1/4 oz"), ("10.1 oz", "1/2 oz"), ("2 lb 7.9 oz", "1/2 oz"),
    ("2 lb 8.3 oz", "1 oz"), ("5 lb", "1 oz"), ("5.1 lb", "1/4 lb"), ("37.3 lb", "1/4 lb"),
    ("0.7 tsp", "1/8 tsp"), ("2.9 tsp", "1/8 tsp"), ("1.1 tbsp", "1/4 tsp"), ("2.9 tbsp", "1/4 tsp"),
    ("3.1 tbsp", "1/2 tsp"), ("0.45 cup", "1/2 tsp"), ("0.6 cup", "1 tsp"), ("0.9 cup", "1 tbsp"),
    ("2.2 cup", "1/4 cup"), ("1.9 qt", "1/4 cup"), ("3.1 qt", "1/2 cup"), ("1.3 gal", "1 cup"), ("5.1 gal", "1 qt"),
    ("12.3 gal", "1/2 gal"), ("33.3 gal", "1 gal"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "step"), GUIDE)
def test_usda_rounding_guide_where_a_house_names_no_instrument(typed, step):
    exact, size = to_base(read(typed)), to_base(read(step))
    rounded = to_base(print_amount(read(typed), (), Fraction(1, 100)).amount)
    assert (rounded / size).denominator == 1
    assert abs(rounded - exact) <= size / 2
