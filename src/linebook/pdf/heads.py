"""Sets the heads over columns of marks: upright, a line for each language where the column is as wide as that.

Owns their lines and the width those need. It must not know how a table is cut, nor of pages. Points.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil, inf
from typing import TYPE_CHECKING, Final

from linebook.markup.blocks import Row, Table
from linebook.pdf.columns import Column, spread
from linebook.pdf.pieces import Op, Strip, Words, lowered
from linebook.pdf.tables import head_strip
from linebook.pdf.words import Line, Word, parted

if TYPE_CHECKING:
    from linebook.pdf.layout import Layout

_LANGUAGES: Final = 2
"""Lines. A head that says it in two languages has one for each, where its column is as wide as that."""

_WHOLE_WORD: Final = 1.6
"""Of the length that heads have: a word so long is not cut. A longer one would take the room of the rows."""

_LONGER: Final = 1.1
"""By what a head grows until it has no more lines than its column has room for."""


def width_of_heads(layout: Layout, table: Table) -> float:
    """Return how wide a column of marks is for heads in two lines, more for a very long one; 0 where all are short."""
    style, most = layout.theme.styles.matrix_head, layout.theme.spaces.matrix_head_most
    last = len(table.columns) - 1
    heads = [cell for row in table.head for at, cell in spread(row) if table.columns[min(at, last)] == "mark"]
    words = [layout.lines.words(cell.content, style) for cell in heads]
    if all(layout.lines.natural(one) <= most and len(parted(one)) < _LANGUAGES for one in words):
        return 0.0
    longest = max(layout.lines.natural(one) for one in words)
    lines = max(_LANGUAGES, ceil(longest / (_LANGUAGES * most)))
    return _width_of(layout, lines)


def lengths_of_heads(layout: Layout, room: float) -> Iterator[float]:
    """Yield how long heads may be on a page with that room, from what a theme asks for on."""
    most = layout.theme.spaces.matrix_head_most
    while most < room < inf:
        yield most
        most *= _LONGER


def widths_of_heads(layout: Layout, table: Table, most: float) -> dict[int, float]:
    """Return how wide each column of marks is for a head no longer than ``most``, apart from what is beside it."""
    style, least = layout.theme.styles.matrix_head, layout.theme.spaces.mark_column
    widths = {at: least for at, kind in enumerate(table.columns) if kind == "mark"}
    for row in table.head:
        for at, cell in spread(row):
            if at not in widths:
                continue
            lines = _broken(layout, layout.lines.words(cell.content, style, along=True), most)
            if len(lines) > 1:
                lines = _broken(layout, layout.lines.words(cell.content, style), most)
            apart = layout.theme.spaces.unit_gap if len(lines) > 1 else 0.0
            widths[at] = max(widths[at], _width_of(layout, len(lines)) + apart)
    return widths


def _broken(layout: Layout, words: list[Word], most: float) -> list[Line]:
    return layout.lines.lines(words, max(most, _at_first(layout, words)))


def _at_first(layout: Layout, words: list[Word]) -> float:
    """Return how long a head's lines may be at the least: as its theme says, or as a word that need not be cut."""
    most, word = layout.theme.spaces.matrix_head_most, layout.lines.least(words)
    return word if most < word <= most * _WHOLE_WORD else most


def _width_of(layout: Layout, lines: int) -> float:
    """Return how wide a column of marks is for a head of so many lines."""
    return lines * layout.lines.leading(layout.theme.styles.matrix_head) + layout.theme.strokes.thin


def upright_head(layout: Layout, row: Row, columns: tuple[Column, ...], *, below: bool) -> Strip:
    """Return a head row whose words over marks run upwards, each inside its own column."""
    style = layout.theme.styles.matrix_head
    leading, pad = layout.lines.leading(style), layout.space(layout.theme.spaces.row)
    plain = replace(
        row, cells=tuple(cell for at, cell in spread(row) if columns[min(at, len(columns) - 1)].kind != "mark")
    )
    flat = head_strip(layout, plain, tuple(column for column in columns if column.kind != "mark") or columns)
    turned = []
    for at, cell in spread(row):
        column = columns[min(at, len(columns) - 1)]
        if column.kind != "mark":
            continue
        fits = max(1, int(column.width / leading))
        words = layout.lines.words(cell.content, style, along=fits < _LANGUAGES)
        most = _at_first(layout, words)
        lines = layout.lines.lines(words, most)
        while len(lines) > fits:
            most *= _LONGER
            lines = layout.lines.lines(words, most)
        turned.append((column, lines))
    longest = max([line.width for _, lines in turned for line in lines], default=0.0)
    height = max(flat.height, longest + 2 * pad)
    ops: list[Op] = []
    for column, lines in turned:
        ops += _turned(layout, column, lines, leading, height - pad, pad if below else None)
    if not below:
        ops += [lowered(op, height - flat.height) for op in flat.ops]
    return Strip(height, tuple(ops), keep=not below)


def _turned(
    layout: Layout, column: Column, lines: Sequence[Line], leading: float, foot: float, top: float | None
) -> list[Op]:
    style = layout.theme.styles.matrix_head
    ops: list[Op] = []
    left = column.left + (column.width - len(lines) * leading) / 2
    for number, line in enumerate(lines):
        x = left + number * leading + layout.lines.baseline(style, leading)
        start = foot if top is None else top + line.width
        for offset, pieces in line.runs:
            ops.append(Words(x, start - offset, pieces, 1))
    return ops
