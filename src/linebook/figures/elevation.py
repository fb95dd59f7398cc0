"""The side view of a plate as shapes in paper millimetres: layers bottom to top as the guest sees them, the plate cut.

Drawn to the scale of the plan beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import islice
from math import cos, hypot, pi, radians, sin
from typing import Final, TypeAlias

from linebook.figures.leaders import NUMBER_RADIUS, Ends, arch, leader_shapes, place_leaders
from linebook.figures.looks import Look, hatching, texture
from linebook.figures.outlines import Bounds, Lying, Outline, bounds_of, contains, covered
from linebook.figures.pen import Pen
from linebook.figures.plates import BESIDE, Room, laid_out, scale_of
from linebook.figures.shapes import Drawing, Ellipse, Ink, Point, Polygon, Shape
from linebook.model.dish import Element
from linebook.model.dish import Shape as Form
from linebook.model.house import Plate, PlateShape
from linebook.model.standing import Standing, depth, reach_at, stand, surface
from linebook.source.frozen import frozen

SIDE: Final = Room(width=67.2, plate=BESIDE.plate)
"""Beside the plan: its width is to the plan's as the columns of the sheet are, so that both keep one scale."""

_EDGE: Final = 0.3
_THINNEST: Final = 0.7
"""Paper mm: the least height a layer is drawn with, since a thinner one is a line."""

_CLAY: Final = 4.0
"""How thick the cut plate is drawn, in mm of the plate."""

_FOOT: Final = 0.55
_GAP: Final = 9.6
_CLEAR: Final = NUMBER_RADIUS + 2.0
_RISES: Final = (0.0, 4.0, 8.0, 13.0, 19.0, 26.0, 34.0, 44.0, 56.0, 70.0)
_BELOW: Final = 8.0
_STEPS: Final = 10
_ACROSS: Final = 16
_MOST_ENDS: Final = 40


Spot: TypeAlias = tuple[float, float]
"""A place on a thing seen from the side, in parts of its width from the left and of its height from below."""

_SPOTS: Final = tuple(
    (across, up) for up in (0.6, 0.85, 0.3, 0.97, 0.1) for across in (0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95, 0.4, 0.6)
)
"""Where on a thing a number may point, the best first."""


@frozen(kw_only=False)
class _Layer:
    """One thing seen from the side: its outline in paper mm from the middle of the plate's floor, y downwards.

    ``spots`` are those of its shape: how wide and how high it is drawn makes no difference to them.
    """

    element: int
    form: Form
    outline: Outline
    bounds: Bounds
    spots: frozenset[Spot]


def draw_elevation(plate: Plate, elements: Sequence[Element], *, alternative: str, room: Room = SIDE) -> Drawing:
    """Draw a plate from the guest's side with its elements, numbered as on the plan."""
    things, looks = laid_out(plate, elements)
    heights = stand(elements, [one.thing for one in things], plate)
    scale = scale_of(plate, room.plate)
    layers = _layers(things, heights, plate, scale)
    profile = _profile(plate, scale)
    seen = [Ends(islice(_seen(index, layers, profile), _MOST_ENDS)) for index in range(len(elements))]
    ends = [points or Ends(_anywhere(index, layers)) for index, points in enumerate(seen)]
    leaders = place_leaders(ends, _layouts(len(elements), layers, profile, room))
    top = max(-slot[1] for slot, _ in leaders) + NUMBER_RADIUS + 0.5
    centre = (room.width / 2, top)
    pen = Pen(centre=centre, scale=1.0)
    shapes: list[Shape] = []
    for layer in layers:
        shapes += _layer_shapes(layer, looks[layer.element], pen)
    shapes.append(Polygon(points=_on_paper(profile, pen), ink=Ink(fill=0.93, width=0.4)))
    for index in range(len(elements)):
        if not seen[index]:
            dashed = Ink(width=0.3, dash=(0.7, 0.7))
            shapes += [
                Polygon(points=_on_paper(one.outline, pen), ink=dashed) for one in layers if one.element == index
            ]
    shapes += leader_shapes([(pen.at(*slot), pen.at(*anchor)) for slot, anchor in leaders])
    bottom = max(*(y + 1 for _, y in profile), *(slot[1] + NUMBER_RADIUS + 0.5 for slot, _ in leaders))
    return Drawing(width=room.width, height=top + bottom, shapes=tuple(shapes), alternative=alternative)


