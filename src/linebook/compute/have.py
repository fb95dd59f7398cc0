"""A batch sized by what there is of its ingredients: which of them decides it, and what is left of the others.

Exact. Knows one component, by the items of its card; how a cook names them is not its business.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import floor
from typing import Final

from linebook.compute.batches import Sizing
from linebook.compute.portions import portions_given
from linebook.compute.results import Batch, BatchIngredient, Leftover, Sized
from linebook.compute.steps import fewest_loads
from linebook.compute.weights import facts_for
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component, Scale
from linebook.model.conversion import convert_to, in_makes
from linebook.model.house import House
from linebook.model.quantities import write_amount
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

FINENESS: Final = 10_000
"""Into so many parts a batch is divided where counts a load leave no exact largest size: a hundredth of a per cent."""


def size_from_had(house: House, component_id: str, had: Mapping[str, Amount], menu: str) -> Sized:
    """Return the largest batch for which what there is of every item in ``had`` is enough.

    ``had`` is by item id. Items of the card that are not in it do not limit. What goes in by whole counts limits to a
    whole count, and with a batch step the batch is of whole steps. Raises ValueMistake: LB201 for an item that is not
    on the card, LB305 for one that is only to taste, LB304 where units cannot meet, LB310 where it is not enough for
    the least that can be made.
    """
    component = house.components[component_id]
    sizing = Sizing(house)
    spec = _made(sizing, component, Fraction(1))
    bounds = {item: _straight_bound(house, spec, item, amount) for item, amount in had.items()}
    limits = {item: bound for item, bound in bounds.items() if bound is not None}
    if not limits:
        raise _unlimited(component, had)
    trying = _Trying(house, sizing, component, had)
    factor, limiting = _in_steps(trying, limits) if component.batch_step is not None else _largest(trying, limits)
    if factor <= 0:
        raise _too_little(house, component, had, limiting)
    batch = _made(sizing, component, factor)
    return Sized(
        batch=batch,
        limiting=limiting,
        left=tuple(_left(house, batch, item, amount) for item, amount in had.items()),
        portions=portions_given(house, menu, batch),
    )


class _Trying:
    """Tells of one card whether what there is suffices for so many of the spec's batch, and what of it does not."""

    def __init__(self, house: House, sizing: Sizing, component: Component, had: Mapping[str, Amount]) -> None:
        self.house, self.sizing, self.component, self.had = house, sizing, component, had

    def enough(self, factor: Fraction) -> bool:
        """Return whether all of it is enough."""
        return not self.short_at(factor)

    def short_at(self, factor: Fraction) -> tuple[str, ...]:
        """Return the items of which there is not enough."""
        batch = _made(self.sizing, self.component, factor)
        return tuple(
            item for item, amount in self.had.items() if _used(self.house, batch, item, amount).number > amount.number
        )


def _made(sizing: Sizing, component: Component, factor: Fraction) -> Batch:
    total = Amount(number=component.makes.number * factor, unit=component.makes.unit)
    return sizing.batch(component, total, fewest_loads(component, total.number))


def _lines_of(batch: Batch, item: str) -> list[BatchIngredient]:
    return [line for line in batch.ingredients if line.ingredient.item == item]


def _used(house: House, batch: Batch, item: str, had: Amount) -> Amount:
    """Return what a batch takes of an item, in the unit that it is had in."""
    number = Fraction(0)
    for line in _lines_of(batch, item):
        if line.total is not None:
            number += _in_unit_of(house, item, line.total, had)
    return Amount(number=number, unit=had.unit)


def _in_unit_of(house: House, item: str, amount: Amount, had: Amount) -> Fraction:
    """Return an amount of an item in the unit it is had in; what cannot meet is told of what is had."""
    if item in house.components:
        component = house.components[item]
        return in_makes(component, amount).number / in_makes(component, had).number * had.number
    return amount.number / convert_to(had, amount.unit, facts_for(house, item)).number * had.number


