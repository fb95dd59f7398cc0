"""Rounding for print: on the house's own instruments, once, and never to nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kitchen_factory import AT, amount, bought, component, house, instrument, line, percent

from linebook.compute.batches import compute_batch
from linebook.compute.ladders import amount_parts, fit
from linebook.compute.numerals import decimal_text, number_text
from linebook.compute.printed_lines import print_line
from linebook.compute.results import Printed
from linebook.compute.rounding import print_amount
from linebook.model.amounts import Amount
from linebook.model.component import Scale
from linebook.model.house import Instrument, InstrumentKind
from linebook.model.units import GRAM, MILLILITRE, UNITS, to_base

BENCH = instrument(InstrumentKind.SCALE, "30 kg", "5 g")
BENCH_20 = instrument(InstrumentKind.SCALE, "30 kg", "20 g")
FINE = instrument(InstrumentKind.SCALE, "2 kg", "0.1 g")
JUG = instrument(InstrumentKind.JUG, "2 L", "50 ml")
SPOONS = instrument(InstrumentKind.SPOON, "1 tbsp", "1/4 tsp")
POUNDS = instrument(InstrumentKind.SCALE, "50 lb", "1/2 oz")
ALL = (BENCH, FINE, JUG, SPOONS, POUNDS)
ONE = Fraction(1, 100)


def printed(text: str, instruments=ALL, tolerance=ONE, **options) -> tuple[str, bool]:
    result = print_amount(amount(text), instruments, tolerance, **options)
    words = [f"{number_text(part.number, part.unit)} {part.unit.symbol}" for part in amount_parts(result.amount)]
    return " ".join(words), result.moved


@pytest.mark.parametrize(
    ("exact", "shown"),
    [
        ("8.4 kg", "8.4 kg"),
        ("8437 g", "8.4 kg"),  # two digits, the nearest of those within 84 g
        ("16.8 kg", "16.8 kg"),
        ("900 g", "900 g"),
        ("1003 g", "1 kg"),
        ("999.9 g", "1 kg"),
        ("1012.3 g", "1.01 kg"),
        ("36.2 g", "36 g"),
        ("8.44 g", "8.4 g"),
        ("0.31 g", "0.3 g"),
        ("300 mg", "0.3 g"),
        ("45.1 kg", "45 kg"),  # more than any scale takes: weighed in parts on the largest
        ("1234.567 kg", "1230 kg"),
        ("1.04 L", "1.05 L"),
        ("495 ml", "500 ml"),
        ("2.5 cl", "50 ml"),
        ("9 dl", "900 ml"),
    ],
)
def test_metric_amounts_fit_the_instruments(exact, shown):
    assert printed(exact)[0] == shown


def test_an_amount_no_instrument_reads_is_moved_and_never_nothing():
    assert printed("0.02 g") == ("0.1 g", True)
    assert printed("2.5 cl") == ("50 ml", True)
    assert printed("7 g", (BENCH,)) == ("5 g", True)
    assert printed("2 g", (BENCH,)) == ("5 g", True)


def test_metric_spoons_measure_millilitres_and_may_be_filled_a_few_times():
    spoons = Instrument(
        name="spoons",
        kind=InstrumentKind.SPOON,
        up_to=Amount(number=Fraction(1), unit=UNITS["metric-tablespoon"]),
        reads=Amount(number=Fraction(1, 4), unit=UNITS["metric-teaspoon"]),
        **AT,
    )
    assert printed("15 ml", (JUG, spoons)) == ("15 ml", False)
    assert printed("30 ml", (JUG, spoons)) == ("30 ml", False)
    assert printed("6 ml", (JUG, spoons)) == ("6.25 ml", True)
    assert printed("700 ml", (JUG, spoons)) == ("700 ml", False)
    assert printed("160 ml", (JUG, spoons)) == ("150 ml", True)
    assert printed("160 ml", (spoons,)) == ("160 ml", False)  # no one fills eleven spoons: as without an instrument
    assert printed("15 ml", (JUG,)) == ("50 ml", True)


def test_what_is_weighed_exactly_goes_on_the_finest_scale_at_a_quarter_of_the_tolerance():
    assert printed("1008.2 g") == ("1 kg", False)
    assert printed("1008.2 g", exact=True) == ("1.008 kg", False)
    assert printed("2.514 kg", exact=True) == ("2.515 kg", False)  # beyond the fine scale
    assert printed("0.25 g", exact=True) == ("0.3 g", True)
    assert printed("1234.56 g", tolerance=Fraction(1, 10000), exact=True) == ("1234.6 g", True)


@pytest.mark.parametrize(
    ("exact", "shown"),
    [("8437 g", "8.44 kg"), ("842.37 g", "842 g"), ("0.012345 g", "0.012 g"), ("1 L", "1 L"), ("333 1/3 ml", "333 ml")],
)
def test_without_instruments_there_are_three_significant_figures(exact, shown):
    assert printed(exact, ())[0] == shown


@pytest.mark.parametrize(
    ("exact", "shown", "moved"),
    [
        ("23 lb 4 oz", "23 lb 4 oz", False),
        ("2 lb 4.1 oz", "2 lb 4 oz", False),
        ("15.95 oz", "1 lb", False),
        ("7.3 oz", "7½ oz", True),
        ("40 lb", "40 lb", False),
    ],
)
def test_pounds_stay_pounds_on_a_scale_that_reads_ounces(exact, shown, moved):
    assert printed(exact) == (shown, moved)


@pytest.mark.parametrize(
    ("exact", "shown"),
    [
        ("2 tsp", "2 tsp"),
        ("3.01 tsp", "1 tbsp"),
        ("7 tsp", "2 tbsp 1 tsp"),
        ("4 tbsp", "¼ cup"),
        ("6 tbsp", "¼ cup 2 tbsp"),
        ("24 tbsp", "1½ cup"),
        ("5 cup", "1 qt 1 cup"),
        ("19 qt", "4 gal 3 qt"),
        ("30 cup", "1 gal 3½ qt"),
        ("26 cup", "1 gal 2½ qt"),
        ("9 cup", "2 qt 1 cup"),
        ("0.02 tsp", "⅛ tsp"),
    ],
)
def test_spoons_and_cups_climb_without_instruments(exact, shown):
    assert printed(exact, ())[0] == shown


def test_spoons_that_read_a_quarter():
    assert printed("1.3 tsp") == ("1¼ tsp", True)
    assert printed("0.01 tsp") == ("¼ tsp", True)
    assert printed("1 1/2 tbsp") == ("1 tbsp 1½ tsp", False)


@pytest.mark.parametrize(
    ("exact", "shown", "moved"),
    [
        ("6 each", "6 each", False),
        ("4.3 each", "4½ each", True),
        ("0.1 bunch", "½ bunch", True),
        ("1.75 bunch", "2 bunch", True),
        ("1.2 pieces", "2 piece", True),
        ("30.01 leaves", "31 leaf", True),
        ("2.4 no. 16 scoop", "2 no. 16 scoop", True),
        ("0.2 no. 16 scoop", "1 no. 16 scoop", True),
    ],
)
def test_counts(exact, shown, moved):
    assert printed(exact) == (shown, moved)


def test_nothing_stays_nothing():
    nothing = Amount(number=Fraction(0), unit=GRAM)
    assert print_amount(nothing, ALL, ONE) == Printed(amount=nothing)


def test_imperial_and_metric_measures_without_a_ladder_go_to_quarters():
    pints = Amount(number=Fraction("2.6"), unit=UNITS["imperial-pint"])
    assert print_amount(pints, (), ONE).amount.number == Fraction(5, 2)
    spoon = Amount(number=Fraction("0.9"), unit=UNITS["metric-teaspoon"])
    assert print_amount(spoon, (), ONE).amount.number == Fraction(7, 8)
    assert fit(Fraction(40), UNITS["australian-tablespoon"]) == Amount(
        number=Fraction(2), unit=UNITS["australian-tablespoon"]
    )


def test_a_row_adds_up_and_the_base_is_as_typed():
    kitchen = house(
        [bought("salt")],
        [component("ham", "10 kg", [line("leg", "8.37 kg"), line("salt", percent("2", "leg"))], largest_batch="10 kg")],
    )
    batch = compute_batch(kitchen, "ham", makes=amount("18 kg"))
    leg, salt = (print_line(entry, batch.loads, (BENCH_20,), ONE) for entry in batch.ingredients)
    assert leg.load.amount == amount("7.5 kg")  # 7.533 kg
    assert leg.total.amount == amount("15 kg")
    assert leg.base.amount == amount("8.37 kg")
    assert (salt.load.amount, salt.load.moved) == (amount("160 g"), True)  # 150.66 g, and the scale reads 20 g
    assert (salt.total.amount, salt.total.moved) == (amount("320 g"), True)
    assert salt.base.amount == amount("160 g")
    typed = print_line(
        compute_batch(kitchen, "ham").ingredients[0], 1, (instrument(InstrumentKind.SCALE, "30 kg", "10 g"),), ONE
    )
    assert typed.load == typed.base == typed.total
    assert print_line(compute_batch(kitchen, "ham").ingredients[0], 1, (BENCH_20,), ONE).load.amount == amount("8.4 kg")
    taste = print_line(compute_batch(house([], [component("a", "1 kg", [line("b")])]), "a").ingredients[0], 1, (), ONE)
    assert (taste.load, taste.total, taste.base) == (None, None, None)


def test_a_whole_count_that_is_far_from_its_share_is_moved():
    kitchen = house([], [component("jelly", "1 kg", [line("gelatine", "4 each", scale=Scale.WHOLE)])])
    for times, count, moved in (("1", 4, False), ("1.4", 6, True), ("2", 8, False), ("0.1", 1, True)):
        entry = compute_batch(kitchen, "jelly", times=Fraction(times)).ingredients[0]
        shown = print_line(entry, 1, ALL, ONE)
        assert (shown.load.amount, shown.load.moved) == (amount(f"{count} each"), moved)
        assert shown.total.moved is moved
        assert entry.unrounded.number == 4 * Fraction(times)


masses = st.fractions(min_value=Fraction(1, 1000), max_value=Fraction(100_000), max_denominator=10_000)


@given(masses, st.sampled_from([Fraction(1, 1000), ONE, Fraction(1, 20)]), st.booleans(), st.booleans())
def test_rounded_amounts_are_readable_near_and_not_nothing(grams, tolerance, exact, liquid):
    unit, tools = (MILLILITRE, (JUG,)) if liquid else (GRAM, (BENCH, FINE))
    result = print_amount(Amount(number=grams, unit=unit), tools, tolerance, exact=exact)
    base = to_base(result.amount)
    assert base > 0
    assert any((base / to_base(tool.reads)).denominator == 1 for tool in tools)
    allowed = tolerance / 4 if exact else tolerance
    assert result.moved == (abs(base - grams) > allowed * grams)
    if result.moved and base > min(to_base(tool.reads) for tool in tools):
        # Nothing readable was nearer.
        reading = min(to_base(tool.reads) for tool in tools if to_base(tool.up_to) >= grams or tool in (BENCH, JUG))
        assert abs(base - grams) <= reading / 2


@given(masses)
def test_parts_of_a_compound_add_up(ounces):
    whole = fit(ounces * Fraction("28.349523125"), amount("1 oz").unit)
    assert sum((to_base(part) for part in amount_parts(whole)), Fraction(0)) == to_base(whole)
    assert len(amount_parts(whole)) <= 2


@pytest.mark.parametrize(
    ("number", "text"),
    [
        ("1.5", "1.5"),
        ("0.12345", "0.123"),
        ("2", "2"),
        ("-0.0001", "0"),
        ("1/3", "0.333"),
        ("1000000", "1000000"),
        ("0.9996", "1"),
    ],
)
def test_decimals(number, text):
    assert decimal_text(Fraction(number)) == text


def test_fractions_are_for_pounds_and_counts_alone():
    assert number_text(Fraction("2.25"), amount("1 kg").unit) == "2.25"
    assert number_text(Fraction("2.25"), amount("1 oz").unit) == "2¼"
    assert number_text(Fraction(2, 3), amount("1 cup").unit) == "⅔"
    assert number_text(Fraction("2.3"), amount("1 each").unit) == "2.3"


def test_a_figure_asked_without_instruments_makes_none_of_the_houses_be_worked_out_again() -> None:
    figure = print_amount(amount("8437 g"), ALL, ONE)
    assert print_amount(amount("8437 g"), (), ONE) != figure
    assert print_amount(amount("8437 g"), ALL, ONE) is figure
