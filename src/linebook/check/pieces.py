"""Pieces and their weight agree with what a component makes (LB308)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.index import Index
from linebook.check.words import number_text
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Component
from linebook.model.conversion import Facts, convert
from linebook.model.quantities import write_amount
from linebook.model.units import from_base, to_base
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related, ValueMistake

MOST_APART: Final = Fraction(5, 100)
"""How far the weight of a piece may be from makes divided by pieces."""


def check_pieces(index: Index) -> Iterator[Fault]:
    """Yield a fault where the weight of a piece does not fit what is made, or the two cannot be compared."""
    for component in index.components.values():
        if not index.is_incomplete(component.id):
            yield from pieces_of(component)


def pieces_of(component: Component) -> Iterator[Fault]:
    """Yield the faults of one component's pieces."""
    makes, pieces, weighs = component.makes, component.pieces, component.piece_weighs
    if pieces and makes.unit.counts == "each" and to_base(makes) != pieces:
        yield fault(
            "LB308",
            f"{component.name} makes `{write_amount(makes)}` and says `pieces: {number_text(pieces)}`",
            component.at("pieces"),
            hints=("leave `pieces` out: what it makes is counted already",),
            related=(Related(span=component.at("makes"), label="what it makes"),),
        )
    if not pieces or weighs is None or makes.unit.kind is Kind.COUNT:
        return
    try:
        made = convert(makes, weighs.unit.kind, Facts(name=component.name, density=component.density))
    except ValueMistake as mistake:
        yield fault("LB304", mistake.message, component.at("piece_weighs"), hints=mistake.hints)
        return
    one = made / pieces
    if abs(one - to_base(weighs)) > MOST_APART * to_base(weighs):
        yield fault(
            "LB308",
            f"`{write_amount(makes)}` in {number_text(pieces)} pieces is {_rounded(one, weighs)} each, "
            f"and `piece_weighs` says `{write_amount(weighs)}`",
            component.at("piece_weighs"),
            hints=("change the one of `makes`, `pieces` and `piece_weighs` that is wrong",),
            related=(Related(span=component.at("makes"), label="what it makes"),),
        )


def _rounded(base: Fraction, like: Amount) -> str:
    number = from_base(base, like.unit).number
    shown = round(number) if number >= 10 else round(number, 1)
    return f"{number_text(Fraction(shown))} {like.unit.symbol}"
