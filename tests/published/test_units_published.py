"""Units against published tables: NIST Handbook 44, NIST SP 811, the UK Act, 21 CFR 101.9, GNU units, the Food Code.

Each value stands beside its source; none of them was taken from pint or from linebook.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from linebook.model.quantities import parse_amount, parse_temperature
from linebook.model.units import LITRE, Measures, factor_of, in_unit, to_base, to_fahrenheit, unit_for

US = Measures(cup="us", spoon="us", pint="us")
IMPERIAL = Measures(cup="metric", spoon="metric", pint="imperial")
AUSTRALIAN = Measures(cup="metric", spoon="australian", pint="imperial")
LABEL = Measures(cup="label", spoon="metric", pint="us")

# NIST Handbook 44, Appendix C, General Tables of Units of Measurement: exact
HANDBOOK_44 = [
    ("1 gal", "3785.411784"),
    ("1 qt", "946.352946"),
    ("1 pt", "473.176473"),
    ("1 cup", "236.5882365"),
    ("1 fl oz", "29.5735295625"),
    ("1 tbsp", "14.78676478125"),
    ("1 tsp", "4.92892159375"),
    ("1 lb", "453.59237"),
    ("1 oz", "28.349523125"),
]
# UK Weights and Measures Act 1985, Schedule 1: exact
UK_ACT = [
    ("1 gal", "4546.09"),
    ("1 qt", "1136.5225"),
    ("1 pt", "568.26125"),
    ("1 fl oz", "28.4130625"),
    ("1 lb", "453.59237"),
]
# GNU units definitions file, version 3.15 (2022): cooking measures
GNU_UNITS = [
    (IMPERIAL, "1 cup", "250"),
    (IMPERIAL, "1 tbsp", "15"),
    (AUSTRALIAN, "1 tbsp", "20"),
    (AUSTRALIAN, "1 tsp", "5"),
]
# NIST SP 811 (2008), Appendix B.8: seven figures, in m3 or kg
SP_811 = [
    ("1 gal", "3785.412"),
    ("1 cup", "236.5882"),
    ("1 tbsp", "14.78676"),
    ("1 tsp", "4.928922"),
    ("1 oz", "28.34952"),
    ("1 lb", "453.5924"),
]
# Basics at a Glance, National Food Service Management Institute
BASICS = [
    *("1 gal = 4 qt", "1 gal = 8 pt", "1 gal = 16 cups", "1 gal = 128 fl oz", "1 gal = 256 tbsp", "1 gal = 768 tsp"),
    *("1 cup = 16 tbsp", "1 cup = 48 tsp", "1 cup = 8 fl oz", "1 tbsp = 3 tsp", "1 tbsp = 0.5 fl oz"),
    *("1 lb = 16 oz", "1 dozen = 12 each", "1 pt = 2 cups", "1 qt = 32 fl oz"),
]
# NIST SP 811, B.8: °F, °C, exact pairs
DEGREES = [(-40, -40), (32, 0), (41, 5), (50, 10), (140, 60), (158, 70), (212, 100)]
# FDA Food Code 2022: °F, °C, printed together there and rounded
FOOD_CODE = [
    (-31, -35),
    (-4, -20),
    (34, 1),
    (38, 3),
    (41, 5),
    (70, 21),
    (130, 54),
    (135, 57),
    (145, 63),
    (150, 66),
    (155, 68),
    (158, 70),
    (165, 74),
]


@pytest.mark.parametrize(("typed", "base"), HANDBOOK_44)
def test_us_units_are_exactly_those_of_handbook_44(typed: str, base: str) -> None:
    assert to_base(parse_amount(typed, US)) == Fraction(base)


def test_a_us_gallon_is_231_cubic_inches() -> None:
    assert to_base(parse_amount("1 gal", US)) == 231 * Fraction("2.54") ** 3


@pytest.mark.parametrize(("typed", "base"), UK_ACT)
def test_imperial_units_are_exactly_those_of_the_act(typed: str, base: str) -> None:
    assert to_base(parse_amount(typed, IMPERIAL)) == Fraction(base)


@pytest.mark.parametrize(("measures", "typed", "millilitres"), GNU_UNITS)
def test_metric_cups_and_spoons(measures: Measures, typed: str, millilitres: str) -> None:
    assert to_base(parse_amount(typed, measures)) == Fraction(millilitres)


def test_the_cup_of_nutrition_labels() -> None:
    assert to_base(parse_amount("1 cup", LABEL)) == 240  # 21 CFR 101.9(b)(5)(viii)


@pytest.mark.parametrize(("typed", "base"), SP_811)
def test_seven_figures_of_sp_811(typed: str, base: str) -> None:
    places = len(base.partition(".")[2])
    assert round(to_base(parse_amount(typed, US)), places) == Fraction(base)


@pytest.mark.parametrize("identity", BASICS)
def test_identities_of_the_trade_chart(identity: str) -> None:
    first, _, second = identity.partition(" = ")
    assert to_base(parse_amount(first, US)) == to_base(parse_amount(second, US))


@pytest.mark.parametrize(("fahrenheit", "celsius"), DEGREES)
def test_degrees(fahrenheit: int, celsius: int) -> None:
    assert parse_temperature(f"{fahrenheit} °F").celsius == celsius
    assert parse_temperature(f"{celsius} °C").celsius == celsius
    assert to_fahrenheit(Fraction(celsius)) == fahrenheit


@pytest.mark.parametrize(("fahrenheit", "celsius"), FOOD_CODE)
def test_pairs_of_the_food_code_are_the_nearest_whole_degrees(fahrenheit: int, celsius: int) -> None:
    assert abs(parse_temperature(f"{fahrenheit} °F").celsius - celsius) <= Fraction(1, 2)


def test_metric_prefixes() -> None:
    # SI Brochure, 9th edition, table 7: milli 10^-3, centi 10^-2, deci 10^-1, kilo 10^3
    for typed, base in (
        ("1 kg", 1000),
        ("1 mg", Fraction(1, 1000)),
        ("1 L", 1000),
        ("1 dl", 100),
        ("1 cl", 10),
        ("1 ml", 1),
    ):
        assert to_base(parse_amount(typed, None)) == base


def test_a_dry_pint_is_not_a_pint() -> None:
    # NIST Handbook 44, Appendix C: the US dry pint is 550.6104713575 ml; `pt` is always the liquid one
    assert factor_of(unit_for("pt", US)) < Fraction("550.6104713575")


def test_a_ten_litre_pot_in_us_quarts() -> None:
    # NIST Handbook 44, Appendix C: 1 litre is 1.056 688 liquid quarts
    quarts = in_unit(parse_amount("10 L", None), unit_for("qt", US))
    assert round(quarts.number / 10, 6) == Fraction("1.056688")
    assert in_unit(quarts, LITRE) == parse_amount("10 L", None)
