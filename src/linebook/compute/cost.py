"""What food costs, for the chef alone: a batch, what it makes, a plate, and its part of the price on the menu.

Exact, in the house's currency, by the prices of the pantry as they are written; tax is no part of it. No view of a
sheet may hold any of these values. Knows no order and no stock.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cached_property
from types import MappingProxyType
from typing import Final

from linebook.compute.base import base_batch
from linebook.compute.demand import users_first
from linebook.compute.portions import FULL, portion_amounts
from linebook.compute.results import Batch
from linebook.compute.weights import facts_for
from linebook.compute.yields import cost_factor, usable_part
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import convert, convert_to, facts_of, in_makes
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.pantry import PantryItem
from linebook.model.units import in_unit, ratio, same_measure, times, to_base
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen

_NOTHING: Final = Fraction(0)


@frozen
class Cost:
    """Money, and what is not in it.

    It is at least ``money`` where ``unpriced`` names bought items without a price that reaches the amount.
    ``uncounted`` are taken to taste. ``unvalued`` are by-products that count for nothing, as nobody says their worth.
    """

    money: Fraction = _NOTHING
    unpriced: tuple[str, ...] = ()
    uncounted: tuple[str, ...] = ()
    unvalued: tuple[str, ...] = ()


@frozen
class CostLine:
    """One part of a cost: an item, how much of it (None to taste), what it costs; ``bought`` is as purchased.

    A credit is a by-product whose worth is taken off: its money is below nothing.
    """

    item: str
    amount: Amount | None
    cost: Cost
    bought: Amount | None = None
    credit: bool = False


@frozen
class BatchCost:
    """What the spec's batch of a component costs. ``one`` is the cost of one unit of its yield that reaches a plate."""

    component: str
    makes: Amount
    pieces: Fraction | None
    lines: tuple[CostLine, ...]
    total: Cost
    one: Cost


@frozen
class PlateCost:
    """What a portion of a dish in one size costs. ``share`` is its part of the price, where the price is for this size.

    ``price`` is the menu's, None where there is none for this size.
    """

    dish: str
    size: str
    lines: tuple[CostLine, ...]
    total: Cost
    price: Fraction | None = None
    share: Fraction | None = None


