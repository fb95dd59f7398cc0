"""One component made to some size: how many loads, and how much of everything in each. Exact; knows no night."""

from __future__ import annotations

from linebook.compute.bases import with_bases
from linebook.compute.ceilings import with_room
from linebook.compute.lines import ToGrams, batch_lines
from linebook.compute.loads import Loads, Vessels, find_loads, vessels_of
from linebook.compute.results import Batch, BatchIngredient, Use
from linebook.compute.steps import fewest_loads, size_for
from linebook.compute.weights import facts_for, to_grams
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import in_makes, weight_or_volume
from linebook.model.house import House
from linebook.model.units import ratio
from linebook.model.units import times as amount_times
from linebook.source.exact import Fraction


def compute_batch(
    house: House,
    component_id: str,
    *,
    makes: Amount | None = None,
    times: Fraction | None = None,
    uses: tuple[Use, ...] = (),
) -> Batch:
    """Return a component made to yield ``makes`` (by weight, volume or count) or ``times`` the spec's batch.

    Without either it is the spec's batch. The factor is new total yield over the spec's yield; it stays as asked for,
    whatever steps and smallest batch the component has. Above the largest batch it is split into the fewest even loads,
    and above what a stage or its vessel takes that stage is. Raises ValueMistake LB304 where ``makes`` cannot be turned
    into the unit of the spec's yield.
    """
    component = house.components[component_id]
    factor = Fraction(1) if times is None else times
    if makes is not None:
        factor = ratio(in_makes(component, makes), component.makes)
    total = amount_times(component.makes, factor)
    return Sizing(house).batch(component, total, fewest_loads(component, total.number), uses)


class Sizing:
    """Sizes batches of one house; what all of them look up is looked up once."""

    def __init__(self, house: House) -> None:
        self.house = house
        self.to_grams: ToGrams = to_grams(house)

    def for_need(self, component: Component, needed: Amount, on_hand: Amount | None, uses: tuple[Use, ...]) -> Batch:
        """Return what is made where a night needs more of a component than is on hand; never less than that."""
        short = needed.number - (on_hand.number if on_hand is not None else 0)
        size = size_for(component, short)
        unit = component.makes.unit
        return self.batch(
            component,
            Amount(number=size.number, unit=unit),
            size.loads,
            uses,
            needed=needed,
            on_hand=on_hand,
            surplus=Amount(number=size.number - short, unit=unit),
        )

    def batch(
        self,
        component: Component,
        total: Amount,
        loads: int,
        uses: tuple[Use, ...] = (),
        *,
        needed: Amount | None = None,
        on_hand: Amount | None = None,
        surplus: Amount | None = None,
    ) -> Batch:
        """Return a component made to yield ``total``, in the unit of ``makes``, in so many loads."""
        factor = total.number / component.makes.number
        vessels = vessels_of(self.house, component)
        found = find_loads(vessels, factor, loads)
        return Batch(
            component=component,
            total=total,
            pieces=None if component.pieces is None else component.pieces * factor,
            factor=factor,
            loads=loads,
            load=total if loads == 1 else amount_times(total, Fraction(1, loads)),
            ingredients=self._lines(component, vessels, found, factor),
            uses=uses,
            stage_loads=found.stages,
            needed=needed,
            on_hand=on_hand,
            surplus=surplus,
        )

    def _lines(
        self, component: Component, vessels: Vessels, found: Loads, factor: Fraction
    ) -> tuple[BatchIngredient, ...]:
        lines = batch_lines(component.ingredients, vessels.base, found.totals, factor, found.lines)
        if vessels.brings_any:
            lines = with_room(self.house, component, lines, self._weight)
        return with_bases(lines, vessels.bases, self.to_grams)

    def _weight(self, item: str, amount: Amount) -> Fraction | None:
        return weight_or_volume(amount, Kind.MASS, facts_for(self.house, item))
