"""Where elements lie on a plate, in millimetres: owns the geometry that both the check and the drawing use.

The plate's centre is (0, 0), x grows to the right and y towards the guest, who sits at 6 o'clock.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, degrees, hypot, pi, radians, sin
from typing import Final

from linebook.model.amounts import Kind
from linebook.model.dish import Element, Place, Shape
from linebook.model.house import Plate, PlateShape
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

# Length and width of one, in mm, where the spec gives no size (common practice, no source).
DRAWN_SIZE: Final = {
    Shape.MOUND: (50.0, 50.0),
    Shape.LINE: (100.0, 14.0),
    Shape.DISC: (35.0, 35.0),
    Shape.PIECE: (60.0, 35.0),
    Shape.DOTS: (10.0, 10.0),
    Shape.LEAVES: (26.0, 13.0),
    Shape.SWOOSH: (110.0, 34.0),
    Shape.POWDER: (55.0, 55.0),
    Shape.POOL: (75.0, 75.0),
}
MOST_DRAWN: Final = 24
_ANGULAR = (PlateShape.SQUARE, PlateShape.RECTANGLE, PlateShape.BOARD)
_STRAIGHT = (Shape.PIECE, Shape.LINE)
_STRETCHED = (Shape.LINE, Shape.SWOOSH)
_COUNTED = (Shape.PIECE, Shape.DISC, Shape.DOTS, Shape.LEAVES, Shape.MOUND)


@frozen
class Laid:
    """One drawn thing: its centre, length, width (mm) and turn (degrees clockwise)."""

    element: int
    shape: Shape
    x: float
    y: float
    length: float
    width: float
    turn: float

    def outline(self) -> tuple[tuple[float, float], ...]:
        """Return points around the thing's edge."""
        half_length, half_width = self.length / 2, self.width / 2
        if self.shape in _STRAIGHT:
            corners = ((-1, -1), (0, -1), (1, -1), (1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0))
            local = [(half_length * u, half_width * v) for u, v in corners]
        else:
            local = [(half_length * cos(k * pi / 8), half_width * sin(k * pi / 8)) for k in range(16)]
        c, s = cos(radians(self.turn)), sin(radians(self.turn))
        return tuple((self.x + u * c - v * s, self.y + u * s + v * c) for u, v in local)


def lay_out(elements: Sequence[Element], plate: Plate) -> tuple[Laid, ...]:
    """Return every drawn thing of a dish in plating order; an element that names no place goes to the centre."""
    laid: list[Laid] = []
    for index, element in enumerate(elements):
        laid.extend(_lay(index, element, plate, elements, laid))
    return tuple(laid)


def overhang(thing: Laid, plate: Plate) -> float:
    """Return how far, in mm, a thing reaches beyond the plate's edge; 0 where it stays on."""
    half_length, half_width = float(plate.length) / 2, float(plate.width) / 2
    if hypot(thing.x, thing.y) + hypot(thing.length, thing.width) / 2 <= min(half_length, half_width):
        return 0.0  # as nearly everything lies
    worst = 0.0
    for x, y in thing.outline():
        if plate.shape in _ANGULAR:
            over = max(abs(x) - half_length, abs(y) - half_width)
        else:
            reach = hypot(x / half_length, y / half_width)
            over = hypot(x, y) * (1 - 1 / reach) if reach > 1 else 0.0
        worst = max(worst, over)
    return worst if worst > 0.05 else 0.0


def shape_of(element: Element) -> Shape:
    """Return the shape an element is drawn in: as named, else pieces for counts and a mound for weights."""
    if element.shape is not None:
        return element.shape
    return Shape.PIECE if element.amount.unit.kind is Kind.COUNT else Shape.MOUND


