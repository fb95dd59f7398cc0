"""Turns amounts of any item of the house into grams, and adds up what is bought.

Knows where an item's density and piece weight stand; the arithmetic is in ``model.conversion``.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linebook.compute.lines import ToGrams
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.conversion import Facts, convert, facts_of
from linebook.model.house import House
from linebook.model.sums import sum_of
from linebook.model.units import GRAM, MILLILITRE, UNITS, to_base
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake


def to_grams(house: House) -> ToGrams:
    """Return what turns an amount of an item into grams; it raises ValueMistake LB304 where the item says no way."""

    def grams(item: str, amount: Amount) -> Fraction:
        if amount.unit.kind is Kind.MASS:
            return to_base(amount)
        return convert(amount, Kind.MASS, facts_for(house, item))

    return grams


def bought_total(house: House, item: str, amounts: Sequence[Amount]) -> tuple[Amount, ...]:
    """Return the sum of a bought item's uses, in grams where all of them can be weighed.

    Else in millilitres or singles; where these cannot be added up either, there is one sum for each kind.
    """
    sums = _by_kind(amounts)
    if len(sums) == 1:
        return tuple(sums.values())
    grams = to_grams(house)
    try:
        return (Amount(number=sum_of(grams(item, amount) for amount in amounts), unit=GRAM),)
    except ValueMistake:
        return tuple(sums.values())


def facts_for(house: House, item: str) -> Facts:
    """Return what turns an item's amounts into one another; of a by-product only its name is known."""
    if item in house.components:
        return facts_of(house.components[item])
    if item in house.pantry:
        return facts_of(house.pantry[item])
    return Facts(name=house.name_of(item), left_over=item in house.by_products)


def _by_kind(amounts: Sequence[Amount]) -> Mapping[tuple[Kind, str | None], Amount]:
    found: dict[tuple[Kind, str | None], list[Amount]] = {}
    for amount in amounts:
        found.setdefault((amount.unit.kind, amount.unit.counts), []).append(amount)
    return {
        kind: Amount(number=sum_of(map(to_base, alike)), unit=_single(alike[0].unit)) for kind, alike in found.items()
    }


def _single(unit: Unit) -> Unit:
    if unit.kind is Kind.MASS:
        return GRAM
    return MILLILITRE if unit.kind is Kind.VOLUME else UNITS[unit.counts or "each"]
