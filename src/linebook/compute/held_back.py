"""What is held back of an ingredient: the part that goes in at once, and the rest that waits for the cook's tongue.

Both are figures that can be weighed, and together they are the amount that is printed. Knows instruments, no words.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import floor
from typing import Final

from linebook.compute.ladders import fit
from linebook.compute.results import BatchIngredient, Printed
from linebook.compute.rounding import print_amount
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Scale
from linebook.model.house import Instrument
from linebook.model.units import from_base, times, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

USUAL_FIRST: Final = Fraction(3, 4)
"""The part that goes in before tasting where a card says none: common practice, no source."""


@frozen
class HeldBack:
    """The ``first`` part and the ``rest``, as printed. ``rest`` is None where it is too small to be held apart."""

    first: Amount
    rest: Amount | None


def held_back(
    line: BatchIngredient, printed: Printed, instruments: Sequence[Instrument], tolerance: Fraction
) -> HeldBack | None:
    """Return the two parts of one load of a line that is held back; None where it is not.

    The larger part is rounded to what an instrument reads, and the smaller is what is left of the ``printed`` load: a
    smaller amount goes on a finer scale, so it can be read as well. What is counted is parted in whole ones.
    """
    if line.ingredient.scale is not Scale.HELD_BACK or line.load is None or line.load.number <= 0:
        return None
    part = line.ingredient.first or USUAL_FIRST
    whole = to_base(printed.amount)
    share = max(part, 1 - part)
    if printed.amount.unit.kind is Kind.COUNT:
        larger = floor(whole * share + Fraction(1, 2)) * Fraction(1)
    else:
        larger = to_base(print_amount(times(printed.amount, share), instruments, tolerance).amount)
    if larger >= whole:
        return HeldBack(first=printed.amount, rest=None)
    first = larger if part >= Fraction(1, 2) else whole - larger
    return HeldBack(first=_fitted(first, printed.amount), rest=_fitted(whole - first, printed.amount))


def _fitted(base: Fraction, like: Amount) -> Amount:
    return from_base(base, like.unit) if like.unit.kind is Kind.COUNT else fit(base, like.unit)
