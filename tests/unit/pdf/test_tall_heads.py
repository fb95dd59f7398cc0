"""Heads over columns of marks that are too tall for their page: more lines first, then fewer columns; nothing is lost."""

from dataclasses import replace
from itertools import pairwise

import pytest
from pdf_reading import collisions, read_pages
from pdf_samples import FACES, THEME, matrix

from linebook.markup.blocks import Run, Second
from linebook.pdf.binder import draw_binder
from linebook.pdf.printing import Printing

FIRST = "animal food that is raw, undercooked or cured in salt"
OTHER = "alimento de origen animal crudo, poco hecho o curado en sal"
SAID = "part {first} to {last} of {count}"
LARGE = [Printing(paper=paper, large=True) for paper in ("a4", "letter")]


def house_matrix(columns, *, title="Allergen matrix", rows=6, first=FIRST, other=OTHER):
    """Return a matrix whose every head says much in two languages, each with a number of its own."""
    made = matrix(
        dishes=[(f"Dish {number} of the house", "nCM?"[number % 4] * columns) for number in range(rows)],
        allergens=[f"{first} {number:02}" for number in range(columns)],
    )
    (table,) = (block for block in made.text.blocks if getattr(block, "role", "") == "matrix")
    corner, *heads = table.head[0].cells
    both = [
        replace(head, content=(*head.content, Second(content=(Run(text=f"{other} {number:02}"),), lang="es")))
        for number, head in enumerate(heads)
    ]
    told = replace(table, head=(replace(table.head[0], cells=(corner, *both)),))
    blocks = tuple(told if block is table else block for block in made.text.blocks)
    text = replace(made.text, title=(Run(text=title),), blocks=blocks)
    return replace(made, text=text, foot=replace(made.foot, columns=SAID))


def printed(made, printing):
    outcome = draw_binder([made], THEME, printing, title="t", faces=FACES)
    assert outcome.faults == ()
    return read_pages(outcome.value.content)


def letters(pages):
    return "".join(glyph.text for page in pages for glyph in page.glyphs)


def squeezed(text):
    return text.replace(" ", "")


@pytest.mark.parametrize("printing", LARGE, ids=str)
@pytest.mark.parametrize("columns", [1, 5, 18, 31])
def test_heads_of_two_languages_are_printed_whole(columns, printing):
    pages = printed(house_matrix(columns), printing)
    words = letters(pages)
    for number in range(columns):
        assert squeezed(f"{FIRST} {number:02}") in words
        assert squeezed(f"{OTHER} {number:02}") in words
    for page in pages:
        assert collisions(page) == []
        assert all(glyph.left > 28 and glyph.right < page.width - 28 for glyph in page.glyphs)
        assert all(glyph.bottom > 28 and glyph.top < page.height - 28 for glyph in page.glyphs)


def parts(words, columns):
    """Return the parts a table says it has, each once however many pages it has, and whether they leave none out."""
    found = [
        (first, last)
        for first in range(1, columns + 1)
        for last in range(first, columns + 1)
        if squeezed(SAID.format(first=first, last=last, count=columns)) in words
    ]
    ends = [last for _, last in found]
    assert [first for first, _ in found] == [1, *(last + 1 for last in ends[:-1])]
    assert ends[-1] == columns
    return found


def test_a_cut_table_says_which_columns_each_part_has():
    words = letters(printed(house_matrix(18), LARGE[1]))
    assert len(parts(words, 18)) > 1
    for number in range(6):
        assert words.count(f"Dish{number}ofthehouse") == len(parts(words, 18))


def test_a_table_that_is_whole_does_not_speak_of_parts():
    words = letters(printed(house_matrix(4), Printing(paper="a4")))
    assert "part" not in words


def test_heads_that_fit_have_columns_of_one_width():
    made = matrix(allergens=[f"milk {number}" for number in range(9)], dishes=[("Oyster", "C" * 9)])
    (page,) = printed(made, LARGE[0])
    lefts = [glyph.left for glyph in page.glyphs if glyph.text == "C"][:9]
    gaps = [after - before for before, after in pairwise(lefts)]
    assert max(gaps) - min(gaps) < 0.1


@pytest.mark.parametrize("printing", LARGE, ids=str)
@pytest.mark.parametrize("lines", [2, 5, 7])
def test_a_long_title_over_tall_heads_is_printed(lines, printing):
    title = " ".join(["Allergens of the long table by the water"] * lines)
    pages = printed(house_matrix(6, title=title), printing)
    assert squeezed(title) in letters(pages)
    for page in pages:
        assert collisions(page) == []
        assert all(glyph.bottom > 28 for glyph in page.glyphs)


def test_a_head_taller_than_any_page_is_still_no_endless_search():
    outcome = draw_binder([house_matrix(31, first=FIRST * 30)], THEME, LARGE[1], title="t", faces=FACES)
    assert {fault.code for fault in outcome.faults} <= {"LB804"}
