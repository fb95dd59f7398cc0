"""Tables of a sheet: rows, cells, spans and scopes, checked against the columns the table names."""

from __future__ import annotations

from collections.abc import Sequence

from linebook.markup.blocks import Cell, Row, Table
from linebook.markup.elements import Element
from linebook.markup.inline import Complain, InlineReader
from linebook.markup.vocabulary import MOST_COLUMNS, SCOPES
from linebook.source.frozen import frozen


@frozen
class TableReader:
    """Reads ``table`` elements. A row whose cells do not fill its columns is complained of."""

    inline: InlineReader
    complain: Complain

    def read(self, table: Element) -> Table:
        """Return a table with its head and all rows of its bodies."""
        parts = table.elements()
        columns = tuple(col.classes[0] for part in parts if part.tag == "colgroup" for col in part.elements())
        if not columns or len(columns) > MOST_COLUMNS:
            self.complain(table, "a table names its columns first", "begin it with `<colgroup>` and one `col` a column")
        return Table(
            columns=columns,
            head=self._read_rows([part for part in parts if part.tag == "thead"], len(columns)),
            rows=self._read_rows([part for part in parts if part.tag == "tbody"], len(columns)),
            role=" ".join(table.classes) or "ingredients",
        )

    def _read_rows(self, parts: Sequence[Element], columns: int) -> tuple[Row, ...]:
        rows: list[Row] = []
        for row in (row for part in parts for row in part.elements()):
            cells = tuple(self._read_cell(cell) for cell in row.elements())
            filled = sum(cell.span for cell in cells)
            if filled != columns:
                message = f"a row fills {filled} columns of a table that has {columns}"
                self.complain(row, message, "give each row one cell a column, or a `colspan`")
            rows.append(Row(cells=cells, heading="group" in row.classes, key=row.key))
        return tuple(rows)

    def _read_cell(self, element: Element) -> Cell:
        """Return a cell; one that stands in many rows is the same one each time."""
        if not isinstance(element.known, Cell):
            element.known = self._cell_of(element)
        return element.known

    def _cell_of(self, element: Element) -> Cell:
        scope = element.attributes.get("scope", "")
        if scope and scope not in SCOPES:
            self.complain(element, f'`scope="{scope}"` says nothing', "write `col` or `row`")
        content, note = self.inline.read_with_slot(element, "note")
        return Cell(
            content=content,
            note=note,
            scope=scope,
            span=self.inline.number(element, "colspan", 1, most=MOST_COLUMNS),
        )
