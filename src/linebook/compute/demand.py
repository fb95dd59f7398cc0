"""One night: from covers to portions, from portions to batches of every component, from batches to what is bought.

Each need is the exact sum of all its uses; what comes in pieces is made in whole ones. Knows no date, stock or pack.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from graphlib import TopologicalSorter
from math import ceil

from linebook.compute.batches import compute_batch
from linebook.compute.portions import compute_portions, portion_amounts
from linebook.compute.results import Batch, DishDemand, Night, Use
from linebook.compute.weights import bought_total
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.units import ratio, times, to_base


def compute_night(house: House, occasion: Occasion) -> Night:
    """Return all portions, batches and bought needs of one occasion.

    A component's need is the sum of what its users take, over one minus its loss, and where it is made in pieces
    rounded up to whole ones, so that no loaf is light; the batches of its users come first. A by-product is used as it
    comes: needing it makes nothing. Amounts of a bought item that cannot be added up (a bunch and a weight, where its
    weight is not known) stand in ``apart``.
    """
    demands = compute_portions(house, occasion)
    uses = _plate_uses(house, demands)
    batches: dict[str, Batch] = {}
    for component_id in users_first(house):
        batch = _batch_for(house, component_id, uses.get(component_id, ()))
        if batch is not None:
            batches[component_id] = batch
            for line in batch.ingredients:
                if line.total is not None:
                    uses.setdefault(line.ingredient.item, []).append(Use(user=component_id, amount=line.total))
    bought = {
        item: bought_total(house, item, [use.amount for use in uses[item]]) for item in uses if item in house.pantry
    }
    return Night(
        occasion=occasion,
        demands=demands,
        batches=batches,
        needs={item: amounts[0] for item, amounts in bought.items() if len(amounts) == 1},
        apart={item: amounts for item, amounts in bought.items() if len(amounts) > 1},
    )


def users_first(house: House) -> tuple[str, ...]:
    """Return every component of the house, each one after all that are made from it."""
    users: dict[str, set[str]] = {id_: set() for id_ in house.components}
    for component in house.components.values():
        for line in component.ingredients:
            if line.item in users:
                users[line.item].add(component.id)
    return tuple(TopologicalSorter({id_: sorted(found) for id_, found in users.items()}).static_order())


def _plate_uses(house: House, demands: tuple[DishDemand, ...]) -> dict[str, list[Use]]:
    uses: dict[str, list[Use]] = {}
    for demand in demands:
        for item, amount in portion_amounts(house.dishes[demand.dish], demand.size):
            whole = times(amount, Fraction(demand.portions))
            uses.setdefault(item, []).append(Use(user=demand.dish, size=demand.size, amount=whole))
    return uses


def _batch_for(house: House, component_id: str, uses: Sequence[Use]) -> Batch | None:
    component = house.components[component_id]
    converted = tuple(replace(use, amount=in_makes(component, use.amount)) for use in uses)
    needed = sum((use.amount.number for use in converted), Fraction(0)) / (1 - component.loss)
    if not needed:
        return None
    makes = _in_whole_pieces(component, Amount(number=needed, unit=component.makes.unit))
    return compute_batch(house, component_id, makes=makes, uses=converted)


def _in_whole_pieces(component: Component, needed: Amount) -> Amount:
    """Return what is needed, and the rest of the last piece where the yield is counted: nobody bakes half a loaf."""
    pieces = component.pieces
    if pieces is None and component.makes.unit.kind is Kind.COUNT:
        pieces = to_base(component.makes)
    if pieces is None:
        return needed
    return times(component.makes, ceil(ratio(needed, component.makes) * pieces) / pieces)
