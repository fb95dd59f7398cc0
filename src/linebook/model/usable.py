"""The usable part of a bought item by weight: of its yield tests, else as declared, else all of it. Exact."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

from linebook.model.pantry import PantryItem
from linebook.model.units import to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_ALL: Final = Fraction(1)


@frozen
class Range:
    """The average of several tests, pooled by weight, with the least and the most of any one of them."""

    average: Fraction
    least: Fraction
    most: Fraction


@frozen
class ItemYield:
    """The usable part of one item, 0 < ``part`` <= 1, by weight.

    ``tested`` is set where tests give it; ``declared`` is what the pantry says beside them. ``known`` is false where
    nobody has said: then all of it counts as usable. ``last`` is the day of the latest test.
    """

    item: str
    part: Fraction
    known: bool
    declared: Fraction | None = None
    tested: Range | None = None
    tests: int = 0
    last: date | None = None


def item_yield(item: PantryItem) -> ItemYield:
    """Return the usable part of an item and where it is from.

    The tests are pooled: all that was usable of all that was bought, so that a large delivery counts for more.
    """
    if item.yield_tests:
        tested = pooled([(to_base(test.usable), to_base(test.bought)) for test in item.yield_tests])
        return ItemYield(
            item=item.id,
            part=tested.average,
            known=True,
            declared=item.usable,
            tested=tested,
            tests=len(item.yield_tests),
            last=max(test.tested for test in item.yield_tests),
        )
    declared = item.usable
    return ItemYield(item=item.id, part=declared or _ALL, known=declared is not None, declared=declared)


def pooled(pairs: Sequence[tuple[Fraction, Fraction]]) -> Range:
    """Return what is left of what there was: the sums of both, and the least and the most of any pair."""
    each = [left / there for left, there in pairs]
    left, there = (sum(side, Fraction(0)) for side in zip(*pairs, strict=True))
    return Range(average=left / there, least=min(each), most=max(each))
