"""Houses whose menu changes for good: the printed swap sheet alone turns the old binders into the new, in two languages too.

The second house changes more at once than any should: lines, orders, names and files.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pypdfium2
import pytest
from running import Run
from swap_house import REPOSITORY, edit
from swapped_binders import follow, printed_sheets, swap_rows

HOUSES = REPOSITORY / "tests/houses"


def issue(run: Run, day: str, folder: str, *more: str) -> None:
    done = run("bind", "specs", "--date", day, "--issue", "--only-changed", "-o", folder, *more)
    assert done.exit_code == 0, done.output


def is_turned(run: Run, tmp_path: Path, lines: dict[str, str], day: str, *more: str) -> None:
    """Follow the swap sheet of ``new`` with the pages of ``old``; the result is a fresh bind of ``day``."""
    assert run("bind", "specs", "--date", day, "-o", "fresh", "--no-cache", *more).exit_code == 0
    rows = swap_rows(tmp_path / "new/swap-sheet.pdf")
    for line, name in lines.items():
        stem = f"{line}-binder" if line else "allergen-matrix"
        old, new = (tmp_path / f"old/{stem}.pdf", tmp_path / f"new/{stem}-changed.pdf")
        made = follow(rows[f"{name}: swap" if line else "Swap sheet"], printed_sheets(old), printed_sheets(new))
        assert made == printed_sheets(tmp_path / f"fresh/{stem}.pdf"), line
        assert made


def text_of(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    pages = [document[at].get_textpage().get_text_range() for at in range(len(document))]
    return re.sub(r"\s+", " ", " ".join(pages))


def test_a_house_of_two_languages_printed_on_both_sides(run: Run, tmp_path: Path) -> None:
    shutil.copytree(HOUSES / "kiln-corner", tmp_path / "specs")
    issue(run, "2027-10-08", "old")
    issue(run, "2027-11-26", "new")
    is_turned(run, tmp_path, {"grill": "Grill", "cold": "Cold", "": ""}, "2027-11-27")


NOVEMBER = """\
name: November
first: 2027-10-21
covers: {thu: 30, fri: 70, sat: 80}
courses:
  - {course: last, name: Last, portions_a_cover: 0.5}
  - {course: main, name: Main, portions_a_cover: 0.7}
  - {course: first, name: First, portions_a_cover: 0.8}
dishes:
  - {dish: set-cream-glass, share: 0.5, at_least: 2}
  - {dish: belly-plate, share: 0.4}
  - {dish: root-plate, share: 0.3}
  - {dish: pressed-hock, share: 0.3}
  - {dish: trout-plate, share: 0.5, spare: 10 %}
