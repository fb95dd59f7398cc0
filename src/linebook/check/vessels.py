"""What goes into a vessel fits into it (LB504).

A lower bound on purpose: what stays in the vessel from earlier stages, the air between grains, and what has no known
volume are not counted. So a fault is not a false alarm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from linebook.check.index import Index, place
from linebook.check.weights import facts_for, grams_of, line_amounts, millilitres_of
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component, Scale, Stage
from linebook.model.conversion import in_makes
from linebook.model.house import Vessel
from linebook.model.quantities import write_amount
from linebook.model.units import LITRE, MILLILITRE, from_base, ratio, to_base
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related, ValueMistake

DENSEST_FOOD: Final = Fraction(22, 10)
"""Grams a millilitre without gaps: of what is weighed in a kitchen nothing is denser than bicarbonate of soda (2.20)
and salt (2.17); sugar has 1.59, starch 1.5 (CRC Handbook of Chemistry and Physics)."""

LIGHTEST_LIQUID: Final = Fraction(9, 10)
"""Grams a millilitre: oils are 0.91 and more, and of the sugars in bulk the heaviest is under it."""

_POURED: Final = frozenset({"millilitre", "centilitre", "decilitre", "litre", "us-fluid-ounce", "imperial-fluid-ounce"})
"""Cups and pints also measure flour and leaves; these measure what is poured."""


def check_vessels(index: Index) -> Iterator[Fault]:
    """Yield a fault for each stage at which more goes into a vessel than it holds at its fill."""
    if index.file is None:
        return
    vessels = {vessel.id: vessel for vessel in index.file.vessels}
    for component in index.components.values():
        used = [(stage, vessels[stage.vessel]) for stage in component.stages if stage.vessel in vessels]
        if used:
            volumes, batches = _volumes(index, component), _batches(component)
        for stage, vessel in used:
            if vessel.holds is not None and vessel.holds.unit.kind is Kind.VOLUME:
                yield from _overfilled(component, stage, vessel, volumes, batches)


def _volumes(index: Index, component: Component) -> tuple[Fraction | None, ...]:
    """Return the least millilitres each line of the written batch takes up, None where they are not known."""
    amounts = line_amounts(index, component)
    return tuple(
        None if amount is None else _least_volume(index, line.item, amount)
        for line, amount in zip(component.ingredients, amounts, strict=True)
    )


def _least_volume(index: Index, item: str, amount: Amount) -> Fraction | None:
    """Return the millilitres an amount takes up even where all of its gaps are filled, or None.

    Flour, crumb and leaves are mostly air between the grains, and water takes its place: of what is lighter than any
    fat or spirit only the weight counts, as if it were the densest food. What has no density is mostly solid food,
    which is often worked through in several goes; only what is poured counts there.
    """
    facts = facts_for(index, item)
    if facts is None or facts.density is None:
        poured = amount.unit.kind is Kind.VOLUME and amount.unit.key in _POURED
        return to_base(amount) if poured else None
    if facts.density >= LIGHTEST_LIQUID:
        return millilitres_of(index, item, amount)
    grams = grams_of(index, item, amount)
    return None if grams is None else grams / DENSEST_FOOD


def _overfilled(
    component: Component,
    stage: Stage,
    vessel: Vessel,
    volumes: Sequence[Fraction | None],
    batches: Sequence[tuple[Fraction, str]],
) -> Iterator[Fault]:
    growing, kept = _going_in(component, stage, volumes)
    if vessel.holds is None or not (growing or kept):
        return
    fill = stage.fill if stage.fill is not None else vessel.fill
    room = to_base(vessel.holds) * fill * (vessel.count or 1)
    for factor, batch in batches:
        goes_in = growing * factor + kept * min(factor, Fraction(1))
        if goes_in > room:
            several = f"{vessel.count} of them hold" if (vessel.count or 1) > 1 else "it holds"
            yield fault(
                "LB504",
                f"at least {_shown(goes_in)} goes into {vessel.name} at `{stage.name}` for {batch}, and {several} "
                f"{_shown(room)}",
                stage.at("vessel"),
                hints=("name a larger vessel, or make `largest_batch` smaller so that the batch is split",),
                related=(Related(span=place(vessel, "holds"), label="what it holds"),),
            )
            return


def _batches(component: Component) -> list[tuple[Fraction, str]]:
    """Return the batch as written, or what its largest batch allows of it, and the largest batch, as factors."""
    written = (Fraction(1), f"`{write_amount(component.makes)}`")
    if component.largest_batch is None:
        return [written]
    try:
        factor = ratio(in_makes(component, component.largest_batch), component.makes)
    except ValueMistake:
        return [written]
    largest = (factor, f"the largest batch, `{write_amount(component.largest_batch)}`")
    return [written, largest] if factor > 1 else [largest]


def _going_in(component: Component, stage: Stage, volumes: Sequence[Fraction | None]) -> tuple[Fraction, Fraction]:
    """Return the millilitres that go in at a stage: what grows with the batch, and what does not."""
    growing, kept = Fraction(0), Fraction(0)
    alone = len(component.stages) == 1
    for line, volume in zip(component.ingredients, volumes, strict=True):
        if volume is not None and (line.stage == stage.name or (alone and line.stage is None)):
            if line.scale is Scale.LINEAR:
                growing += volume
            else:
                kept += volume
    return growing, kept


def _shown(millilitres: Fraction) -> str:
    unit = LITRE if millilitres >= 1000 else MILLILITRE
    number = from_base(millilitres, unit).number
    return write_amount(Amount(number=Fraction(round(number, 1 if unit is LITRE else 0)), unit=unit))
