"""How high things stand on a plate, in millimetres: the side view's geometry. Knows no drawing.

The floor of the plate is 0 and heights grow upwards. Across is as on the plan: x to the right as the guest sees it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, hypot, radians, sin, sqrt
from typing import Final

from linebook.model.dish import Element, Shape
from linebook.model.house import Plate, PlateShape
from linebook.model.plating import Laid, shape_of
from linebook.source.frozen import frozen

# How high one stands, in mm, where the spec gives no height (common practice, no source).
USUAL_HEIGHT: Final = {
    Shape.MOUND: 25.0,
    Shape.LINE: 8.0,
    Shape.DISC: 8.0,
    Shape.PIECE: 25.0,
    Shape.DOTS: 5.0,
    Shape.LEAVES: 4.0,
    Shape.SWOOSH: 6.0,
    Shape.POWDER: 3.0,
    Shape.POOL: 3.0,
}
_BODIES: Final = (Shape.MOUND, Shape.PIECE, Shape.DISC, Shape.LINE)
_BOXES: Final = (Shape.PIECE, Shape.LINE)
_DOMED: Final = (Shape.MOUND, Shape.DOTS, Shape.LEAVES, Shape.POOL)
_STIFF: Final = (Shape.PIECE, Shape.DISC, Shape.LINE)
_ANGULAR: Final = (PlateShape.SQUARE, PlateShape.RECTANGLE, PlateShape.BOARD)

# How deep a bowl is as a part of what it is across inside, and how far a rim rises as a part of its width (no source).
_BOWL: Final = 0.28
_RIM: Final = 0.35
_MOST_RIM: Final = 15.0
_ROUNDNESS: Final = 4


@frozen
class Standing:
    """From where up to where a thing stands over the floor of the plate, in mm."""

    bottom: float
    top: float


def is_built(elements: Sequence[Element]) -> bool:
    """Return whether a dish has a build to be seen from the side: a height is given, or a body stands on something."""
    return any(
        element.height is not None or (element.on is not None and shape_of(element) in _BODIES) for element in elements
    )


def height_of(element: Element) -> float:
    """Return how high one stands: as the spec says, else as is usual for its shape."""
    return USUAL_HEIGHT[shape_of(element)] if element.height is None else float(element.height)


def stand(elements: Sequence[Element], laid: Sequence[Laid], plate: Plate) -> tuple[Standing, ...]:
    """Return how high each drawn thing stands, in the order of ``laid``.

    What stands ``on`` an element rests on that one of its things that its middle is over, or on what stands on it
    there, as high as that is at this point. Everything else rests on the plate.
    """
    found: list[Standing] = []
    carried: list[frozenset[int]] = []
    for thing in laid:
        element = elements[thing.element]
        base = [
            k for k, one in enumerate(laid[: len(found)]) if element.on and elements[one.element].item == element.on
        ]
        under = frozenset(_carriers(thing, base, laid))
        on_top = [k for k in range(len(found)) if carried[k] & under and laid[k].element != thing.element]
        tops = [_top_at(laid[k], found[k], thing) for k in (*under, *on_top)]
        bottom = max(tops) if tops else _rest(thing, plate)
        found.append(Standing(bottom=bottom, top=bottom + height_of(element)))
        carried.append(under)
    return tuple(found)


def _carriers(thing: Laid, base: Sequence[int], laid: Sequence[Laid]) -> list[int]:
    """Return those of ``base`` that a thing is over; where it is over none, the nearest."""
    over = [k for k in base if _outness(laid[k], thing.x, thing.y) <= 1]
    return over or sorted(base, key=lambda k: hypot(laid[k].x - thing.x, laid[k].y - thing.y))[:1]


def _outness(thing: Laid, x: float, y: float) -> float:
    """Return how far out on a thing a point is: 0 in its middle, 1 at its edge, more beyond it."""
    c, s = cos(radians(thing.turn)), sin(radians(thing.turn))
    dx, dy = x - thing.x, y - thing.y
    u, v = (dx * c + dy * s) * 2 / thing.length, (dy * c - dx * s) * 2 / thing.width
    return max(abs(u), abs(v)) if thing.shape in _BOXES else hypot(u, v)


def _top_at(under: Laid, standing: Standing, thing: Laid) -> float:
    """Return how high a thing is under the middle of another; one that is not over it stands beside it."""
    out = _outness(under, thing.x, thing.y)
    if out > 1:
        return standing.bottom
    tall = standing.top - standing.bottom
    return standing.bottom + tall * (sqrt(1 - out * out) if under.shape in _DOMED else 1.0)


def _rest(thing: Laid, plate: Plate) -> float:
    """Return how high the plate carries a thing: what is stiff bridges a bowl's wall, what is soft sinks in."""
    points = [(thing.x, thing.y), *(thing.outline() if thing.shape in _STIFF else ())]
    return max(surface(plate, x, y) for x, y in points)


def surface(plate: Plate, x: float, y: float) -> float:
    """Return how high the plate itself is over its floor at a point: its rim rises, a bowl's wall curves up."""
    inner = max(1.0, float(plate.length) / 2 - float(plate.rim)), max(1.0, float(plate.width) / 2 - float(plate.rim))
    u, v = abs(x) / inner[0], abs(y) / inner[1]
    out = max(u, v) if plate.shape in _ANGULAR else hypot(u, v)
    deep = depth(plate)
    if out <= 1:
        return deep * out**_ROUNDNESS
    rim = float(plate.rim)
    past = min(1.0, (out - 1) * min(inner) / rim) if rim > 0 else 0.0
    return deep + past * min(_MOST_RIM, rim * _RIM)


def reach_at(plate: Plate, height: float) -> float:
    """Return how far from the middle, across, the inside of the plate is at a height over its floor."""
    inner, deep = max(1.0, float(plate.length) / 2 - float(plate.rim)), depth(plate)
    if deep == 0 or height >= deep:
        return float(plate.length) / 2
    return inner * float((max(0.0, height) / deep) ** (1 / _ROUNDNESS))


def depth(plate: Plate) -> float:
    """Return how far a bowl's rim stands over its floor; nothing for a flat plate."""
    inside = max(1.0, float(plate.length) - 2 * float(plate.rim))
    return _BOWL * inside if plate.shape is PlateShape.BOWL else 0.0
