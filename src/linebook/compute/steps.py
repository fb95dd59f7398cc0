"""The size of a batch that is made for a need: whole pieces, whole steps, the least that can be made well, even loads.

Knows one component and a number in the unit of its yield; knows no night and no ingredient.
"""

from __future__ import annotations

from math import ceil, floor

from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.units import to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Size:
    """A batch's yield in the unit of ``makes``, and in how many even loads it is made."""

    number: Fraction
    loads: int


def size_for(component: Component, needed: Fraction) -> Size:
    """Return what is made where ``needed`` more than nothing is to be made; it is never less than that.

    It is at least the smallest batch, in whole pieces and in whole steps, so that no loaf is light and no tray half
    full. Above the largest batch it is split into the fewest even loads; each of them is of whole steps too.
    """
    number = needed
    if component.smallest_batch is not None:
        number = max(number, in_makes(component, component.smallest_batch).number)
    pieces = pieces_in(component)
    if pieces is not None:
        number = _up_to_whole(number, component.makes.number / pieces)
    if component.batch_step is None:
        return Size(number=number, loads=fewest_loads(component, number))
    step = in_makes(component, component.batch_step).number
    steps = ceil(number / step)
    loads = ceil(Fraction(steps, _most_steps(component, step, steps)))
    return Size(number=loads * ceil(Fraction(steps, loads)) * step, loads=loads)


def pieces_in(component: Component) -> Fraction | None:
    """Return how many pieces the spec's batch makes, None for what is not counted."""
    if component.pieces is None and component.makes.unit.kind is Kind.COUNT:
        return to_base(component.makes)
    return component.pieces


def fewest_loads(component: Component, number: Fraction) -> int:
    """Return the fewest even loads in which none is above the largest batch."""
    if component.largest_batch is None:
        return 1
    return max(1, ceil(number / in_makes(component, component.largest_batch).number))


def is_under_smallest(component: Component, total: Amount) -> bool:
    """Return whether a size asked for, in the unit of ``makes``, is less than can be made well."""
    smallest = component.smallest_batch
    return smallest is not None and total.number < in_makes(component, smallest).number


def is_in_whole_steps(component: Component, total: Amount) -> bool:
    """Return whether a size asked for, in the unit of ``makes``, is of whole steps; true where there are none."""
    step = component.batch_step
    return step is None or (total.number / in_makes(component, step).number).denominator == 1


def _most_steps(component: Component, step: Fraction, steps: int) -> int:
    """Return how many whole steps one load holds: those under the largest batch, which is of one step at least."""
    if component.largest_batch is None:
        return steps
    return max(1, floor(in_makes(component, component.largest_batch).number / step))


def _up_to_whole(number: Fraction, one: Fraction) -> Fraction:
    return ceil(number / one) * one
