"""An amount too small for any scale of the house, weighed as a part of a solution: dissolve A in B, weigh C of that.

Exact but for A and C, which are chosen so that both can be read. Knows no words; what must be weighed exactly is never
diluted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product
from typing import Final, TypeAlias, TypedDict

from linebook.compute.ladders import is_metric
from linebook.compute.printed_lines import print_load
from linebook.compute.results import Batch, BatchIngredient
from linebook.compute.systems import system_of_house
from linebook.compute.weights import facts_for
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.conversion import weight_or_volume
from linebook.model.house import House, Instrument
from linebook.model.units import GRAM, OUNCE, factor_of, from_base, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_STRENGTHS: Final = (10, 20, 50, 100, 200, 500, 1000)
"""How many parts the solution is of one part of the item, weakest last."""

_Way: TypeAlias = tuple[bool, int]
"""Whether the solution must be read closely, and how weak it is."""

WAYS: Final[Sequence[_Way]] = tuple(product((True, False), _STRENGTHS))
"""Every way to dilute, the best first."""

_LIGHTEST: Final = Fraction(1, 20)
"""Half a step of ten."""

_A_BUCKET: Final = 5000
"""Grams. Nobody makes more of a solution to weigh a pinch."""

_FIGURES: Final = (1, 2, 5)

_HALF: Final = Fraction(1, 2)


class _TakenOff(TypedDict, total=False):
    from_line: int
    matters: bool


@frozen
class Dilution:
    """Dissolve ``weighed`` of ``item`` in ``solvent_weight`` of the solvent and weigh ``taken`` of the solution.

    In grams, or in ounces where no scale reads grams. ``brings`` is what of the solvent comes with it. ``from_line``
    is the card's line it is taken off, by its place; None where the solvent is not on the card by weight, so that it is
    extra. ``matters`` is false where what it brings is within the tolerance of that line.
    """

    item: str
    solvent: str
    weighed: Amount
    solvent_weight: Amount
    taken: Amount
    brings: Amount
    from_line: int | None = None
    matters: bool = True


def dilution(house: House, batch: Batch, at: int, ways: Sequence[_Way] = WAYS) -> Dilution | None:
    """Return how line ``at`` of a batch is weighed as a solution, or None where a scale reads one load of it.

    Of the strengths 1 in 10, 20, 50, 100 … the strongest is taken at which the solution can be read within half
    the tolerance. Of the item the least is dissolved that makes enough. Half a step of the scale is within the
    tolerance of both; where that takes more than a bucket, both are ten steps at least.
    """
    line = batch.ingredients[at]
    item = house.pantry.get(line.ingredient.item)
    if item is None or item.dilute_in is None or item.weigh_exactly or line.load is None:
        return None
    file = house.file
    if not print_load(line, file.instruments, file.tolerance, system=system_of_house(file)).moved:
        return None
    grams = weight_or_volume(line.load, Kind.MASS, facts_for(house, item.id))
    scales = _scales(file.instruments)
    if not grams or not scales:
        return None
    return _solution(house, batch, line, grams, scales, ways)


def dilutions(house: House, batches: Sequence[Batch], at: int) -> tuple[Dilution | None, ...]:
    """Return the dilutions of one line in several batches: by one solution for all of them, where there is one."""
    each = tuple(dilution(house, batch, at) for batch in batches)
    if not any(each):
        return each
    for way in WAYS:
        alike = tuple(
            dilution(house, batch, at, (way,)) if own else None for own, batch in zip(each, batches, strict=True)
        )
        if all((one is None) == (own is None) for one, own in zip(alike, each, strict=True)):
            most = max((to_base(one.weighed) for one in alike if one), default=Fraction(0))
            return tuple(one and _made_with(one, most, way[1]) for one in alike)
    return each


def _made_with(one: Dilution, grams: Fraction, parts: int) -> Dilution:
    unit = one.weighed.unit
    return replace(one, weighed=from_base(grams, unit), solvent_weight=from_base(grams * (parts - 1), unit))


def _scales(instruments: Sequence[Instrument]) -> Sequence[Instrument]:
    """Return the scales that read grams, or those that read ounces where there are no others."""
    scales = [one for one in instruments if one.reads.unit.kind is Kind.MASS]
    return [one for one in scales if is_metric(one.reads.unit)] or scales


def _solution(
    house: House,
    batch: Batch,
    line: BatchIngredient,
    grams: Fraction,
    scales: Sequence[Instrument],
    ways: Sequence[_Way],
) -> Dilution | None:
    solvent = house.pantry[line.ingredient.item].dilute_in or ""
    tolerance, unit = house.file.tolerance, GRAM if is_metric(scales[0].reads.unit) else OUNCE
    for close, parts in ways:
        taken = _read(grams * parts, scales, tolerance / 2)
        within = tolerance if close else max(tolerance, _LIGHTEST)
        if taken is None or not _reads(taken, scales, within):
            continue
        for weighed in _round_weights(scales, unit):
            if weighed * parts >= taken and _reads(weighed, scales, within):
                if close and weighed * parts > _A_BUCKET:
                    break
                brings = taken - taken / parts
                return Dilution(
                    item=line.ingredient.item,
                    solvent=solvent,
                    weighed=from_base(weighed, unit),
                    solvent_weight=from_base(weighed * (parts - 1), unit),
                    taken=from_base(taken, unit),
                    brings=from_base(brings, unit),
                    **_taken_off(house, batch, solvent, brings),
                )
    return None


def _read(grams: Fraction, scales: Sequence[Instrument], within: Fraction) -> Fraction | None:
    """Return the nearest reading of the finest scale that takes a weight, or None where none is near enough."""
    for scale in sorted(scales, key=lambda one: to_base(one.reads)):
        reads = to_base(scale.reads)
        if grams <= to_base(scale.up_to):
            nearest = (grams / reads + _HALF) // 1 * reads
            return nearest if nearest and abs(nearest - grams) <= within * grams else None
    return None


def _reads(grams: Fraction, scales: Sequence[Instrument], within: Fraction) -> bool:
    """Return whether half a step of a scale that takes a weight is within a part of it, and the weight a whole step."""
    fit = [to_base(one.reads) for one in scales if grams <= to_base(one.up_to)]
    return any(reads * _HALF <= within * grams and (grams / reads).denominator == 1 for reads in fit)


def _round_weights(scales: Sequence[Instrument], unit: Unit) -> Iterator[Fraction]:
    """Yield 1, 2, 5, 10 … grams or ounces, in grams, from the finest reading up to what the largest scale takes."""
    finest, largest = min(to_base(one.reads) for one in scales), max(to_base(one.up_to) for one in scales)
    power = factor_of(unit)
    while power > finest:
        power /= 10
    while power <= largest:
        for figure in _FIGURES:
            yield power * figure
        power *= 10


def _taken_off(house: House, batch: Batch, solvent: str, brings: Fraction) -> _TakenOff:
    """Return the line of the solvent that has enough in one load to take some off, the largest one."""
    found = []
    for at, line in enumerate(batch.ingredients):
        if line.ingredient.item == solvent and line.load is not None:
            grams = weight_or_volume(line.load, Kind.MASS, facts_for(house, solvent))
            if grams is not None and grams >= brings:
                found.append((grams, -at))
    if not found:
        return {}
    grams, at = max(found)
    return {"from_line": -at, "matters": brings > house.file.tolerance * grams}
