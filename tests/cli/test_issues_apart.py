"""Two people issue on branches of their own, and git merges them: what differs is told to be open until one issue settles it."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pypdfium2
import pytest
from running import Run
from swap_house import SPRING, edit, swap_house
from swapped_binders import printed_sheets, swap_rows

LATER, NEXT, AFTER = "2027-03-09", "2027-03-10", "2027-03-11"

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="git merges here")


def git(folder: Path, *words: str) -> None:
    named = ("-c", "user.name=Cook", "-c", "user.email=cook@kitchen.invalid", "-c", "commit.gpgsign=false")
    subprocess.run(["git", *named, *words], cwd=folder, check=True, capture_output=True)


def issue(run: Run, day: str) -> str:
    done = run("bind", "specs", "--date", day, "--issue", "--only-changed")
    assert done.exit_code == 0, done.output
    return done.output


def fingerprints(house: Path, sheet: str) -> set[str]:
    texts = [path.read_text(encoding="utf-8") for path in (house / "issued").glob("*.txt")]
    return {mark for text in texts for mark in re.findall(rf"^([0-9A-Z]{{8}}).* {sheet} ", text, re.MULTILINE)}


@pytest.fixture(params=[LATER, NEXT], ids=["one-day", "two-days"])
def merged(run: Run, tmp_path: Path, request: pytest.FixtureRequest) -> Path:
    """A house whose left branch issued another dish of the cold line, its right one another shin, merged by git."""
    return branched(run, tmp_path, request.param)


def branched(run: Run, tmp_path: Path, right: str) -> Path:
    house = swap_house(tmp_path / "specs")
    git(tmp_path, "init", "-q", "-b", "main")
    issue(run, SPRING)
    git(tmp_path, "add", "specs")
    git(tmp_path, "commit", "-q", "-m", "first")
    for branch, day, dish, old, new in (
        ("left", LATER, "fritters", "Fry, drain", "Fry well, drain"),
        ("right", right, "shin", "Glaze", "Brush"),
    ):
        git(tmp_path, "checkout", "-q", "-b", branch, "main")
        edit(house / f"dishes/{dish}.md", (old, new))
        issue(run, day)
        shutil.copytree(tmp_path / "output", tmp_path / branch)
        git(tmp_path, "add", "specs")
        git(tmp_path, "commit", "-q", "-m", branch)
    git(tmp_path, "merge", "-q", "-m", "both", "left")
    return house


def test_what_differs_is_open_until_one_issue_settles_it(run: Run, merged: Path) -> None:
    assert len(list((merged / "issued").glob("*.txt"))) == 3
    shins, brines = fingerprints(merged, "station-card:shin"), fingerprints(merged, "batch-card:brine")
    assert (len(shins), len(brines)) == (2, 1)
    for mark in shins:
        asked = run("current", mark, "--date", AFTER)
        assert (asked.exit_code, asked.stdout) == (
            2,
            f"Unknown: two issues made apart differ in {mark}: one put it in, the other did not.\n",
        )
        assert re.match(r"warning LB909 issues of 2027-03-09 (and 2027-03-10 )?were made apart", asked.stderr)
    assert run("current", *brines, "--date", AFTER).exit_code == 0, "both have it"
    assert run("current", *brines, "--date", SPRING).stderr == "", "then there was one issue"
    issue(run, AFTER)
    codes = sorted(run("current", mark, "--date", AFTER).exit_code for mark in shins)
    assert codes == [0, 1]


def test_the_swap_sheet_that_settles_it_is_right_for_either_binder(run: Run, merged: Path, tmp_path: Path) -> None:
    issue(run, AFTER)
    is_right_for(run, tmp_path, "left", "right")


def is_right_for(run: Run, tmp_path: Path, *folders: str) -> None:
    """What is not printed for the issue of ``AFTER`` stands in these binders, and what they hold besides is told out."""
    assert run("bind", "specs", "--date", AFTER, "-o", "fresh", "--no-cache").exit_code == 0
    document = pypdfium2.PdfDocument(tmp_path / "output/swap-sheet.pdf")
    pages = [re.sub(r"\s+", " ", page.get_textpage().get_text_range()) for page in document]
    told = ["go by the names" in page for page in pages if re.search("(Cold|Stove): swap", page)]
    assert any(told), "where issues differ in a binder"
    assert "go by the names" not in pages[0], "in front of house they do not"
    rows = swap_rows(tmp_path / "output/swap-sheet.pdf")
    for line, name in (("cold", "Cold: swap"), ("stove", "Stove: swap")):
        pile = printed_sheets(tmp_path / f"output/{line}-binder-changed.pdf")
        stays = [sheet for sheet in printed_sheets(tmp_path / f"fresh/{line}-binder.pdf") if sheet not in pile]
        told = [row for row in rows[name] if row.act in ("Exchange", "Pull")]
        assert stays
        for folder in folders:
            old = printed_sheets(tmp_path / f"{folder}/{line}-binder.pdf")
            assert [sheet for sheet in old if sheet in stays] == stays, (folder, line)
            assert len(old) - len(stays) == len(told) == len(pile), "a sheet for each that comes out"


def test_what_was_issued_ahead_is_to_be_issued_again_after_a_correction(run: Run, tmp_path: Path) -> None:
    """The later day's swap sheet began with what stood before the correction, and would leave a stale card."""
    house = swap_house(tmp_path / "specs")
    issue(run, SPRING)
    edit(house / "dishes/fritters.md", ("Fry, drain", "Fry well, drain"))
    issue(run, AFTER)
    shutil.copytree(tmp_path / "output", tmp_path / "ahead")
    edit(house / "dishes/shin.md", ("Glaze", "Brush"))
    edit(house / "dishes/fritters.md", ("Fry well, drain", "Fry, drain"))
    again = f"linebook bind --issue --only-changed --menu early-spring --date {AFTER}"
    assert f"issued for {AFTER} without this: issue it again with:\n  {again}\n" in issue(run, LATER)
    shutil.copytree(tmp_path / "output", tmp_path / "stands")
    edit(house / "dishes/fritters.md", ("Fry, drain", "Fry well, drain"))
    assert "issue it again" not in issue(run, AFTER)
    is_right_for(run, tmp_path, "ahead", "stands")
    assert run("swap", "specs", "--date", AFTER).stderr == "", "whoever issued the correction knew of it"


