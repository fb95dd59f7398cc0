"""In how many even loads each stage of a batch is made: what lies in the vessel then, against the most it takes.

A stage's own most stands in place of the component's largest batch; else its vessel's room can ask for more loads.
Knows one component; the arithmetic of its lines is in ``lines``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import ceil
from typing import Final, TypeAlias

from linebook.compute.bases import find_bases
from linebook.compute.ceilings import brings_any
from linebook.compute.lines import STRAIGHT, Amounts, ToGrams, base_amounts, grows_straight, total_amounts
from linebook.compute.weights import facts_for, to_grams
from linebook.model.amounts import Amount, Kind, Percent
from linebook.model.component import Component, Ingredient, Stage
from linebook.model.contents import (
    Held,
    counted_in,
    counts_pieces,
    out_before,
    runs_in_a_vessel,
    stages_of,
    stays_in,
)
from linebook.model.conversion import Facts, convert, in_makes, weight_or_volume
from linebook.model.filling import millilitres_of
from linebook.model.house import House, Vessel
from linebook.model.sums import sum_of
from linebook.model.units import to_base
from linebook.model.volumes import MOST_ROOM, least_millilitres, most_millilitres, room_in
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen
from linebook.source.remembered import gathered, remembered

MOST_TRIED: Final = 100
"""Up to here the fewest loads are sought one by one; no card logs more (see ``check.loads``)."""

_CLEARLY: Final = 0.999

Measure: TypeAlias = Callable[[Amounts, Fraction], Fraction]
"""Measures what lies in the vessel over all loads, in the base unit of what it is held against.

Takes what the lines come to, and how many times the spec's batch that is.
"""


@frozen
class _Bound:
    """What holds one stage: no load of it measures more than ``most``.

    ``apart`` is true where a stage's own most takes the place of the component's largest batch. ``at_once`` is how many
    times the spec's batch has room in one load for sure, by a quick sum that is never too high; 0 says nothing. It
    ``grows`` where that holds of any batch, however its lines are rounded: all that lies in it is in proportion.
    """

    stage: int
    most: Fraction
    measure: Measure
    apart: bool = False
    at_once: float = 0.0
    grows: bool = False


@frozen
class Loads:
    """The loads of each stage and of each ingredient line of a batch, and what the lines come to over all of them."""

    stages: tuple[int, ...]
    lines: tuple[int, ...]
    totals: Amounts


@remembered
def vessels_of(house: House, component: Component) -> Vessels:
    """Return what the loads of every batch of a component are found from.

    Raises ValueMistake LB304 where what lies in a stage cannot be turned into what its most is counted in.
    """
    return Vessels(house, component, {vessel.id: vessel for vessel in house.file.vessels}, to_grams(house))


class Vessels:
    """What the loads and lines of every batch of one component are found from, however many batches are sized.

    What is looked up of its items for all batches is looked up at once, so that it is known what the vessels depend on.
    """

    def __init__(self, house: House, component: Component, vessels: Mapping[str, Vessel], to_grams: ToGrams) -> None:
        self.house, self.component, self.to_grams = house, component, to_grams
        self.base = base_amounts(component.ingredients, to_grams)
        self.goes_in = stages_of(component)
        self.straight = grows_straight(component.ingredients)
        self.runs = runs_in_a_vessel(component)
        self.bases = find_bases(house, component.ingredients)
        self.brings_any = brings_any(house, component)
        found = (_bound(self, house, at, vessels) for at in range(len(component.stages)))
        self.bounds = [bound for bound in found if bound is not None]
        self._rounded_up = 0.0 if self.straight else _rounded_up(component.ingredients)

    def may_be_full(self, factor: Fraction, loads: int) -> list[_Bound]:
        """Return the bounds for which more loads may have to be sought; none where all loads have room for sure.

        What lies in a stage can depend on the loads of another, so either none of those is sought for or all of them.
        """
        in_a_load = float(factor) / loads
        found = [one for one in self.bounds if not (one.grows and in_a_load < one.at_once)]
        return found if any(in_a_load + self._rounded_up >= one.at_once for one in found) else []

    def measured(self, bound: _Bound, totals: Amounts, factor: Fraction) -> Fraction:
        """Return what a bound measures; where all grows with the batch, so many times what one batch measures."""
        return _in_batch(self.house, self, bound) * factor if self.straight else bound.measure(totals, factor)


@gathered
def _in_batch(_house: House, vessels: Vessels, bound: _Bound) -> Fraction:
    """Return what a bound measures of the spec's batch."""
    return bound.measure(vessels.base, Fraction(1))


