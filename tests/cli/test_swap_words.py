"""One edit at a time on a house that is issued: which sheets are exchanged, and the words a cook is told for it."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from click.testing import CliRunner
from PIL import Image
from running import Run
from swap_house import LATER, WINTER, edit, swap_house

from linebook.cli.main import command

SHIN, FRITTERS = ("station-card:shin", "plating-guide:shin"), ("station-card:fritters", "plating-guide:fritters")
MATRIX = "allergen-matrix:late-winter"


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The house after its first issue, which is made once."""
    folder = tmp_path_factory.mktemp("issued")
    house = swap_house(folder / "specs")
    photograph(house, 10)
    asked = ["bind", str(house), "--issue", "--menu", "late-winter", "--date", WINTER, "-o", str(folder / "out")]
    done = CliRunner().invoke(command, asked, catch_exceptions=False)
    assert done.exit_code == 0, done.output
    return house


def photograph(house: Path, red: int) -> None:
    (house / "photos").mkdir(exist_ok=True)
    Image.new("RGB", (600, 400), (red, 90, 60)).save(house / "photos/pot.png")
    if red == 10:
        edit(house / "dishes/pot.md", ("plate: bowl-20\n", "plate: bowl-20\nphoto: photos/pot.png\n"))


def other_id(house: Path) -> None:
    (house / "dishes/shin.md").rename(house / "dishes/ox-shin.md")
    for menu in ("late-winter", "early-spring"):
        edit(house / f"menus/{menu}.yaml", ("dish: shin", "dish: ox-shin"))


def in_file(path: str, old: str, new: str) -> Callable[[Path], None]:
    return lambda house: edit(house / path, (old, new))


def standing(house: Path) -> dict[str, str]:
    """Return the fingerprints of the last issue by sheet."""
    last = max((house / "issued").glob("*.txt")).read_text(encoding="utf-8")
    rows = re.findall(r"^([0-9A-Z]{8}) +\d+ +\S+ +(\S+)", last, re.MULTILINE)
    return {sheet: fingerprint for fingerprint, sheet in rows}


