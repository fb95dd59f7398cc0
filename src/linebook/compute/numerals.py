"""How a number is written on paper: decimals for metric units, kitchen fractions for the rest. Knows no words."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import Final

from linebook.compute.ladders import is_metric
from linebook.model.amounts import Kind, Unit
from linebook.model.numbers import VULGAR

_KITCHEN: Final = {
    Fraction(1, 8): "⅛",
    Fraction(1, 4): "¼",
    Fraction(1, 3): "⅓",
    Fraction(3, 8): "⅜",
    Fraction(1, 2): "½",
    Fraction(5, 8): "⅝",
    Fraction(2, 3): "⅔",
    Fraction(3, 4): "¾",
    Fraction(7, 8): "⅞",
}

_CUT: Final = {value: sign for sign, value in VULGAR.items()}
"""Things that are counted are cut into fifths and sixths too."""

_EIGHTH: Final = Fraction(1, 8)
_DECIMALS: Final = 3
_KNOWN: Final = 4096
"""Answers kept: most numbers stand in several places of a binder."""


@lru_cache(_KNOWN)
def number_text(number: Fraction, unit: Unit) -> str:
    """Return a number as printed before ``unit``: ``1.25`` for kilograms, ``1¼`` for pounds or counts.

    What three decimals cannot show is rounded to them (half up), or to its first three digits where it is so small that
    nothing would be left; no thousands mark is set. Nobody measures a decimal of a spoon, cup, pint or pound: what is
    no kitchen fraction of one is told to the nearest eighth.
    """
    shown = shown_number(number, unit)
    signs = _signs(unit)
    if not is_metric(unit) and shown % 1 in signs:
        return f"{floor(shown) or ''}{signs[shown % 1]}"
    return decimal_text(shown, _places(shown))


@lru_cache(_KNOWN)
def shown_number(number: Fraction, unit: Unit) -> Fraction:
    """Return the number that ``number_text`` prints, exactly."""
    if not is_metric(unit) and (part := number % 1) and part not in _signs(unit) and is_measured(unit):
        return max(_EIGHTH, floor(number / _EIGHTH + Fraction(1, 2)) * _EIGHTH)
    if not is_metric(unit) and number % 1 in _signs(unit):
        return number
    scale = 10 ** _places(number)
    return Fraction(_half_up(number, scale), scale)


def _signs(unit: Unit) -> Mapping[Fraction, str]:
    return _CUT if unit.kind is Kind.COUNT else _KITCHEN


def _places(number: Fraction) -> int:
    """Return how many decimals a number is told in: three, or more where three would leave nothing of it."""
    places = _DECIMALS
    top, bottom = number.as_integer_ratio()
    while 0 < 2 * top * 10**places < bottom:
        places += _DECIMALS
    return places


def _half_up(number: Fraction, scale: int) -> int:
    """Return ``scale`` times a number, rounded to a whole one, half up."""
    top, bottom = number.as_integer_ratio()
    return (2 * top * scale + bottom) // (2 * bottom)


def is_measured(unit: Unit) -> bool:
    """Return whether a unit is a spoon, cup, pint, quart, gallon or pound: one told in fractions, never in decimals."""
    return unit.key == "pound" or (unit.kind is Kind.VOLUME and not is_metric(unit) and unit.symbol != "fl oz")


@lru_cache(_KNOWN)
def decimal_text(number: Fraction, places: int = 3) -> str:
    """Return a number with up to ``places`` decimals, half up, without noughts at the end."""
    scaled = _half_up(abs(number), 10**places)
    whole, part = divmod(scaled, 10**places)
    digits = f"{part:0{places}d}".rstrip("0") if places else ""
    text = f"{whole}.{digits}" if digits else str(whole)
    return f"-{text}" if number < 0 and scaled else text
