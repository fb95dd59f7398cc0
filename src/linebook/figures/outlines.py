"""The outline of each thing on a plate, seen from above, as points in plate millimetres, and where outlines meet.

What is drawn, what covers what, and where a number may point all come from this one outline. Its extents are the
length and width the spec gives.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from math import cos, pi, radians, sin
from typing import Final, TypeAlias

from linebook.figures.shapes import Point
from linebook.model.dish import Shape
from linebook.model.plating import Laid
from linebook.source.frozen import frozen

Outline: TypeAlias = tuple[Point, ...]
Bounds: TypeAlias = tuple[float, float, float, float]


@frozen(kw_only=False)
class Lying:
    """A thing as it lies, with its outline and how far that reaches."""

    thing: Laid
    outline: Outline
    bounds: Bounds


_BOX: Final = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))
_CURVES: Final[dict[Shape, tuple[Point, ...]]] = {
    Shape.MOUND: (
        *((-1, 0), (-1, -0.56), (-0.56, -0.96), (0, -1), (0.56, -1.04), (0.98, -0.56), (1, 0)),
        *((1.02, 0.56), (0.56, 0.97), (0, 1), (-0.56, 1.03), (-0.97, 0.56), (-1, 0)),
    ),
    Shape.LEAVES: ((-1, 0), (-0.4, -1.44), (0.5, -1.22), (1, 0), (0.5, 1.22), (-0.4, 1.44), (-1, 0)),
    Shape.SWOOSH: (
        *((-1, 0.2), (-1, -0.7), (-0.6, -1), (-0.2, -1), (0.3, -1), (0.7, -0.6), (1, 0.15)),
        *((0.6, -0.1), (0.3, 0.15), (0, 0.65), (-0.3, 1.15), (-1, 1.15), (-1, 0.2)),
    ),
}
"""Bézier curves in halves of length and width: a start, then two controls and an end for each piece."""

_STEPS: Final = 6
_ROUND_STEPS: Final = 24

_SPOTS: Final = tuple(
    tuple((share * cos(k * 2 * pi / steps), share * sin(k * 2 * pi / steps)) for k in range(steps))
    for share, steps in ((0.0, 1), (0.5, 8), (0.8, 12))
)
"""Where on a thing a number may point, in halves of its length and width: its middle, then further out."""

RINGS: Final = len(_SPOTS)


def curve_of(shape: Shape) -> tuple[Point, ...]:
    """Return the curve a shape is drawn as, in halves of its length and width; empty for boxes and ellipses."""
    return _CURVES.get(shape, ())


def lying(laid: Sequence[Laid]) -> list[Lying]:
    """Return things with their outlines, in the same order."""
    outlines = [outline_of(thing) for thing in laid]
    return [Lying(thing, outline, bounds_of(outline)) for thing, outline in zip(laid, outlines, strict=True)]


def outline_of(thing: Laid) -> Outline:
    """Return the points round a thing's edge."""
    return placed(thing, _unit_outline(thing.shape))


def placed(thing: Laid, points: Sequence[Point]) -> Outline:
    """Return points given in halves of a thing's length and width as points of the plate."""
    c, s = cos(radians(thing.turn)), sin(radians(thing.turn))
    a, b, x, y = thing.length / 2, thing.width / 2, thing.x, thing.y
    return tuple([(x + u * a * c - v * b * s, y + u * a * s + v * b * c) for u, v in points])


@cache
def spots_on(shape: Shape) -> tuple[tuple[Point, ...], ...]:
    """Return points on a shape in ``RINGS`` rings, in halves of its length and width: its middle, then further out.

    Those of a thing of this shape are these, placed: where a thing lies and how it is turned makes no difference.
    """
    outline = _unit_outline(shape)
    return tuple(tuple(spot for spot in ring if contains(outline, spot)) for ring in _SPOTS)


