"""What a sheet must say, told from its block tree alone: every word with its floor, in the order it is read.

A ``Leaf`` is a stretch of text in one place; a ``Line`` of them is read on, ``Beside`` stand side by side, so that a page
may end in all of them at once. Knows nothing of fonts or points but the floors of type.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from itertools import count
from typing import Any, TypeAlias

from linebook.figures.shapes import Label
from linebook.markup.blocks import (
    Block,
    Box,
    Cell,
    Facts,
    FigureRef,
    Heading,
    Mark,
    Paragraph,
    Points,
    Row,
    Run,
    SheetText,
    Split,
    Steps,
    Table,
)

CAPTION, READING = 9.0, 12.0
"""Points: the floors of what is read in the hand, and of what is read on the bench."""

_READ_ROLES = ("body", "lead", "safety", "caution")
_LETTERS = {"contains": "C", "may": "M", "undeclared": "?", "free": "no"}
_ALIKE = str.maketrans(
    {"\u2010": "-", "\u2011": "-", "\u2103": "°C", "\u2109": "°F", "\u00ad": None, "\u200b": None, "\u2060": None}
)


@dataclass(frozen=True)
class Unit:
    """What a leaf belongs to: a heading, a step, a row … ``table`` numbers the table it is of, 0 for none."""

    number: int
    kind: str
    table: int = 0


@dataclass(frozen=True)
class Leaf:
    text: str
    floor: float
    unit: Unit
    optional: bool = False
    """Whether it need not be printed: the stroke between two languages on one line."""

    def without(self, start: int) -> Leaf:
        return replace(self, text=self.text[start:])


@dataclass(frozen=True)
class Line:
    """Parts read one after the other."""

    parts: tuple[Node, ...]


@dataclass(frozen=True)
class Beside:
    """Parts that stand side by side: on each page some of each, in any order."""

    parts: tuple[Node, ...]


Node: TypeAlias = Leaf | Line | Beside


@dataclass(frozen=True)
class TableHeads:
    """The words that are said again where a table runs on: its heads, and the head of each of its groups."""

    number: int
    role: str
    heads: Line
    groups: tuple[Node, ...]
    rows: int


@dataclass
class Said:
    """All a sheet says, and the heads of its tables."""

    top: Node
    title: Node
    body: Node
    tables: dict[int, TableHeads] = field(default_factory=dict)


def squeezed(text: str) -> str:
    """Return a text composed, in letters that look as printed, without any white space."""
    return "".join(unicodedata.normalize("NFC", text).translate(_ALIKE).split())


def leaves(node: Node) -> Iterable[Leaf]:
    """Yield the leaves of a node in order."""
    if isinstance(node, Leaf):
        yield node
    else:
        for part in node.parts:
            yield from leaves(part)


def said(text: SheetText, figures: dict, *, matrix_parts: int = 1, columns: str = "") -> Said:
    """Return what a sheet says; a table of marks too wide for its page is set in ``matrix_parts`` parts.

    Each of those says in ``columns`` which of the columns it has.
    """
    return _Teller(figures, matrix_parts, columns).sheet(text)


class _Teller:
    def __init__(self, figures: dict, matrix_parts: int, columns: str) -> None:
        self._figures = figures
        self._columns = columns
        self._matrix_parts = matrix_parts
        self._numbers = count(1)
        self._tables: dict[int, TableHeads] = {}

    def sheet(self, text: SheetText) -> Said:
        over = Beside(
            (
                self._inline(text.kicker, CAPTION, self._unit("kicker")),
                self._inline(text.aside, CAPTION, self._unit("aside")),
            )
        )
        title = self._inline(text.title, READING, self._unit("title"))
        return Said(over, title, self._stack(text.blocks), self._tables)

    def _unit(self, kind: str, table: int = 0) -> Unit:
        return Unit(next(self._numbers), kind, table)

    def _inline(self, content: Sequence, floor: float, unit: Unit) -> Line:
        parts: list[Node] = []
        for one in content:
            if isinstance(one, Run):
                small = one.small and unit.kind not in ("step", "fact", "amount")
                parts.append(Leaf(squeezed(one.text), CAPTION if small else floor, unit))
            elif isinstance(one, Mark):
                word = one.word if one.kind == "number" else _LETTERS.get(one.kind.removesuffix("-leave"), "")
                parts.append(Leaf(squeezed(word), READING, unit))
            else:
                parts += _second(content, one, floor, unit)
        return Line(tuple(part for part in parts if not isinstance(part, Leaf) or part.text))

    def _stack(self, blocks: Sequence[Block]) -> Line:
        return Line(tuple(self._block(block) for block in blocks))

    def _block(self, block: Block) -> Node:
        match block:
            case Heading():
                unit = self._unit("heading")
                return Beside((self._inline(block.content, READING, unit), self._inline(block.aside, CAPTION, unit)))
            case Paragraph():
                floor = READING if block.role in _READ_ROLES else CAPTION
                return self._inline(block.content, floor, self._unit("paragraph"))
            case Facts():
                return self._facts(block)
            case Steps():
                return Line(tuple(self._step(one.number, one.content) for one in block.steps))
            case Points():
                return Line(tuple(self._inline(one.content, READING, self._unit("point")) for one in block.points))
            case Table():
                return self._matrix(block) if block.role == "matrix" else self._table(block)
            case Box():
                return self._stack(block.blocks)
            case Split():
                return Beside((self._stack(block.left), self._stack(block.right)))
            case FigureRef():
                return self._figure(block)
        return Line(())

    def _step(self, number: int, content: Sequence) -> Node:
        unit = self._unit("step")
        return Line((Leaf(str(number), READING, unit), self._inline(content, READING, unit)))

    def _facts(self, block: Facts) -> Node:
        made = []
        for fact in block.facts:
            unit = self._unit("fact")
            pair = (self._inline(fact.term, READING, unit), self._inline(fact.value, READING, unit))
            made.append(Line(pair) if block.role == "legend" else Beside(pair))
        return Line(tuple(made))

    def _figure(self, block: FigureRef) -> Node:
        unit = self._unit("figure")
        drawn = self._figures[block.name]
        labels = [one for one in getattr(drawn, "shapes", ()) if isinstance(one, Label)]
        floor = {True: READING, False: CAPTION}
        inner = tuple(Leaf(squeezed(one.text), floor[one.role == "number"], unit) for one in labels)
        return Line((Beside(inner), self._inline(block.caption, CAPTION, unit)))

    # -- tables

    def _table(self, table: Table) -> Node:
        number = next(self._numbers)
        heads = Line(tuple(self._row(row, "head", number, table) for row in table.head))
        rows = tuple(self._row(row, "group" if row.heading else "row", number, table) for row in table.rows)
        groups = tuple(made for row, made in zip(table.rows, rows, strict=True) if row.heading)
        self._tables[number] = TableHeads(number, table.role, heads, groups, len(rows) - len(groups))
        return Line((heads, *rows))

    def _row(self, row: Row, kind: str, number: int, table: Table) -> Node:
        unit = self._unit(kind, number)
        cells = tuple(self._cell(cell, kind, unit, table.role) for cell in row.cells)
        return Line(cells) if kind == "group" else Beside(cells)

    def _cell(self, cell: Cell, kind: str, unit: Unit, role: str) -> Node:
        floor = CAPTION if kind == "head" and role != "matrix" else READING
        if kind == "head" and role == "matrix" and unit.kind == "head":
            floor = CAPTION
        return Beside((self._inline(cell.content, floor, unit), self._inline(cell.note, CAPTION, unit)))

    def _matrix(self, table: Table) -> Node:
        marks = [at for at, kind in enumerate(table.columns) if kind == "mark"]
        each = -(-len(marks) // self._matrix_parts) or 1
        if self._matrix_parts == 1 or not marks:
            return self._table(table)
        others = [at for at, kind in enumerate(table.columns) if kind != "mark"]
        parts = []
        for start in range(0, len(marks), each):
            kept = marks[start : start + each]
            part = _columns_of(table, [*others, *kept])
            parts.append(self._table(self._numbered(part, start + 1, start + len(kept), len(marks))))
        return Line(tuple(parts))

    def _numbered(self, part: Table, first: int, last: int, whole: int) -> Table:
        """Return a part whose first head says which columns it has."""
        own = self._columns.format(first=first, last=last, count=whole)
        (head,) = part.head
        corner, *heads = head.cells
        cell = Cell(content=(Run(text=own),), note=corner.content)
        return Table(columns=part.columns, head=(Row(cells=(cell, *heads)),), rows=part.rows, role=part.role)


def _second(content: Sequence, second: Any, floor: float, unit: Unit) -> Iterable[Leaf]:
    """Yield a line's second language: after a stroke it need not say again what both languages start with."""
    said = "".join(run.text for run in second.content).split()
    first = "".join(getattr(one, "text", "") for one in content[:-1]).split()
    alike = next((at for at, (one, other) in enumerate(zip(said, first, strict=False)) if one != other), 0)
    yield Leaf("/", CAPTION, unit, optional=True)
    for word in said[:alike]:
        yield Leaf(squeezed(word), floor, unit, optional=True)
    yield Leaf(squeezed(" ".join(said[alike:])), floor, unit)


def _columns_of(table: Table, kept: Sequence[int]) -> Table:
    """Return a table with some of its columns; its cells must span one column each."""

    def rows(of: Sequence[Row]) -> tuple[Row, ...]:
        return tuple(row if row.heading else replace_cells(row, kept) for row in of)

    return Table(
        columns=tuple(table.columns[at] for at in kept), head=rows(table.head), rows=rows(table.rows), role=table.role
    )


def replace_cells(row: Row, kept: Sequence[int]) -> Row:
    assert all(cell.span == 1 for cell in row.cells)
    return Row(cells=tuple(row.cells[at] for at in sorted(kept)), heading=row.heading, key=row.key)
