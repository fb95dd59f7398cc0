"""What cannot be had once some items are missing, and what stands in for each: decided over the whole house.

Changes nothing and knows no amounts. A component without one of its items cannot be had either, unless something stands
in for that item; what stands in must be to be had itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from linebook.model.component import ByProduct, Component
from linebook.model.dish import Alternative, Dish
from linebook.model.house import House
from linebook.model.supply import Substitute
from linebook.model.tonight import Fallen, StandIn
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Supply:
    """What is not to be had, each with the path that leads from it to what is missing, and what stands in.

    ``gone`` holds the missing themselves too, with themselves alone as path.
    """

    missing: frozenset[str]
    gone: Mapping[str, tuple[str, ...]]
    stands_in: Mapping[str, StandIn]

    def lost(self, items: Iterable[str]) -> tuple[str, ...]:
        """Return the path of the first of these that is gone with nothing to stand in for it, () where none is."""
        return next((self.gone[item] for item in items if item in self.gone and item not in self.stands_in), ())

    def serves(self, item: str) -> tuple[str, Fraction]:
        """Return what is used where a card names an item, and how much of it for one of the other."""
        stand_in = self.stands_in.get(item)
        return (stand_in.item, stand_in.ratio) if stand_in else (item, Fraction(1))


def find_supply(house: House, missing: Iterable[str]) -> Supply:
    """Return what is gone and what stands in. Things only ever go, so asking all in turn until none goes ends."""
    gone: dict[str, tuple[str, ...]] = {item: (item,) for item in missing}
    named = frozenset(gone)
    while True:
        supply = Supply(missing=named, gone=dict(gone), stands_in=_stand_ins(house, gone))
        found = {id_: (id_, *path) for id_, path in _losses(house, supply)}
        if not found:
            return supply
        gone |= found


def substitutes_of(house: House, item: str) -> tuple[Substitute, ...]:
    """Return what an item names as able to stand in for it, best first."""
    record = house.components.get(item) or house.pantry.get(item)
    return record.substitutes if record is not None else ()


def fallen_dishes(house: House, supply: Supply) -> tuple[Fallen, ...]:
    """Return every dish with something on it that is not to be had, in file order."""
    found = ((dish.id, supply.lost(_named_by_dish(house, dish))) for dish in house.dishes.values())
    return tuple(Fallen(id=id_, path=(id_, *path)) for id_, path in found if path)


def falls(house: House, other: Alternative, supply: Supply) -> bool:
    """Return whether an alternative is not to be had: the dish is served without that choice."""
    return bool(supply.lost((other.item, *_carried(house, other.through))))


def leaves_nothing(made: ByProduct, supply: Supply) -> bool:
    """Return whether a by-product is not to be had tonight: it is missing, or what it comes from is not used."""
    return made.item in supply.missing or (made.source is not None and made.source in supply.gone)


def named_by_component(house: House, component: Component) -> Iterator[str]:
    """Yield every item that a component must have: what goes in, adjusts and touches it, and what its media carry."""
    yield from (line.item for line in component.ingredients)
    yield from component.adjust_with
    yield from component.also_touches
    for stage in component.stages:
        yield from _carried(house, stage.through)


def _losses(house: House, supply: Supply) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield what is gone beyond what is known to be, with the path of what it lacks."""
    for component in house.components.values():
        path = () if component.id in supply.gone else supply.lost(named_by_component(house, component))
        if path:
            yield component.id, path
    for item, makers in house.by_products.items():
        if item in supply.gone or item in house.pantry:
            continue
        why = [_not_left(parent, made, supply) for parent, made in makers]
        if all(why):
            yield item, why[0]


def _not_left(parent: Component, made: ByProduct, supply: Supply) -> tuple[str, ...]:
    if parent.id in supply.gone:
        return supply.gone[parent.id]
    return supply.gone[made.source] if made.source is not None and leaves_nothing(made, supply) else ()


def _stand_ins(house: House, gone: Mapping[str, tuple[str, ...]]) -> dict[str, StandIn]:
    found = ((item, _find_stand_in(house, item, gone)) for item in gone)
    return {item: stand_in for item, stand_in in found if stand_in is not None}


def _find_stand_in(house: House, item: str, gone: Mapping[str, tuple[str, ...]]) -> StandIn | None:
    """Return the first of an item's own substitutes that is to be had; else one that stands in for one of those."""
    waiting = [(Fraction(1), "", item)]
    seen = {item}
    while waiting:
        following = []
        for ratio, note, id_ in waiting:
            for other in substitutes_of(house, id_):
                said = "; ".join(part for part in (note, other.note or "") if part)
                if other.item not in gone:
                    times = ratio * other.ratio
                    return StandIn(missing=item, item=other.item, ratio=times, note=said or None, prep=other.prep)
                if other.item not in seen:
                    seen.add(other.item)
                    following.append((ratio * other.ratio, said, other.item))
        waiting = following
    return None


def _named_by_dish(house: House, dish: Dish) -> Iterator[str]:
    yield from (element.item for element in dish.elements)
    yield from dish.also_touches
    for element in dish.elements:
        yield from _carried(house, element.through)


def _carried(house: House, through: Iterable[str]) -> Iterator[str]:
    carries = {medium.id: medium.carries for medium in house.file.media}
    for id_ in through:
        yield from carries.get(id_, ())


def items_served(house: House, dishes: Iterable[str]) -> frozenset[str]:
    """Return everything that some dishes need or may bring, at any depth, alternatives and by-products too."""
    waiting = [
        item
        for id_ in dishes
        for item in (
            *_named_by_dish(house, house.dishes[id_]),
            *(other.item for other in house.dishes[id_].alternatives),
            *_carried(house, (medium for one in house.dishes[id_].alternatives for medium in one.through)),
        )
    ]
    found: set[str] = set()
    while waiting:
        item = waiting.pop()
        if item in found:
            continue
        found.add(item)
        makers = [parent for parent, _ in house.by_products.get(item, ())]
        for component in (*([house.components[item]] if item in house.components else ()), *makers):
            found.add(component.id)
            waiting.extend(named_by_component(house, component))
    return frozenset(found)
