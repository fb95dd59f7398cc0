"""Laws of rounding, on random amounts, instruments and cards: what is printed is read back from its words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from kitchen_factory import MEASURES, bought, component, house, instrument, line, percent

from linebook.compute.batches import compute_batch
from linebook.compute.ladders import spoken_parts
from linebook.compute.numerals import number_text
from linebook.compute.printed_lines import print_line
from linebook.compute.rounding import print_amount
from linebook.compute.systems import System
from linebook.model.amounts import Amount
from linebook.model.house import InstrumentKind
from linebook.model.numbers import parse_number
from linebook.model.units import UNITS, to_base

SCALES = (
    ("30 kg", "5 g"), ("60 kg", "20 g"), ("3 kg", "1 g"), ("2 kg", "0.1 g"), ("200 g", "0.01 g"),
    ("15 kg", "2 g"), ("50 lb", "1/2 oz"), ("10 lb", "1/4 oz"), ("5 lb", "1/8 oz"),
)  # fmt: skip
JUGS = (("2 L", "50 ml"), ("5 L", "100 ml"), ("100 ml", "1 ml"), ("2 qt", "1/4 cup"), ("1 cup", "1/3 cup"))
SPOONS = (("1 tbsp", "1/4 tsp"), ("1 tbsp", "1/8 tsp"))
TOOLS = (
    *(instrument(InstrumentKind.SCALE, *one) for one in SCALES),
    *(instrument(InstrumentKind.JUG, *one) for one in JUGS),
    *(instrument(InstrumentKind.SPOON, *one) for one in SPOONS),
)
KEYS = (
    *("milligram", "gram", "kilogram", "ounce", "pound", "millilitre", "litre", "us-teaspoon", "us-tablespoon"),
    *("us-cup", "us-pint", "us-quart", "us-gallon", "us-fluid-ounce", "metric-teaspoon", "metric-tablespoon"),
    *("metric-cup", "label-cup", "australian-tablespoon", "imperial-pint", "imperial-gallon", "each", "leaf"),
)
tools = st.lists(st.sampled_from(TOOLS), max_size=5).map(tuple)
tolerances = st.sampled_from([Fraction(1, 1000), Fraction(1, 200), Fraction(1, 100), Fraction(1, 20)])
numbers = st.fractions(min_value=Fraction(1, 100_000), max_value=Fraction(100_000), max_denominator=100_000)


def read_back(amount: Amount) -> Fraction:
    """Grams, millilitres or singles that the printed words say, by the reader of numbers and not by the printer."""
    total = Fraction(0)
    for part in spoken_parts(amount):
        number = parse_number(number_text(part.number, part.unit))
        total += number * to_base(Amount(number=Fraction(1), unit=part.unit))
    return total


@settings(max_examples=600)
@given(numbers, st.sampled_from(KEYS), tools, tolerances, st.booleans())
def test_what_is_printed_is_near_or_marked_and_never_nothing(number, key, instruments, tolerance, exact):
    amount = Amount(number=number, unit=UNITS[key])
    printed = print_amount(amount, instruments, tolerance, exact=exact)
    said = read_back(printed.amount)
    assert said > 0
    allowed = tolerance if key in ("each", "leaf") else tolerance / 4 if exact else tolerance
    assert printed.moved == (abs(said - to_base(amount)) > allowed * to_base(amount))


rates = st.sampled_from(["0.1", "0.25", "0.3", "0.375", "1.75", "2", "2.2", "3", "58", "68", "100", "162.5"])


@settings(max_examples=300)
@given(
    st.lists(st.fractions(min_value=1, max_value=20_000, max_denominator=100), min_size=1, max_size=3),
    st.lists(rates, min_size=1, max_size=3),
    st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=999),
    tools,
    tolerances,
    st.booleans(),
    st.integers(1, 5),
    st.sampled_from(["as written", "metric", "us"]),
)
def test_percentages_hold_of_what_is_printed_and_rows_add_up(
    bases, given_rates, times, instruments, tolerance, weighed_exactly, loads, units
):
    foods = [f"food-{at}" for at in range(len(bases))]
    lines = [line(food, Amount(number=grams, unit=UNITS["gram"])) for food, grams in zip(foods, bases, strict=True)]
    lines += [line(f"salt-{at}", percent(rate, *foods)) for at, rate in enumerate(given_rates)]
    lines.append(line("cure", percent("0.25", *foods)))
    kitchen = house(
        [replace(bought("cure"), weigh_exactly=weighed_exactly)],
        [component("it", "1 kg", lines, largest_batch=f"{1000 * times.numerator} g")],
    )
    batch = compute_batch(kitchen, "it", times=times * loads)
    system = System(units=units, measures=MEASURES)
    printed = {
        one.ingredient.item: print_line(
            one,
            one.loads,
            instruments,
            tolerance,
            exact=weighed_exactly and one.ingredient.item == "cure",
            system=system,
        )
        for one in batch.ingredients
    }
    weighed = {item: read_back(shown.load.amount) for item, shown in printed.items()}
    food = sum(weighed[one] for one in foods)
    for one in batch.ingredients:
        shown = printed[one.ingredient.item]
        assert read_back(shown.total.amount) == weighed[one.ingredient.item] * one.loads
        if shown.load.moved:
            continue
        assert abs(weighed[one.ingredient.item] - to_base(one.load)) <= tolerance * to_base(one.load)
        if one.rate is not None:
            share = food * one.rate / 1000
            close = tolerance / 4 if one.ingredient.item == "cure" and weighed_exactly else tolerance
            assert abs(weighed[one.ingredient.item] - share) <= close * share
    if not any(shown.load.moved for shown in printed.values()):
        exact = sum(to_base(one.total) for one in batch.ingredients)
        said = sum(read_back(shown.total.amount) for shown in printed.values())
        assert abs(said - exact) <= tolerance * exact
