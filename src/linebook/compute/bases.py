"""Tells every percentage of a batch what it is of, so that it can be printed beside what is printed of that.

Knows the lines of one batch and which items must be weighed exactly; computes no amount.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from linebook.check.weights import base_lines
from linebook.compute.lines import ToGrams
from linebook.compute.results import BatchIngredient, PercentBase
from linebook.model.amounts import Percent
from linebook.model.house import House
from linebook.source.exact import Fraction


def with_bases(house: House, lines: Sequence[BatchIngredient], grams: ToGrams) -> tuple[BatchIngredient, ...]:
    """Return the lines of a batch with what each percentage is of, and those marked that a cure is a percentage of.

    Percentages do not go round in a circle: the lines were worked out before.
    """
    ingredients = [line.ingredient for line in lines]
    if not any(isinstance(line.amount, Percent) for line in ingredients):
        return tuple(lines)
    exact = [_weighed_exactly(house, line.item) for line in ingredients]
    cured = {other for at, is_exact in enumerate(exact) if is_exact for other in base_lines(ingredients, at)}
    found: dict[int, BatchIngredient] = {}

    def settle(at: int) -> BatchIngredient:
        if at not in found:
            of = tuple(
                PercentBase(line=settle(other), grams=_weight(lines[other], grams), exact=exact[other])
                for other in base_lines(ingredients, at)
            )
            found[at] = replace(lines[at], of=of, cured=at in cured) if of or at in cured else lines[at]
        return found[at]

    return tuple(settle(at) for at in range(len(lines)))


def _weight(line: BatchIngredient, grams: ToGrams) -> Fraction:
    """Return the grams of all loads of a line: parts of one percentage may be made in different loads."""
    return Fraction(0) if line.total is None else grams(line.ingredient.item, line.total)


def _weighed_exactly(house: House, item: str) -> bool:
    return item in house.pantry and house.pantry[item].weigh_exactly
