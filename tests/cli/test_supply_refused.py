"""Commands that cannot listen to what is missing say so, and a night on a closed day is warned of."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

OPTIONS = ("--without", "--on-hand")
SMALL_HOUSE = Path(__file__).parents[1] / "cases" / "small-house"


@pytest.fixture
def steps(tmp_path: Path) -> Path:
    return shutil.copytree(SMALL_HOUSE, tmp_path / "specs")


@pytest.mark.parametrize(
    ("command", "option"),
    [
        *((command, option) for command in ("yields", "check", "notes", "current 7F3A-91C2") for option in OPTIONS),
        ("swap", "--without"),
    ],
)
def test_a_command_that_cannot_use_it_refuses_it_in_words(run: Run, steps: Path, command: str, option: str) -> None:
    done = run(*command.split(), option, "walnuts")
    assert done.exit_code == 2
    assert f"takes no {option}: it " in done.stderr
    assert done.stdout == ""


@pytest.mark.parametrize("command", ["setup", "cost", "count", "tasting", "call"])
def test_what_is_left_is_refused_where_it_changes_nothing(run: Run, steps: Path, command: str) -> None:
    done = run(command, "--on-hand", "left.yaml")
    assert done.exit_code == 2
    assert f"`{command}` takes no --on-hand: what is left from before changes nothing that it prints." in done.stderr


def test_a_night_on_a_closed_day_is_warned_of_here_and_on_its_sheet(run: Run, steps: Path, tmp_path: Path) -> None:
    house = steps / "house.yaml"
    text = house.read_text(encoding="utf-8")
    assert "\nservice:" in text
    closed, open_day = _days(text)
    done = run("batch", "celeriac-puree", "--covers", "40", "--date", closed)
    assert done.exit_code == 0
    assert "Warning: the house has no service on" in done.stderr
    assert "Is the date right? The next service is on" in done.stderr
    assert "The house has no service on" in _page(tmp_path / "output" / "batch-celeriac-puree.pdf")
    done = run("batch", "celeriac-puree", "--covers", "40", "--date", open_day)
    assert "no service" not in done.stderr
    assert "no service" not in _page(tmp_path / "output" / "batch-celeriac-puree.pdf")


def _days(text: str) -> tuple[str, str]:
    """Return a day without service and one with, in March 2027; the 1st is a Monday."""
    listed = text.split("days: [")[1].split("]", maxsplit=1)[0].replace(" ", "").split(",")
    names = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
    closed = next(at for at, name in enumerate(names) if name not in listed)
    opened = next(at for at, name in enumerate(names) if name in listed)
    return f"2027-03-{8 + closed:02}", f"2027-03-{8 + opened:02}"


def _page(path: Path) -> str:
    return " ".join(PdfReader(path).pages[0].extract_text().split())
