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
from linebook.model.component import Ingredient
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Bases:
    """What the percentages of a card are of, which is the same in every batch of it. Lines are meant by their places.

    ``of`` are, for each line, those that it is a percentage of. ``order`` are the lines that are one and the ``cured``,
    of which a cure is one, each after those that it is of. ``exact`` says of each whether it is weighed exactly.
    """

    order: tuple[int, ...]
    of: tuple[tuple[int, ...], ...]
    cured: frozenset[int]
    exact: tuple[bool, ...]


def find_bases(house: House, ingredients: Sequence[Ingredient]) -> Bases | None:
    """Return what the percentages of a card are of, None where it has none.

    Percentages do not go round in a circle: the lines were worked out before.
    """
    if not any(isinstance(line.amount, Percent) for line in ingredients):
        return None
    exact = tuple(_weighed_exactly(house, line.item) for line in ingredients)
    of = tuple(base_lines(ingredients, at) for at in range(len(ingredients)))
    cured = frozenset(other for at, is_exact in enumerate(exact) if is_exact for other in of[at])
    order: dict[int, None] = {}

    def settle(at: int) -> None:
        if at in order:
            return
        for other in of[at]:
            settle(other)
        if of[at] or at in cured:
            order[at] = None

    for at in range(len(ingredients)):
        settle(at)
    return Bases(order=tuple(order), of=of, cured=cured, exact=exact)


def with_bases(lines: Sequence[BatchIngredient], bases: Bases | None, grams: ToGrams) -> tuple[BatchIngredient, ...]:
    """Return the lines of a batch with what each percentage is of, and those marked that a cure is a percentage of."""
    if bases is None:
        return tuple(lines)
    settled = list(lines)
    for at in bases.order:
        of = tuple(
            [
                PercentBase(line=settled[other], grams=_weight(lines[other], grams), exact=bases.exact[other])
                for other in bases.of[at]
            ]
        )
        settled[at] = replace(lines[at], of=of, cured=at in bases.cured)
    return tuple(settled)


def _weight(line: BatchIngredient, grams: ToGrams) -> Fraction:
    """Return the grams of all loads of a line: parts of one percentage may be made in different loads."""
    return Fraction(0) if line.total is None else grams(line.ingredient.item, line.total)


def _weighed_exactly(house: House, item: str) -> bool:
    return item in house.pantry and house.pantry[item].weigh_exactly
