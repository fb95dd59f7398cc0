"""Where a cook writes what came of a batch: what was bought, what of it was usable, what it gave.

What is written here is what a yield test of the pantry asks for. Figures are never printed here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.compute.ladders import is_metric
from linebook.compute.results import Batch, BatchIngredient
from linebook.compute.weights import to_grams
from linebook.documents.measures import Measures, unit_text
from linebook.documents.naming import before_comma
from linebook.documents.parts import LogCell, LogRow
from linebook.documents.second import item_name
from linebook.documents.text import EMPTY, Text, each_language
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.house import House
from linebook.model.sums import sum_of
from linebook.model.units import KILOGRAM, LITRE, POUND
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

_WIDE: Final = 3
"""The width of a blank in em: four digits and a point."""

_MUCH: Final = Fraction(1, 4)
"""The part of a batch's weight from which on an item's trim is worth writing down."""


def write_in_rows(house: House, batch: Batch, measures: Measures) -> tuple[LogRow, ...]:
    """Return the blanks of a card: what the batch gave, and the bought item whose yield matters."""
    got = LogCell(before=measures.wording.say("got.got"), width=_WIDE, after=_unit(batch.component.makes, measures))
    main = main_bought(house, batch)
    rows = [LogRow(key="got", name=EMPTY, cells=(got,))]
    if main:
        name = each_language(item_name(house, main.ingredient.item), before_comma)
        rows.append(LogRow(key="bought", name=name, cells=tuple(_bought(main, measures))))
    return tuple(rows)


def main_bought(house: House, batch: Batch) -> BatchIngredient | None:
    """Return the bought line whose yield matters: one with yield tests, else one that is trimmed and makes up much of
    the batch; the heaviest of them. None where there is none."""
    weighed = [
        (grams, line)
        for line in batch.ingredients
        if not line.ingredient.medium and (grams := _grams(house, line)) is not None
    ]
    much = sum_of(grams for grams, _ in weighed) * _MUCH
    bought = [(grams, line) for grams, line in weighed if line.ingredient.item in house.pantry]
    tested = [one for one in bought if house.pantry[one[1].ingredient.item].yield_tests]
    trimmed = [one for one in bought if one[0] >= much and _is_trimmed(house, one[1])]
    return max(tested or trimmed, key=lambda one: one[0], default=(Fraction(0), None))[1]


def _is_trimmed(house: House, line: BatchIngredient) -> bool:
    """Return whether less of a line is used than is bought: the pantry says so, or it is weighed before its prep."""
    usable = house.pantry[line.ingredient.item].usable
    return (usable is not None and usable < 1) or (line.ingredient.weigh_before and line.ingredient.prep is not None)


def _grams(house: House, line: BatchIngredient) -> Fraction | None:
    if line.base is None:
        return None
    try:
        return to_grams(house)(line.ingredient.item, line.base)
    except ValueMistake:
        return None


def _bought(main: BatchIngredient, measures: Measures) -> Iterator[LogCell]:
    assert main.base is not None
    unit = _unit(main.base, measures, Kind.MASS)
    for word in ("bought", "usable"):
        yield LogCell(before=measures.wording.say(f"got.{word}"), width=_WIDE, after=unit)


def _unit(amount: Amount, measures: Measures, kind: Kind | None = None) -> Text:
    """Return the unit it is written in: kg or L, pounds where the card is in pounds, else what is counted."""
    pounds = amount.unit.kind is Kind.MASS and not is_metric(amount.unit)
    wanted: Unit = amount.unit
    if (kind or amount.unit.kind) is Kind.MASS:
        wanted = POUND if pounds else KILOGRAM
    elif amount.unit.kind is Kind.VOLUME and is_metric(amount.unit):
        wanted = LITRE
    return unit_text(measures.rounded(Amount(number=Fraction(2), unit=wanted)).amount, measures.wording)