def _straight_bound(house: House, spec: Batch, item: str, had: Amount) -> Fraction | None:
    """Return how many of the spec's batch an item is enough for; None where its lines are by the load alone.

    What goes in by whole counts is had in whole counts, and a rest of one is no help.
    """
    lines = _lines_of(spec, item)
    if not lines:
        raise ValueMistake("LB201", f"`{item}` is not on the card of {spec.component.name}")
    amounts = [line for line in lines if line.base is not None]
    if not amounts:
        message = f"{house.name_of(item)} goes in to taste on the card of {spec.component.name}"
        raise ValueMistake("LB305", message, ("say what you have of something it has an amount of",))
    growing = [line for line in amounts if line.ingredient.scale is not Scale.PER_LOAD]
    kept = sum(
        (_in_unit_of(house, item, line.base, had) for line in amounts if line not in growing and line.base), Fraction(0)
    )
    if not growing:
        return None
    one = sum((_in_unit_of(house, item, line.base, had) for line in growing if line.base), Fraction(0))
    there = had.number - kept
    if had.unit.kind is Kind.COUNT and all(line.ingredient.scale is Scale.WHOLE for line in growing):
        there = Fraction(floor(there))
    return max(Fraction(0), there / one)


def _largest(trying: _Trying, limits: Mapping[str, Fraction]) -> tuple[Fraction, tuple[str, ...]]:
    """Return the largest factor for which all is enough, 0 where none is, and the items that allow no more.

    Only what goes in by counts or by the load can be short of what is its straight share.
    """
    most = min(limits.values())
    if most <= 0 or trying.enough(most):
        return most, tuple(item for item, bound in limits.items() if bound == most)
    parts = _search(FINENESS - 1, lambda count: trying.enough(most * count / FINENESS))
    return most * parts / FINENESS, trying.short_at(most * (parts + 1) / FINENESS)


def _in_steps(trying: _Trying, limits: Mapping[str, Fraction]) -> tuple[Fraction, tuple[str, ...]]:
    """Return the most whole steps for which all is enough, as a factor, and the items that allow not one more."""
    component = trying.component
    assert component.batch_step is not None
    one = in_makes(component, component.batch_step).number / component.makes.number
    allowed = floor(min(limits.values()) / one)
    steps = allowed
    if steps and not trying.enough(steps * one):
        steps = _search(steps, lambda count: trying.enough(count * one))
    if steps < allowed:
        return steps * one, trying.short_at((steps + 1) * one)
    return steps * one, tuple(item for item, bound in limits.items() if bound < (steps + 1) * one)


def _search(most: int, enough: Callable[[int], bool]) -> int:
    """Return the largest number up to ``most`` that is enough, 0 where none is found; fewer need less."""
    low, high = 0, most
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if enough(middle) else (low, middle - 1)
    return low


def _left(house: House, batch: Batch, item: str, had: Amount) -> Leftover:
    used = _used(house, batch, item, had)
    return Leftover(item=item, had=had, used=used, left=Amount(number=had.number - used.number, unit=had.unit))


def _unlimited(component: Component, had: Mapping[str, Amount]) -> ValueMistake:
    names = ", ".join(f"`{item}`" for item in had)
    message = f"what goes into {component.name} of {names} is the same in every load, and sets no size"
    return ValueMistake("LB310", message, ("say what you have of something that grows with the batch",))


def _too_little(house: House, component: Component, had: Mapping[str, Amount], short: tuple[str, ...]) -> ValueMistake:
    items = " and ".join(f"`{write_amount(had[item])}` of {house.name_of(item)}" for item in short or tuple(had))
    least = (
        f"one step of `{write_amount(component.batch_step)}`" if component.batch_step else "the least that can be made"
    )
    message = f"{items} {'is' if len(short) < 2 else 'are'} not enough for {least} of {component.name}"
    return ValueMistake("LB310", message, ("find more of it, or size it by an amount with --makes",))
