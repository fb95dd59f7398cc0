"""The one place that rounds an amount for print: to what the house's own instruments can read.

Everything before it is exact. Knows instruments, not houses, and no words.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from math import ceil, floor
from typing import Final, NamedTuple, TypeAlias

from linebook.compute.ladders import fit, is_metric, spoken_parts, system_of
from linebook.compute.numerals import shown_number
from linebook.compute.readings import GOES, Reach, roundest, taking
from linebook.compute.results import Printed
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.house import Instrument
from linebook.model.numbers import VULGAR
from linebook.model.units import UNITS, factor_of, from_base, to_base
from linebook.source.exact import Fraction

_HALF: Final = Fraction(1, 2)
WHOLE: Final = Fraction(1)
"""How many times its share an amount is of what stands beside no other: it is told by being this very value."""

_HALVED: Final = frozenset(("each", "bunch", "head", "stick", "dozen", "portion"))
"""Counts a cook halves; of the others (a leaf, a piece, a sheet) the next whole one is taken."""

_PARTS: Final = frozenset(VULGAR.values())
"""Parts of one thing that a cook cuts, as the chef wrote them: a quarter of a head, a sixth of a loaf."""

EXACTLY: Final = 4
"""What is weighed exactly may be moved by a quarter of the house's tolerance."""

CLOSELY: Final = 10
"""A tenth of the tolerance is tried first."""

_KNOWN: Final = 4096
"""Answers kept. A binder asks for each figure two to six times: on the card, in its columns, beside a percentage."""

# Rounding guide of USDA, "guide for rounding off weights and measures" in quantity recipe materials: up to and
# including this many (None: no end), round to this step. Weights in ounces, measures in teaspoons. The guide's
# edges that exclude their bound are already round, so one rule serves.
_GUIDE_OUNCES: Final = ((10, Fraction(1, 4)), (40, _HALF), (80, Fraction(1)), (None, Fraction(4)))
_GUIDE_TEASPOONS: Final = (
    *((3, Fraction(1, 8)), (9, Fraction(1, 4)), (24, _HALF), (36, Fraction(1)), (96, Fraction(3))),
    *((384, Fraction(12)), (768, Fraction(24)), (1536, Fraction(48)), (7680, Fraction(192))),
    *((15360, Fraction(384)), (None, Fraction(768))),
)


def print_amount(
    amount: Amount,
    instruments: Sequence[Instrument],
    tolerance: Fraction,
    *,
    exact: bool = False,
    beside: Fraction = WHOLE,
    most: Fraction | None = None,
) -> Printed:
    """Return an amount rounded to what can be weighed, measured or counted; never to nothing.

    Of the figures an instrument can read (steps of 1, 2 or 5 times a power of ten) and that are within ``tolerance``
    (a fraction of the amount), the one with the fewest digits wins, then the nearest; for pounds, cups and spoons the
    largest of the steps 1, 2, 4, 8 … times the reading. Where no instrument has one in one go, a few goes with a
    smaller one will do; else the nearest reading of the finest instrument is printed and marked as moved. ``exact`` is
    for what must be weighed exactly: the finest instrument that takes it, at a quarter of the tolerance. Without an
    instrument of its system an amount has three significant figures (four if exact), or follows the USDA guide.

    ``beside`` is for a percentage: how many times its share of what is printed of its base goes into the amount
    itself. What is printed is within the tolerance of both, so that the percentage holds on the card; where nothing
    is, the base as printed decides. Nothing over ``most`` (in grams or millilitres) is printed where it can be helped,
    and what is over it is marked as moved.
    """
    printed = (_LAST if instruments else _LAST_BARE).with_instruments(instruments)
    number, key = amount.number, amount.unit.key
    part, parts = tolerance.numerator, tolerance.denominator
    # Told by whole numbers, which are looked up in a third of the time.
    asked: _Asked = (number.numerator, number.denominator, key, part, parts, exact)
    if beside is not WHOLE or most is not None:
        asked = (*asked, beside, most)
    known = printed.get(asked)
    if known is None:
        known = printed[asked] = _rounded(amount, instruments, tolerance, exact, beside, most)
    return known


