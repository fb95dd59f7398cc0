"""What is in a vessel at once fits into it (LB504); how many loads the batch as written then takes (LB316).

What is more than a vessel holds is split into loads, so a vessel smaller than the batch is no fault: a purée is cooked
in one pot and blended in four goes. A fault is what no splitting mends: the smallest batch, one step or one piece, or
what goes in by the load, that does not fit. All that is in the vessel then counts, but low: not the air between grains,
nor what has no known volume. So a fault is not a false alarm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from math import ceil
from typing import Final

from linebook.check.index import Index, place
from linebook.check.least import least_made, too_large
from linebook.check.loads import MOST_LOADS, too_many_at_stage
from linebook.check.weights import facts_for, line_amounts
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component, Scale, Stage
from linebook.model.contents import Held, stages_of, stays_in
from linebook.model.conversion import facts_of, weight_or_volume
from linebook.model.filling import millilitres_of
from linebook.model.house import Vessel
from linebook.model.quantities import write_amount
from linebook.model.units import GRAM, LITRE, MILLILITRE, from_base
from linebook.model.volumes import least_millilitres, most_millilitres, room_in
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related

_ROUNDED: Final = 1.000001
"""More than what rounding takes from a few dozen numbers."""


def check_vessels(index: Index) -> Iterator[Fault]:
    """Yield a fault for each stage whose vessel does not hold the least that is made at once, at its fill."""
    if index.file is None:
        return
    vessels = {vessel.id: vessel for vessel in index.file.vessels}
    for component in index.components.values():
        used = [(at, vessels[stage.vessel]) for at, stage in enumerate(component.stages) if stage.vessel in vessels]
        if not used:
            continue
        amounts, card = line_amounts(index, component), _Card(index, component)
        for at, vessel in used:
            room = room_in(vessel, component.stages[at].fill)
            if room and component.stages[at].at_most is None and not card.surely_fits(stays_in(component, at), room):
                yield from _overfilled(index, component, at, vessel, room, _filling(index, component, at, amounts))


class _Card:
    """What a card's lines fill at the most, rounded: nearly all fits by so much that it need not be told exactly."""

    def __init__(self, index: Index, component: Component) -> None:
        lines = zip(component.ingredients, line_amounts(index, component), strict=True)
        self._lines = [
            0.0 if amount is None else most_millilitres(amount, facts_for(index, line.item)) for line, amount in lines
        ]
        self._component = component
        self._most = max(1.0, float(least_made(component).factor)) * _ROUNDED

    def surely_fits(self, held: Held, room: Fraction) -> bool:
        """Return whether all of a batch, and its least where that is more, fits into a room at once."""
        if held.before and held.leaves:
            return False  # what leaves weighs, too, what stood elsewhere before
        carried = self._made if held.before else 0.0
        return (sum([self._lines[line] for line in held.lines]) + carried) * self._most <= float(room)

    @cached_property
    def _made(self) -> float:
        facts = facts_of(self._component)
        grams = weight_or_volume(self._component.makes, Kind.MASS, facts)
        return 0.0 if grams is None else most_millilitres(Amount(number=grams, unit=GRAM), facts)


def _overfilled(
    index: Index, component: Component, at: int, vessel: Vessel, room: Fraction, held: tuple[Fraction, Fraction]
) -> Iterator[Fault]:
    stage: Stage = component.stages[at]
    growing, kept = held
    least = too_large(component, growing, kept, room)
    if least is not None:
        once = growing * least.factor + kept
        several = f"{vessel.count} of them hold" if (vessel.count or 1) > 1 else "it holds"
        yield fault(
            "LB504",
            f"at least {_shown(once)} is in {vessel.name} at `{stage.name}` for {least.words.rstrip(',')}, and "
            f"{several} {_shown(room)}",
            stage.at("vessel"),
            hints=(f"name a larger vessel, or {least.mend}", *_denser(index, component, at)),
            related=(Related(span=place(vessel, "holds"), label="what it holds"),),
        )
        return
    loads = ceil(growing / (room - kept)) if growing else 1
    if loads > MOST_LOADS:
        yield too_many_at_stage(component, stage, loads, f"`{write_amount(component.makes)}`")


def _denser(index: Index, component: Component, at: int) -> Iterator[str]:
    """Yield a mend where something in the vessel counts as water because nobody has said how dense it is."""
    for line in stays_in(component, at).lines:
        item, amount = component.ingredients[line].item, component.ingredients[line].amount
        known = facts_for(index, item)
        weighed = isinstance(amount, Amount) and amount.unit.kind is not Kind.VOLUME
        if weighed and known is not None and known.density is None and item in index.pantry:
            yield f"where it is denser than water, give {known.name} its density, such as `density: 1.1 kg/L`"
            return


def _filling(
    index: Index, component: Component, at: int, amounts: Sequence[Amount | None]
) -> tuple[Fraction, Fraction]:
    """Return the millilitres that fill the vessel of a stage: what grows with the batch, and what is in each load."""
    held, its_stages = stays_in(component, at), stages_of(component)
    filled = millilitres_of(component, held, amounts, Fraction(1), lambda item: facts_for(index, item))
    kept = Fraction(0)
    for line in held.lines:
        ingredient, amount = component.ingredients[line], amounts[line]
        if amount is not None and ingredient.scale is Scale.PER_LOAD and its_stages[line] == at:
            kept += least_millilitres(amount, facts_for(index, ingredient.item)) or 0
    return max(Fraction(0), filled - kept), kept


def _shown(millilitres: Fraction) -> str:
    unit = LITRE if millilitres >= 1000 else MILLILITRE
    number = from_base(millilitres, unit).number
    return write_amount(Amount(number=Fraction(round(number, 1 if unit is LITRE else 0)), unit=unit))
