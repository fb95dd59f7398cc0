"""How many millilitres fill the vessel of a stage, counted low: a measure to hold against the room it has.

Knows one card, what its lines come to and what is known of its items; knows no vessel and no loads.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeAlias

from linebook.model.amounts import Amount, Kind
from linebook.model.component import ByProduct, Component
from linebook.model.contents import Held
from linebook.model.conversion import Facts, facts_of, weight_or_volume
from linebook.model.sums import sum_of
from linebook.model.units import GRAM, times
from linebook.model.volumes import least_millilitres
from linebook.source.exact import Fraction

FactsFor: TypeAlias = Callable[[str], Facts | None]
"""What is known of an item; None where the item itself is not."""


def millilitres_of(
    component: Component, held: Held, amounts: Sequence[Amount | None], factor: Fraction, facts: FactsFor
) -> Fraction:
    """Return the least millilitres of all that a vessel holds, over all loads; what has no known volume is left out.

    ``amounts`` are the lines of the card for ``factor`` times its batch. Of what stood elsewhere before, only what must
    still be there counts: what went in, but no more than what the card makes of it in the end.
    """
    items = component.ingredients
    lying = (
        least_millilitres(amount, facts(items[at].item)) for at in held.lines if (amount := amounts[at]) is not None
    )
    left = (least_millilitres(made.amount, facts(made.item)) for made in held.left)
    total = _sum(lying) - _sum(left) * factor
    if held.before:
        grams = _carried(component, held, amounts, factor, facts)
        total += _sum([least_millilitres(Amount(number=grams, unit=GRAM), facts_of(component))])
    return max(Fraction(0), total)


def _carried(
    component: Component, held: Held, amounts: Sequence[Amount | None], factor: Fraction, facts: FactsFor
) -> Fraction:
    """Return the grams that are still there of what stood elsewhere before, at the least; 0 where it is not known."""
    went_in = _grams_of_lines(component, held.before, amounts, facts)
    later = _grams_of_lines(component, held.later, amounts, facts)
    made = weight_or_volume(times(component.makes, factor), Kind.MASS, facts_of(component))
    if went_in is None or later is None or made is None:
        return Fraction(0)
    comes_of_it = made + _grams_of(held.leaves, facts) * factor - later
    return max(Fraction(0), min(went_in - _grams_of(held.left_before, facts) * factor, comes_of_it))


def _grams_of_lines(
    component: Component, lines: Sequence[int], amounts: Sequence[Amount | None], facts: FactsFor
) -> Fraction | None:
    """Return what lines weigh together, None where one cannot be weighed."""
    total = Fraction(0)
    for at in lines:
        amount, known = amounts[at], facts(component.ingredients[at].item)
        if amount is None:
            continue
        grams = None if known is None else weight_or_volume(amount, Kind.MASS, known)
        if grams is None:
            return None
        total += grams
    return total


def _grams_of(by_products: Sequence[ByProduct], facts: FactsFor) -> Fraction:
    """Return what by-products weigh, a spec's batch; one that cannot be weighed counts for nothing."""
    known = ((made.amount, facts(made.item)) for made in by_products)
    return _sum(weight_or_volume(amount, Kind.MASS, facts) for amount, facts in known if facts is not None)


def _sum(numbers: Iterable[Fraction | None]) -> Fraction:
    return sum_of(number for number in numbers if number is not None)
