"""Amounts of standardized quantity recipes against published worked sums: compound weights, scoops, ladles, yields.

Sources: Minnesota Department of Education (standardized recipes page); Basics at a Glance, National Food Service
Management Institute, now Institute of Child Nutrition (ICN); BCcampus open textbook, Basic Kitchen and Food Service
Management, ch. Yield Testing; Foundations of Cost Control (Traster), ch. 4. Only what concerns amounts and units.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from linebook.model.quantities import parse_amount, parse_number, parse_percent, write_compound
from linebook.model.units import OUNCE, SCOOP_NUMBERS, Measures, in_unit, plus, ratio, times, to_base, unit_for

US = Measures(cup="us", spoon="us", pint="us")

# ICN chart: scoop number, level measure printed, and the rule's millilitres (946.352946 / number, two places)
SCOOPS = [
    (6, "2/3 cup", "157.73"),
    (8, "1/2 cup", "118.29"),
    (10, "3/8 cup", "94.64"),
    (12, "1/3 cup", "78.86"),
    (16, "1/4 cup", "59.15"),
    (20, "3 1/3 tbsp", "47.32"),
    (24, "2 2/3 tbsp", "39.43"),
    (30, "2 tbsp", "31.55"),
    (40, "1 2/3 tbsp", "23.66"),
    (50, "3 3/4 tsp", "18.93"),
    (60, "3 1/4 tsp", "15.77"),
    (70, "2 3/4 tsp", "13.52"),
    (100, "2 tsp", "9.46"),
]


@pytest.mark.parametrize(("number", "measure", "rule"), SCOOPS)
def test_scoops_follow_the_rule_and_come_near_the_printed_measure(number: int, measure: str, rule: str) -> None:
    scoop = to_base(parse_amount(f"1 no. {number} scoop", None))
    assert abs(scoop - Fraction(rule)) <= Fraction(1, 200)
    printed = to_base(parse_amount(measure, US))
    assert abs(scoop - printed) <= printed * Fraction(7, 100)  # ICN prints no. 10 as 3/8 cup, 6 % under the rule


def test_the_scoops_of_the_chart_are_the_scoops_that_are_known() -> None:
    assert [number for number, _, _ in SCOOPS] == list(SCOOP_NUMBERS)


def test_a_scoop_number_is_how_many_fill_a_quart() -> None:
    # ICN, worked: 3 quarts by a no. 16 scoop are 48 portions
    assert ratio(parse_amount("3 qt", US), parse_amount("1 no. 16 scoop", US)) == 48


# ICN chart: ladles marked oz hold fl oz, and are these parts of a cup
@pytest.mark.parametrize(
    ("ounces", "cups"), [(1, "1/8"), (2, "1/4"), (3, "3/8"), (4, "1/2"), (6, "3/4"), (8, "1"), (12, "1 1/2")]
)
def test_ladles(ounces: int, cups: str) -> None:
    assert to_base(parse_amount(f"{ounces} fl oz", US)) == to_base(parse_amount(f"{cups} cup", US))


# ICN chart: fraction, decimal as printed
@pytest.mark.parametrize(
    ("fraction", "decimal"), [("1/8", "0.125"), ("1/4", "0.25"), ("1/3", "0.333"), ("3/8", "0.375"), ("1/2", "0.5")]
)
def test_fractions(fraction: str, decimal: str) -> None:
    assert abs(parse_number(fraction) - parse_number(decimal)) < Fraction(1, 2000)


def test_double_a_compound_weight() -> None:
    # Minnesota: 23 lb 4 oz for 50 portions is 46 lb 8 oz for 100, which is 7.44 oz a portion
    doubled = times(parse_amount("23 lb 4 oz", None), Fraction(2))
    assert doubled == parse_amount("46 lb 8 oz", None)
    assert write_compound(doubled, OUNCE) == "46 lb 8 oz"
    assert in_unit(times(doubled, Fraction(1, 100)), OUNCE).number == parse_number("7.44")


def test_half_again_a_compound_weight() -> None:
    # own sum: 2 lb 8 oz is 40 oz; 60 oz is 3 lb 12 oz
    assert write_compound(times(parse_amount("2 lb 8 oz", None), Fraction(3, 2)), OUNCE) == "3 lb 12 oz"


# As purchased, edible part, yield in per cent as printed
YIELDS = [
    ("2.5 kg", "1.75 kg", "70 %"),  # BCcampus: tenderloin, 0.75 kg trim
    ("7.75 kg", "5 kg", "64.5161 %"),  # BCcampus: salmon, 2.75 kg trim
    ("17 lb", "10 lb", "58.8235 %"),  # Traster: cauliflower
    ("8 lb", "6 lb 7 oz", "80.46875 %"),  # Traster: mixed units
]


@pytest.mark.parametrize(("bought", "edible", "percent"), YIELDS)
def test_yields(bought: str, edible: str, percent: str) -> None:
    found = ratio(parse_amount(edible, None), parse_amount(bought, None))
    assert abs(found - parse_percent(percent)) < Fraction(1, 10**6)


def test_edible_part_from_bought_weight() -> None:
    # Traster: 10 lb at 68 % is 6.8 lb, 108.8 oz
    edible = times(parse_amount("10 lb", None), parse_percent("68 %"))
    assert edible == parse_amount("6.8 lb", None)
    assert in_unit(edible, OUNCE) == parse_amount("108.8 oz", None)


def test_trim_and_edible_part_make_the_bought_weight() -> None:
    # BCcampus: tenderloin, 2.5 kg as purchased, 0.75 kg trim and 1.75 kg edible
    assert plus(parse_amount("1.75 kg", None), parse_amount("750 g", None)) == parse_amount("2.5 kg", None)


def test_a_number_10_can_in_cups() -> None:
    # GNU units 3.15: a No. 10 can holds 105 fl oz, 13.125 cups, 3105.2 ml
    cans = in_unit(parse_amount("105 fl oz", US), unit_for("cup", US))
    assert cans.number == parse_number("13.125")
    assert round(to_base(cans), 1) == Fraction("3105.2")
