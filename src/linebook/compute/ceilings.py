"""What is cured in a sized batch, held against the house's ceilings: the reading of ``check.curing`` for one house.

Knows no words; the fault of a batch over its ceiling is that of the card.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from linebook.check.ceilings import over_ceiling
from linebook.check.curing import Curing, Ingoing, Weights
from linebook.compute.lines import base_amounts
from linebook.compute.results import Batch, BatchIngredient
from linebook.compute.weights import facts_for, to_grams
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import weight_or_volume
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.faults import Fault
from linebook.source.remembered import remembered

_FAR: Final = Fraction(11, 10)
"""Further from its ceiling than this no rounding moves anything."""

Grams: TypeAlias = Callable[[str, Amount], Fraction | None]
Lines: TypeAlias = tuple[BatchIngredient, ...]


def ingoing(house: House, batch: Batch) -> tuple[Ingoing, ...]:
    """Return every active substance of a batch, as its own loads weigh: the ppm that its card prints."""
    if not brings_any(house, batch.component):
        return ()
    weights = tuple(_grams(house, line.ingredient.item, line.total) for line in batch.ingredients)
    return curing_of(house).ingoing(batch.component, weights)


def find_over_ceilings(house: House, batch: Batch) -> Iterator[Fault]:
    """Yield LB327 for each substance that a batch brings over its ceiling: lines that do not scale straight can."""
    for found in ingoing(house, batch):
        if found.is_over:
            names = {item: house.name_of(item) for item in (*found.of, *found.unweighed)}
            yield over_ceiling(house.file.at("ceilings"), batch.component, found, names)


def with_room(house: House, component: Component, lines: Sequence[BatchIngredient], grams: Grams) -> Lines:
    """Return the lines of a batch with how much more of each may be printed before a substance is over its ceiling.

    Asked of a card that brings an active substance: of any other no line has a room.
    Only what rounding could move that far has a room; a batch that is over already has none, and is refused.
    """
    if not house.file.ceilings:
        return tuple(lines)
    curing = curing_of(house)
    weights = tuple(None if line.total is None else grams(line.ingredient.item, line.total) for line in lines)
    rooms: dict[str, Fraction] = {}
    for found in curing.ingoing(component, weights):
        if found.ceiling is not None and found.part and found.part <= found.ceiling and not found.cure:
            rooms[found.substance] = found.ceiling / found.part
    return tuple(
        replace(line, room=min(near))
        if (near := [rooms[one] for one in curing.strength(line.ingredient.item) if rooms.get(one, _FAR) < _FAR])
        else line
        for line in lines
    )


def curing_of(house: House) -> Curing:
    """Return the cures of a house."""
    grams = to_grams(house)

    def weights(component: Component) -> Weights:
        amounts = base_amounts(component.ingredients, grams)
        return tuple(
            _grams(house, line.item, amount) for line, amount in zip(component.ingredients, amounts, strict=True)
        )

    return Curing(
        pantry=house.pantry,
        components=house.components,
        by_products=house.by_products,
        served=_served(house),
        ceilings=house.file.ceilings,
        weights=weights,
        made=lambda component: _grams(house, component.id, component.makes),
    )


def brings_any(house: House, component: Component) -> bool:
    """Return whether any line of a card brings an active substance; of nearly every card none does."""
    strong = _strong_items(house)
    return bool(strong) and any(line.item in strong for line in component.ingredients)


@remembered
def _strong_items(house: House) -> frozenset[str]:
    """Return every item that an active substance is in: bought with it, or with what has it among its parts."""
    if not any(item.strength for item in house.pantry.values()):
        return frozenset()
    curing = curing_of(house)
    return frozenset(item for item in (*house.pantry, *house.components, *house.by_products) if curing.strength(item))


@remembered
def _served(house: House) -> frozenset[str]:
    """Return the items that come to a plate."""
    return frozenset(part.item for dish in house.dishes.values() for part in dish.ever_served)


def _grams(house: House, item: str, amount: Amount | None) -> Fraction | None:
    return None if amount is None else weight_or_volume(amount, Kind.MASS, facts_for(house, item))
