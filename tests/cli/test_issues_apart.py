"""Two people issue on branches of their own, and git merges them: what differs is told to be open until one issue settles it."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from running import Run
from swap_house import SPRING, edit, swap_house

LATER, AFTER = "2027-03-09", "2027-03-10"

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


@pytest.fixture
def merged(run: Run, tmp_path: Path) -> Path:
    """A house whose left branch issued another dish of the cold line, its right one another shin, merged by git."""
    house = swap_house(tmp_path / "specs")
    git(tmp_path, "init", "-q", "-b", "main")
    issue(run, SPRING)
    git(tmp_path, "add", "specs")
    git(tmp_path, "commit", "-q", "-m", "first")
    for branch, dish, old, new in (
        ("left", "fritters", "Fry, drain", "Fry well, drain"),
        ("right", "shin", "Glaze", "Brush"),
    ):
        git(tmp_path, "checkout", "-q", "-b", branch, "main")
        edit(house / f"dishes/{dish}.md", (old, new))
        issue(run, LATER)
        git(tmp_path, "add", "specs")
        git(tmp_path, "commit", "-q", "-m", branch)
    git(tmp_path, "merge", "-q", "-m", "both", "left")
    return house


def test_what_differs_is_open_until_one_issue_settles_it(run: Run, merged: Path) -> None:
    assert len(list((merged / "issued").glob(f"{LATER}-*.txt"))) == 2
    shins, brines = fingerprints(merged, "station-card:shin"), fingerprints(merged, "batch-card:brine")
    assert (len(shins), len(brines)) == (2, 1)
    for mark in shins:
        asked = run("current", mark, "--date", AFTER)
        assert (asked.exit_code, asked.stdout) == (
            2,
            f"Unknown: two issues made apart differ in {mark}: one put it in, the other did not.\n",
        )
        assert asked.stderr.startswith("warning LB909 issues of 2027-03-09 were made apart")
    assert run("current", *brines, "--date", AFTER).exit_code == 0, "both have it"
    assert run("current", *brines, "--date", SPRING).stderr == "", "then there was one issue"
    issue(run, AFTER)
    codes = sorted(run("current", mark, "--date", AFTER).exit_code for mark in shins)
    assert codes == [0, 1]


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
    import pypdfium2

    line = {"fritters": "cold", "shin": "stove"}[dish]
    document = pypdfium2.PdfDocument(Path("looked-at") / f"{line}-binder.pdf")
    labels = {document.get_page_label(at).partition("-")[0] for at in range(len(document))}
    (mark,) = re.findall(rf"^([0-9A-Z]{{8}}).* station-card:{dish} ", issued, re.MULTILINE)
    return mark in labels
