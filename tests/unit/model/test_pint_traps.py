"""What pint's own reader makes of kitchen text, and that none of it happens here: one test for each known trap."""

from __future__ import annotations

from fractions import Fraction

import pytest

from linebook.model.quantities import parse_amount, parse_duration, parse_ingredient_amount, parse_temperature
from linebook.model.units import Measures, in_unit, to_base, unit_for
from linebook.source.faults import ValueMistake

US = Measures(cup="us", spoon="us", pint="us")


def code_of(typed: str) -> str:
    with pytest.raises(ValueMistake) as raised:
        parse_amount(typed, US)
    return raised.value.code


def test_one_and_a_half_cups_is_not_half_a_cup() -> None:
    assert parse_amount("1 1/2 cup", US).number == Fraction(3, 2)


def test_two_pounds_four_ounces_are_added_not_multiplied() -> None:
    assert to_base(parse_amount("2 lb 4 oz", US)) == Fraction("36") * Fraction("28.349523125")


def test_one_hour_thirty_minutes_are_added_not_multiplied() -> None:
    assert parse_duration("1 h 30 min").least == 90


def test_a_comma_is_not_dropped() -> None:
    assert code_of("1,5 l") == "LB303"
    assert code_of("1,5 kg") == "LB303"


@pytest.mark.parametrize(
    "word",
    [
        *("pinch", "unit", "ct", "gr", "cs", "hd", "bag", "dram", "t", "T", "c", "C", "F", "M"),
        *("dash", "drop", "can", "cups/2", "micropint", "kcup", "millilb", "parsec", "g*2", "kg**2", "°C"),
    ],
)
def test_words_that_pint_reads_as_something_else_are_refused(word: str) -> None:
    assert code_of(f"2 {word}") == "LB302"


@pytest.mark.parametrize(
    ("word", "base"),
    [
        ("doz", 12),
        ("pc", 1),
        ("pcs", 1),
        ("G", 1),
        ("ML", 1),
        ("Gal", Fraction("3785.411784")),
        ("Pt", Fraction("473.176473")),
        ("Qt", Fraction("946.352946")),
        ("fl oz", Fraction("29.5735295625")),
        ("Tbsp", Fraction("14.78676478125")),
        ("OZ", Fraction("28.349523125")),
        ("LB", Fraction("453.59237")),
        ("KG", 1000),
        ("kgs", 1000),
        ("mls", 1),
        ("gm", 1),
        ("each", 1),
        ("ea", 1),
        ("dozen", 12),
        ("bunch", 1),
        ("clove", 1),
        ("head", 1),
        ("sprig", 1),
        ("portion", 1),
        ("sheet", 1),
    ],
)
def test_words_that_pint_refuses_or_mistakes_mean_what_a_cook_means(word: str, base: Fraction) -> None:
    assert to_base(parse_amount(f"1 {word}", US)) == base


def test_a_vulgar_fraction_is_a_number() -> None:
    assert parse_amount("½ cup", US) == parse_amount("0.5 cup", US)


@pytest.mark.parametrize("typed", ["nan g", "inf g", "1e400 g", "2**3 g", "1e3 g", "-2 g", "0 g"])
def test_numbers_that_are_no_amount(typed: str) -> None:
    assert code_of(typed) in ("LB301", "LB302", "LB310")


def test_cup_is_not_the_us_cup_unless_the_house_says_so() -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_amount("1 cup", None)
    assert raised.value.code == "LB317"
    assert to_base(parse_amount("1 cup", Measures(cup="metric"))) == 250
    assert to_base(parse_amount("1 pt", Measures(pint="imperial"))) == Fraction("568.26125")


def test_an_ounce_is_a_weight_and_never_becomes_a_volume() -> None:
    with pytest.raises(ValueMistake) as raised:
        in_unit(parse_amount("8 oz", US), unit_for("ml", US))
    assert raised.value.code == "LB304"


@pytest.mark.parametrize("typed", ["63 °C", "63 ℃", "145.4 °F"])
def test_a_temperature_is_read_without_an_offset_error(typed: str) -> None:
    assert parse_temperature(typed).celsius == 63


def test_a_temperature_is_no_amount_and_350_f_is_no_farad() -> None:
    assert code_of("350 F") == "LB302"
    assert code_of("350 °F") == "LB302"


def test_a_percentage_is_not_a_hundredth_of_nothing() -> None:
    assert code_of("2 %") == "LB302"
    assert parse_ingredient_amount("2 %", None, ("a",)).number == 2
