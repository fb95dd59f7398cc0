"""The kitchen of a menu, with what earlier menus left in the oil; one for each kind of question, made when asked for.

Owns which menus count and which facts belong to which kind of question. Judges nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from linebook.compute.makeup import Facts, Kitchen, Makeup, components_of, declared_facts
from linebook.model.house import House
from linebook.model.menu import Menu


class Kind(Enum):
    """What a question is about: declared substances, where food comes from, or whether it is raw."""

    SUBSTANCES = "substances"
    ORIGINS = "origins"
    RAW = "raw"


class Kitchens:
    """The kitchens of one house and menu."""

    def __init__(self, house: House, menu: str) -> None:
        self.house = house
        self.menu = house.menus[menu]
        self.served = components_of(house, self.menu)
        self._made: dict[Kind, Kitchen] = {}

    def of(self, kind: Kind) -> Kitchen:
        """Return the kitchen for one kind of question."""
        if kind not in self._made:
            self._made[kind] = kitchen_for(self.house, self.menu, _facts(self.house, kind))
        return self._made[kind]

    def with_facts(self, facts: Facts) -> Kitchen:
        """Return a kitchen for a question of its own."""
        return kitchen_for(self.house, self.menu, facts)


def menus_since_oil(house: House, menu: Menu) -> tuple[Menu, ...]:
    """Return the menu and, before it, those whose contacts are still in the media, oldest first."""
    before = sorted((m for m in house.menus.values() if (m.first, m.id) < (menu.first, menu.id)), key=_start)
    found = [menu]
    while before and not found[0].oil_changed:
        found.insert(0, before.pop())
    return tuple(found)


def served_since_oil(house: House, menu: Menu) -> tuple[tuple[House, Menu], ...]:
    """Return the same menus, each with the house as it was when it was served.

    Where an item cannot be had tonight, the menu was served with it before, and the media still hold it: what stands in
    frees no dish of what has gone through the fryer.
    """
    earlier = house.tonight.before if house.tonight else house
    before = [(earlier, earlier.menus[one.id]) for one in menus_since_oil(house, menu)[:-1]]
    if house.tonight:
        before.append((earlier, earlier.menus[menu.id]))
    return (*before, (house, menu))


def kitchen_for(house: House, menu: Menu, facts: Facts) -> Kitchen:
    """Return the kitchen of a menu, its media holding what the menus since the oil was changed left in them."""
    pools: Mapping[str, Makeup] = {}
    kitchens = []
    for then, served in served_since_oil(house, menu):
        dishes = [entry.dish for entry in served.dishes]
        kitchens.append(Kitchen(then, components_of(then, served), dishes, pools, facts))
        pools = kitchens[-1].pools
    return kitchens[-1]


def kitchen_of_all(house: House, pools: Mapping[str, Makeup], facts: Facts) -> Kitchen:
    """Return the kitchen that cooks every component of the house, whoever needs it, with media that hold ``pools``."""
    return Kitchen(house, tuple(house.components), (), pools, facts)


def component_makeups(kitchens: Kitchens, kind: Kind, wanted: Sequence[str]) -> dict[str, Makeup]:
    """Return what is in each component or by-product; one the menu does not need is judged as if it were cooked too."""
    kitchen, served, leaves = kitchens.of(kind), set(kitchens.served), kitchens.house.by_products
    cooked = (id_ for id_ in wanted if id_ in served or any(one.id in served for one, _ in leaves.get(id_, ())))
    found = {id_: kitchen.of_item(id_) for id_ in cooked}
    if others := [id_ for id_ in wanted if id_ not in found]:
        everything = kitchen_of_all(kitchens.house, kitchen.pools, kitchen.facts)
        found |= {id_: everything.of_item(id_) for id_ in others}
    return found


def _start(menu: Menu) -> tuple[object, str]:
    return (menu.first, menu.id)


def _facts(house: House, kind: Kind) -> Facts:
    if kind is Kind.SUBSTANCES:
        return declared_facts(house)
    from linebook.compute.origin_facts import origin_facts, raw_facts  # here, because allergens alone need neither

    return origin_facts(house) if kind is Kind.ORIGINS else raw_facts(house)
