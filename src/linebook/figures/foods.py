"""How each kind of element is drawn from above: its outline, and the texture that tells it apart in black and white."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from math import cos, pi, sin
from typing import Final

from linebook.figures.looks import Look, hatching, texture
from linebook.figures.outlines import curve_of, outline_of, placed
from linebook.figures.pen import Pen, to_micron
from linebook.figures.shapes import Curve, Ellipse, Ink, Point, Polygon, Shape
from linebook.model.dish import Shape as Form
from linebook.model.plating import Laid

_EDGE: Final = 0.3
_HALO: Final = Ink(stroke=1.0, width=0.9)
"""White round each thing, so that the edges of two layers never run into one."""

_GOLDEN: Final = pi * (3 - 5**0.5)
_GRAINS: Final = 40


def draw_food(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    """Return the shapes of one thing, filled with its look."""
    if thing.shape is Form.POWDER:
        return _powder(thing, look, pen)
    edges = _edges(thing, (_HALO, _filled(look.grey, pool=thing.shape is Form.POOL)), pen)
    hatched = hatching(pen.all(outline_of(thing)), look) if look.hatch is not None else ()
    marks = _MARKS.get(thing.shape)
    return [*edges, *hatched, *(marks(thing, look, pen) if marks else ())]


def draw_hidden(thing: Laid, pen: Pen) -> list[Shape]:
    """Return the edge of a thing that lies wholly under others, dashed, to be drawn over them."""
    dashed = Ink(stroke=0.0, width=0.3, dash=(0.7, 0.7))
    return _edges(thing, (Ink(stroke=1.0, width=0.6), dashed), pen)


def _edges(thing: Laid, inks: Sequence[Ink], pen: Pen) -> list[Shape]:
    """Return the edge of a thing once in each ink."""
    curve = curve_of(thing.shape)
    if curve:
        points = _local(thing, pen, curve)
        pieces = tuple((points[k], points[k + 1], points[k + 2]) for k in range(1, len(points), 3))
        return [Curve(start=points[0], pieces=pieces, ink=ink) for ink in inks]
    if thing.shape in (Form.PIECE, Form.LINE):
        corners = tuple(pen.all(outline_of(thing)))
        return [Polygon(points=corners, ink=ink) for ink in inks]
    return [*_ellipses(thing, pen, 1.0, inks)]


def _local(thing: Laid, pen: Pen, points: Sequence[Point]) -> list[Point]:
    return pen.all(placed(thing, points))


def _ellipses(thing: Laid, pen: Pen, part: float, inks: Sequence[Ink]) -> list[Ellipse]:
    """Return a part of a round thing once in each ink."""
    centre, scale = pen.at(thing.x, thing.y), pen.scale * part
    rx, ry = to_micron(thing.length / 2 * scale), to_micron(thing.width / 2 * scale)
    return [Ellipse(centre=centre, rx=rx, ry=ry, turn=thing.turn, ink=ink) for ink in inks]


def _stroke(thing: Laid, pen: Pen, look: Look, *points: Point) -> Polygon:
    return Polygon(points=tuple(_local(thing, pen, points)), closed=False, ink=texture(look.grey))


def _bow(thing: Laid, pen: Pen, look: Look, *points: Point) -> Curve:
    start, *rest = _local(thing, pen, points)
    return Curve(start=start, pieces=((rest[0], rest[1], rest[2]),), closed=False, ink=texture(look.grey))


def _mound(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    return [_bow(thing, pen, look, (-0.5, 0.15), (-0.35, -0.45), (0.3, -0.5), (0.5, 0.05))]


def _line(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    return [_stroke(thing, pen, look, (-0.9, 0), (0.9, 0))]


def _disc(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    return [*_ellipses(thing, pen, 0.72, (texture(look.grey),))]


def _piece(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    return [_stroke(thing, pen, look, (-0.85, v), (0.85, v)) for v in (-0.4, 0.4)]


def _dot(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    return [*_ellipses(thing, pen, 0.3, (_spot(look.grey),))]


def _leaf(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    return [_stroke(thing, pen, look, (-1, 0), (0.8, 0))]


def _swoosh(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    return [_bow(thing, pen, look, (-0.75, 0), (-0.3, -0.7), (0.3, -0.6), (0.7, -0.15))]


def _powder(thing: Laid, look: Look, pen: Pen) -> list[Shape]:
    grain = _grain(look.grey)
    return [
        Ellipse(centre=centre, rx=0.42 if k % 3 else 0.6, ry=0.42 if k % 3 else 0.6, ink=grain)
        for k, centre in enumerate(_local(thing, pen, _grains()))
    ]


@cache
def _filled(grey: float, *, pool: bool) -> Ink:
    return Ink(fill=grey, width=_EDGE, dash=(1.0, 0.8) if pool else ())


@cache
def _spot(grey: float) -> Ink:
    return Ink(stroke=None, fill=0.0 if grey > 0.55 else 1.0)


@cache
def _grain(grey: float) -> Ink:
    return Ink(stroke=0.2, fill=1.0 if grey > 0.55 else 0.0, width=0.15)


@cache
def _grains() -> tuple[Point, ...]:
    out = [0.95 * (k / _GRAINS) ** 0.5 for k in range(_GRAINS)]
    return tuple((r * cos(k * _GOLDEN), r * sin(k * _GOLDEN)) for k, r in enumerate(out))


_MARKS: Final[dict[Form, Callable[[Laid, Look, Pen], list[Shape]]]] = {
    Form.MOUND: _mound,
    Form.LINE: _line,
    Form.DISC: _disc,
    Form.PIECE: _piece,
    Form.DOTS: _dot,
    Form.LEAVES: _leaf,
    Form.SWOOSH: _swoosh,
}
