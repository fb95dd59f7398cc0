"""Portions by weight, by volume, by count and by cutting, against sums done by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from linebook.compute.portioning import needed_for, portioned, portions_of_blocks
from linebook.model.component import Cut
from linebook.model.conversion import Facts
from linebook.model.cutting import cut_plan
from linebook.model.quantities import parse_amount
from linebook.model.units import METRIC_ONLY
from linebook.source.faults import ValueMistake
from linebook.source.spans import SourceFile

FISH = Facts(name="trout", density=Fraction(21, 20), weighs={"each": Fraction(1200)})


def read(text):
    return parse_amount(text, METRIC_ONLY)


@pytest.mark.parametrize(
    ("amount", "portion", "count", "left"),
    [
        ("9.1 kg", "150 g", 60, Fraction(2, 3)),
        ("300 g", "300 g", 1, 0),
        ("299 g", "300 g", 0, Fraction(299, 300)),
        ("2 L", "80 ml", 25, 0),
        ("1.05 kg", "250 ml", 4, 0),  # a litre at 1.05 kg/L
        ("5 each", "900 g", 6, Fraction(2, 3)),  # 6 kg
        ("9 kg", "1/2 each", 15, 0),
        ("1 dozen", "5 pieces", 2, Fraction(2, 5)),
    ],
)
def test_portions_of_an_amount(amount, portion, count, left):
    found = portioned(read(amount), read(portion), FISH)
    assert (found.count, found.left) == (count, left)


def test_what_cannot_be_turned_into_a_portion_is_refused():
    with pytest.raises(ValueMistake) as refused:
        portioned(read("1 kg"), read("2 leaves"), FISH)
    assert refused.value.code == "LB304"


def test_what_portions_take():
    assert needed_for(40, read("150 g")) == read("6000 g")
    assert needed_for(120, read("2 pieces")) == read("240 pieces")


def test_portions_of_blocks():
    at = {"span": SourceFile(path="block", text="").whole(), "spans": {}}
    block = Cut(block=(Fraction(390), Fraction(290)), piece=(Fraction(60), Fraction(40)), edges=Fraction(5), **at)
    plan = cut_plan(block)  # 42 pieces
    assert portions_of_blocks(plan, 1, Fraction(2)).count == 21
    assert portions_of_blocks(plan, 6, Fraction(2)).count == 126
    assert portions_of_blocks(plan, 1, Fraction(4)) == portions_of_blocks(plan, 2, Fraction(8))
    assert portions_of_blocks(plan, 1, Fraction(4)).left == Fraction(1, 2)
