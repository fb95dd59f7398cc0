"""Amounts in words: what a cook measures with, and no decimal of a spoon, cup, pint or pound."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_house import amount

from linebook.compute.numerals import is_measured
from linebook.documents.measures import exactly, typed_text
from linebook.documents.wording import english
from linebook.model.amounts import Amount
from linebook.model.numbers import VULGAR
from linebook.model.units import UNITS, to_base


def in_words(amount: Amount, write=typed_text) -> str:
    return write(amount, english()).plain.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("number", "unit", "shown"),
    [
        ("5.75", "metric-tablespoon", "5¾ tbsp"),
        ("17/12", "metric-tablespoon", "4¼ tsp"),
        ("19/12", "us-tablespoon", "4¾ tsp"),
        ("4/3", "metric-tablespoon", "1⅓ tbsp"),
        ("35/12", "us-tablespoon", "2 tbsp 2¾ tsp"),
        ("1.42", "metric-teaspoon", "1⅜ tsp"),
        ("0.01", "metric-teaspoon", "⅛ tsp"),
        ("1.35", "us-cup", "1¼ cups 1 tbsp 1¾ tsp"),
        ("0.3", "metric-cup", "¼ cup 2½ tsp"),
        ("2.75", "us-pint", "2¾ pt"),
        ("2.1", "us-pint", "2 pt 3 tbsp ⅝ tsp"),
        ("1.1", "imperial-pint", "1 pt 2 fl oz"),
        ("2.35", "imperial-quart", "4½ pt 4 fl oz"),
        ("2.35", "pound", "2 lb 5.6 oz"),
        ("2.25", "pound", "2¼ lb"),
        ("1.125", "us-quart", "1 qt ½ cup"),
    ],
)
def test_no_spoon_cup_pint_or_pound_has_a_decimal(number, unit, shown):
    assert in_words(Amount(number=Fraction(number), unit=UNITS[unit])) == shown


@given(
    st.fractions(min_value=Fraction(1, 100), max_value=60, max_denominator=1000),
    st.sampled_from([key for key, unit in UNITS.items() if is_measured(unit) and not key.startswith("scoop")]),
)
def test_spoken_measures_have_no_decimal_and_are_near(number, key):
    amount = Amount(number=number, unit=UNITS[key])
    said = in_words(amount)
    total = Fraction(0)
    system = key.rpartition("-")[0]
    sizes = {
        symbol: to_base(Amount(number=Fraction(1), unit=UNITS[name]))
        for symbol, name in {
            "lb": "pound",
            "oz": "ounce",
            "cup": f"{system}-cup",
            "pt": f"{system}-pint",
            "qt": f"{system}-quart",
            "gal": f"{system}-gallon",
            "tbsp": f"{system}-tablespoon",
            "tsp": "us-teaspoon" if system == "us" else "metric-teaspoon",
            "fl oz": f"{system}-fluid-ounce",
        }.items()
        if name in UNITS
    }
    for digits, sign, unit in re.findall(r"([\d.]*)([½⅓⅔¼¾⅛⅜⅝⅞]?) (fl oz|[a-z]+)", said):
        assert "." not in digits or unit in ("oz", "fl oz"), said
        total += (Fraction(digits or 0) + VULGAR.get(sign, Fraction(0))) * sizes[unit.removesuffix("s")]
    small = sizes["tsp"] / 8 if "tsp" in said else Fraction(3, 1000) * 30
    assert abs(total - to_base(amount)) <= small, (said, amount)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("0.16 L", "160 ml"),
        ("1.3749 g", "1.37 g"),
        ("4.65517 kg", "4.655 kg"),
        ("1437 g", "1.437 kg"),
        ("300 mg", "0.3 g"),
        ("0.683 leaf", "0.68 leaf"),
        ("7.583 lb", "7 lb 9.33 oz"),
    ],
)
def test_what_rounding_moved_is_said_as_a_cook_measures_it(text, shown):
    assert in_words(amount(text), exactly) == shown
    spoon = Amount(number=Fraction("0.9083"), unit=UNITS["metric-tablespoon"])
    assert in_words(spoon, exactly) == "2¾ tsp"
