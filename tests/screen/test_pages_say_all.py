"""Each page says all that its sheet says, in order, and nothing else that is seen."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from page_reader import Node, read_page

from linebook.compute.allergens import compute_allergens
from linebook.compute.demand import compute_night
from linebook.compute.matrix_columns import compute_also
from linebook.markup.blocks import (
    Block,
    Box,
    Facts,
    FigureRef,
    Heading,
    Inline,
    Mark,
    Paragraph,
    Points,
    Rule,
    Run,
    SheetText,
    Split,
    Steps,
    Table,
)
from linebook.model.occasion import Occasion
from linebook.pipeline import load_house
from linebook.service_sheets import screen_sheets
from linebook.workshop import open_workshop

SPECS = Path(__file__).parents[2] / "specs"
LETTERS = {"contains": "C", "may": "M", "undeclared": "?", "free": "no"}


@pytest.fixture(scope="module")
def texts() -> dict[str, SheetText]:
    """What each sheet of the demo says, by the name of its page."""
    house = load_house(SPECS, "specs").value
    assert house is not None
    workshop = open_workshop(house, "early-spring", date(2027, 3, 2), SPECS).value
    assert workshop is not None
    nights = [compute_night(house, Occasion(menu="early-spring", covers=covers)) for covers in house.file.nights]
    lines = [line.id for line in house.file.lines]
    table = compute_allergens(house, "early-spring", on=date(2027, 3, 2))
    sheets = screen_sheets(workshop, lines, table, nights, compute_also(house, "early-spring")).value
    assert sheets is not None
    short = {"screen-index": "index", "allergen-matrix:early-spring": "allergen-matrix"}
    return {f"{short.get(sheet.text.id, sheet.text.id.replace(':', '-'))}.html": sheet.text for sheet in sheets}


def test_everything_and_nothing_else(texts: dict[str, SheetText], demo_pages: dict[str, str]) -> None:
    assert set(texts) == set(demo_pages)
    for name, text in texts.items():
        seen = "".join("".join(_seen(read_page(demo_pages[name]).one("article"))).split())
        said = "".join("".join(_words(text)).split())
        assert seen == said, name


def _seen(node: Node) -> Iterator[str]:
    """Yield what is seen of a page: not what is only read aloud, nor what stands on a screen alone."""
    classes = node.attributes.get("class", "").split()
    if node.tag in ("svg", "nav") or "said" in classes or "hint" in classes:
        return
    for child in node.children:
        if isinstance(child, str):
            yield child
        else:
            yield from _seen(child)


def _words(text: SheetText) -> Iterator[str]:
    for content in (text.kicker, text.title, text.aside):
        yield from _inline(content)
    for block in text.blocks:
        yield from _block(block)


def _block(block: Block) -> Iterator[str]:
    match block:
        case Heading():
            yield from (*_inline(block.content), *_inline(block.aside))
        case Paragraph():
            yield from _inline(block.content)
        case Facts():
            for fact in block.facts:
                yield from (*_inline(fact.term), *_inline(fact.value))
        case Table():
            for row in (*block.head, *block.rows):
                for cell in row.cells:
                    yield from (*_inline(cell.content), *_inline(cell.note))
        case Steps():
            for step in block.steps:
                yield from _inline(step.content)
        case Points():
            for point in block.points:
                yield from _inline(point.content)
        case FigureRef():
            yield from _inline(block.caption)
        case Box():
            for inside in block.blocks:
                yield from _block(inside)
        case Split():
            for inside in (*block.left, *block.right):
                yield from _block(inside)
        case Rule():
            pass


def _inline(content: Inline) -> Iterator[str]:
    for piece in content:
        match piece:
            case Run():
                yield piece.text
            case Mark(kind="number"):
                yield piece.word
            case Mark(kind="tick" | "blank"):
                pass
            case Mark():
                yield LETTERS[piece.kind.partition("-")[0]]
            case _:
                yield from _inline(piece.content)
