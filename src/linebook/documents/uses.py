"""What a component is for: which dishes carry it, how much a portion, with which tool, and in what it is kept.

Exact until printed. Knows the menu of the sheet; knows no night.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from linebook.compute.portions import FULL, portion_amounts
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import convert, facts_of, in_makes
from linebook.model.dish import Dish, Size
from linebook.model.house import House, Vessel
from linebook.model.units import ratio, times, to_base
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen
from linebook.source.remembered import remembered


@frozen
class PortionUse:
    """What one portion of a dish in one size carries of a component; ``size`` is None for a dish that lists none.

    There is more than one amount where the plate has it in measures that do not add up.
    """

    dish: Dish
    size: Size | None
    amounts: tuple[Amount, ...]


@remembered
def portion_uses(house: House, component: Component, menu: str) -> tuple[PortionUse, ...]:
    """Return every use of a component on the plates of a menu, in menu order and by size."""
    found, wanted = [], component.id
    for entry in house.menus[menu].dishes:
        dish = house.dishes[entry.dish]
        for size in dish.sizes or (None,):
            carried = portion_amounts(dish, size.id if size else FULL)
            amounts = tuple(amount for item, amount in carried if item == wanted)
            if amounts:
                found.append(PortionUse(dish=dish, size=size, amounts=amounts))
    return tuple(found)


def portions_from(component: Component, made: Amount, portion: Amount) -> int | None:
    """Return how many whole portions an amount made gives after what is lost; None where units do not meet."""
    try:
        return floor(ratio(times(made, 1 - component.loss), in_makes(component, portion)))
    except ValueMistake:
        return None


@remembered
def component_users(house: House, component: Component, served: tuple[str, ...]) -> tuple[Component, ...]:
    """Return those of the ``served`` components that have this one in them."""
    wanted = component.id
    users = (house.components[id_] for id_ in served)
    return tuple(user for user in users if any(line.item == wanted for line in user.ingredients))


@remembered
def by_product_users(house: House, item: str) -> tuple[str, ...]:
    """Return the ids of the components and dishes that use a by-product."""
    return tuple(_users(house, item))


def pans_for(component: Component, amount: Amount, vessel: Vessel) -> int | None:
    """Return how many of a vessel an amount of a component fills, or None where that cannot be known."""
    if vessel.holds is None or vessel.holds.unit.kind is not Kind.VOLUME:
        return None
    try:
        volume = convert(amount, Kind.VOLUME, facts_of(component))
    except ValueMistake:
        return None
    return max(1, ceil(volume / (to_base(vessel.holds) * vessel.fill)))


def _users(house: House, item: str) -> Iterator[str]:
    for component in house.components.values():
        if any(line.item == item for line in component.ingredients):
            yield component.id
    for dish in house.dishes.values():
        if any(element.item == item for element in dish.elements):
            yield dish.id
