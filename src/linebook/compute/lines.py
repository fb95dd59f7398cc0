"""The ingredient lines of one batch: what each line weighs in a load, in all loads and on the spec's own card, exact.

Knows one component and how its items turn into weights; knows nothing of demand, of instruments or of print.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import floor
from typing import Final, TypeAlias

from linebook.compute.ladders import is_metric
from linebook.compute.results import BatchIngredient
from linebook.model.amounts import BATCH, Amount, Percent
from linebook.model.component import Ingredient, Scale
from linebook.model.sums import sum_of
from linebook.model.units import GRAM, OUNCE, POUND, from_base, times
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

ToGrams: TypeAlias = Callable[[str, Amount], Fraction]
"""Turns an amount of an item into grams; raises ValueMistake LB304 where the item does not say how."""

Amounts: TypeAlias = Sequence[Amount | None]
"""One amount a line; None where it is added to taste."""

STRAIGHT: Final = (Scale.LINEAR, Scale.HELD_BACK)
"""The ways of a line that grows with the batch alone."""


def base_amounts(ingredients: Sequence[Ingredient], to_grams: ToGrams) -> Amounts:
    """Return every line of the spec's batch, percentages worked out.

    Raises ValueMistake LB304 where a percentage meets an item with no way to a weight, LB314 where percentages go
    round in a circle.
    """
    return _resolve(ingredients, [_typed(line) for line in ingredients], to_grams)


def grows_straight(ingredients: Sequence[Ingredient]) -> bool:
    """Return whether every line grows with the batch alone, however many loads it is made in."""
    return all(line.scale in STRAIGHT for line in ingredients)


def total_amounts(
    ingredients: Sequence[Ingredient], base: Amounts, factor: Fraction, loads: Sequence[int], to_grams: ToGrams
) -> Amounts:
    """Return every line for ``factor`` times the spec's batch, over all of its loads (one number a line).

    Whole lines are counts for a load (nearest whole, half up, at least 1); lines per load are as listed in each load;
    all others grow with the batch. A percentage is of the total weights.
    """
    if grows_straight(ingredients):
        if factor == 1:
            return base
        return [None if amount is None else times(amount, factor) for amount in base]
    totals = [_in_all(line, factor, count) for line, count in zip(ingredients, loads, strict=True)]
    return _resolve(ingredients, totals, to_grams)


def batch_lines(
    ingredients: Sequence[Ingredient], base: Amounts, totals: Amounts, factor: Fraction, loads: Sequence[int]
) -> tuple[BatchIngredient, ...]:
    """Return every line with its loads: even parts of its total."""
    return tuple(
        [
            BatchIngredient(
                ingredient=line,
                base=of_spec,
                load=total if count == 1 or total is None else Amount(number=total.number / count, unit=total.unit),
                total=total,
                rate=line.amount.number * 10 if isinstance(line.amount, Percent) else None,
                unrounded=_grown(line, factor / count) if line.scale is Scale.WHOLE else None,
                loads=count,
            )
            for line, of_spec, total, count in zip(ingredients, base, totals, loads, strict=True)
        ]
    )


def whole_count(number: Fraction) -> Fraction:
    """Return the nearest whole number, half up, and at least 1."""
    return Fraction(max(1, floor(number + Fraction(1, 2))))


def _typed(line: Ingredient) -> Amount | None:
    return line.amount if isinstance(line.amount, Amount) else None


def _grown(line: Ingredient, factor: Fraction) -> Amount | None:
    amount = _typed(line)
    return None if amount is None else times(amount, factor)


def _in_all(line: Ingredient, factor: Fraction, loads: int) -> Amount | None:
    amount = _typed(line)
    if amount is None:
        return None
    if line.scale in STRAIGHT:
        return times(amount, factor)
    if line.scale is Scale.PER_LOAD:
        return times(amount, Fraction(loads))
    return Amount(number=whole_count(amount.number * factor / loads) * loads, unit=amount.unit)


def _resolve(ingredients: Sequence[Ingredient], amounts: Amounts, to_grams: ToGrams) -> Amounts:
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
    amounts: Amounts,
    lines: set[int],
    percent: Percent,
    to_grams: ToGrams,
) -> Amount:
    weighed = [(ingredients[at].item, amount) for at in sorted(lines) if (amount := amounts[at]) is not None]
    grams = sum_of(to_grams(item, amount) for item, amount in weighed) * percent.number / 100
    units = [amount.unit for _, amount in weighed]
    pounds = any(unit in (OUNCE, POUND) for unit in units) and not any(is_metric(unit) for unit in units)
    return from_base(grams, OUNCE if pounds else GRAM)
