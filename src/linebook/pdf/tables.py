"""Sets tables: column widths, rows, heads that are said again, group heads that are never left alone.

Owns the geometry of ordinary tables; a table of allergen marks is in ``matrix``. It must not know of pages.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Final, TypeAlias

from linebook.markup.blocks import Cell, Row, Table
from linebook.pdf.columns import (
    NOTES_UNDER,
    Column,
    after,
    group_style,
    head_style,
    place_columns,
    spread,
    style_of,
    to_write_in,
)
from linebook.pdf.pieces import Context, Link, Op, Strip, Stroke, lowered, made
from linebook.pdf.theme import Style
from linebook.pdf.words import Line, Word

if TYPE_CHECKING:
    from linebook.pdf.layout import Layout

LINK: Final = "sheet:"
"""What a row's key starts with when the row leads to a sheet."""

_RIGHT: Final = frozenset({"amount", "figure"})
_CENTRE: Final = frozenset({"mark"})
_UNRULED: Final = frozenset({"log"})
"""Roles without rules above and below: they stand in a frame."""

_TALL: Final = 12
"""Lines. A taller row is cut between its lines where a page ends; taller heads are not said again."""


_STANDS_ALONE: Final = 4
"""Lines. A row of so many is not lost alone on a page."""


Slice: TypeAlias = "tuple[float, tuple[Op, ...], tuple[Link, ...]]"
"""What is never cut of a row: its height, what is drawn on it, what leads elsewhere. Tied to others it is a strip."""

_Text: TypeAlias = "tuple[float, Line, Style, float, float, list[tuple[float, Line, Style]]]"
"""A cell as it is set: the start of its first line, that line, its style and two lengths, then its other lines.

The first length is how far under the top of the line its baseline is, the second what the line takes under that. A
plain tuple, since there is one for each cell of each table at each density.
"""


def table_items(layout: Layout, table: Table, width: float) -> list[Strip]:
    """Return a table's strips: its heads, then its rows."""
    if table.role in _UNRULED:
        table = to_write_in(layout, table, width)
    columns = place_columns(layout, table, width)
    strokes = layout.theme.strokes
    rules = () if table.role in _UNRULED else (Stroke(0, 0, width, 0, strokes.thin),)
    head = [head_strip(layout, row, columns, table.role) for row in table.head] or [Strip(strokes.thin, (), keep=True)]
    setter = RowSetter(layout, columns, table.role)
    rows = [setter.slices(row) for row in table.rows]
    again = tuple(head) if table.head and _said_again(layout, table, head, rows) else ()
    before = layout.space(layout.theme.spaces.table_before) if rules else 0.0
    first = head[0]  # without the rule where it is said again: a page's own is over it
    head[0] = Strip(first.height, (*rules, *first.ops), before, first.keep)
    return [*head, *tied(layout, table, rows, again, width)]


def _said_again(layout: Layout, table: Table, head: Sequence[Strip], rows: Sequence[list[Slice]]) -> bool:
    """Say whether heads are so low that they are said again on further pages, over any of the rows."""
    few = _TALL * layout.lines.leading(head_style(layout, table.role))
    high = sum([strip.height for strip in head])
    groups = [_height(slices) for row, slices in zip(table.rows, rows, strict=True) if row.heading]
    under = max([height for slices in rows for height, _, _ in slices], default=0.0) + max(groups, default=0.0)
    if high > few or high + under <= few:
        return high <= few
    return high + under <= layout.place().later - 2 * layout.theme.spaces.box  # a table may stand in a frame


def _height(slices: Sequence[Slice]) -> float:
    return sum([height for height, _, _ in slices])


