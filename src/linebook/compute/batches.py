"""One component made to some size: how many loads, and how much of everything in each. Exact; knows no night."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from linebook.compute.lines import compute_lines
from linebook.compute.results import Batch, Use
from linebook.compute.weights import to_grams
from linebook.model.amounts import Amount
from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.house import House
from linebook.model.units import ratio
from linebook.model.units import times as amount_times


def compute_batch(
    house: House,
    component_id: str,
    *,
    makes: Amount | None = None,
    times: Fraction | None = None,
    uses: tuple[Use, ...] = (),
) -> Batch:
    """Return a component made to yield ``makes`` (by weight, volume or count) or ``times`` the spec's batch.

    Without either it is the spec's batch. The factor is new total yield over the spec's yield; above the largest batch
    it is split into the fewest even loads. Raises ValueMistake LB304 where ``makes`` cannot be turned into the unit of
    the spec's yield.
    """
    component = house.components[component_id]
    factor = Fraction(1) if times is None else times
    if makes is not None:
        factor = ratio(in_makes(component, makes), component.makes)
    total = amount_times(component.makes, factor)
    loads = _loads(component, total)
    return Batch(
        component=component,
        total=total,
        pieces=None if component.pieces is None else component.pieces * factor,
        factor=factor,
        loads=loads,
        load=amount_times(total, Fraction(1, loads)),
        ingredients=compute_lines(component.ingredients, factor=factor, loads=loads, to_grams=to_grams(house)),
        uses=uses,
    )


def _loads(component: Component, total: Amount) -> int:
    if component.largest_batch is None:
        return 1
    return max(1, ceil(ratio(total, in_makes(component, component.largest_batch))))
