"""Sets tables: column widths, rows, heads that are said again, group heads that are never left alone.

Owns the geometry of ordinary tables; a table of allergen marks is in ``matrix``. It must not know of pages.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

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
from linebook.pdf.lines import Split
from linebook.pdf.pieces import Context, Link, Op, Strip, Stroke, lowered
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


_Text: TypeAlias = "tuple[_Place, list[Line], list[Line], float, float]"
"""A cell as it is set: its place, its lines and those of its note under them, and two lengths.

The first is how far under the top of its first line the baseline is, the second what that line takes under it. A plain
tuple, since there is one for each cell of each table at each density.
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
    rows = [setter.strips(row) for row in table.rows]
    again = tuple(head) if table.head and _said_again(layout, table, head, rows) else ()
    head[0] = head[0]._replace(ops=(*rules, *head[0].ops))  # not where it is said again: a page's own rule is over it
    before = layout.space(layout.theme.spaces.table_before) if rules else 0.0
    return [head[0]._replace(before=before), *head[1:], *tied(layout, table, rows, again, width)]


def _said_again(layout: Layout, table: Table, head: Sequence[Strip], rows: Sequence[list[Strip]]) -> bool:
    """Say whether heads are so low that they are said again on further pages, over any of the rows."""
    few = _TALL * layout.lines.leading(head_style(layout, table.role))
    high = sum(strip.height for strip in head)
    groups = [strip.height for row, strips in zip(table.rows, rows, strict=True) for strip in strips if row.heading]
    under = max([strip.height for strips in rows for strip in strips], default=0.0) + max(groups, default=0.0)
    if high > few or high + under <= few:
        return high <= few
    return high + under <= layout.place().later - 2 * layout.theme.spaces.box  # a table may stand in a frame


def tied(
    layout: Layout,
    table: Table,
    rows: Sequence[list[Strip]],
    head: tuple[Strip, ...],
    width: float,
    below: tuple[Strip, ...] = (),
) -> list[Strip]:
    """Tie rows so that no head and no single row is left alone, and end the table with a rule."""
    plain = context = Context(head, below)
    flat: list[Strip] = []
    ends = _ends(layout, table, rows)
    for number, (row, strips) in enumerate(zip(table.rows, rows, strict=True)):
        keep = row.heading or number in ends
        within = plain if row.heading else context
        last = strips[-1]
        if len(strips) > 1:
            flat += [one._replace(context=within) for one in strips[:-1]]
        flat.append(Strip(last.height, last.ops, last.before, keep, within, last.links))
        if row.heading:
            context = Context((*head, strips[0]._replace(before=0.0)), below)
    if flat and table.role not in _UNRULED:
        end = Stroke(0, flat[-1].height, width, flat[-1].height, layout.theme.strokes.thin)
        flat[-1] = flat[-1]._replace(ops=(*flat[-1].ops, end), keep=False)
    return flat


def _ends(layout: Layout, table: Table, rows: Sequence[list[Strip]]) -> frozenset[int]:
    """Return the rows that the next is tied to: the first of all and of each group, and the last but one.

    Not where the one that would stand alone is tall. A head between two rows that are tied is tied too.
    """
    tall = _STANDS_ALONE * layout.lines.leading(style_of(layout, "text", table.role))
    plain = [number for number, row in enumerate(table.rows) if not row.heading]
    tied_rows: set[int] = set()
    for one, other in pairwise(plain):
        first = one == plain[0] or (table.rows[one - 1].heading and other == one + 1)
        alone = [*([one] if first else []), *([other] if other == plain[-1] else [])]
        if any(sum(strip.height for strip in rows[number]) < tall for number in alone):
            tied_rows.update(range(one, other))
    return frozenset(tied_rows)


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


class _Place(NamedTuple):
    """Where and how what a column has is set, and the words of such cells that are known already.

    Of a line without marks ``drop`` is how far down its baseline is, and ``rest`` what is left of it under that.
    """

    left: float
    width: float
    align: str
    style: Style
    drop: float
    rest: float
    leading: float
    known: Split


