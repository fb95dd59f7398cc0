"""What goes into a batch against what comes out of it: makes, by-products and the weight lost on the way, in grams.

Media and what is to taste stay outside, as they do where a card is checked. Knows one batch; knows no tolerance.
"""

from __future__ import annotations

from math import floor
from typing import Final

from linebook.compute.ladders import is_metric
from linebook.compute.results import Batch
from linebook.compute.weights import facts_for
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.conversion import weight_or_volume
from linebook.model.house import House
from linebook.model.units import OUNCE, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_HALF: Final = Fraction(1, 2)


@frozen
class MassBalance:
    """Grams: what went in, what is made, what by-products weigh, and what is lost (trimmed, cooked or poured away).

    ``lost`` is never under nothing: what is made beyond what went in is taken up from a medium or a bath.
    """

    went_in: Fraction
    makes: Fraction
    by_products: Fraction
    lost: Fraction


def weigh_batch(house: House, batch: Batch) -> MassBalance | None:
    """Return the balance of a batch, None where something of it cannot be weighed."""
    went_in = Fraction(0)
    for line in batch.ingredients:
        if line.total is None or line.ingredient.medium:
            continue
        grams = _grams(house, line.ingredient.item, line.total)
        if grams is None:
            return None
        went_in += grams
    makes = _grams(house, batch.component.id, batch.total)
    if makes is None:
        return None
    beside = Fraction(0)
    for made in batch.component.also_makes:
        grams = _grams(house, made.item, made.amount)
        if grams is None:
            return None
        beside += grams * batch.factor
    return MassBalance(
        went_in=went_in, makes=makes, by_products=beside, lost=max(Fraction(0), went_in - makes - beside)
    )


def fine_enough(mass: MassBalance, unit: Unit, tolerance: Fraction) -> MassBalance:
    """Return a balance in figures that add up and are so fine that the loss, the smallest, keeps within a tolerance.

    The figures are of no instrument: steps of 1, 2 or 5 grams, tens or hundreds of them, or in pounds of ounces.
    """
    beside = mass.went_in - mass.makes - mass.by_products
    step = _finest_step(abs(beside) * tolerance, unit)
    went_in, makes, kept = (
        floor(grams / step + _HALF) * step for grams in (mass.went_in, mass.makes, mass.by_products)
    )
    lost = max(Fraction(0), went_in - makes - kept)
    return MassBalance(went_in=went_in, makes=makes, by_products=kept, lost=lost)


def _finest_step(most: Fraction, unit: Unit) -> Fraction:
    """Return the largest step, in grams, that is no more than ``most``; a fine one where that is next to nothing."""
    if is_metric(unit):
        steps = [Fraction(10) ** power * times for power in range(-1, 5) for times in (1, 2, 5)]
    else:
        steps = [to_base(Amount(number=Fraction(2) ** power, unit=OUNCE)) for power in range(-2, 5)]
    return max((step for step in steps if step <= most), default=steps[0])


def _grams(house: House, item: str, amount: Amount) -> Fraction | None:
    return weight_or_volume(amount, Kind.MASS, facts_for(house, item))
