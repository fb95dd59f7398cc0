"""What goes into a vessel is counted low: a fault is not a false alarm, and a plain overfill is still found."""

import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from linebook.model.volumes import DENSEST_FOOD, LIGHTEST_LIQUID
from linebook.pipeline import load_house

SMALL_HOUSE = Path(__file__).parents[2] / "cases" / "small-house"

CARD = """---
name: Loaf
line: stove
makes: 1 kg
smallest_batch: 1 kg
ingredients:
  - {{item: {item}, amount: {amount}, stage: mix}}
  - {{item: tap-water, amount: {water}, stage: mix}}
stages:
  - {{stage: mix, vessel: bowl}}
---
## Mix
1. Mix.
"""
PANTRY = """
tap-water:
  name: tap water
  allergens: {contains: none, says: own knowledge, since: 2026-11-02}
  density: 1 kg/L
bench-flour:
  name: bench flour
  allergens: {contains: none, says: own knowledge, since: 2026-11-02}
  density: 0.5 kg/L
plain-fat:
  name: plain fat
  allergens: {contains: none, says: own knowledge, since: 2026-11-02}
  density: 0.92 kg/L
red-meat:
  name: red meat
  allergens: {contains: none, says: own knowledge, since: 2026-11-02}
"""


def codes(tmp_path, item, amount, water):
    root = shutil.copytree(SMALL_HOUSE, tmp_path / "specs")
    (root / "pantry" / "more.yaml").write_text(PANTRY, encoding="utf-8")
    house = (root / "house.yaml").read_text(encoding="utf-8")
    house = house.replace("vessels:\n", "vessels:\n  bowl: {name: bowl, holds: 10 L}\n")
    (root / "house.yaml").write_text(house, encoding="utf-8")
    card = CARD.format(item=item, amount=amount, water=water)
    (root / "components" / "loaf.md").write_text(card, encoding="utf-8")
    return [fault.code for fault in load_house(root, "specs").faults if fault.code == "LB504"]


@pytest.mark.parametrize(
    ("item", "amount", "water", "full"),
    [
        ("bench-flour", "6 kg", "4 L", False),  # 12 L and 4 L in bulk, and about 8 L of dough
        ("bench-flour", "12 L", "4 L", False),  # the same by volume
        ("bench-flour", "2200 g", "9 L", False),  # at the very brim: 1 L of the densest food
        ("bench-flour", "2210 g", "9 L", True),
        ("plain-fat", "9.1 kg", "100 ml", False),
        ("plain-fat", "9.2 kg", "100 ml", True),
        ("red-meat", "6 kg", "4 L", False),  # no density: as water
        ("red-meat", "6.1 kg", "4 L", True),
        ("red-meat", "40 cups", "4 L", False),
        ("red-meat", "7 L", "4 L", True),
        ("red-meat", "0.8 qt", "9 L", False),  # of 1.137 L; what a quart or a gallon measures is poured
        ("red-meat", "0.9 qt", "9 L", True),
    ],
)
def test_room(tmp_path, item, amount, water, full):
    assert codes(tmp_path, item, amount, water) == (["LB504"] if full else [])


def test_the_bounds_lie_where_foods_say():
    oil, salt, soda = Fraction("0.91"), Fraction("2.17"), Fraction("2.20")
    assert oil >= LIGHTEST_LIQUID
    assert salt <= soda <= DENSEST_FOOD
