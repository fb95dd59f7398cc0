"""Amounts of one item turned into one another by its own density and weight of one, or refused with both mends."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.model.amounts import Amount, Kind
from linebook.model.body import Body
from linebook.model.component import Component
from linebook.model.conversion import Facts, as_grams, convert, convert_to, facts_of
from linebook.model.pantry import PantryItem
from linebook.model.quantities import parse_amount
from linebook.model.units import EACH, GRAM, LEAF, LITRE, MILLILITRE, UNITS
from linebook.source.faults import ValueMistake
from linebook.source.spans import SourceFile

WHERE: dict[str, Any] = {"span": SourceFile(path="x", text="").whole(), "spans": {}}
CREAM = Facts(name="cream", density=Fraction(101, 100))
EGG = Facts(name="egg", density=Fraction(103, 100), weighs={"each": Fraction(50)})


def component(**fields: Any) -> Component:
    given_fields = {"id": "c", "name": "rib", "line": "hearth", "body": Body(sections=()), **WHERE, **fields}
    return Component(**given_fields)


def amount(text: str) -> Amount:
    return parse_amount(text, None)


@pytest.mark.parametrize(
    ("typed", "kind", "facts", "value"),
    [
        ("2 kg", Kind.MASS, CREAM, 2000),
        ("2 L", Kind.MASS, CREAM, 2020),
        ("1010 g", Kind.VOLUME, CREAM, 1000),
        ("3 each", Kind.MASS, EGG, 150),
        ("3 each", Kind.VOLUME, EGG, Fraction(15000, 103)),
        ("1 dozen", Kind.MASS, EGG, 600),
        ("150 g", Kind.COUNT, EGG, 3),
        ("1 L", Kind.COUNT, EGG, Fraction(103, 5)),
        ("2 dozen", Kind.COUNT, EGG, 24),
    ],
)
def test_convert(typed: str, kind: Kind, facts: Facts, value: Fraction) -> None:
    assert convert(amount(typed), kind, facts) == value


def test_one_counted_thing_into_another_goes_by_weight() -> None:
    garlic = Facts(name="garlic", weighs={"clove": Fraction(5), "head": Fraction(60)})
    assert convert(amount("2 heads"), Kind.COUNT, garlic, counts="clove") == 24
    assert convert_to(amount("24 cloves"), UNITS["head"], garlic) == amount("2 heads")


def test_as_grams_takes_bare_facts() -> None:
    assert as_grams(amount("4 leaves"), density=None, weighs={"leaf": Fraction(5, 2)}) == 10
    assert as_grams(amount("1 L"), density=Fraction(1), weighs={}) == 1000


@pytest.mark.parametrize(
    ("typed", "kind", "facts", "mends"),
    [
        ("250 ml", Kind.MASS, Facts(name="oil"), ("density: 1.03 kg/L", "by weight")),
        ("250 g", Kind.VOLUME, Facts(name="oil"), ("density: 1.03 kg/L", "by volume")),
        (
            "3 leaves",
            Kind.MASS,
            Facts(name="gelatine", weighs={"each": Fraction(2)}),
            ("weighs: {leaf: 45 g}", "as a weight"),
        ),
        ("250 g", Kind.COUNT, Facts(name="egg"), ("weighs: {each: 45 g}", "in each")),
        ("250 ml", Kind.COUNT, Facts(name="egg", weighs={"each": Fraction(50)}), ("density: 1.03 kg/L", "by")),
        ("3 each", Kind.VOLUME, Facts(name="egg", weighs={"each": Fraction(50)}), ("density: 1.03 kg/L", "by volume")),
        ("2 pieces", Kind.MASS, Facts(name="rib", counted=True), ("`pieces:` beside `makes:`", "as a weight")),
        ("2 leaves", Kind.MASS, Facts(name="rib", counted=True), ("`pieces:` beside `makes:`", "as a weight")),
    ],
)
def test_what_cannot_meet_is_refused_with_both_mends(
    typed: str, kind: Kind, facts: Facts, mends: tuple[str, str]
) -> None:
    with pytest.raises(ValueMistake) as raised:
        convert(amount(typed), kind, facts)
    assert raised.value.code == "LB304"
    assert facts.name in raised.value.message
    assert len(raised.value.hints) == 2
    for mend, hint in zip(mends, raised.value.hints, strict=True):
        assert mend in hint


def test_a_density_of_one_is_never_assumed() -> None:
    with pytest.raises(ValueMistake):
        as_grams(amount("1 L"), density=None, weighs={})


def test_facts_of_a_pantry_item() -> None:
    item = PantryItem(id="egg", name="hen's egg", density=Fraction(103, 100), weighs={"each": Fraction(50)}, **WHERE)
    assert facts_of(item) == Facts(name="hen's egg", density=Fraction(103, 100), weighs={"each": Fraction(50)})


def test_a_piece_of_a_component_is_its_yield_by_its_pieces() -> None:
    rib = component(makes=amount("9 kg"), pieces=Fraction(60), piece_weighs=amount("160 g"))
    assert convert(amount("2 pieces"), Kind.MASS, facts_of(rib)) == 300
    assert convert(amount("1.5 kg"), Kind.COUNT, facts_of(rib)) == 10


def test_a_piece_of_a_component_made_by_volume_needs_no_density_to_be_a_volume() -> None:
    custard = component(makes=amount("3 L"), pieces=Fraction(60))
    facts = facts_of(custard)
    assert convert(amount("2 pieces"), Kind.VOLUME, facts) == 100
    assert convert(amount("1 L"), Kind.COUNT, facts) == 20
    with pytest.raises(ValueMistake, match="density"):
        convert(amount("2 pieces"), Kind.MASS, facts)
    dense = facts_of(component(makes=amount("3 L"), pieces=Fraction(60), density=Fraction(11, 10)))
    assert convert(amount("2 pieces"), Kind.MASS, dense) == 110


def test_a_component_made_by_count_takes_the_weight_given_for_one() -> None:
    tart = component(makes=amount("24 portions"), piece_weighs=amount("80 g"))
    assert convert(amount("3 portions"), Kind.MASS, facts_of(tart)) == 240
    bun = component(makes=amount("2 dozen"), pieces=Fraction(24), piece_weighs=amount("50 g"))
    assert convert(amount("3 each"), Kind.MASS, facts_of(bun)) == 150


def test_a_component_that_says_nothing_of_pieces() -> None:
    with pytest.raises(ValueMistake, match="weight of one"):
        convert(amount("3 pieces"), Kind.MASS, facts_of(component(makes=amount("9 kg"))))


positive = st.fractions(min_value=Fraction(1, 100), max_value=10_000, max_denominator=1000)


@given(
    positive, positive, positive, st.sampled_from([GRAM, LITRE, EACH, MILLILITRE]), st.sampled_from([GRAM, LITRE, EACH])
)
def test_there_and_back_is_exact(number: Fraction, density: Fraction, one: Fraction, first: Any, second: Any) -> None:
    facts = Facts(name="x", density=density, weighs={"each": one})
    start = Amount(number=number, unit=first)
    assert convert_to(convert_to(start, second, facts), first, facts) == start


@given(positive, positive, positive)
def test_every_way_to_grams_agrees(number: Fraction, density: Fraction, one: Fraction) -> None:
    facts = Facts(name="x", density=density, weighs={"leaf": one})
    leaves = Amount(number=number, unit=LEAF)
    by_volume = convert_to(leaves, LITRE, facts)
    assert convert(by_volume, Kind.MASS, facts) == convert(leaves, Kind.MASS, facts) == number * one
