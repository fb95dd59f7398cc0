"""A batch card or cutting plan without what it says of the standard nights, and what it says of them.

Whatever is about a night follows from what is expected on it: when that changes, all of it does, and it is told in one
sentence. What is left is the card itself, with its base batch as its amounts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from linebook.markup.blocks import Block, Box, Cell, Facts, Paragraph, Row, Run, SheetText, Split, Table
from linebook.markup.said import plain

_OF_A_LOAD: Final = re.compile(r"limit\..*\.load\.")
_BETWEEN: Final = "; "
_CARD: Final = "batch-card"
_PLAN: Final = "cutting-plan"
_USES: Final = ("fact.portion", "fact.goes-into")
_THEN: Final = ", "
"""Before it stands what a batch makes, behind it for what."""
_EQUALS: Final = "= "
"""Before the amounts of the nights in the other system of measures."""
_YIELDS: Final = "yield."


def without_nights(sheet: SheetText) -> SheetText:
    """Return a batch card or cutting plan with its base batch alone; any other sheet as it is."""
    if sheet.kind not in (_CARD, _PLAN):
        return sheet
    return replace(sheet, blocks=tuple(_kept(sheet.blocks)))


def without_uses(sheet: SheetText) -> SheetText:
    """Return such a sheet without what it says of nights, nor of what the component goes into: the recipe alone."""
    bare = without_nights(sheet)
    return bare if bare is sheet else replace(bare, blocks=tuple(_unused(bare.blocks)))


def nights_differ(before: SheetText, after: SheetText) -> bool:
    """Return whether two batch cards or cutting plans say something else of the nights, for what is on both."""
    old, new = _nights_of(before), _nights_of(after)
    return any(old[name] != said for name, said in new.items() if name in old)


def _nights_of(sheet: SheetText) -> dict[tuple[str, int], tuple[str, ...]]:
    """Return what such a sheet says of the nights by the name of the row, and which one of that name it is."""
    found: dict[tuple[str, int], tuple[str, ...]] = {}
    tables = [block for block in sheet.blocks if isinstance(block, Table) and _night_columns(block) is not None]
    for table in tables if sheet.kind in (_CARD, _PLAN) else []:
        nights = _night_columns(table) or range(0)
        for row in (*table.head, *(one for one in table.rows if not one.heading)):
            named = next((cell for cell in row.cells if cell.scope == "row"), None)
            name = plain(named.content) if named else row.key
            said = [plain(row.cells[at].content) for at in nights if at < len(row.cells)]
            said += [part for part in plain(named.note).split(_BETWEEN) if part.startswith(_EQUALS)] if named else []
            found[name, sum(one == name for one, _ in found)] = tuple(said)
    return found


def _kept(blocks: Sequence[Block]) -> Iterator[Block]:
    for block in blocks:
        if isinstance(block, Paragraph) and block.key == "loads":
            continue
        if isinstance(block, Table):
            if not any(_OF_A_LOAD.match(row.key) for row in block.rows):
                yield _based(block)
        elif isinstance(block, Box):
            yield replace(block, blocks=tuple(_kept(block.blocks)))
        elif isinstance(block, Split):
            yield replace(block, left=tuple(_kept(block.left)), right=tuple(_kept(block.right)))
        else:
            yield block


def _unused(blocks: Sequence[Block]) -> Iterator[Block]:
    for block in blocks:
        if isinstance(block, Facts):
            yield replace(block, facts=tuple(fact for fact in block.facts if fact.key not in _USES))
        elif isinstance(block, Paragraph) and block.key == "makes":
            yield replace(block, content=(Run(text=plain(block.content).partition(_THEN)[0]),))
        elif isinstance(block, Split):
            yield replace(block, left=tuple(_unused(block.left)), right=tuple(_unused(block.right)))
        else:
            yield block


def _night_columns(table: Table) -> range | None:
    """Return the columns of the standard nights: before the names on a batch card, behind the base batch on a plan."""
    if table.role == "ingredients" and table.columns[:1] == ("figure",):
        return range(table.columns.index("name"))
    if table.role == "list" and table.columns[:1] == ("name",) and set(table.columns[1:]) == {"figure"}:
        return range(2, len(table.columns))
    return None


def _based(table: Table) -> Table:
    """Return a table without its columns for nights; of a card's figures behind the names the last is the amount."""
    nights = _night_columns(table) or range(0)
    if table.role != "ingredients" and not nights:
        return table
    heads = [plain(row.cells[at].content) for row in table.head for at in nights if at < len(row.cells)]
    columns = tuple(kind for at, kind in enumerate(table.columns) if at not in nights)
    if table.role == "ingredients" and columns[-1] == "figure":
        columns = (*columns[:-1], "amount")
    head, rows = (tuple(_row(row, nights, heads) for row in part) for part in (table.head, table.rows))
    if (
        table.role == "ingredients"
    ):  # with and without nights alike: what it makes stands over it, and heads name nights
        head, rows = (), tuple(row for row in rows if not row.key.startswith(_YIELDS))
    return replace(table, columns=columns, head=head, rows=rows)


def _row(row: Row, nights: range, heads: Sequence[str]) -> Row:
    if row.heading:  # beside the name of a stage stand its loads
        return replace(row, cells=tuple(replace(cell, note=()) for cell in row.cells))
    return replace(row, cells=tuple(_cell(cell, heads) for at, cell in enumerate(row.cells) if at not in nights))


def _cell(cell: Cell, heads: Sequence[str]) -> Cell:
    """Return a cell with what its note says of a night left out: what was rounded, how many whole ones."""
    parts = plain(cell.note).split(_BETWEEN)
    kept = [part for part in parts if not part.startswith(_EQUALS) and not any(f"({one})" in part for one in heads)]
    if len(kept) == len(parts):
        return cell
    return replace(cell, note=(Run(text=_BETWEEN.join(kept)),) if kept else ())
