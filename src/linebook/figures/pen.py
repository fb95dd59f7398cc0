"""Turns plate millimetres into paper millimetres."""

from __future__ import annotations

from collections.abc import Iterable

from linebook.figures.shapes import Point
from linebook.source.frozen import frozen


@frozen
class Pen:
    """``centre`` is the plate's centre on paper; ``scale`` is paper mm per plate mm."""

    centre: Point
    scale: float

    def all(self, points: Iterable[Point]) -> list[Point]:
        """Return the paper points of points on the plate."""
        (left, top), scale = self.centre, self.scale
        return [(round(left + x * scale, 3), round(top + y * scale, 3)) for x, y in points]

    def at(self, x: float, y: float) -> Point:
        """Return the paper point of a point on the plate."""
        return (round(self.centre[0] + x * self.scale, 3), round(self.centre[1] + y * self.scale, 3))
