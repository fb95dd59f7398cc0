"""One ingredient line as printed: its load, all its loads, and the spec's own figure. ``rounding`` rounds them.

Owns what hangs together on a card: a row adds up, and a percentage holds of what is printed of its base.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from linebook.compute.results import BatchIngredient, PercentBase, Printed
from linebook.compute.rounding import CLOSELY, EXACTLY, WHOLE, as_shown, as_typed, is_readable, moved_to, print_amount
from linebook.compute.systems import AS_WRITTEN, System, print_in
from linebook.model.amounts import Amount
from linebook.model.house import Instrument
from linebook.model.sums import sum_of
from linebook.model.units import times, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class PrintedLine:
    """One ingredient line as printed. ``total`` is the printed load times the loads, so that a row adds up."""

    load: Printed | None
    total: Printed | None
    base: Printed | None


def print_line(
    line: BatchIngredient,
    loads: int,
    instruments: Sequence[Instrument],
    tolerance: Fraction,
    *,
    exact: bool = False,
    system: System = AS_WRITTEN,
) -> PrintedLine:
    """Return the figures of one ingredient line.

    The spec's own amount is not rounded, nor is a load that is the same and can be read, unless another system is
    printed. A whole-scaled line is moved where its whole count is beyond the tolerance of what the load would have
    been. A percentage holds of what is printed: its load is within the tolerance of its part of the printed loads of
    what it is of.
    """
    if line.load is None or line.base is None:
        return PrintedLine(load=None, total=None, base=None)
    load = print_load(line, instruments, tolerance, exact=exact, system=system)
    total = as_typed(times(load.amount, Fraction(loads)))
    return PrintedLine(
        load=load,
        total=replace(load, amount=total),
        base=print_base(line, instruments, tolerance, exact=exact, system=system),
    )


def print_base(
    line: BatchIngredient,
    instruments: Sequence[Instrument],
    tolerance: Fraction,
    *,
    exact: bool = False,
    system: System = AS_WRITTEN,
) -> Printed:
    """Return the spec's own amount of a line that is not to taste, rounded only where it is not as typed."""
    assert line.base is not None

    def rounded(amount: Amount) -> Printed:
        if line.rate is None and amount is line.base:
            return Printed(amount=as_typed(amount))
        return print_amount(amount, instruments, tolerance, exact=exact)

    return print_in(system, line.base, rounded, exact=exact)


def print_load(
    line: BatchIngredient,
    instruments: Sequence[Instrument],
    tolerance: Fraction,
    *,
    exact: bool = False,
    system: System = AS_WRITTEN,
) -> Printed:
    """Return one load of a line that is not to taste, as printed: a percentage beside what is printed of its base.

    What a percentage that must be exact is of is itself weighed to a quarter of the tolerance, where a scale can. What
    would be over the house's ceiling is rounded to under it.
    """
    assert line.load is not None
    beside = _beside(line, instruments, tolerance, system)
    most = None if line.room is None else to_base(line.load) * line.room * beside

    def rounded(amount: Amount) -> Printed:
        if amount is line.load and line.rate is None and amount == line.base and is_readable(amount, instruments):
            return moved_to(amount, as_typed(amount), tolerance)
        if line.cured and not exact:
            for part in (CLOSELY, EXACTLY):
                closely = print_amount(amount, instruments, tolerance / part)
                if not closely.moved:
                    return closely
        return print_amount(amount, instruments, tolerance, exact=exact, beside=beside, most=most)

    if line.unrounded is not None:
        return moved_to(line.unrounded, line.load, tolerance)
    return print_in(system, line.load, rounded, exact=exact)


def _beside(line: BatchIngredient, instruments: Sequence[Instrument], tolerance: Fraction, system: System) -> Fraction:
    """Return how many times the exact weight of what a line is a percentage of is printed: 1 where it is not moved."""
    if not line.of:  # as most lines, which are no percentage
        return WHOLE
    found: list[tuple[PercentBase, Fraction, Fraction]] = []
    for part in line.of:
        if part.line.load is not None:
            printed = print_load(part.line, instruments, tolerance, exact=part.exact, system=system)
            found.append((part, to_base(part.line.load), as_shown(printed.amount)))
    if all(shown == exact for _, exact, shown in found):
        return WHOLE
    whole = sum_of(part.grams for part, _, _ in found)
    return sum_of(part.grams * shown / exact for part, exact, shown in found) / whole if whole else WHOLE
