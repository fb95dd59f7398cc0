"""A cut gives the pieces that its card counts (LB316, LB332, LB611)."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.index import Index, place
from linebook.check.words import number_text
from linebook.model.component import Component, Cut
from linebook.model.cutting import MOST_PIECES, counted_pieces, cut_plan, too_many_pieces
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related


def check_cuts(index: Index) -> Iterator[Fault]:
    """Yield a fault for each cut that gives no piece, or not the pieces that the card makes."""
    for component in index.components.values():
        if component.cut is not None and not index.is_incomplete(component.id):
            yield from _cut_of(component, component.cut)


def _cut_of(component: Component, cut: Cut) -> Iterator[Fault]:
    if too_many_pieces(cut):
        yield fault(
            "LB316",
            f"one block of {_size(cut.block)} is cut into more than {MOST_PIECES:,} pieces of {_size(cut.piece)}",
            place(cut, "piece"),
            hints=("type the piece in the unit that is meant, such as `60 x 40 mm` or `6 x 4 cm`",),
        )
        return
    gives = cut_plan(cut).pieces
    if not gives:
        yield _no_piece(component, cut)
        return
    counted = counted_pieces(component)
    if counted is None or counted == gives * cut.blocks:
        return
    blocks = f"{cut.blocks} blocks of {_size(cut.block)} give" if cut.blocks > 1 else f"{_size(cut.block)} gives"
    field = "pieces" if component.pieces is not None else "makes"
    given = "1 piece" if gives * cut.blocks == 1 else f"{gives * cut.blocks} pieces"
    yield fault(
        "LB332" if counted > gives * cut.blocks else "LB611",
        f"{component.name} makes {number_text(counted)} pieces, and {blocks} {given} of {_size(cut.piece)}",
        component.at(field),
        hints=(f"type `{_mended(component, gives * cut.blocks)}`, or change the cut",),
        related=(Related(span=place(cut, "block"), label="the block"),),
    )


def _no_piece(component: Component, cut: Cut) -> Fault:
    squared = f" once {number_text(cut.edges)} mm is squared off every side" if cut.edges else ""
    other_way = not cut.turned and min(cut.piece) <= min(cut.block) and max(cut.piece) <= max(cut.block)
    turn = ("or `turned: yes`, where the pieces may lie the other way round",) if other_way else ()
    return fault(
        "LB332",
        f"no piece of {_size(cut.piece)} of {component.name} comes out of a block of {_size(cut.block)}{squared}",
        place(cut, "piece"),
        hints=("type length and width of the piece and of the block in the same order", *turn),
        related=(Related(span=place(cut, "block"), label="the block"),),
    )


def _mended(component: Component, pieces: int) -> str:
    return f"pieces: {pieces}" if component.pieces is not None else f"makes: {pieces} pieces"


def _size(size: tuple[Fraction, Fraction]) -> str:
    return f"`{number_text(size[0])} x {number_text(size[1])} mm`"
