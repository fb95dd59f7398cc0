"""Drawings as SVG inside a page, and photographs as part of it.

Owns the turning of shapes into SVG. It must not know what a drawing shows. Lengths are the drawing's millimetres.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from math import ceil
from typing import Final

from linebook.figures.shapes import Curve, Drawing, Ellipse, Ink, Label, Picture, Point, Polygon, Shape
from linebook.screen.spelling import spelt

_THINNEST: Final = 0.3
"""A thinner line is lost where a plate of 150 mm is as wide as a phone."""

_PIXELS_PER_MM: Final = 4
_PHONE: Final = 312
"""CSS pixels that a drawing has on the narrowest phone, 320 wide."""

_LEAST_TYPE: Final = 16
_TYPE: Final = 4.2
"""The size of a label where there is room, in the drawing's millimetres; a ring holds one a third as large again."""

_RING_HOLDS: Final = 5.5
_RING: Final = 0.7


def drawing_html(drawing: Drawing, *, key: str, title: str, alternative: str) -> str:
    """Return a drawing with its title and what it shows in words; ``key`` is its own on the page, all given plain."""
    centres = {shape.at for shape in drawing.shapes if isinstance(shape, Label)}
    shapes = "".join(_shape(shape, centres) for shape in drawing.shapes)
    return (
        f'<svg id="{key}" viewBox="0 0 {_number(drawing.width)} {_number(drawing.height)}" role="img" '
        f'aria-labelledby="{key}-title {key}-words">'
        f'<title id="{key}-title">{spelt(title)}</title><desc id="{key}-words">{spelt(alternative)}</desc>'
        f"{shapes}</svg>"
    )


def drawing_rules(drawings: Mapping[str, Drawing]) -> str:
    """Return the style of a page's drawings by their keys: all to one scale, their labels never too small to read.

    They are shown at four pixels to a millimetre; on a phone the widest is as wide as the page.
    """
    if not drawings:
        return ""
    widest = max(drawing.width for drawing in drawings.values())
    size = max(_TYPE, ceil(10 * _LEAST_TYPE * widest / _PHONE) / 10)
    rules = [f"#{key} {{ width: {_number(one.width * _PIXELS_PER_MM)}px; }}\n" for key, one in drawings.items()]
    rules.append("@media (max-width: 39.99rem) {\n")
    for key, one in drawings.items():
        rules.append(f"  #{key} {{ width: {_number(100 * one.width / widest)}%; }}\n")
        rules.append(f"  #{key} text {{ font-size: {_number(size)}px; }}\n")
        if size > _RING_HOLDS:
            rules.append(f"  #{key} .round {{ rx: {_number(size * _RING)}px; ry: {_number(size * _RING)}px; }}\n")
    return "".join((*rules, "}\n"))


def picture_html(picture: Picture, *, alternative: str) -> str:
    """Return a photograph that is part of the page itself."""
    content = b64encode(picture.content).decode("ascii")
    return (
        f'<img src="data:image/{picture.kind};base64,{content}" width="{picture.width_px}" '
        f'height="{picture.height_px}" alt="{spelt(alternative)}"/>'
    )


def _shape(shape: Shape, centres: set[Point]) -> str:
    match shape:
        case Label():
            x, y = shape.at
            kind = shape.role if shape.align == "middle" else f"{shape.role} {shape.align}"
            return f'<text class="{spelt(kind)}" x="{_number(x)}" y="{_number(y)}">{spelt(shape.text)}</text>'
        case Ellipse():
            return _ellipse(shape, ring=shape.centre in centres)
        case Polygon():
            points = " ".join(f"{_number(x)},{_number(y)}" for x, y in shape.points)
            return f'<{"polygon" if shape.closed else "polyline"} points="{points}"{_ink(shape.ink)}/>'
        case Curve():
            pieces = "".join(f"C{' '.join(_point(point) for point in piece)}" for piece in shape.pieces)
            end = "Z" if shape.closed else ""
            return f'<path d="M{_point(shape.start)}{pieces}{end}"{_ink(shape.ink)}/>'


def _ellipse(shape: Ellipse, *, ring: bool) -> str:
    """Return an ellipse; a ``ring`` round a label grows with it where the drawing is small."""
    x, y = shape.centre
    kind = ' class="round"' if ring else ""
    turned = f' transform="rotate({_number(shape.turn)} {_number(x)} {_number(y)})"' if shape.turn else ""
    return (
        f'<ellipse{kind} cx="{_number(x)}" cy="{_number(y)}" rx="{_number(shape.rx)}" ry="{_number(shape.ry)}"'
        f"{turned}{_ink(shape.ink)}/>"
    )


def _ink(ink: Ink) -> str:
    parts = [f' fill="{_grey(ink.fill)}"']
    if ink.stroke is not None:
        parts.append(f' stroke="{_grey(ink.stroke)}" stroke-width="{_number(max(ink.width, _THINNEST))}"')
        if ink.dash:
            parts.append(f' stroke-dasharray="{" ".join(_number(length) for length in ink.dash)}"')
    return "".join(parts)


def _grey(grey: float | None) -> str:
    if grey is None:
        return "none"
    level = round(min(max(grey, 0.0), 1.0) * 255)
    return f"#{level:02x}{level:02x}{level:02x}"


def _point(point: Point) -> str:
    return f"{_number(point[0])} {_number(point[1])}"


def _number(value: float) -> str:
    """Return a number to two places, without zeros that say nothing."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