def _rounded_up(ingredients: Sequence[Ingredient]) -> float:
    """Return how many times the spec's batch a load can weigh at most beyond its part, where not all grows straight.

    What goes in by the load is there once more; a whole count is one more at most; a percentage is of such lines.
    """
    counts = (line.amount.number for line in ingredients if isinstance(line.amount, Amount))
    return max([1.0, *(1 / float(number) for number in counts)])


def find_loads(vessels: Vessels, factor: Fraction, loads: int) -> Loads:
    """Return the fewest even loads of each stage, and every line over all of its own.

    The batch is ``factor`` times the spec's, in ``loads`` of the whole component. Whole counts and what goes in by the
    load weigh the more the more loads there are: the fewest loads are those in which all of it still fits. Stages that
    follow each other in one vessel have the same.
    """
    seeking = _Seeking(vessels, factor, loads)
    bounds = vessels.may_be_full(factor, loads)
    for bound in bounds:
        seeking.stages[bound.stage] = 1 if bound.apart else loads
    more = [True] if bounds else []
    while any(more):  # what goes in later may weigh on a percentage of an earlier stage; loads never become fewer
        more = [seeking.fits(bound) and not vessels.straight for bound in bounds]
        more.append(seeking.share_a_vessel() and not vessels.straight)
    lines = seeking.line_loads()
    return Loads(stages=tuple(seeking.stages), lines=tuple(lines), totals=seeking.totals())


class _Seeking:
    """One batch whose loads are being sought; ``stages`` are the loads found so far."""

    def __init__(self, vessels: Vessels, factor: Fraction, loads: int) -> None:
        self.vessels, self.factor, self.loads = vessels, factor, loads
        self.straight = vessels.straight
        self.stages = [loads] * len(vessels.component.stages)
        self._totals: Amounts | None = None

    def line_loads(self) -> list[int]:
        """Return the loads of every line: those of its stage, of no stage those of the component."""
        if all(loads == self.loads for loads in self.stages):
            return [self.loads] * len(self.vessels.component.ingredients)
        return [self.loads if stage is None else self.stages[stage] for stage in self.vessels.goes_in]

    def totals(self) -> Amounts:
        """Return every line over all loads, as many as there are now."""
        if self._totals is None:
            known, loads = self.vessels, self.line_loads()
            self._totals = total_amounts(known.component.ingredients, known.base, self.factor, loads, known.to_grams)
        return self._totals

    def fits(self, bound: _Bound) -> bool:
        """Add loads to a stage until each is within its most; return whether any had to be added.

        Beyond the most that is tried nothing more is asked of a stage: no card logs it, and it may have no end.
        """
        before = self.stages[bound.stage]
        if before > MOST_TRIED:
            return False
        while (contents := self._contents(bound)) > bound.most * self.stages[bound.stage]:
            needed = ceil(contents / bound.most)
            beyond = self.straight or self.stages[bound.stage] >= MOST_TRIED
            self.stages[bound.stage] = needed if beyond else self.stages[bound.stage] + 1
            self._totals = self._totals if self.straight else None
            if beyond:
                break
        return self.stages[bound.stage] > before

    def _contents(self, bound: _Bound) -> Fraction:
        return self.vessels.measured(bound, () if self.straight else self.totals(), self.factor)

    def share_a_vessel(self) -> bool:
        """Give stages that follow each other in one vessel the same loads, the most of theirs; return if any changed.

        What stays in the pot cannot be divided on the way.
        """
        changed = False
        for run in self.vessels.runs:
            most = max(self.stages[at] for at in run)
            changed = changed or any(self.stages[at] != most for at in run)
            for at in run:
                self.stages[at] = most
        self._totals = self._totals if self.straight or not changed else None
        return changed


