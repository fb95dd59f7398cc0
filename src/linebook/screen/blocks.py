"""The blocks of a sheet as HTML, in order: headings that skip no level, lists, facts, figures, boxes.

Owns ids and heading levels of one page. It must not know which document it writes, nor what stands round it.
"""

from __future__ import annotations

from collections.abc import Sequence

from linebook.figures.shapes import Drawing
from linebook.markup.blocks import (
    Block,
    Box,
    Facts,
    FigureRef,
    Heading,
    Mark,
    Paragraph,
    Points,
    Rule,
    Split,
    Steps,
    Table,
)
from linebook.markup.sheet import Sheet
from linebook.screen.figures import drawing_html, picture_html
from linebook.screen.inline import Inliner, plain
from linebook.screen.spelling import spelt
from linebook.screen.tables import MATRIX, table_html
from linebook.source.frozen import frozen

_HALF = range(46, 55)
"""Per cent of the measure that are shown as two even parts."""


@frozen
class Place:
    """A heading that can be jumped to: its id, its level on the page, and what it says."""

    id: str
    level: int
    words: str


class BlockPainter:
    """Writes the blocks of one sheet. ``places`` are the headings written so far, ``drawings`` the large drawings."""

    def __init__(self, sheet: Sheet, inliner: Inliner) -> None:
        self.places: list[Place] = []
        self.drawings: dict[str, Drawing] = {}
        self._sheet = sheet
        self._inliner = inliner
        self._open: list[int] = []
        self._floor = 0
        self._figures = 0

    def html(self, blocks: Sequence[Block]) -> str:
        """Return blocks, each on a line of its own."""
        return "".join(f"{self._block(block)}\n" for block in blocks)

    def _block(self, block: Block) -> str:
        match block:
            case Heading():
                return self._heading(block)
            case Paragraph():
                return f'<p class="{spelt(block.role)}">{self._inliner.html(block.content)}</p>'
            case Facts():
                return self._facts(block)
            case Table():
                return self._table(block)
            case Steps():
                return self._steps(block)
            case Points():
                points = "".join(f"<li>{self._inliner.html(point.content)}</li>" for point in block.points)
                return f"<ul>{points}</ul>"
            case Rule():
                return "<hr/>"
            case FigureRef():
                return self._figure(block)
            case Box():
                return self._box(block)
            case Split():
                return self._split(block)

    def _heading(self, block: Heading) -> str:
        """Return a heading one level under what it stands in, whatever levels a template left out between."""
        while len(self._open) > self._floor and self._open[-1] >= block.level:
            self._open.pop()
        self._open.append(block.level)
        level = min(1 + len(self._open), 6)
        place = Place(id=f"part-{len(self.places) + 1}", level=level, words=plain(block.content))
        self.places.append(place)
        look = "heading" if block.level == 2 else "subheading"
        heading = f'<h{level} id="{place.id}" class="{look}">{self._inliner.html(block.content)}</h{level}>'
        if not block.aside:
            return heading
        return f'<div class="headed">{heading}<p class="beside">{self._inliner.html(block.aside)}</p></div>'

    def _facts(self, block: Facts) -> str:
        legend = block.role == "legend"
        facts = "".join(
            f"<div><dt>{self._inliner.html(fact.term, legend=legend)}</dt>"
            f"<dd>{self._inliner.html(fact.value)}</dd></div>"
            for fact in block.facts
        )
        return f'<dl class="{spelt(block.role)}">{facts}</dl>'

    def _table(self, block: Table) -> str:
        label = self._inliner.wording.say(f"screen.table.{block.role}").plain
        table = table_html(block, self._inliner, label)
        if block.role == MATRIX:
            name = self._inliner.name("screen.scrolls", table=label)
            return f'<div class="scroll" role="region" tabindex="0" aria-label="{name}">{table}</div>'
        if block.role == "log" and any(_has_blank(cell.content) for row in block.rows for cell in row.cells):
            return f'{table}<p class="hint">{self._inliner.say("screen.log")}</p>'
        return table

    def _steps(self, block: Steps) -> str:
        steps, expected = [], 0
        for step in block.steps:
            value = f' value="{step.number}"' if expected and step.number != expected else ""
            steps.append(f"<li{value}>{self._inliner.html(step.content)}</li>")
            expected = step.number + 1
        first = block.steps[0].number if block.steps else 1
        start = f' start="{first}"' if first != 1 else ""
        return f"<ol{start}>{''.join(steps)}</ol>"

    def _figure(self, block: FigureRef) -> str:
        figure = self._sheet.figures[block.name]
        if isinstance(figure, Drawing):
            self._figures += 1
            key = f"figure-{self._figures}"
            if block.role == "large":
                self.drawings[key] = figure
            title = self._inliner.wording.say("screen.figure", dish=plain(self._sheet.text.title)).plain
            shown = drawing_html(figure, key=key, title=title, alternative=block.alternative or figure.alternative)
        else:
            shown = picture_html(figure, alternative=block.alternative or figure.alternative)
        caption = f"<figcaption>{self._inliner.html(block.caption)}</figcaption>" if block.caption else ""
        return f'<figure class="{spelt(block.role)}">{shown}{caption}</figure>'

    def _box(self, block: Box) -> str:
        """Return a box; its headings stand under the one the box comes after."""
        outer, self._floor = self._floor, len(self._open)
        inside = self.html(block.blocks)
        del self._open[self._floor :]
        self._floor = outer
        return f'<div class="box {spelt(block.role)}">\n{inside}</div>'

    def _split(self, block: Split) -> str:
        share = "even" if block.left_share in _HALF else "less" if block.left_share < _HALF.start else "more"
        left, right = self.html(block.left), self.html(block.right)
        return f'<div class="split {share}">\n<div>{left}</div>\n<div>{right}</div></div>'


def _has_blank(content: Sequence[object]) -> bool:
    return any(isinstance(piece, Mark) and piece.kind == "blank" for piece in content)
