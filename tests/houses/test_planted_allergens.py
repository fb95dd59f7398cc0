"""Allergens that are easily missed, planted in a house as a chef would write it, and looked for on the printed paper.

A by-product (whey in a dressing), a fryer (squid beside chips), last menu's oil (cod), an alternative that brings what
another guest avoids, and two lists that disagree (molluscs and celery are on the UK's list and not among the US nine).
"""

from __future__ import annotations

import pytest
from house_prints import Prints, plain, print_house, tables

from linebook.markup.blocks import Facts, Paragraph

NO_BREAK = "\u00a0"
DAY = "2027-03-06"
FILES = {
    "house.yaml": """
name: Planted
rules: UK
nights: [40]
allergens: {lists: [uk, us], older_than: 200 d, also: [pork, raw]}
lines:
  stove: {name: Stove}
  garde: {name: Garde}
media:
  fryer: {name: the fryer, carries: [oil]}
instruments:
  - {scale: scale, up_to: 20 kg, reads: 1 g}
""",
    "pantry/all.yaml": """
oil: {name: rapeseed oil, origin: plant, one_food: yes, allergens: {contains: none, says: label, since: 2027-01-02}}
potato: {name: potatoes, origin: plant, one_food: yes, allergens: {contains: none, says: own knowledge, since: 2027-01-02}}
milk: {name: whole milk, origin: milk, unpasteurised: no, allergens: {contains: [cows-milk], says: label, since: 2027-01-02}}
rennet: {name: vegetable rennet, origin: rennet-vegetable, allergens: {contains: none, says: label, since: 2027-01-02}}
lettuce: {name: lettuce, origin: plant, one_food: yes, allergens: {contains: none, says: own knowledge, since: 2027-01-02}}
squid: {name: squid, origin: mollusc, allergens: {contains: [squid], says: own knowledge, since: 2027-01-02}}
cod: {name: cod, origin: fish, allergens: {contains: [cod], says: own knowledge, since: 2027-01-02}}
walnut: {name: walnuts, origin: plant, allergens: {contains: [walnut], says: label, since: 2026-01-02}}
seeds: {name: sesame seeds, origin: plant, allergens: {contains: [sesame], says: label, since: 2027-01-02}}
celery-salt: {name: celery salt, origin: plant, allergens: {contains: [celery], says: label, since: 2027-01-02}}
""",
    "components/curd.md": """---
name: Fresh curd
line: garde
makes: 1 kg
ingredients:
  - {item: milk, amount: 5 L}
  - {item: rennet, amount: to taste}
also_makes:
  - {item: whey, name: whey, amount: 3 kg}
stages: [{stage: make, hands_on: 5 min}]
---
## Make
1. Set and drain.
""",
    "components/dressing.md": """---
name: House dressing
line: garde
makes: 1 kg
ingredients:
  - {item: whey, amount: 700 g}
  - {item: oil, amount: 300 g}
stages: [{stage: make, hands_on: 5 min}]
---
## Make
1. Shake.
""",
    "components/nut-crumb.md": """---
name: Nut crumb
line: garde
makes: 1 kg
ingredients:
  - {item: walnut, amount: 1 kg}
stages: [{stage: make, hands_on: 5 min}]
---
## Make
1. Chop.
""",
    "components/seed-crumb.md": """---
name: Seed crumb
line: garde
makes: 1 kg
ingredients:
  - {item: seeds, amount: 900 g}
  - {item: celery-salt, amount: 100 g}
stages: [{stage: make, hands_on: 5 min}]
---
## Make
1. Toast.
""",
    "dishes/salad.md": """---
name: Salad
line: garde
course: plates
elements:
  - {item: lettuce, amount: 80 g}
  - {item: dressing, amount: 20 g, leave_off: yes}
  - {item: nut-crumb, amount: 10 g, leave_off: yes, alternative: {item: seed-crumb, amount: 10 g}}
---
## Pick-up
1. Dress.
""",
    "dishes/curd-bowl.md": """---
name: Curd bowl
line: garde
course: plates
elements:
  - {item: curd, amount: 80 g}
---
## Pick-up
1. Spoon.
""",
    "dishes/chips.md": """---
name: Chips
line: stove
course: plates
elements:
  - {item: potato, amount: 200 g, through: fryer}
  - {item: lettuce, amount: 5 g}
---
## Pick-up
1. Fry.
""",
    "dishes/fried-squid.md": """---
name: Fried squid
line: stove
course: plates
elements:
  - {item: squid, amount: 100 g, through: fryer}
---
## Pick-up
1. Fry.
""",
    "dishes/fried-cod.md": """---
name: Fried cod
line: stove
course: plates
elements:
  - {item: cod, amount: 100 g, through: fryer}
---
## Pick-up
1. Fry.
""",
    "menus/old.yaml": """
name: winter
first: 2027-01-05
courses: [{course: plates, name: Plates, portions_a_cover: 1}]
dishes: [{dish: fried-cod, share: 1}]
""",
    "menus/new.yaml": """
name: spring
first: 2027-03-02
oil_changed: no
courses: [{course: plates, name: Plates, portions_a_cover: 1}]
dishes: [{dish: salad, share: 0.5}, {dish: chips, share: 0.2}, {dish: curd-bowl, share: 0.1}, {dish: fried-squid, share: 0.2}]
""",
}


