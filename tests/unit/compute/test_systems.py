"""Amounts in the system a house prints: the same exactly, then rounded on that system's tools."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kitchen_factory import MEASURES, amount, instrument

from linebook.compute.rounding import as_shown, print_amount
from linebook.compute.systems import AS_WRITTEN, System, print_in, says
from linebook.documents.measures import Measures as Writes
from linebook.documents.wording import english
from linebook.model.amounts import Amount, Temperature
from linebook.model.house import InstrumentKind
from linebook.model.units import METRIC_ONLY, UNITS, Measures, to_base

METRIC = System(units="metric", measures=MEASURES)
US = System(units="us", measures=MEASURES)
BOTH = System(units="both", measures=MEASURES)
FINE = instrument(InstrumentKind.SCALE, "2 kg", "0.1 g")
CUPS = instrument(InstrumentKind.JUG, "1 qt", "1/4 cup")


def shown(text: str, system: System, *tools) -> str:
    from linebook.documents.measures import typed_text

    printed = print_in(system, amount(text), lambda asked: print_amount(asked, tools, Fraction(1, 100)))
    return typed_text(printed.amount, english()).plain.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("text", "metric", "us"),
    [
        ("500 g", "500 g", "1 lb 1½ oz"),
        ("1 kg", "1 kg", "2 lb 3½ oz"),
        ("6 kg", "6 kg", "13¼ lb"),
        ("1 g", "1 g", "1 g"),  # a quarter of an ounce would be seven times as much
        ("250 ml", "250 ml", "1 cup 1 tbsp"),
        ("1 L", "1 L", "1 qt ¼ cup"),
        ("5 oz", "142 g", "5 oz"),
        ("2 lb 4 oz", "1.02 kg", "2¼ lb"),
        ("3 cups", "710 ml", "3 cups"),
        ("1 imperial pint", "568 ml", None),
        ("2 tsp", "9.86 ml", "2 tsp"),
        ("3 leaves", "3 leaves", "3 leaves"),
        ("2 no. 16 scoops", "2 no. 16 scoops", "2 no. 16 scoops"),
    ],
)
def test_without_tools_of_that_system(text, metric, us):
    if "imperial" in text:
        pint = Amount(number=Fraction(1), unit=UNITS["imperial-pint"])
        assert to_base(METRIC.asked(pint)) == Fraction("568.26125")
        return
    assert shown(text, METRIC) == metric
    assert shown(text, US) == us


def test_with_tools_of_that_system():
    assert shown("250 ml", US, CUPS) == "1 cup"  # and is marked as moved
    assert shown("1 L", US, CUPS) == "1 qt ¼ cup"
    assert shown("0.5 oz", METRIC, FINE) == "14.2 g"
    assert shown("2 tsp", METRIC, FINE, instrument(InstrumentKind.JUG, "2 L", "50 ml")) == "2 tsp"


def test_the_cup_is_the_one_the_house_means():
    metric_cups = System(units="us", measures=Measures(cup="metric"))
    assert metric_cups.asked(amount("500 ml")) == Amount(number=Fraction(2), unit=UNITS["metric-cup"])
    assert System(units="us", measures=METRIC_ONLY).asked(amount("500 ml")).unit.key == "us-cup"


keys = st.sampled_from(
    [
        "gram",
        "kilogram",
        "ounce",
        "pound",
        "millilitre",
        "litre",
        "us-cup",
        "us-quart",
        "metric-tablespoon",
        "leaf",
        "scoop-16",
    ]
)
numbers = st.fractions(min_value=Fraction(1, 1000), max_value=1000, max_denominator=1000)


@given(numbers, keys)
def test_it_is_the_same_amount_in_any_system(number, key):
    written = Amount(number=number, unit=UNITS[key])
    assert AS_WRITTEN.asked(written) is written
    assert BOTH.asked(written) is written
    for system in (METRIC, US):
        asked = system.asked(written)
        assert (to_base(asked), asked.unit.kind) == (to_base(written), written.unit.kind)
        assert system.asked(asked) is asked
    other = BOTH.other(written)
    assert (other is None) == (key in ("leaf", "scoop-16", "metric-tablespoon"))
    assert other is None or to_base(other) == to_base(written)


@given(numbers, keys, st.sampled_from([METRIC, US]))
def test_what_is_printed_is_near_what_is_written_or_no_nearer_as_written(number, key, system):
    written = Amount(number=number, unit=UNITS[key])

    def rounded(asked):
        return print_amount(asked, (FINE, CUPS), Fraction(1, 100))

    printed = print_in(system, written, rounded)
    assert printed.amount.unit.kind is written.unit.kind
    if printed.moved and not says(system.asked(written), printed):
        assert rounded(written).moved
    assert as_shown(printed.amount) > 0


def house(units, *, fahrenheit=False):
    from kitchen_factory import house as small_house

    file = small_house([], []).file
    return Writes(house=replace(file, units=units, measures=MEASURES, fahrenheit=fahrenheit), wording=english())


@pytest.mark.parametrize(
    ("units", "fahrenheit", "hot", "cold"),
    [
        ("as written", False, "74 °C", "3 °C"),
        ("as written", True, "166 °F", "37 °F"),
        ("metric", True, "74 °C", "3 °C"),
        ("us", False, "166 °F", "37 °F"),
        ("both", False, "74 °C (166 °F)", "3 °C (37 °F)"),
        ("both", True, "166 °F (74 °C)", "37 °F (3 °C)"),
    ],
)
def test_temperatures_follow_and_never_loosen(units, fahrenheit, hot, cold):
    measures = house(units, fahrenheit=fahrenheit)
    said = [
        measures.temperature(Temperature(celsius=Fraction(degrees), fahrenheit=False)).plain.replace("\u00a0", " ")
        for degrees in (74, 3)
    ]
    assert said == [hot, cold]


def test_both_say_what_is_weighed_first_and_the_other_beside_it():
    measures = house("both")
    assert measures.short(amount("500 g")).plain == "500\u00a0g\u00a0(1\u00a0lb\u00a01½\u00a0oz)"
    assert measures.amount(amount("5 oz")).whole.plain == "5\u00a0oz"
    assert measures.amount(amount("5 oz")).note.plain == "= 142\u00a0g"
    assert measures.amount(amount("1 g")).note.plain == ""
