"""Tables as HTML: heads with their scope, groups as bodies of their own, and what each row says on a narrow screen.

Owns which tables part into lines on a phone. It must not know what is in a table.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from linebook.documents.text import NO_BREAK
from linebook.markup.blocks import Cell, Row, Run, Table
from linebook.screen.inline import SHEET, Inliner, plain
from linebook.screen.spelling import spelt
from linebook.source.frozen import frozen

MATRIX: Final = "matrix"
_LEADS_TO: Final[Mapping[str, tuple[str, int]]] = {
    "element": ("batch-card", 1),
    "ingredient": ("batch-card", 2),
    "keep": ("batch-card", 1),
    "dish": ("station-card", 1),
    "note": ("station-card", 1),
    "portions": ("station-card", 1),
}
"""The card that a row is about, by what its key begins with, and which part of the key says whose."""

_NARROW: Final = ("number", "amount", "unit", "name")
_ROLES: Final = {"td": "cell", "row": "rowheader", "rowgroup": "rowheader", "col": "columnheader"}


def table_html(table: Table, inliner: Inliner, label: str) -> str:
    """Return a table; ``label`` names it for a reader who does not see it."""
    return _Writer(table=table, inliner=inliner, parts=_parts_on_a_phone(table)).html(label)


def _parts_on_a_phone(table: Table) -> bool:
    """Say whether a table has more columns of figures or words than a phone is wide."""
    if table.role in (MATRIX, "contents"):
        return False
    return any(kind not in _NARROW for kind in table.columns)


@frozen
class _Writer:
    table: Table
    inliner: Inliner
    parts: bool

    def html(self, label: str) -> str:
        table = self.table
        kind = spelt(table.role) + (" parts" if self.parts else "") + (" figures" if "figure" in table.columns else "")
        role = ' role="table"' if self.parts else ""
        head = "".join(self._row(row, head=True) for row in table.head)
        bodies = "".join(self._body(rows) for rows in _groups(table.rows))
        return (
            f'<table class="{kind}"{role}><caption class="said">{spelt(label)}</caption>'
            f"{f'<thead{self._group_role}>{head}</thead>' if head else ''}{bodies}</table>"
        )

    @property
    def _group_role(self) -> str:
        # A row that is laid out as lines is no row to some readers of screens, unless it is called one.
        return ' role="rowgroup"' if self.parts else ""

    def _body(self, rows: Sequence[Row]) -> str:
        return f"<tbody{self._group_role}>{''.join(self._row(row) for row in rows)}</tbody>"

    def _row(self, row: Row, *, head: bool = False) -> str:
        cells: list[str] = []
        at = 0
        for cell in self._with_units(row):
            cells.append(self._cell(cell, at, row, head=head))
            at += cell.span
        kind = ' class="group"' if row.heading else ""
        role = ' role="row"' if self.parts else ""
        return f"<tr{kind}{role}>{''.join(cells)}</tr>"

    def _with_units(self, row: Row) -> Iterator[Cell]:
        """Yield a row's cells; where it may be laid out as lines, an amount has its unit in its own cell."""
        at, cells = 0, list(row.cells)
        while cells:
            cell = cells.pop(0)
            if self.parts and cells and self._column(at) == "amount" and cell.span == cells[0].span == 1:
                unit = cells.pop(0)
                cell = replace(cell, content=(*cell.content, Run(text=NO_BREAK), *unit.content), span=2)
            yield cell
            at += cell.span

    def _cell(self, cell: Cell, at: int, row: Row, *, head: bool) -> str:
        scope = "rowgroup" if row.heading else "colgroup" if cell.scope == "col" and cell.span > 1 else cell.scope
        tag = "th" if scope else "td"
        parts = [f' scope="{scope}"' if scope else "", f' colspan="{cell.span}"' if cell.span > 1 else ""]
        if not row.heading:
            parts.append(f' class="{self._kind(at, cell.span)}"')
        if self.parts:
            parts.append(f' role="{_ROLES[scope.replace("colgroup", "col") or "td"]}"')
            label = "" if head or scope else self._label(at)
            parts.append(f' data-label="{spelt(label)}"' if label else "")
        words = self.inliner.html(cell.content, along=head)
        if head and self.table.role == MATRIX and self._column(at) == "mark":
            words = f'<span class="up">{words}</span>'
        elif scope == "row":
            words = self.inliner.linked(words, self._sheet_of(row))
        elif row.heading:
            words = f'<span class="still">{words}</span>'
        note = f' <span class="note">{self.inliner.html(cell.note)}</span>' if cell.note else ""
        return f"<{tag}{''.join(parts)}>{words}{note}</{tag}>"

    def _kind(self, at: int, span: int) -> str:
        kind = self._column(at)
        return f"of-{kind} whole" if kind == "amount" and span > 1 else f"of-{kind}"

    def _column(self, at: int) -> str:
        return self.table.columns[min(at, len(self.table.columns) - 1)]

    def _label(self, at: int) -> str:
        """Return what heads the column of an amount or a figure, for a row that is laid out as lines."""
        if not self.table.head or self._column(at) not in ("amount", "figure"):
            return ""
        start = 0
        for cell in self.table.head[-1].cells:
            if start <= at < start + cell.span:
                return plain(cell.content)
            start += cell.span
        return ""

    def _sheet_of(self, row: Row) -> str:
        """Return the key of the sheet a row is about: its own key, or the card of the item or dish it names."""
        if row.key.startswith(SHEET):
            return row.key
        parts = row.key.split(".")
        document, place = _LEADS_TO.get(parts[0], ("", len(parts)))
        return f"{SHEET}{document}:{parts[place]}" if place < len(parts) else ""


def _groups(rows: Iterable[Row]) -> list[list[Row]]:
    """Return the rows of each group, its heading first."""
    groups: list[list[Row]] = []
    for row in rows:
        if row.heading or not groups:
            groups.append([])
        groups[-1].append(row)
    return groups
