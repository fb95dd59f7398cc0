"""How a run is asked to print, what it says at the end, what it calls its files, and showing them."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pytest
from click.testing import Result
from pypdf import PdfReader
from running import Run

from linebook.cli import opening

DAY = ("--date", "2027-03-02")
MM = 72 / 25.4


def said(result: Result) -> list[str]:
    assert result.exit_code == 0, result.stderr
    return str(result.stdout).splitlines()


def page_size(path: Path) -> tuple[float, float]:
    box = PdfReader(io.BytesIO(path.read_bytes())).pages[0].mediabox
    return round(float(box.width)), round(float(box.height))


def text_of(path: Path) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(path.read_bytes())).pages)


def test_bind_ends_by_saying_what_was_made_and_how_to_print_it(run: Run, kitchen: Path) -> None:
    assert said(run("bind", "kitchen", *DAY)) == [
        "output/stove-binder.pdf     7 sheets, 8 pages, A4",
        "output/allergen-matrix.pdf  1 sheet, 1 page, A4",
        "",
        "Paper    9 leaves of A4, one side, in colour",
        "Print    at 100 %; do not fit to page",
        "Punch    the binder on the left, the matrix along the top: 22 mm there are clear of print",
    ]


def test_both_sides_need_fewer_leaves_and_are_turned_on_the_long_edge(run: Run, kitchen: Path, tmp_path: Path) -> None:
    lines = said(run("bind", "kitchen", "--duplex", "--paper", "letter", "--ink", "gray", *DAY))
    assert lines[0] == "output/stove-binder.pdf     7 sheets, 13 pages, Letter"
    assert lines[3:] == [
        "Paper    8 leaves of Letter, both sides, turned on the long edge, in grey",
        "Print    at 100 %; do not fit to page",
        "Punch    the binder on the left, the matrix along the top: 22 mm there are clear of print, on the backs too",
    ]
    assert "left blank: the back of Stove" in text_of(tmp_path / "output" / "stove-binder.pdf")


def test_half_sheets_are_cards_of_the_dishes_in_place_of_the_binder(run: Run, kitchen: Path, tmp_path: Path) -> None:
    lines = said(run("bind", "kitchen", "--half-sheet", *DAY))
    assert lines == [
        "output/stove-rail-cards.pdf  1 card, 1 page, A4",
        "",
        "Paper    1 leaf of A4, one side, in colour",
        "Print    at 100 %; do not fit to page",
        "Cut      between the marks: each half is a card, A5",
    ]
    (made,) = (tmp_path / "output").iterdir()
    assert page_size(made) == (842, 595)
    assert "Read the ticket for allergies" in text_of(made)


def test_the_wall_has_files_of_its_own(run: Run, kitchen: Path, tmp_path: Path) -> None:
    run("bind", "kitchen", *DAY)
    lines = said(run("bind", "kitchen", "--large", *DAY))
    assert lines[0].startswith("output/stove-binder-large.pdf ")
    assert lines[-1] == "Hang     where it is read from a few steps away: the type is half as large again"
    assert sorted(path.name for path in (tmp_path / "output").iterdir()) == [
        "allergen-matrix-large.pdf",
        "allergen-matrix.pdf",
        "stove-binder-large.pdf",
        "stove-binder.pdf",
    ]


def test_one_sheet_ends_with_one_line(run: Run, kitchen: Path, tmp_path: Path) -> None:
    assert said(run("matrix", "kitchen", *DAY)) == [
        "output/allergen-matrix.pdf  1 sheet, 1 page, A4",
        "output/allergen-index.pdf   1 sheet, 1 page, A4",
        "",
        "Paper    2 leaves of A4, one side, in colour",
        "Print    at 100 %; do not fit to page",
        "Punch    the index on the left, the matrix along the top: 22 mm there are clear of print",
    ]
    night = ("batch", "stewed-lentils", "--house", "kitchen", "--times", "2", *DAY)
    assert said(run(*night))[-2:] == [
        "output/batch-stewed-lentils.pdf  1 sheet, 2 pages, A4",
        "Print on A4, one side, at 100 %; do not fit to page.",
    ]
    assert said(run(*night, "--half-sheet", "--paper", "letter"))[-1] == (
        "Print on Letter, one side, at 100 %; do not fit to page. "
        "Cut between the marks: each half is a card, half Letter."
    )
    assert page_size(tmp_path / "output" / "batch-stewed-lentils-half-sheet.pdf") == (792, 612)


def test_the_house_says_how_it_prints_and_the_command_line_has_the_last_word(run: Run, kitchen: Path) -> None:
    house = kitchen / "house.yaml"
    house.write_text(house.read_text().replace("duplex: no ", "duplex: yes ").replace("ink: colour ", "ink: saving "))
    assert said(run("bind", "kitchen", *DAY))[3] == (
        "Paper    8 leaves of A4, both sides, turned on the long edge, saving ink"
    )
    assert said(run("bind", "kitchen", "--no-duplex", "--ink", "colour", *DAY))[3] == (
        "Paper    9 leaves of A4, one side, in colour"
    )
    for one_sided in ("--large", "--half-sheet"):
        assert any("one side, saving ink" in line for line in said(run("bind", "kitchen", one_sided, *DAY)))


def test_the_language_asked_for_is_printed(run: Run, kitchen: Path, tmp_path: Path) -> None:
    spoken = {"en": ("Allergen matrix",), "es": ("Matriz de alérgenos",)}
    spoken["en,es"] = spoken["en"] + spoken["es"]
    for languages, words in spoken.items():
        said(run("matrix", "kitchen", "--languages", languages, *DAY))
        text = text_of(tmp_path / "output" / "allergen-matrix.pdf").casefold()
        assert [word.casefold() in text for word in words] == [True] * len(words), languages


def test_what_is_not_translated_is_said_last_and_once(run: Run, kitchen: Path) -> None:
    start = "Missing  Spanish: "
    for command in (("bind", "kitchen"), ("matrix", "kitchen"), ("batch", "stewed-lentils", "--house", "kitchen")):
        size = ("--times", "2") if command[0] == "batch" else ()
        lines = said(run(*command, *size, "--languages", "en,es", *DAY))
        assert [line.startswith(start) for line in lines].count(True) == 1
        assert lines[-1].startswith(start)
        assert lines[-1].endswith("not translated yet; printed in English")
        assert not any("Missing" in line for line in said(run(*command, *size, *DAY)))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--large", "--half-sheet"), "--large is for the wall and --half-sheet for the rail: choose one of them."),
        (("--large", "--duplex"), "--large is for the wall, so it prints on one side: leave out --duplex."),
        (("--half-sheet", "--duplex"), "--half-sheet is cut into cards for the rail, so it prints on one side"),
        (("--half-sheet", "--covers", "40"), "--covers sizes batch cards, and --half-sheet prints none"),
        (("--ink", "red"), "`red` is not one of colour, grey, saving."),
        (("--languages", "en,fr"), "`fr` is not a language it prints in: write en or es."),
        (("--languages", "en,en"), "`en,en` is not one language or two different ones: write en, es or en,es."),
        (("--languages", ""), "write en, es or en,es."),
    ],
)
def test_what_cannot_be_asked_exits_2_and_says_why(
    run: Run, kitchen: Path, tmp_path: Path, arguments: tuple[str, ...], words: str
) -> None:
    result = run("bind", "kitchen", *arguments, *DAY)
    assert result.exit_code == 2
    assert words in " ".join(result.stderr.split())
    assert not (tmp_path / "output").exists()


def test_a_line_without_dishes_has_no_cards(run: Run, kitchen: Path, tmp_path: Path) -> None:
    house = kitchen / "house.yaml"
    house.write_text(house.read_text().replace("  stove:", "  store: {name: Store}\n  stove:", 1))
    result = run("bind", "kitchen", "--half-sheet", "--line", "store", *DAY)
    assert result.exit_code == 1
    assert result.stderr.strip().endswith(
        "No line asked for has a dish on the menu `first menu`, so there are no cards to print."
    )
    assert not (tmp_path / "output").exists()


@pytest.mark.parametrize(
    "how", [("--duplex",), ("--large",), ("--half-sheet",), ("--ink", "grey"), ("--ink", "saving")]
)
def test_each_way_of_printing_gives_the_same_bytes_again(
    run: Run, kitchen: Path, tmp_path: Path, how: tuple[str, ...]
) -> None:
    for folder in ("one", "two"):
        said(run("bind", "kitchen", *how, "-o", folder, *DAY))
    names = sorted(path.name for path in (tmp_path / "one").iterdir())
    assert names
    for name in names:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


# -- showing it


@pytest.fixture
def viewer(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[list[str]]:
    """A desktop with a viewer, and what it was started with."""
    started: list[list[str]] = []
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("DISPLAY", ":7")
    programs = tmp_path / "programs"
    programs.mkdir()
    program = programs / "xdg-open"
    program.write_text("#!/bin/sh\nexit 0\n")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(programs))
    monkeypatch.setattr("subprocess.Popen", lambda command, **_: started.append(command))
    return started


def test_open_shows_the_folder_or_the_one_file(
    run: Run, kitchen: Path, tmp_path: Path, viewer: list[list[str]]
) -> None:
    assert said(run("bind", "kitchen", "--open", *DAY))[-1] == "Opened `output`."
    assert said(run("bind", "kitchen", "--half-sheet", "--open", *DAY))[-1] == "Opened `output/stove-rail-cards.pdf`."
    assert said(run("matrix", "kitchen", "--open", "-o", "wall/--m.pdf", *DAY))[-1] == "Opened `wall/--m.pdf`."
    home = tmp_path.resolve()
    assert viewer == [
        ["xdg-open", str(home / "output")],
        ["xdg-open", str(home / "output" / "stove-rail-cards.pdf")],
        ["xdg-open", str(home / "wall" / "--m.pdf")],
    ]


def test_nothing_is_opened_where_faults_stopped_the_run(run: Run, kitchen: Path, viewer: list[list[str]]) -> None:
    (kitchen / "components" / "roast-carrots.md").write_text("no front matter")
    assert run("bind", "kitchen", "--open", *DAY).exit_code == 1
    assert viewer == []


def test_without_a_viewer_it_says_so_and_does_not_fail(
    run: Run, kitchen: Path, monkeypatch: pytest.MonkeyPatch, viewer: list[list[str]]
) -> None:
    def refused(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("subprocess.Popen", refused)
    shown = "`output/allergen-matrix.pdf` is not opened"
    asked = ("matrix", "kitchen", "--open", *DAY)
    assert said(run(*asked))[-1] == f"{shown}: Permission denied."
    monkeypatch.setenv("PATH", "")
    assert said(run(*asked))[-1] == f"{shown}: there is no viewer here, `xdg-open` is not installed."
    monkeypatch.delenv("DISPLAY")
    assert said(run(*asked))[-1] == f"{shown}: there is no screen here to show it on."
    monkeypatch.setattr(sys, "platform", "darwin")
    assert opening.show(Path("output")) == "`output` is not opened: there is no viewer here, `open` is not installed."
    assert viewer == []
