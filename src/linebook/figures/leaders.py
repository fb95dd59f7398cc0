"""Numbers beside a drawing and the straight leaders to what they name.

No leader meets another, nor the ring of another's number; each ends on a part of its own thing. Owns the choice of
ends. Paper millimetres.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import accumulate, chain, combinations, islice, pairwise
from math import cos, hypot, pi, sin
from typing import Final, TypeAlias

from linebook.figures.pen import to_micron
from linebook.figures.shapes import Ellipse, Ink, Label, Point, Polygon, Shape

Leader: TypeAlias = tuple[Point, Point]
"""From the middle of a number to its end on a thing."""

NUMBER_RADIUS: Final = 3.6
RING_CLEARANCE: Final = 0.8
CLEARANCES: Final = (1.0, 0.5)
"""Between two leaders; the second where two things show too little of themselves for the first."""

_DOT: Final = 0.7
_AROUND: Final = Ink(width=0.9, stroke=1.0)
_LINE: Final = Ink(width=0.3)
_DOT_INK: Final = Ink(fill=0.0, stroke=1.0, width=0.25)
_RING: Final = Ink(fill=1.0, width=0.3)
_FIRST_RING: Final = Ink(fill=1.0, width=0.8)
_WIDE: Final = 8.0
_TRIES: Final = 12
_FEW_ENDS: Final = 6
_HALF_CIRCLE: Final = 180

_REACH: Final = NUMBER_RADIUS + RING_CLEARANCE
_SURELY_CLEAR: Final = _REACH + 0.001
"""How near a leader may come to the middle of another's number, and how far apart two are not measured any further."""


class Ends:
    """Points that a leader may end on, the best first, found as they are asked for: mostly the first few are enough."""

    def __init__(self, points: Iterable[Point]) -> None:
        self._more = iter(points)
        self._found: list[Point] = []

    def __iter__(self) -> Iterator[Point]:
        at = 0
        while at < len(self._found) or self._find():
            yield self._found[at]
            at += 1

    def __len__(self) -> int:
        self._found += self._more
        return len(self._found)

    def __bool__(self) -> bool:
        return bool(self._found) or self._find()

    def _find(self) -> bool:
        """Find one more; False where there is none."""
        for point in self._more:
            self._found.append(point)
            return True
        return False


def place_leaders(candidates: Sequence[Ends], layouts: Iterable[Sequence[Point]]) -> list[Leader]:
    """Give each thing one of its candidate points and a place for its number.

    Candidates are in order of preference. Of the layouts of places, each with a place or more for every number, the
    first in which all leaders stand clear is taken, else the one with the fewest that do not.
    """
    best: list[Leader] = []
    fewest = 1_000_000
    tried: list[Sequence[Point]] = []
    for clearance, places in ((CLEARANCES[0], layouts), (CLEARANCES[1], tried)):
        for slots in places:
            if clearance == CLEARANCES[0]:
                tried.append(slots)
            leaders, faults = _settled(candidates, slots, clearance)
            if faults == 0:
                return leaders
            if faults < fewest:
                best, fewest = leaders, faults
    return best


def leader_shapes(leaders: Sequence[Leader]) -> list[Shape]:
    """Return the drawn leaders and numbers; the first number is 1 and has a double ring: it goes first."""
    shapes: list[Shape] = []
    for slot, anchor in leaders:
        away = hypot(anchor[0] - slot[0], anchor[1] - slot[1]) or 1.0
        reach = NUMBER_RADIUS / away
        start = (
            to_micron(slot[0] + (anchor[0] - slot[0]) * reach),
            to_micron(slot[1] + (anchor[1] - slot[1]) * reach),
        )
        shapes.append(Polygon(points=(start, anchor), closed=False, ink=_AROUND))
        shapes.append(Polygon(points=(start, anchor), closed=False, ink=_LINE))
        shapes.append(Ellipse(centre=anchor, rx=_DOT, ry=_DOT, ink=_DOT_INK))
    for number, (slot, _) in enumerate(leaders, 1):
        radius = NUMBER_RADIUS
        shapes.append(Ellipse(centre=slot, rx=radius, ry=radius, ink=_FIRST_RING if number == 1 else _RING))
        shapes.append(Label(at=slot, text=str(number)))
    return shapes


