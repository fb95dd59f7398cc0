"""Amounts as they are told to a supplier: what is needed never told too small, what is over never too large.

The figures of an order are weighed on no instrument of the house, so they are told in four figures, or in quarters,
and pounds in ounces where a quarter would say too much.
"""

from __future__ import annotations

from math import ceil, floor
from typing import Final

from linebook.compute.ladders import fit, is_metric
from linebook.model.amounts import Amount, Kind
from linebook.model.units import POUND, to_base
from linebook.source.exact import Fraction

_LEAST: Final = 1000
"""The least number of four figures."""

_FINEST: Final = Fraction(1, 100)
_QUARTER: Final = Fraction(1, 4)
_OUNCE: Final = Fraction(1, 16)

_CLOSE: Final = Fraction(1, 100)
"""Of a weight: where a quarter of a pound would move it further, it is told in pounds and ounces."""


def told(amount: Amount, *, up: bool = True) -> Amount:
    """Return an amount in the unit that reads best, rounded ``up`` or down to what is told; whole numbers stay."""
    if amount.unit.kind is Kind.COUNT and amount.number.denominator == 1:
        return amount
    if amount.unit.kind is Kind.COUNT:
        return Amount(number=_figured(amount.number, up=up), unit=amount.unit)
    base = to_base(amount)
    if is_metric(amount.unit):
        return fit(_figured(base, up=up), amount.unit)
    fitted = fit(base, amount.unit)
    step = _OUNCE if fitted.unit is POUND and fitted.number * _CLOSE < _QUARTER else _QUARTER
    return fit(to_base(Amount(number=_to_step(fitted.number, step, up=up), unit=fitted.unit)), amount.unit)


def _figured(number: Fraction, *, up: bool) -> Fraction:
    """Return a number to four figures, to a hundredth at the finest."""
    step = _FINEST
    while number >= step * _LEAST * 10:
        step *= 10
    return _to_step(number, step, up=up)


def _to_step(number: Fraction, step: Fraction, *, up: bool) -> Fraction:
    return (ceil if up else floor)(number / step) * step
