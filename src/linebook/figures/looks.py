"""How each element is told from those it touches in black and white: a grey and, where greys run out, hatching.

Owns the choice and the hatching lines. It must not know what the elements are.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from math import cos, radians, sin
from typing import Final, TypeAlias

from linebook.figures.outlines import Bounds, bounds_of, touch
from linebook.figures.pen import to_micron
from linebook.figures.shapes import Ink, Point, Polygon
from linebook.source.frozen import frozen

GREYS: Final = (0.86, 0.45, 0.98, 0.66, 0.28)
APART: Final = 0.14
"""Greys nearer to each other than this are one grey on an office printer."""

_FAR_APART: Final = 0.25
_LAST_RESORT: Final = 0.4
_HATCHES: Final = (None, 45.0, -45.0)
_GAP: Final = 1.5
_SHORTEST: Final = 0.3


View: TypeAlias = Sequence[tuple[int, Sequence[Point], Bounds]]
"""The outlines seen from one side, each with the number of its element and how far it reaches."""


@frozen
class Look:
    """A grey of 0 (black) to 1 (white), and the direction of hatching in degrees, None for none."""

    grey: float
    hatch: float | None = None


def choose_looks(views: Sequence[View], count: int) -> list[Look]:
    """Give each of ``count`` elements a look that no earlier element it touches has, in any of the views."""
    neighbours = _neighbours(views, count)
    chosen: list[Look] = []
    for index in range(count):
        near = [chosen[other] for other in neighbours[index]]
        chosen.append(_best(_looks_from(index % len(GREYS)), near))
    return chosen


@cache
def _looks_from(first: int) -> tuple[Look, ...]:
    """Return all looks, the greys from the ``first`` on: those without hatching before any other."""
    ring = GREYS[first:] + GREYS[:first]
    return tuple(Look(grey=grey, hatch=hatch) for hatch in _HATCHES for grey in ring)


def _best(looks: Sequence[Look], near: Sequence[Look]) -> Look:
    """Return the first of the looks that stand out best from others."""
    best, told = looks[0], -1.0
    for look in looks:
        apart = _told_apart(look, near)
        if apart > told:
            best, told = look, apart
        if told >= 1:  # no other stands out better
            break
    return best


def hatching(outline: Sequence[Point], look: Look) -> list[Polygon]:
    """Return the lines of a look's hatching inside an outline, in paper mm."""
    if look.hatch is None:
        return []
    c, s = cos(radians(look.hatch)), sin(radians(look.hatch))
    turned = [(x * c + y * s, y * c - x * s) for x, y in outline]
    _, top, _, bottom = bounds_of(turned)
    lines = []
    for row in range(int(top / _GAP) - 1, int(bottom / _GAP) + 2):
        level = (row + 0.37) * _GAP
        for start, end in _crossings(turned, level):
            ends = tuple((to_micron(x * c - level * s), to_micron(x * s + level * c)) for x in (start, end))
            lines.append(Polygon(points=ends, closed=False, ink=texture(look.grey)))
    return lines


@cache
def texture(grey: float) -> Ink:
    """Return thin lines that show on a grey: white on dark, dark on light."""
    return Ink(stroke=1.0 if grey < 0.55 else 0.2, width=0.2)


def _crossings(outline: Sequence[Point], level: float) -> list[tuple[float, float]]:
    crossed = []
    before_x, before_y = outline[-1]
    for x, y in outline:
        if (y > level) != (before_y > level):
            crossed.append(x + (level - y) / (before_y - y) * (before_x - x))
        before_x, before_y = x, y
    crossed.sort()
    pairs = zip(crossed[::2], crossed[1::2], strict=True)
    return [(start, end) for start, end in pairs if end - start > _SHORTEST]


def _told_apart(look: Look, near: Sequence[Look]) -> float:
    """Return how well a look stands out from its neighbours: plain greys far apart best, hatching after those."""
    worst = min((abs(look.grey - other.grey) for other in near if other.hatch == look.hatch), default=1.0)
    told = 1.0 if worst >= _FAR_APART else 0.5 if worst >= APART else worst
    return told * _LAST_RESORT if look.hatch is not None else told


def _neighbours(views: Sequence[View], count: int) -> Mapping[int, Sequence[int]]:
    """Return for each element the earlier ones that it touches."""
    met: dict[int, list[int]] = {index: [] for index in range(count)}
    for view in views:
        for at, (index, outline, bounds) in enumerate(view):
            for other, under, reach in view[:at]:
                low, high = (index, other) if index < other else (other, index)
                if low != high and low not in met[high] and touch(outline, bounds, under, reach):
                    met[high].append(low)
    return met
