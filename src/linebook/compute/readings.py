"""What the instruments of a house can read: which of them take an amount, and the roundest figure they read near it.

In grams or millilitres. Knows instruments, not houses; what may be printed of an amount is ``rounding``'s.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import lcm
from operator import attrgetter
from typing import Final

from linebook.compute.ladders import is_metric, system_of
from linebook.model.amounts import Kind, Unit
from linebook.model.house import Instrument, InstrumentKind
from linebook.model.units import UNITS, factor_of, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

GOES: Final = 8
"""How often a small spoon is filled before a coarser instrument is taken instead."""

_KNOWN: Final = 1024

_DECADE: Final = 10
"""What is rounded to a step has no more digits than what is rounded to a tenth of it, or to less."""


@frozen(kw_only=False)
class Reach:
    """How much an instrument takes and what it reads, in grams or millilitres; ``often`` if it may be filled often.

    ``reading`` and ``takes`` are what it reads and takes in whole ``parts`` of one, of which those of all instruments
    of its system are whole numbers.
    """

    most: Fraction
    reads: Fraction
    often: bool
    reading: int
    takes: int
    parts: int


def _reaches(able: Sequence[Instrument], unit: Unit) -> list[Reach]:
    """Return the reach of instruments that measure in a unit's system, finest first."""
    readings, most = [to_base(one.reads) for one in able], [to_base(one.up_to) for one in able]
    finest = 4 * factor_of(UNITS["ounce"]).denominator if _in_ounces(unit) else 1000
    parts = lcm(finest, *(number.denominator for number in (*readings, *most)))
    reaches = [
        Reach(
            most=top,
            reads=reads,
            often=one.kind is not InstrumentKind.SPOON,
            reading=_in_parts(reads, parts),
            takes=_in_parts(top, parts),
            parts=parts,
        )
        for one, reads, top in zip(able, readings, most, strict=True)
    ]
    return sorted(reaches, key=attrgetter("reads"))


def _in_ounces(unit: Unit) -> bool:
    return unit.kind is Kind.MASS and not is_metric(unit)


class _Rack:
    """The instruments last asked for, by what they measure: one house prints thousands of amounts."""

    def __init__(self) -> None:
        self._instruments: Sequence[Instrument] | None = None
        self._able: dict[str, list[Reach]] = {}

    def able(self, instruments: Sequence[Instrument], unit: Unit) -> list[Reach]:
        """Return the instruments that measure in a unit's system, finest first."""
        if not instruments:  # as is asked now and then between, and is no reason to forget those of the house
            return []
        if instruments is not self._instruments:
            self._instruments, self._able = instruments, {}
        known = self._able.get(unit.key)
        if known is None:
            known = self._able[unit.key] = _reaches([one for one in instruments if _measures(one, unit)], unit)
        return known


_RACK: Final = _Rack()


def taking(base: Fraction, unit: Unit, instruments: Sequence[Instrument], goes: int = 1) -> list[Reach]:
    """Return the instruments that take an amount in so many goes, finest first; else the largest, but no spoons.

    The amount is in grams or millilitres, ``unit`` the one it is in a system with.
    """
    able = _RACK.able(instruments, unit)
    top, bottom = base.as_integer_ratio()
    a_go = goes * bottom  # compared in whole numbers, because every amount is held against every instrument
    found = [one for one in able if one.takes * a_go >= top * one.parts]
    if not found:
        able = [one for one in able if one.often or one.most * GOES >= base]
        largest = max((one.most for one in able), default=None)
        found = [one for one in able if one.most == largest]
    return found


def _measures(instrument: Instrument, unit: Unit) -> bool:
    """Return whether an instrument is of an amount's system; metric spoons measure millilitres too."""
    reads = instrument.reads.unit
    if reads.kind is not unit.kind:
        return False
    spoons = unit.kind is Kind.VOLUME and is_metric(unit) and system_of(reads) == "metric"
    return spoons or system_of(reads) == system_of(unit)


def roundest(middle: Fraction, reach: Fraction, unit: Unit, instruments: Sequence[Reach]) -> Fraction | None:
    """Return the roundest figure that can be read within reach of a middle, in grams or millilitres, or None."""
    if not instruments:
        return None
    # In whole numbers of a part that all of them are multiples of, because a binder has thousands of figures to try.
    decimal, parts = is_metric(unit), instruments[0].parts
    among = middle.denominator
    wanted, most = middle.numerator * parts, _in_parts(reach, parts * among)
    readings = tuple([one.reading for one in instruments])
    twice = 2 * wanted // among  # a larger step would round to nothing
    within: list[tuple[int, int, int]] = []
    enough = 0
    for step in _readable(readings, parts, unit.kind, decimal, len(str(twice))):
        if step > twice:
            continue
        if step < enough:
            break
        rounded = (twice + step) // (2 * step) * step
        off = abs(rounded * among - wanted)
        if off <= most:
            if not decimal:
                return Fraction(rounded, parts)
            within.append((_digits(rounded, parts), off, rounded))
            enough = enough or step // _DECADE
    return Fraction(min(within)[2], parts) if within else None


@lru_cache(_KNOWN)
def _readable(readings: tuple[int, ...], parts: int, kind: Kind, decimal: bool, digits: int) -> tuple[int, ...]:
    """Return every step that some instrument can read, in ``parts`` of one, the largest first, up to so many digits."""
    ounce = 0 if decimal or kind is not Kind.MASS else _in_parts(factor_of(UNITS["ounce"]), parts)
    most = 10**digits
    steps = {step for one in readings for step in _steps(one, most, parts // 1000 if decimal else 0, ounce)}
    return tuple(sorted(steps, reverse=True))


def _in_parts(number: Fraction, parts: int) -> int:
    """Return how many whole parts of one, each ``1 / parts``, go into a number."""
    return number.numerator * parts // number.denominator


def _steps(reading: int, most: int, thousandth: int, ounce: int) -> Iterator[int]:
    """Yield the readable steps up to twice an amount, and maybe some beyond.

    ``thousandth`` is that of a gram or a millilitre, or 0 where the steps are not decimal; ``ounce`` is 0 where nothing
    is weighed in ounces.
    """
    if ounce and ounce % reading == 0 and ounce // reading % 5 == 0:
        yield from _steps_in_ounces(reading, most, ounce)
        return
    yield reading
    size = thousandth or reading
    while thousandth and size * 10 <= reading:  # what is less than a reading is no multiple of it
        size *= 10
    while size <= 2 * most:
        for step in (size, 2 * size, 5 * size) if thousandth else (size,):
            if step % reading == 0:
                yield step
        size *= 10 if thousandth else 2


def _steps_in_ounces(reading: int, most: int, ounce: int) -> Iterator[int]:
    """Yield the steps of a scale that reads tenths or hundredths of an ounce: 1, 2 or 5 of them, quarters, ounces."""
    size = reading
    while size < ounce:
        yield from (step for step in (size, 2 * size, 5 * size) if step < ounce)
        size *= 10
    yield from (part for part in (ounce // 4, ounce // 2) if part % reading == 0)
    size = ounce
    while size <= 2 * most:
        yield size
        size *= 2


def _digits(number: int, parts: int) -> int:
    """Return how many digits a decimal has from its first to its last that is not nought."""
    return len(str(number * 10**6 // parts).rstrip("0"))
