"""What is held back: two figures that can be weighed and come to the printed amount."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.compute.held_back import USUAL_FIRST, held_back
from linebook.compute.results import BatchIngredient
from linebook.compute.rounding import print_amount
from linebook.model.amounts import Amount
from linebook.model.component import Ingredient, Scale
from linebook.model.house import Instrument, InstrumentKind
from linebook.model.quantities import parse_amount
from linebook.model.units import METRIC_ONLY, to_base
from linebook.source.spans import SourceFile

SPAN = SourceFile(path="held", text="held").whole()
HUNDREDTH = Fraction(1, 100)


def amount(text: str) -> Amount:
    return parse_amount(text, METRIC_ONLY)


def instrument(kind: InstrumentKind, up_to: str, reads: str) -> Instrument:
    fields: dict[str, Any] = {"kind": kind, "name": up_to, "up_to": amount(up_to), "reads": amount(reads)}
    return Instrument(span=SPAN, spans=MappingProxyType({}), **fields)


SCALES = (
    instrument(InstrumentKind.SCALE, "15 kg", "5 g"),
    instrument(InstrumentKind.SCALE, "3 kg", "1 g"),
    instrument(InstrumentKind.SCALE, "500 g", "0.1 g"),
    instrument(InstrumentKind.JUG, "5 L", "100 ml"),
    instrument(InstrumentKind.JUG, "1 L", "10 ml"),
    instrument(InstrumentKind.JUG, "100 ml", "1 ml"),
)


def line(text: str, first: Fraction | None = None, scale: Scale = Scale.HELD_BACK) -> BatchIngredient:
    fields: dict[str, Any] = {"item": "vinegar", "amount": amount(text), "scale": scale, "first": first}
    ingredient = Ingredient(span=SPAN, spans=MappingProxyType({}), **fields)
    return BatchIngredient(ingredient=ingredient, base=amount(text), load=amount(text), total=amount(text))


def parts(text: str, first: Fraction | None = None) -> tuple[Fraction, Fraction | None]:
    one = line(text, first)
    assert one.load is not None
    found = held_back(one, print_amount(one.load, SCALES, HUNDREDTH), SCALES, HUNDREDTH)
    assert found is not None
    return to_base(found.first), None if found.rest is None else to_base(found.rest)


def test_the_usual_first_part_is_three_quarters():
    assert Fraction(3, 4) == USUAL_FIRST
    assert parts("200 g") == (150, 50)  # the sum of the issue: 50 g held back of 200 g


@pytest.mark.parametrize(
    ("text", "first", "printed"),
    [
        ("400 ml", None, (300, 100)),
        ("1 L", Fraction(4, 5), (800, 200)),
        ("1 kg", Fraction(1, 4), (250, 750)),
        ("4 each", None, (3, 1)),
    ],
)
def test_both_parts_are_said(text, first, printed):
    assert parts(text, first) == printed


def test_what_cannot_be_parted_has_no_rest():
    assert parts("1 leaf") == (1, None)


def test_only_what_is_held_back_is_parted():
    one = line("200 g", scale=Scale.LINEAR)
    assert one.load is not None
    assert held_back(one, print_amount(one.load, SCALES, HUNDREDTH), SCALES, HUNDREDTH) is None


@given(
    grams=st.fractions(min_value=Fraction(1, 2), max_value=14_000, max_denominator=50),
    first=st.sampled_from([None, *(Fraction(at, 20) for at in range(1, 20))]),
    unit=st.sampled_from(["g", "ml"]),
)
def test_the_parts_come_to_the_printed_amount_and_can_be_read(grams, first, unit):
    most = grams if unit == "g" else min(grams, Fraction(4900))
    load = Amount(number=most, unit=amount(f"1 {unit}").unit)
    one = line("1 g", first)
    one = BatchIngredient(ingredient=one.ingredient, base=load, load=load, total=load)
    printed = print_amount(load, SCALES, HUNDREDTH)
    found = held_back(one, printed, SCALES, HUNDREDTH)
    assert found is not None
    assert to_base(found.first) > 0
    rest = to_base(found.rest) if found.rest else Fraction(0)
    assert to_base(found.first) + rest == to_base(printed.amount)
    for part in (found.first, found.rest) if found.rest else (found.first,):
        assert _can_be_read(part)


def _can_be_read(part: Amount) -> bool:
    """Eight goes with a small jug, or one with an instrument that takes it all: as any amount may be measured."""
    able = [one for one in SCALES if one.up_to.unit.kind is part.unit.kind and to_base(part) <= 8 * to_base(one.up_to)]
    return any((to_base(part) / to_base(one.reads)).denominator == 1 for one in able)