@pytest.fixture(scope="module")
def bound(tmp_path_factory: pytest.TempPathFactory) -> Prints:
    folder = tmp_path_factory.mktemp("planted")
    for path, text in FILES.items():
        (folder / "planted" / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / "planted" / path).write_text(text.lstrip("\n"), encoding="utf-8")
    return print_house("planted", folder, "bind", "--date", DAY)


def note(bound: Prints, dish: str) -> str:
    table = next(table for table in tables(bound.matrix().blocks) if table.role == "list")
    return next(plain(row.cells[1].content) for row in table.rows if row.key == f"note.{dish}")


def said(bound: Prints, key: str) -> str:
    blocks = bound.matrix().blocks
    return next(plain(block.content) for block in blocks if isinstance(block, Paragraph) and block.key == key)


def page_row(bound: Prints, line: str, key: str) -> dict[str, str]:
    table = next(table for table in tables(bound.sheet(f"line-allergens:{line}").blocks) if table.role == "matrix")
    heads = [plain(cell.content) for cell in table.head[-1].cells][1:]
    row = next(row for row in table.rows if row.key == key)
    return dict(zip(heads, (cell.content[0].kind for cell in row.cells[1:]), strict=True))  # type: ignore[union-attr]


def verdicts(bound: Prints, sheet: str) -> dict[str, str]:
    facts = [block for block in bound.sheet(sheet).blocks if isinstance(block, Facts) and block.role == "verdicts"]
    return {plain(fact.term): plain(fact.value) for block in facts for fact in block.facts}


def test_milk_that_comes_by_a_by_product_alone(bound: Prints) -> None:
    assert bound.marks("salad")["milk"] == "contains-leave"
    assert "Without House dressing: milk can be left out" in note(bound, "salad")
    assert page_row(bound, "garde", "part.salad.dressing")["milk"] == "contains"
    assert page_row(bound, "garde", "dish.salad")["milk"] == "contains-leave"


def test_squid_that_comes_by_the_fryer_alone(bound: Prints) -> None:
    assert bound.marks("chips")["molluscs (UK)"] == "may"
    assert "From the fryer it may contain" in note(bound, "chips")
    assert "molluscs (squid)" in note(bound, "chips")
    assert page_row(bound, "stove", "part.chips.potato")["molluscs (UK)"] == "may"
    facts = [block for block in bound.sheet("line-allergens:stove").blocks if isinstance(block, Facts)]
    media = {plain(fact.term): plain(fact.value) for block in facts if block.role == "plain" for fact in block.facts}
    assert media == {"fryer": "from this line potatoes, squid; it holds rapeseed oil; not changed since winter"}


def test_cod_that_was_in_the_oil_before(bound: Prints) -> None:
    for dish in ("chips", "fried-squid"):
        assert bound.marks(dish)["fish"] == "may"
        assert "fish (cod)" in note(bound, dish)
    assert said(bound, "oil") == (
        "Not changed since the menu before (winter): what was on it may still be in the fryer."
    )
    assert bound.marks("salad")["fish"] == "free"