def bounds_of(outline: Sequence[Point]) -> Bounds:
    """Return left, top, right and bottom."""
    across, down = [x for x, _ in outline], [y for _, y in outline]
    return min(across), min(down), max(across), max(down)


def contains(outline: Sequence[Point], point: Point) -> bool:
    """Return whether a point lies inside an outline, by counting the edges a ray from it crosses."""
    x, y = point
    inside = False
    before_x, before_y = outline[-1]
    was_below = before_y > y
    for at_x, at_y in outline:
        below = at_y > y
        if below != was_below:
            if x < (before_x - at_x) * (y - at_y) / (before_y - at_y) + at_x:
                inside = not inside
            was_below = below
        before_x, before_y = at_x, at_y
    return inside


def covered(point: Point, covers: Iterable[tuple[Outline, Bounds]]) -> bool:
    """Return whether a point lies inside any of some outlines."""
    x, y = point
    for outline, (left, top, right, bottom) in covers:
        if left <= x <= right and top <= y <= bottom and contains(outline, point):
            return True
    return False


def touch(one: Sequence[Point], bounds: Bounds, other: Sequence[Point], bounds_too: Bounds) -> bool:
    """Return whether two outlines lie over each other: one is inside the other, or their edges cross."""
    left, top, right, bottom = bounds
    left_too, top_too, right_too, bottom_too = bounds_too
    if left > right_too or left_too > right or top > bottom_too or top_too > bottom:
        return False
    if contains(other, one[0]) or contains(one, other[0]):
        return True
    near = _edges_near(other, bounds)
    return any(_crosses_any(a, b, near) for a, b in _edges_near(one, bounds_too))


def _edges_near(outline: Sequence[Point], bounds: Bounds) -> list[tuple[Point, Point]]:
    """Return the edges of an outline that may reach into bounds."""
    left, top, right, bottom = bounds
    edges = []
    before = outline[-1]
    for point in outline:
        (x, y), (to_x, to_y) = before, point
        if (
            (x >= left or to_x >= left)
            and (x <= right or to_x <= right)
            and (y >= top or to_y >= top)
            and (y <= bottom or to_y <= bottom)
        ):
            edges.append((before, point))
        before = point
    return edges


def _crosses_any(a: Point, b: Point, edges: Sequence[tuple[Point, Point]]) -> bool:
    """Return whether the piece of line from ``a`` to ``b`` crosses any of others."""
    (a_x, a_y), (b_x, b_y) = a, b
    across, down = b_x - a_x, b_y - a_y
    for (c_x, c_y), (d_x, d_y) in edges:
        first = across * (c_y - a_y) - down * (c_x - a_x)
        second = across * (d_y - a_y) - down * (d_x - a_x)
        if first * second > 0:
            continue
        over, under = d_x - c_x, d_y - c_y
        if (over * (a_y - c_y) - under * (a_x - c_x)) * (over * (b_y - c_y) - under * (b_x - c_x)) <= 0:
            return True
    return False


@cache
def _unit_outline(shape: Shape) -> Outline:
    if shape in (Shape.PIECE, Shape.LINE):
        return _BOX
    curve = _CURVES.get(shape)
    if curve is None:
        out = 1 / cos(pi / _ROUND_STEPS)  # round the ellipse, so that nothing seems to show beside it
        angles = [2 * pi * k / _ROUND_STEPS for k in range(_ROUND_STEPS)]
        return tuple((out * cos(angle), out * sin(angle)) for angle in angles)
    return tuple(
        _bezier(curve[k - 1], curve[k], curve[k + 1], curve[k + 2], step / _STEPS)
        for k in range(1, len(curve), 3)
        for step in range(_STEPS)
    )


def _bezier(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    w = (1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t**3
    return (
        w[0] * a[0] + w[1] * b[0] + w[2] * c[0] + w[3] * d[0],
        w[0] * a[1] + w[1] * b[1] + w[2] * c[1] + w[3] * d[1],
    )
