"""Units: exact factors, the words cooks write, and words that are never guessed."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.model import units
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.unit_words import REFUSED_WORDS, SYSTEM_WORDS, UNIT_WORDS, fold_word
from linebook.model.units import (
    COUNT_WORDS,
    UNITS,
    Measures,
    factor_of,
    from_base,
    plus,
    ratio,
    times,
    to_base,
    unit_for,
)
from linebook.source.faults import ValueMistake

US = Measures(cup="us", spoon="us", pint="us")
ALL_UNITS = sorted(UNITS.values(), key=lambda unit: unit.key)

# Our unit → the name pint's default registry has for it. What is not here has no name there.
IN_PINT = {
    **{name: name for name in ("milligram", "gram", "kilogram", "ounce", "pound")},
    **{"millilitre": "milliliter", "centilitre": "centiliter", "decilitre": "deciliter", "litre": "liter"},
    **{"us-cup": "cup", "us-tablespoon": "tablespoon", "us-teaspoon": "teaspoon"},
    **{"us-fluid-ounce": "fluid_ounce", "us-pint": "pint", "us-quart": "quart", "us-gallon": "gallon"},
    **{f"imperial-{name}": f"imperial_{name}" for name in ("pint", "quart", "gallon")},
    "imperial-fluid-ounce": "imperial_fluid_ounce",
}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize("key", sorted(IN_PINT))
def test_every_factor_is_exactly_that_of_pints_own_registry(key: str, registry: pint.UnitRegistry) -> None:
    base = "gram" if UNITS[key].kind is Kind.MASS else "milliliter"
    expected = registry.Quantity(Fraction(1), IN_PINT[key]).to(base).magnitude
    assert isinstance(expected, Fraction | int)
    assert factor_of(UNITS[key]) == expected


def test_no_unit_is_left_unchecked() -> None:
    unchecked = {key for key in UNITS if key not in IN_PINT and not key.startswith("scoop-")} - set(COUNT_WORDS)
    assert unchecked == {
        "metric-cup",
        "label-cup",
        "metric-tablespoon",
        "metric-teaspoon",
        "australian-tablespoon",
        "piece",
        "dozen",
    }


def test_every_unit_of_the_definition_file_is_used() -> None:
    text = Path(units.__file__).with_name("kitchen_units.txt").read_text(encoding="utf-8")
    defined = {line.split("=")[0].strip() for line in text.splitlines() if "=" in line and not line.startswith("#")}
    assert defined - {"gram", "metre", "litre", "millilitre", "inch"} == {
        key.replace("-", "_") for key in units._pint_factors()
    }


def test_reading_units_does_not_import_pint_or_yaml() -> None:
    code = (
        "import sys, linebook.model.units as u, linebook.model.quantities as q, linebook.model.conversion\n"
        "u.to_base(q.parse_amount('2.5 kg', None)); q.parse_amount('2 lb', None)\n"
        "assert not {'pint', 'yaml', 'importlib.metadata'} & set(sys.modules), sorted(sys.modules)\n"
        "u.to_base(q.parse_amount('2 lb', None))\n"
        "assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-W", "error", "-c", code], check=True)


SPELLINGS = {
    "g": "g G g. gm gram grams Grams gramme",
    "kg": "kg KG Kg kgs kilo kilos kilogram kilograms",
    "mg": "mg",
    "ml": "ml mL ML Ml mls millilitre milliliter millilitres",
    "cl": "cl cL",
    "dl": "dl dL",
    "L": "l L litre litres liter liters Liter",
    "oz": "oz OZ oz. ozs ounce ounces",
    "lb": "lb lbs LB lb. pound pounds",
    "fl oz": "fl_oz floz fl._oz. FL_OZ fluid_ounce fluid_ounces",
    "tsp": "tsp Tsp TSP tsp. tsps teaspoon teaspoons",
    "tbsp": "tbsp Tbsp TBSP tbsp. tbs tablespoon tablespoons Tablespoon",
    "cup": "cup cups Cup",
    "pt": "pt Pt pint pints",
    "qt": "qt Qt quart quarts",
    "gal": "gal Gal gallon gallons",
    "each": "each ea ea. EACH",
    "piece": "piece pieces pc pcs pc.",
    "dozen": "dozen doz doz.",
    "bunch": "bunch bunches",
    "sprig": "sprig sprigs",
    "leaf": "leaf leaves",
    "head": "head heads",
    "clove": "clove cloves",
    "slice": "slice slices",
    "sheet": "sheet sheets",
    "stick": "stick sticks",
    "portion": "portion portions",
    "no. 16 scoop": "no._16_scoop no_16_scoop No._16_Scoops scoop_16 scoop_no._16 no.16_scoop #16_scoop",
}


@pytest.mark.parametrize(
    ("symbol", "word"), [(symbol, word) for symbol, words in SPELLINGS.items() for word in words.split()]
)
def test_the_spellings_cooks_use(symbol: str, word: str) -> None:
    assert unit_for(word.replace("_", " "), US).symbol == symbol


@pytest.mark.parametrize(
    ("word", "hint"),
    [
        ("T", "`tbsp` or `tsp`"),
        ("t", "`tbsp` or `tsp`"),
        ("gr", "`g`"),
        ("c", "`cup`"),
        ("C", "`cup`"),
        ("M", "`ml`"),
        ("pinch", "to taste"),
        ("can", "what is in it"),
        ("units", "`each`"),
        ("ct", "`each`"),
        ("scoop", "no. 16 scoop"),
        ("scoop 17", "6, 8, 10"),
        ("hours", "a weight"),
        ("°C", "a weight"),
        ("F", "a weight"),
        ("cm", "a weight"),
        ("stone", "`kg`"),
        ("#", "`lb`"),
        ("bag", "what is in it"),
        ("dram", "`g`"),
        ("kilograam", "`kilogram`"),
        ("tblspn", "`tblsp`"),
        ("", "units are"),
        ("x" * 1000, "units are"),
    ],
)
def test_a_word_that_would_be_guessed_is_refused(word: str, hint: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        unit_for(word, US)
    assert raised.value.code == "LB302"
    assert hint in " ".join(raised.value.hints)
    assert len(raised.value.message) < 120


def test_refused_words_and_unit_words_are_apart_and_folded() -> None:
    assert not set(REFUSED_WORDS) & (set(UNIT_WORDS) | set(SYSTEM_WORDS))
    for word in (*UNIT_WORDS, *SYSTEM_WORDS):
        assert fold_word(word) == word
        assert unit_for(word.upper(), US) == unit_for(word, US)
    for word in REFUSED_WORDS:
        with pytest.raises(ValueMistake):
            unit_for(word, US)


@pytest.mark.parametrize("word", sorted(SYSTEM_WORDS))
def test_a_measure_the_house_has_not_named_is_refused(word: str) -> None:
    for measures in (None, Measures()):
        with pytest.raises(ValueMistake) as raised:
            unit_for(word, measures)
        assert raised.value.code == "LB317"
        assert "measures" in raised.value.hints[0]


@pytest.mark.parametrize(
    ("measures", "word", "key"),
    [
        (Measures(cup="us"), "cup", "us-cup"),
        (Measures(cup="metric"), "cup", "metric-cup"),
        (Measures(cup="label"), "cup", "label-cup"),
        (Measures(spoon="us"), "tbsp", "us-tablespoon"),
        (Measures(spoon="metric"), "tbsp", "metric-tablespoon"),
        (Measures(spoon="australian"), "tbsp", "australian-tablespoon"),
        (Measures(spoon="australian"), "tsp", "metric-teaspoon"),
        (Measures(pint="us"), "pt", "us-pint"),
        (Measures(pint="imperial"), "fl oz", "imperial-fluid-ounce"),
        (Measures(pint="imperial"), "gal", "imperial-gallon"),
    ],
)
def test_a_house_names_its_measures(measures: Measures, word: str, key: str) -> None:
    assert unit_for(word, measures).key == key


def test_every_choice_of_a_measure_gives_every_unit() -> None:
    for cup in units.CUPS:
        for spoon in units.SPOONS:
            for pint_name in units.PINTS:
                measures = Measures(cup=cup, spoon=spoon, pint=pint_name)
                assert all(factor_of(unit_for(word, measures)) > 0 for word in SYSTEM_WORDS)


fractions = st.fractions(min_value=0, max_value=10**6, max_denominator=10**4)


@given(fractions, st.sampled_from(ALL_UNITS))
def test_to_base_and_back_is_exact(number: Fraction, unit: Unit) -> None:
    amount = Amount(number=number, unit=unit)
    assert from_base(to_base(amount), unit) == amount


@given(
    fractions, st.fractions(min_value=Fraction(1, 100), max_value=100, max_denominator=100), st.sampled_from(ALL_UNITS)
)
def test_scaled_and_scaled_back_is_the_same_amount(number: Fraction, factor: Fraction, unit: Unit) -> None:
    amount = Amount(number=number, unit=unit)
    assert times(times(amount, factor), 1 / factor) == amount


@given(fractions, fractions, st.sampled_from(ALL_UNITS), st.sampled_from(ALL_UNITS))
def test_sums_are_exact_or_refused(first: Fraction, second: Fraction, one: Unit, other: Unit) -> None:
    a, b = Amount(number=first, unit=one), Amount(number=second, unit=other)
    if one.kind is other.kind and one.counts == other.counts:
        total = plus(a, b)
        assert total.unit == one
        assert to_base(total) == to_base(a) + to_base(b)
        assert units.in_unit(a, other) == from_base(to_base(a), other)
        if second:
            assert ratio(a, b) * to_base(b) == to_base(a)
    else:
        for meet in (plus, ratio, lambda x, y: units.in_unit(x, y.unit)):
            with pytest.raises(ValueMistake) as raised:
                meet(a, b)
            assert raised.value.code == "LB304"


@given(st.fractions(min_value=-200, max_value=1000, max_denominator=100))
def test_degrees_go_there_and_back(celsius: Fraction) -> None:
    assert units.to_celsius(units.to_fahrenheit(celsius)) == celsius
