"""`linebook call` and `linebook lineup`: what they print, say and refuse."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

DEMO = Path(__file__).parents[2] / "specs"
DAY = ("--date", "2027-03-06")


@pytest.fixture
def weir(tmp_path: Path) -> Path:
    return shutil.copytree(DEMO, tmp_path / "specs")


def words_of(path: Path) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(path).pages)


def test_a_menu_is_told_and_printed(run: Run, weir: Path) -> None:
    done = run("call", *DAY)
    assert done.exit_code == 0
    assert done.stdout.startswith("House loaf, cultured butter, 2 min\n     -2  Pastry  cut two slices a guest and set")
    assert "  -0:30  Larder  grate the horseradish at the pass\n" in done.stdout
    assert "output/call-early-spring.pdf  1 sheet, " in done.stdout
    printed = words_of(weir.parent / "output" / "call-early-spring.pdf")
    assert "Hake, mussels, cider, 10 min −10 Stove hake skin down" in printed
    assert "issued 6 March 2027" in printed


def test_dishes_called_together_are_a_table_in_order_of_start(run: Run, weir: Path) -> None:
    done = run("call", "short-rib-celeriac=2", "hake-mussels=3", *DAY)
    assert done.exit_code == 0
    told = done.stdout.split("\n\n")[0].split("\n")
    assert told == [
        "    -10  Stove   3 × Hake: hake skin down, baste it, then the oven, rest 1 min",
        "     -9  Hearth  2 × Short rib: probe the rib, heat it if cold, glaze it, rest 2",
        "                 min",
        "     -4  Hearth  2 × Short rib: plate to the hot shelf, stir the purée hot",
        "     -3  Stove   3 × Hake: potatoes in a ladle of their water, rest 1 min",
        "     -1  Stove   3 × Hake: warm the mussels in the sauce, froth it",
        "  -0:45  Hearth  2 × Short rib: pour the jus at the pass",
    ]
    assert "for this table only" in words_of(weir.parent / "output" / "call-set.pdf")


def test_a_folder_named_first_is_the_house_and_a_line_has_its_own_sheet(run: Run, weir: Path) -> None:
    done = run("call", str(weir), "--line", "hearth", *DAY)
    assert done.exit_code == 0
    assert {line.split()[1] for line in done.stdout.split("\n\n")[0].split("\n") if line.startswith("  -")} == {
        "Hearth"
    }
    assert "output/call-hearth-early-spring.pdf" in done.stdout
    done = run("call", str(weir), "hake-mussels", "--line", "hearth", *DAY)
    assert (done.exit_code, done.stderr) == (1, "The line `hearth` starts nothing for the dishes called.\n")


def test_the_terminal_speaks_the_language_printed(run: Run, weir: Path) -> None:
    done = run("call", "leeks-almond=2", "--languages", "es", *DAY)
    told = " ".join(done.stdout.split())
    assert "-6 Fuego 2 × Puerros en ceniza: calentar una sartén seca y templar los puerros, reposo 2 min" in told


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("hake-musels",), "There is no dish `hake-musels` in this house. Did you mean `hake-mussels`?"),
        (("no-such-thing-at-all",), "There is no dish `no-such-thing-at-all` in this house. It has: house-bread, "),
        (("duck-leg-lentils",), "`duck-leg-lentils` is not on the menu `early spring`: name the menu it is on"),
        (("hake-mussels=0",), "`0` is not a number of portions of `hake-mussels`: write a whole number from 1 to 500."),
        (("hake-mussels=501",), "`501` is not a number of portions"),
        (("hake-mussels=99999999999999999999",), "is not a number of portions of `hake-mussels`"),
        (("hake-mussels=2.5",), "`2.5` is not a number of portions"),
        (("hake-mussels=",), "`` is not a number of portions"),
        (("hake-mussels=²",), "`²` is not a number of portions"),
        (("hake-mussels", "hake-mussels=2"), "`hake-mussels` is named twice: say once how many"),
        (("--line", "harth"), "There is no line `harth` in this house. Did you mean `hearth`?"),
        (("--menu", "early-sprig"), "There is no menu `early-sprig` in this house. Did you mean `early-spring`?"),
    ],
)
def test_what_is_no_dish_or_no_number_is_refused(run: Run, weir: Path, words: tuple[str, ...], said: str) -> None:
    done = run("call", *words, *DAY)
    assert done.exit_code == 2
    assert said in " ".join(done.stderr.split())
    assert not (weir.parent / "output").exists()


def test_dishes_without_any_time_are_told(run: Run, weir: Path) -> None:
    cake = weir / "dishes" / "honey-cake.md"
    kept = [
        line for line in cake.read_text("utf-8").split("\n") if not line.startswith(("call:", "pick_up:", "  - {do"))
    ]
    cake.write_text("\n".join(kept), "utf-8")
    words = weir / "words.es.yaml"
    text = [line for line in words.read_text("utf-8").split("\n") if "cut face out" not in line]
    words.write_text("\n".join(text), "utf-8")
    done = run("call", "honey-cake=4", *DAY)
    assert done.exit_code == 1
    assert "No dish called has a `call` or a `pick_up`, so nothing can be timed." in done.stderr
    done = run("call", "honey-cake=4", "house-bread", *DAY)
    assert done.exit_code == 0
    assert "No time from call to pass in the spec of Honey cake: ask the line." in done.stdout.replace("\n", " ")


def test_a_line_up_sheet_is_for_one_day(run: Run, weir: Path) -> None:
    done = run("lineup", *DAY)
    assert done.exit_code == 0
    assert "output/line-up-2027-03-06.pdf  1 sheet, 3 pages, A4" in done.stdout
    printed = words_of(weir.parent / "output" / "line-up-2027-03-06.pdf")
    assert "Line-up, Sat 6 March" in printed
    assert "printed for 6 March 2027" in printed
    assert "Contains: fish (hake), milk (cow's milk), sulphur dioxide and sulphites, molluscs (mussel)" in printed


def test_what_is_missing_tonight_changes_the_line_up_sheet(run: Run, weir: Path) -> None:
    done = run("lineup", "--without", "rock-oyster", *DAY)
    assert done.exit_code == 0
    printed = words_of(weir.parent / "output" / "line-up-2027-03-06.pdf")
    assert "Oysters, cucumber ice 6 min" not in printed
    assert "Tonight without" in printed


def test_two_runs_print_the_same_bytes(run: Run, weir: Path) -> None:
    found = []
    for _ in range(2):
        run("call", "potato-dumplings=9", "hake-mussels=5", *DAY)
        run("lineup", *DAY)
        folder = weir.parent / "output"
        found.append([(folder / name).read_bytes() for name in ("call-set.pdf", "line-up-2027-03-06.pdf")])
    assert found[0] == found[1]
