"""Drawings as shapes in millimetres, y downwards, for paper and screen alike; no painter is known here."""

from __future__ import annotations

from dataclasses import field
from typing import Literal, TypeAlias

from linebook.source.frozen import frozen

Point: TypeAlias = tuple[float, float]


@frozen
class Ink:
    """How a shape is drawn. Greys run 0 (black) to 1 (white), None for none; widths and dashes in mm."""

    stroke: float | None = 0.0
    fill: float | None = None
    width: float = 0.25
    dash: tuple[float, ...] = ()


@frozen
class Ellipse:
    """An ellipse by its centre and radii, turned clockwise by ``turn`` degrees."""

    centre: Point
    rx: float
    ry: float
    turn: float = 0.0
    ink: Ink = Ink()


@frozen
class Polygon:
    """A closed or open run of straight lines."""

    points: tuple[Point, ...]
    closed: bool = True
    ink: Ink = Ink()


@frozen
class Curve:
    """Cubic Bézier pieces: a start, then triples of two controls and an end."""

    start: Point
    pieces: tuple[tuple[Point, Point, Point], ...]
    closed: bool = True
    ink: Ink = Ink()


@frozen
class Label:
    """Text centred on a point, or starting or ending there; ``role`` names a size of the theme."""

    at: Point
    text: str
    role: str = "number"
    align: Literal["middle", "start", "end"] = "middle"


Shape: TypeAlias = Ellipse | Polygon | Curve | Label


@frozen
class Drawing:
    """Shapes in drawing order inside a box of ``width`` by ``height`` mm. ``alternative`` says it in words."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    alternative: str = ""


@frozen
class Picture:
    """A photograph beside a sheet: upright, in sRGB or grey, without anything but its pixels. ``alternative`` says it.

    ``content`` is a whole file of its ``kind``; ``grey`` tells that it has no colours.
    """

    content: bytes = field(repr=False)
    width_px: int
    height_px: int
    kind: Literal["jpeg", "png"] = "jpeg"
    grey: bool = False
    alternative: str = ""
