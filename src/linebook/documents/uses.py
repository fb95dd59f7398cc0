"""What a component is for: which dishes carry it, how much a portion, with which tool, and in what it is kept.

Exact until printed. Knows the menu of the sheet; knows no night.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil, floor

from linebook.compute.makeup import components_of
from linebook.compute.portions import FULL, portion_amounts
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import convert, facts_of, in_makes
from linebook.model.dish import Dish, Size
from linebook.model.house import House, Vessel
from linebook.model.units import ratio, times, to_base
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen
from linebook.source.remembered import gathered, remembered


@frozen
class PortionUse:
    """What one portion of a dish in one size carries of a component; ``size`` is None for a dish that lists none.

    There is more than one amount where the plate has it in measures that do not add up.
    """

    dish: Dish
    size: Size | None
    amounts: tuple[Amount, ...]


@frozen
class Plated:
    """What one portion of a dish in one size carries of every item; ``size`` is None for a dish that lists none."""

    dish: Dish
    size: Size | None
    carried: tuple[tuple[str, Amount], ...]


@gathered
def plated_on(house: House, menu: str) -> tuple[Plated, ...]:
    """Return what every plate of a menu carries, in menu order and by size."""
    dishes = [house.dishes[entry.dish] for entry in house.menus[menu].dishes]
    return tuple(
        Plated(dish=dish, size=size, carried=portion_amounts(dish, size.id if size else FULL))
        for dish in dishes
        for size in dish.sizes or (None,)
    )


@remembered
def portion_uses(house: House, component: Component, menu: str) -> tuple[PortionUse, ...]:
    """Return every use of a component on the plates of a menu, in menu order and by size."""
    return _uses_of_items(house, menu).get(component.id, ())


@gathered
def _uses_of_items(house: House, menu: str) -> Mapping[str, tuple[PortionUse, ...]]:
    """Return the uses of every item on a menu at once: a binder asks for those of each of its components."""
    found: dict[str, list[PortionUse]] = {}
    for plate in plated_on(house, menu):
        amounts: dict[str, list[Amount]] = {}
        for item, amount in plate.carried:
            amounts.setdefault(item, []).append(amount)
        for item, its in amounts.items():
            found.setdefault(item, []).append(PortionUse(dish=plate.dish, size=plate.size, amounts=tuple(its)))
    return {item: tuple(uses) for item, uses in found.items()}


def portions_from(component: Component, made: Amount, portion: Amount) -> int | None:
    """Return how many whole portions an amount made gives after what is lost; None where units do not meet."""
    try:
        return floor(ratio(times(made, 1 - component.loss), in_makes(component, portion)))
    except ValueMistake:
        return None


@remembered
def component_users(house: House, component: Component, menu: str) -> tuple[Component, ...]:
    """Return those of the components that a menu needs that have this one in them."""
    return _users_on(house, menu).get(component.id, ())


@gathered
def _users_on(house: House, menu: str) -> Mapping[str, tuple[Component, ...]]:
    """Return the users of every item among the components that a menu needs."""
    found: dict[str, list[Component]] = {}
    for id_ in components_of(house, house.menus[menu]):
        user = house.components[id_]
        for item in dict.fromkeys(line.item for line in user.ingredients):
            found.setdefault(item, []).append(user)
    return {item: tuple(users) for item, users in found.items()}


@remembered
def by_product_users(house: House, item: str) -> tuple[str, ...]:
    """Return the ids of the components and dishes that use a by-product."""
    return _users_of_items(house).get(item, ())


def pans_for(component: Component, amount: Amount, vessel: Vessel) -> int | None:
    """Return how many of a vessel an amount of a component fills, or None where that cannot be known."""
    if vessel.holds is None or vessel.holds.unit.kind is not Kind.VOLUME:
        return None
    try:
        volume = convert(amount, Kind.VOLUME, facts_of(component))
    except ValueMistake:
        return None
    return max(1, ceil(volume / (to_base(vessel.holds) * vessel.fill)))


@gathered
def _users_of_items(house: House) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for component in house.components.values():
        for item in dict.fromkeys(line.item for line in component.ingredients):
            found.setdefault(item, []).append(component.id)
    for dish in house.dishes.values():
        for item in dict.fromkeys(element.item for element in dish.elements):
            found.setdefault(item, []).append(dish.id)
    return {item: tuple(users) for item, users in found.items()}
