"""How many pans a line needs set up for a night: what stands on the line, and what waits behind it.

Exact amounts, whole pans. Knows vessels and what an item says of its own volume; knows no sheet and no words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum
from math import ceil

from linebook.compute.portions import element_amount, find_size
from linebook.compute.results import DishDemand, Night
from linebook.compute.weights import bought_total, facts_for
from linebook.model.amounts import Amount
from linebook.model.component import Component
from linebook.model.conversion import convert_to, in_makes
from linebook.model.dish import Dish, Element
from linebook.model.house import House, Vessel
from linebook.model.units import plus, ratio, times
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen
from linebook.source.remembered import remembered


class Missing(Enum):
    """Why it is not known how many pans wait behind."""

    HOLDS = "what the vessel holds"
    ROOM = "how much room the item takes"


@frozen
class LinePans:
    """What a line sets up of one item for a night.

    ``amounts`` is all of it, one sum for each measure that does not add up. ``elements`` are where it is plated, with
    their dishes. ``at_hand`` is the vessel it stands in on the line, ``behind`` the one the rest waits in, None where
    nobody has said. One vessel stands on the line; ``pans_behind`` are those the rest fills, None where the vessel or
    the volume of the item is not known; ``missing`` is which of them, where a vessel is named.
    """

    item: str
    amounts: tuple[Amount, ...]
    elements: tuple[tuple[Dish, Element], ...]
    at_hand: Vessel | None
    behind: Vessel | None
    pans_behind: int | None
    missing: Missing | None = None


@remembered
def line_pans(house: House, night: Night, line: str) -> tuple[LinePans, ...]:
    """Return what a line sets up for a night, in the order in which its dishes plate it.

    Every element of each dish of the line is counted in all portions of the night, in their sizes.
    """
    plated: dict[str, list[tuple[Dish, Element]]] = {}
    carried: dict[str, list[Amount]] = {}
    for demand in night.demands:
        dish = house.dishes[demand.dish]
        if dish.line != line:
            continue
        for element, amount in _carried(dish, demand):
            known = plated.setdefault(element.item, [])
            if not any(one.id == dish.id and other == element for one, other in known):
                known.append((dish, element))
            if amount is not None:
                carried.setdefault(element.item, []).append(amount)
    return tuple(_pans(house, item, carried[item], plated[item]) for item in plated)


def vessels_for(house: House, item: str, amount: Amount, vessel: Vessel) -> int | None:
    """Return how many of a vessel an amount of an item fills, 0 for nothing, None where that cannot be known."""
    if vessel.holds is None:
        return None
    try:
        held = convert_to(amount, vessel.holds.unit, facts_for(house, item))
    except ValueMistake:
        return None
    return ceil(ratio(held, vessel.holds) / vessel.fill)


def _carried(dish: Dish, demand: DishDemand) -> Iterator[tuple[Element, Amount | None]]:
    """Yield what all portions of a demand carry of each element, None where that is in what came before.

    A size's own amount for an item is all of that item on the plate.
    """
    size = find_size(dish, demand.size)
    own: set[str] = set()
    for element in dish.elements:
        if size is not None and element.item in size.amounts:
            if element.item in own:
                yield element, None
                continue
            own.add(element.item)
        yield element, times(element_amount(element, size), Fraction(demand.portions))


def _pans(house: House, item: str, amounts: Sequence[Amount], elements: Sequence[tuple[Dish, Element]]) -> LinePans:
    component = house.components.get(item)
    store = component.store.vessel if component and component.store else None
    held = next((element.hold.vessel for _, element in elements if element.hold and element.hold.vessel), None)
    at_hand, behind = _vessel(house, held or store), _vessel(house, store or held)
    totals = _total(house, item, component, amounts)
    known = _behind(house, item, totals, at_hand, behind)
    lacks = Missing.HOLDS if any(one and one.holds is None for one in (at_hand, behind)) else Missing.ROOM
    return LinePans(
        item=item,
        amounts=totals,
        elements=tuple(elements),
        at_hand=at_hand,
        behind=behind,
        pans_behind=known,
        missing=lacks if known is None and at_hand is not None else None,
    )


def _total(house: House, item: str, component: Component | None, amounts: Sequence[Amount]) -> tuple[Amount, ...]:
    if component is None:
        return bought_total(house, item, amounts)
    total, *others = [in_makes(component, amount) for amount in amounts]
    for other in others:
        total = plus(total, other)
    return (total,)


def _behind(
    house: House, item: str, totals: Sequence[Amount], at_hand: Vessel | None, behind: Vessel | None
) -> int | None:
    """Return the vessels that wait behind the one that stands on the line."""
    if at_hand is None or behind is None or at_hand.holds is None or len(totals) > 1:
        return None
    try:
        on_line = convert_to(times(at_hand.holds, at_hand.fill), totals[0].unit, facts_for(house, item))
    except ValueMistake:
        return None
    rest = Amount(number=max(Fraction(0), totals[0].number - on_line.number), unit=totals[0].unit)
    return vessels_for(house, item, rest, behind)


def _vessel(house: House, vessel: str | None) -> Vessel | None:
    return next((one for one in house.file.vessels if one.id == vessel), None) if vessel else None
