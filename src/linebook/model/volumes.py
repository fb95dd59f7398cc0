"""How much room food takes in a vessel, counted low, and how much room a vessel has.

A lower bound on purpose: the air between grains and what has no known volume are not counted, so that nothing is told
to be too full that may fit. Knows no stage and no batch.
"""

from __future__ import annotations

from typing import Final

from linebook.model.amounts import Amount, Kind
from linebook.model.conversion import Facts, weight_or_volume
from linebook.model.house import Vessel
from linebook.model.units import factor_of, to_base
from linebook.source.exact import Fraction

DENSEST_FOOD: Final = Fraction(22, 10)
"""Grams a millilitre without gaps: of what is weighed in a kitchen nothing is denser than bicarbonate of soda (2.20)
and salt (2.17); sugar has 1.59, starch 1.5 (CRC Handbook of Chemistry and Physics)."""

LIGHTEST_LIQUID: Final = Fraction(9, 10)
"""Grams a millilitre: oils are 0.91 and more, and of the sugars in bulk the heaviest is under it."""

AS_WATER: Final = Fraction(1)
"""Grams a millilitre of what has no density: meat, fish, fruit and vegetables lie within a tenth of it (common
practice, no source)."""

_POURED: Final = frozenset(
    (
        *("millilitre", "centilitre", "decilitre", "litre", "us-fluid-ounce", "imperial-fluid-ounce"),
        *("us-quart", "imperial-quart", "us-gallon", "imperial-gallon"),
    )
)
"""Cups and pints also measure flour and leaves; these measure what is poured."""

_UNKNOWN: Final = Facts(name="")

MOST_ROOM: Final = float(1 / LIGHTEST_LIQUID)
"""Millilitres a gram: no weight counts for more room than that of the lightest liquid."""


def least_millilitres(amount: Amount, facts: Facts | None) -> Fraction | None:
    """Return the millilitres an amount takes up even where all of its gaps are filled, or None where not known.

    Flour, crumb and leaves are mostly air between the grains, and water takes its place: of what is lighter than any
    fat or spirit only the weight counts, as if it were the densest food. What has no density is mostly solid food; it
    counts as heavy as water where its weight is known, and of volumes only what is poured.
    """
    if facts is None or facts.density is None:
        if amount.unit.kind is Kind.VOLUME:
            return to_base(amount) if amount.unit.key in _POURED else None
        grams = weight_or_volume(amount, Kind.MASS, facts or _UNKNOWN)
        return None if grams is None else grams / AS_WATER
    if facts.density >= LIGHTEST_LIQUID:
        return weight_or_volume(amount, Kind.VOLUME, facts)
    grams = weight_or_volume(amount, Kind.MASS, facts)
    return None if grams is None else grams / DENSEST_FOOD


def most_millilitres(amount: Amount, facts: Facts | None) -> float:
    """Return what ``least_millilitres`` is at the most, 0 for what is not known: rounded, so that it is soon told."""
    if amount.unit.kind is Kind.COUNT:
        return float(least_millilitres(amount, facts) or 0)
    number = float(amount.number) * float(factor_of(amount.unit))
    return number if amount.unit.kind is Kind.VOLUME else number * MOST_ROOM


def room_in(vessel: Vessel, fill: Fraction | None = None) -> Fraction | None:
    """Return the millilitres that all vessels of a sort take together at a fill (None: their own), or None.

    None is where the house does not say what it holds, or says it otherwise than by volume.
    """
    if vessel.holds is None or vessel.holds.unit.kind is not Kind.VOLUME:
        return None
    return to_base(vessel.holds) * (vessel.fill if fill is None else fill) * (vessel.count or 1)