def _layers(things: Sequence[Lying], heights: Sequence[Standing], plate: Plate, scale: float) -> list[_Layer]:
    """Return the things from the back of the plate to the guest; of those as far away, the first plated first."""
    layers = []
    for at in sorted(range(len(things)), key=lambda at: (round(things[at].thing.y, 1), at)):
        thing, height = things[at].thing, heights[at]
        left, _, right, _ = things[at].bounds
        if thing.shape not in (Form.PIECE, Form.DISC, Form.LINE):
            side = reach_at(plate, (height.bottom + height.top) / 2)
            left, right = max(left, -side), min(right, side)
        backwards = cos(radians(thing.turn)) < 0
        unit = _side(thing.shape, backwards)
        tall = max((height.top - height.bottom) * scale, _THINNEST)
        middle, half = (left + right) / 2 * scale, (right - left) / 2 * scale
        outline = tuple((middle + u * half, -height.bottom * scale - v * tall) for u, v in unit)
        spots = _spots_on(thing.shape, backwards)
        layers.append(_Layer(thing.element, thing.shape, outline, bounds_of(outline), spots))
    return layers


@cache
def _side(form: Form, backwards: bool) -> Outline:
    """Return a shape from the side, across from -1 to 1 and up from 0 to 1."""
    turn = -1 if backwards else 1
    if form is Form.SWOOSH:
        return tuple(
            (turn * u, v) for u, v in ((-1, 0), (-1, 0.55), (-0.8, 0.95), (-0.5, 1), (0.2, 0.45), (1, 0.1), (1, 0))
        )
    if form in (Form.MOUND, Form.DOTS, Form.LEAVES, Form.POOL):
        angles = [pi - pi * k / _STEPS for k in range(_STEPS + 1)]
        return tuple((round(cos(angle), 4), round(sin(angle), 4)) for angle in angles)
    return ((-1, 0), (-1, 1), (1, 1), (1, 0))


@cache
def _spots_on(form: Form, backwards: bool) -> frozenset[Spot]:
    outline = _side(form, backwards)
    return frozenset((across, up) for across, up in _SPOTS if contains(outline, (2 * across - 1, up)))


def _layer_shapes(layer: _Layer, look: Look, pen: Pen) -> list[Shape]:
    points = _on_paper(layer.outline, pen)
    if layer.form is Form.POWDER:
        return _grains(layer, look, pen)
    dash = (1.0, 0.8) if layer.form is Form.POOL else ()
    shapes: list[Shape] = [
        Polygon(points=points, ink=Ink(stroke=1.0, width=0.8)),
        Polygon(points=points, ink=Ink(fill=look.grey, width=_EDGE, dash=dash)),
        *hatching(points, look),
    ]
    left, top, right, bottom = layer.bounds
    if layer.form is Form.PIECE and bottom - top > 2.5:
        for part in (0.35, 0.65):
            level = top + (bottom - top) * part
            ends = _on_paper(((left + 0.8, level), (right - 0.8, level)), pen)
            shapes.append(Polygon(points=ends, closed=False, ink=texture(look.grey)))
    return shapes


def _grains(layer: _Layer, look: Look, pen: Pen) -> list[Shape]:
    left, top, right, bottom = layer.bounds
    ink = Ink(stroke=0.2, fill=1.0 if look.grey > 0.55 else 0.0, width=0.15)
    count = max(2, int((right - left) / 1.1))
    return [
        Ellipse(
            centre=pen.at(left + (right - left) * (k + 0.5) / count, bottom - (bottom - top) * (0.3, 0.7)[k % 2]),
            rx=0.4,
            ry=0.4,
            ink=ink,
        )
        for k in range(count)
    ]


