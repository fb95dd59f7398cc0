"""Puts drawings of shapes in millimetres, and photographs, on paper, scaled down where their place is smaller.

Owns the turning of shapes into path operators. It must not know what a drawing shows. Points.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from itertools import chain
from math import cos, radians, sin
from typing import TYPE_CHECKING, Final, TypeAlias

from linebook.figures.shapes import Curve, Drawing, Ellipse, Ink, Label, Picture, Point, Polygon
from linebook.markup.blocks import FigureRef
from linebook.pdf.pieces import Op, Photo, Sketch, Strip, Words, joined

if TYPE_CHECKING:
    from linebook.pdf.layout import Layout

_POINTS_PER_MM: Final = 72 / 25.4
_CIRCLE: Final = 0.5522847498
_SMALLEST: Final = 0.62
_SMALLEST_OF_TEN: Final = 0.76
_GIVES_WAY: Final = 0.56
"""How far a drawing is scaled down on a full page: by this part of what its spaces lose, never under the other."""

_COARSEST: Final = 72
"""Dots an inch: a photograph of few dots is not printed larger than this."""

_THINNEST: Final = 0.15
"""Millimetres. A thinner line vanishes on an office printer."""

_LIGHT: Final = 0.8
_DARK: Final = 0.2
_HATCHING: Final = 0.3
"""Greys: a line lighter than the first is of the second where areas are left white, if it is this wide at most (mm)."""

_Form: TypeAlias = tuple[object, ...]

Sketched: TypeAlias = tuple[str | Label, ...]
"""A drawing's code in millimetres, broken where a label is set."""


def figure_items(
    layout: Layout, block: FigureRef, figures: Mapping[str, Drawing | Picture], width: float
) -> list[Strip]:
    """Return a drawing or a photograph, centred, with its caption kept under it."""
    theme = layout.theme
    figure = figures[block.name]
    tight = max(_smallest(figure), 1 - (1 - layout.density.space) * _GIVES_WAY)
    if isinstance(figure, Picture):
        strips = [_photo(figure, width, theme.spaces.figure_small * tight * theme.enlarged)]
    else:
        tallest = theme.spaces.figure_small if block.role == "small" else theme.spaces.figure_large
        natural = _POINTS_PER_MM * tight * theme.enlarged
        scale = min(natural, width / figure.width, tallest / figure.height)
        left = (width - figure.width * scale) / 2
        strips = [Strip(figure.height * scale, tuple(draw(layout, figure, scale, left)))]
    style = theme.styles.caption
    words = layout.lines.words(block.caption, style)
    strips += layout.flow(words, style, width, before=theme.spaces.caption_gap, centred=True)
    return [joined(strips)._replace(before=layout.space(theme.spaces.figure_before))]


def _smallest(figure: Drawing | Picture) -> float:
    """Return how far a figure may be scaled down: the rings of its numbers keep room for these, whose size stays."""
    labels = [one for one in figure.shapes if isinstance(one, Label)] if isinstance(figure, Drawing) else []
    return _SMALLEST_OF_TEN if any(len(label.text) > 1 for label in labels) else _SMALLEST


def _photo(picture: Picture, width: float, tallest: float) -> Strip:
    """Return a photograph as wide as its place, unless it is too tall for that or would be all dots."""
    coarsest = picture.width_px * 72 / _COARSEST
    wide = min(width, tallest * picture.width_px / picture.height_px, coarsest)
    high = wide * picture.height_px / picture.width_px
    return Strip(high, (Photo((width - wide) / 2, 0.0, wide, high, picture),))


def draw(layout: Layout, drawing: Drawing, scale: float, left: float) -> list[Op]:
    """Return the operators of a drawing whose top left corner is at ``left``, 0."""
    known = layout.sketches.get(id(drawing))
    if known is None:
        known = layout.sketches[id(drawing)] = (drawing, _sketched(drawing, outlined=layout.theme.outlined))
    return [
        Sketch(left, 0, one, scale) if isinstance(one, str) else _label(layout, one, scale, left) for one in known[1]
    ]


def _sketched(drawing: Drawing, *, outlined: bool) -> Sketched:
    """Return the paths between two labels as code in millimetres, and the labels."""
    made: list[str | Label] = []
    paths: list[str] = []
    form: _Form = ()
    path = ""
    for shape in drawing.shapes:
        if isinstance(shape, Label):
            made += ["\n".join(paths)] if paths else []
            made.append(shape)
            paths = []
            continue
        pen, end = _pen(shape.ink, closed=isinstance(shape, Ellipse) or shape.closed, outlined=outlined)
        if end:
            before, form = form, _form(shape)
            if form != before:  # an edge is drawn twice, first in white
                path = _path(shape)
            paths.append(f"{pen} {path} {end}")
    made += ["\n".join(paths)] if paths else []
    return tuple(made)


