"""The guide for rounding off weights and measures of USDA's quantity recipe materials, band by band and at its edges.

Source: Menu and Recipe Manual for Early Childhood Institutions, Appendix 7, a reprint of that guide (read); the band from
3/4 cup to 2 cups is from memory. The guide is used where a house names no instrument of that system.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed_house import US

from linebook.compute.rounding import print_amount
from linebook.model.amounts import Amount
from linebook.model.quantities import parse_amount
from linebook.model.units import UNITS, to_base

# more than, up to and including, round to
WEIGHTS = [
    ("2 oz", "10 oz", "1/4 oz"),
    ("10 oz", "2 lb 8 oz", "1/2 oz"),
    ("2 lb 8 oz", "5 lb", "1 oz"),
    ("5 lb", "500 lb", "1/4 lb"),
]
MEASURES = [
    ("1/8 tsp", "1 tbsp", "1/8 tsp"),
    ("1 tbsp", "3 tbsp", "1/4 tsp"),
    ("3 tbsp", "1/2 cup", "1/2 tsp"),
    ("1/2 cup", "3/4 cup", "1 tsp"),
    ("3/4 cup", "2 cups", "1 tbsp"),
    ("2 cups", "2 qt", "1/4 cup"),
    ("2 qt", "4 qt", "1/2 cup"),
    ("1 gal", "2 gal", "1 cup"),
    ("2 gal", "10 gal", "1 qt"),
    ("10 gal", "20 gal", "1/2 gal"),
    ("20 gal", "500 gal", "1 gal"),
]
BANDS = WEIGHTS + MEASURES


def base(text: str) -> Fraction:
    return to_base(parse_amount(text, US))


def rounded(grams_or_millilitres: Fraction, like: str) -> Fraction:
    unit = UNITS["ounce"] if "oz" in like or "lb" in like else UNITS["us-teaspoon"]
    one = to_base(Amount(number=Fraction(1), unit=unit))
    printed = print_amount(Amount(number=grams_or_millilitres / one, unit=unit), (), Fraction(1, 100))
    return to_base(printed.amount)


@given(st.sampled_from(BANDS), st.fractions(min_value=0, max_value=1, max_denominator=10_000))
def test_within_a_band_it_is_the_nearest_step(band, way):
    lower, upper, step = (base(text) for text in band)
    amount = lower + (upper - lower) * way
    if not way:
        return  # the lower bound is the band's before
    found = rounded(amount, band[2])
    assert (found / step).denominator == 1
    assert abs(found - amount) <= step / 2


@pytest.mark.parametrize("band", BANDS)
def test_the_edges_of_a_band_are_round_already(band):
    for edge in band[:2]:
        assert rounded(base(edge), band[2]) == base(edge)


@pytest.mark.parametrize(
    ("exact", "shown"),
    [  # worked by hand from the guide, one in each band
        ("3.4 oz", "3 1/2 oz"),
        ("12.2 oz", "12 oz"),
        ("3 lb 2.6 oz", "3 lb 3 oz"),
        ("7.4 lb", "7 lb 8 oz"),
        ("1.7 tsp", "1 3/4 tsp"),
        ("5.1 tsp", "5 tsp"),
        ("10.3 tsp", "10 1/2 tsp"),
        ("30.4 tsp", "30 tsp"),
        ("17.4 tbsp", "17 tbsp"),
        ("3.1 cups", "3 cups"),
        ("2.3 qt", "9 cups"),
        ("1.3 gal", "21 cups"),
        ("2.6 gal", "10 qt"),
        ("12.3 gal", "12 1/2 gal"),
        ("23.4 gal", "23 gal"),
    ],
)
def test_worked_by_hand(exact, shown):
    assert rounded(base(exact), shown) == base(shown)


@pytest.mark.parametrize("text", ["1/4 oz", "1/2 oz", "3/4 oz"])
def test_under_two_ounces_these_stay_as_they_are(text):
    assert rounded(base(text), text) == base(text)
