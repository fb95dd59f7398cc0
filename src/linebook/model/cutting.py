"""How a block, slab or tray is cut into pieces: strips first, then the strips across. Lengths are exact, in mm.

The edges are squared off first: the block is ``edges`` smaller on every side, their own cuts included. After that each
cut takes ``kerf``: between two pieces, and between the last piece and what is left over. A piece that ends where the
block ends needs no cut. Knows no drawing and no words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum
from math import ceil, floor
from typing import Final

from linebook.model.component import Component, Cut
from linebook.model.units import EACH, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

MOST_PIECES: Final = 10_000
"""More pieces than this are not cut from one block by hand."""

_NOTHING: Final = Fraction(0)


@frozen
class Strips:
    """Strips of one width side by side, each cut across into as many pieces. ``turned``: these lie the other way."""

    count: int
    width: Fraction
    pieces: int
    length: Fraction
    turned: bool = False


@frozen
class Offcut:
    """What is left over in one size, ``count`` times: ``length`` runs along the strips."""

    length: Fraction
    width: Fraction
    count: int


@frozen
class CutPlan:
    """How one block is cut. ``along`` is the side of the block that the strips run along, 0 its first, 1 its second.

    ``length`` and ``width`` are the block along and across the strips, its edges squared off. ``groups`` are the
    strips in the order they are cut; () where not one piece fits. ``in_pieces``, ``in_edges``, ``in_kerf`` and
    ``in_offcuts`` are parts of the whole block by area, and add up to one.
    """

    cut: Cut
    along: int
    length: Fraction
    width: Fraction
    groups: tuple[Strips, ...]
    pieces: int
    offcuts: tuple[Offcut, ...]
    in_pieces: Fraction
    in_edges: Fraction
    in_kerf: Fraction
    in_offcuts: Fraction

    @property
    def strips(self) -> int:
        """Return how many strips a block is cut into."""
        return sum(group.count for group in self.groups)

    @property
    def lost(self) -> Fraction:
        """Return the part of the block that becomes no piece."""
        return 1 - self.in_pieces


class Stroke(Enum):
    """What a run of cuts is for, in the order they are made."""

    EDGES = "edges"
    STRIPS = "strips"
    ACROSS = "across"


@frozen
class Cuts:
    """A run of cuts made one after the other, numbered on from ``first``.

    ``places`` are where each begins, in mm from the squared edge: across the strips for ``STRIPS``, along them for
    ``ACROSS``, where ``group`` says which strips are cut. The four of the edges have no places: both sides along the
    strips, then both ends.
    """

    stroke: Stroke
    first: int
    count: int
    places: tuple[Fraction, ...] = ()
    group: int = 0

    @property
    def last(self) -> int:
        """Return the number of the last of them."""
        return self.first + self.count - 1


@frozen
class BlocksCut:
    """What so many pieces take: whole blocks, and the pieces these give beyond what is needed."""

    needed: Fraction
    blocks: int
    pieces: int
    over: Fraction


def cut_plan(cut: Cut) -> CutPlan:
    """Return the cutting that gives the most pieces.

    The pieces lie as they are written; where they may be turned, the other way round, or the block is parted in two
    and each part cut its own way. Of equal ones the plainest is taken: one grid, as written, strips along the block.
    """
    inside = tuple(max(_NOTHING, side - 2 * cut.edges) for side in cut.block)
    along = 0 if cut.block[0] >= cut.block[1] else 1
    plans = [(groups, way) for way in (along, 1 - along) for groups in _layouts(cut, inside[way], inside[1 - way], way)]
    groups, way = max(plans, key=lambda plan: (_pieces(plan[0]), -len(plan[0]), not _turns(plan[0]), plan[1] == along))
    return _plan(cut, groups, way, inside[way], inside[1 - way])


def cuts_of(plan: CutPlan) -> tuple[Cuts, ...]:
    """Return every cut of a plan in order: the edges, the block into strips, each group of strips across."""
    kerf, number, found = plan.cut.kerf, 1, []
    if plan.cut.edges:
        found.append(Cuts(stroke=Stroke.EDGES, first=1, count=4))
        number = 5
    widths = [group.width for group in plan.groups for _ in range(group.count)]
    runs = [(Stroke.STRIPS, 0, _places(widths, plan.width, kerf))]
    for at, group in enumerate(plan.groups):
        runs.append((Stroke.ACROSS, at, _places([group.length] * group.pieces, plan.length, kerf)))
    for stroke, which, places in runs:
        if places:
            found.append(Cuts(stroke=stroke, first=number, count=len(places), places=places, group=which))
            number += len(places)
    return tuple(found)


def too_many_pieces(cut: Cut) -> bool:
    """Return whether one block would give more pieces than are cut by hand, whichever way they lie."""
    return cut.block[0] * cut.block[1] > MOST_PIECES * (cut.piece[0] + cut.kerf) * (cut.piece[1] + cut.kerf)


def counted_pieces(component: Component) -> Fraction | None:
    """Return how many pieces the batch as written makes by its own count, or None where it counts none."""
    if component.pieces is not None:
        return component.pieces
    return to_base(component.makes) if component.makes.unit.counts == EACH.counts else None


def pieces_made(component: Component, plan: CutPlan) -> Fraction:
    """Return how many pieces the batch as written makes: as counted, else what its blocks give."""
    counted = counted_pieces(component)
    return counted if counted is not None else Fraction(plan.pieces * plan.cut.blocks)


def blocks_for(plan: CutPlan, pieces: Fraction, *, needed: Fraction | None = None) -> BlocksCut | None:
    """Return the whole blocks that so many pieces take, or None where a block gives no piece.

    ``needed`` are those of them that are needed, where that is not all.
    """
    if not plan.pieces:
        return None
    blocks = ceil(pieces / plan.pieces)
    used = pieces if needed is None else needed
    return BlocksCut(needed=used, blocks=blocks, pieces=blocks * plan.pieces, over=blocks * plan.pieces - used)


def fitting(room: Fraction, piece: Fraction, kerf: Fraction) -> int:
    """Return how many pieces fit into a length with a cut between each two."""
    return max(0, floor((room + kerf) / (piece + kerf)))


def left_over(room: Fraction, taken: Fraction, kerf: Fraction) -> Fraction:
    """Return what remains of a length behind the last piece, the cut that parts it off taken away."""
    return max(_NOTHING, room - taken - kerf)


def taken(count: int, piece: Fraction, kerf: Fraction) -> Fraction:
    """Return the length that so many pieces take, with the cuts between them."""
    return count * piece + max(0, count - 1) * kerf


def _layouts(cut: Cut, length: Fraction, width: Fraction, along: int) -> Iterator[tuple[Strips, ...]]:
    """Yield the ways to cut with strips that run along one side: one grid, or two where pieces may be turned."""
    written = _strips(cut, length, cut.piece[along], cut.piece[1 - along])
    yield _filled(cut, width, written)
    if not cut.turned:
        return
    turned = _strips(cut, length, cut.piece[1 - along], cut.piece[along], turned=True)
    yield _filled(cut, width, turned)
    most = fitting(width, written.width, cut.kerf)
    if written.pieces and turned.pieces and most <= MOST_PIECES:
        for count in range(1, most + 1):
            first = _counted(written, count)
            rest = left_over(width, taken(count, written.width, cut.kerf), cut.kerf)
            yield (*first, *_filled(cut, rest, turned))


def _strips(cut: Cut, room: Fraction, length: Fraction, width: Fraction, *, turned: bool = False) -> Strips:
    return Strips(count=1, width=width, pieces=fitting(room, length, cut.kerf), length=length, turned=turned)


def _filled(cut: Cut, width: Fraction, strip: Strips) -> tuple[Strips, ...]:
    return _counted(strip, fitting(width, strip.width, cut.kerf))


def _counted(strip: Strips, count: int) -> tuple[Strips, ...]:
    if not count or not strip.pieces:
        return ()
    return (Strips(count=count, width=strip.width, pieces=strip.pieces, length=strip.length, turned=strip.turned),)


def _pieces(groups: tuple[Strips, ...]) -> int:
    return sum(group.count * group.pieces for group in groups)


def _turns(groups: tuple[Strips, ...]) -> bool:
    return any(group.turned for group in groups)


def _plan(cut: Cut, groups: tuple[Strips, ...], along: int, length: Fraction, width: Fraction) -> CutPlan:
    whole = cut.block[0] * cut.block[1]
    pieces = _pieces(groups)
    offcuts = tuple(_offcuts(cut, groups, length, width))
    in_pieces = pieces * cut.piece[0] * cut.piece[1] / whole
    in_edges = 1 - length * width / whole
    in_offcuts = sum((one.length * one.width * one.count for one in offcuts), _NOTHING) / whole
    return CutPlan(
        cut=cut,
        along=along,
        length=length,
        width=width,
        groups=groups,
        pieces=pieces,
        offcuts=offcuts,
        in_pieces=in_pieces,
        in_edges=in_edges,
        in_kerf=1 - in_pieces - in_edges - in_offcuts,
        in_offcuts=in_offcuts,
    )


def _places(sizes: Sequence[Fraction], room: Fraction, kerf: Fraction) -> tuple[Fraction, ...]:
    """Return where the cut behind each of these begins; the last one needs none where it ends with the room."""
    places, at = [], _NOTHING
    for size in sizes:
        at += size
        if at < room:
            places.append(at)
        at += kerf
    return tuple(places)


def _offcuts(cut: Cut, groups: tuple[Strips, ...], length: Fraction, width: Fraction) -> Iterator[Offcut]:
    """Yield what is left of the block beside the strips, then at the end of each strip."""
    if not groups:
        if length and width:
            yield Offcut(length=length, width=width, count=1)
        return
    strips = sum((taken(group.count, group.width, cut.kerf) for group in groups), (len(groups) - 1) * cut.kerf)
    beside = left_over(width, strips, cut.kerf)
    if beside:
        yield Offcut(length=length, width=beside, count=1)
    for group in groups:
        end = left_over(length, taken(group.pieces, group.length, cut.kerf), cut.kerf)
        if end:
            yield Offcut(length=end, width=group.width, count=group.count)