def _lay(
    index: int, element: Element, plate: Plate, elements: Sequence[Element], laid: Sequence[Laid]
) -> tuple[Laid, ...]:
    shape = shape_of(element)
    length, width = DRAWN_SIZE[shape] if element.size is None else (float(element.size[0]), float(element.size[1]))
    turn = float(element.turned or 0)
    base = _base_of(element, elements, laid)
    if shape in _STRETCHED and len(element.places) >= 2:
        start, end = (point_at(place, element.reach, plate) for place in element.places[:2])
        run = hypot(end[0] - start[0], end[1] - start[1])
        angle = degrees(atan2(end[1] - start[1], end[0] - start[0]))
        centre = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        return (_laid(index, shape, centre, max(run, width), width, angle),)
    if element.places:
        anchors = [point_at(place, element.reach, plate) for place in element.places]
    elif base:
        anchors = [(thing.x, thing.y) for thing in base]
    else:
        anchors = [(0.0, 0.0)]
    if not element.places and len(base) == 1 and not element.turned:
        turn = base[0].turn
    count = _how_many(element, shape, len(anchors))
    spots = _spread(anchors, count, length, width, shape)
    return tuple(_laid(index, shape, spot, length, width, turn) for spot in spots)


def _laid(index: int, shape: Shape, spot: tuple[float, float], length: float, width: float, turn: float) -> Laid:
    return Laid(element=index, shape=shape, x=spot[0], y=spot[1], length=length, width=width, turn=turn)


def _base_of(element: Element, elements: Sequence[Element], laid: Sequence[Laid]) -> list[Laid]:
    if element.on is None:
        return []
    return [thing for thing in laid if elements[thing.element].item == element.on]


def _how_many(element: Element, shape: Shape, anchors: int) -> int:
    if shape not in _COUNTED:
        return anchors
    if element.amount.unit.kind is Kind.COUNT:
        return max(1, min(MOST_DRAWN, round(element.amount.number)))
    least = {Shape.DOTS: 5, Shape.LEAVES: 3}.get(shape, 1)
    return anchors if anchors > 1 else least


def _spread(
    anchors: Sequence[tuple[float, float]], count: int, length: float, width: float, shape: Shape
) -> list[tuple[float, float]]:
    """Deal ``count`` things out over the anchors; those that share an anchor stand side by side."""
    if count < len(anchors):
        return list(anchors[:count])
    spots: list[tuple[float, float]] = []
    for position, (x, y) in enumerate(anchors):
        here = count // len(anchors) + (1 if position < count % len(anchors) else 0)
        spots.extend((x + dx, y + dy) for dx, dy in _cluster(here, length, width, shape))
    return spots


def _cluster(count: int, length: float, width: float, shape: Shape) -> list[tuple[float, float]]:
    if count == 1:
        return [(0.0, 0.0)]
    if count <= 3 and shape in _STRAIGHT:
        step = width * 1.15
        return [(0.0, (k - (count - 1) / 2) * step) for k in range(count)]
    step = max(length, width) * (1.1 if shape is not Shape.LEAVES else 0.9)
    if count <= 6:
        radius = step / (2 * sin(pi / count))
        return [(radius * sin(2 * pi * k / count), -radius * cos(2 * pi * k / count)) for k in range(count)]
    golden = pi * (3 - 5**0.5)
    return [(step * 0.62 * k**0.5 * cos(k * golden), step * 0.62 * k**0.5 * sin(k * golden)) for k in range(count)]


def point_at(place: Place, reach: Fraction | None, plate: Plate) -> tuple[float, float]:
    """Return the point of a place: ``reach`` (half where not given) of the way to the inner rim on its clock ray."""
    if place.clock is None:
        return (0.0, 0.0)
    angle = float(place.clock) / 12 * 2 * pi
    dx, dy = sin(angle), -cos(angle)
    half_length = max(1.0, float(plate.length) / 2 - float(plate.rim))
    half_width = max(1.0, float(plate.width) / 2 - float(plate.rim))
    if plate.shape in _ANGULAR:
        limits = [half / abs(part) for half, part in ((half_length, dx), (half_width, dy)) if abs(part) > 1e-9]
        ray = min(limits)
    else:
        ray = 1 / hypot(dx / half_length, dy / half_width)
    out = float(Fraction(1, 2) if reach is None else reach) * ray
    return (out * dx, out * dy)
