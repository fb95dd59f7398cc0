"""Lengths in mm and places on a plate."""

from __future__ import annotations

from fractions import Fraction

import pytest

from linebook.model.dish import Place
from linebook.model.lengths import parse_length, parse_length_pair, parse_place
from linebook.source.faults import ValueMistake


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("30 cm", "300"),
        ("60 mm", "60"),
        ("60MM", "60"),
        ("2.5 cm", "25"),
        ("½ cm", "5"),
        ("3 m", None),
        ("300 cm", "3000"),
    ],
)
def test_length(typed: str, mm: str | None) -> None:
    if mm is None:
        with pytest.raises(ValueMistake) as raised:
            parse_length(typed)
        assert raised.value.code == "LB318"
    else:
        assert parse_length(typed) == Fraction(mm)


@pytest.mark.parametrize(
    ("typed", "code", "hint"),
    [
        ("30", "LB318", "`30 cm`"),
        ("cm", "LB318", "`30 cm`"),
        ("12 in", "LB318", "`30.48 cm`"),
        ('12"', "LB318", "`30.48 cm`"),
        ("0 mm", "LB310", "`30 cm`"),
        ("301 cm", "LB316", "`30 cm`"),
        ("1,5 cm", "LB303", "`1.5`"),
        ("a cm", "LB318", "`30 cm`"),
    ],
)
def test_length_refused(typed: str, code: str, hint: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_length(typed)
    assert raised.value.code == code
    assert hint in raised.value.hints[0]


@pytest.mark.parametrize(
    ("typed", "pair"),
    [
        ("30 x 22 cm", (300, 220)),
        ("60 x 20 mm", (60, 20)),
        ("3 cm x 22 mm", (30, 22)),
        ("30×22cm", (300, 220)),
        ("30 by 22 cm", (300, 220)),
    ],
)
def test_pair(typed: str, pair: tuple[int, int]) -> None:
    assert parse_length_pair(typed) == pair


@pytest.mark.parametrize("typed", ["30 cm", "x", "30 x 22 x 3 cm", "30 x 22", "30 x cm", "", "a x 2 cm"])
def test_pair_refused(typed: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_length_pair(typed)
    assert raised.value.code == "LB318"


@pytest.mark.parametrize(
    ("typed", "clock"),
    [
        ("centre", None),
        ("Center", None),
        ("5 o'clock", "5"),
        ("5 o’clock", "5"),
        ("5 oclock", "5"),
        ("at 5 o'clock", "5"),
        ("4:30 o'clock", "9/2"),
        ("12 o'clock", "12"),
        ("12:30 o'clock", "1/2"),
    ],
)
def test_place(typed: str, clock: str | None) -> None:
    assert parse_place(typed) == Place(clock=None if clock is None else Fraction(clock))


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("5", "`5 o'clock`"),
        ("4:30", "`4:30 o'clock`"),
        ("13 o'clock", "1 to 12"),
        ("0 o'clock", "1 to 12"),
        ("4:60 o'clock", "1 to 12"),
        ("left", "nearest the guest"),
        ("", "nearest the guest"),
    ],
)
def test_place_refused(typed: str, hint: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_place(typed)
    assert raised.value.code == "LB318"
    assert hint in raised.value.hints[0]
