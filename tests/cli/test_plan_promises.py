"""What a plan may not pass over: hours nobody has said, a label that is not there, a dish that has fallen, a life anew."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

DEMO = Path(__file__).parents[2] / "specs"
STAFFED = "  staffed: 09:00 to 23:30\n"


@pytest.fixture
def weir(tmp_path: Path) -> Path:
    return shutil.copytree(DEMO, tmp_path / "specs")


def words_of(path: Path) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(path).pages)


@pytest.mark.parametrize("command", [("plan", "--from", "2027-03-09"), ("labels", "--date", "2027-03-09")])
def test_without_staffed_hours_nothing_is_planned(run: Run, weir: Path, command: tuple[str, ...]) -> None:
    house = weir / "house.yaml"
    house.write_text(house.read_text().replace(STAFFED, ""))
    done = run(*command)
    assert done.exit_code == 1
    assert done.stderr.startswith("error LB107 ")
    assert "add `staffed: 09:00 to 23:30` to `service:`" in done.stderr
    assert not (weir.parent / "output").exists()


def test_a_sheet_has_no_label_after_its_last(run: Run, weir: Path) -> None:
    done = run("labels", "--date", "2027-03-09", "--start", "25")
    assert (done.exit_code, "it has 24" in done.stderr) == (2, True)
    assert not (weir.parent / "output").exists()


def test_a_dish_that_has_fallen_is_not_called(run: Run, weir: Path) -> None:
    done = run("call", "--date", "2027-03-06", "--without", "hake-fillet")
    assert done.exit_code == 0
    assert "Hake" not in done.stdout
    assert "Hake, mussels, cider" in done.stderr


def test_a_life_that_counts_anew_is_said_so_on_the_card(run: Run, weir: Path) -> None:
    done = run("batch", "cured-trout", "--times", "1", "--date", "2027-03-09", "-o", "card.pdf")
    assert done.exit_code == 0
    assert "counted anew from Cure, as your food-safety plan allows" in words_of(weir.parent / "card.pdf")
