"""Where a file says what an item brings, or where it would have to: the last step of a way."""

from __future__ import annotations

from collections.abc import Collection

from linebook.compute.flows import Step
from linebook.compute.kitchens import Kind
from linebook.model.diets import UNPASTEURISED
from linebook.model.house import House
from linebook.model.origins import ORIGINS, origins_of
from linebook.model.pantry import PantryItem
from linebook.source.spans import Span


def ground_of(house: House, kind: Kind | None, item: str, words: Collection[str], holder: str) -> Step:
    """Return the step that ends a way: the word of a declaration or origin, or the item that has none.

    ``holder`` is the card the way ends at, where it is the card that says so: a component with ``raw``.
    """
    bought = house.pantry.get(item)
    if holder in house.components and holder != item:
        card = house.components[holder]
        if item in card.raw:
            return Step("ground", item, card.spans.get(f"raw.{card.raw.index(item)}", card.at("raw")))
    if bought is None:
        made = house.components[item].span if item in house.components else house.by_products[item][0][1].at("item")
        return Step("ground", item, made)
    if kind is Kind.SUBSTANCES:
        return Step("ground", item, _declared(bought, words))
    return Step("ground", item, bought.span if kind is None else _of_origin(bought, words))


def _declared(item: PantryItem, words: Collection[str]) -> Span:
    if item.allergens is None:
        return item.span
    for part, declared in (("contains", item.allergens.contains), ("may_contain", item.allergens.may_contain)):
        for number, word in enumerate(declared):
            if word in words:
                return item.allergens.spans.get(f"{part}.{number}", item.allergens.at(part))
    return item.at("allergens")


def _of_origin(item: PantryItem, words: Collection[str]) -> Span:
    if UNPASTEURISED in words and item.unpasteurised is not None:
        return item.at("unpasteurised")
    for number, word in enumerate(item.origin or ()):
        if any(meant in words for meant in (word, *ORIGINS[word].could_be)):
            return item.spans.get(f"origin.{number}", item.at("origin"))
    declared = (*item.allergens.contains, *item.allergens.may_contain) if item.allergens is not None else ()
    implied = [word for word in declared if not origins_of((word,)).isdisjoint(words)]
    return _declared(item, implied) if implied else item.at("origin")
