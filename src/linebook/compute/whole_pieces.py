"""What is counted, as a hand takes it: whole, and never too few. It must not know for which sheet."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from linebook.model.amounts import Amount, Kind
from linebook.model.units import DOZEN, EACH, to_base
from linebook.source.exact import Fraction


def in_whole_pieces(amount: Amount) -> Amount:
    """Return an amount of what is counted in whole ones, rounded up; part of a dozen in single ones; all else as it is.

    Common practice, no source: nobody takes half an egg out of the box.
    """
    if amount.unit.kind is not Kind.COUNT or amount.number.denominator == 1:
        return amount
    if amount.unit == DOZEN:
        return Amount(number=Fraction(ceil(to_base(amount))), unit=EACH)
    return replace(amount, number=Fraction(ceil(amount.number)))
