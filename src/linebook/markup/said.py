"""What a sheet says, as a flat list by key: the form in which two issues are compared. Knows no wording.

Whatever a block shows is in exactly one of the items, so that two trees with equal items differ in dress alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, TypeAlias

from linebook.markup.blocks import (
    Block,
    Box,
    Cell,
    Facts,
    FigureRef,
    Heading,
    Inline,
    Mark,
    Paragraph,
    Points,
    Row,
    Run,
    Second,
    SheetText,
    Split,
    Steps,
    Table,
)
from linebook.source.frozen import frozen

_SAFETY: Final = "safety"
_LIMIT: Final = "limit."
"""The role and the beginning of the key of what a food-safety limit says, which is labelled by the heading over it."""


@frozen
class SaidText:
    """A paragraph, a heading, a fact or a drawing. ``members`` are the keyed members of a list in it."""

    key: str
    kind: str
    label: str
    text: str
    members: Mapping[str, str] = field(default_factory=dict)


@frozen
class SaidCell:
    """One figure or mark of a row: which column it is in, its text, and the kind of its mark, '' for none."""

    column: str
    kind: str
    text: str
    mark: str = ""


@frozen
class SaidRow:
    """One row of a table by its name. ``prep`` is what stands beside it in italics: how it is cut or prepared first."""

    key: str
    name: str
    note: str
    cells: tuple[SaidCell, ...]
    prep: str = ""


@frozen
class SaidList:
    """The steps or points under one heading."""

    key: str
    kind: str
    label: str
    texts: tuple[str, ...]


Said: TypeAlias = SaidText | SaidRow | SaidList


def what_is_said(sheet: SheetText) -> dict[str, Said]:
    """Return everything a sheet says in its blocks, by key, in order."""
    gatherer = _Gatherer()
    gatherer.gather(sheet.blocks)
    return gatherer.found


def plain(content: Inline) -> str:
    """Return the words of a line in the first language: runs as they are, marks as they are said."""
    return "".join(piece.text if isinstance(piece, Run) else _aloud(piece) for piece in content)


def _aloud(piece: Mark | Second) -> str:
    if isinstance(piece, Second):
        return ""
    if piece.kind == "tick":
        return "□" * piece.count
    if piece.kind == "blank":
        return "_" * piece.width
    return piece.word


@dataclass(slots=True)
class _Gatherer:
    found: dict[str, Said] = field(default_factory=dict)
    heading: str = ""

    def gather(self, blocks: Iterable[Block]) -> None:
        for block in blocks:
            match block:
                case Heading():
                    self._heading(block)
                case Paragraph():
                    label = self.heading if block.role == _SAFETY and block.key.startswith(_LIMIT) else ""
                    self._add(SaidText(key=block.key, kind="paragraph", label=label, text=plain(block.content)))
                case Facts():
                    self._facts(block)
                case Table():
                    self._table(block)
                case Steps() | Points():
                    self._list(block)
                case FigureRef():
                    text = "\n".join((block.alternative, plain(block.caption)))
                    self._add(SaidText(key=f"figure.{block.name}", kind="figure", label=block.name, text=text))
                case Box():
                    self.gather(block.blocks)
                case Split():
                    self.gather((*block.left, *block.right))

    def _heading(self, block: Heading) -> None:
        self.heading = plain(block.content)
        self._add(SaidText(key=f"heading.{block.key}", kind="heading", label=self.heading, text=plain(block.aside)))

    def _facts(self, block: Facts) -> None:
        for fact in block.facts:
            members: dict[str, str] = {}
            for piece in fact.value:
                if isinstance(piece, Run) and piece.key:
                    members[piece.key] = members.get(piece.key, "") + piece.text
            self._add(
                SaidText(
                    key=fact.key,
                    kind="fact",
                    label=plain(fact.term).removesuffix(":"),
                    text=plain(fact.value),
                    members=members,
                )
            )

    def _list(self, block: Steps | Points) -> None:
        items = block.steps if isinstance(block, Steps) else block.points
        kind = "step" if isinstance(block, Steps) else "point"
        key = items[0].key.rpartition(".")[0] if items else ""
        texts = tuple(plain(item.content) for item in items)
        before = self.found.get(f"{kind}.{key}")
        if key and isinstance(before, SaidList):
            texts = (*before.texts, *texts)
            del self.found[f"{kind}.{key}"]
        self._add(SaidList(key=f"{kind}.{key}", kind=kind, label=self.heading, texts=texts))

    def _table(self, table: Table) -> None:
        heads = _column_heads(table)
        for row in (*table.head, *table.rows):
            self._add(_said_row(row, table.columns, heads))

    def _add(self, said: Said) -> None:
        """Keep an item under its key; one without a key, or with a key already used, under a number."""
        key = said.key
        number = 1
        while not key or key.endswith(".") or key in self.found:
            number += 1
            key = f"{said.key or type(said).__name__}#{number}"
        self.found[key] = said


def _column_heads(table: Table) -> dict[int, str]:
    return {at: plain(cell.content) for row in table.head for at, cell in _placed(row.cells)}


def _placed(cells: Sequence[Cell]) -> Iterator[tuple[int, Cell]]:
    at = 0
    for cell in cells:
        yield at, cell
        at += cell.span


def _said_row(row: Row, columns: Sequence[str], heads: Mapping[int, str]) -> SaidRow:
    name, note, prep = "", "", ""
    cells: list[SaidCell] = []
    for at, cell in _placed(row.cells):
        kind = columns[at] if at < len(columns) else "text"
        text = plain(cell.content)
        if cell.scope == "row" or (row.heading and not name):
            name, prep, note = *_name_and_prep(cell.content), plain(cell.note)
            continue
        if kind == "unit" and cells and cells[-1].kind == "amount":
            number = cells.pop()
            cells.append(replace(number, text=f"{number.text}\u00a0{text}"))
            continue
        marks = [piece.kind for piece in cell.content if isinstance(piece, Mark)]
        mark = marks[0] if kind == "mark" and marks else ""
        shown = "\n".join(filter(None, (text, plain(cell.note))))
        cells.append(SaidCell(column=heads.get(at, ""), kind=kind, text=shown, mark=mark))
    return SaidRow(key=row.key, name=name, note=note, cells=tuple(cells), prep=prep)


def _name_and_prep(content: Inline) -> tuple[str, str]:
    """Return the name of a row, and what is in italics at its end; where all is in italics, all is the name."""
    pieces = [piece for piece in content if not isinstance(piece, Second)]
    at = len(pieces)
    while at and (isinstance(last := pieces[at - 1], Run)) and (last.italic or not last.text.strip()):
        at -= 1
    name, prep = plain(tuple(pieces[:at])).strip(), plain(tuple(pieces[at:])).strip()
    return (name, prep) if name else (plain(content), "")
