"""A course with no dish under it is still printed."""

from __future__ import annotations

import pytest
from pdf_reading import read_pages
from pdf_samples import FACES, THEME, sheet

from linebook.markup.blocks import Cell, Mark, Row, Run, Table
from linebook.pdf.binder import draw_binder


def course(name: str) -> Row:
    return Row(cells=(Cell(content=(Run(text=name),), span=2),), heading=True)


def dish(name: str) -> Row:
    return Row(cells=(Cell(content=(Run(text=name),)), Cell(content=(Mark(kind="free", word="no"),))))


@pytest.mark.parametrize(
    "rows",
    [
        (course("Snacks"),),
        (course("Snacks"), course("Mains"), dish("Leeks")),
        (course("Mains"), dish("Leeks"), course("Snacks")),
        (course("Snacks"), dish("Leeks")),
    ],
)
def test_every_course_is_on_paper(rows: tuple[Row, ...]) -> None:
    table = Table(columns=("name", "mark"), head=(), rows=rows, role="matrix")
    drawn = draw_binder([sheet([table])], THEME, "a4", title="t", faces=FACES)
    assert drawn.value is not None
    letters = "".join(glyph.text for page in read_pages(drawn.value.content) for glyph in page.glyphs)
    for row in rows:
        run = row.cells[0].content[0]
        assert isinstance(run, Run)
        assert run.text in letters
