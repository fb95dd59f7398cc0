"""Sets the table of allergen marks: upright heads, columns ruled in fives, courses beside the names of their dishes.

Owns what differs from an ordinary table. It must not know what a mark means, nor of pages. Points.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING, Final

from linebook.markup.blocks import Cell, Inline, Row, Run, Table
from linebook.pdf.columns import Column, place_columns, spread
from linebook.pdf.pieces import Op, Strip, Stroke, Words, lowered
from linebook.pdf.tables import head_strip, row_strips, tied
from linebook.pdf.words import Line, parted

if TYPE_CHECKING:
    from linebook.pdf.layout import Layout

_FIVE: Final = 5

_NARROWEST: Final = 0.7
"""Of the width that names should have: what they have where there are very many marks."""
_LANGUAGES: Final = 2
"""Lines. A head that says it in two languages has one for each, where its column is as wide as that."""


def matrix_items(layout: Layout, table: Table, width: float) -> list[Strip]:
    """Return the strips of a table of marks, cut into several side by side where its columns are too many."""
    spaces = layout.theme.spaces
    others = [at for at, kind in enumerate(table.columns) if kind != "mark"]
    marks = [at for at, kind in enumerate(table.columns) if kind == "mark"]
    most = max(1, int((width - _least_names(layout, len(others))) / spaces.mark_column_least))
    strips: list[Strip] = []
    tables = -(-len(marks) // most) or 1
    each = -(-len(marks) // tables)
    for start in range(0, max(1, len(marks)), max(1, each)):
        strips += _one(layout, _part(table, [*others, *marks[start : start + each]]), width)
    return strips


def _least_names(layout: Layout, count: int) -> float:
    """Return what the columns that are no marks get at the least, before a table is cut in two: a part is misread."""
    return layout.theme.spaces.matrix_name * _NARROWEST * max(1, count)


def _part(table: Table, kept: Sequence[int]) -> Table:
    """Return the table with some of its columns."""
    if len(kept) == len(table.columns):
        return table
    wanted = set(kept)

    def rows(of: tuple[Row, ...]) -> tuple[Row, ...]:
        return tuple(
            row if row.heading else replace(row, cells=tuple(cell for at, cell in spread(row) if at in wanted))
            for row in of
        )

    columns = tuple(kind for at, kind in enumerate(table.columns) if at in wanted)
    return replace(table, columns=columns, head=rows(table.head), rows=rows(table.rows))


def _one(layout: Layout, table: Table, width: float) -> list[Strip]:
    columns = _columns(layout, table, width)
    aside = _aside(layout, table, columns)
    if aside:
        columns = (
            replace(columns[0], kind="text", width=aside - layout.theme.spaces.column_gap),
            replace(columns[0], left=aside, width=columns[0].width - aside),
            *columns[1:],
        )
        table = _with_courses(table)
    strokes, rules = layout.theme.strokes, _fives(columns)
    heads = [_head(layout, row, columns, below=False) for row in table.head]
    below = [_head(layout, row, columns, below=True) for row in table.head]
    if heads:
        end = Stroke(0, heads[-1].height, width, heads[-1].height, strokes.thin)
        heads[-1] = heads[-1]._replace(ops=(*heads[-1].ops, end))
    rows = []
    for row in table.rows:
        strips = row_strips(layout, row, columns, "matrix")
        upright = [x for x in rules if x > _reach(layout, row)]
        rows.append(
            [strip._replace(ops=(*strip.ops, *_ruled(strip.height, upright, strokes.hair))) for strip in strips]
        )
    if aside:
        rows = _in_courses(layout, table, rows, aside)
    body = tied(layout, table, rows, tuple(heads), width, tuple(below))
    if aside:
        body = _beside_names(table, rows, body)
    before = layout.space(layout.theme.spaces.table_before)
    return [*[head._replace(before=0.0 if number else before) for number, head in enumerate(heads)], *body]


def _columns(layout: Layout, table: Table, width: float) -> tuple[Column, ...]:
    """Place the columns: marks evenly on the right, the rest as in any table."""
    spaces = layout.theme.spaces
    marks = sum(kind == "mark" for kind in table.columns)
    others = [at for at, kind in enumerate(table.columns) if kind != "mark"]
    room = max(width - spaces.matrix_name * max(1, len(others)), 1)
    wanted = max(spaces.mark_column, _two_lines(layout, table))
    least = min(spaces.mark_column_least, (width - _least_names(layout, len(others))) / max(1, marks))
    each = max(min(wanted, room / max(1, marks)), least, 1.0)
    plain = _part(table, others)
    placed = dict(zip(others, place_columns(layout, plain, width - each * marks), strict=True))
    columns: list[Column] = []
    left = 0.0
    for at, kind in enumerate(table.columns):
        column = placed.get(at)
        size = column.width if column else each
        gap = spaces.mark_gap if column and "mark" in table.columns[at + 1 : at + 2] else 0.0
        columns.append(Column(kind=kind, left=left, width=size - gap))
        left += size
    return tuple(columns)


# -- courses beside the names


def _aside(layout: Layout, table: Table, columns: tuple[Column, ...]) -> float:
    """Return where names start if the courses stand to their left, 0 where that would crowd them."""
    spaces, lines = layout.theme.spaces, layout.lines
    style = layout.theme.styles.cell
    courses = [cell for row in table.rows if row.heading for cell in row.cells]
    names = [column for column in columns if column.kind != "mark"]
    if not courses or any(cell.note for cell in courses) or names != [columns[0]] or not _have_dishes(table):
        return 0.0
    start = max(lines.natural(lines.words(_bold(cell), style)) for cell in courses) + spaces.column_gap
    return start if columns[0].kind == "name" and columns[0].width - start >= spaces.matrix_name else 0.0


def _have_dishes(table: Table) -> bool:
    """Say whether each course is one cell with a dish under it: beside a name that is not there it would be lost."""
    after = (*table.rows[1:], None)
    return all(
        len(row.cells) == 1 and below is not None and not below.heading
        for row, below in zip(table.rows, after, strict=True)
        if row.heading
    )


def _bold(cell: Cell) -> Inline:
    return tuple(replace(piece, bold=True) if isinstance(piece, Run) else piece for piece in cell.content)


def _with_courses(table: Table) -> Table:
    """Return the table with a column for the courses, each said beside its first dish."""
    rows: list[Row] = []
    for number, row in enumerate(table.rows):
        before = table.rows[number - 1] if number else row
        first = _bold(before.cells[0]) if before.heading and before.cells else ()
        rows.append(row if row.heading else replace(row, cells=(Cell(content=first), *row.cells)))
    head = tuple(replace(row, cells=(Cell(content=()), *row.cells)) for row in table.head)
    return replace(table, columns=("text", *table.columns), head=head, rows=tuple(rows))


def _in_courses(layout: Layout, table: Table, rows: list[list[Strip]], aside: float) -> list[list[Strip]]:
    """Rule the rows of a course from the names on, and the courses from edge to edge."""
    found: list[list[Strip]] = []
    for number, strips in enumerate(rows):
        *above, last = strips
        ends = number + 1 == len(rows) or table.rows[number + 1].heading
        ops = tuple(_rule(layout, op, last.height, aside, ends=ends) for op in last.ops)
        found.append([*above, last._replace(ops=ops)])
    return found


def _rule(layout: Layout, op: Op, height: float, aside: float, *, ends: bool) -> Op:
    if not isinstance(op, Stroke) or op.ink != "hairline" or op.y1 != height:
        return op
    return op._replace(ink="ink", width=layout.theme.strokes.hair) if ends else op._replace(x1=aside)


def _beside_names(table: Table, rows: list[list[Strip]], body: list[Strip]) -> list[Strip]:
    """Take out the rows of the courses; on a new page one is still said again above the rest of its dishes."""
    kept: list[Strip] = []
    at = 0
    course: Strip | None = None
    for row, strips in zip(table.rows, rows, strict=True):
        own = body[at : at + len(strips)]
        at += len(strips)
        if row.heading:
            course = own[0]
        else:
            kept += [own[0]._replace(context=course.context), *own[1:]] if course else own
            course = None
    return kept


def _two_lines(layout: Layout, table: Table) -> float:
    """Return how wide a column of marks is for heads in two lines, more for a very long one; 0 where all are short."""
    style, most = layout.theme.styles.matrix_head, layout.theme.spaces.matrix_head_most
    last = len(table.columns) - 1
    heads = [cell for row in table.head for at, cell in spread(row) if table.columns[min(at, last)] == "mark"]
    words = [layout.lines.words(cell.content, style) for cell in heads]
    if all(layout.lines.natural(one) <= most and len(parted(one)) < _LANGUAGES for one in words):
        return 0.0
    longest = max(layout.lines.natural(one) for one in words)
    lines = max(_LANGUAGES, ceil(longest / (_LANGUAGES * most)))
    return lines * layout.lines.leading(style) + layout.theme.strokes.thin


def _fives(columns: tuple[Column, ...]) -> tuple[float, ...]:
    """Return where the upright rules stand: before the first mark and after each five."""
    marks = [column for column in columns if column.kind == "mark"]
    if not marks:
        return ()
    edges = [marks[at].left for at in range(0, len(marks), _FIVE)]
    return (*edges, marks[-1].right)


def _reach(layout: Layout, row: Row) -> float:
    """Return how far the head of a course reaches, 0 for a dish: no rule runs through its words."""
    lines, styles = layout.lines, layout.theme.styles
    wide = 0.0
    for cell in row.cells if row.heading else ():
        wide += lines.natural(lines.words(cell.content, styles.group))
        wide += lines.natural(lines.words(cell.note, styles.beside)) + layout.theme.spaces.term_gap
    return wide


def _ruled(height: float, rules: Sequence[float], stroke: float) -> list[Op]:
    return [Stroke(x, 0, x, height, stroke) for x in rules]


def _head(layout: Layout, row: Row, columns: tuple[Column, ...], *, below: bool) -> Strip:
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
        most = layout.theme.spaces.matrix_head_most
        lines = layout.lines.lines(words, most)
        while len(lines) > fits:
            most *= 1.1
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
