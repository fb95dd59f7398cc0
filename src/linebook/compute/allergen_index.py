"""Which dishes carry a thing: every tracked substance, and every pantry item and component, to the dishes it is in.

Reads answers only. What nobody has declared may be anything, so undeclared dishes stand under every substance; a food
looked up by its own name stands under the dishes that are known to carry it, or may by a shared medium.
"""

from __future__ import annotations

from typing import Literal, TypeAlias

from linebook.compute.answers import answer
from linebook.compute.avoidances import Avoidance, Examined, of_column
from linebook.compute.columns import columns_for
from linebook.compute.inside import items_of_menu
from linebook.compute.kitchens import Kitchens
from linebook.compute.makeup import Facts, Makeup, Trace, join
from linebook.compute.results import Answer
from linebook.model.house import House
from linebook.model.taxonomy import SUBSTANCES, covered_by
from linebook.source.frozen import frozen

Sort: TypeAlias = Literal["group", "own", "substance", "item", "component", "by-product"]


@frozen
class Entry:
    """One line of the index. ``dishes`` are in menu order, each with its answer; none of them is free."""

    id: str
    name: str
    sort: Sort
    dishes: tuple[tuple[str, Answer], ...]


def allergen_index(house: House, menu: str) -> tuple[Entry, ...]:
    """Return the columns of the house's lists, its own avoidances, each declared substance, then foods by name.

    A substance that nothing on the menu declares and a food that no dish carries are left out.
    """
    asked: list[tuple[Sort, Avoidance]] = [
        ("own" if column.own else "group", of_column(column)) for column in columns_for(house.file.allergens)
    ]
    asked += [("substance", _exactly(id_)) for id_ in _declared(house, menu)]
    examined = Examined(house, menu, [one for _, one in asked])
    found = [Entry(id=one.id, name=one.name, sort=sort, dishes=_dishes(examined, one)) for sort, one in asked]
    return (*found, *_foods(examined.kitchens))


def _exactly(substance: str) -> Avoidance:
    covered = frozenset(covered_by((substance,)))
    return Avoidance(id=substance, name=SUBSTANCES[substance].name, kind="substance", substances=covered)


def _declared(house: House, menu: str) -> list[str]:
    """Return the substances that something on the menu declares, in the order of the taxonomy."""
    found: set[str] = set()
    for item in items_of_menu(house, menu):
        if declared := house.pantry[item].allergens:
            found |= {*declared.contains, *declared.may_contain}
    return [id_ for id_ in SUBSTANCES if id_ in found]


def _dishes(examined: Examined, avoidance: Avoidance) -> tuple[tuple[str, Answer], ...]:
    house, menu = examined.kitchens.house, examined.kitchens.menu
    answers = ((entry.dish, answer(examined.of_dish(avoidance, house.dishes[entry.dish]))) for entry in menu.dishes)
    return tuple((dish, given) for dish, given in answers if given is not Answer.FREE)


def _foods(kitchens: Kitchens) -> tuple[Entry, ...]:
    """Return the pantry items, components and by-products that dishes carry, each kind sorted by name."""
    house = kitchens.house
    kitchen = kitchens.with_facts(_each_itself(house))
    found: dict[str, list[tuple[str, Answer]]] = {}
    for dish in (house.dishes[entry.dish] for entry in kitchens.menu.dishes):
        whole = join((kitchen.of_touches(dish), *(kitchen.of_element(element) for element in dish.elements)))
        sure = {trace.substance for trace in whole.contains}
        perhaps = {trace.substance for trace in whole.may} - sure
        for id_ in (*sure, *perhaps):
            found.setdefault(id_, []).append((dish.id, Answer.CONTAINS if id_ in sure else Answer.MAY))
    entries = [
        Entry(id=id_, name=house.name_of(id_), sort=_sort(house, id_), dishes=tuple(dishes))
        for id_, dishes in found.items()
    ]
    return tuple(sorted(entries, key=lambda entry: (entry.sort, entry.name.casefold(), entry.id)))


def _each_itself(house: House) -> Facts:
    def itself(id_: str) -> Makeup:
        return Makeup(contains=frozenset((Trace(id_, id_),)))

    made = {*house.components, *(id_ for id_ in house.by_products if id_ not in house.pantry)}
    return Facts(bought={id_: itself(id_) for id_ in house.pantry}, made={id_: itself(id_) for id_ in made})


def _sort(house: House, id_: str) -> Sort:
    if id_ in house.components:
        return "component"
    return "item" if id_ in house.pantry else "by-product"
