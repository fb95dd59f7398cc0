"""What a guest cannot have, in the words of the taxonomy, of origins and of the pantry, and what a menu holds of it.

Owns how the parts of one avoidance are asked of their kitchens and put together. Knows no word a guest may type.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Literal, NamedTuple, TypeAlias

from linebook.compute.answers import relevant
from linebook.compute.kitchens import Kind, Kitchens, component_makeups
from linebook.compute.makeup import Facts, Kitchen, Makeup, Trace, join
from linebook.compute.results import Column
from linebook.model.diets import Asks, Diet
from linebook.model.dish import Alternative, Dish, Element
from linebook.model.house import House
from linebook.model.pantry import PantryItem
from linebook.model.taxonomy import covered_by
from linebook.source.frozen import frozen

AvoidanceKind: TypeAlias = Literal["substance", "group", "own", "diet", "item"]


@frozen
class Avoidance:
    """One thing a guest cannot have. ``name`` is how it is printed; ``id`` and ``kind`` say where that name is from.

    ``substances`` are declared ones; ``items`` are pantry items, components and by-products. ``origins`` and ``raw``
    are the origins a diet forbids, always or where the food is raw. What is avoided in one way is avoided in all.
    """

    id: str
    name: str
    kind: AvoidanceKind
    substances: frozenset[str] = frozenset()
    items: frozenset[str] = frozenset()
    origins: frozenset[str] = frozenset()
    raw: frozenset[str] = frozenset()


def of_column(column: Column) -> Avoidance:
    """Return the avoidance of everything in one column of the allergen matrix."""
    return Avoidance(
        id=column.id,
        name=column.name,
        kind="own" if column.own else "group",
        substances=frozenset(column.substances),
    )


def of_diet(diet: Diet) -> Avoidance:
    """Return the avoidance of everything a diet forbids."""
    if diet.asks is Asks.RAW:
        return Avoidance(id=diet.id, name=diet.name, kind="diet", raw=diet.forbids)
    return Avoidance(id=diet.id, name=diet.name, kind="diet", origins=diet.forbids)


class Part(NamedTuple):
    """One question of an avoidance: of which kind (None: foods by name), to which kitchen, about which words."""

    kind: Kind | None
    kitchen: Kitchen
    wanted: frozenset[str]


class Examined:
    """What is on a menu, asked about some avoidances. Each kitchen is made when the first avoidance needs it."""

    def __init__(self, house: House, menu: str, avoidances: Sequence[Avoidance]) -> None:
        self.kitchens = Kitchens(house, menu)
        self.avoidances = tuple(avoidances)
        self._asked = {one: self._parts(one) for one in avoidances}

    def parts(self, avoidance: Avoidance) -> tuple[Part, ...]:
        """Return the questions that an avoidance comes to."""
        return self._asked[avoidance]

    def of_element(self, avoidance: Avoidance, element: Element | Alternative) -> Makeup:
        """Return what matters of an element or alternative, contacts at pick-up included."""
        return self._ask(avoidance, lambda kitchen: kitchen.of_element(element))

    def of_touches(self, avoidance: Avoidance, dish: Dish) -> Makeup:
        """Return what matters of what touches a dish and is no element."""
        return self._ask(avoidance, lambda kitchen: kitchen.of_touches(dish))

    def of_dish(self, avoidance: Avoidance, dish: Dish) -> Makeup:
        """Return what matters of a whole dish as it is sent."""
        parts = [self.of_element(avoidance, element) for element in dish.elements]
        return join((self.of_touches(avoidance, dish), *parts))

    def of_item(self, avoidance: Avoidance, item: str) -> Makeup:
        """Return what matters of a bought item, by-product, or component of the menu."""
        return self._ask(avoidance, lambda kitchen: kitchen.of_item(item))

    def _ask(self, avoidance: Avoidance, of: Callable[[Kitchen], Makeup]) -> Makeup:
        return join(relevant(of(part.kitchen), part.wanted) for part in self._asked[avoidance])

    def _parts(self, avoidance: Avoidance) -> tuple[Part, ...]:
        asked = (
            (Kind.SUBSTANCES, avoidance.substances),
            (Kind.ORIGINS, avoidance.origins),
            (Kind.RAW, avoidance.raw),
        )
        parts = [Part(kind, self.kitchens.of(kind), words) for kind, words in asked if words]
        if avoidance.kind == "item":
            foods = self.kitchens.with_facts(item_facts(self.kitchens, avoidance.items))
            parts.append(Part(None, foods, avoidance.items))
        return tuple(parts)


def item_facts(kitchens: Kitchens, items: Iterable[str]) -> Facts:
    """Return which things are one of ``items``, and which bought ones may hold it unseen.

    What is bought as one food holds nothing else. A compound item may hold anything, unless what is avoided has
    declared substances and the compound item declares that it holds one of them neither surely nor perhaps.
    """
    house, avoided = kitchens.house, tuple(sorted(items))
    signs = [signs_of(kitchens, item) for item in avoided] or [()]
    bought = {}
    for id_, item in house.pantry.items():
        sure = frozenset((Trace(id_, id_),)) if id_ in avoided else frozenset()
        hidden = not sure and not item.one_food and any(may_hold(item, sign) for sign in signs)
        bought[id_] = Makeup(contains=sure, undeclared=frozenset((Trace("", id_),)) if hidden else frozenset())
    made = {id_: Makeup(contains=frozenset((Trace(id_, id_),))) for id_ in avoided if id_ not in house.pantry}
    for id_ in avoided:
        if id_ in house.by_products:
            made[id_] = Makeup(contains=frozenset((Trace(id_, id_),)))
    return Facts(bought=bought, made=made)


def signs_of(kitchens: Kitchens, item: str) -> tuple[frozenset[str], ...]:
    """Return by what an item would show in a declaration: for each substance in it, the words that may stand for it."""
    if item in kitchens.house.components:
        makeup = component_makeups(kitchens, Kind.SUBSTANCES, (item,))[item]
    else:
        makeup = kitchens.of(Kind.SUBSTANCES).of_item(item)
    held = sorted({trace.substance for trace in makeup.contains})
    return tuple(frozenset(covered_by((substance,))) for substance in held)


def may_hold(item: PantryItem, signs: Iterable[frozenset[str]]) -> bool:
    """Return whether a compound item's declaration leaves room for what has these signs."""
    if item.allergens is None:
        return True
    declared = frozenset((*item.allergens.contains, *item.allergens.may_contain))
    return all(sign & declared for sign in signs)
