"""How many portions of each dish and size a night needs, and how much of each item one portion carries.

Portions are exact up to the single rounding up, once for each dish and size. Knows nothing of batches.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import ceil
from typing import Final

from linebook.compute.results import DishDemand
from linebook.model.amounts import Amount
from linebook.model.dish import Dish, Element, Size
from linebook.model.house import House
from linebook.model.menu import MenuDish
from linebook.model.occasion import Occasion
from linebook.model.units import plus, same_measure, times

FULL: Final = "full"
"""The id of the one size of a dish that lists none."""


def compute_portions(house: House, occasion: Occasion) -> tuple[DishDemand, ...]:
    """Return the portions of every dish and size, in menu order; what nobody needs is left out.

    Portions are covers times share. Spare is the larger of its fraction of them and its least number. Each size takes
    its part of both; the portions for tasting at line-up go to the first size; then, once, the number is rounded up.
    """
    found = []
    for entry in house.menus[occasion.menu].dishes:
        dish = house.dishes[entry.dish]
        first = first_size(dish)
        for size, part in _parts(entry, first).items():
            line_up = house.file.line_up_portions if size == first else 0
            portions = ceil(_with_spare(entry, occasion.covers) * part + line_up)
            if portions:
                found.append(DishDemand(occasion=occasion, dish=dish.id, size=size, portions=portions))
    return tuple(found)


def first_size(dish: Dish) -> str:
    """Return the id of a dish's first size."""
    return dish.sizes[0].id if dish.sizes else FULL


def find_size(dish: Dish, size_id: str) -> Size | None:
    """Return a size by its id, or None: the dish as written."""
    return next((size for size in dish.sizes if size.id == size_id), None)


def element_amount(element: Element, size: Size | None) -> Amount:
    """Return how much of an element one portion in a size carries."""
    if size is None:
        return element.amount
    return size.amounts.get(element.item) or times(element.amount, size.factor)


def portion_amounts(dish: Dish, size_id: str) -> tuple[tuple[str, Amount], ...]:
    """Return every item one portion carries, with its amounts as typed.

    An item set on the plate in two places is added up where its units allow. A size's own amount for an item is all
    of that item on the plate.
    """
    size = find_size(dish, size_id)
    own = size.amounts if size is not None else {}
    found: list[tuple[str, Amount]] = [(element.item, own[element.item]) for element in _first_of_each(dish, own)]
    for element in dish.elements:
        if element.item not in own:
            _add(found, element.item, element_amount(element, size))
    return tuple(found)


def _first_of_each(dish: Dish, own: Mapping[str, Amount]) -> list[Element]:
    return list({element.item: element for element in dish.elements if element.item in own}.values())


def _add(found: list[tuple[str, Amount]], item: str, amount: Amount) -> None:
    for at, (other, before) in enumerate(found):
        if other == item and same_measure(before.unit, amount.unit):
            found[at] = (item, plus(before, amount))
            return
    found.append((item, amount))


def _with_spare(entry: MenuDish, covers: int) -> Fraction:
    portions = covers * entry.share
    return portions + max(portions * (entry.spare or 0), entry.at_least or Fraction(0))


def _parts(entry: MenuDish, first: str) -> dict[str, Fraction]:
    parts = dict(entry.mix) or {first: Fraction(1)}
    return {first: parts.pop(first, Fraction(0)), **parts}
