"""The parsed records by id, and what each of them names: what every check looks things up in.

It must not judge anything: checks make faults, the index makes none.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from types import MappingProxyType
from typing import Protocol, TypeAlias, TypeVar

from linebook.model.amounts import Amount
from linebook.model.component import ByProduct, Component
from linebook.model.conversion import Facts
from linebook.model.dish import Dish
from linebook.model.house import HouseFile, ParsedHouse
from linebook.model.menu import Menu
from linebook.model.pantry import PantryItem
from linebook.model.record import Record
from linebook.source.faults import Fault
from linebook.source.frozen import frozen
from linebook.source.spans import Span


class _HasId(Protocol):
    @property
    def id(self) -> str: ...


T = TypeVar("T", bound=_HasId)
ByProducts: TypeAlias = Mapping[str, tuple[tuple[Component, ByProduct], ...]]


@frozen(kw_only=False)
class Reference:
    """One place where a card names an item: ``user`` is the card, ``part`` the field the word stands in."""

    user: Component | Dish
    part: str
    item: str
    span: Span


@frozen
class _Records:
    parsed: ParsedHouse
    file: HouseFile | None
    pantry: Mapping[str, PantryItem]
    components: Mapping[str, Component]
    dishes: Mapping[str, Dish]
    menus: Mapping[str, Menu]
    by_products: ByProducts


class Index(_Records):
    """Every record that could be read, by id. Where an id is given twice the first one stands.

    No slots of its own: the derived look-ups are worked out once, when a check first asks for them.
    """

    @cached_property
    def items(self) -> frozenset[str]:
        """Every id that an ``item:`` may name."""
        return frozenset(self.pantry) | frozenset(self.components) | frozenset(self.by_products)

    @cached_property
    def cards(self) -> tuple[Component | Dish, ...]:
        """Every component and every dish."""
        return (*self.components.values(), *self.dishes.values())

    @cached_property
    def references(self) -> tuple[Reference, ...]:
        """Every item named by a component or a dish, in file order."""
        found: list[Reference] = []
        for component in self.components.values():
            found += component_references(component)
        for dish in self.dishes.values():
            found += dish_references(dish)
        return tuple(found)

    @cached_property
    def inside(self) -> Mapping[str, tuple[str, ...]]:
        """Every word that each component names as an item, by the component's id."""
        found: dict[str, list[str]] = {id: [] for id in self.components}
        for reference in self.references:
            if isinstance(reference.user, Component):
                found[reference.user.id].append(reference.item)
        return {id: tuple(items) for id, items in found.items()}

    @cached_property
    def facts(self) -> dict[str, Facts]:
        """What is known of the weights of items: those that a check has asked for."""
        return {}

    @cached_property
    def line_amounts(self) -> dict[str, tuple[Amount | None, ...]]:
        """The amounts of components' lines, percentages worked out: those that a check has asked for."""
        return {}

    @cached_property
    def unresolved(self) -> frozenset[str]:
        """Every word used as an item that is no item: the follow-on faults of these are not reported."""
        return frozenset(
            ref.item for ref in self.references if not self.knows(ref.item) and ref.item not in self.dishes
        )

    @cached_property
    def unresolved_dishes(self) -> frozenset[str]:
        """Every word a menu lists that is no dish."""
        listed = {entry.dish for menu in self.menus.values() for entry in menu.dishes}
        return frozenset(word for word in listed if word not in self.dishes and not self.is_broken(word))

    @cached_property
    def stands_in(self) -> frozenset[str]:
        """Every word that an item names as what can stand in for it."""
        bought = (one.item for item in self.pantry.values() for one in item.substitutes)
        made = (one.item for component in self.components.values() for one in component.substitutes)
        return frozenset((*bought, *made))

    @cached_property
    def by_name(self) -> Mapping[str, str]:
        """Ids of items by their printed names, for a chef who wrote the name where the id belongs."""
        names: dict[str, str] = {}
        for item in self.pantry.values():
            for name in (item.name, *item.also_called):
                names.setdefault(name, item.id)
        for component in self.components.values():
            names[component.name] = component.id
        for entries in self.by_products.values():
            names.setdefault(entries[0][1].name, entries[0][1].item)
        return names

    @cached_property
    def equipment(self) -> tuple[str, ...]:
        """The printed names of vessels, places, media, plates and instruments: words that are no food and no amount."""
        if self.file is None:
            return ()
        file = self.file
        names = [vessel.name for vessel in file.vessels] + [where.name for where in file.places]
        names += [medium.name for medium in file.media] + [plate.name for plate in file.plates]
        return tuple(names + [instrument.name for instrument in file.instruments])

    @property
    def is_whole(self) -> bool:
        """True where nothing was lost in reading and every word resolves: only then can a thing be missing."""
        lost = self.file is None or self.parsed.broken or self.parsed.incomplete
        return not (lost or self.unresolved or self.unresolved_dishes)

    def knows(self, item: str) -> bool:
        """Return whether an item exists, or stands in a file but could not be read."""
        return item in self.items or item in self.parsed.broken

    def is_broken(self, word: str) -> bool:
        """Return whether some file defines this id with a record that could not be read."""
        return word in self.parsed.broken

    def is_incomplete(self, id: str) -> bool:
        """Return whether a part of this record was lost in reading, so that nothing is missing for certain."""
        return id in self.parsed.incomplete


Check: TypeAlias = Callable[[Index], Iterator[Fault]]


def build_index(parsed: ParsedHouse) -> Index:
    """Return the index of a parsed house."""
    by_products: dict[str, list[tuple[Component, ByProduct]]] = defaultdict(list)
    for component in parsed.components:
        for by_product in component.also_makes:
            by_products[by_product.item].append((component, by_product))
    return Index(
        parsed=parsed,
        file=parsed.file,
        pantry=_by_id(parsed.pantry),
        components=_by_id(parsed.components),
        dishes=_by_id(parsed.dishes),
        menus=_by_id(parsed.menus),
        by_products=MappingProxyType({item: tuple(entries) for item, entries in by_products.items()}),
    )


def place(record: Record, *names: str) -> Span:
    """Return the span of the first of these fields that was given, or of the record."""
    return next((record.spans[name] for name in names if name in record.spans), record.span)


def component_references(component: Component) -> Iterator[Reference]:
    """Yield every item a component names as something that goes in or touches it, in file order."""
    for ingredient in component.ingredients:
        yield Reference(component, "ingredients", ingredient.item, ingredient.at("item"))
    yield from _listed(component, "adjust_with", component.adjust_with)
    yield from _listed(component, "also_touches", component.also_touches)


def dish_references(dish: Dish) -> Iterator[Reference]:
    """Yield every item a dish names as an element, an alternative or as something that touches it, in file order."""
    for element in dish.elements:
        yield Reference(dish, "elements", element.item, element.at("item"))
        for other in element.alternatives:
            yield Reference(dish, "alternative", other.item, other.at("item"))
    yield from _listed(dish, "also_touches", dish.also_touches)


def _listed(user: Component | Dish, part: str, items: tuple[str, ...]) -> Iterator[Reference]:
    for number, item in enumerate(items):
        yield Reference(user, part, item, place(user, f"{part}.{number}", part))


def _by_id(records: tuple[T, ...]) -> Mapping[str, T]:
    found: dict[str, T] = {}
    for record in records:
        found.setdefault(record.id, record)
    return MappingProxyType(found)
