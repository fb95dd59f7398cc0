"""One night: from covers to portions, from portions to batches of every component, from batches to what is bought.

Each need is the exact sum of all its uses, less what is on hand. Knows the day only to tell which stock is in life;
knows no pack, no price and no other night.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from graphlib import TopologicalSorter

from linebook.compute.balances import compute_balances
from linebook.compute.batches import Sizing
from linebook.compute.portions import compute_portions, portion_amounts
from linebook.compute.results import Balance, Batch, DishDemand, Night, Standing, StockUse, Use
from linebook.compute.stock import counted_stock, sums_of, taken
from linebook.compute.weights import bought_total
from linebook.model.amounts import Amount
from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.sums import sum_of
from linebook.model.units import times
from linebook.source.exact import Fraction
from linebook.source.remembered import remembered


def compute_night(house: House, occasion: Occasion) -> Night:
    """Return all portions, batches, by-product balances and bought needs of one occasion.

    A component's need is the sum of what its users take, over one minus its loss. What is on hand of it and in life is
    taken off; the rest is made, in whole pieces and steps. The batches of its users come first, so that stock of a
    component lowers what its own ingredients need. A by-product is used as it comes: needing it makes nothing. Amounts
    of a bought item that cannot be added up (a bunch and a weight, where its weight is not known) stand in ``apart``.
    """
    demands = compute_portions(house, occasion)
    uses = _plate_uses(house, demands)
    stock = counted_stock(house, occasion)
    on_hand = sums_of(stock)
    batches, covered = _batches(house, uses, on_hand)
    bought = {
        item: bought_total(house, item, [use.amount for use in uses[item]]) for item in uses if item in house.pantry
    }
    balances = compute_balances(house, batches, uses, on_hand)
    return Night(
        occasion=occasion,
        demands=demands,
        batches=batches,
        needs={item: amounts[0] for item, amounts in bought.items() if len(amounts) == 1},
        apart={item: amounts for item, amounts in bought.items() if len(amounts) > 1},
        balances=balances,
        stock=_taken(house, stock, batches, covered, balances) if stock else (),
        covered=covered,
    )


def _batches(
    house: House, uses: dict[str, list[Use]], on_hand: Mapping[str, Fraction]
) -> tuple[dict[str, Batch], dict[str, Amount]]:
    """Return what is made, and the needs that stock covers whole; what batches take is put to ``uses``."""
    batches: dict[str, Batch] = {}
    covered: dict[str, Amount] = {}
    sizing = Sizing(house)
    for component_id in users_first(house):
        component = house.components[component_id]
        converted = tuple(_in_its_unit(component, use) for use in uses.get(component_id, ()))
        needed = Amount(number=_needed(component, converted), unit=component.makes.unit)
        if not needed.number:
            continue
        held = Amount(number=on_hand[component_id], unit=needed.unit) if on_hand.get(component_id) else None
        if held is not None and held.number >= needed.number:
            covered[component_id] = needed
            continue
        batch = sizing.for_need(component, needed, held, converted)
        batches[component_id] = batch
        for line in batch.ingredients:
            if line.total is not None:
                uses.setdefault(line.ingredient.item, []).append(Use(user=component_id, amount=line.total))
    return batches, covered


@remembered
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


def _in_its_unit(component: Component, use: Use) -> Use:
    amount = in_makes(component, use.amount)
    return use if amount is use.amount else replace(use, amount=amount)


def _needed(component: Component, uses: Sequence[Use]) -> Fraction:
    return sum_of(use.amount.number for use in uses) / (1 - component.loss)


def _taken(
    house: House,
    stock: tuple[StockUse, ...],
    batches: Mapping[str, Batch],
    covered: Mapping[str, Amount],
    balances: Mapping[str, Balance],
) -> tuple[StockUse, ...]:
    needs = dict.fromkeys((*house.components, *balances), Fraction(0))
    needs |= {id_: batch.needed.number for id_, batch in batches.items() if batch.needed is not None}
    needs |= {id_: amount.number for id_, amount in covered.items()}
    needs |= {id_: one.needed.number for id_, one in balances.items() if one.standing is not Standing.APART}
    for bought in house.pantry:
        needs.pop(bought, None)
    return taken(stock, needs)
