"""How much of one item stands in for an amount of another: by weight, unless both are counted in the same word.

Pure arithmetic on what the two items say of themselves; which item stands in is not decided here.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from linebook.model.amounts import Amount, IngredientAmount, Kind
from linebook.model.component import Component
from linebook.model.conversion import Facts, convert
from linebook.model.dish import Dish
from linebook.model.pantry import PantryItem
from linebook.model.units import GRAM
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class InPlace:
    """An amount of the stand-in; ``by`` is *weight*, *measure* (by volume as typed) or *count*."""

    amount: Amount
    by: str


def in_place_of(
    amount: Amount, ratio: Fraction, missing: Facts, stand_in: Facts, counted_in: frozenset[str]
) -> InPlace:
    """Return what replaces an amount of a missing item, exactly; ``counted_in`` are the count words of the stand-in.

    A weight stays a weight and a volume a volume, over the densities where both are known. A count stays one where the
    stand-in is counted in the same word, else it becomes a weight. Raises ValueMistake LB304 where the missing item
    does not say what one weighs, with both ways to mend it.
    """
    unit = amount.unit
    if unit.kind is Kind.MASS:
        return InPlace(amount=Amount(number=amount.number * ratio, unit=unit), by="weight")
    if unit.kind is Kind.VOLUME:
        if missing.density and stand_in.density:
            weighed = amount.number * ratio * missing.density / stand_in.density
            return InPlace(amount=Amount(number=weighed, unit=unit), by="weight")
        return InPlace(amount=Amount(number=amount.number * ratio, unit=unit), by="measure")
    if (unit.counts or "each") in counted_in:
        return InPlace(amount=Amount(number=amount.number * ratio, unit=unit), by="count")
    return InPlace(amount=Amount(number=convert(amount, Kind.MASS, missing) * ratio, unit=GRAM), by="weight")


def count_words(
    pantry: Mapping[str, PantryItem], components: Mapping[str, Component], dishes: Mapping[str, Dish]
) -> Mapping[str, frozenset[str]]:
    """Return, by item, the words it is counted in: those it gives the weight of one for, and those cards use of it."""
    found: dict[str, set[str]] = defaultdict(set)
    for id_, item in pantry.items():
        found[id_] |= item.weighs.keys()
    for component in components.values():
        if component.makes.unit.kind is Kind.COUNT:
            found[component.id].add(component.makes.unit.counts or "each")
        if component.pieces:
            found[component.id].add("each")
        lines = ((line.item, line.amount) for line in component.ingredients)
        made = ((entry.item, entry.amount) for entry in component.also_makes)
        for id_, amount in (*lines, *made):
            _learn(found, id_, amount)
    for dish in dishes.values():
        for one in dish.ever_served:
            _learn(found, one.item, one.amount)
        for size in dish.sizes:
            for id_, amount in size.amounts.items():
                _learn(found, id_, amount)
    return {id_: frozenset(words) for id_, words in found.items()}


def _learn(found: dict[str, set[str]], item: str, amount: IngredientAmount) -> None:
    if isinstance(amount, Amount) and amount.unit.kind is Kind.COUNT:
        found[item].add(amount.unit.counts or "each")
