"""What lines of a card weigh and measure, as far as their items say: the arithmetic is in ``model.conversion``.

Used by every check on amounts. It must not make faults: a caller that needs a weight words its own.
"""

from __future__ import annotations

from collections.abc import Sequence

from linebook.check.index import Index
from linebook.model.amounts import BATCH, Amount, Kind, Percent
from linebook.model.component import Component, Ingredient
from linebook.model.conversion import Facts, facts_of, weight_or_volume
from linebook.model.units import GRAM
from linebook.source.exact import Fraction


def facts_for(index: Index, item: str) -> Facts | None:
    """Return what is known of an item's weights, or None where the item itself is not known."""
    if item in index.facts:
        return index.facts[item]
    record = index.components.get(item) or index.pantry.get(item)
    if record is not None:
        index.facts[item] = facts_of(record)
    elif item in index.by_products:
        index.facts[item] = Facts(name=index.by_products[item][0][1].name, left_over=True)
    return index.facts.get(item)


def grams_of(index: Index, item: str, amount: Amount) -> Fraction | None:
    """Return what an amount weighs in grams, or None where the item does not say."""
    return _converted(index, item, amount, Kind.MASS)


def millilitres_of(index: Index, item: str, amount: Amount) -> Fraction | None:
    """Return the volume of an amount in millilitres, or None where the item does not say."""
    return _converted(index, item, amount, Kind.VOLUME)


def base_lines(lines: Sequence[Ingredient], at: int) -> tuple[int, ...]:
    """Return which lines the percentage on line ``at`` is of: for the batch, all but itself and the media."""
    amount = lines[at].amount
    if not isinstance(amount, Percent):
        return ()
    if amount.of == (BATCH,):
        return tuple(other for other, line in enumerate(lines) if other != at and not line.medium)
    return tuple(other for other, line in enumerate(lines) if line.item in amount.of)


def line_amounts(index: Index, component: Component) -> tuple[Amount | None, ...]:
    """Return every line's amount with percentages worked out in grams; None where that is not possible, or to taste."""
    if index.components.get(component.id) is not component:
        return _worked_out(index, component.ingredients)
    if component.id not in index.line_amounts:
        index.line_amounts[component.id] = _worked_out(index, component.ingredients)
    return index.line_amounts[component.id]


def _worked_out(index: Index, lines: Sequence[Ingredient]) -> tuple[Amount | None, ...]:
    found: list[Amount | None] = [line.amount if isinstance(line.amount, Amount) else None for line in lines]
    waiting = {at for at, line in enumerate(lines) if isinstance(line.amount, Percent)}
    while waiting:
        ready = [at for at in sorted(waiting) if waiting.isdisjoint(base_lines(lines, at))]
        if not ready:
            break
        for at in ready:
            found[at] = _percent_amount(index, lines, found, at)
        waiting.difference_update(ready)
    return tuple(found)


def _percent_amount(
    index: Index, lines: Sequence[Ingredient], found: Sequence[Amount | None], at: int
) -> Amount | None:
    amount = lines[at].amount
    total = Fraction(0)
    for other in base_lines(lines, at):
        base = found[other]
        grams = None if base is None else grams_of(index, lines[other].item, base)
        if grams is None and (base is not None or isinstance(lines[other].amount, Percent)):
            return None
        total += grams or 0
    assert isinstance(amount, Percent)
    return Amount(number=total * amount.number / 100, unit=GRAM)


def _converted(index: Index, item: str, amount: Amount, kind: Kind) -> Fraction | None:
    facts = facts_for(index, item)
    return None if facts is None else weight_or_volume(amount, kind, facts)