def _label(layout: Layout, label: Label, scale: float, left: float) -> Words:
    styles = layout.theme.styles
    style = styles.number if label.role == "number" else styles.caption
    setting = layout.lines.setting(style)
    if layout.theme.enlarged > 1:  # the ring round a number is part of the drawing, and may not have grown as much
        larger = max(1.0, scale / _POINTS_PER_MM)
        setting = setting._replace(size=setting.size / layout.theme.enlarged * larger)
    face = layout.faces[setting.face]
    part = {"start": 0.0, "middle": 0.5, "end": 1.0}[label.align]
    x = left + label.at[0] * scale - face.width(label.text) * setting.size * part
    return Words(x, label.at[1] * scale + face.capital * setting.size / 2, ((setting, label.text),))


def _bare(ink: Ink) -> Ink:
    """Return an ink that leaves areas white, still hiding what they lie on; what was only filled gets a line.

    Thin white lines, which are hatching on a dark area, are dark on the bare one; a broad one parts what crosses.
    """
    if ink.fill is None:
        hatching = ink.stroke is not None and ink.stroke > _LIGHT and ink.width <= _HATCHING
        return replace(ink, stroke=_DARK) if hatching else ink
    unseen = ink.fill < 1 and (ink.stroke is None or ink.stroke > _LIGHT)
    return replace(ink, fill=1.0, stroke=0.0 if unseen else ink.stroke)


@cache
def _pen(ink: Ink, *, closed: bool, outlined: bool) -> tuple[str, str]:
    """Return the operators of an ink, and those that end a path, '' where nothing of it would be seen.

    A drawing has few inks, and many shapes of each.
    """
    ink = _bare(ink) if outlined else ink
    parts = []
    if ink.stroke is not None:
        parts.append(f"{ink.stroke:.3g} G {max(ink.width, _THINNEST):.4g} w")
        parts.append(f"[{' '.join(f'{length:.4g}' for length in ink.dash)}] 0 d")
    if ink.fill is not None:
        parts.append(f"{ink.fill:.3g} g")
    painted = "" if ink.stroke is None else "S"
    if ink.fill is not None:
        painted = "f" if ink.stroke is None else "B"
    return " ".join(parts), f"h {painted}" if painted and closed else painted


def _form(shape: Ellipse | Polygon | Curve) -> _Form:
    """Return all that a path depends on."""
    if isinstance(shape, Ellipse):
        return (shape.centre, shape.rx, shape.ry, shape.turn)
    return (shape.points,) if isinstance(shape, Polygon) else (shape.start, shape.pieces)


def _path(shape: Ellipse | Polygon | Curve) -> str:
    if isinstance(shape, Ellipse):
        return _ellipse(shape)
    return _polygon(shape) if isinstance(shape, Polygon) else _curve(shape)


def _polygon(shape: Polygon) -> str:
    form = "%.2f %.2f m" + " %.2f %.2f l" * (len(shape.points) - 1)
    return form % tuple(chain.from_iterable(shape.points))


def _curve(shape: Curve) -> str:
    points = chain(shape.start, *(chain.from_iterable(piece) for piece in shape.pieces))
    form = "%.2f %.2f m" + " %.2f %.2f %.2f %.2f %.2f %.2f c" * len(shape.pieces)
    return form % tuple(points)


def _upright(shape: Ellipse) -> str:
    """Return an ellipse that is not turned: each of its lengths is written four times, and formatted once."""
    (x, y), rx, ry = shape.centre, shape.rx, shape.ry
    left, right, middle = f"{x - rx:.2f}", f"{x + rx:.2f}", f"{x + 0.0:.2f}"
    top, bottom, level = f"{y - ry:.2f}", f"{y + ry:.2f}", f"{y + 0.0:.2f}"
    nearer, further = f"{x - _CIRCLE * rx:.2f}", f"{x + _CIRCLE * rx:.2f}"
    higher, lower = f"{y - _CIRCLE * ry:.2f}", f"{y + _CIRCLE * ry:.2f}"
    return (
        f"{right} {level} m {right} {lower} {further} {bottom} {middle} {bottom} c "
        f"{nearer} {bottom} {left} {lower} {left} {level} c "
        f"{left} {higher} {nearer} {top} {middle} {top} c "
        f"{further} {top} {right} {higher} {right} {level} c"
    )


def _ellipse(shape: Ellipse) -> str:
    """Return four Bézier quarters, turned clockwise as the eye sees it: y runs downwards."""
    if not shape.turn:
        return _upright(shape)
    c, s = cos(radians(shape.turn)), sin(radians(shape.turn))

    def at(u: float, v: float) -> Point:
        dx, dy = u * shape.rx, v * shape.ry
        return (shape.centre[0] + dx * c - dy * s, shape.centre[1] + dx * s + dy * c)

    k = _CIRCLE
    quarters = (
        ((1, k), (k, 1), (0, 1)),
        ((-k, 1), (-1, k), (-1, 0)),
        ((-1, -k), (-k, -1), (0, -1)),
        ((k, -1), (1, -k), (1, 0)),
    )
    pieces = tuple((at(*a), at(*b), at(*end)) for a, b, end in quarters)
    return _curve(Curve(start=at(1, 0), pieces=pieces))
