"""Turns plate millimetres into paper millimetres, in whole thousandths."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from linebook.figures.shapes import Point
from linebook.source.frozen import frozen

PER_MM: Final = 1000
"""To round to a whole number, of a thousandth here, takes a sixth of what it takes to round to decimals."""


def to_micron(length: float) -> float:
    """Return a length in whole thousandths of a millimetre."""
    return round(length * PER_MM) / PER_MM


@frozen
class Pen:
    """``centre`` is the plate's centre on paper; ``scale`` is paper mm per plate mm."""

    centre: Point
    scale: float

    def all(self, points: Iterable[Point]) -> list[Point]:
        """Return the paper points of points on the plate."""
        (left, top), scale = self.centre, self.scale
        return [
            (round((left + x * scale) * PER_MM) / PER_MM, round((top + y * scale) * PER_MM) / PER_MM) for x, y in points
        ]

    def at(self, x: float, y: float) -> Point:
        """Return the paper point of a point on the plate."""
        return (to_micron(self.centre[0] + x * self.scale), to_micron(self.centre[1] + y * self.scale))
