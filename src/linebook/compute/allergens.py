"""The answers of the allergen matrix: each column's verdict on each dish and component, and what would change it.

Roll-up and contact are in ``makeup``; this module only turns what is known into answers. Contains comes before
undeclared, undeclared before may contain, and only where nothing is known against it is a cell free.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from linebook.compute import answers
from linebook.compute.columns import columns_for
from linebook.compute.kitchens import Kind, Kitchens, component_makeups, menus_since_oil
from linebook.compute.makeup import NOTHING, Kitchen, Makeup, Trace, join
from linebook.compute.results import AllergenTable, Answer, Column, Finding, PartFindings
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.taxonomy import SUBSTANCES

__all__ = ["compute_allergens", "menus_since_oil", "table_of"]

_FREE: Final = Finding(answer=Answer.FREE)


def compute_allergens(
    house: House, menu_id: str, *, only: str | None = None, on: date | None = None, also: Sequence[str] = ()
) -> AllergenTable:
    """Return every answer for a menu, or those of ``only`` one component; ``also`` are by-products to answer for.

    Food through a shared medium may contain whatever else of the menu goes through it; unless the oil was changed,
    also what the menus before left in it. A component no dish of the menu needs is judged as if it were cooked too.
    ``on`` is the day it is printed, for which declarations are too old.
    """
    columns = columns_for(house.file.allergens)
    names = {substance.id: substance.name for substance in SUBSTANCES.values()} | dict(house.file.allergens.avoid)
    return table_of(Kitchens(house, menu_id), Kind.SUBSTANCES, columns, names, only=only, on=on, also=also)


def table_of(
    kitchens: Kitchens,
    kind: Kind,
    columns: Sequence[Column],
    names: Mapping[str, str],
    *,
    only: str | None = None,
    on: date | None = None,
    also: Sequence[str] = (),
) -> AllergenTable:
    """Return the answers to some questions of one kind, with substances called by ``names``."""
    house, menu, kitchen = kitchens.house, kitchens.menu, kitchens.of(kind)
    asking = _Asking(kitchen, columns, names)
    dishes = {entry.dish: house.dishes[entry.dish] for entry in menu.dishes} if only is None else {}
    wanted = tuple(dict.fromkeys((*kitchens.served, *house.components, *also))) if only is None else (only,)
    makeups = component_makeups(kitchens, kind, wanted)
    plates = {id_: _dish_makeup(kitchen, dish) for id_, dish in dishes.items()}
    return AllergenTable(
        menu=menu.id,
        served=kitchens.served,
        columns=tuple(columns),
        dishes={id_: _dish_findings(asking, dish, plates[id_]) for id_, dish in dishes.items()},
        components={id_: asking.findings(makeup) for id_, makeup in makeups.items()},
        undeclared={id_: answers.items_of(makeup.undeclared) for id_, makeup in (makeups | plates).items()},
        aged=_aged(house, menu.id, on),
        parts={id_: tuple(_parts(asking, dish)) for id_, dish in dishes.items()},
    )


class _Asking:
    """The questions of a table, asked of what is in things; where several hold the same, they are asked once."""

    def __init__(self, kitchen: Kitchen, columns: Sequence[Column], names: Mapping[str, str]) -> None:
        self.kitchen, self.columns, self._names = kitchen, columns, names
        self._known: dict[tuple[frozenset[Trace], ...], Mapping[str, Finding]] = {}

    def findings(self, makeup: Makeup) -> Mapping[str, Finding]:
        """Return what a makeup answers to every column."""
        holds = (makeup.contains, makeup.may, makeup.undeclared)
        found = self._known.get(holds)
        if found is None:
            found = self._known[holds] = _findings(self.columns, makeup, self._names)
        return found

    def is_free(self, column: Column, makeup: Makeup) -> bool:
        """Return whether nothing in a makeup answers a question."""
        return self.findings(makeup)[column.id].answer is Answer.FREE


def _aged(house: House, menu: str, on: date | None) -> tuple[str, ...]:
    if on is None or house.file.allergens.older_than is None:
        return ()
    from linebook.compute.ages import aged_items  # here, because most tables are of no day
    from linebook.compute.inside import items_of_menu

    return aged_items(house, items_of_menu(house, menu), on)


def _parts(asking: _Asking, dish: Dish) -> Iterator[PartFindings]:
    """Yield the answers of each element, of its alternatives after it, and of what touches the dish."""
    kitchen = asking.kitchen

    def part(item: str, makeup: Makeup, instead_of: str = "") -> PartFindings:
        undeclared = answers.items_of(makeup.undeclared)
        return PartFindings(item=item, findings=asking.findings(makeup), instead_of=instead_of, undeclared=undeclared)

    for element in dish.elements:
        yield part(element.item, kitchen.of_element(element))
        for other in element.alternatives:
            yield part(other.item, kitchen.of_element(other), element.item)
    if dish.also_touches:
        yield part("", kitchen.of_touches(dish))


def _dish_makeup(kitchen: Kitchen, dish: Dish) -> Makeup:
    return join((kitchen.of_touches(dish), *(kitchen.of_element(element) for element in dish.elements)))


def _dish_findings(asking: _Asking, dish: Dish, whole: Makeup) -> dict[str, Finding]:
    """Return the answers of a dish, which holds the ``whole``, and what would change them."""
    touches = asking.kitchen.of_touches(dish)
    by_item: dict[str, Makeup] = {}
    for element in dish.elements:
        by_item[element.item] = join((by_item.get(element.item, NOTHING), asking.kitchen.of_element(element)))
    found = dict(asking.findings(whole))
    for column in asking.columns:
        finding = found[column.id]
        if finding.answer is not Answer.FREE and asking.is_free(column, touches):
            bringing = tuple(item for item, makeup in by_item.items() if not asking.is_free(column, makeup))
            without = _without(dish, bringing)
            instead = _instead(asking, dish, column, bringing) if dish.alternatives else ()
            finding = replace(finding, without=without, instead=instead) if without or instead else finding
        found[column.id] = finding
    return found


def _without(dish: Dish, bringing: tuple[str, ...]) -> tuple[str, ...]:
    """Return the elements to leave off for a column to be free, in plating order; () where that cannot be done.

    The shared media keep what other plates of the same dish put into them, so leaving an element off takes away what
    that element brings and nothing else: the elements that are not free by themselves are exactly those to leave off.
    A plate with nothing on it is not served.
    """
    staying = {element.item for element in dish.elements if not element.leave_off}
    nothing_left = {element.item for element in dish.elements}.issubset(bringing)
    return () if nothing_left or staying.intersection(bringing) else bringing


def _instead(
    asking: _Asking, dish: Dish, column: Column, bringing: tuple[str, ...]
) -> tuple[tuple[str, str | None], ...]:
    """Return what goes with what comes instead, () where alternatives do not help."""
    of_element = asking.kitchen.of_element
    found: list[tuple[str, str | None]] = []
    for item in bringing:
        taken: list[str | None] = []
        for element in (element for element in dish.elements if element.item == item):
            free = (other.item for other in element.alternatives if asking.is_free(column, of_element(other)))
            other = next(free, None)
            if other is None and not element.leave_off:
                return ()
            taken.append(other)
        exchanged = dict.fromkeys(other for other in taken if other is not None)
        found += [(item, other) for other in exchanged] or [(item, None)]
    return tuple(found) if any(other is not None for _, other in found) else ()


def _findings(columns: Sequence[Column], makeup: Makeup, names: Mapping[str, str]) -> dict[str, Finding]:
    """Return what a makeup answers to every column; to most of them it has nothing to say."""
    said = answers.words_of(makeup)
    free = "" not in said
    return {
        column.id: _FREE if free and said.isdisjoint(column.substances) else _finding(column, makeup, names)
        for column in columns
    }


def _finding(column: Column, makeup: Makeup, names: Mapping[str, str]) -> Finding:
    known = answers.relevant(makeup, column.substances)
    answer = answers.answer(known)
    grounds = known.contains or known.undeclared or known.may  # those of the answer
    sure = _substances(column, grounds)
    if answer is Answer.MAY or not known.may:
        return _found(answer, sure, grounds, names)
    possible = [id_ for id_ in _substances(column, known.may) if id_ not in sure]
    besides = frozenset([trace for trace in known.may if trace.substance in possible])
    return replace(
        _found(answer, sure, grounds, names),
        also_may=tuple([names.get(id_, id_) for id_ in possible]),
        also_media=answers.media_of(besides),
        also_partly=answers.is_partly(besides),
    )


def _found(answer: Answer, sure: Iterable[str], grounds: frozenset[Trace], names: Mapping[str, str]) -> Finding:
    return Finding(
        answer=answer,
        substances=tuple([names.get(id_, id_) for id_ in sure]),
        media=answers.media_of(grounds),
        partly=answers.is_partly(grounds),
        items=answers.items_of(grounds),
    )


def _substances(column: Column, traces: Iterable[Trace]) -> list[str]:
    present = {trace.substance for trace in traces}
    return [id_ for id_ in column.substances if id_ in present]
