"""Exact sums. Knows numbers only."""

from __future__ import annotations

from collections.abc import Iterable
from math import lcm

from linebook.source.exact import Fraction


def sum_of(numbers: Iterable[Fraction]) -> Fraction:
    """Return the exact sum: over one denominator, for adding fractions one by one brings each sum to lowest terms."""
    total, parts = 0, 1
    for number in numbers:
        top, bottom = number.numerator, number.denominator
        if bottom != parts:
            common = lcm(parts, bottom)
            total, top, parts = total * (common // parts), top * (common // bottom), common
        total += top
    return Fraction(total, parts)