def columns(count: int, half_width: float, gap: float) -> list[Point]:
    """Return places in two columns left and right of the origin, in rows round it."""
    rows = max(1, (count + 1) // 2)
    heights = [(row - (rows - 1) / 2) * gap for row in range(rows)]
    return [(side * half_width, height) for height in heights for side in (-1, 1)]


def arch(half_width: float, height: float, gap: float, *, low: float = 0.0) -> list[Point]:
    """Return places ``gap`` apart or more on the upper half of an ellipse round the origin, none below ``low``."""
    ring = [(half_width * across, -height * up) for across, up in _half_circle()]
    ring = [point for point in ring if point[1] <= -low]
    lengths = [0.0, *accumulate(hypot(x - to_x, y - to_y) for (x, y), (to_x, to_y) in pairwise(ring))]
    spaces = max(1, int(lengths[-1] / gap))
    places: list[Point] = []
    for point, length in zip(ring, lengths, strict=True):
        if length >= len(places) * lengths[-1] / spaces - 1e-9 and len(places) <= spaces:
            places.append((to_micron(point[0]), to_micron(point[1])))
    return places


@cache
def _half_circle() -> tuple[Point, ...]:
    """Return points on half a circle of radius 1, close enough to each other to measure its length."""
    return tuple((cos(pi * k / _HALF_CIRCLE), sin(pi * k / _HALF_CIRCLE)) for k in range(_HALF_CIRCLE + 1))


def _settled(candidates: Sequence[Ends], slots: Sequence[Point], clearance: float) -> tuple[list[Leader], int]:
    """Return leaders to these places and how many of them do not stand clear, after mending what can be mended."""
    best: list[Leader] = []
    fewest = 1_000_000
    for order in _orders(candidates):
        leaders, wrong = _mend_all(candidates, slots, _spread(candidates, order), clearance)
        if wrong < fewest:
            best, fewest = leaders, wrong
        if fewest == 0:
            break
    return best, fewest


def _orders(candidates: Sequence[Ends]) -> Iterator[Sequence[int]]:
    """Yield the orders in which things are given their ends: their own, then those with few to choose from first."""
    yield range(len(candidates))
    narrow_first = sorted(range(len(candidates)), key=lambda index: len(candidates[index]))
    yield narrow_first
    yield narrow_first[::-1]


def _mend_all(
    candidates: Sequence[Ends], slots: Sequence[Point], anchors: Sequence[Point], clearance: float
) -> tuple[list[Leader], int]:
    """Return leaders after mending what can be mended, and how many still do not stand clear."""
    leaders = list(zip(assign_slots(anchors, slots), anchors, strict=True))
    for _ in range(_TRIES):
        wrong = _wrong(leaders, clearance)
        mended = [_mend_one(index, candidates[index], slots, leaders, clearance) for index in wrong]
        if not any(mended):
            return leaders, len(wrong)
    return leaders, len(_wrong(leaders, clearance))


def _mend_one(index: int, ends: Ends, slots: Sequence[Point], leaders: list[Leader], clearance: float) -> bool:
    """Give one leader another end or place, or exchange its place with another's, where fewer then stand too near."""
    now = _conflicts(index, leaders[index], leaders, clearance)
    if now == 0:
        return False
    taken = {slot for slot, _ in leaders}
    slot, anchor = leaders[index]
    free = [place for place in slots if place not in taken]
    moves = chain(
        ((slot, end) for end in ends),
        ((place, end) for place in free for end in (anchor, *islice(ends, _FEW_ENDS))),
    )
    for move in moves:
        if _conflicts(index, move, leaders, clearance) < now:
            leaders[index] = move
            return True
    for other, (place, end) in enumerate(leaders):
        if other != index:
            before = now + _conflicts(other, leaders[other], leaders, clearance)
            trial = list(leaders)
            trial[index], trial[other] = (place, anchor), (slot, end)
            after = sum(_conflicts(one, trial[one], trial, clearance) for one in (index, other))
            if after < before:
                leaders[:] = trial
                return True
    return False


def _conflicts(index: int, leader: Leader, leaders: Sequence[Leader], clearance: float) -> int:
    """Return how many others one leader would come too near to."""
    return sum([_too_near(leader, other, clearance) for at, other in enumerate(leaders) if at != index])


def _wrong(leaders: Sequence[Leader], clearance: float) -> list[int]:
    """Return which leaders come too near to another one or to the ring of its number."""
    wrong: set[int] = set()
    for (at, one), (other_at, other) in combinations(enumerate(leaders), 2):
        if _too_near(one, other, clearance):
            wrong |= {at, other_at}
    return sorted(wrong)


def _too_near(one: Leader, other: Leader, clearance: float) -> bool:
    """Say whether two leaders come too near to each other, or one to the ring of the other's number."""
    ((x1, y1), (x2, y2)), ((x3, y3), (x4, y4)) = one, other
    aside = max(min(x1, x2) - max(x3, x4), min(x3, x4) - max(x1, x2))
    if max(aside, min(y1, y2) - max(y3, y4), min(y3, y4) - max(y1, y2)) > _SURELY_CLEAR:
        return _sides(one, other) and _sides(other, one)  # where one is in line with the other they read as one
    ring = _REACH
    return _from_line(other[0], one) < ring or _from_line(one[0], other) < ring or _gap(one, other) < clearance


def _spread(candidates: Sequence[Ends], order: Sequence[int]) -> list[Point]:
    """Pick one point for each thing so that the points stand well apart, those first in ``order`` first."""
    chosen: dict[int, Point] = {}
    for index in order:
        best, widest = (0.0, 0.0), -1.0
        for point in candidates[index]:
            x, y = point
            clear = min([hypot(x - to_x, y - to_y) for to_x, to_y in chosen.values()], default=_WIDE)
            if clear > widest:
                best, widest = point, clear
            if widest >= _WIDE:  # none stands better
                break
        chosen[index] = best
    return [chosen[index] for index in range(len(candidates))]


def assign_slots(anchors: Sequence[Point], slots: Sequence[Point]) -> list[Point]:
    """Give each anchor a slot of its own so that no two leaders cross.

    Exchanging the ends of two crossing leaders always shortens them in sum, so this ends; the shortest
    assignment of all has no crossing.
    """
    order = sorted(range(len(anchors)), key=lambda index: anchors[index][1])
    free = list(slots)
    taken: list[Point] = [(0.0, 0.0)] * len(anchors)
    for index in order:
        slot = min(free, key=lambda point: _distance(point, anchors[index]))
        free.remove(slot)
        taken[index] = slot
    while _improve(anchors, taken, free):
        pass
    return taken


def _improve(anchors: Sequence[Point], taken: list[Point], free: list[Point]) -> bool:
    """Make the first exchange that shortens the leaders in sum; say whether there was one."""
    for i, anchor in enumerate(anchors):
        long = _distance(taken[i], anchor)
        for k, slot in enumerate(free):
            if _distance(slot, anchor) < long - 1e-6:
                taken[i], free[k] = slot, taken[i]
                return True
        for j in range(i):
            now = long + _distance(taken[j], anchors[j])
            then = _distance(taken[j], anchor) + _distance(taken[i], anchors[j])
            if then < now - 1e-6:
                taken[i], taken[j] = taken[j], taken[i]
                return True
    return False


def _distance(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _from_line(point: Point, line: Leader) -> float:
    """Return how far a point is from a straight piece of line."""
    (x1, y1), (x2, y2) = line
    dx, dy = x2 - x1, y2 - y1
    length = dx * dx + dy * dy
    along = 0.0 if length == 0 else min(1.0, max(0.0, ((point[0] - x1) * dx + (point[1] - y1) * dy) / length))
    return hypot(point[0] - x1 - along * dx, point[1] - y1 - along * dy)


def _gap(one: Leader, other: Leader) -> float:
    """Return how near two straight pieces of line come, 0 where they cross."""
    if _sides(one, other) and _sides(other, one):
        return 0.0
    return min(
        _from_line(one[0], other), _from_line(one[1], other), _from_line(other[0], one), _from_line(other[1], one)
    )


def _sides(line: Leader, ends: Leader) -> bool:
    """Return whether two points lie on both sides of a line, or on it."""
    (x1, y1), (x2, y2) = line
    (x3, y3), (x4, y4) = ends
    dx, dy = x2 - x1, y2 - y1
    return (dx * (y3 - y1) - dy * (x3 - x1)) * (dx * (y4 - y1) - dy * (x4 - x1)) <= 0
