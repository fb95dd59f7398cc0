"""The allergen matrix and the cover of a binder."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample_house import (
    cover_view,
    hake_dish,
    leek_dish,
    made,
    matrix_view,
    sample_components,
    sample_house,
    sample_house_file,
    sheet,
    short_rib_dish,
)

from linebook.compute.allergens import compute_allergens
from linebook.compute.results import Answer, Finding
from linebook.documents.allergen_matrix import allergen_matrix
from linebook.documents.binder_order import BinderEntry, binder_order
from linebook.documents.wording import english
from linebook.markup.blocks import Box, Facts, Heading, Mark, Paragraph, Points, Split, Table
from linebook.markup.said import plain
from linebook.model.house import AllergenPolicy

HOUSE = sample_house()
TABLE = compute_allergens(HOUSE, "early-spring")
MARKS = {
    Answer.CONTAINS: "contains",
    Answer.UNDECLARED: "undeclared",
    Answer.MAY: "may",
    Answer.FREE: "free",
}


def text_of(content) -> str:
    return plain(content).replace("\u00a0", " ")


def tables(view) -> dict[str, Table]:
    return {block.role: block for block in sheet(view).blocks if isinstance(block, Table)}


def test_every_dish_against_every_column_with_its_computed_mark():
    matrix = tables(matrix_view(HOUSE))["matrix"]
    rows = {row.key.removeprefix("dish."): row for row in matrix.rows if not row.heading}
    assert set(rows) == set(HOUSE.dishes)
    for dish, findings in TABLE.dishes.items():
        cells = rows[dish].cells[1:]
        assert len(cells) == len(TABLE.columns) == 15
        for cell, column in zip(cells, TABLE.columns, strict=True):
            (mark,) = cell.content
            finding = findings[column.id]
            assert isinstance(mark, Mark)
            assert mark.kind == MARKS[finding.answer] + ("-leave" if finding.without else "")
            assert mark.word


def test_rows_go_by_course_in_serving_order():
    matrix = tables(matrix_view(HOUSE))["matrix"]
    assert [row.key for row in matrix.rows] == [
        "course.snacks",
        "dish.hake-fritter",
        "dish.celeriac-crisp",
        "course.fire",
        "dish.short-rib",
    ]


def test_the_sheet_is_turned_and_says_what_it_follows():
    whole = sheet(matrix_view(HOUSE))
    assert whole.landscape
    paragraphs = {block.key: text_of(block.content) for block in whole.blocks if isinstance(block, Paragraph)}
    assert text_of(whole.aside) == ("early spring, from 2 March 2027 · United Kingdom list, and the house's own: honey")
    assert paragraphs["drinks"] == (
        "A guest who avoids several things needs a guest sheet: what helps with one may bring another. "
        "Drinks are not on this sheet."
    )
    assert "local law" in paragraphs["caution"]
    assert paragraphs["media"] == (
        "The shared fryer is used for other food too. What it touches: Hake fritter, Celeriac crisps."
    )


def test_notes_name_the_nut_the_fryer_and_who_has_not_declared():
    notes = {row.key: text_of(row.cells[1].content) for row in tables(matrix_view(HOUSE))["list"].rows}
    rib = notes["note.short-rib"]
    assert rib.startswith("Not declared: chipotle paste; ask the chef before you promise anything.")
    assert "nuts (walnut)" in rib
    assert notes["note.celeriac-crisp"].endswith(
        "From the shared fryer it may contain cereals containing gluten (wheat), fish (species not named)."
    )


def test_the_legend_has_every_mark_with_its_words():
    legend = next(block for block in sheet(matrix_view(HOUSE)).blocks if isinstance(block, Facts))
    kinds = [mark.kind for fact in legend.facts for mark in fact.term]
    assert len(kinds) == len(set(kinds))
    assert set(kinds) == {"contains", "contains-leave", "undeclared", "undeclared-leave", "may", "may-leave", "free"}
    words = {fact.term[0].kind: text_of(fact.value) for fact in legend.facts}
    assert words["free"] == "means not in it, no known contact"
    assert words["undeclared"] == "not declared: treat as containing it"
    assert words["contains-leave"] == "corner cut: it can be left out or exchanged, ask the pass"


def test_a_leave_off_is_the_computed_verdict_never_the_field():
    """The walnut crumb may be left off, and still the dish cannot be served without nuts: the paste is undeclared."""
    finding = TABLE.dishes["short-rib"]["tree-nut"]
    assert finding.answer is Answer.CONTAINS
    row = next(row for row in tables(matrix_view(HOUSE))["matrix"].rows if row.key == "dish.short-rib")
    at = [column.id for column in TABLE.columns].index("tree-nut") + 1
    assert row.cells[at].content[0].kind == ("contains-leave" if finding.without else "contains")


def test_no_cell_of_any_table_of_the_matrix_is_blank():
    for table in tables(matrix_view(HOUSE)).values():
        for row in (*table.head, *table.rows):
            assert all(cell.content for cell in row.cells)


def test_a_binder_has_dishes_by_course_then_components_in_working_order():
    entries = binder_order(HOUSE, "early-spring", "hearth")
    assert entries[:3] == (
        BinderEntry(document="station-card", subject="celeriac-crisp"),
        BinderEntry(document="station-card", subject="short-rib"),
        BinderEntry(document="plating-guide", subject="short-rib"),
    )
    assert {entry.subject for entry in entries[3:]} == {"short-rib-glazed", "celeriac-puree", "walnut-crumb"}
    assert entries[3].subject == "short-rib-glazed"  # a day and more ahead of the others
    stove = [entry.subject for entry in binder_order(HOUSE, "early-spring", "stove")]
    assert stove == ["hake-fritter", "brine-basic", "short-rib-jus"]


def test_a_cover_lists_its_sheets_by_name_in_that_order():
    view = cover_view(HOUSE, fingerprints={"batch-card:walnut-crumb": "7F3A91C2"})
    rows = tables(view)["contents"].rows
    entries = binder_order(HOUSE, "early-spring", "hearth")
    assert [row.key for row in rows] == ["sheet:line-allergens:hearth", *(f"sheet:{entry.id}" for entry in entries)]
    names = [(text_of(row.cells[0].content), text_of(row.cells[1].content)) for row in rows]
    assert names[0] == ("Allergens, Hearth", "Allergen page")
    assert names[2] == ("Short rib, celeriac, walnut", "Station card")
    crumb = next(row for row in rows if row.key == "sheet:batch-card:walnut-crumb")
    assert text_of(crumb.cells[2].content) == "7F3A91C2"
    assert len(tables(cover_view(HOUSE))["contents"].columns) == 2


def test_a_cover_says_menu_dates_and_what_comes_from_other_lines():
    (split,) = [block for block in sheet(cover_view(HOUSE)).blocks if isinstance(block, Split)]
    blocks = (*split.left, *split.right, *sheet(cover_view(HOUSE)).blocks)
    facts = {f.key: text_of(f.value) for b in blocks if isinstance(b, Facts) for f in b.facts}
    assert facts["cover.menu"] == "early spring"
    assert facts["cover.in-force"] == "from 2 March 2027 until the next menu"
    assert facts["cover.set-up"] == "15:30"
    assert facts["cover.holds"] == "7 sheets"
    assert facts["from.stove"] == "Short rib jus, Basic brine"


def test_a_cover_says_how_many_portions_of_its_dishes_each_standard_night_needs():
    """Share 0.7, four fifths full and one fifth to share; half of the guests take a crisp; no spare, no tasters."""
    table = tables(cover_view(HOUSE))["list"]
    assert [text_of(cell.content) for cell in table.head[0].cells] == ["dish", "80 covers", "150 covers"]
    rows = {row.key: [text_of(cell.content) for cell in row.cells] for row in table.rows}
    assert rows == {
        "portions.celeriac-crisp.full": ["Celeriac crisps", "40", "75"],
        "portions.short-rib.full": ["Short rib, celeriac, walnut (full)", "45", "84"],
        "portions.short-rib.to-share": ["Short rib, celeriac, walnut (to share)", "12", "21"],
    }
    assert list(tables(cover_view(sample_house(file=sample_house_file(nights=()))))) == ["contents"]


def test_the_notes_of_a_matrix_and_the_contents_of_a_binder_may_start_a_page():
    for view in (matrix_view(HOUSE), cover_view(HOUSE)):
        keys = {block.key for block in sheet(view).blocks if isinstance(block, Heading) and block.starts_page}
        assert keys in ({"notes"}, {"contents"})


def test_a_column_that_is_not_on_every_list_says_whose_it_is():
    file = sample_house_file(allergens=made(AllergenPolicy, lists=("uk", "us"), avoid={"honey": "honey"}))
    heads = [text_of(cell.content) for cell in tables(matrix_view(sample_house(file=file)))["matrix"].head[0].cells]
    assert "celery (UK)" in heads
    assert "wheat (US)" in heads
    assert "milk" in heads
    assert "honey (house)" in heads
    assert "nuts (UK)" in heads
    assert "tree nuts (US)" in heads


def test_what_comes_from_a_shared_medium_is_named_with_it():
    def note(**fields) -> str:
        finding = Finding(substances=("fish",), **fields)
        findings = {column.id: Finding(answer=Answer.FREE) for column in TABLE.columns} | {"fish": finding}
        table = replace(TABLE, dishes={"short-rib": findings}, undeclared={})
        view = allergen_matrix(HOUSE, table, english())
        return text_of(tables(view)["list"].rows[0].cells[1].content)

    assert note(answer=Answer.CONTAINS) == "Contains fish."
    assert note(answer=Answer.CONTAINS, media=("fryer",)) == "From the shared fryer it contains fish."
    assert note(answer=Answer.MAY, media=("fryer",)) == "From the shared fryer it may contain fish."
    assert note(answer=Answer.MAY, media=("fryer",), partly=True) == "May contain fish (some from the shared fryer)."
    both = note(answer=Answer.CONTAINS, also_may=("crab",), also_media=("fryer",))
    assert both == "Contains fish. From the shared fryer it may contain fish (crab)."


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("hearth", "Not declared: chipotle paste."),
        ("stove", "Drafts, not yet tested: Hake fritter, Short rib jus."),
        ("stove", "Limits follow the FDA Food Code 2022 rules."),
    ],
)
def test_a_cover_says_what_to_watch_for(line, words):
    box = next(block for block in sheet(cover_view(HOUSE, line)).blocks if isinstance(block, Box))
    points = [text_of(point.content) for block in box.blocks if isinstance(block, Points) for point in block.points]
    assert any(words in point for point in points)


def test_a_matrix_of_the_same_house_in_another_order_of_files_is_the_same():
    dishes = {dish.id: dish for dish in (leek_dish(), short_rib_dish(), hake_dish())}
    components = dict(reversed(sample_components().items()))
    other = sample_house(dishes=dishes, components=components)
    assert sheet(matrix_view(other)) == sheet(matrix_view(HOUSE))
