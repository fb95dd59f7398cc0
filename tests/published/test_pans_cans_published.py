"""Scoops, ladles, cans and pans of the trade, as amounts that a house types and counts in.

Sources: Basics at a Glance, National Food Service Management Institute, now Institute of Child Nutrition (ICN); steam-equipment
user manual, table of pan capacities (manualsdir.com 66216, p. 41): usable fl oz, and cans by cups; one maker's Gastronorm litres
by depth (metos.com; EN 631-1 fixes the outer size alone); GNU units 3.15 for the No. 10 can.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from linebook.model.quantities import parse_amount
from linebook.model.units import Measures, in_unit, ratio, times, to_base, unit_for

# usable fl oz of a US steam pan by inches deep, full, two-thirds, half, third, quarter, sixth
US_PANS = {
    "2.5": (240, 175, 125, 75, 55, 35),
    "4": (420, 294, 208, 125, 95, 55),
    "6": (625, 435, 314, 186, 140, 82),
}
# litres of a Gastronorm pan by mm deep
GASTRONORM = {
    "1/1": {"65": "7.4", "100": "12.6", "150": "18", "200": "25"},
    "1/2": {"65": "3.5", "100": "5.5", "150": "8.5", "200": "11"},
    "1/3": {"65": "2.25", "100": "3.5", "150": "5.5", "200": "7.25"},
    "1/6": {"65": "1", "100": "1.5", "150": "2.25"},
}
HOUSE = Measures(
    cup="us",
    spoon="us",
    pint="us",
    vessels={
        **{f"pan-{size.replace('/', '-')}-{deep}": parse_amount(f"{litres} L", None)
           for size, depths in GASTRONORM.items() for deep, litres in depths.items()},
        "full-4-inch": parse_amount("420 fl oz", Measures(pint="us")),
        "can-10": parse_amount("105 fl oz", Measures(pint="us")),
    },
)  # fmt: skip


@pytest.mark.parametrize("deep", US_PANS)
def test_a_us_pan_is_read_as_fluid_ounces(deep):
    for ounces in US_PANS[deep]:
        quarts = in_unit(parse_amount(f"{ounces} fl oz", HOUSE), unit_for("qt", HOUSE))
        assert quarts.number == Fraction(ounces, 32)  # ICN: a cup is 8 fl oz, a quart 4 cups


def test_a_full_pan_four_inches_deep_in_litres_and_scoops():
    full = parse_amount("1 full-4-inch", HOUSE)
    assert round(to_base(full), 1) == Fraction("12420.9")  # 420 x 29.5735 ml
    assert ratio(full, parse_amount("1 no. 8 scoop", HOUSE)) == 105  # 13.125 quarts of eight scoops


@pytest.mark.parametrize(("size", "deep"), [(size, deep) for size, depths in GASTRONORM.items() for deep in depths])
def test_a_gastronorm_pan_is_read_as_litres(size, deep):
    pans = parse_amount(f"3 pan-{size.replace('/', '-')}-{deep}", HOUSE)
    assert to_base(pans) == Fraction(GASTRONORM[size][deep]) * 3000


def test_three_quarts_by_a_scoop_of_sixteen_are_48_portions():  # ICN, worked
    assert ratio(parse_amount("3 qt", HOUSE), parse_amount("1 no. 16 scoop", HOUSE)) == 48


@pytest.mark.parametrize(("number", "portions"), [(6, 24), (8, 32), (12, 48), (24, 96), (100, 400)])
def test_a_gallon_by_any_scoop(number, portions):  # ICN: the number is the scoops that fill a quart
    assert ratio(parse_amount("1 gal", HOUSE), parse_amount(f"1 no. {number} scoop", HOUSE)) == portions


# ICN: a ladle marked so many oz holds so many fl oz; portions of a 2 gallon pot, 256 fl oz
@pytest.mark.parametrize(("ladle", "portions"), [(1, 256), (2, 128), (4, 64), (8, 32)])
def test_a_pot_by_the_ladle(ladle, portions):
    assert ratio(parse_amount("2 gal", HOUSE), parse_amount(f"{ladle} fl oz", HOUSE)) == portions


def test_a_number_10_can_is_over_13_cups_and_a_case_of_six_is_nearly_5_gallons():
    can = parse_amount("1 can-10", HOUSE)
    assert in_unit(can, unit_for("cup", HOUSE)).number == Fraction("13.125")  # GNU units 3.15
    assert in_unit(times(can, Fraction(6)), unit_for("gal", HOUSE)).number == Fraction(630, 128)


# the steam-equipment manual's cups to a can, beside GNU units where both have one
@pytest.mark.parametrize(
    ("cups", "ounces"), [("5 3/4", "46"), ("3 1/2", "28"), ("7", "56"), ("12", "96"), ("13", "104")]
)
def test_cans_in_cups_are_fluid_ounces_by_eight(cups, ounces):
    assert to_base(parse_amount(f"{cups} cups", HOUSE)) == to_base(parse_amount(f"{ounces} fl oz", HOUSE))
