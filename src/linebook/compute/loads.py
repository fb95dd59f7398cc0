"""In how many even loads each stage of a batch is made: what lies in the vessel then, against the most it takes.

A stage's own most stands in place of the component's largest batch; else its vessel's room can ask for more loads.
Knows one component; the arithmetic of its lines is in ``lines``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from math import ceil
from typing import Final, TypeAlias

from linebook.compute.lines import STRAIGHT, Amounts, ToGrams, grows_straight, total_amounts
from linebook.compute.weights import facts_for
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component, Stage
from linebook.model.contents import (
    Held,
    counted_in,
    counts_pieces,
    items_in,
    out_before,
    runs_in_a_vessel,
    stages_of,
    stays_in,
)
from linebook.model.conversion import Facts, convert, in_makes, weight_or_volume
from linebook.model.filling import millilitres_of
from linebook.model.house import House, Vessel
from linebook.model.units import factor_of, to_base
from linebook.model.volumes import LIGHTEST_LIQUID, room_in
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen

MOST_TRIED: Final = 100
"""Up to here the fewest loads are sought one by one; no card logs more (see ``check.loads``)."""

_MOST_ROOM: Final = float(1 / LIGHTEST_LIQUID)
_CLEARLY: Final = 0.999

Measure: TypeAlias = Callable[[Amounts], Fraction]
"""Measures what lies in the vessel over all loads, in the base unit of what it is held against."""


@frozen
class _Bound:
    """What holds one stage: no load of it measures more than ``most``, and it is made in ``least`` loads or more."""

    stage: int
    most: Fraction
    least: int
    measure: Measure


@frozen
class Loads:
    """The loads of each stage and of each ingredient line of a batch, and what the lines come to over all of them."""

    stages: tuple[int, ...]
    lines: tuple[int, ...]
    totals: Amounts


def find_loads(
    house: House,
    component: Component,
    *,
    base: Amounts,
    factor: Fraction,
    loads: int,
    vessels: Mapping[str, Vessel],
    to_grams: ToGrams,
) -> Loads:
    """Return the fewest even loads of each stage, and every line over all of its own.

    ``loads`` are those of the whole component. Whole counts and what goes in by the load weigh the more the more loads
    there are: the fewest loads are those in which all of it still fits. Stages that follow each other in one vessel
    have the same. Raises ValueMistake LB304 where what lies in a stage cannot be turned into what its most is counted
    in.
    """
    seeking = _Seeking(house, component, base, factor, loads, to_grams)
    bounds = [bound for at in range(len(component.stages)) if (bound := _bound(seeking, at, vessels)) is not None]
    for bound in bounds:
        seeking.stages[bound.stage] = bound.least
    more = [True] if bounds else []
    while any(more):  # what goes in later may weigh on a percentage of an earlier stage; loads never become fewer
        more = [seeking.fits(bound) and not seeking.straight for bound in bounds]
        more.append(seeking.share_a_vessel() and not seeking.straight)
    lines = seeking.line_loads()
    return Loads(stages=tuple(seeking.stages), lines=tuple(lines), totals=seeking.totals())


class _Seeking:
    """One batch whose loads are being sought; ``stages`` are the loads found so far."""

    def __init__(
        self, house: House, component: Component, base: Amounts, factor: Fraction, loads: int, to_grams: ToGrams
    ) -> None:
        self.house, self.component, self.base, self.factor, self.loads = house, component, base, factor, loads
        self.to_grams = to_grams
        self.goes_in = stages_of(component)
        self.straight = grows_straight(component.ingredients)
        self.stages = [loads] * len(component.stages)
        self.runs = runs_in_a_vessel(component)
        self._totals: Amounts | None = None

    def line_loads(self) -> list[int]:
        """Return the loads of every line: those of its stage, of no stage those of the component."""
        if all(loads == self.loads for loads in self.stages):
            return [self.loads] * len(self.component.ingredients)
        return [self.loads if stage is None else self.stages[stage] for stage in self.goes_in]

    def totals(self) -> Amounts:
        """Return every line over all loads, as many as there are now."""
        if self._totals is None:
            loads = self.line_loads()
            self._totals = total_amounts(self.component.ingredients, self.base, self.factor, loads, self.to_grams)
        return self._totals

    def fits(self, bound: _Bound) -> bool:
        """Add loads to a stage until each is within its most; return whether any had to be added.

        Beyond the most that is tried nothing more is asked of a stage: no card logs it, and it may have no end.
        """
        before = self.stages[bound.stage]
        if before > MOST_TRIED:
            return False
        while (contents := bound.measure(self.totals())) > bound.most * self.stages[bound.stage]:
            needed = ceil(contents / bound.most)
            beyond = self.straight or self.stages[bound.stage] >= MOST_TRIED
            self.stages[bound.stage] = needed if beyond else self.stages[bound.stage] + 1
            self._totals = self._totals if self.straight else None
            if beyond:
                break
        return self.stages[bound.stage] > before

    def share_a_vessel(self) -> bool:
        """Give stages that follow each other in one vessel the same loads, the most of theirs; return if any changed.

        What stays in the pot cannot be divided on the way.
        """
        changed = False
        for run in self.runs:
            most = max(self.stages[at] for at in run)
            changed = changed or any(self.stages[at] != most for at in run)
            for at in run:
                self.stages[at] = most
        self._totals = self._totals if self.straight or not changed else None
        return changed


def _bound(seeking: _Seeking, stage: int, vessels: Mapping[str, Vessel]) -> _Bound | None:
    """Return what holds a stage; None where nothing does, or where all that fills its vessel plainly has room."""
    entry = seeking.component.stages[stage]
    if entry.at_most is not None:
        return _most_bound(seeking, stage, entry.at_most)
    vessel = vessels.get(entry.vessel) if entry.vessel is not None else None
    room = None if vessel is None else room_in(vessel, entry.fill)
    if vessel is None or room is None:
        return None
    component = seeking.component
    held = stays_in(component, stage)
    if not (held.lines or held.before) or _plainly_fits(seeking, held, vessel, entry.fill):
        return None
    known = {item: facts_for(seeking.house, item) for item in items_in(component, held)}

    def volume(totals: Amounts) -> Fraction:
        return millilitres_of(component, held, totals, seeking.factor, known.get)

    return _Bound(stage=stage, most=room, least=seeking.loads, measure=volume)


def _plainly_fits(seeking: _Seeking, held: Held, vessel: Vessel, fill: Fraction | None) -> bool:
    """Return whether what fills a vessel has room for sure, by a quick sum that is never too low; False says nothing.

    No weight counts for more room than that of the lightest liquid, and no volume for more than itself, but where it
    went in elsewhere before: that counts by its weight, which may be that of a heavier liquid.
    """
    if vessel.holds is None:
        return True
    most = 0.0
    for at in (*held.lines, *held.before):
        amount, line = seeking.base[at], seeking.component.ingredients[at]
        if amount is None:
            continue
        grows = seeking.straight or (line.amount is amount and line.scale in STRAIGHT)
        by_weight = amount.unit.kind is Kind.VOLUME and at in held.before
        if amount.unit.kind is Kind.COUNT or by_weight or not grows:
            return False
        number = float(amount.number) * float(factor_of(amount.unit))
        most += number if amount.unit.kind is Kind.VOLUME else number * _MOST_ROOM
    holds = float(vessel.holds.number) * float(factor_of(vessel.holds.unit)) * (vessel.count or 1)
    room = holds * float(vessel.fill if fill is None else fill) * seeking.loads
    return most * float(seeking.factor) < room * _CLEARLY


def _most_bound(seeking: _Seeking, stage: int, most: Amount) -> _Bound | None:
    """Return what the most of a stage holds it to.

    None where an item that stands in tonight cannot be counted so: then the loads are those of the whole component.
    """
    component, factor = seeking.component, seeking.factor
    if counts_pieces(component, stage):
        of_spec = in_makes(component, most).number
        return _Bound(stage=stage, most=of_spec, least=1, measure=lambda _: component.makes.number * factor)
    kind, counts = most.unit.kind, most.unit.counts or "each"
    facts = _facts_of(seeking, counted_in(component, stage))
    out = _out_before(seeking.house, component, component.stages[stage], stage, most) * factor

    def measured(totals: Amounts) -> Fraction:
        found = (
            convert(amount, kind, known, counts=counts)
            for at, known in facts.items()
            if (amount := totals[at]) is not None
        )
        return sum(found, Fraction(0)) - out

    try:
        measured(seeking.base)
    except ValueMistake:
        if seeking.house.tonight is None:
            raise
        return None
    return _Bound(stage=stage, most=to_base(most), least=1, measure=measured)


def _facts_of(seeking: _Seeking, lines: tuple[int, ...]) -> dict[int, Facts]:
    ingredients = seeking.component.ingredients
    return {at: facts_for(seeking.house, ingredients[at].item) for at in lines if seeking.base[at] is not None}


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
