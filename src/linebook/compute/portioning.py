"""How many portions an amount gives: by weight or volume, by count, or by cutting blocks. Exact; knows no night."""

from __future__ import annotations

from collections.abc import Mapping

from linebook.compute.demand import users_first
from linebook.compute.portions import FULL, portion_amounts
from linebook.model.amounts import Amount, IngredientAmount
from linebook.model.component import Component
from linebook.model.conversion import Facts, convert, in_makes
from linebook.model.cutting import CutPlan
from linebook.model.dish import Dish, Size
from linebook.model.house import House
from linebook.model.sums import sum_of
from linebook.model.units import ratio, same_measure, to_base
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen
from linebook.source.remembered import remembered


@frozen
class Portioned:
    """Whole portions, and what is left of the amount: a part of one portion, from 0 to below 1."""

    count: int
    left: Fraction


def portioned(amount: Amount, portion: Amount, facts: Facts) -> Portioned:
    """Return how many portions an amount gives.

    Both are taken in the portion's measure: so by weight, by volume or by count. Raises ValueMistake LB304 where what
    is known of the item does not turn the one into the other.
    """
    if same_measure(amount.unit, portion.unit):
        there = to_base(amount)
    else:
        there = convert(amount, portion.unit.kind, facts, counts=portion.unit.counts or "each")
    return _whole(there / to_base(portion))


def needed_for(count: int, portion: Amount) -> Amount:
    """Return what so many portions weigh, measure or count, in the portion's unit."""
    return Amount(number=portion.number * count, unit=portion.unit)


def portions_of_blocks(plan: CutPlan, blocks: int, pieces: Fraction) -> Portioned:
    """Return how many portions of so many pieces some whole blocks give."""
    return _whole(plan.pieces * blocks / pieces)


@frozen
class PortionPart:
    """What a portion of a dish in one size carries of a component, as a part of what one batch of it makes."""

    dish: Dish
    size: Size | None
    part: Fraction


@remembered
def portion_parts(house: House, target: Component, menu: str) -> tuple[PortionPart, ...]:
    """Return what each dish of a menu carries of a component, in each of its sizes; those that carry some of it."""
    found = []
    in_batches = _in_batches(house, target)
    for entry in house.menus[menu].dishes:
        dish = house.dishes[entry.dish]
        if in_batches.keys().isdisjoint([element.item for element in dish.elements]):  # as of most dishes
            continue
        for size in dish.sizes or (None,):
            carried = portion_amounts(dish, size.id if size else FULL)
            part = sum_of(_part_of(house, item, amount, in_batches) for item, amount in carried)
            if part:
                found.append(PortionPart(dish=dish, size=size, part=part))
    return tuple(found)


def part_carried(house: House, target: Component, item: str, amount: Amount) -> Fraction:
    """Return how much of a component an amount of an item carries, as a part of what one batch of it makes.

    Through other components too: a slice of a cake carries its part of the layers. What is lost is not counted: it is
    what lies on the plate. Amounts that are percentages or whose units do not meet carry nothing that is known.
    """
    return _part_of(house, item, amount, _in_batches(house, target))


@remembered
def _in_batches(house: House, target: Component) -> Mapping[str, Fraction]:
    """Return how much of a component one batch of each carries: what carries none, as most, is not among them."""
    found = {target.id: Fraction(1)}
    for id_ in reversed(users_first(house)):  # what goes into a component comes before it
        lines = [line for line in house.components[id_].ingredients if line.item in found]
        if lines and id_ != target.id:
            carried = (_part_of(house, line.item, line.amount, found) for line in lines)
            found[id_] = sum_of(carried)
    return found


def _part_of(house: House, item: str, amount: IngredientAmount, in_batches: Mapping[str, Fraction]) -> Fraction:
    in_batch = in_batches.get(item)
    if in_batch is None or not isinstance(amount, Amount):
        return Fraction(0)
    component = house.components[item]
    try:
        return ratio(in_makes(component, amount), component.makes) * in_batch
    except ValueMistake:
        return Fraction(0)


def _whole(portions: Fraction) -> Portioned:
    return Portioned(count=int(portions), left=portions % 1)
