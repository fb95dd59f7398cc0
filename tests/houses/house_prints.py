"""Runs the real commands on a copy of a house and gives back what was printed, to be held against work by hand.

Knows its own units, by their legal definitions, so that nothing here is the tool's own arithmetic.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from linebook import copies
from linebook.cli.main import command
from linebook.markup.blocks import Block, Box, Cell, Facts, Inline, Mark, Run, SheetText, Split, Table
from linebook.pdf import binder

HOUSES = Path(__file__).parent
POUND = Fraction("453.59237")  # grams, by definition since 1959
GALLON = Fraction("3785.411784")  # millilitres: 231 cubic inches of 25.4 mm
SIZES = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "lb": POUND,
    "oz": POUND / 16,
    "ml": Fraction(1),
    "L": Fraction(1000),
    "gal": GALLON,
    "qt": GALLON / 4,
    "cup": GALLON / 16,
    "fl oz": GALLON / 128,
    "tbsp": GALLON / 256,
    "tsp": GALLON / 768,
}
FRACTIONS = {
    "½": Fraction(1, 2),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅙": Fraction(1, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}
SIGNS = {
    "contains": "C",
    "contains-leave": "C",
    "may": "M",
    "may-leave": "M",
    "undeclared": "?",
    "undeclared-leave": "?",
    "free": "no",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a printed table: the figures of its columns, its name and what stands small beside it."""

    figures: tuple[str, ...]
    name: str
    note: str


@dataclass(slots=True, kw_only=True)
class Prints:
    """What one command printed: the sheets as they went to the painter, and the pages as a reader finds them."""

    result: Result
    sheets: tuple[SheetText, ...]
    folder: Path

    def files(self) -> list[str]:
        return sorted(path.name for path in self.folder.glob("*.pdf"))

    def pages(self, name: str) -> str:
        """Return all words of a PDF with single spaces."""
        text = " ".join(page.extract_text() for page in PdfReader(self.folder / name).pages)
        return " ".join(text.split())

    def sheet(self, id_: str) -> SheetText:
        return next(sheet for sheet in self.sheets if sheet.id == id_)

    def row(self, sheet: str, key: str) -> Row:
        """Return a row of a batch card; the key may leave out the stage: ``ingredient:butter``."""
        start, _, item = key.partition(":")
        for table in tables(self.sheet(sheet).blocks):
            for row in table.rows:
                if row.key == key or (item and row.key.startswith(f"{start}.") and row.key.endswith(f".{item}")):
                    return _row(row.cells)
        raise AssertionError(f"{sheet} has no row {key}")

    def marks(self, dish: str) -> dict[str, str]:
        """Return the marks of a dish in the matrix, by the column's printed head."""
        table = next(table for table in tables(self.matrix().blocks) if table.role == "matrix")
        heads = [plain(cell.content) for cell in table.head[-1].cells][1:]
        row = next(row for row in table.rows if row.key == f"dish.{dish}")
        found = [piece for cell in row.cells[1:] for piece in cell.content if isinstance(piece, Mark)]
        assert len(found) == len(heads), "a cell without a mark"
        assert all(mark.word for mark in found), "a mark without a word"
        return dict(zip(heads, (mark.kind for mark in found), strict=True))

    def matrix(self) -> SheetText:
        return next(sheet for sheet in self.sheets if sheet.kind == "allergen-matrix")


def run_house(name: str, tmp_path: Path, *arguments: str) -> Result:
    """Run ``linebook`` on a copy of a house; the first argument is the command, the house is named for it."""
    folder = tmp_path / name
    if not folder.exists():
        shutil.copytree(HOUSES / name, folder)
    return CliRunner().invoke(
        command, [arguments[0], "--house", str(folder), *arguments[1:]], prog_name="linebook", catch_exceptions=False
    )


def print_house(name: str, tmp_path: Path, *arguments: str) -> Prints:
    """Run a command that draws, and keep the sheets on their way to the painter, which paints them all the same."""
    kept: list[SheetText] = []
    paint = binder.draw_binder

    def _keep(sheets: Sequence[binder.Sheet], *rest: object, **options: object) -> object:
        kept.extend(sheet.text for sheet in sheets)
        return paint(sheets, *rest, **options)  # type: ignore[arg-type]

    out = tmp_path / "out"
    target = out / f"{arguments[1] if arguments[0] == 'batch' else 'allergen-matrix'}.pdf"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(binder, "draw_binder", _keep)
        patch.setattr(copies, "_can_copy", lambda: False)  # all sheets have to come past here
        result = run_house(name, tmp_path, *arguments, "-o", str(out if arguments[0] == "bind" else target))
    assert result.exit_code == 0, result.stderr
    return Prints(result=result, sheets=tuple(kept), folder=out)


