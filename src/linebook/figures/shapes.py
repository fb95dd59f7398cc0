"""Drawings as shapes in millimetres, y downwards, for paper and screen alike; no painter is known here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """How a shape is drawn. Greys run 0 (black) to 1 (white), None for none; widths and dashes in mm."""

    stroke: float | None = 0.0
    fill: float | None = None
    width: float = 0.25
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Ellipse:
    """An ellipse by its centre and radii, turned clockwise by ``turn`` degrees."""

    centre: Point
    rx: float
    ry: float
    turn: float = 0.0
    ink: Ink = Ink()


@dataclass(frozen=True, slots=True, kw_only=True)
class Polygon:
    """A closed or open run of straight lines."""

    points: tuple[Point, ...]
    closed: bool = True
    ink: Ink = Ink()


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Cubic Bézier pieces: a start, then triples of two controls and an end."""

    start: Point
    pieces: tuple[tuple[Point, Point, Point], ...]
    closed: bool = True
    ink: Ink = Ink()


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Text centred on a point; ``role`` names a size of the theme (``number`` or ``caption``)."""

    at: Point
    text: str
    role: str = "number"


Shape: TypeAlias = Ellipse | Polygon | Curve | Label


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Shapes in drawing order inside a box of ``width`` by ``height`` mm. ``alternative`` says it in words."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    alternative: str = ""