def tied(
    layout: Layout,
    table: Table,
    rows: Sequence[list[Slice]],
    head: tuple[Strip, ...],
    width: float,
    below: tuple[Strip, ...] = (),
) -> list[Strip]:
    """Tie rows so that no head and no single row is left alone, and end the table with a rule."""
    plain = context = Context(head, below)
    flat: list[Strip] = []
    ends = _ends(layout, table, rows)
    for number, (row, slices) in enumerate(zip(table.rows, rows, strict=True)):
        within = plain if row.heading else context
        last = len(slices) - 1
        for at, (height, ops, links) in enumerate(slices):
            keep = at == last and (row.heading or number in ends)
            flat.append(made(Strip, (height, ops, 0.0, keep, within, links)))
        if row.heading:
            height, ops, _ = slices[0]
            context = Context((*head, Strip(height, ops, keep=True)), below)
    if flat and table.role not in _UNRULED:
        height, ops, *_, links = flat[-1]
        end = Stroke(0, height, width, height, layout.theme.strokes.thin)
        flat[-1] = Strip(height, (*ops, end), 0.0, False, flat[-1].context, links)
    return flat


def _ends(layout: Layout, table: Table, rows: Sequence[list[Slice]]) -> set[int]:
    """Return the rows that the next is tied to: the first of all and of each group, and the last but one.

    Not where the one that would stand alone is tall. A head between two rows that are tied is tied too.
    """
    tall = _STANDS_ALONE * layout.lines.leading(style_of(layout, "text", table.role))
    plain = [number for number, row in enumerate(table.rows) if not row.heading]
    tied_rows: set[int] = set()
    for one, other in pairwise(plain):
        first = one == plain[0] or (table.rows[one - 1].heading and other == one + 1)
        if (first and _height(rows[one]) < tall) or (other == plain[-1] and _height(rows[other]) < tall):
            tied_rows.update(range(one, other))
    return tied_rows


# -- rows


def head_strip(layout: Layout, row: Row, columns: tuple[Column, ...], role: str = "") -> Strip:
    """Return a head row: its words in its role's style, aligned as what stands under them, its last lines level."""
    style = head_style(layout, role)
    texts: list[tuple[float, float, str, list[Line]]] = []
    for at, cell in spread(row):
        left, right, _, align = _reach(columns, at, cell.span)
        lines = [
            line
            for content in (cell.content, cell.note)
            if content
            for line in layout.lines.lines(layout.lines.words(content, style), right - left)
        ]
        texts.append((left, right - left, align, lines))
    tallest = max([len(lines) for *_, lines in texts], default=1)
    leading, pad = layout.lines.leading(style), layout.space(layout.theme.spaces.row)
    baseline, marks = layout.lines.baseline(style, leading), layout.lines.marks
    ops: list[Op] = []
    for left, width, align, lines in texts:
        for number, line in enumerate(lines, tallest - len(lines)):
            x = left if align == "left" else left + _spare(line, width, align)
            ops.append((x, pad + number * leading + baseline, line, marks))
    height = tallest * leading + 2 * pad
    return Strip(height, tuple(ops), keep=True)


