"""Ids that change between two issues stand on no page: nothing is pulled for them, and the register follows them."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest
from running import Run
from swap_house import LATER, WINTER, edit, swap_house


@pytest.fixture
def issued(run: Run, tmp_path: Path) -> Path:
    """The small house after the issue of its first menu."""
    house = swap_house(tmp_path / "specs")
    assert run("bind", "specs", "--issue", "--menu", "late-winter", "--date", WINTER).exit_code == 0
    return house


def sheets(house: Path, day: str) -> dict[str, str]:
    """Return the fingerprints of the issue of a day, by line and sheet."""
    (path,) = (house / "issued").glob(f"{day}-*.txt")
    rows = re.findall(r"^([0-9A-Z]{8}) +\d+ +(\S+) +(\S+)", path.read_text(encoding="utf-8"), re.MULTILINE)
    return {f"{line} {sheet}": fingerprint for fingerprint, line, sheet in rows}


def again(run: Run, *more: str) -> str:
    done = run("bind", "specs", "--issue", "--menu", "late-winter", "--date", LATER, *more)
    assert done.exit_code == 0, done.output
    return done.output


def text_of(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    return re.sub(r"\s+", " ", " ".join(document[at].get_textpage().get_text_range() for at in range(len(document))))


def under_other_ids(house: Path) -> None:
    """Give a dish, a component and a line other ids."""
    (house / "dishes/shin.md").rename(house / "dishes/ox-shin.md")
    (house / "components/shin-sauce.md").rename(house / "components/sauce.md")
    for path in [*house.glob("*/*.md"), *house.glob("menus/*.yaml"), house / "house.yaml"]:
        text = path.read_text(encoding="utf-8").replace("dish: shin", "dish: ox-shin")
        text = re.sub(r"\bshin-sauce\b", "sauce", text)
        path.write_text(
            re.sub(r"^(line: |  )stove(?=$|: \{name: Stove)", r"\1range", text, flags=re.M), encoding="utf-8"
        )


def test_the_register_follows_ids_and_no_sheet_is_exchanged(run: Run, issued: Path, tmp_path: Path) -> None:
    before = sheets(issued, WINTER)
    under_other_ids(issued)
    said = again(run)
    assert re.search(r"Stove +nothing to do", said), said
    assert "pull" not in said
    after = sheets(issued, LATER)
    assert {"range station-card:ox-shin", "range batch-card:sauce"} <= set(after)
    assert sorted(after.values()) == sorted(before.values())
    assert not any(name.startswith("stove ") for name in after)
    for fingerprint in before.values():
        done = run("current", fingerprint, "--date", LATER)
        assert (done.exit_code, done.output.count("\n")) == (0, 1), done.output
    assert not (tmp_path / "output/stove-binder.pdf").exists()
    assert (tmp_path / "output/range-binder.pdf").exists()


def test_what_changes_with_its_id_is_told_by_its_name(run: Run, issued: Path, tmp_path: Path) -> None:
    old = sheets(issued, WINTER)["stove station-card:shin"]
    under_other_ids(issued)
    edit(issued / "dishes/ox-shin.md", ("amount: 70 g", "amount: 65 g"))
    assert re.search(r"Stove +pull +\d+, put in +\d+, leave +[1-9]", again(run))
    text = text_of(tmp_path / "output/swap-sheet.pdf").replace("\xa0", " ")
    assert "Celeriac puree 70 g → 65 g" in text
    assert not re.search(r"(?:new|out): Celeriac|new on it|off it|moved here", text), text
    new = sheets(issued, LATER)["range station-card:ox-shin"]
    assert run("current", old, "--date", LATER).output.endswith(f"replaced on {LATER} by {new}.\n")


def test_other_looks_exchange_nothing_and_are_told_once(run: Run, issued: Path, tmp_path: Path) -> None:
    edit(issued / "house.yaml", ("currency: £", "currency: £\ntheme: towpath"))
    assert "pull" not in again(run)
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    assert text.count("The sheets look otherwise now") == 1
    assert run("bind", "specs", "--issue", "--date", "2027-03-10", "--menu", "late-winter").exit_code == 0
    assert len(list((issued / "issued").glob("*.txt"))) == 2, "the same looks again are no news"


def test_a_line_that_moves_takes_its_sheets_along(run: Run, issued: Path) -> None:
    old = sheets(issued, WINTER)["cold station-card:fritters"]
    edit(issued / "dishes/fritters.md", ("line: cold", "line: stove"))
    again(run)
    new = sheets(issued, LATER)["stove station-card:fritters"]
    assert run("current", old, "--date", LATER).output.endswith(f"replaced on {LATER} by {new}.\n")


def test_a_dish_of_another_name_and_file_replaces_the_one_it_was(run: Run, issued: Path) -> None:
    """Neither its id nor its name tells what it was: what it is made up of does."""
    before = sheets(issued, WINTER)
    (issued / "dishes/shin.md").rename(issued / "dishes/ox.md")
    edit(issued / "dishes/ox.md", ("name: Shin, celeriac, walnut", "name: Ox shin"))
    for menu in ("late-winter", "early-spring"):
        edit(issued / f"menus/{menu}.yaml", ("dish: shin", "dish: ox"))
    again(run)
    after = sheets(issued, LATER)
    for document in ("station-card", "plating-guide"):
        said = run("current", before[f"stove {document}:shin"], "--date", LATER).output
        assert said.endswith(f"replaced on {LATER} by {after[f'stove {document}:ox']}.\n"), said


def test_a_line_that_is_no_more_is_told_by_the_name_it_had(run: Run, issued: Path, tmp_path: Path) -> None:
    edit(issued / "house.yaml", ("sweet: {name: Sweet}", "pastry: {name: Pastry}"))
    for path in ("dishes/pot.md", "components/lemon-pot.md"):
        edit(issued / path, ("line: sweet", "line: pastry"))
    assert re.search(r"Sweet +pull the whole binder", again(run))
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "Sweet: swap" in text
    assert "moved here from the binder of Sweet" in text
