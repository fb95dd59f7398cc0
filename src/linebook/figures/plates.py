"""The plan view of a plate as shapes in paper millimetres, seen from the guest's side, in true proportions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice, product
from math import ceil, cos, hypot, pi, sin
from typing import Final

from linebook.figures.foods import draw_food, draw_hidden
from linebook.figures.leaders import NUMBER_RADIUS, Ends, Leader, arch, columns, leader_shapes, place_leaders
from linebook.figures.looks import Look, choose_looks
from linebook.figures.outlines import RINGS, Lying, contains, covered, lying, placed, spots_on
from linebook.figures.pen import Pen, to_micron
from linebook.figures.shapes import Drawing, Ellipse, Ink, Point, Polygon, Shape
from linebook.model.dish import Element
from linebook.model.dish import Shape as Form
from linebook.model.house import Plate, PlateShape
from linebook.model.plating import lay_out
from linebook.source.frozen import frozen

_ROUND: Final = (PlateShape.ROUND, PlateShape.OVAL, PlateShape.BOWL)
SMALL_PLATE: Final = 54.0
_TICKS: Final = 5.0
_NUMBER_GAP: Final = 10.0
_WIDEST_GAP: Final = 22.0
_MOST_ENDS: Final = 24
_DENSE: Final = 28


@frozen
class Room:
    """The millimetres a numbered drawing is given: its whole width, and the longest side of the plate in it."""

    width: float
    plate: float

    @property
    def column(self) -> float:
        """Return how far from the middle the numbers beside a plate stand."""
        return self.width / 2 - NUMBER_RADIUS - 1


LARGE: Final = Room(width=150.0, plate=96.0)
BESIDE: Final = Room(width=92.8, plate=64.0)
"""The plan's room where a side view or a photograph stands beside it."""


def scale_of(plate: Plate, longest: float) -> float:
    """Return paper mm per mm of the plate where its longest side is drawn ``longest`` mm long."""
    return longest / max(float(plate.length), float(plate.width))


def draw_plate(
    plate: Plate, elements: Sequence[Element], *, small: bool, alternative: str, room: Room = LARGE
) -> Drawing:
    """Draw a plate with its elements, bottom first. The large one carries numbers in plating order with leaders."""
    things, looks = laid_out(plate, elements)
    scale = scale_of(plate, SMALL_PLATE if small else room.plate)
    half_length, half_width = float(plate.length) / 2 * scale, float(plate.width) / 2 * scale
    width = 2 * (half_length + _TICKS) if small else room.width
    tallest = half_width + _TICKS
    leaders: list[Leader] = []
    seen: list[Ends] = []
    if not small:
        middle = Pen(centre=(0.0, 0.0), scale=scale)
        seen = [_ends(islice(seen_points(at, things), _MOST_ENDS), middle) for at in range(len(elements))]
    if seen:
        ends = [one or _ends(_sparsely(at, things), middle) for at, one in enumerate(seen)]
        leaders = place_leaders(ends, _layouts(len(elements), room, half_length, half_width))
        tallest = max(tallest, *(abs(slot[1]) + NUMBER_RADIUS + 1 for slot, _ in leaders))
    centre = (width / 2, tallest)
    pen = Pen(centre=centre, scale=scale)
    shapes = [*_plate_shapes(plate, pen), *_food_shapes(things, looks, pen)]
    shapes += [shape for one in things if seen and not seen[one.thing.element] for shape in draw_hidden(one.thing, pen)]
    shapes += leader_shapes([(_moved(slot, centre), _moved(anchor, centre)) for slot, anchor in leaders])
    return Drawing(width=width, height=2 * tallest, shapes=tuple(shapes), alternative=alternative)


def laid_out(plate: Plate, elements: Sequence[Element]) -> tuple[Sequence[Lying], Sequence[Look]]:
    """Return the things on a plate as they lie, and the look of each element, the same in every view of them.

    The last are remembered with their plate and elements: a dish is drawn small, large and from the side in turn.
    """
    for own, laid, things, looks in _LAST:
        if own is plate and laid is elements:
            return things, looks
    things = lying(lay_out(elements, plate))
    looks = choose_looks([[(one.thing.element, one.outline, one.bounds) for one in things]], len(elements))
    _LAST[:] = [(plate, elements, things, looks)]
    return things, looks


_LAST: Final[list[tuple[Plate, Sequence[Element], Sequence[Lying], Sequence[Look]]]] = []


def _moved(point: Point, by: Point) -> Point:
    return (to_micron(point[0] + by[0]), to_micron(point[1] + by[1]))


