"""The ingredient lines of one batch: what each line weighs in a load, in all loads and on the spec's own card, exact.

Knows one component and how its items turn into weights; knows nothing of demand, of instruments or of print.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import floor
from typing import TypeAlias

from linebook.compute.ladders import is_metric
from linebook.compute.results import BatchIngredient
from linebook.model.amounts import BATCH, Amount, Percent
from linebook.model.component import Ingredient, Scale
from linebook.model.units import GRAM, OUNCE, POUND, from_base, times
from linebook.source.faults import ValueMistake

ToGrams: TypeAlias = Callable[[str, Amount], Fraction]
"""Turns an amount of an item into grams; raises ValueMistake LB304 where the item does not say how."""


def compute_lines(
    ingredients: Sequence[Ingredient], *, factor: Fraction, loads: int, to_grams: ToGrams
) -> tuple[BatchIngredient, ...]:
    """Return every line for ``factor`` times the spec's batch in ``loads`` even loads.

    Whole lines are counts for a load (nearest whole, half up, at least 1); lines per load are as listed in each load;
    all others grow with the load. A percentage is of the weights in that load. Raises ValueMistake LB304 where a
    percentage meets an item with no way to a weight, LB314 where percentages go round in a circle.
    """
    base = _resolve(ingredients, [_typed(line) for line in ingredients], to_grams)
    per_load = [_in_load(line, factor / loads) for line in ingredients]
    load = _resolve(ingredients, per_load, to_grams)
    return tuple(
        BatchIngredient(
            ingredient=line,
            base=base[at],
            load=load[at],
            total=_in_all(load[at], loads),
            rate=line.amount.number * 10 if isinstance(line.amount, Percent) else None,
            unrounded=_grown(line, factor / loads) if line.scale is Scale.WHOLE else None,
        )
        for at, line in enumerate(ingredients)
    )


def whole_count(number: Fraction) -> Fraction:
    """Return the nearest whole number, half up, and at least 1."""
    return Fraction(max(1, floor(number + Fraction(1, 2))))


def _typed(line: Ingredient) -> Amount | None:
    return line.amount if isinstance(line.amount, Amount) else None


def _grown(line: Ingredient, factor: Fraction) -> Amount | None:
    amount = _typed(line)
    return None if amount is None else times(amount, factor)


def _in_load(line: Ingredient, factor: Fraction) -> Amount | None:
    grown = _grown(line, factor)
    if grown is None or line.scale is Scale.LINEAR:
        return grown
    if line.scale is Scale.PER_LOAD:
        return _typed(line)
    return Amount(number=whole_count(grown.number), unit=grown.unit)


def _in_all(load: Amount | None, loads: int) -> Amount | None:
    return None if load is None else times(load, Fraction(loads))


def _resolve(
    ingredients: Sequence[Ingredient], amounts: Sequence[Amount | None], to_grams: ToGrams
) -> list[Amount | None]:
    """Return the amounts with every percentage worked out, those first that others are of."""
    found = list(amounts)
    open_lines = {at: line.amount for at, line in enumerate(ingredients) if isinstance(line.amount, Percent)}
    while open_lines:
        ready = [
            at
            for at, percent in open_lines.items()
            if open_lines.keys().isdisjoint(_lines_of(ingredients, at, percent))
        ]
        if not ready:
            names = ", ".join(f"`{ingredients[at].item}`" for at in open_lines)
            raise ValueMistake("LB314", f"the percentages of {names} depend on each other")
        for at in ready:
            percent = open_lines.pop(at)
            found[at] = _part_of(ingredients, found, _lines_of(ingredients, at, percent), percent, to_grams)
    return found


def _lines_of(ingredients: Sequence[Ingredient], at: int, percent: Percent) -> set[int]:
    """Return the lines a percentage is of: all but itself and media for the batch, else every line of the items."""
    if percent.of == (BATCH,):
        return {other for other, line in enumerate(ingredients) if other != at and not line.medium}
    return {other for other, line in enumerate(ingredients) if line.item in percent.of}


def _part_of(
    ingredients: Sequence[Ingredient],
    amounts: Sequence[Amount | None],
    lines: set[int],
    percent: Percent,
    to_grams: ToGrams,
) -> Amount:
    weighed = [(ingredients[at].item, amount) for at in sorted(lines) if (amount := amounts[at]) is not None]
    grams = sum((to_grams(item, amount) for item, amount in weighed), Fraction(0)) * percent.number / 100
    units = [amount.unit for _, amount in weighed]
    pounds = any(unit in (OUNCE, POUND) for unit in units) and not any(is_metric(unit) for unit in units)
    return from_base(grams, OUNCE if pounds else GRAM)
