"""Which bought items are inside a thing at any depth, whatever they hold: for counts and for the age of labels.

It follows by-products to all that their makers are made of, and media to what they carry. What other food leaves in a
medium is not inside.
"""

from __future__ import annotations

from collections.abc import Iterable

from linebook.compute.makeup import components_of
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.remembered import remembered


def bought_inside(house: House, items: Iterable[str]) -> frozenset[str]:
    """Return every pantry item in these pantry items, components and by-products."""
    return all_inside(house, items) & house.pantry.keys()


def all_inside(house: House, items: Iterable[str]) -> frozenset[str]:
    """Return these items with everything in them, by-products with the components that they are left over from."""
    waiting, seen = set(items), set[str]()
    while waiting:
        item = waiting.pop()
        seen.add(item)
        found = {parent.id for parent, _ in house.by_products.get(item, ())}
        if item in house.components:
            found |= _named_by(house, house.components[item])
        waiting |= found - seen
    return frozenset(seen)


def items_of_dish(house: House, dish: Dish) -> frozenset[str]:
    """Return every bought item in a dish as it is sent, and in what its media carry; alternatives are not in it."""
    through = (medium for element in dish.elements for medium in element.through)
    return bought_inside(
        house, {*(element.item for element in dish.elements), *dish.also_touches, *carried(house, through)}
    )


@remembered
def items_of_menu(house: House, menu: str) -> frozenset[str]:
    """Return every bought item that the dishes of a menu and their alternatives are made of."""
    served = house.menus[menu]
    named = set(components_of(house, served))
    for dish in (house.dishes[entry.dish] for entry in served.dishes):
        through = (medium for element in dish.ever_served for medium in element.through)
        named |= {*(element.item for element in dish.ever_served), *dish.also_touches, *carried(house, through)}
    return bought_inside(house, named)


def carried(house: House, media: Iterable[str]) -> frozenset[str]:
    """Return the bought items that these media carry."""
    through = frozenset(media)
    return frozenset(item for medium in house.file.media if medium.id in through for item in medium.carries)


def _named_by(house: House, component: Component) -> set[str]:
    lines = {line.item for line in component.ingredients}
    through = (medium for stage in component.stages for medium in stage.through)
    return lines | {*component.adjust_with, *component.also_touches} | carried(house, through)
