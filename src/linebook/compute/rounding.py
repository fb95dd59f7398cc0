"""The one place that rounds an amount for print: to what the house's own instruments can read.

Everything before it is exact. Knows instruments, not houses, and no words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor, lcm
from operator import attrgetter
from typing import Final, NamedTuple

from linebook.compute.ladders import fit, is_metric, system_of
from linebook.compute.results import BatchIngredient, Printed
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.house import Instrument
from linebook.model.numbers import VULGAR
from linebook.model.units import UNITS, factor_of, from_base, times, to_base
from linebook.source.frozen import frozen

_HALF: Final = Fraction(1, 2)
_HALVED: Final = frozenset(("each", "bunch", "head", "stick", "dozen", "portion"))
"""Counts a cook halves; of the others (a leaf, a piece, a sheet) the next whole one is taken."""

_PARTS: Final = frozenset(VULGAR.values())
"""Parts of one thing that a cook cuts, as the chef wrote them: a quarter of a head, a sixth of a loaf."""

_EXACTLY: Final = 10
"""What is weighed exactly may be moved by a tenth of the house's tolerance."""

_GOES: Final = 8
"""How often a small spoon is filled before a coarser instrument is taken instead."""

# Rounding guide of USDA, "guide for rounding off weights and measures" in quantity recipe materials: up to and
# including this many (None: no end), round to this step. Weights in ounces, measures in teaspoons. The guide's
# edges that exclude their bound are already round, so one rule serves.
_GUIDE_OUNCES: Final = ((10, Fraction(1, 4)), (40, _HALF), (80, Fraction(1)), (None, Fraction(4)))
_GUIDE_TEASPOONS: Final = (
    *((3, Fraction(1, 8)), (9, Fraction(1, 4)), (24, _HALF), (36, Fraction(1)), (96, Fraction(3))),
    *((384, Fraction(12)), (768, Fraction(24)), (1536, Fraction(48)), (7680, Fraction(192))),
    *((15360, Fraction(384)), (None, Fraction(768))),
)


@frozen
class PrintedLine:
    """One ingredient line as printed. ``total`` is the printed load times the loads, so that a row adds up."""

    load: Printed | None
    total: Printed | None
    base: Printed | None


def print_amount(
    amount: Amount, instruments: Sequence[Instrument], tolerance: Fraction, *, exact: bool = False
) -> Printed:
    """Return an amount rounded to what can be weighed, measured or counted; never to nothing.

    Of the figures an instrument can read (steps of 1, 2 or 5 times a power of ten) and that are within ``tolerance``
    (a fraction of the amount), the one with the fewest digits wins, then the nearest; for pounds, cups and spoons the
    largest of the steps 1, 2, 4, 8 … times the reading. Where no instrument has one in one go, a few goes with a
    smaller one will do; else the nearest reading of the finest instrument is printed and marked as moved. ``exact`` is
    for what must be weighed exactly: the finest instrument that takes it, at a tenth of the tolerance. Without an
    instrument of its system an amount has three significant figures, or follows the USDA guide.
    """
    if amount.number <= 0:
        return Printed(amount=amount)
    if amount.unit.kind is Kind.COUNT or amount.unit.key.startswith("scoop-"):
        return _printed(amount, _counted(amount), tolerance)
    allowed = tolerance / _EXACTLY if exact else tolerance
    fitting = _taking(amount, instruments)
    if exact:
        fitting = fitting[:1]
    base = _measured(amount, fitting, allowed)
    if base is None and not exact:
        fitting = _taking(amount, instruments, goes=_GOES)
        base = _measured(amount, fitting, allowed)
    if base is None:
        base = _nearest_reading(to_base(amount), fitting[0]) if fitting else _without_instrument(amount)
    return _printed(amount, fit(base, amount.unit), allowed)


def print_line(
    line: BatchIngredient, loads: int, instruments: Sequence[Instrument], tolerance: Fraction, *, exact: bool = False
) -> PrintedLine:
    """Return the figures of one ingredient line.

    The spec's own amount is not rounded, nor is a load that is the same and can be read. A whole-scaled line is moved
    where its whole count is beyond the tolerance of what the load would have been.
    """
    if line.load is None or line.base is None:
        return PrintedLine(load=None, total=None, base=None)
    as_typed = line.rate is None and line.load == line.base and _is_readable(line.load, instruments)
    load = (
        Printed(amount=_unrounded(line.load))
        if as_typed
        else print_amount(line.load, instruments, tolerance, exact=exact)
    )
    if line.unrounded is not None:
        load = _printed(line.unrounded, load.amount, tolerance)
    total = _unrounded(times(load.amount, Fraction(loads)))
    typed = Printed(amount=_unrounded(line.base))
    return PrintedLine(
        load=load,
        total=Printed(amount=total, moved=load.moved),
        base=typed if line.rate is None else print_amount(line.base, instruments, tolerance, exact=exact),
    )


def _unrounded(amount: Amount) -> Amount:
    """Return the same amount in the unit that reads best, or as typed where that one takes more decimals."""
    fitted = amount if amount.unit.kind is Kind.COUNT else fit(to_base(amount), amount.unit)
    return fitted if (fitted.number * 1000).denominator == 1 else amount


def _is_readable(amount: Amount, instruments: Sequence[Instrument]) -> bool:
    """Return whether an amount can be measured as it is; without an instrument of its system it is taken to be."""
    taking = _taking(amount, instruments)
    whole = any((to_base(amount) / one.reads).denominator == 1 for one in taking)
    return whole or not taking