"""


def turn_over(house: Path) -> None:
    """Another order of courses, a dish off and one on, one under another name and file, a new line, two cards moved."""
    (house / "menus/november.yaml").write_text(NOVEMBER, encoding="utf-8")
    hot = "  hot: {name: Hot, cooks: 2, set_up: 16:00}\n"
    edit(house / "house.yaml", (hot, f"{hot}  roots: {{name: Roots, cooks: 1, set_up: 16:00}}\n"))
    shutil.copy(house / "dishes/hash-plate.md", house / "dishes/root-plate.md")
    named = ("Belly hash", "Celeriac, horseradish"), ("line: hot", "line: roots"), ("Hash in", "Purée in")
    edit(house / "dishes/root-plate.md", *named, ("belly-hash, amount: 140 g", "celeriac-puree, amount: 140 g"))
    (house / "dishes/terrine-plate.md").rename(house / "dishes/pressed-hock.md")
    edit(
        house / "dishes/pressed-hock.md", ("name: Pressed hock", "name: Hock, pickle"), ("cut side up", "cut side down")
    )
    edit(house / "menus/october.yaml", ("dish: terrine-plate", "dish: pressed-hock"))
    edit(house / "components/celeriac-puree.md", ("line: hot", "line: roots"))
    edit(house / "components/rye-cracker.md", ("line: cold", "line: hot"))


def test_a_house_in_which_everything_moves(run: Run, tmp_path: Path) -> None:
    shutil.copytree(HOUSES / "teasel-quay", tmp_path / "specs")
    issue(run, "2027-10-08", "old", "--duplex")
    turn_over(tmp_path / "specs")
    alone = run("bind", "specs", "--date", "2027-10-22", "--only-changed", "--duplex", "-o", "alone")
    assert alone.exit_code == 0, alone.output
    assert "roots-binder-changed.pdf" in alone.output, "the binder of a new line is to be printed too"
    issue(run, "2027-10-22", "new", "--duplex")
    is_turned(run, tmp_path, {"cold": "Cold", "hot": "Hot", "roots": "Roots", "": ""}, "2027-10-23", "--duplex")
    acts = [row.act for row in swap_rows(tmp_path / "new/swap-sheet.pdf")["Cold: swap"]]
    assert "Bring forward" in acts, "what goes to a place further in front is not put back before it is taken out"
    said = text_of(tmp_path / "new/swap-sheet.pdf")
    for words in (
        "Off Belly hash New Celeriac, horseradish",
        "Name: Pressed hock → Hock, pickle",
        "Pick-up step 2 reworded: up → down",
    ):
        assert words in said, words


GREEN = "components/green-sauce.md"
SPANISH = {
    "an allergen": (
        [("pantry/dry.yaml", "name: capers\n  allergens: {contains: none", "name: capers\n  allergens: {contains: [sesame]")],
        ("Salsa verde: ahora contiene granos de sésamo", "granos de sésamo: puede contener → contiene"),
    ),
    "an amount": ([(GREEN, "capers, amount: 120 g", "capers, amount: 100 g")], ("alcaparras 120 g → 100 g",)),
    "a name": ([("dishes/beet-curd.md", "Beetroot, curd, hazelnut", "Beets")], ("Beetroot, curd, hazelnut is now called Beets",)),
    "a step that has its own words": (
        [(GREEN, "stir in", "beat in"), ("components/green-sauce.es.md", "ligar con", "batir con")],
        ("reworded: stir → beat", "ligar → batir"),
    ),
    "a step that is not written again": ([(GREEN, "stir in", "beat in")], ("reworded: stir → beat", "stir → beat")),
    "a name that has its own words": (
        [("dishes/lamb-breast-grill.md", "Lamb breast, green", "Lamb, green"), ("dishes/lamb-breast-grill.es.md", "Pecho de cordero,", "Cordero,")],
        ("Name: Lamb breast, green sauce → Lamb, green sauce Nombre: Pecho de cordero, salsa verde → Cordero, salsa verde",),
    ),
    "where it waits": ([(GREEN, "in: half-pan", "in: tray")], ("Guardar: media → bandeja",)),
    "how much a portion carries": (
        [("dishes/rice-plum.md", "rice-milk, amount: 150 g", "rice-milk, amount: 160 g")],
        ("suficiente para 26 raciones de 150 g → suficiente para 25 raciones de 160 g", "Arroz con leche 150 g → 160 g"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", SPANISH)
def test_a_change_is_told_in_the_second_language_with_its_words_there(run: Run, tmp_path: Path, name: str) -> None:
    shutil.copytree(HOUSES / "kiln-corner", tmp_path / "specs")
    issue(run, "2027-10-08", "old")
    edits, words = SPANISH[name]
    for path, old, new in edits:
        edit(tmp_path / "specs" / path, (old, new))
    issue(run, "2027-10-15", "new")
    said = text_of(tmp_path / "new/swap-sheet.pdf").replace("\xa0", " ")
    for one in words:
        assert one in said, said
    assert not re.search(r"(contiene|también|fuera:|nuevo:) (sesame|capers|Green)", said)
    assert "no longer Beetroot" not in said, "a name with commas is no list"
