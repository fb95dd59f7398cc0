"""Sets of moments on a grid of five minutes, kept as the bits of one whole number.

Bit *n* stands for the moment *n* slots after a beginning. Steps over a whole week cost a few operations on such a
number, so a plan can try every moment there is. Knows no kitchen and no clock.
"""

from __future__ import annotations

from math import ceil
from typing import Final, TypeAlias

from linebook.source.exact import Fraction

Slots: TypeAlias = int
"""A set of moments: bit *n* is set where moment *n* is in it."""

SLOT: Final = 5
"""Minutes from one moment to the next."""
A_DAY: Final = 24 * 60 // SLOT


def slots_in(minutes: Fraction | int) -> int:
    """Return how many slots a time takes, rounded up."""
    return ceil(Fraction(minutes) / SLOT)


def between(first: int, last: int) -> Slots:
    """Return the moments from ``first`` up to but without ``last``; none where it is not later."""
    return ((1 << (last - first)) - 1) << first if last > first else 0


def latest(moments: Slots) -> int:
    """Return the latest moment of a set that is not empty."""
    return moments.bit_length() - 1


def earliest(moments: Slots) -> int:
    """Return the earliest moment of a set that is not empty."""
    return (moments & -moments).bit_length() - 1


def free_for(free: Slots, slots: int, width: int) -> Slots:
    """Return the moments from which so many slots in a row are free, among the first ``width``."""
    found, reach, power, size = between(0, width), 0, free, 1
    while slots:
        if slots & 1:
            found &= power >> reach
            reach += size
        slots >>= 1
        power &= power >> size
        size *= 2
    return found


def before(targets: Slots, free: Slots, least: int, most: int, width: int) -> Slots:
    """Return the moments from which a target is between ``least`` and ``most`` slots away, all free until it."""
    near, run, reach = 0, between(0, width), 0
    power, power_run, size, options = targets, free, 1, most - least + 1
    while options:
        if options & 1:
            near |= run & (power >> reach)
            run &= power_run >> reach
            reach += size
        options >>= 1
        power |= power_run & (power >> size)
        power_run &= power_run >> size
        size *= 2
    return (near >> least) & free_for(free, least, width)


def after(starts: Slots, free: Slots, least: int, most: int, width: int) -> Slots:
    """Return the moments between ``least`` and ``most`` slots after a start, all free since it."""
    whole = between(0, width)
    begun = ((starts & free_for(free, least, width)) << least) & whole
    found, reach = 0, 0
    power, power_run, size, options = begun, free, 1, most - least + 1
    while options:
        if options & 1:
            found |= ((power & free_for(free, reach, width)) << reach) & whole
            reach += size
        options >>= 1
        power |= ((power & power_run) << size) & whole
        power_run &= power_run >> size
        size *= 2
    return found