def tables(blocks: Sequence[Block]) -> Iterator[Table]:
    """Yield every table of a sheet, also those beside a figure or in a frame."""
    for block in blocks:
        if isinstance(block, Table):
            yield block
        elif isinstance(block, Split):
            yield from tables((*block.left, *block.right))
        elif isinstance(block, Box):
            yield from tables(block.blocks)


def facts(sheet: SheetText) -> dict[str, str]:
    """Return the labelled lines of a sheet by their labels."""
    found: dict[str, str] = {}
    waiting = list(sheet.blocks)
    while waiting:
        block = waiting.pop(0)
        if isinstance(block, Facts):
            found |= {plain(fact.term).removesuffix(":"): plain(fact.value) for fact in block.facts}
        elif isinstance(block, Split):
            waiting[:0] = [*block.left, *block.right]
        elif isinstance(block, Box):
            waiting[:0] = block.blocks
    return found


def plain(content: Inline) -> str:
    """Return inline content as words with plain spaces."""
    text = "".join(piece.text for piece in content if isinstance(piece, Run))
    return re.sub(r"[\s\u00a0\u202f]+", " ", text).strip()


def in_base(printed: str) -> Fraction:
    """Return a printed amount in grams or millilitres: *2 lb 4 oz*, *1¾ cups*, *1.35 kg*."""
    found = re.findall(r"([\d.]*)\s?([½⅓⅔¼¾⅙⅛⅜⅝⅞]?)\s(fl oz|[a-zA-Z]+)", printed)
    assert found, f"no amount in {printed!r}"
    total = Fraction(0)
    for digits, part, unit in found:
        number = Fraction(digits or 0) + FRACTIONS.get(part, Fraction(0))
        total += number * SIZES[unit.removesuffix("s") if unit.endswith("ps") else unit]
    return total


def count_of(printed: str) -> int:
    """Return a printed count of whole things: *9 each*, *28 slices*, *51*."""
    match = re.fullmatch(r"(\d+)(?: [a-z]+)?", printed)
    assert match, f"{printed!r} is not a whole count"
    return int(match[1])


def holds(printed: str, worked: Fraction | float, unit: str, *, reads: str = "0.1 g") -> bool:
    """Return whether a printed amount is what was worked out by hand, as far as rounding for print may move it.

    That is 1 % (the tolerance of all three houses), or half of what the instrument reads where that is coarser.
    """
    exact = Fraction(worked).limit_denominator(10**7) * SIZES[unit]
    return abs(in_base(printed) - exact) <= max(exact / 100, in_base(reads) / 2) + Fraction(1, 1000)


def assert_figures(
    prints: Prints, sheet: str, worked: Mapping[str, tuple[str, Sequence[Fraction | float]]], *, reads: str = "0.1 g"
) -> None:
    """Hold every ingredient row of a card against amounts worked out by hand, and find the row on the paper."""
    for item, (unit, amounts) in worked.items():
        row = prints.row(sheet, f"ingredient:{item}")
        assert len(row.figures) >= len(amounts), (sheet, item, row)
        for printed, amount in zip(row.figures, amounts, strict=False):
            right = (
                holds(printed, amount, unit, reads=reads) if unit in SIZES else count_of(printed) == Fraction(amount)
            )
            assert right, f"{sheet}, {item}: {printed} printed, {float(amount):.4f} {unit} worked out"


def _row(cells: Sequence[Cell]) -> Row:
    """Return a row with one figure a column; a night sheet sets the number and the unit of its load apart."""
    at = next(index for index, cell in enumerate(cells) if cell.scope == "row")
    before = [text for cell in cells[:at] if (text := plain(cell.content))]
    after = [text for cell in cells[at + 1 :] if (text := plain(cell.content))]
    if len(before) == 2 and before[1].replace(" ", "").isalpha():
        before = [" ".join(before)]
    return Row(figures=(*before, *after), name=plain(cells[at].content), note=plain(cells[at].note))
