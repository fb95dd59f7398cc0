"""What changed between two issues of a sheet, as a kitchen reads it: allergens apart, standard nights in a word.

Owns which parts of a sheet are which. How a difference is found and worded is not its business.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from linebook.documents.text import Text
from linebook.documents.wording import Wording
from linebook.markup.blocks import Block, Box, Facts, Row, SheetText, Split, Table
from linebook.markup.difference import describe_difference
from linebook.markup.said import SaidText, what_is_said
from linebook.source.frozen import frozen

_ALL_ALLERGENS: Final = ("allergen-matrix", "line-allergens", "allergen-index")
_CONTENTS: Final = "line-cover"
_NIGHTS: Final = "batch-card"


@frozen
class Changes:
    """What changed of one sheet: what a guest's safety hangs on, and the rest; both () where nothing did."""

    allergens: tuple[Text, ...] = ()
    other: tuple[Text, ...] = ()


def tell_changes(before: SheetText, after: SheetText, wording: Wording) -> Changes:
    """Return what changed between two issues of a sheet.

    A cover says of every sheet which it is, so that of it is told only that it is new. What a batch card says of the
    standard nights follows from what is expected: that is told in one sentence.
    """
    if before == after:
        return Changes()
    if after.kind == _CONTENTS:
        return Changes(other=(wording.say("swap.contents"),))
    old, new = _without_nights(before), _without_nights(after)
    told = list(describe_difference(old, new, wording))
    if old == new or told == [wording.say("change.dress")]:
        told = []
    if _nights(before) != _nights(after):
        told.append(wording.say("swap.nights"))
    if after.kind in _ALL_ALLERGENS:
        return Changes(allergens=tuple(told))
    moved = _moved(_alone(old), _alone(new), wording)
    told = [one for one in told if one not in moved]
    grave = [one for one in describe_difference(_alone(old), _alone(new), wording) if one in told]
    rest = tuple(one for one in told if one not in grave)
    return Changes(allergens=tuple(grave), other=rest if rest or grave else (wording.say("change.dress"),))


def _moved(before: SheetText, after: SheetText, wording: Wording) -> list[Text]:
    """Return what would be said to be gone from a line about allergens and only stands in another one now.

    *No longer may contain mustard* is no news, and bad advice, where it now contains mustard.
    """
    old, new = ([one for one in what_is_said(sheet).values() if isinstance(one, SaidText)] for sheet in (before, after))
    known = {fact.key: fact.members for fact in old}
    came = {text for fact in new for key, text in fact.members.items() if key not in known.get(fact.key, {})}
    labels = {fact.label for fact in (*old, *new)}
    keys = [f"change.{line}.gone" for line in ("allergens.contains", "allergens.may-contain", "list")]
    return [wording.say(key, label=label, what=text) for key in keys for label in labels for text in came]


def _alone(sheet: SheetText) -> SheetText:
    """Return a sheet with only what it says of allergens."""
    return replace(sheet, kicker=(), title=(), aside=(), blocks=tuple(_allergen_facts(sheet.blocks)))


def _allergen_facts(blocks: Iterable[Block]) -> Iterable[Block]:
    for block in blocks:
        if isinstance(block, Facts) and block.role in ("allergens", "verdicts"):
            yield block
        elif isinstance(block, Box):
            yield from _allergen_facts(block.blocks)
        elif isinstance(block, Split):
            yield from _allergen_facts((*block.left, *block.right))


def _without_nights(sheet: SheetText) -> SheetText:
    """Return a batch card with its base batch as its amounts; any other sheet as it is."""
    if sheet.kind != _NIGHTS:
        return sheet
    return replace(sheet, blocks=tuple(_based(one) if _has_nights(one) else one for one in sheet.blocks))


def _nights(sheet: SheetText) -> list[tuple[object, ...]]:
    """Return the cells of the standard nights of a batch card."""
    found = [block for block in sheet.blocks if isinstance(block, Table) and _has_nights(block)]
    return [
        (row.key, row.cells[: table.columns.index("name")])
        for table in (found if sheet.kind == _NIGHTS else [])
        for row in (*table.head, *table.rows)
        if not row.heading
    ]


def _has_nights(block: Block) -> bool:
    return isinstance(block, Table) and block.role == "ingredients" and block.columns[:1] == ("figure",)


def _based(block: Block) -> Block:
    """Return a table of ingredients without the columns before the names; of those after, the last is the amount."""
    assert isinstance(block, Table)
    first = block.columns.index("name")
    columns = block.columns[first:]
    if columns[-1] == "figure":
        columns = (*columns[:-1], "amount")
    return replace(block, columns=columns, head=_cut(block.head, first), rows=_cut(block.rows, first))


def _cut(rows: Sequence[Row], count: int) -> tuple[Row, ...]:
    return tuple(row if row.heading else replace(row, cells=row.cells[count:]) for row in rows)