def _rounded(
    amount: Amount,
    instruments: Sequence[Instrument],
    tolerance: Fraction,
    exact: bool,
    beside: Fraction,
    most: Fraction | None,
) -> Printed:
    if amount.number.numerator <= 0:
        return Printed(amount=amount)
    allowed = tolerance / EXACTLY if exact else tolerance
    base = to_base(amount)
    span = _span(base, base if beside is WHOLE or beside == 1 else base * beside, allowed, most)
    if amount.unit.kind is Kind.COUNT or amount.unit.key.startswith("scoop-"):
        return _marked(base, _counted(amount), tolerance, WHOLE, tolerance)
    fitting = taking(base, amount.unit, instruments)
    if exact:
        fitting = fitting[:1]
    read = _read(_closely(span), amount.unit, fitting) if exact else None
    if read is None:
        read = _read(span, amount.unit, fitting)
    if read is None and not exact:
        fitting = taking(base, amount.unit, instruments, goes=GOES)
        read = _read(span, amount.unit, fitting)
    if read is None:
        read = _nearest_reading(span.wanted, fitting[0]) if fitting else _without_instrument(amount, span.wanted, exact)
        if most is not None and read > most:
            read = _under(most, fitting[0].reads if fitting else most / 10_000)
    of_itself = allowed if beside is WHOLE or beside == 1 else tolerance
    printed = _marked(base, fit(read, amount.unit), allowed, beside, of_itself)
    over = most is not None and as_shown(printed.amount) > most
    return replace(printed, moved=True) if over else printed


def as_shown(amount: Amount) -> Fraction:
    """Return the grams, millilitres or singles that the printed words of an amount say, part by part."""
    if is_metric(amount.unit):
        number = shown_number(amount.number, amount.unit)
        return to_base(amount if number is amount.number else Amount(number=number, unit=amount.unit))
    return _as_spoken(amount)


@lru_cache(_KNOWN)
def _as_spoken(amount: Amount) -> Fraction:
    first, *more = [
        to_base(Amount(number=shown_number(part.number, part.unit), unit=part.unit)) for part in spoken_parts(amount)
    ]
    return sum(more, first)


def finest_taking(amount: Amount, instruments: Sequence[Instrument]) -> Fraction | None:
    """Return what the finest instrument that takes an amount reads, in grams or millilitres, or None."""
    able = taking(to_base(amount), amount.unit, instruments)
    return able[0].reads if able else None


class _Span(NamedTuple):
    """What may be printed of an amount, in grams or millilitres: ``wanted``, and so far around a middle."""

    wanted: Fraction
    middle: Fraction
    reach: Fraction


def _span(exact: Fraction, beside: Fraction, tolerance: Fraction, top: Fraction | None) -> _Span:
    """Return what is within a tolerance of both figures and not over the top; of the second alone where nothing is."""
    if top is None and (exact is beside or exact == beside):  # as nearly everything is
        return _Span(exact, exact, exact * tolerance)
    least, most = max(exact, beside) * (1 - tolerance), min(exact, beside) * (1 + tolerance)
    if least > most:
        least, most = beside * (1 - tolerance), beside * (1 + tolerance)
    if top is not None:
        most = max(least, min(most, top))
    return _Span(beside, (least + most) / 2, (most - least) / 2)


def _read(span: _Span, unit: Unit, instruments: Sequence[Reach]) -> Fraction | None:
    return roundest(span.middle, span.reach, unit, instruments)


def _closely(span: _Span) -> _Span:
    """Return the closest part of a span, around what is wanted or the nearest to it that may be printed."""
    reach = span.reach * Fraction(EXACTLY, CLOSELY)
    least, most = span.middle - span.reach + reach, span.middle + span.reach - reach
    return _Span(span.wanted, max(least, min(most, span.wanted)), reach)


@lru_cache(_KNOWN)
def as_typed(amount: Amount) -> Amount:
    """Return the same amount in the unit that reads best, or as typed where that one takes more decimals."""
    fitted = amount if amount.unit.kind is Kind.COUNT else fit(to_base(amount), amount.unit)
    return fitted if (fitted.number * 1000).denominator == 1 else amount