def _plate_shapes(plate: Plate, pen: Pen) -> list[Shape]:
    half_length, half_width, rim = float(plate.length) / 2, float(plate.width) / 2, float(plate.rim)
    edge, inner = Ink(width=0.55, fill=1.0), Ink(width=0.2, stroke=0.45)
    shapes: list[Shape] = [_outline(plate, half_length, half_width, edge, pen)]
    if rim > 0 and min(half_length, half_width) > rim:
        shapes.append(_outline(plate, half_length - rim, half_width - rim, inner, pen))
    hours = Ink(width=0.25, stroke=0.3)
    for hour in range(12):
        angle = hour / 12 * 2 * pi
        dx, dy = sin(angle), -cos(angle)
        reach = _edge_distance(plate.shape, half_length, half_width, dx, dy) * pen.scale
        tick = 3.2 if hour % 3 == 0 else 1.8
        ends = [(pen.centre[0] + dx * (reach + d), pen.centre[1] + dy * (reach + d)) for d in (0.9, 0.9 + tick)]
        shapes.append(Polygon(points=tuple(ends), closed=False, ink=hours))
    return shapes


def _edge_distance(shape: PlateShape, half_length: float, half_width: float, dx: float, dy: float) -> float:
    if shape in _ROUND:
        return 1 / hypot(dx / half_length, dy / half_width)
    return min(half / abs(part) for half, part in ((half_length, dx), (half_width, dy)) if abs(part) > 1e-9)


def _outline(plate: Plate, half_length: float, half_width: float, ink: Ink, pen: Pen) -> Shape:
    if plate.shape in _ROUND:
        return Ellipse(centre=pen.centre, rx=half_length * pen.scale, ry=half_width * pen.scale, ink=ink)
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return Polygon(points=tuple(pen.at(half_length * u, half_width * v) for u, v in corners), ink=ink)


def _food_shapes(things: Sequence[Lying], looks: Sequence[Look], pen: Pen) -> list[Shape]:
    shapes: list[Shape] = []
    for one in things:
        shapes += draw_food(one.thing, looks[one.thing.element], pen)
    return shapes


def _layouts(count: int, room: Room, half_length: float, half_width: float) -> Iterator[list[Point]]:
    """Yield the places for numbers to try: two columns beside the plate, wide apart or close, then with some spare.

    Last come places all round the plate.
    """
    rows = ceil(count / 2)
    first = min(_WIDEST_GAP, max(_NUMBER_GAP + 2, 84.0 / rows))
    for number in (count, count + 2, count + 4):
        for gap in dict.fromkeys((first, 14.0, 12.0, 17.0, _NUMBER_GAP)):
            yield columns(number, room.column, gap)
    clear = NUMBER_RADIUS + _TICKS
    above = arch(room.column, half_width + clear, _NUMBER_GAP, low=_NUMBER_GAP / 2)
    ring = [*above, *((x, -y) for x, y in above)]
    free = [(x, y) for x, y in ring if abs(x) > half_length + clear - 2 or abs(y) > half_width + clear - 2]
    if len(free) >= count:
        yield free


def _ends(points: Iterable[Point], pen: Pen) -> Ends:
    """Return points on the plate as those on paper that a leader may end on."""
    return Ends(pen.at(x, y) for x, y in points)


def seen_points(index: int, things: Sequence[Lying]) -> Iterator[Point]:
    """Yield points on an element that nothing later covers; those under powder alone only where there are no others."""
    later = [one for one in things if one.thing.element > index]
    solid = [one for one in later if one.thing.shape is not Form.POWDER]
    for over in (later, solid):
        covers = [(one.outline, one.bounds) for one in over]
        found = False
        for points in (_sparsely(index, things), _densely(index, things)):
            for point in points:
                if not covered(point, covers):
                    found = True
                    yield point
            if found:
                return


def _sparsely(index: int, things: Sequence[Lying]) -> Iterator[Point]:
    """Yield points on an element: the middle of each of its things, then further out."""
    own = [one for one in things if one.thing.element == index]
    for ring in range(RINGS):
        for one in own:
            yield from placed(one.thing, spots_on(one.thing.shape)[ring])


def _densely(index: int, things: Sequence[Lying]) -> Iterator[Point]:
    """Yield points all over an element, for one of which later things leave little to be seen."""
    for one in things:
        if one.thing.element == index:
            left, top, right, bottom = one.bounds
            for down, across in product(range(_DENSE), repeat=2):
                x = left + (right - left) * (across + 0.5) / _DENSE
                y = top + (bottom - top) * (down + 0.5) / _DENSE
                if contains(one.outline, (x, y)):
                    yield x, y
