"""The plan view of a plate as shapes in paper millimetres, seen from the guest's side, in true proportions."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, ceil, cos, hypot, pi, radians, sin
from typing import Final

from linebook.figures.foods import draw_food
from linebook.figures.leaders import assign_slots, choose_anchors
from linebook.figures.pen import Pen
from linebook.figures.shapes import Drawing, Ellipse, Ink, Label, Point, Polygon, Shape
from linebook.model.dish import Element
from linebook.model.house import Plate, PlateShape
from linebook.model.plating import Laid, lay_out

_ROUND: Final = (PlateShape.ROUND, PlateShape.OVAL, PlateShape.BOWL)
LARGE_WIDTH: Final = 150.0
LARGE_PLATE: Final = 96.0
SMALL_PLATE: Final = 54.0
NUMBER_RADIUS: Final = 3.6
_NUMBER_GAP: Final = 12.0
_GREYS: Final = (0.86, 0.42, 0.97, 0.66)


def draw_plate(plate: Plate, elements: Sequence[Element], *, small: bool, alternative: str) -> Drawing:
    """Draw a plate with its elements, bottom first. The large one carries numbers in plating order with leaders."""
    laid = lay_out(elements, plate)
    scale = (SMALL_PLATE if small else LARGE_PLATE) / max(float(plate.length), float(plate.width))
    half_length, half_width = float(plate.length) / 2 * scale, float(plate.width) / 2 * scale
    slots = [] if small else _slots(len(elements), half_length)
    tallest = max((abs(slot[1]) for slot in slots), default=0.0) + NUMBER_RADIUS + 1
    half_height = max(half_width + 5.0, tallest)
    width = 2 * half_length + 10.0 if small else LARGE_WIDTH
    centre = (width / 2, half_height)
    pen = Pen(centre=centre, scale=scale)
    shapes = [*_plate_shapes(plate, pen), *_food_shapes(elements, laid, pen)]
    if not small:
        shapes.extend(_leader_shapes(len(elements), laid, slots, pen))
    return Drawing(width=width, height=2 * half_height, shapes=tuple(shapes), alternative=alternative)


def _plate_shapes(plate: Plate, pen: Pen) -> list[Shape]:
    half_length, half_width, rim = float(plate.length) / 2, float(plate.width) / 2, float(plate.rim)
    edge, inner = Ink(width=0.55, fill=1.0), Ink(width=0.2, stroke=0.45)
    shapes: list[Shape] = [_outline(plate, half_length, half_width, edge, pen)]
    if rim > 0 and min(half_length, half_width) > rim:
        shapes.append(_outline(plate, half_length - rim, half_width - rim, inner, pen))
    for hour in range(12):
        angle = hour / 12 * 2 * pi
        dx, dy = sin(angle), -cos(angle)
        reach = _edge_distance(plate, dx, dy) * pen.scale
        tick = 3.2 if hour % 3 == 0 else 1.8
        ends = [(pen.centre[0] + dx * (reach + d), pen.centre[1] + dy * (reach + d)) for d in (0.9, 0.9 + tick)]
        shapes.append(Polygon(points=tuple(ends), closed=False, ink=Ink(width=0.25, stroke=0.3)))
    return shapes


def _edge_distance(plate: Plate, dx: float, dy: float) -> float:
    half_length, half_width = float(plate.length) / 2, float(plate.width) / 2
    if plate.shape in _ROUND:
        return 1 / hypot(dx / half_length, dy / half_width)
    return min(half / abs(part) for half, part in ((half_length, dx), (half_width, dy)) if abs(part) > 1e-9)


def _outline(plate: Plate, half_length: float, half_width: float, ink: Ink, pen: Pen) -> Shape:
    if plate.shape in _ROUND:
        return Ellipse(centre=pen.centre, rx=half_length * pen.scale, ry=half_width * pen.scale, ink=ink)
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return Polygon(points=tuple(pen.at(half_length * u, half_width * v) for u, v in corners), ink=ink)


def _food_shapes(elements: Sequence[Element], laid: Sequence[Laid], pen: Pen) -> list[Shape]:
    greys = _choose_greys(elements)
    shapes: list[Shape] = []
    for thing in laid:
        shapes.extend(draw_food(thing, greys[thing.element], pen))
    return shapes


def _choose_greys(elements: Sequence[Element]) -> list[float]:
    """Give each element a grey; one that stands on another differs from it by a quarter of the scale or more."""
    greys: list[float] = []
    for index, element in enumerate(elements):
        below = next((greys[k] for k in range(index) if elements[k].item == element.on), None)
        ring = _GREYS[index % len(_GREYS) :] + _GREYS[: index % len(_GREYS)]
        greys.append(next(grey for grey in ring if below is None or abs(grey - below) >= 0.25))
    return greys


def _slots(count: int, half_length: float) -> list[Point]:
    """Return places for numbers in two columns beside the plate, relative to its centre, in paper mm."""
    rows = max(1, ceil(count / 2))
    column = LARGE_WIDTH / 2 - NUMBER_RADIUS - 1
    gap = min(22.0, max(_NUMBER_GAP, 84.0 / rows))
    heights = [(row - (rows - 1) / 2) * gap for row in range(rows)]
    return [(side * max(column, half_length + 10), height) for height in heights for side in (-1, 1)]


def _leader_shapes(count: int, laid: Sequence[Laid], slots: Sequence[Point], pen: Pen) -> list[Shape]:
    anchors = choose_anchors([_candidates(index, laid, pen) for index in range(count)])
    absolute = [(slot[0] + pen.centre[0], slot[1] + pen.centre[1]) for slot in slots]
    shapes: list[Shape] = []
    for number, (anchor, slot) in enumerate(zip(anchors, assign_slots(anchors, absolute), strict=True), 1):
        away = atan2(anchor[1] - slot[1], anchor[0] - slot[0])
        start = (slot[0] + NUMBER_RADIUS * cos(away), slot[1] + NUMBER_RADIUS * sin(away))
        shapes.append(Polygon(points=(start, anchor), closed=False, ink=Ink(width=0.6, stroke=1.0)))
        shapes.append(Polygon(points=(start, anchor), closed=False, ink=Ink(width=0.25)))
        shapes.append(Ellipse(centre=anchor, rx=0.7, ry=0.7, ink=Ink(fill=0.0, stroke=1.0, width=0.2)))
        shapes.append(Ellipse(centre=slot, rx=NUMBER_RADIUS, ry=NUMBER_RADIUS, ink=Ink(fill=1.0, width=0.3)))
        shapes.append(Label(at=slot, text=str(number)))
    return shapes


def _candidates(index: int, laid: Sequence[Laid], pen: Pen) -> list[Point]:
    """Return points on an element, those not covered by later things first."""
    own = [thing for thing in laid if thing.element == index]
    later = [thing for thing in laid if thing.element > index]
    points: list[tuple[float, float]] = []
    for share in (0.0, 0.55, 0.8):
        for thing in own:
            steps = 1 if share == 0.0 else 12
            points.extend(_inside(thing, share, k * 2 * pi / steps) for k in range(steps))
    seen = [point for point in points if not any(_covers(thing, point) for thing in later)]
    return [pen.at(*point) for point in (seen or points)]


def _inside(thing: Laid, share: float, angle: float) -> tuple[float, float]:
    u, v = share * thing.length / 2 * cos(angle), share * thing.width / 2 * sin(angle)
    c, s = cos(radians(thing.turn)), sin(radians(thing.turn))
    return (thing.x + u * c - v * s, thing.y + u * s + v * c)


def _covers(thing: Laid, point: tuple[float, float]) -> bool:
    c, s = cos(radians(thing.turn)), sin(radians(thing.turn))
    dx, dy = point[0] - thing.x, point[1] - thing.y
    u, v = dx * c + dy * s, -dx * s + dy * c
    return hypot(u / (thing.length / 2 + 1), v / (thing.width / 2 + 1)) < 1
