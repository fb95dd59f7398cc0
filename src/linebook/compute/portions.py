"""How many portions of each dish and size a night needs, and how much of each item one portion carries.

Portions are exact up to the single rounding up, once for each dish and size. Knows nothing of batches.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil, floor
from typing import Final

from linebook.compute.results import Batch, DishDemand, PortionsGiven
from linebook.model.amounts import Amount
from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.dish import Dish, Element, Size
from linebook.model.house import House
from linebook.model.menu import MenuDish
from linebook.model.occasion import Occasion
from linebook.model.sums import sum_of
from linebook.model.units import plus, same_measure, times
from linebook.source.exact import Fraction

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


def served_portions(house: House, menu: str, component: Component) -> tuple[tuple[str, str, Amount], ...]:
    """Return what one portion of each dish of a menu, in each size it is served in, carries of a component.

    As dish, size and amount: as typed, or in the unit of the component's yield where a plate has it in two measures.
    """
    found = []
    for entry in house.menus[menu].dishes:
        dish = house.dishes[entry.dish]
        first = first_size(dish)
        for size in (id_ for id_, part in _parts(entry, first).items() if part):
            carried = [one for item, one in portion_amounts(dish, size) if item == component.id]
            if len(carried) > 1:
                number = sum_of(in_makes(component, one).number for one in carried)
                carried = [Amount(number=number, unit=component.makes.unit)]
            found += [(dish.id, size, one) for one in carried if one.number]
    return tuple(found)


def portions_given(house: House, menu: str, batch: Batch) -> tuple[PortionsGiven, ...]:
    """Return how many portions of each dish and size a batch gives if all of it goes to that one, loss taken off."""
    return tuple(
        PortionsGiven(amount=portion, count=portions_of(batch, portion), dish=dish, size=size)
        for dish, size, portion in served_portions(house, menu, batch.component)
    )


def portions_of(batch: Batch, portion: Amount) -> int:
    """Return how many whole portions a batch gives after what is lost."""
    one = in_makes(batch.component, portion).number
    return floor(batch.total.number * (1 - batch.component.loss) / one)


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