def is_readable(amount: Amount, instruments: Sequence[Instrument]) -> bool:
    """Return whether an amount can be measured as it is; without an instrument of its system it is taken to be."""
    base = to_base(amount)
    able = taking(base, amount.unit, instruments)
    top, bottom = base.as_integer_ratio()
    return not able or any(top * one.parts % (bottom * one.reading) == 0 for one in able)


def moved_to(amount: Amount, rounded: Amount, tolerance: Fraction) -> Printed:
    """Return a figure, marked where what its words say is off from the amount itself."""
    return _marked(to_base(amount), rounded, tolerance, WHOLE, tolerance)


def _marked(exact: Fraction, rounded: Amount, tolerance: Fraction, beside: Fraction, of_itself: Fraction) -> Printed:
    """Return a figure, marked where what its words say is off: its share of the printed base, or the amount itself."""
    shown = as_shown(rounded)
    off = _is_off(shown, exact, of_itself)
    if not off and beside is not WHOLE and beside != 1:
        off = _is_off(shown, exact * beside, tolerance)
    return Printed(amount=rounded, moved=off)


def _is_off(shown: Fraction, exact: Fraction, tolerance: Fraction) -> bool:
    """Return whether ``|shown - exact| > tolerance * exact``: in whole numbers, both sides times all denominators."""
    own, its = exact.numerator * shown.denominator, shown.numerator * exact.denominator
    return abs(its - own) * tolerance.denominator > tolerance.numerator * own


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


_Asked: TypeAlias = tuple[object, ...]
"""The number and unit of an amount, the tolerance, whether exactly; and where either counts, how many times its share
of the printed base goes into it, and the most."""


class _Last:
    """What was printed with the instruments last asked for: a binder asks for most figures again and again."""

    def __init__(self) -> None:
        self._instruments: Sequence[Instrument] | None = None
        self._printed: dict[_Asked, Printed] = {}

    def with_instruments(self, instruments: Sequence[Instrument]) -> dict[_Asked, Printed]:
        """Return what was printed of amounts with these instruments."""
        if instruments is not self._instruments or len(self._printed) > _KNOWN:
            self._instruments, self._printed = instruments, {}
        return self._printed


_LAST: Final = _Last()
_LAST_BARE: Final = _Last()
"""Of no instruments, which what a scale shows is told by: it does not drive out what the house's own have read."""


def _nearest_reading(base: Fraction, instrument: Reach) -> Fraction:
    return max(instrument.reads, _nearest(base, instrument.reads))


def _under(most: Fraction, reading: Fraction) -> Fraction:
    """Return the largest reading that is not over a most; the least there is where none is."""
    return max(reading, floor(most / reading) * reading)


def _without_instrument(amount: Amount, base: Fraction, exact: bool) -> Fraction:
    if is_metric(amount.unit):
        return _significant(base, 10_000 if exact else 1000)
    if amount.unit.kind is Kind.MASS:
        return _by_guide(base, _GUIDE_OUNCES, UNITS["ounce"])
    if system_of(amount.unit) == "us":
        return _by_guide(base, _GUIDE_TEASPOONS, UNITS["us-teaspoon"])
    step = factor_of(amount.unit) / (8 if amount.unit.key.endswith("teaspoon") else 4)
    return max(step, _nearest(base, step))


def _significant(base: Fraction, figures: int) -> Fraction:
    step = Fraction(1)
    while base >= step * figures:
        step *= 10
    while base < step * figures / 10:
        step /= 10
    return _nearest(base, step)


def _by_guide(base: Fraction, guide: Sequence[tuple[int | None, Fraction]], unit: Unit) -> Fraction:
    number = from_base(base, unit).number
    step = next(step for most, step in guide if most is None or number <= most)
    return max(step, _nearest(number, step)) * factor_of(unit)


def _nearest(number: Fraction, step: Fraction) -> Fraction:
    """Return the nearest multiple of a step, half up."""
    return floor(number / step + _HALF) * step