class RowSetter:
    """Sets the rows of one table. What is the same in all of them is looked up once."""

    def __init__(self, layout: Layout, columns: tuple[Column, ...], role: str) -> None:
        self._layout = layout
        self._columns = columns
        self._role = role
        self._pad = _padding(layout, role)
        self._setters = [_CellSetter(layout, columns, at, 1, role) for at in range(len(columns))]
        self._rule = None if role in _UNRULED else layout.theme.strokes.hair

    def slices(self, row: Row) -> list[Slice]:
        """Return a row: in one piece, or line by line where it is very tall."""
        if row.heading:
            return [_group(self._layout, row, self._columns, self._role)]
        pad, marks = self._pad, self._layout.lines.marks
        texts = self._texts(row)
        first, most = 0.0, 0
        for _, _, _, drop, _, further in texts:
            first = drop if drop > first else first
            most = len(further) if further and len(further) > most else most
        ops: list[Op] = []
        baseline, bottom = pad + first, 0.0
        for x, line, _, _, rest, further in texts:
            ops.append((x, baseline, line, marks))
            reach = baseline + rest
            if further:
                reach = self._further(further, reach, ops)
            bottom = reach if reach > bottom else bottom
        if most < _TALL and not self._fills_a_page(bottom + pad):
            return [self._finished(row, bottom + pad, ops)]
        *above, (height, ops) = _tall_row(self._layout, texts, first, pad)
        return [*[(high, tuple(line), ()) for high, line in above], self._finished(row, height, ops)]

    def _fills_a_page(self, height: float) -> bool:
        """Say whether a row is taller than any page: of few lines, but of what is read from far or printed large."""
        layout = self._layout
        if height <= _TALL * layout.lines.leading(layout.theme.styles.cell):  # as low as a row of ordinary words
            return False
        return height > layout.place().later - 2 * layout.theme.spaces.box  # a table may stand in a frame

    def _texts(self, row: Row) -> list[_Text]:
        """Return the cells of a row that say something."""
        texts: list[_Text] = []
        setters, at = self._setters, 0
        for cell in row.cells:
            if cell.span == 1 and at < len(setters):
                setter = setters[at]
            elif cell.span <= 1:
                setter = setters[-1]
            else:
                setter = _CellSetter(self._layout, self._columns, at, cell.span, self._role)
            text = setter.text(cell)
            if text is not None:
                texts.append(text)
            at += cell.span if cell.span > 1 else 1
        return texts

    def _further(self, lines: Sequence[tuple[float, Line, Style]], bottom: float, ops: list[Op]) -> float:
        """Draw the lines of a cell after its first, which ends at ``bottom``; return how far down they reach."""
        layout, setter = self._layout, self._layout.lines
        for x, line, style in lines:
            height = layout.line_height(line, setter.leading(style))
            drop = setter.baseline(style, height)
            ops.append((x, bottom + drop, line, setter.marks))
            bottom = bottom + drop + (height - drop)
        return bottom

    def _finished(self, row: Row, height: float, ops: list[Op]) -> Slice:
        """Return a row with its rule, and its link where its key names a sheet."""
        width = self._columns[-1].right
        if self._rule is not None:
            ops.append(made(Stroke, (0, height, width, height, self._rule, "hairline")))
        links = (Link(row.key[len(LINK) :], 0, 0, width, height),) if row.key.startswith(LINK) else ()
        return height, tuple(ops), links


class _CellSetter:
    """Sets the cells of one column, or one cell over several. What many rows say is set once."""

    def __init__(self, layout: Layout, columns: tuple[Column, ...], at: int, span: int, role: str) -> None:
        self._layout = layout
        self._role = role
        self._left, right, kind, self._align = _reach(columns, at, span)
        self._width = right - self._left
        self._style = style = style_of(layout, kind, role)
        _, self._leading, middle = layout.lines.measures(style)
        self._drop = self._leading / 2 + middle
        self._known = layout.lines.known(style)
        self._texts: dict[int, _Text | None] = {}

    def text(self, cell: Cell) -> _Text | None:
        """Return a cell's lines; None of a cell that says nothing."""
        if cell.note:
            return self._with_note(cell)
        content = cell.content
        if not content:
            return None
        text = self._texts.get(id(content))
        if text is None:  # what is split is kept with its content, so that an address is never reused
            known, setter = self._known.get(id(content)), self._layout.lines
            lines = setter.lines(known[1] if known else setter.words(content, self._style), self._width)
            text = self._texts[id(content)] = self._of(lines, [])
        return text

    def _with_note(self, cell: Cell) -> _Text | None:
        """Return a cell with its note after its words, or under them where both need the width."""
        setter, note = self._layout.lines, self._layout.theme.styles.note
        if self._role not in NOTES_UNDER:
            words = self._layout.cell_words(cell, self._style, self._role)
            if words.natural <= self._width:
                return self._of(setter.lines(words, self._width), [])
        lines = setter.lines(setter.words(cell.content, self._style), self._width)
        return self._of(lines, setter.lines(setter.words(cell.note, note), self._width))

    def _of(self, lines: list[Line], notes: list[Line]) -> _Text | None:
        """Return lines as they are set, those of a note under the others."""
        style, note = self._style, self._layout.theme.styles.note
        if len(lines) == 1 and not notes:
            further = []
        else:
            each = [*[(line, style) for line in lines], *[(line, note) for line in notes]]
            further = [(self._start(line), line, own) for line, own in each[1:]]
        if lines:
            line, leading = lines[0], self._leading
            if not line.marks and line.part == 1:
                return self._start(line), line, style, self._drop, leading - self._drop, further
        elif notes:
            line, style = notes[0], note
            leading = self._layout.lines.leading(style)
        else:
            return None
        height = self._layout.line_height(line, leading)
        drop = self._layout.lines.baseline(style, height)
        return self._start(line), line, style, drop, height - drop, further

    def _start(self, line: Line) -> float:
        """Return where a line starts."""
        return self._left if self._align == "left" else self._left + _spare(line, self._width, self._align)