def told(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    pages = [document[at].get_textpage().get_text_range() for at in range(len(document))]
    return re.sub(r"\s+", " ", " ".join(pages))


SAME: tuple[str, ...] = ()
EDITS: dict[str, tuple[Callable[[Path], None], tuple[str, ...], tuple[str, ...]]] = {
    "an amount": (
        in_file("components/celeriac-puree.md", "amount: 300 g", "amount: 280 g"),
        ("batch-card:celeriac-puree",),
        ("butter 300 g → 280 g", "the amounts for the standard nights changed"),
    ),
    "a unit": (in_file("components/brine.md", "amount: 600 g", "amount: 0.6 kg"), SAME, SAME),
    "a remark": (in_file("dishes/shin.md", "tested:", "# as in autumn\ntested:"), SAME, SAME),
    "a price": (in_file("dishes/shin.md", "price: 24", "price: 26"), SAME, SAME),
    "a step": (
        in_file("dishes/shin.md", "for 40 s", "for 50 s, hot"),
        ("station-card:shin",),
        ("Pick-up step 3 reworded",),
    ),
    "the time of a stage": (
        in_file("components/braised-shin.md", "unattended: 4 h to 5 h", "unattended: 5 h to 6 h"),
        ("batch-card:braised-shin",),
        ("Braise: by itself 4 h to 5 h → by itself 5 h to 6 h",),
    ),
    "an allergen of a pantry item": (
        in_file(
            "pantry/dry.yaml", "vinegar\n  allergens: {contains: none", "vinegar\n  allergens: {contains: [mustard]"
        ),
        (MATRIX, "line-allergens:stove", "line-allergens:cold", *SHIN, *FRITTERS, "batch-card:walnut-fritter"),
        (
            "Shin, celeriac, walnut: now may contain mustard (from the shared fryer)",
            "Walnut fritters: now contains mustard",
            "Walnut fritters · mustard: not in it → contains",
            "Shin, celeriac, walnut · mustard: not in it → may contain, can be left off",
        ),
    ),
    "a nut that is no longer only a trace": (
        in_file("pantry/dry.yaml", "contains: [walnut], may_contain: [almond]", "contains: [walnut, almond]"),
        (
            *(MATRIX, "line-allergens:stove", "line-allergens:cold", "line-allergens:sweet", *SHIN, *FRITTERS),
            *("batch-card:walnut-fritter", "station-card:pot", "plating-guide:pot"),
        ),
        ("Contains: nuts (walnut) → nuts (almond, walnut)", "!no longer may contain"),
    ),
    "an element on the plate": (
        in_file("dishes/shin.md", '"5 o\'clock"', '"7 o\'clock"'),
        SHIN,
        ("Braised shin, note: 5 o'clock → 7 o'clock",),
    ),
    "how long it keeps": (
        in_file("components/shin-sauce.md", "keeps: 3 d", "keeps: 2 d"),
        ("batch-card:shin-sauce",),
        ("Keeps: 3 d → 2 d",),
    ),
    "another line": (
        in_file("dishes/fritters.md", "line: cold", "line: stove"),
        ("line-allergens:stove", "line-allergens:cold", "set-up-sheet:stove", *FRITTERS),
        ("moved here from the binder of Cold", "off it: Walnut fritters", "!Off Walnut"),
    ),
    "another id": (
        other_id,
        SAME,
        ("Stove 0 0 10", "!Exchange", "!What changed", "!new on it", "!Off"),
    ),
    "another name": (
        in_file("dishes/shin.md", "name: Shin, celeriac, walnut", "name: Ox shin"),
        (
            *(MATRIX, "line-allergens:stove", "set-up-sheet:stove", *SHIN, "batch-card:braised-shin"),
            *("batch-card:shin-sauce", "batch-card:celeriac-puree", "batch-card:walnut-fritter"),
        ),
        ("Name: Shin, celeriac, walnut → Ox shin", "Shin, celeriac, walnut is now called Ox shin"),
    ),
    "where it waits": (
        in_file("components/celeriac-puree.md", "in: third-pan", "in: pot-24"),
        ("set-up-sheet:stove", "batch-card:celeriac-puree"),
        ("Celeriac puree waits in: third pan → 24 L pot",),
    ),
    "another picture": (lambda house: photograph(house, 90), ("plating-guide:pot",), SAME),
    "the name of the house": (in_file("house.yaml", "Ferry Steps", "Ferry House"), SAME, SAME),
    "the day of the menu": (
        in_file("menus/late-winter.yaml", "2027-01-12", "2027-01-11"),
        (MATRIX,),
        ("the menu or its day at the head is another, the rest is the same",),
    ),
    "another list of allergens": (
        in_file("house.yaml", "honey: honey", "honey: honey, garlic: garlic"),
        (MATRIX, "line-allergens:stove", "line-allergens:cold", "line-allergens:sweet"),
        ("new columns: garlic (house)", "Not in anything on this line: now also garlic"),
    ),
}


@pytest.mark.parametrize("name", EDITS)
def test_an_edit_exchanges_the_right_sheets_and_is_told_in_words(
    name: str, issued: Path, run: Run, tmp_path: Path
) -> None:
    change, sheets, words = EDITS[name]
    house = tmp_path / "specs"
    shutil.copytree(issued, house)
    before = standing(house)
    change(house)
    done = run("bind", "specs", "--issue", "--menu", "late-winter", "--date", LATER)
    assert done.exit_code == 0, done.output
    after = standing(house)
    changed = {sheet for sheet, fingerprint in after.items() if fingerprint not in before.values()}
    assert {sheet for sheet in changed if not sheet.startswith("line-cover:")} == set(sheets)
    if words:
        text = told(tmp_path / "output/swap-sheet.pdf").replace("\xa0", " ")
        for said in words:
            assert (said.removeprefix("!") in text) != said.startswith("!"), (said, text)


def test_an_allergen_of_what_had_none_is_told_as_that_and_not_as_new_on_the_plate(
    issued: Path, run: Run, tmp_path: Path
) -> None:
    house = tmp_path / "specs"
    shutil.copytree(issued, house)
    old = "name: fine salt\n  allergens: {contains: none"
    edit(house / "pantry/dry.yaml", (old, old.replace("none", "[mustard]")))
    assert run("bind", "specs", "--issue", "--menu", "late-winter", "--date", LATER).exit_code == 0
    text = told(tmp_path / "output/swap-sheet.pdf").replace("\xa0", " ")
    assert "Walnut fritters · fine salt · mustard: not in it → contains" in text, text
    assert "new: fine salt" not in text
    assert "Shin, celeriac, walnut; Walnut fritters: now contains mustard" in text, "what changed alike is told once"
    assert "Basic brine, Braised shin, Shin sauce, Celeriac puree: now contains mustard" in text


def test_where_to_read_of_what_is_new_is_said_beside_what_changed_too(issued: Path, run: Run, tmp_path: Path) -> None:
    house = tmp_path / "specs"
    shutil.copytree(issued, house)
    old = "name: fine salt\n  allergens: {contains: none"
    edit(house / "pantry/dry.yaml", (old, old.replace("none", "[mustard]")))
    (house / "dishes/soup.md").write_text(
        (house / "dishes/shin.md").read_text(encoding="utf-8").replace("name: Shin, celeriac", "name: Soup, celeriac"),
        encoding="utf-8",
    )
    halves = "{dish: soup, share: 0.5}\n  - {dish: shin, share: 0.5"
    edit(house / "menus/late-winter.yaml", ("{dish: shin, share: 1", halves))
    assert run("bind", "specs", "--issue", "--menu", "late-winter", "--date", LATER).exit_code == 0
    text = told(tmp_path / "output/swap-sheet.pdf")
    assert "Allergens that changed: tell everyone before service" in text
    assert "What is new is on the allergen matrix: read it before service." in text


def test_a_sheet_called_by_what_it_is_is_named_once(run: Run, tmp_path: Path) -> None:
    """The demo's matrix of one menu has another number of leaves than that of the other."""
    shutil.copytree(Path(__file__).parents[2] / "specs", tmp_path / "specs")
    assert run("bind", "specs", "--issue", "--menu", "late-winter", "--date", "2027-01-12").exit_code == 0
    assert run("swap", "specs", "--menu", "early-spring", "--date", "2027-03-02").exit_code == 0
    text = told(tmp_path / "output/swap-sheet.pdf")
    row = re.search(r"Exchange (Allergen matrix.*? leaves out, \d leaves in)", text)
    assert row is not None
    assert row[1].count("Allergen matrix") == 1


def test_a_swap_sheet_for_the_wall_is_of_the_binders_as_they_stand(issued: Path, run: Run, tmp_path: Path) -> None:
    house = tmp_path / "specs"
    shutil.copytree(issued, house)
    edit(house / "dishes/shin.md", ("for 40 s", "for 50 s, hot"))
    asked = "swap", "specs", "--menu", "late-winter", "--date", LATER
    usual, wall = run(*asked), run(*asked, "--large")
    leaves = re.compile(r"^ {2}\S.*(?:pull|nothing).*$", re.MULTILINE)
    assert leaves.findall(usual.output)
    assert leaves.findall(usual.output) == leaves.findall(wall.output)
    assert (tmp_path / "output/swap-sheet-large.pdf").exists()


@pytest.mark.parametrize("reworded", [False, True], ids=["the very same", "another method"])
def test_a_dish_with_another_file_name_and_line_is_the_same_by_the_very_same_steps(
    reworded: bool, issued: Path, run: Run, tmp_path: Path
) -> None:
    house = tmp_path / "specs"
    shutil.copytree(issued, house)
    (house / "dishes/fritters.md").rename(house / "dishes/puffs.md")
    edit(house / "dishes/puffs.md", ("name: Walnut fritters", "name: Walnut puffs"), ("line: cold", "line: stove"))
    if reworded:
        edit(house / "dishes/puffs.md", ("## Pick-up\n\n1. ", "## Pick-up\n\n1. Quick, "))
    for menu in ("late-winter", "early-spring"):
        edit(house / f"menus/{menu}.yaml", ("dish: fritters", "dish: puffs"))
    assert run("bind", "specs", "--issue", "--menu", "late-winter", "--date", LATER).exit_code == 0
    text = told(tmp_path / "output/swap-sheet.pdf")
    assert ("moved here from the binder of Cold Name: Walnut fritters → Walnut puffs" in text) != reworded, text
    assert ("Off Walnut fritters New Walnut puffs" in text) == reworded, text


def test_another_language_is_no_news_of_allergens(issued: Path, run: Run, tmp_path: Path) -> None:
    house = tmp_path / "specs"
    shutil.copytree(issued, house)
    edit(house / "house.yaml", ("currency: £", "currency: £\nlanguages: [en, es]"))
    assert run("bind", "specs", "--issue", "--menu", "late-winter", "--date", LATER).exit_code == 0
    text = told(tmp_path / "output/swap-sheet.pdf")
    assert "now also in Spanish" in text
    assert "tell everyone before service" not in text
    assert "reworded" not in text


def test_paper_turned_on_both_sides_is_counted_in_leaves(issued: Path, run: Run, tmp_path: Path) -> None:
    house = tmp_path / "specs"
    shutil.copytree(issued, house)
    edit(house / "components/braised-shin.md", ("heat: 140 °C", "heat: 150 °C"))
    done = run("swap", "specs", "--menu", "late-winter", "--date", LATER)
    pages = re.search(r"Stove +pull +(\d+), put in +(\d+), leave +(\d+)", done.output)
    assert pages
    assert run("bind", "specs", "--issue", "--menu", "late-winter", "--date", LATER, "--duplex").exit_code == 0
    edit(house / "components/braised-shin.md", ("heat: 150 °C", "heat: 160 °C"))
    both = run("swap", "specs", "--menu", "late-winter", "--date", LATER, "--duplex")
    leaves = re.search(r"Stove +pull +(\d+), put in +(\d+), leave +(\d+)", both.output)
    assert leaves
    assert (pages[1], pages[2], leaves[1], leaves[2]) == ("3", "3", "2", "2"), "a card of two pages is one leaf"