class RowSetter:
    """Sets the rows of one table. What is the same in all of them is looked up once."""

    def __init__(self, layout: Layout, columns: tuple[Column, ...], role: str) -> None:
        self._layout = layout
        self._columns = columns
        self._role = role
        self._pad = _padding(layout, role)
        self._places = [self._place(at, 1) for at in range(len(columns))]
        self._rule = None if role in _UNRULED else layout.theme.strokes.hair

    def strips(self, row: Row) -> list[Strip]:
        """Return a row: one strip, or one a line where it is very tall."""
        pad, marks = self._pad, self._layout.lines.marks
        if row.heading:
            return [_group_strip(self._layout, row, self._columns, self._role)]
        texts = [self._text(cell, at) for at, cell in spread(row)]
        first, tallest = 0.0, 0
        for _, lines, notes, drop, _ in texts:
            first = drop if drop > first else first
            tallest = max(tallest, len(lines) + len(notes)) if notes or len(lines) > tallest else tallest
        if tallest > _TALL:
            *above, last = _tall_row(self._layout, texts, first, pad)
            return [*above, self._finished(row, last.height, last.ops)]
        ops: list[Op] = []
        baseline, bottom = pad + first, 0.0
        for text in texts:
            place, lines, notes, _, rest = text
            if not lines and not notes:
                continue
            line = lines[0] if lines else notes[0]
            x = place.left if place.align == "left" else place.left + _spare(line, place.width, place.align)
            ops.append((x, baseline, line, marks))
            reach = baseline + rest
            if notes or len(lines) > 1:
                reach = self._further(text, reach, ops)
            bottom = reach if reach > bottom else bottom
        return [self._finished(row, bottom + pad, tuple(ops))]

    def _further(self, text: _Text, bottom: float, ops: list[Op]) -> float:
        """Draw the lines of a cell after its first, which ends at ``bottom``; return how far down they reach."""
        layout, setter, place = self._layout, self._layout.lines, text[0]
        for line, style in _lines_of(layout, text)[1:]:
            height = layout.line_height(line, setter.leading(style))
            drop = setter.baseline(style, height)
            x = place.left if place.align == "left" else place.left + _spare(line, place.width, place.align)
            ops.append((x, bottom + drop, line, setter.marks))
            bottom = bottom + drop + (height - drop)
        return bottom

    def _finished(self, row: Row, height: float, ops: tuple[Op, ...]) -> Strip:
        """Return a row's strip with its rule, and its link where its key names a sheet."""
        width = self._columns[-1].right
        if self._rule is not None:
            ops = (*ops, Stroke(0, height, width, height, self._rule, "hairline"))
        links = (Link(row.key[len(LINK) :], 0, 0, width, height),) if row.key.startswith(LINK) else ()
        return Strip(height, ops, links=links)

    def _place(self, at: int, span: int) -> _Place:
        left, right, kind, align = _reach(self._columns, at, span)
        style = style_of(self._layout, kind, self._role)
        leading = self._layout.lines.leading(style)
        drop = self._layout.lines.baseline(style, leading)
        return _Place(left, right - left, align, style, drop, leading - drop, leading, self._layout.lines.known(style))

    def _text(self, cell: Cell, at: int) -> _Text:
        """Return a cell's lines, and of the first how far down its baseline is and what is left of it under that."""
        place = self._places[min(at, len(self._places) - 1)] if cell.span <= 1 else self._place(at, cell.span)
        setter, style = self._layout.lines, place.style
        notes: list[Line] = []
        if cell.note:
            lines, notes = self._with_note(cell, place)
        else:
            known = place.known.get(id(cell.content))
            lines = setter.lines(known[1] if known else setter.words(cell.content, style), place.width)
        if lines:
            line = lines[0]
            if not line.marks and line.part == 1:
                return place, lines, notes, place.drop, place.rest
            leading = place.leading
        elif notes:
            line, style = notes[0], self._layout.theme.styles.note
            leading = setter.leading(style)
        else:
            return place, lines, notes, 0.0, 0.0
        height = self._layout.line_height(line, leading)
        drop = setter.baseline(style, height)
        return place, lines, notes, drop, height - drop

    def _with_note(self, cell: Cell, place: _Place) -> tuple[list[Line], list[Line]]:
        """Return the lines of a cell with a note after its words, or those of both where they need the width."""
        setter, note = self._layout.lines, self._layout.theme.styles.note
        if self._role not in NOTES_UNDER:
            words = self._layout.cell_words(cell, place.style, self._role)
            if words.natural <= place.width:
                return setter.lines(words, place.width), []
        lines = setter.lines(setter.words(cell.content, place.style), place.width)
        return lines, setter.lines(setter.words(cell.note, note), place.width)


def _lines_of(layout: Layout, text: _Text) -> list[tuple[Line, Style]]:
    """Return the lines of a cell, each with its style."""
    place, lines, notes, _, _ = text
    note = layout.theme.styles.note
    return [*[(line, place.style) for line in lines], *[(line, note) for line in notes]]


def _spare(line: Line, width: float, align: str) -> float:
    """Return how far from the left a line stands that is aligned at the right or in the centre."""
    return width - line.width if align == "right" else (width - line.width) / 2


def _padding(layout: Layout, role: str) -> float:
    """Return the space above and below a row's text; where a hand has to write it never gets less."""
    spaces = layout.theme.spaces
    if role in _UNRULED:
        return spaces.log_row
    return layout.space(spaces.matrix_row if role == "matrix" else spaces.row)


def _group_strip(layout: Layout, row: Row, columns: tuple[Column, ...], role: str) -> Strip:
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
    return Strip(y + pad / 2, tuple(ops), keep=True)


def _reach(columns: tuple[Column, ...], at: int, span: int) -> tuple[float, float, str, str]:
    """Return left, right, kind and alignment of what a cell covers; over several columns it starts at the left."""
    first = columns[min(at, len(columns) - 1)]
    kind = first.kind
    if span <= 1:
        align = "right" if kind in _RIGHT else "centre" if kind in _CENTRE else "left"
        return first.left, first.right, kind, align
    last = columns[min(at + span, len(columns)) - 1]
    return first.left, max(last.right, first.right), kind, "left"


def _tall_row(layout: Layout, texts: Sequence[_Text], first: float, pad: float) -> list[Strip]:
    """Return a row line by line, so that it can run on over pages."""
    setter = layout.lines
    strips: list[Strip] = []
    all_lines = [(text[0], _lines_of(layout, text)) for text in texts]
    for number in range(max(len(lines) for _, lines in all_lines)):
        here = [(place, *lines[number]) for place, lines in all_lines if number < len(lines)]
        height = max(layout.line_height(line, setter.leading(style)) for _, line, style in here)
        top = pad if number == 0 else 0.0
        ops: list[Op] = []
        for place, line, style in here:
            baseline = top + first if number == 0 else setter.baseline(style, height)
            x = place.left if place.align == "left" else place.left + _spare(line, place.width, place.align)
            ops.append((x, baseline, line, setter.marks))
        strips.append(Strip(top + max(height, first if number == 0 else 0.0), tuple(ops)))
    end = strips[-1]
    strips[-1] = end._replace(height=end.height + pad)
    return strips
