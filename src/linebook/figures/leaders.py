"""Numbers beside a drawing and the straight leaders to what they name; no leader crosses another."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from linebook.figures.shapes import Point


def choose_anchors(candidates: Sequence[Sequence[Point]]) -> list[Point]:
    """Pick one point for each thing so that the points stand well apart (candidates are in order of preference)."""
    chosen: list[Point] = []
    for points in candidates:
        chosen.append(max(points, key=lambda point: (min(_clearance(point, chosen), 8.0), -points.index(point))))
    return chosen


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
        for k, slot in enumerate(free):
            if _distance(slot, anchor) < _distance(taken[i], anchor) - 1e-6:
                taken[i], free[k] = slot, taken[i]
                return True
        for j in range(i):
            now = _distance(taken[i], anchor) + _distance(taken[j], anchors[j])
            then = _distance(taken[j], anchor) + _distance(taken[i], anchors[j])
            if then < now - 1e-6:
                taken[i], taken[j] = taken[j], taken[i]
                return True
    return False


def _distance(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _clearance(point: Point, others: Sequence[Point]) -> float:
    return min((_distance(point, other) for other in others), default=1e9)