def _printed(amount: Amount, rounded: Amount, tolerance: Fraction) -> Printed:
    exact = to_base(amount)
    return Printed(amount=rounded, moved=abs(to_base(rounded) - exact) > tolerance * exact)


def _counted(amount: Amount) -> Amount:
    if amount.unit.kind is Kind.VOLUME:
        number = Fraction(max(1, floor(amount.number + _HALF)))
    elif amount.number in _PARTS:
        number = amount.number
    elif amount.unit.key in _HALVED:
        number = max(_HALF, _nearest(amount.number, _HALF))
    else:
        number = Fraction(ceil(amount.number))
    return Amount(number=number, unit=amount.unit)


class _Reach(NamedTuple):
    """How much an instrument takes and what it reads, in grams or millilitres."""

    most: Fraction
    reads: Fraction


class _Rack:
    """The instruments last asked for, by the unit they are to measure: one house prints thousands of amounts."""

    def __init__(self) -> None:
        self._instruments: Sequence[Instrument] | None = None
        self._able: dict[str, list[_Reach]] = {}

    def able(self, instruments: Sequence[Instrument], unit: Unit) -> list[_Reach]:
        """Return the instruments that measure in a unit's system, finest first."""
        if instruments is not self._instruments:
            self._instruments, self._able = instruments, {}
        known = self._able.get(unit.key)
        if known is None:
            able = [_Reach(to_base(one.up_to), to_base(one.reads)) for one in instruments if _measures(one, unit)]
            known = self._able[unit.key] = sorted(able, key=attrgetter("reads"))
        return known


_RACK: Final = _Rack()


def _taking(amount: Amount, instruments: Sequence[Instrument], goes: int = 1) -> list[_Reach]:
    """Return the instruments that take an amount in so many goes, finest first; else the largest ones."""
    able = _RACK.able(instruments, amount.unit)
    in_one_go = to_base(amount) / goes if goes > 1 else to_base(amount)
    taking = [one for one in able if one.most >= in_one_go]
    if not taking and able:
        largest = max(one.most for one in able)
        taking = [one for one in able if one.most == largest]
    return taking


def _measures(instrument: Instrument, unit: Unit) -> bool:
    """Return whether an instrument is of an amount's system; metric spoons measure millilitres too."""
    reads = instrument.reads.unit
    if reads.kind is not unit.kind:
        return False
    spoons = unit.kind is Kind.VOLUME and is_metric(unit) and system_of(reads) == "metric"
    return spoons or system_of(reads) == system_of(unit)


def _measured(amount: Amount, instruments: Sequence[_Reach], tolerance: Fraction) -> Fraction | None:
    """Return the roundest readable figure within the tolerance, in grams or millilitres, or None."""
    base, decimal = to_base(amount), is_metric(amount.unit)
    readings = [one.reads for one in instruments]
    # In whole numbers of a part that all of them are multiples of, because a binder has thousands of figures to try.
    parts = lcm(1000, base.denominator, *(reading.denominator for reading in readings))
    exact = int(base * parts)
    most = floor(tolerance * exact)
    within = []
    for reading in readings:
        for step in _steps(int(reading * parts), exact, parts // 1000 if decimal else 0):
            rounded = (2 * exact + step) // (2 * step) * step
            off = abs(rounded - exact)
            if rounded and off <= most:
                within.append((_digits(rounded, parts) if decimal else -step, off, rounded))
    return Fraction(min(within)[2], parts) if within else None


def _nearest_reading(base: Fraction, instrument: _Reach) -> Fraction:
    return max(instrument.reads, _nearest(base, instrument.reads))


def _steps(reading: int, most: int, thousandth: int) -> Iterator[int]:
    """Yield the readable steps up to twice an amount: beyond that it would round to nothing.

    ``thousandth`` is that of a gram or a millilitre, or 0 where the steps are not decimal.
    """
    yield reading
    size = thousandth or reading
    while size <= 2 * most:
        for step in (size, 2 * size, 5 * size) if thousandth else (size,):
            if step % reading == 0:
                yield step
        size *= 10 if thousandth else 2


def _digits(number: int, parts: int) -> int:
    """Return how many digits a decimal has from its first to its last that is not nought."""
    return len(str(number * 10**6 // parts).rstrip("0"))


def _without_instrument(amount: Amount) -> Fraction:
    base = to_base(amount)
    if is_metric(amount.unit):
        return _significant(base)
    if amount.unit.kind is Kind.MASS:
        return _by_guide(base, _GUIDE_OUNCES, UNITS["ounce"])
    if system_of(amount.unit) == "us":
        return _by_guide(base, _GUIDE_TEASPOONS, UNITS["us-teaspoon"])
    step = factor_of(amount.unit) / (8 if amount.unit.key.endswith("teaspoon") else 4)
    return max(step, _nearest(base, step))


def _significant(base: Fraction) -> Fraction:
    step = Fraction(1)
    while base >= step * 1000:
        step *= 10
    while base < step * 100:
        step /= 10
    return _nearest(base, step)


def _by_guide(base: Fraction, guide: Sequence[tuple[int | None, Fraction]], unit: Unit) -> Fraction:
    number = from_base(base, unit).number
    step = next(step for most, step in guide if most is None or number <= most)
    return max(step, _nearest(number, step)) * factor_of(unit)


def _nearest(number: Fraction, step: Fraction) -> Fraction:
    """Return the nearest multiple of a step, half up."""
    return floor(number / step + _HALF) * step
