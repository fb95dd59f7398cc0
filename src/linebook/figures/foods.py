"""How each kind of element is drawn from above: its outline and the texture that tells it apart in black and white."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, pi, radians, sin
from typing import Final

from linebook.figures.pen import Pen
from linebook.figures.shapes import Curve, Ellipse, Ink, Point, Polygon, Shape
from linebook.model.dish import Shape as Form
from linebook.model.plating import Laid

_EDGE: Final = 0.3
_GOLDEN: Final = pi * (3 - 5**0.5)


def draw_food(thing: Laid, grey: float, pen: Pen) -> list[Shape]:
    """Return the shapes of one thing, filled with a grey of 0 (black) to 1 (white)."""
    return _DRAW[thing.shape](thing, Ink(fill=grey, width=_EDGE), pen)


def _local(thing: Laid, pen: Pen, points: Sequence[tuple[float, float]]) -> list[Point]:
    """Turn points given in halves of the thing's length and width into paper points."""
    c, s = cos(radians(thing.turn)), sin(radians(thing.turn))
    half_length, half_width = thing.length / 2, thing.width / 2
    placed = []
    for u, v in points:
        x, y = u * half_length, v * half_width
        placed.append(pen.at(thing.x + x * c - y * s, thing.y + x * s + y * c))
    return placed


def _ellipse(thing: Laid, pen: Pen, part: float, ink: Ink) -> Ellipse:
    return Ellipse(
        centre=pen.at(thing.x, thing.y),
        rx=round(thing.length / 2 * pen.scale * part, 3),
        ry=round(thing.width / 2 * pen.scale * part, 3),
        turn=thing.turn,
        ink=ink,
    )


def _texture(ink: Ink) -> Ink:
    """Return thin lines that show on the fill: white on dark, black on light."""
    dark = ink.fill is not None and ink.fill < 0.55
    return Ink(stroke=0.95 if dark else 0.25, width=0.18)


def _closed(points: Sequence[Point], ink: Ink) -> Curve:
    pieces = tuple((points[k], points[k + 1], points[k + 2]) for k in range(1, len(points), 3))
    return Curve(start=points[0], pieces=pieces, ink=ink)


def _mound(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    k = 0.56
    outline = [(-1, 0), (-1, -k), (-k, -0.96), (0, -1), (k, -1.04), (0.98, -k), (1, 0)]
    outline += [(1.02, k), (k, 0.97), (0, 1), (-k, 1.03), (-0.97, k), (-1, 0)]
    ridge = _local(thing, pen, [(-0.5, 0.15), (-0.35, -0.45), (0.3, -0.5), (0.5, 0.05)])
    arc = Curve(start=ridge[0], pieces=((ridge[1], ridge[2], ridge[3]),), closed=False, ink=_texture(ink))
    return [_closed(_local(thing, pen, outline), ink), arc]


def _line(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    corners = _local(thing, pen, [(-1, -1), (1, -1), (1, 1), (-1, 1)])
    middle = _local(thing, pen, [(-0.9, 0), (0.9, 0)])
    return [Polygon(points=tuple(corners), ink=ink), Polygon(points=tuple(middle), closed=False, ink=_texture(ink))]


def _disc(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    return [_ellipse(thing, pen, 1.0, ink), _ellipse(thing, pen, 0.72, _texture(ink))]


def _piece(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    shapes: list[Shape] = [Polygon(points=tuple(_local(thing, pen, [(-1, -1), (1, -1), (1, 1), (-1, 1)])), ink=ink)]
    for v in (-0.4, 0.4):
        grain = _local(thing, pen, [(-0.85, v), (0.85, v)])
        shapes.append(Polygon(points=tuple(grain), closed=False, ink=_texture(ink)))
    return shapes


def _dot(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    shine = Ink(stroke=None, fill=0.0 if ink.fill is not None and ink.fill > 0.55 else 1.0)
    return [_ellipse(thing, pen, 1.0, ink), _ellipse(thing, pen, 0.3, shine)]


def _leaf(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    outline = _local(thing, pen, [(-1, 0), (-0.4, -1.3), (0.5, -1.1), (1, 0), (0.5, 1.1), (-0.4, 1.3), (-1, 0)])
    rib = _local(thing, pen, [(-1, 0), (0.8, 0)])
    return [_closed(outline, ink), Polygon(points=tuple(rib), closed=False, ink=_texture(ink))]


def _swoosh(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    outline = [(-1, 0.1), (-1, -0.7), (-0.6, -1), (-0.2, -1), (0.3, -1), (0.7, -0.6), (1, 0.15)]
    outline += [(0.6, -0.1), (0.3, 0.1), (0, 0.5), (-0.3, 0.95), (-1, 1), (-1, 0.1)]
    pull = _local(thing, pen, [(-0.75, 0), (-0.3, -0.7), (0.3, -0.6), (0.7, -0.15)])
    stroke = Curve(start=pull[0], pieces=((pull[1], pull[2], pull[3]),), closed=False, ink=_texture(ink))
    return [_closed(_local(thing, pen, outline), ink), stroke]


def _powder(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    grain = Ink(stroke=0.2, fill=1.0 if ink.fill is not None and ink.fill > 0.55 else 0.0, width=0.15)
    spots = [(0.95 * (k / 40) ** 0.5 * cos(k * _GOLDEN), 0.95 * (k / 40) ** 0.5 * sin(k * _GOLDEN)) for k in range(40)]
    return [
        Ellipse(centre=centre, rx=0.42 if k % 3 else 0.6, ry=0.42 if k % 3 else 0.6, ink=grain)
        for k, centre in enumerate(_local(thing, pen, spots))
    ]


def _pool(thing: Laid, ink: Ink, pen: Pen) -> list[Shape]:
    return [_ellipse(thing, pen, 1.0, Ink(fill=ink.fill, width=_EDGE, dash=(1.0, 0.8)))]


_DRAW: Final[dict[Form, Callable[[Laid, Ink, Pen], list[Shape]]]] = {
    Form.MOUND: _mound,
    Form.LINE: _line,
    Form.DISC: _disc,
    Form.PIECE: _piece,
    Form.DOTS: _dot,
    Form.LEAVES: _leaf,
    Form.SWOOSH: _swoosh,
    Form.POWDER: _powder,
    Form.POOL: _pool,
}