class Costs:
    """The costs of one house; each component is worked out once."""

    def __init__(self, house: House) -> None:
        """Take the house, with what stands in for what is missing, if anything is."""
        self._house = house
        self._batches: dict[str, BatchCost] = {}
        for component in reversed(users_first(house)):
            self._batches[component] = self._batch(house.components[component])

    def batch(self, component: str) -> BatchCost:
        """Return what the spec's batch of a component costs, the worth of its by-products taken off."""
        return self._batches[component]

    def plates(self, dish: Dish) -> tuple[PlateCost, ...]:
        """Return what a portion of a dish costs in each of its sizes."""
        return tuple(self._plate(dish, size) for size in ([one.id for one in dish.sizes] or [FULL]))

    def of_bought(self, item: PantryItem, amount: Amount, *, before: bool = False, apart: Iterable[str] = ()) -> Cost:
        """Return what an amount of a bought item costs: its price over its yield, the worth of its other parts off.

        ``before`` is true where it is weighed as it is bought. ``apart`` are parts of its yield tests that the card
        counts as by-products of its own. A yield test without money for a part that has a value counts by weight alone.
        """
        if item.price is None:
            return Cost(unpriced=(item.id,))
        try:
            number = convert(amount, item.price.per.unit.kind, facts_of(item), counts=_counts(item.price.per))
        except ValueMistake:
            return Cost(unpriced=(item.id,))
        tested = _without_parts(item, frozenset(apart))
        found = cost_factor(tested)
        factor = found.average if found is not None else 1 / usable_part(item)
        if before:
            factor *= usable_part(item)
        return Cost(money=number / to_base(item.price.per) * item.price.money * factor)

    def worth(self, item: str, amount: Amount) -> Cost:
        """Return what a by-product is worth: what buying it costs, else what a yield test says, else nothing."""
        bought = self._house.pantry.get(item)
        if bought is not None and bought.price is not None:
            return self.of_bought(bought, amount)
        value = self._values.get(item)
        if value is None or not _reaches(self._house, item, amount, value[1]):
            return Cost(unvalued=(item,))
        money, per = value
        own = convert_to(amount, per.unit, facts_for(self._house, item))
        return Cost(money=ratio(own, per) * money)

    def _batch(self, component: Component) -> BatchCost:
        base = base_batch(self._house, component.id)
        lines = (*self._ingredients(component, base), *self._credits(component))
        total = sum_of(line.cost for line in lines)
        reaches = component.makes.number * (1 - component.loss)
        return BatchCost(
            component=component.id,
            makes=component.makes,
            pieces=component.pieces,
            lines=lines,
            total=total,
            one=_part(total, 1 / reaches),
        )

    def _ingredients(self, component: Component, base: Batch) -> Iterable[CostLine]:
        apart = {entry.item for entry in component.also_makes}
        for line in base.ingredients:
            item = line.ingredient.item
            before = line.ingredient.weigh_before
            if line.total is None:
                yield CostLine(item=item, amount=None, cost=Cost(uncounted=(item,)))
            else:
                yield self._line(item, line.total, before=before, apart=apart)

    def _credits(self, component: Component) -> Iterable[CostLine]:
        for entry in component.also_makes:
            worth = self.worth(entry.item, entry.amount)
            yield CostLine(item=entry.item, amount=entry.amount, cost=_part(worth, Fraction(-1)), credit=True)

    def _plate(self, dish: Dish, size: str) -> PlateCost:
        lines = tuple(self._line(item, amount) for item, amount in portion_amounts(dish, size))
        total = sum_of(line.cost for line in lines)
        price = dish.price if size == priced_size(dish) else None
        share = total.money / price if price else None
        return PlateCost(dish=dish.id, size=size, lines=lines, total=total, price=price, share=share)

    def _line(self, item: str, amount: Amount, *, before: bool = False, apart: Iterable[str] = ()) -> CostLine:
        house = self._house
        if item in house.components:
            component = house.components[item]
            cost = _part(self.batch(item).one, in_makes(component, amount).number)
            return CostLine(item=item, amount=amount, cost=cost)
        if item in house.by_products:
            return CostLine(item=item, amount=amount, cost=self.worth(item, amount))
        record = house.pantry[item]
        bought = amount if before else times(amount, 1 / usable_part(record))
        cost = self.of_bought(record, amount, before=before, apart=apart)
        return CostLine(item=item, amount=amount, cost=cost, bought=bought)

    @cached_property
    def _values(self) -> Mapping[str, tuple[Fraction, Amount]]:
        """What yield tests say an item's weight is worth, by the item: over all that were weighed."""
        sums: dict[str, list[tuple[Fraction, Amount]]] = {}
        for bought in self._house.pantry.values():
            for part in (part for test in bought.yield_tests for part in test.parts):
                if (
                    part.item is not None
                    and part.value is not None
                    and same_measure(part.weighs.unit, part.value[1].unit)
                ):
                    money = ratio(part.weighs, part.value[1]) * part.value[0]
                    sums.setdefault(part.item, []).append((money, part.weighs))
        return MappingProxyType({item: _added(found) for item, found in sums.items()})


def priced_size(dish: Dish) -> str:
    """Return the size a dish's price is for: the one as written, else the first."""
    if not dish.sizes:
        return FULL
    return next((size.id for size in dish.sizes if size.factor == 1 and not size.amounts), dish.sizes[0].id)


def sum_of(costs: Iterable[Cost]) -> Cost:
    """Return several costs as one."""
    found = tuple(costs)
    return Cost(
        money=sum((one.money for one in found), _NOTHING),
        unpriced=_all(one.unpriced for one in found),
        uncounted=_all(one.uncounted for one in found),
        unvalued=_all(one.unvalued for one in found),
    )


def _part(cost: Cost, factor: Fraction) -> Cost:
    return replace(cost, money=cost.money * factor)


def _all(names: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for found in names for name in found))


def _added(found: list[tuple[Fraction, Amount]]) -> tuple[Fraction, Amount]:
    unit = found[0][1].unit
    weight = sum((in_unit(weighs, unit).number for _, weighs in found), _NOTHING)
    return sum((money for money, _ in found), _NOTHING), Amount(number=weight, unit=unit)


def _without_parts(item: PantryItem, apart: frozenset[str]) -> PantryItem:
    """Return an item whose yield tests give no worth to parts that are counted elsewhere."""
    if not apart or not item.yield_tests:
        return item
    tests = tuple(
        replace(test, parts=tuple(replace(part, value=None) if part.item in apart else part for part in test.parts))
        for test in item.yield_tests
    )
    return replace(item, yield_tests=tests)


def _counts(per: Amount) -> str:
    return per.unit.counts or "each"


def _reaches(house: House, item: str, amount: Amount, per: Amount) -> bool:
    try:
        convert(amount, per.unit.kind, facts_for(house, item), counts=_counts(per))
    except ValueMistake:
        return False
    return amount.unit.kind is per.unit.kind or per.unit.kind is not Kind.COUNT
