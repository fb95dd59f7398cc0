"""What one load of a stage holds, in the unit that its most is said in, and in how many vessels. Exact, for print.

How many loads a stage takes is decided in ``loads``; this only says what each of them comes to.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from linebook.compute.results import Batch
from linebook.compute.stage_times import loads_of_stages
from linebook.compute.weights import facts_for
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.contents import counted_in, counts_pieces, out_before, stays_in
from linebook.model.conversion import convert, weight_or_volume
from linebook.model.filling import millilitres_of
from linebook.model.house import House
from linebook.model.units import from_base, times, to_base
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake


def load_of_stage(house: House, batch: Batch, stage: int, totals: Sequence[Amount | None]) -> Amount | None:
    """Return what one load of a stage holds of what its most counts; None where it has none, or it cannot be said.

    ``totals`` are the lines over all loads, as printed: what is said of a load then agrees with what is weighed.
    """
    component, loads = batch.component, loads_of_stages(batch)[stage]
    most = component.stages[stage].at_most
    if most is None:
        return None
    if counts_pieces(component, stage):
        return times(batch.total, Fraction(1, loads)) if batch.total.unit.counts else _pieces(batch, loads, most)
    counted = [(batch.ingredients[at].ingredient.item, totals[at]) for at in counted_in(component, stage)]
    try:
        held = sum(
            (
                convert(amount, most.unit.kind, facts_for(house, item), counts=most.unit.counts or "each")
                for item, amount in counted
                if amount is not None
            ),
            Fraction(0),
        )
    except ValueMistake:
        return None
    out = Fraction(0) if component.stages[stage].of else _out(house, component, stage, most) * batch.factor
    return from_base((held - out) / loads, most.unit)


def vessels_at_least(house: House, batch: Batch, stage: int) -> int:
    """Return how many of its vessel one load of a stage fills at the least; 1 where nothing more is known.

    Only what has a known volume is counted, without the air between: more may be needed, never less.
    """
    entry = batch.component.stages[stage]
    vessel = next((vessel for vessel in house.file.vessels if vessel.id == entry.vessel), None)
    if vessel is None or vessel.holds is None or vessel.holds.unit.kind is not Kind.VOLUME:
        return 1
    fill = vessel.fill if entry.fill is None else entry.fill
    totals = [line.total for line in batch.ingredients]
    held = stays_in(batch.component, stage)
    filling = millilitres_of(batch.component, held, totals, batch.factor, lambda item: facts_for(house, item))
    return max(1, ceil(filling / loads_of_stages(batch)[stage] / (to_base(vessel.holds) * fill)))


def _pieces(batch: Batch, loads: int, most: Amount) -> Amount | None:
    return None if batch.pieces is None else Amount(number=batch.pieces / loads, unit=most.unit)


def _out(house: House, component: Component, stage: int, most: Amount) -> Fraction:
    """Return what has left the vessel before a stage, a spec's batch; what cannot be measured is taken to be in it."""
    total = Fraction(0)
    for made in out_before(component, stage):
        if most.unit.counts is not None:
            total += Fraction(made.amount.number) if made.amount.unit.counts == most.unit.counts else 0
        else:
            total += weight_or_volume(made.amount, most.unit.kind, facts_for(house, made.item)) or 0
    return total
