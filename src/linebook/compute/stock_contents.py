"""What stock brings to what it goes into: the substances of the version it was made from, added to the house.

A house in, a house out, so that matrix, guest answers and proofs follow. It only ever adds: stock frees nothing. What
is on hand and in life is given; how it is counted is ``stock``'s business.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Final, TypeVar

from linebook.compute.kitchens import Kind, Kitchens, component_makeups
from linebook.compute.stock import counted_stock
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.pantry import Declaration, PantryItem
from linebook.model.supply import StockEntry
from linebook.source.frozen import frozen

LABEL: Final = "label"
"""How what is in stock is known, where it is."""

Card = TypeVar("Card", Component, Dish)


@frozen
class Brought:
    """What one entry brings beyond what its card says tonight; ``unknown`` where nobody can say all of it."""

    entry: StockEntry
    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    unknown: bool = False


def stock_in_life(house: House, occasion: Occasion) -> tuple[StockEntry, ...]:
    """Return the entries that count on the day, those of the menu too."""
    return tuple(use.entry for use in counted_stock(house, occasion) if use.counted is not None)


def is_from_card(house: House, entry: StockEntry, cards: Mapping[str, str]) -> bool:
    """Return whether an entry was made from its batch card as the specs have it; ``cards`` are fingerprints by id."""
    makers = [parent.id for parent, _ in house.by_products.get(entry.item, ())]
    written = _plain(entry.card or "")
    return bool(written) and any(written == _plain(cards.get(id_, "")) for id_ in (entry.item, *makers))


def brought_by(house: House, menu: str, entries: Iterable[StockEntry], cards: Mapping[str, str]) -> tuple[Brought, ...]:
    """Return what each entry brings beyond tonight's cards, nothing for an entry whose card is as it is now.

    A bought item counts as it is declared, and what its own label says is added. Of what was made here an entry brings
    what its card says where it is from the card as it is, else what its label says; where that was not copied, nobody
    knows. Where the card is another one tonight, as something stands in, its usual substances are brought.
    """
    found = []
    for entry in entries:
        contains, may = entry.contains or (), entry.may_contain
        unknown = False
        if entry.item not in house.pantry or entry.made is not None or entry.card is not None:
            if is_from_card(house, entry, cards):
                usual = _usual(house, menu, entry)
                contains, may, unknown = (*contains, *usual.contains), (*may, *usual.may_contain), usual.unknown
            elif entry.item not in house.pantry or entry.item in house.by_products:
                unknown = entry.contains is None
        if contains or may or unknown:
            sure = tuple(dict.fromkeys(contains))
            perhaps = tuple(one for one in dict.fromkeys(may) if one not in sure)
            found.append(Brought(entry=entry, contains=sure, may_contain=perhaps, unknown=unknown))
    return tuple(found)


def with_stock(house: House, brought: Sequence[Brought], called: Callable[[str], str], day: date) -> House:
    """Return the house with what stock brings added to it; ``called`` is what stock of an item is called there.

    ``day`` is the day of service, on which a label without a day was read.
    """
    pantry = dict(house.pantry)
    extras: dict[str, list[str]] = defaultdict(list)
    for one in brought:
        item = one.entry.item
        if item in house.pantry and item not in house.by_products:
            pantry[item] = replace(pantry[item], allergens=_widened(pantry[item].allergens, one))
            continue
        for extra in _extras(one, called(item), pantry, day):
            pantry[extra.id] = extra
            extras[item].append(extra.id)
    left = {item: tuple(ids) for item, ids in extras.items() if item not in house.components}
    components: dict[str, Component] = {}
    for id_, component in house.components.items():
        items = (*(line.item for line in component.ingredients), *component.adjust_with, *component.also_touches)
        components[id_] = _touched(component, (*extras.get(id_, ()), *_named(items, left)))
    dishes: dict[str, Dish] = {}
    for id_, dish in house.dishes.items():
        items = (*(one.item for one in dish.ever_served), *dish.also_touches)
        dishes[id_] = _touched(dish, _named(items, left))
    by_products = {
        item: tuple((components[parent.id], made) for parent, made in makers)
        for item, makers in house.by_products.items()
    }
    return replace(
        house,
        pantry=MappingProxyType(pantry),
        components=MappingProxyType(components),
        dishes=MappingProxyType(dishes),
        by_products=MappingProxyType(by_products),
    )


def _usual(house: House, menu: str, entry: StockEntry) -> Brought:
    """Return what the specs' own card holds where it is another one tonight, nothing where it is the same."""
    if house.tonight is None or entry.item not in _touched_items(house):
        return Brought(entry=entry)
    before = house.tonight.before
    makeups = [
        component_makeups(Kitchens(before, menu), Kind.SUBSTANCES, (id_,))[id_]
        for id_ in (entry.item, *(parent.id for parent, _ in before.by_products.get(entry.item, ())))
        if id_ in before.components
    ]
    return Brought(
        entry=entry,
        contains=tuple(sorted({trace.substance for makeup in makeups for trace in makeup.contains})),
        may_contain=tuple(sorted({trace.substance for makeup in makeups for trace in makeup.may})),
        unknown=any(makeup.undeclared for makeup in makeups),
    )


def _touched_items(house: House) -> frozenset[str]:
    """Return every component that is otherwise tonight, and what they leave over."""
    touched = house.tonight.touched if house.tonight else {}
    made = {item for item, makers in house.by_products.items() for parent, _ in makers if parent.id in touched}
    return frozenset(touched) | made


def _widened(declared: Declaration | None, one: Brought) -> Declaration | None:
    """Return a declaration with what a label adds; what nobody has declared stays so, which is worse."""
    if declared is None or one.unknown:
        return None
    contains = tuple(dict.fromkeys((*declared.contains, *one.contains)))
    may = dict.fromkeys((*declared.may_contain, *one.may_contain))
    return replace(declared, contains=contains, may_contain=tuple(word for word in may if word not in contains))


def _extras(one: Brought, name: str, pantry: Mapping[str, PantryItem], day: date) -> list[PantryItem]:
    """Return what stands for an entry: one item for what is known of it, one where not all of it is."""
    declarations: list[Declaration | None] = [None] if one.unknown else []
    if one.contains or one.may_contain:
        declarations.append(
            Declaration(
                contains=one.contains,
                may_contain=one.may_contain,
                says=LABEL,
                since=one.entry.made or day,
                span=one.entry.span,
                spans=one.entry.spans,
            )
        )
    found: list[PantryItem] = []
    for declared in declarations:
        id_ = f"stock-{one.entry.item}"
        while id_ in pantry or any(id_ == other.id for other in found):
            id_ += "-more"
        span = one.entry.span
        found.append(PantryItem(id=id_, name=name, allergens=declared, weighs={}, span=span, spans={}))
    return found


def _named(items: Iterable[str], left: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Return what stock brings of the by-products among these items: with each of them it goes in."""
    return tuple(extra for item in dict.fromkeys(items) for extra in left.get(item, ()))


def _touched(card: Card, extras: Iterable[str]) -> Card:
    """Return a card that these touch too; from the start, because nobody knows when stock goes in."""
    touches = tuple(dict.fromkeys((*card.also_touches, *extras)))
    return card if touches == card.also_touches else replace(card, also_touches=touches)


def _plain(fingerprint: str) -> str:
    return "".join(char for char in fingerprint.upper() if char.isalnum())
