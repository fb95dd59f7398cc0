"""The plan view of a block with its cuts as shapes in paper millimetres, to scale: cuts numbered, lengths beside them.

``u`` runs along the strips and ``v`` across them, in mm of the block; its longer side lies across the paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil
from typing import Final, TypeAlias

from linebook.figures.shapes import Drawing, Ink, Label, Point, Polygon, Shape
from linebook.model.cutting import CutPlan, Cuts, Strips, Stroke, cuts_of, taken
from linebook.source.frozen import frozen

_LONGEST: Final = 100.0
_TALLEST: Final = 88.0
"""Paper mm that a block is drawn in at most, across and down."""

_TRIMMED: Final = 0.8
_LEFT_OVER: Final = 0.91
_KERF: Final = 0.55
"""Greys of what becomes no piece."""

_OUTLINE: Final = Ink(width=0.4)
_CUT: Final = {Stroke.EDGES: Ink(width=0.3), Stroke.STRIPS: Ink(width=0.6), Stroke.ACROSS: Ink(width=0.35)}
_THIN: Final = Ink(stroke=0.35, width=0.18)

_BEYOND: Final = 2.0
"""Paper mm that a cut is drawn beyond the block, so that it is seen to be one."""

_DIGIT: Final = 4.5
_HIGH: Final = 6.2
"""Paper mm that a digit and a line of text are given. On a phone, where a drawing is small and its text is not, it
takes nearly all of that."""

_GAP: Final = 1.2
_CLOSE: Final = 0.8
"""How close the numbers of two cuts may stand."""

_FIRST_LINE: Final = 3.5
_TICK: Final = 1.0


_Sides: TypeAlias = dict[str, list[tuple[float, int]]]
"""Where the cuts that are numbered on each side of the block lie, with their numbers."""


@frozen(kw_only=False)
class _Length:
    """A length to be told beside the drawing, from and to in mm of the block."""

    start: float
    end: float

    @property
    def middle(self) -> float:
        return (self.start + self.end) / 2


@frozen
class _Sheet:
    """Where the block lies on paper. ``upright`` is true where the strips run down the paper."""

    corner: Point
    scale: float
    upright: bool

    def at(self, u: float, v: float, du: float = 0.0, dv: float = 0.0) -> Point:
        """Return the paper point of a point of the block, moved by paper mm along and across the strips."""
        along, across = u * self.scale + du, v * self.scale + dv
        x, y = (across, along) if self.upright else (along, across)
        return (round(self.corner[0] + x, 3), round(self.corner[1] + y, 3))


def draw_cutting(plan: CutPlan, *, alternative: str) -> Drawing:
    """Draw a block as it is cut: what is squared off and left over in grey, every cut in order, lengths in mm."""
    writer = _Writer(plan)
    shapes = (*writer.areas(), *writer.cuts(), *writer.lengths())
    return Drawing(width=writer.width, height=writer.height, shapes=shapes, alternative=alternative)


class _Writer:
    """Draws one plan. Knows on which side of the block which numbers and lengths stand.

    Cuts into strips are numbered behind the ends of the strips, cuts across on the side of the group that they cut.
    Lengths across the strips stand before their ends, lengths along them on the side of their group.
    """

    def __init__(self, plan: CutPlan) -> None:
        self.plan = plan
        self.edges = float(plan.cut.edges)
        self.long = float(plan.cut.block[plan.along])
        self.wide = float(plan.cut.block[1 - plan.along])
        self.upright = self.wide > self.long
        self.two = len(plan.groups) > 1
        self.digits = len(str(max((cuts.last for cuts in cuts_of(plan)), default=0)))
        self.across = tuple(self._told_across())
        self.along = tuple(tuple(self._told_along(group)) for group in plan.groups)
        across, down = (self.wide, self.long) if self.upright else (self.long, self.wide)
        scale = min(_LONGEST / across, _TALLEST / down)
        before_u, behind_u, before_v, behind_v = self._depths()
        left, top = (before_v, before_u) if self.upright else (before_u, before_v)
        right, bottom = (behind_v, behind_u) if self.upright else (behind_u, behind_v)
        self.sheet = _Sheet(corner=(left, top), scale=scale, upright=self.upright)
        self.width = round(left + across * scale + right, 3)
        self.height = round(top + down * scale + bottom, 3)

    def areas(self) -> Iterator[Shape]:
        """Yield the block, what is left of it squared off, and the pieces of each group as one white field."""
        plan, edges, kerf = self.plan, self.edges, float(self.plan.cut.kerf)
        yield self._box(0, 0, self.long, self.wide, Ink(stroke=None, fill=_TRIMMED))
        yield self._box(edges, edges, float(plan.length), float(plan.width), Ink(stroke=None, fill=_LEFT_OVER))
        at = edges
        for group in plan.groups:
            wide = float(taken(group.count, group.width, plan.cut.kerf))
            long = float(taken(group.pieces, group.length, plan.cut.kerf))
            yield self._box(edges, at, long, wide, Ink(stroke=None, fill=1.0))
            at += wide + kerf
        yield self._box(0, 0, self.long, self.wide, _OUTLINE)

    def cuts(self) -> Iterator[Shape]:
        """Yield every cut as a line or, to scale, as the band it takes away; then their numbers."""
        sides: _Sides = {"along": [], "first": [], "last": []}
        for cuts in cuts_of(self.plan):
            yield from self._edge_cuts(sides) if cuts.stroke is Stroke.EDGES else self._run(cuts, sides)
        yield from self._numbers(sides["along"], along=True, behind=True)
        yield from self._numbers(sides["first"], along=False, behind=False)
        yield from self._numbers(sides["last"], along=False, behind=True)

    def lengths(self) -> Iterator[Shape]:
        """Yield the lengths of the block, of the first piece of each group, of the edges and of what is left over."""
        line = self._line_beyond(_FIRST_LINE, self.across, along=False)
        yield from self._scale(self.across, along=False, behind=False, line=_FIRST_LINE)
        yield from self._scale([_Length(0, self.wide)], along=False, behind=False, line=line)
        line = self._first_line(behind=True)
        for number, told in enumerate(self.along):
            behind = number == len(self.along) - 1
            yield from self._scale(told, along=True, behind=behind, line=self._first_line(behind=behind))
            line = self._line_beyond(self._first_line(behind=True), told, along=True)
        yield from self._scale([_Length(0, self.long)], along=True, behind=True, line=line)

    def _told_across(self) -> Iterator[_Length]:
        """Yield the edge, the first strip of each group and what is left beside them."""
        at, kerf = self.plan.cut.edges, self.plan.cut.kerf
        if at:
            yield _Length(0, self.edges)
        for group in self.plan.groups:
            yield _Length(float(at), float(at + group.width))
            at += taken(group.count, group.width, kerf) + kerf
        end = self.plan.cut.edges + self.plan.width
        if at < end:
            yield _Length(float(at), float(end))

    def _told_along(self, group: Strips) -> Iterator[_Length]:
        """Yield the edge, the first piece of a strip and what is left at its end."""
        edges, kerf = self.plan.cut.edges, self.plan.cut.kerf
        if edges:
            yield _Length(0, self.edges)
        yield _Length(self.edges, self.edges + float(group.length))
        start, end = edges + taken(group.pieces, group.length, kerf) + kerf, edges + self.plan.length
        if start < end:
            yield _Length(float(start), float(end))

    def _depths(self) -> tuple[float, float, float, float]:
        """Return the paper mm needed before u, behind u, before v and behind v, for the numbers and lengths there."""
        before_v = self._numbers_take(along=False)
        behind_v = self._first_line(behind=True)
        if self.two:
            before_v = self._line_beyond(self._first_line(behind=False), self.along[0], along=True)
        for told in self.along[-1:]:
            behind_v = self._line_beyond(behind_v, told, along=True)
        behind_v = self._line_beyond(behind_v, [_Length(0, self.long)], along=True)
        before_u = self._line_beyond(_FIRST_LINE, self.across, along=False)
        before_u = self._line_beyond(before_u, [_Length(0, self.wide)], along=False)
        return before_u, self._numbers_take(along=True), before_v, behind_v

    def _first_line(self, *, behind: bool) -> float:
        """Return where the lengths along the strips stand: beyond the numbers, where there are any on that side."""
        return _FIRST_LINE if behind and not self.two else self._numbers_take(along=False) + _GAP

    def _line_beyond(self, line: float, told: Sequence[_Length], *, along: bool) -> float:
        """Return where the next line of lengths stands beyond one that tells these."""
        text = _DIGIT * max(len(_figure(one)) for one in told) if along == self.upright else _HIGH
        return line + text + 2 * _GAP

    def _numbers_take(self, *, along: bool) -> float:
        """Return the paper mm that the numbers of cuts take beside the block: where the strips end, or beside them."""
        return _BEYOND + 2 * _GAP + (_DIGIT * self.digits if along != self.upright else _HIGH)

    def _box(self, u: float, v: float, long: float, wide: float, ink: Ink) -> Polygon:
        ends = ((u, v), (u + long, v), (u + long, v + wide), (u, v + wide))
        return Polygon(points=tuple(self.sheet.at(*end) for end in ends), ink=ink)

    def _line(self, start: Point, end: Point, ink: Ink) -> Polygon:
        return Polygon(points=(start, end), closed=False, ink=ink)

    def _edge_cuts(self, sides: _Sides) -> Iterator[Shape]:
        ink, at = _CUT[Stroke.EDGES], self.sheet.at
        for number, v in enumerate((self.edges, self.wide - self.edges), start=1):
            yield self._line(at(0, v), at(self.long, v, du=_BEYOND), ink)
            sides["along"].append((v, number))
        for number, u in enumerate((self.edges, self.long - self.edges), start=3):
            yield self._line(at(u, 0, dv=-_BEYOND), at(u, self.wide), ink)
            sides["first"].append((u, number))

    def _run(self, cuts: Cuts, sides: _Sides) -> Iterator[Shape]:
        """Yield one run of cuts, each drawn out to the side where its number stands."""
        kerf = float(self.plan.cut.kerf)
        strips = cuts.stroke is Stroke.STRIPS
        low, high = self._reach(cuts)
        first = cuts.group == 0
        side = "along" if strips else "first" if first else "last"
        end = (self.wide if strips else self.long) - self.edges
        for number, place in enumerate(cuts.places, start=cuts.first):
            at = self.edges + float(place)
            wide = min(kerf, end - at)
            if wide * self.sheet.scale > _CUT[cuts.stroke].width:
                lies = (low, at, high - low, wide) if strips else (at, low, wide, high - low)
                yield self._box(*lies, Ink(stroke=None, fill=_KERF))
            yield self._cut_line(at + wide / 2, (low, high), strips=strips, first=first, ink=_CUT[cuts.stroke])
            sides[side].append((at + wide / 2, number))

    def _cut_line(self, at: float, reach: tuple[float, float], *, strips: bool, first: bool, ink: Ink) -> Polygon:
        paper, (low, high) = self.sheet.at, reach
        if strips:
            return self._line(paper(low, at), paper(self.long, at, du=_BEYOND), ink)
        if first:
            return self._line(paper(at, 0, dv=-_BEYOND), paper(at, high), ink)
        return self._line(paper(at, low), paper(at, self.wide, dv=_BEYOND), ink)

    def _reach(self, cuts: Cuts) -> tuple[float, float]:
        """Return from where to where a run cuts: the whole squared length, or across the strips of its group."""
        plan = self.plan
        if cuts.stroke is Stroke.STRIPS:
            return self.edges, self.edges + float(plan.length)
        low = plan.cut.edges
        for group in plan.groups[: cuts.group]:
            low += taken(group.count, group.width, plan.cut.kerf) + plan.cut.kerf
        group = plan.groups[cuts.group]
        return float(low), float(low + taken(group.count, group.width, plan.cut.kerf))

    def _numbers(self, places: Sequence[tuple[float, int]], *, along: bool, behind: bool) -> Iterator[Shape]:
        """Yield the numbers of cuts on one side: thinned out where they are too close, with a line to any moved."""
        scale = self.sheet.scale
        ordered = sorted(places)
        sizes = [_HIGH if along != self.upright else _DIGIT * len(str(number)) + _CLOSE for _, number in ordered]
        room = (self.wide if along else self.long) * scale + min(sizes, default=0.0)
        every = ceil(sum(sizes) / room)
        kept = [at for at in range(len(ordered)) if at % every == 0 or at == len(ordered) - 1]
        ordered = [ordered[at] for at in kept]
        apart = _apart([at * scale for at, _ in ordered], [sizes[at] for at in kept])
        for (at, number), moved in zip(ordered, apart, strict=True):
            yield from self._number(at, moved - at * scale, number, along=along, behind=behind)

    def _number(self, at: float, moved: float, number: int, *, along: bool, behind: bool) -> Iterator[Shape]:
        out = 1 if behind else -1
        middle = (self._numbers_take(along=along) + _BEYOND) / 2
        if abs(moved) > 0.3:
            near = self._beside(at, not along, out, _BEYOND + _GAP * 0.8, moved)
            yield self._line(self._beside(at, not along, out, _BEYOND), near, _THIN)
        yield Label(at=self._beside(at, not along, out, middle, moved), text=str(number))

    def _scale(self, told: Sequence[_Length], *, along: bool, behind: bool, line: float) -> Iterator[Shape]:
        """Yield lengths on a line along one side of the block, their figures kept apart beyond it."""
        upwards = along == self.upright
        sizes = [_HIGH if upwards else _DIGIT * len(_figure(one)) + 2 * _GAP for one in told]
        middles = _apart([one.middle * self.sheet.scale for one in told], sizes)
        out = 1 if behind else -1
        for one, middle in zip(told, middles, strict=True):
            text = _figure(one)
            away = line + _GAP + (_DIGIT * len(text) if upwards else _HIGH) / 2
            yield self._line(self._beside(one.start, along, out, line), self._beside(one.end, along, out, line), _THIN)
            for end in (one.start, one.end):
                near, far = (self._beside(end, along, out, line + tick) for tick in (-_TICK, _TICK))
                yield self._line(near, far, _THIN)
            moved = middle - one.middle * self.sheet.scale
            yield Label(at=self._beside(one.middle, along, out, away, moved), text=text, role="caption")

    def _beside(self, at: float, along: bool, out: int, away: float, moved: float = 0.0) -> Point:
        """Return the paper point beside a place of the block: ``away`` from its side, moved along that side."""
        if along:
            return self.sheet.at(at, self.wide if out > 0 else 0.0, du=moved, dv=out * away)
        return self.sheet.at(self.long if out > 0 else 0.0, at, du=out * away, dv=moved)


def _apart(middles: Sequence[float], sizes: Sequence[float]) -> list[float]:
    """Return middles pushed apart, in order, so that things of these sizes do not overlap; all are moved alike."""
    moved: list[float] = []
    runs: list[list[int]] = []
    for at, middle in enumerate(middles):
        runs.append([at])
        moved.append(middle)
        while len(runs) > 1 and _overlap(runs[-2][-1], runs[-1][0], moved, sizes):
            runs[-2:] = [runs[-2] + runs[-1]]
            _settle(runs[-1], middles, sizes, moved)
    return moved


def _overlap(one: int, other: int, moved: Sequence[float], sizes: Sequence[float]) -> bool:
    return moved[other] - moved[one] < (sizes[one] + sizes[other]) / 2 - 1e-9


def _settle(run: Sequence[int], middles: Sequence[float], sizes: Sequence[float], moved: list[float]) -> None:
    """Set a run of things touching one another, as near as can be to where each belongs."""
    offsets = [0.0]
    for one, other in pairwise(run):
        offsets.append(offsets[-1] + (sizes[one] + sizes[other]) / 2)
    start = sum(middles[at] - offset for at, offset in zip(run, offsets, strict=True)) / len(run)
    for at, offset in zip(run, offsets, strict=True):
        moved[at] = start + offset


def _figure(length: _Length) -> str:
    """Return a length in mm with at most one decimal."""
    return f"{length.end - length.start:.1f}".rstrip("0").rstrip(".")