def _bound(known: Vessels, house: House, stage: int, vessels: Mapping[str, Vessel]) -> _Bound | None:
    """Return what holds a stage; None where nothing does."""
    entry = known.component.stages[stage]
    if entry.at_most is not None:
        return _most_bound(known, house, stage, entry.at_most)
    vessel = vessels.get(entry.vessel) if entry.vessel is not None else None
    room = None if vessel is None else room_in(vessel, entry.fill)
    if vessel is None or room is None:
        return None
    component = known.component
    held = stays_in(component, stage)
    most = _most_millilitres(known, house, held) if held.lines or held.before else 0.0
    if not most:
        return None

    def volume(totals: Amounts, factor: Fraction) -> Fraction:
        return millilitres_of(component, held, totals, factor, lambda item: facts_for(house, item))

    lying = [component.ingredients[at] for at in (*held.lines, *held.before)]
    return _Bound(
        stage=stage,
        most=room,
        measure=volume,
        at_once=float(room) * _CLEARLY / most,
        grows=known.straight or all(line.scale in STRAIGHT and not isinstance(line.amount, Percent) for line in lying),
    )


def _most_millilitres(known: Vessels, house: House, held: Held) -> float:
    """Return the room that what lies in a vessel takes at most, for the spec's batch, by a quick sum.

    No volume counts for more than itself, but where it went in elsewhere before: that counts by its weight, which may
    be that of a heavier liquid.
    """
    most = 0.0
    for at in (*held.lines, *held.before):
        amount = known.base[at]
        if amount is None:
            continue
        if amount.unit.kind is Kind.MASS or (amount.unit.kind is Kind.VOLUME and at in held.lines):
            most += most_millilitres(amount, None)
        else:
            facts = facts_for(house, known.component.ingredients[at].item)
            by_volume = at in held.lines and least_millilitres(amount, facts)
            most += float(by_volume or (weight_or_volume(amount, Kind.MASS, facts) or 0) * MOST_ROOM)
    return most


def _most_bound(known: Vessels, house: House, stage: int, most: Amount) -> _Bound | None:
    """Return what the most of a stage holds it to.

    None where an item that stands in tonight cannot be counted so: then the loads are those of the whole component.
    """
    component = known.component
    if counts_pieces(component, stage):
        of_spec = in_makes(component, most).number
        return _Bound(stage=stage, most=of_spec, measure=lambda _, factor: component.makes.number * factor, apart=True)
    kind, counts = most.unit.kind, most.unit.counts or "each"
    facts = _facts_of(known, house, counted_in(component, stage))
    out = _out_before(house, component, component.stages[stage], stage, most)

    def measured(totals: Amounts, factor: Fraction) -> Fraction:
        found = (
            convert(amount, kind, facts_of_line, counts=counts)
            for at, facts_of_line in facts.items()
            if (amount := totals[at]) is not None
        )
        return sum_of(found) - out * factor

    try:
        measured(known.base, Fraction(1))
    except ValueMistake:
        if house.tonight is None:
            raise
        return None
    return _Bound(stage=stage, most=to_base(most), measure=measured, apart=True)


def _facts_of(known: Vessels, house: House, lines: tuple[int, ...]) -> dict[int, Facts]:
    ingredients = known.component.ingredients
    return {at: facts_for(house, ingredients[at].item) for at in lines if known.base[at] is not None}


def _out_before(house: House, component: Component, entry: Stage, stage: int, most: Amount) -> Fraction:
    """Return what has left the vessel before a stage, a spec's batch; what cannot be measured is taken to be in it."""
    if entry.of:
        return Fraction(0)
    total = Fraction(0)
    for made in out_before(component, stage):
        if made.amount.unit.counts == most.unit.counts is not None:
            total += to_base(made.amount)
        elif most.unit.counts is None:
            total += weight_or_volume(made.amount, most.unit.kind, facts_for(house, made.item)) or 0
    return total
