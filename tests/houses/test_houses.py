"""What must be true of the pages of any house, held against three small ones written as a new user writes them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from house_prints import Prints, plain, print_house, tables
from pypdf import PdfReader

DAYS = {"quarry-lamp": "2027-01-08", "tansy-row": "2027-03-05", "gannet-steps": "2027-02-05"}

# What one portion carries, as the specs have it, in plating order. The diner's half size is half of all, but for the
# gravy, of which it has its own amount.
PORTIONS = {
    ("quarry-lamp", "meatloaf-plate"): (("6 oz", "3 oz"), ("2 pieces", "1 piece"), ("⅓ cup", "¼ cup")),
    ("quarry-lamp", "wedge-salad"): (("¼ head",), ("3 tbsp",), ("¾ oz",), ("1 oz",), ("1 oz",)),
    ("tansy-row", "bread-board"): (("⅙ piece",), ("20 g",)),
    ("tansy-row", "pear-tart-slice"): (("1 piece",), ("30 ml",)),
    ("gannet-steps", "cured-trout-plate"): (("60 g",), ("15 g",), ("5 g",), ("1 piece",)),
}


@pytest.fixture(scope="module")
def houses(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Prints]:
    return {name: print_house(name, tmp_path_factory.mktemp(name), "bind", "--date", day) for name, day in DAYS.items()}


@pytest.mark.parametrize(("house", "dish"), list(PORTIONS))
@pytest.mark.parametrize("kind", ["station-card", "plating-guide"])
def test_a_portion_is_printed_as_the_chef_wrote_it(houses: dict[str, Prints], house: str, dish: str, kind: str) -> None:
    """A quarter of a head is not half of one, and a sixth of a loaf is not a loaf."""
    sheet = houses[house].sheet(f"{kind}:{dish}")
    rows = [row for table in tables(sheet.blocks) if table.role == "elements" for row in table.rows]
    printed = []
    for row in rows:
        cells = [plain(cell.content) for cell in row.cells]
        name = next(at for at, cell in enumerate(row.cells) if cell.scope == "row")
        printed.append((" ".join(text for text in cells[:name] if text), *cells[name + 1 :]))
    assert tuple(printed) == PORTIONS[house, dish]


@pytest.mark.parametrize("house", list(DAYS))
def test_every_sheet_is_on_paper_with_its_name(houses: dict[str, Prints], house: str) -> None:
    prints = houses[house]
    paper = {name: prints.pages(name) for name in prints.files()}
    for sheet in prints.sheets:
        name = f"{sheet.line}-binder.pdf" if sheet.line else "allergen-matrix.pdf"
        assert plain(sheet.title) in paper[name], (sheet.id, name)


@pytest.mark.parametrize("house", list(DAYS))
def test_a_dish_says_on_the_matrix_what_it_says_on_its_card(houses: dict[str, Prints], house: str) -> None:
    """The words under the matrix name every column that is marked, so that they can be read without the table."""
    prints = houses[house]
    notes = next(table for table in tables(prints.matrix().blocks) if table.role == "list")
    for row in notes.rows:
        dish = row.key.removeprefix("note.")
        said = plain(row.cells[1].content)
        marked = {column for column, mark in prints.marks(dish).items() if mark.startswith(("contains", "may"))}
        missing = {column for column in marked if re.sub(r" \((house|EU|US)\)$", "", column) not in said}
        assert not missing, (dish, said)


@pytest.mark.parametrize(("house", "size"), [("quarry-lamp", (612, 792)), ("tansy-row", (595, 842))])
def test_the_paper_is_the_house_s(houses: dict[str, Prints], house: str, size: tuple[int, int]) -> None:
    folder = houses[house].folder
    for path in folder.glob("*-binder.pdf"):
        box = PdfReader(path).pages[0].mediabox
        assert (round(box.width), round(box.height)) == size


@pytest.mark.parametrize(
    ("house", "component", "covers"),
    [
        ("quarry-lamp", "buttermilk-dressing", "90"),  # two loads, in quarts, cups and spoons
        ("quarry-lamp", "meatloaf", "60"),  # one load, pounds and counts
        ("gannet-steps", "horseradish-cream", "50"),
        ("tansy-row", "pear-tart", "80"),
    ],
)
def test_the_terminal_says_what_the_sheet_says(tmp_path: Path, house: str, component: str, covers: str) -> None:
    prints = print_house(house, tmp_path, "batch", component, "--covers", covers, "--date", DAYS[house])
    (sheet,) = prints.sheets
    table = next(table for table in tables(sheet.blocks) if table.role == "ingredients")
    wanted = [
        (*prints.row(sheet.id, row.key).figures, prints.row(sheet.id, row.key).name)
        for row in table.rows
        if row.key.startswith("ingredient.")
    ]
    head, *lines = prints.result.stdout.splitlines()[-len(wanted) - 3 : -2]
    said = [re.split(r" {2,}", line.replace("≈", "").strip()) for line in lines]
    assert [tuple(figures) for *figures, _ in said] == [tuple(figures) for *figures, _ in wanted]
    named = [re.sub(r" \(weighing .*\)$", "", name) for *_, name in said]  # the sheet has that in the note below
    assert [name.replace(",", "") for name in named] == [name.replace(",", "") for *_, name in wanted]
    assert not any("/" in line for line in lines)
    ends = {line.index(name) for line, (*_, name) in zip(lines, said, strict=True)}
    assert len(ends) == 1
    assert re.split(r" {2,}", head.strip()) in (["each load", "in all", "base batch"], ["weigh", "base batch"])


def test_the_matrix_command_prints_what_bind_prints(houses: dict[str, Prints], tmp_path: Path) -> None:
    alone = print_house("gannet-steps", tmp_path, "matrix", "--date", DAYS["gannet-steps"])
    bound = houses["gannet-steps"]
    assert alone.matrix() == bound.matrix()
    name = "allergen-matrix.pdf"
    assert (alone.folder / name).read_bytes() == (bound.folder / name).read_bytes()
