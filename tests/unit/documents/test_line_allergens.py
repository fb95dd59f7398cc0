"""A line's own allergen page, and the index: each mark where it belongs, nothing left out, nothing twice."""

from __future__ import annotations

from dataclasses import replace

from sample_house import index_view, line_page_view, sample_house, sheet, with_changes

from linebook.compute.allergen_index import allergen_index
from linebook.compute.allergens import compute_allergens
from linebook.compute.results import Answer, Finding
from linebook.documents.allergen_changes import Exchange, action_text, change_key, exchange_of
from linebook.documents.text import Text
from linebook.documents.wording import english
from linebook.markup.blocks import Box, Facts, Mark, Paragraph, Points, Row, Table
from linebook.markup.said import plain
from linebook.model.house import House

HOUSE = with_changes(sample_house())
TABLE = compute_allergens(HOUSE, "early-spring")


def matrix_of(house: House, line: str = "hearth") -> Table:
    return next(block for block in sheet(line_page_view(house, line)).blocks if isinstance(block, Table))


def kinds(row: Row) -> list[str]:
    return [piece.kind for cell in row.cells[1:] for piece in cell.content if isinstance(piece, Mark)]


def test_a_plate_is_followed_by_its_parts_in_plating_order() -> None:
    keys = [row.key for row in matrix_of(HOUSE).rows]
    at = keys.index("dish.short-rib")
    assert keys[at + 1 : at + 7] == [
        "part.short-rib.celeriac-puree",
        "part.short-rib.short-rib-glazed",
        "part.short-rib.walnut-crumb",
        "part.short-rib.mustard-seed.walnut-crumb",
        "part.short-rib.short-rib-jus",
        "part.short-rib.clean",
    ]


def test_each_part_has_the_marks_of_what_it_brings_itself() -> None:
    table = matrix_of(HOUSE)
    heads = [plain(cell.content) for cell in table.head[0].cells][1:]
    rows = {row.key: dict(zip(heads, kinds(row), strict=True)) for row in table.rows if not row.heading}
    assert rows["part.short-rib.walnut-crumb"]["nuts"] == "contains"
    assert rows["part.short-rib.celeriac-puree"]["nuts"] == "free"
    assert rows["dish.short-rib"]["nuts"] == "contains-leave"
    assert rows["part.short-rib.mustard-seed.walnut-crumb"]["mustard"] == "contains"
    assert set(rows["part.short-rib.clean"].values()) == {"free"}


def test_every_row_has_a_mark_in_every_column_and_none_is_all_free_alone() -> None:
    for line in ("hearth", "stove"):
        table = matrix_of(HOUSE, line)
        for row in table.rows:
            if not row.heading:
                assert len(kinds(row)) == len(table.columns) - 1
        assert sum(set(kinds(row)) == {"free"} for row in table.rows) <= 3


def test_columns_and_the_sentence_under_them_are_all_columns_once() -> None:
    heads = [plain(cell.content) for cell in matrix_of(HOUSE).head[0].cells][1:]
    blocks = sheet(line_page_view(HOUSE)).blocks
    absent = next(plain(block.content) for block in blocks if isinstance(block, Paragraph) and block.key == "absent")
    left_out = absent.rstrip(".").partition(": ")[2].split(", ")
    names = [column.name for column in TABLE.columns]
    assert len(heads) + len(left_out) == len(names)
    for name in left_out:
        column = next(one.id for one in TABLE.columns if one.name == name)
        assert all(TABLE.dishes[dish][column].answer is Answer.FREE for dish in ("short-rib", "celeriac-crisp")), (
            "it is on a plate of the line"
        )


def test_what_can_be_done_and_what_the_alternative_brings() -> None:
    facts = [block for block in sheet(line_page_view(HOUSE)).blocks if isinstance(block, Facts)]
    said = {plain(fact.term): plain(fact.value) for block in facts if block.role == "verdicts" for fact in block.facts}
    assert said["Serve with mustard seed instead of Walnut crumb, or without Walnut crumb:"].startswith(
        "cereals containing gluten (wheat)"
    )
    assert said["mustard seed itself:"] == "contains mustard; may contain sesame seeds"


def test_the_ticket_comes_first_and_names_the_lines_media() -> None:
    box = sheet(line_page_view(HOUSE)).blocks[0]
    assert isinstance(box, Box)
    points = next(block for block in box.blocks if isinstance(block, Points)).points
    assert [point.key for point in points] == [
        f"ticket.{step}" for step in ("read", "find", "change", "clean", "media", "hand-over")
    ]
    assert "shared fryer" in plain(points[4].content)
    bare = replace(HOUSE, file=replace(HOUSE.file, media=()))
    first = sheet(line_page_view(bare)).blocks[0]
    assert isinstance(first, Box)
    assert len(next(block for block in first.blocks if isinstance(block, Points)).points) == 5


def test_the_index_has_every_entry_with_every_dish_that_is_not_free() -> None:
    facts = {fact.key: plain(fact.value) for block in sheet(index_view(HOUSE)).blocks if isinstance(block, Facts)
             for fact in block.facts}  # fmt: skip
    entries = allergen_index(HOUSE, "early-spring")
    assert set(facts) == {f"{entry.sort}.{entry.id}" for entry in entries}
    for entry in entries:
        words = facts[f"{entry.sort}.{entry.id}"]
        if words == "every dish":
            assert len(entry.dishes) == len(TABLE.dishes)
            continue
        sure, _, rest = words.partition("may: ")
        for dish, answer in entry.dishes:
            where = {Answer.CONTAINS: sure.partition("not declared: ")[0], Answer.MAY: rest}.get(answer, words)
            assert HOUSE.dishes[dish].name in where
        if not entry.dishes:
            assert words == "no dish, no known contact"


def test_the_index_is_sorted_as_a_person_looks_things_up() -> None:
    blocks = [block for block in sheet(index_view(HOUSE)).blocks if isinstance(block, Facts)]
    foods = [plain(fact.term).rstrip(":").casefold() for fact in blocks[-1].facts]
    assert foods == sorted(foods)
    assert {"walnut halves", "walnut crumb"} <= set(foods)


def said(text: Text) -> str:
    return text.plain


def test_an_exchange_with_something_left_off_besides() -> None:
    finding = Finding(answer=Answer.CONTAINS, instead=(("walnut-crumb", "mustard-seed"), ("lovage", None)), without=())
    assert exchange_of(finding) == Exchange(others=("mustard-seed",), items=("walnut-crumb",), left=("lovage",))
    assert said(action_text(HOUSE, finding, english())) == (
        "Serve with mustard seed instead of Walnut crumb, and without lovage"
    )
    both = replace(finding, without=("walnut-crumb", "lovage"))
    assert said(action_text(HOUSE, both, english())) == (
        "Serve with mustard seed instead of Walnut crumb, and without lovage, or without Walnut crumb and lovage"
    )
    others = (replace(both, instead=()), replace(finding, instead=()))
    keys = {change_key(one) for one in (finding, both, *others)}
    assert len(keys) == 4
    assert change_key(Finding(answer=Answer.CONTAINS)) == ""