def test_an_issue_settles_it_where_nothing_else_changed(run: Run, merged: Path) -> None:
    """The specs are put back as one of the two had them: then nothing differs from what stands, and yet it is open."""
    last = sorted((merged / "issued").glob(f"{LATER}-*.txt"))[-1].read_text(encoding="utf-8")
    for dish, old, new in (("fritters", "Fry well, drain", "Fry, drain"), ("shin", "Brush", "Glaze")):
        path = merged / f"dishes/{dish}.md"
        both = path.read_text(encoding="utf-8"), path.read_text(encoding="utf-8").replace(old, new)
        path.write_text(both[0], encoding="utf-8")
        if not run_says(run, last, dish):
            path.write_text(both[1], encoding="utf-8")
    assert "sheets on record" in issue(run, AFTER)
    assert run("swap", "specs", "--date", AFTER).stderr == ""


def run_says(run: Run, issued: str, dish: str) -> bool:
    """Return whether a dish would be issued as it stands in the text of an issue."""
    done = run("bind", "specs", "--date", AFTER, "-o", "looked-at", "--no-cache")
    assert done.exit_code == 0, done.output
    line = {"fritters": "cold", "shin": "stove"}[dish]
    document = pypdfium2.PdfDocument(Path("looked-at") / f"{line}-binder.pdf")
    labels = {document.get_page_label(at).partition("-")[0] for at in range(len(document))}
    (mark,) = re.findall(rf"^([0-9A-Z]{{8}}).* station-card:{dish} ", issued, re.MULTILINE)
    return mark in labels
