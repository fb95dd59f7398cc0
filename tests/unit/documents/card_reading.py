"""Reads a batch card back: its facts, rows, boxes, headings, steps and paragraphs, as plain words."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from sample_house import (
    sheet,
)

from linebook.markup.blocks import Box, Facts, Heading, Mark, Paragraph, Split, Steps, Table
from linebook.markup.said import plain


def flat(blocks):
    for block in blocks:
        if isinstance(block, Split):
            yield from flat((*block.left, *block.right))
        elif isinstance(block, Box):
            yield block
            yield from flat(block.blocks)
        else:
            yield block


def said(content) -> str:
    return plain(content).replace("\u00a0", " ")


def facts_of(view) -> dict[str, str]:
    found = (block for block in flat(sheet(view).blocks) if isinstance(block, Facts))
    return {fact.key: said(fact.value) for block in found for fact in block.facts}


def rows_of(view):
    return next(b for b in flat(sheet(view).blocks) if isinstance(b, Table) and b.role == "ingredients").rows


def row(view, key: str) -> list[str]:
    cells = next(one for one in rows_of(view) if one.key == key).cells
    return [" | ".join(filter(None, (said(cell.content), said(cell.note)))) for cell in cells]


def ticks(view, key: str) -> int:
    cell = next(one for one in rows_of(view) if one.key == key).cells[0]
    return next(mark.count for mark in cell.content if isinstance(mark, Mark))


def asides(view) -> dict[str, str]:
    return {said(b.content): said(b.aside) for b in flat(sheet(view).blocks) if isinstance(b, Heading)}


def steps(view) -> list[str]:
    return [said(step.content) for b in flat(sheet(view).blocks) if isinstance(b, Steps) for step in b.steps]


def paragraph(view, key: str) -> str:
    return next(said(b.content) for b in flat(sheet(view).blocks) if isinstance(b, Paragraph) and b.key == key)


def pieces(covers: int) -> int:
    """Whole pieces by hand: share 0.7, four fifths of it two pieces, one fifth four; 4 % is lost."""
    full, shared = ceil(Fraction("0.56") * covers), ceil(Fraction("0.14") * covers)
    return ceil(Fraction(2 * full + 4 * shared) / Fraction(96, 100))