def test_an_alternative_that_helps_with_nuts_and_brings_sesame_and_celery(bound: Prints) -> None:
    marks = bound.marks("salad")
    assert (marks["nuts (UK)"], marks["sesame seeds"], marks["celery (UK)"]) == ("contains-leave", "free", "free")
    words = note(bound, "salad")
    assert "With Seed crumb instead of Nut crumb: nuts (UK), tree nuts (US) can be left out" in words
    assert "Seed crumb itself: contains celery, sesame seeds" in words
    card = verdicts(bound, "station-card:salad")
    assert card["Serve with Seed crumb instead of Nut crumb, or without Nut crumb:"] == (
        "nuts (UK) (walnut), tree nuts (US) (walnut)"
    )
    assert card["Seed crumb itself:"] == "contains celery, sesame seeds"
    assert verdicts(bound, "line-allergens:garde")["Seed crumb itself:"] == "contains celery, sesame seeds"
    assert page_row(bound, "garde", "part.salad.seed-crumb.nut-crumb")["sesame seeds"] == "contains"
    assert "A guest who avoids several things needs a guest sheet" in said(bound, "drinks")


def test_the_alternative_stands_on_the_station_card_with_its_amount(bound: Prints) -> None:
    table = next(table for table in tables(bound.sheet("station-card:salad").blocks) if table.role == "elements")
    words = [
        (plain(piece.content) + plain(piece.note)).replace(NO_BREAK, " ") for row in table.rows for piece in row.cells
    ]
    assert any("for a guest, 10 g Seed crumb instead, ask the pass" in one for one in words)


def test_two_lists_that_disagree_are_both_told(bound: Prints) -> None:
    marks = bound.marks("fried-squid")
    assert marks["molluscs (UK)"] == "contains"
    assert "molluscs (US)" not in marks
    assert {"celery (UK)", "mustard (UK)", "wheat (US)", "milk", "pork", "animal food raw or undercooked"} <= set(marks)
    assert plain(bound.matrix().aside).endswith("United Kingdom list and United States list")


def test_what_nothing_on_a_line_has_is_said_in_a_sentence(bound: Prints) -> None:
    blocks = bound.sheet("line-allergens:garde").blocks
    absent = next(plain(block.content) for block in blocks if isinstance(block, Paragraph) and block.key == "absent")
    assert absent.startswith("Not in anything on this line, no known contact: ")
    for column in ("fish", "molluscs", "pork"):
        assert f" {column}," in absent or absent.endswith(f" {column}.")
    assert "nuts" not in absent.split(": ")[1].split(", ")


def test_old_declarations_are_told_with_the_oldest(bound: Prints) -> None:
    assert said(bound, "oldest").replace(NO_BREAK, " ") == "The oldest declaration is that of walnuts, 2 January 2026."
    assert said(bound, "aged").replace(NO_BREAK, " ") == (
        "On 6 March 2027 these are older than 200 d, ask for new labels: walnuts."
    )
    assert note(bound, "salad").endswith("Old declaration: walnuts.")
    assert "Old declaration" not in note(bound, "chips")


def test_what_is_asked_besides_is_told_apart_from_the_lists(bound: Prints) -> None:
    marks = bound.marks("fried-squid")
    assert (marks["pork"], marks["animal food raw or undercooked"]) == ("free", "undeclared")
    assert "Origin or cooking not known: cod, squid; ask the chef." in note(bound, "fried-squid")
    assert said(bound, "also").startswith("No allergen list has these columns: pork, animal food raw or undercooked.")


def test_the_contents_begin_with_the_allergen_page(bound: Prints) -> None:
    cover = bound.sheet("line-cover:garde")
    contents = next(table for table in tables(cover.blocks) if table.role == "contents")
    assert contents.rows[0].key == "sheet:line-allergens:garde"
    kinds = [sheet.kind for sheet in bound.sheets if sheet.line == "garde"]
    assert kinds[:4] == ["line-cover", "line-allergens", "set-up-sheet", "station-card"]