def _spare(line: Line, width: float, align: str) -> float:
    """Return how far from the left a line stands that is aligned at the right or in the centre."""
    return width - line.width if align == "right" else (width - line.width) / 2


def _padding(layout: Layout, role: str) -> float:
    """Return the space above and below a row's text; where a hand has to write it never gets less."""
    spaces = layout.theme.spaces
    if role in _UNRULED:
        return spaces.log_row
    return layout.space(spaces.matrix_row if role == "matrix" else spaces.row)


def _group(layout: Layout, row: Row, columns: tuple[Column, ...], role: str) -> Slice:
    """Return the head of a group; what a cell notes stands beside its words, quieter."""
    style, spaces = group_style(layout, role), layout.theme.spaces
    width = columns[-1].right
    words: list[Word] = []
    for cell in row.cells:
        words = after(layout, words, layout.lines.words(cell.content, style))
        words = after(layout, words, layout.lines.words(cell.note, layout.theme.styles.beside))
    strips = layout.flow(words, style, width, before=0.0)
    ops: list[Op] = []
    pad = _padding(layout, role)
    y = pad if role == "matrix" else pad + layout.space(spaces.group_before)
    for strip in strips:
        ops += [lowered(op, y) for op in strip.ops]
        y += strip.height
    return y + pad / 2, tuple(ops), ()


def _reach(columns: tuple[Column, ...], at: int, span: int) -> tuple[float, float, str, str]:
    """Return left, right, kind and alignment of what a cell covers; over several columns it starts at the left."""
    first = columns[min(at, len(columns) - 1)]
    kind = first.kind
    if span <= 1:
        align = "right" if kind in _RIGHT else "centre" if kind in _CENTRE else "left"
        return first.left, first.right, kind, align
    last = columns[min(at + span, len(columns)) - 1]
    return first.left, max(last.right, first.right), kind, "left"


def _tall_row(layout: Layout, texts: Sequence[_Text], first: float, pad: float) -> list[tuple[float, list[Op]]]:
    """Return a row line by line, so that it can run on over pages: the height of each and what is drawn on it."""
    setter = layout.lines
    made: list[tuple[float, list[Op]]] = []
    each = [[(x, line, style), *further] for x, line, style, _, _, further in texts]
    count = max(map(len, each))
    for number in range(count):
        here = [lines[number] for lines in each if number < len(lines)]
        height = max(layout.line_height(line, setter.leading(style)) for _, line, style in here)
        top = pad if number == 0 else 0.0
        ops: list[Op] = []
        for x, line, style in here:
            baseline = top + first if number == 0 else setter.baseline(style, height)
            ops.append((x, baseline, line, setter.marks))
        below = pad if number == count - 1 else 0.0
        made.append((top + max(height, first if number == 0 else 0.0) + below, ops))
    return made
