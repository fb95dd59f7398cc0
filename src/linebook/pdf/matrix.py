"""Sets the table of allergen marks: upright heads, columns ruled in fives, courses beside the names of their dishes.

Owns what differs from an ordinary table. It must not know what a mark means, nor of pages. Points.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from linebook.markup.blocks import Cell, Inline, Row, Run, Table
from linebook.pdf.columns import Column, place_columns, spread
from linebook.pdf.heads import lengths_of_heads, upright_head, width_of_heads, widths_of_heads
from linebook.pdf.pieces import Op, Strip, Stroke
from linebook.pdf.place import Place, pages_of, stands
from linebook.pdf.tables import RowSetter, Slice, tied

if TYPE_CHECKING:
    from linebook.pdf.layout import Layout

_FIVE: Final = 5

_NARROWEST: Final = 0.7
"""Of the width that names should have: what they have where there are very many marks."""


def matrix_items(layout: Layout, table: Table, width: float) -> list[Strip]:
    """Return the strips of a table of marks, cut into several side by side where its columns are too many.

    Where its heads leave no room on a page for rows they are set in more lines, for which names give up room; where
    that is not enough the table is cut into more parts, each of fewer and wider columns.
    """
    marks = [at for at, kind in enumerate(table.columns) if kind == "mark"]
    least = _least_names(layout, len(table.columns) - len(marks))
    each = _share(len(marks), max(1, int((width - least) / layout.theme.spaces.mark_column_least)))
    place = layout.place()
    tables = _cut(table, marks, each, place.part)
    parts = usual = [_one(layout, one, width, _even(layout, one, width)) for one in tables]
    while not _stand(parts, place):
        good = [some for some in _shorter(layout, tables, width - least, width, place) if _stand(some, place)]
        if good or each <= 1:
            parts = min(good, key=lambda some: sum(pages_of(part, place) for part in some), default=usual)
            break
        each = _share(len(marks), each - 1)
        tables = _cut(table, marks, each, place.part)
    return [strip for part in parts for strip in part]


def _stand(parts: Sequence[Sequence[Strip]], place: Place) -> bool:
    return all(stands(part, place) for part in parts)


def _shorter(
    layout: Layout, tables: Sequence[Table], room: float, width: float, place: Place
) -> Iterator[list[list[Strip]]]:
    """Yield the parts of a table with heads of one length after another, where ``room`` is enough for their columns."""
    before: list[dict[int, float]] = []
    for most in lengths_of_heads(layout, place.opening):
        widths = [widths_of_heads(layout, one, most) for one in tables]
        if widths != before and all(sum(one.values()) <= room for one in widths):
            before = widths
            yield [_one(layout, one, width, marks) for one, marks in zip(tables, widths, strict=True)]


def _share(count: int, most: int) -> int:
    """Return how many columns of marks each part has: as few parts as ``most`` allows, all of one width."""
    return -(-count // (-(-count // most) or 1)) or 1


def _cut(table: Table, marks: Sequence[int], each: int, said: str) -> list[Table]:
    """Return the parts of a table, each with all its names and ``each`` of its marks, which its head says."""
    if len(marks) <= each:
        return [table]
    others = [at for at in range(len(table.columns)) if at not in marks]
    kept = [marks[start : start + each] for start in range(0, len(marks), each)]
    return [
        _numbered(_part(table, [*others, *some]), said, (at * each + 1, at * each + len(some), len(marks)))
        for at, some in enumerate(kept)
    ]


def _numbered(table: Table, said: str, numbers: tuple[int, int, int]) -> Table:
    """Return a part of a table whose first head says which of the columns it has: first, last, of how many."""
    if not said or not table.head or not table.head[-1].cells or table.columns[0] == "mark":
        return table
    for name, number in zip(("first", "last", "count"), numbers, strict=True):
        said = said.replace(f"{{{name}}}", str(number))
    *above, row = table.head
    corner, *heads = row.cells
    corner = replace(corner, content=(Run(text=said, bold=True),), note=corner.content)
    return replace(table, head=(*above, replace(row, cells=(corner, *heads))))


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


def _one(layout: Layout, table: Table, width: float, marks: Mapping[int, float]) -> list[Strip]:
    columns = _columns(layout, table, width, marks)
    aside = _aside(layout, table, columns)
    if aside:
        columns = (
            replace(columns[0], kind="text", width=aside - layout.theme.spaces.column_gap),
            replace(columns[0], left=aside, width=columns[0].width - aside),
            *columns[1:],
        )
        table = _with_courses(table)
    strokes, rules = layout.theme.strokes, _fives(columns)
    heads = [upright_head(layout, row, columns, below=False) for row in table.head]
    below = [upright_head(layout, row, columns, below=True) for row in table.head]
    if heads:
        end = Stroke(0, heads[-1].height, width, heads[-1].height, strokes.thin)
        heads[-1] = heads[-1]._replace(ops=(*heads[-1].ops, end))
    rows = []
    setter = RowSetter(layout, columns, "matrix")
    for row in table.rows:
        upright = [x for x in rules if x > _reach(layout, row)]
        rows.append(
            [
                (height, (*ops, *_ruled(height, upright, strokes.hair)), links)
                for height, ops, links in setter.slices(row)
            ]
        )
    if aside:
        rows = _in_courses(layout, table, rows, aside)
    body = tied(layout, table, rows, tuple(heads), width, tuple(below))
    if aside:
        body = _beside_names(table, rows, body)
    before = layout.space(layout.theme.spaces.table_before)
    return [*[head._replace(before=0.0 if number else before) for number, head in enumerate(heads)], *body]


def _columns(layout: Layout, table: Table, width: float, marks: Mapping[int, float]) -> tuple[Column, ...]:
    """Place the columns: marks of given widths on the right, the rest as in any table."""
    others = [at for at, kind in enumerate(table.columns) if kind != "mark"]
    placed = place_columns(layout, _part(table, others), width - sum(marks.values()))
    plain = dict(zip(others, placed, strict=True))
    columns: list[Column] = []
    left = 0.0
    for at, kind in enumerate(table.columns):
        column = plain.get(at)
        size = column.width if column else marks[at]
        gap = layout.theme.spaces.mark_gap if column and "mark" in table.columns[at + 1 : at + 2] else 0.0
        columns.append(Column(kind=kind, left=left, width=size - gap))
        left += size
    return tuple(columns)


def _even(layout: Layout, table: Table, width: float) -> dict[int, float]:
    """Return the widths of columns of marks, all alike, with the names in mind."""
    spaces = layout.theme.spaces
    marks = [at for at, kind in enumerate(table.columns) if kind == "mark"]
    others = len(table.columns) - len(marks)
    room = max(width - spaces.matrix_name * max(1, others), 1)
    wanted = max(spaces.mark_column, width_of_heads(layout, table))
    least = min(spaces.mark_column_least, (width - _least_names(layout, others)) / max(1, len(marks)))
    each = max(min(wanted, room / max(1, len(marks))), least, 1.0)
    return dict.fromkeys(marks, each)


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


def _in_courses(layout: Layout, table: Table, rows: list[list[Slice]], aside: float) -> list[list[Slice]]:
    """Rule the rows of a course from the names on, and the courses from edge to edge."""
    found: list[list[Slice]] = []
    for number, slices in enumerate(rows):
        *above, (height, ops, links) = slices
        ends = number + 1 == len(rows) or table.rows[number + 1].heading
        ruled = tuple([_rule(layout, op, height, aside, ends=ends) for op in ops])
        found.append([*above, (height, ruled, links)])
    return found


def _rule(layout: Layout, op: Op, height: float, aside: float, *, ends: bool) -> Op:
    if not isinstance(op, Stroke) or op.ink != "hairline" or op.y1 != height:
        return op
    return op._replace(ink="ink", width=layout.theme.strokes.hair) if ends else op._replace(x1=aside)


def _beside_names(table: Table, rows: Sequence[list[Slice]], body: list[Strip]) -> list[Strip]:
    """Take out the rows of the courses; on a new page one is still said again above the rest of its dishes."""
    kept: list[Strip] = []
    at = 0
    course: Strip | None = None
    for row, slices in zip(table.rows, rows, strict=True):
        own = body[at : at + len(slices)]
        at += len(slices)
        if row.heading:
            course = own[0]
        else:
            kept += [own[0]._replace(context=course.context), *own[1:]] if course else own
            course = None
    return kept


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
