"""What ``linebook void`` says, prints and leaves alone when an item turns out wrong in the middle of service."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

DAY = ("--date", "2027-03-06")
PRINT = re.compile(r"\b[0-9A-HJKMNP-TV-Z]{8}\b")


def words_of(path: Path) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]


def snapshot(folder: Path) -> dict[str, bytes]:
    return {path.as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_a_new_label_on_a_bought_item(run: Run, kitchen: Path, tmp_path: Path) -> None:
    before = snapshot(kitchen)
    done = run("void", "plain yogurt", "--contains", "walnut", "--house", "kitchen", *DAY)
    assert (done.exit_code, done.stderr) == (0, "")
    said = re.sub(r"yaml:\d+:\d+", "yaml:LINE", PRINT.sub("########", done.stdout))
    assert said == (
        "Read aloud at the pass:\n"
        "  From now: there is walnut in plain yogurt. Red lentils, roast carrot, mint yogurt: for tree nuts: "
        "Serve without plain yogurt.\n"
        "\n"
        "Take down, and put up the new sheet in its place:\n"
        "  Front of house  Allergen matrix                                        ######## → ########\n"
        "  Stove binder    Allergen page: Allergens, Stove                        ######## → ########\n"
        "  Stove binder    Station card: Red lentils, roast carrot, mint yogurt   ######## → ########\n"
        "  Stove binder    Plating guide: Red lentils, roast carrot, mint yogurt  ######## → ########\n"
        "\n"
        "output/void-plain-yogurt.pdf  4 sheets, 4 pages, A4\n"
        "Print on A4, one side, at 100 %; do not fit to page. Punch the binder on the left: 22 mm there are clear of "
        "print.\n"
        "The contents of the binders still name the old fingerprints: bind again after service.\n"
        "Mend the spec too, or the next print forgets it: kitchen/pantry/pantry.yaml:LINE (`plain-yogurt`)\n"
    )
    line = int(done.stdout.rpartition("pantry.yaml:")[2].partition(":")[0])
    assert "contains: [cows-milk]" in (kitchen / "pantry" / "pantry.yaml").read_text().splitlines()[line - 1]
    assert snapshot(kitchen) == before
    assert [path.name for path in (tmp_path / "output").iterdir()] == ["void-plain-yogurt.pdf"]


def test_each_new_sheet_names_the_one_that_bind_has_printed(run: Run, kitchen: Path, tmp_path: Path) -> None:
    assert run("bind", "kitchen", *DAY).exit_code == 0
    done = run("void", "plain-yogurt", "--contains", "walnut", "--says", "spill", "--house", "kitchen", *DAY)
    printed = " ".join(
        words for name in ("stove-binder", "allergen-matrix") for words in words_of(tmp_path / f"output/{name}.pdf")
    )
    pairs = re.findall(rf"({PRINT.pattern}) → ({PRINT.pattern})", done.stdout)
    assert len(pairs) == 4
    pages = words_of(tmp_path / "output" / "void-plain-yogurt.pdf")
    for old, new in pairs:
        assert old in printed
        assert new not in printed
        own = [page for page in pages if new in page]
        assert own
        assert all(f"replaces {old}" in page for page in own), "in the foot of every page"
        assert f"Replaces {old}: take that sheet down" in own[0]
        assert "Why: there is walnut in plain yogurt (spill). " in own[0]
        assert "Since (time)" in own[0]
        assert "put up by" in own[0]
    assert "From now: there is walnut in plain yogurt." in pages[0]
    assert "From now" not in " ".join(pages[1:])


def test_what_says_the_same_is_left_where_it_hangs(run: Run, demo: Path) -> None:
    del demo
    done = run("void", "walnut-crumb", "--contains", "sesame", *DAY)
    assert done.exit_code == 0, done.stderr
    sheets = re.findall(r"^  (\S.*?)  +(\S.*?)  +\S{8} → ", done.stdout, re.M)
    assert ("Hearth binder", "Batch card: Walnut crumb") in sheets
    assert ("Front of house", "Allergen matrix") in sheets
    assert {place for place, _ in sheets} == {"Front of house", "Hearth binder"}
    assert not any("Leeks" in sheet for _, sheet in sheets)


def test_a_fryer_that_nobody_knows(run: Run, demo: Path) -> None:
    del demo
    done = run("void", "shared fryer", "--undeclared", *DAY)
    assert done.stdout.splitlines()[1] == (
        "  From now: nobody knows what is in this: shared fryer. Off for any allergy until the chef knows more: "
        "Leeks in ash, almond; Short rib, celeriac, pickled walnut."
    )
    assert "specs/house.yaml:" in done.stdout


def test_two_languages(run: Run, demo: Path, tmp_path: Path) -> None:
    del demo
    done = run("void", "walnut-crumb", "--contains", "sesame", "--languages", "en,es", *DAY)
    assert done.exit_code == 0, done.stderr
    assert "Desde ahora: hay sésamo en" in done.stdout
    first = words_of(tmp_path / "output" / "void-walnut-crumb.pdf")[0]
    assert "Sustituye a" in first
    assert "Por qué: hay sésamo" in first


def test_what_changes_nothing_is_said_and_nothing_is_printed(run: Run, kitchen: Path, tmp_path: Path) -> None:
    """The house's yogurt has had cow's milk in it from the start."""
    del kitchen
    done = run("void", "plain-yogurt", "--contains", "cows-milk", "--house", "kitchen", *DAY)
    assert done.exit_code == 0, done.stderr
    assert "No dish of this menu changes for anybody." in done.stdout
    assert "No sheet says anything else: nothing to print." in done.stdout
    assert "Mend the spec too" in done.stdout
    assert not (tmp_path / "output").exists()


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (
            ("plain-yogrt", "--contains", "walnut"),
            "Error: There is no item `plain-yogrt` in this house. Did you mean `plain-yogurt`?\n",
        ),
        (
            ("plain-yogurt", "--contains", "wallnut"),
            "Error: There is no substance `wallnut` in this house. Did you mean `walnut`?\n",
        ),
        (
            ("plain-yogurt",),
            "Error: Say what is wrong: --contains SUBSTANCE, --may-contain SUBSTANCE, or --undeclared alone.\n",
        ),
        (
            ("plain-yogurt", "--undeclared", "--contains", "walnut"),
            "Error: Say what is wrong: --contains SUBSTANCE, --may-contain SUBSTANCE, or --undeclared alone.\n",
        ),
    ],
)
def test_an_unknown_word_stops_it(run: Run, kitchen: Path, tmp_path: Path, given: tuple[str, ...], words: str) -> None:
    del kitchen
    done = run("void", *given, "--house", "kitchen", *DAY)
    assert done.exit_code == 2
    assert done.stdout == ""
    assert done.stderr.endswith(words)
    assert not (tmp_path / "output").exists()


def test_the_same_void_gives_the_same_bytes(run: Run, kitchen: Path, tmp_path: Path) -> None:
    del kitchen
    found = []
    for folder in ("one", "two"):
        assert run("void", "mint", "--may-contain", "milk", "--house", "kitchen", "-o", folder, *DAY).exit_code == 0
        found.append((tmp_path / folder / "void-mint.pdf").read_bytes())
    assert found[0] == found[1]
