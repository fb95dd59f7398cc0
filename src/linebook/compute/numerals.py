"""How a number is written on paper: decimals for metric units, kitchen fractions for the rest. Knows no words."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import floor
from typing import Final

from linebook.compute.ladders import is_metric
from linebook.model.amounts import Kind, Unit
from linebook.model.numbers import VULGAR
from linebook.source.exact import Fraction

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


def shown_number(number: Fraction, unit: Unit) -> Fraction:
    """Return the number that ``number_text`` prints, exactly."""
    if is_metric(unit):
        if 10**_DECIMALS % number.denominator == 0:
            return number
    elif part := number % 1:
        if part in _signs(unit):
            return number
        if is_measured(unit):
            return max(_EIGHTH, floor(number / _EIGHTH + Fraction(1, 2)) * _EIGHTH)
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


def decimal_text(number: Fraction, places: int = 3) -> str:
    """Return a number with up to ``places`` decimals, half up, without noughts at the end."""
    top, bottom = number.as_integer_ratio()
    if bottom == 1:
        return str(top)
    scale = 10**places
    scaled = (2 * abs(top) * scale + bottom) // (2 * bottom)
    whole, part = divmod(scaled, scale)
    digits = f"{part:0{places}d}".rstrip("0") if places else ""
    text = f"{whole}.{digits}" if digits else str(whole)
    return f"-{text}" if top < 0 and scaled else text
