"""``linebook screen`` as typed: what it makes, what it says, and what it leaves alone."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from running import Run

SAID = """\
output/screen  9 pages to read on a screen

Open     output/screen/index.html first, in any browser
Copy     the whole folder to a phone or a tablet: it needs no network
"""
MADE = [
    "allergen-matrix.html",
    "batch-card-roast-carrots.html",
    "batch-card-stewed-lentils.html",
    "index.html",
    "line-allergens-stove.html",
    "line-cover-stove.html",
    "linebook-files.txt",
    "plating-guide-lentil-bowl.html",
    "set-up-sheet-stove.html",
    "station-card-lentil-bowl.html",
]


def _names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_it_says_what_was_made_where_and_what_to_open(run: Run, kitchen: Path, tmp_path: Path) -> None:
    done = run("screen", "kitchen", "--date", "2027-03-02")
    assert (done.exit_code, done.stdout, done.stderr) == (0, SAID, "")
    assert _names(tmp_path / "output" / "screen") == MADE
    again = run("screen", "--house", "kitchen", "--date", "2027-03-02")
    assert (again.exit_code, again.stdout) == (0, SAID)


def test_it_stands_beside_what_bind_prints(run: Run, kitchen: Path, tmp_path: Path) -> None:
    assert run("bind", "kitchen", "--date", "2027-03-02").exit_code == 0
    assert run("screen", "kitchen", "--date", "2027-03-02").exit_code == 0
    assert run("bind", "kitchen", "--date", "2027-03-02").exit_code == 0
    assert _names(tmp_path / "output") == ["allergen-matrix.pdf", "screen", "stove-binder.pdf"]


def test_the_fingerprints_are_those_on_paper(run: Run, kitchen: Path, tmp_path: Path) -> None:
    from pypdf import PdfReader

    for command in ("bind", "screen"):
        assert run(command, "kitchen", "--date", "2027-03-02", "--covers", "40").exit_code == 0
    printed = "".join(page.extract_text() for page in PdfReader(tmp_path / "output" / "stove-binder.pdf").pages)
    folder = tmp_path / "output" / "screen"
    pages = [
        path.read_text() for path in folder.glob("*.html") if path.name.startswith(("station", "batch", "plating"))
    ]
    assert len(pages) == 4
    for page in pages:
        fingerprint = page.partition('<p class="print">')[2][:8]
        assert len(fingerprint) == 8
        assert fingerprint in printed


def test_the_same_house_gives_the_same_bytes(kitchen: Path, tmp_path: Path) -> None:
    found = []
    for out, seed, zone in (("one", "1", "Pacific/Kiritimati"), ("two", "2", "America/Adak")):
        given = [sys.executable, "-m", "linebook", "screen", "kitchen", "--date", "2027-03-02", "-o", out]
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone}
        subprocess.run(given, cwd=tmp_path, env=environment, capture_output=True, check=True)
        found.append({path.name: path.read_bytes() for path in (tmp_path / out).iterdir()})
    assert found[0] == found[1]
    assert sorted(found[0]) == MADE


def test_a_page_that_is_no_longer_made_vanishes(run: Run, kitchen: Path, tmp_path: Path) -> None:
    assert run("screen", "kitchen", "--date", "2027-03-02").exit_code == 0
    dish = kitchen / "dishes" / "lentil-bowl.md"
    kept = [line for line in dish.read_text().splitlines() if "roast-carrots" not in line]
    dish.write_text("\n".join(kept) + "\n")
    done = run("screen", "kitchen", "--date", "2027-03-03")
    assert done.exit_code == 0, done.stderr
    assert _names(tmp_path / "output" / "screen") == [name for name in MADE if "roast-carrots" not in name]


def test_others_files_stop_it_and_stay(run: Run, kitchen: Path, tmp_path: Path) -> None:
    folder = tmp_path / "output" / "screen"
    assert run("screen", "kitchen", "--date", "2027-03-02").exit_code == 0
    (folder / "notes.txt").write_text("mine")
    (folder / "index.html").write_text("edited")
    done = run("screen", "kitchen", "--date", "2027-03-02")
    assert done.exit_code == 2
    assert done.stdout == ""
    assert done.stderr.splitlines()[-1] == (
        "Error: `output/screen` holds what linebook did not make, or what was changed since: index.html, notes.txt. "
        "Move that away, or choose another folder with -o."
    )
    assert (folder / "notes.txt").read_text() == "mine"
    assert (folder / "index.html").read_text() == "edited"


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (("kitchen", "--menu", "frist-menu"), 2, "Did you mean `first-menu`?"),
        (("kitchen", "--line", "stov"), 2, "Did you mean `stove`?"),
        (("kitchen", "--covers", "0"), 2, "whole number"),
        (("kitchen", "--date", "tomorrow"), 2, "is not a date"),
        (("kitchen", "--languages", "de"), 2, "`de` is not a language"),
        (("kitchen", "-o", "kitchen/house.yaml"), 2, "`kitchen/house.yaml` is a file; -o takes a folder."),
        (("kitchen", "-o", "kitchen"), 2, "`kitchen` holds what linebook did not make"),
        (("nowhere",), 2, "There is no folder `nowhere`."),
        (("kitchen", "--date", "2001-01-01"), 1, "LB902"),
    ],
)
def test_what_it_cannot_do_it_says(
    run: Run, kitchen: Path, tmp_path: Path, arguments: tuple[str, ...], code: int, words: str
) -> None:
    done = run("screen", *arguments)
    assert done.exit_code == code
    assert words in done.stderr
    assert not (tmp_path / "output").exists()


def test_a_fault_in_a_spec_leaves_the_pages_of_before(run: Run, kitchen: Path, tmp_path: Path) -> None:
    assert run("screen", "kitchen", "--date", "2027-03-02").exit_code == 0
    dish = kitchen / "dishes" / "lentil-bowl.md"
    dish.write_text(dish.read_text().replace("item: mint,", "item: mnit,"))
    done = run("screen", "kitchen", "--date", "2027-03-03")
    assert (done.exit_code, done.stdout) == (1, "")
    assert "LB201" in done.stderr
    pages = [path.read_text() for path in (tmp_path / "output" / "screen").glob("*.html")]
    assert all("issued 2\u00a0March\u00a02027" in page for page in pages)


def test_only_the_lines_asked_for(run: Run, demo: Path, tmp_path: Path) -> None:
    done = run("screen", "--line", "hearth", "--covers", "120", "--date", "2027-03-02", "-o", "pages")
    assert done.exit_code == 0, done.stderr
    names = _names(tmp_path / "pages")
    assert [name for name in names if name.startswith("line-cover")] == ["line-cover-hearth.html"]
    assert "station-card-leeks-almond.html" in names
    assert "station-card-honey-cake.html" not in names
    card = (tmp_path / "pages" / "batch-card-leek-oil.html").read_text()
    assert 'data-label="120 covers"' in card
    assert "80 covers" not in card
    matrix = (tmp_path / "pages" / "allergen-matrix.html").read_text()
    assert "Honey cake" in matrix, "the matrix is of the whole menu"
    assert "station-card-honey-cake" not in matrix


def test_no_part_of_the_pdf_library_is_loaded(kitchen: Path, tmp_path: Path) -> None:
    script = (
        "import sys; from linebook.cli.main import command\n"
        "try: command(['screen', 'kitchen', '--date', '2027-03-02'])\n"
        "except SystemExit as end: assert end.code == 0\n"
        "print([name for name in sys.modules if name.split('.')[0] in ('reportlab', 'PIL', 'pypdf')])"
    )
    done = subprocess.run([sys.executable, "-c", script], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.stdout.splitlines()[-1:] == ["[]"], done.stderr
