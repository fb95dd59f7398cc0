"""The answers of the allergen matrix: each column's verdict on each dish and component, and what would change it.

Roll-up and contact are in ``makeup``; this module only turns what is known into answers. Contains comes before
undeclared, undeclared before may contain, and only where nothing is known against it is a cell free.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from linebook.compute.columns import columns_for
from linebook.compute.makeup import Kitchen, Makeup, Trace, components_of, join
from linebook.compute.results import AllergenTable, Answer, Column, Finding
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.menu import Menu
from linebook.model.taxonomy import SUBSTANCES

_FREE: Final = Finding(answer=Answer.FREE)


def compute_allergens(house: House, menu_id: str, *, only: str | None = None) -> AllergenTable:
    """Return every answer for a menu, or those of ``only`` one component.

    Food through a shared medium may contain whatever else of the menu goes through it; unless the oil was changed,
    also what the menus before left in it. A component no dish of the menu needs is judged as if it were cooked too.
    """
    menu = house.menus[menu_id]
    columns = columns_for(house.file.allergens)
    names = _substance_names(house)
    kitchen = _kitchen_for(house, menu)
    listed = [entry.dish for entry in menu.dishes] if only is None else []
    dishes = {id_: _dish_findings(kitchen, house.dishes[id_], columns, names) for id_ in listed}
    served = components_of(house, menu)
    wanted = dict.fromkeys((*served, *house.components)) if only is None else (only,)
    makeups = _component_makeups(house, wanted, served, kitchen)
    components = {
        id_: {column.id: _finding(column, makeup, names) for column in columns} for id_, makeup in makeups.items()
    }
    everything = makeups | {id_: _dish_makeup(kitchen, house.dishes[id_]) for id_ in dishes}
    undeclared = {id_: _items(makeup.undeclared) for id_, makeup in everything.items()}
    return AllergenTable(
        menu=menu_id, served=served, columns=columns, dishes=dishes, components=components, undeclared=undeclared
    )


def menus_since_oil(house: House, menu: Menu) -> tuple[Menu, ...]:
    """Return the menu and, before it, those whose contacts are still in the media, oldest first."""
    before = sorted((m for m in house.menus.values() if (m.first, m.id) < (menu.first, menu.id)), key=_start)
    found = [menu]
    while before and not found[0].oil_changed:
        found.insert(0, before.pop())
    return tuple(found)


def _start(menu: Menu) -> tuple[object, str]:
    return (menu.first, menu.id)


def _kitchen_for(house: House, menu: Menu) -> Kitchen:
    pools: Mapping[str, Makeup] = {}
    kitchens = []
    for served in menus_since_oil(house, menu):
        dishes = [entry.dish for entry in served.dishes]
        kitchens.append(Kitchen(house, components_of(house, served), dishes, pools))
        pools = kitchens[-1].pools
    return kitchens[-1]


def _component_makeups(
    house: House, wanted: Iterable[str], served: Sequence[str], kitchen: Kitchen
) -> dict[str, Makeup]:
    found = {id_: kitchen.of_item(id_) for id_ in wanted if id_ in served}
    if others := [id_ for id_ in wanted if id_ not in found]:
        everything = Kitchen(house, tuple(house.components), (), kitchen.pools)
        found |= {id_: everything.of_item(id_) for id_ in others}
    return found


def _dish_makeup(kitchen: Kitchen, dish: Dish) -> Makeup:
    return join((kitchen.of_touches(dish), *(kitchen.of_element(dish, element) for element in dish.elements)))


def _dish_findings(
    kitchen: Kitchen, dish: Dish, columns: Sequence[Column], names: Mapping[str, str]
) -> dict[str, Finding]:
    touches = kitchen.of_touches(dish)
    by_item: dict[str, Makeup] = {}
    for element in dish.elements:
        by_item[element.item] = join((by_item.get(element.item, Makeup()), kitchen.of_element(dish, element)))
    whole = join((touches, *by_item.values()))
    return {column.id: _finding(column, whole, names, _without(column, dish, touches, by_item)) for column in columns}


def _without(column: Column, dish: Dish, touches: Makeup, by_item: Mapping[str, Makeup]) -> tuple[str, ...]:
    """Return the elements to leave off for the column to be free, in plating order; () where that cannot be done.

    The shared media keep what other plates of the same dish put into them, so leaving an element off takes away what
    that element brings and nothing else: the elements that are not free by themselves are exactly those to leave off.
    """
    staying = {element.item for element in dish.elements if not element.leave_off}
    bringing = tuple(item for item, makeup in by_item.items() if not _is_free(column, makeup))
    if not _is_free(column, touches) or staying.intersection(bringing):
        return ()
    return bringing


def _is_free(column: Column, makeup: Makeup) -> bool:
    return _answer(column, makeup) is Answer.FREE


def _answer(column: Column, makeup: Makeup) -> Answer:
    if _is_any(column, makeup.contains):
        return Answer.CONTAINS
    if makeup.undeclared:
        return Answer.UNDECLARED
    return Answer.MAY if _is_any(column, makeup.may) else Answer.FREE


def _is_any(column: Column, traces: Iterable[Trace]) -> bool:
    return any(trace.substance in column.substances for trace in traces)


def _of_column(column: Column, traces: Iterable[Trace]) -> frozenset[Trace]:
    return frozenset(trace for trace in traces if trace.substance in column.substances)


def _finding(column: Column, makeup: Makeup, names: Mapping[str, str], without: tuple[str, ...] = ()) -> Finding:
    answer = _answer(column, makeup)
    if answer is Answer.FREE:
        return _FREE
    contained, may = _of_column(column, makeup.contains), _of_column(column, makeup.may)
    grounds = {
        Answer.CONTAINS: contained,
        Answer.UNDECLARED: makeup.undeclared,
        Answer.MAY: may,
    }[answer]
    sure = _substances(column, grounds)
    possible = [] if answer is Answer.MAY else [id_ for id_ in _substances(column, may) if id_ not in sure]
    besides = frozenset(trace for trace in may if trace.substance in possible)
    return Finding(
        answer=answer,
        substances=tuple(names.get(id_, id_) for id_ in sure),
        also_may=tuple(names.get(id_, id_) for id_ in possible),
        media=_media(grounds),
        partly=_is_partly(grounds),
        also_media=_media(besides),
        also_partly=_is_partly(besides),
        items=_items(grounds),
        without=without,
    )


def _substances(column: Column, traces: Iterable[Trace]) -> list[str]:
    present = {trace.substance for trace in traces}
    return [id_ for id_ in column.substances if id_ in present]


def _items(traces: Iterable[Trace]) -> tuple[str, ...]:
    return tuple(sorted({trace.item for trace in traces}))


def _media(traces: frozenset[Trace]) -> tuple[str, ...]:
    """Return the media that bring something which is not there without them."""
    direct = {(trace.substance, trace.item) for trace in traces if not trace.medium}
    return tuple(
        sorted({trace.medium for trace in traces if trace.medium and (trace.substance, trace.item) not in direct})
    )


def _is_partly(traces: frozenset[Trace]) -> bool:
    """Return whether shared media bring some of it and not all."""
    return bool(_media(traces)) and any(not trace.medium for trace in traces)


def _substance_names(house: House) -> dict[str, str]:
    return {substance.id: substance.name for substance in SUBSTANCES.values()} | dict(house.file.allergens.avoid)
