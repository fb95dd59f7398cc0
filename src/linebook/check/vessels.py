"""What goes into a vessel at once fits into it (LB504); how many loads the batch as written then takes (LB316).

What is more than a vessel holds is split into loads, so a vessel smaller than the batch is no fault: a purée is cooked
in one pot and blended in four goes. A fault is what no splitting mends: the smallest batch, one step or one piece, or
what goes in by the load, that does not fit. It is a lower bound on purpose: what stays in the vessel from earlier
stages, the air between grains, and what has no known volume are not counted. So a fault is not a false alarm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil

from linebook.check.index import Index, place
from linebook.check.least import too_large
from linebook.check.loads import MOST_LOADS, too_many_at_stage
from linebook.check.weights import facts_for, line_amounts
from linebook.model.amounts import Amount
from linebook.model.component import Component, Scale, Stage
from linebook.model.contents import goes_in
from linebook.model.house import Vessel
from linebook.model.quantities import write_amount
from linebook.model.units import LITRE, MILLILITRE, from_base
from linebook.model.volumes import least_millilitres, room_in
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related


def check_vessels(index: Index) -> Iterator[Fault]:
    """Yield a fault for each stage whose vessel does not hold the least that is made at once, at its fill."""
    if index.file is None:
        return
    vessels = {vessel.id: vessel for vessel in index.file.vessels}
    for component in index.components.values():
        used = [(at, vessels[stage.vessel]) for at, stage in enumerate(component.stages) if stage.vessel in vessels]
        if not used:
            continue
        volumes = _volumes(index, component)
        for at, vessel in used:
            room = room_in(vessel, component.stages[at].fill)
            if room and component.stages[at].at_most is None:
                yield from _overfilled(component, at, vessel, room, _going_in(component, at, volumes))


def _volumes(index: Index, component: Component) -> tuple[Fraction | None, ...]:
    """Return the least millilitres each line of the written batch takes up, None where they are not known."""
    amounts = line_amounts(index, component)
    return tuple(
        None if amount is None else least_millilitres(amount, facts_for(index, line.item))
        for line, amount in zip(component.ingredients, amounts, strict=True)
    )


def _overfilled(
    component: Component, at: int, vessel: Vessel, room: Fraction, going_in: tuple[Fraction, Fraction]
) -> Iterator[Fault]:
    stage: Stage = component.stages[at]
    growing, kept = going_in
    least = too_large(component, growing, kept, room)
    if least is not None:
        once = growing * least.factor + kept
        several = f"{vessel.count} of them hold" if (vessel.count or 1) > 1 else "it holds"
        yield fault(
            "LB504",
            f"at least {_shown(once)} goes into {vessel.name} at `{stage.name}` for {least.words.rstrip(',')}, and "
            f"{several} {_shown(room)}",
            stage.at("vessel"),
            hints=(f"name a larger vessel, or {least.mend}",),
            related=(Related(span=place(vessel, "holds"), label="what it holds"),),
        )
        return
    loads = ceil(growing / (room - kept)) if growing else 1
    if loads > MOST_LOADS:
        yield too_many_at_stage(component, stage, loads, f"`{write_amount(component.makes)}`")


def _going_in(component: Component, at: int, volumes: Sequence[Fraction | None]) -> tuple[Fraction, Fraction]:
    """Return the millilitres that go in at a stage: what grows with the batch, and what goes in with each load."""
    growing, kept = Fraction(0), Fraction(0)
    for line in goes_in(component, at):
        volume = volumes[line]
        if volume is not None and component.ingredients[line].scale is Scale.PER_LOAD:
            kept += volume
        elif volume is not None:
            growing += volume
    return growing, kept


def _shown(millilitres: Fraction) -> str:
    unit = LITRE if millilitres >= 1000 else MILLILITRE
    number = from_base(millilitres, unit).number
    return write_amount(Amount(number=Fraction(round(number, 1 if unit is LITRE else 0)), unit=unit))