def _profile(plate: Plate, scale: float) -> Outline:
    """Return the plate cut through its middle: its surface from left to right, then its underside."""
    half = float(plate.length) / 2
    inner = half - float(plate.rim) if float(plate.rim) < half else half
    curved = range(-_ACROSS, _ACROSS + 1) if depth(plate) else (-_ACROSS, _ACROSS)
    stops = [-half, *(inner * k / _ACROSS for k in curved), half]
    flat = plate.shape is PlateShape.BOARD
    above = [(x * scale, -surface(plate, x, 0.0) * scale) for x in dict.fromkeys(stops)]
    foot = half if flat else half * _FOOT
    base = max(_CLAY * scale, 1.0)
    below = [(foot * scale, base), (-foot * scale, base)]
    edge = above[-1][1] + base * (1.0 if flat else 0.6)
    if not flat and depth(plate) == 0:
        below = [(inner * scale, base * 0.6), *below, (-inner * scale, base * 0.6)]
    return (*above, (half * scale, edge), *below, (-half * scale, edge))


def _layouts(count: int, layers: Sequence[_Layer], profile: Outline, room: Room) -> Iterator[list[Point]]:
    """Yield arches of places over the plate, the lowest first, then with places under it too; all stand clear."""
    obstacles = [*((one.outline, one.bounds) for one in layers), (profile, bounds_of(profile))]
    highest = -min(top for _, (_, top, _, _) in obstacles)
    lowest = max(y for _, y in profile)
    for under in (False, True):
        below = [(x, lowest + _CLEAR + 2.0 - y) for x, y in arch(room.column, _BELOW, _GAP)] if under else []
        for more in _RISES:
            places = [*arch(room.column, highest + _CLEAR + 3.0 + more, _GAP), *below]
            free = [place for place in places if _clear(place, obstacles)]
            if len(free) >= count:
                yield free


def _clear(place: Point, obstacles: Sequence[tuple[Outline, Bounds]]) -> bool:
    """Say whether a number at a place stands clear of everything drawn."""
    x, y = place
    for outline, (left, top, right, bottom) in obstacles:
        if left - _CLEAR < x < right + _CLEAR and top - _CLEAR < y < bottom + _CLEAR:
            pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
            if contains(outline, place) or not all(_away(place, start, end) >= _CLEAR for start, end in pairs):
                return False
    return True


def _away(point: Point, start: Point, end: Point) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = dx * dx + dy * dy or 1.0
    along = min(1.0, max(0.0, ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / length))
    return hypot(point[0] - start[0] - along * dx, point[1] - start[1] - along * dy)


def _seen(index: int, layers: Sequence[_Layer], profile: Outline) -> Iterator[Point]:
    """Yield points on an element from the side that nothing in front of it covers."""
    others = [(at, one.outline, one.bounds) for at, one in enumerate(layers) if one.element != index]
    cut = (profile, bounds_of(profile))
    in_front: dict[int, list[tuple[Outline, Bounds]]] = {}
    for at, point in _spots(index, layers):
        if at not in in_front:
            in_front[at] = [*((outline, bounds) for place, outline, bounds in others if place > at), cut]
        if not covered(point, in_front[at]):
            yield point


def _anywhere(index: int, layers: Sequence[_Layer]) -> Iterator[Point]:
    return (point for _, point in _spots(index, layers))


def _spots(index: int, layers: Sequence[_Layer]) -> Iterator[tuple[int, Point]]:
    """Yield points on the things of an element, each with the place of its layer."""
    own = [(at, layer) for at, layer in enumerate(layers) if layer.element == index]
    for spot in _SPOTS:
        across, up = spot
        for at, layer in own:
            if spot in layer.spots:
                left, top, right, bottom = layer.bounds
                yield at, (left + (right - left) * across, bottom - (bottom - top) * up)


def _on_paper(points: Sequence[Point], pen: Pen) -> tuple[Point, ...]:
    return tuple(pen.all(points))
