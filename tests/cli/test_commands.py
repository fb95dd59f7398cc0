"""The commands as typed: what they say, where, and with which exit code."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run


def test_a_new_house_checks_clean_and_binds(run: Run, kitchen: Path, tmp_path: Path) -> None:
    checked = run("check", "kitchen", "--strict")
    assert (checked.exit_code, checked.stderr) == (0, "")
    bound = run("bind", "kitchen", "--date", "2027-03-02")
    assert bound.exit_code == 0, bound.stderr
    assert sorted(p.name for p in (tmp_path / "output").iterdir()) == ["allergen-matrix.pdf", "stove-binder.pdf"]
    assert "output/stove-binder.pdf" in bound.stdout


def test_new_does_not_touch_a_folder_with_something_in_it(run: Run, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "notes.txt").write_text("keep")
    result = run("new", "mine")
    assert result.exit_code == 2
    assert "there already and not empty" in result.stderr
    assert [p.name for p in (tmp_path / "mine").iterdir()] == ["notes.txt"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("chek",), "Did you mean `check`?"),
        (("check", "nowhere"), "There is no folder `nowhere`."),
        (("check",), "There is no house here"),
        (("explain", "LB999"), "There is no fault code `LB999`."),
        (("explain", "unknown-itm"), "Did you mean `unknown-item`?"),
        (("bind", "--date", "2027-02-30"), "is not a date"),
        (("bind", "--covers", "-3"), "whole number"),
        (("bind", "--covers", "1e3"), "whole number"),
        (("bind", "--paper", "a5"), "a5"),
        (("schema", "dishes"), "dishes"),
    ],
)
def test_a_wrong_command_line_exits_2_and_says_why(run: Run, arguments: tuple[str, ...], words: str) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert words in result.stderr


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("bind", "kitchen", "--menu", "frist-menu"), "Did you mean `first-menu`?"),
        (("bind", "kitchen", "--line", "stov"), "Did you mean `stove`?"),
        (("batch", "stewed-lentil", "--house", "kitchen", "--times", "2"), "Did you mean `stewed-lentils`?"),
        (("batch", "stewed-lentils", "--house", "kitchen"), "--covers"),
        (("batch", "stewed-lentils", "--house", "kitchen", "--times", "2", "--covers", "40"), "one of"),
        (("batch", "stewed-lentils", "--house", "kitchen", "--times", "0"), "more than 0"),
        (("batch", "stewed-lentils", "--house", "kitchen", "--times", "nan"), "number"),
        (("batch", "stewed-lentils", "--house", "kitchen", "--makes", "6 kgs and a bit"), "6 kgs and a bit"),
        (("batch", "stewed-lentils", "--house", "kitchen", "--makes", "6 L"), "density"),
    ],
)
def test_a_word_the_house_does_not_know_exits_2(
    run: Run, kitchen: Path, arguments: tuple[str, ...], words: str
) -> None:
    result = run(*arguments)
    assert result.exit_code == 2, result.stderr
    assert words in result.stderr


def test_faults_go_to_stderr_with_place_text_code_and_mend(run: Run, kitchen: Path) -> None:
    dish = kitchen / "dishes" / "lentil-bowl.md"
    dish.write_text(dish.read_text().replace("item: mint,", "item: mnit,"))
    result = run("check", "kitchen")
    assert result.exit_code == 1
    assert result.stdout == ""
    assert "error LB201" in result.stderr
    assert "kitchen/dishes/lentil-bowl.md:13:12" in result.stderr
    assert "^^^^" in result.stderr
    assert "`mint`" in result.stderr
    assert "1 error in 1 file" in result.stderr


def test_short_form_is_one_line_a_fault_and_json_is_for_tools(run: Run, kitchen: Path) -> None:
    dish = kitchen / "dishes" / "lentil-bowl.md"
    dish.write_text(dish.read_text().replace("item: mint,", "item: mnit,"))
    short = run("check", "kitchen", "--form", "short")
    assert short.stderr.splitlines()[0].startswith("kitchen/dishes/lentil-bowl.md:13:12: error LB201 ")
    told = json.loads(run("check", "kitchen", "--form", "json").stdout)
    assert [(f["code"], f["line"], f["column"], f["text"]) for f in told] == [("LB201", 13, 12, "mnit")]


def test_a_failed_run_leaves_yesterdays_binder_whole(run: Run, kitchen: Path, tmp_path: Path) -> None:
    assert run("bind", "kitchen", "--date", "2027-03-02").exit_code == 0
    before = {p.name: p.read_bytes() for p in (tmp_path / "output").iterdir()}
    (kitchen / "components" / "roast-carrots.md").write_text("no front matter")
    assert run("bind", "kitchen", "--date", "2027-03-03").exit_code == 1
    assert {p.name: p.read_bytes() for p in (tmp_path / "output").iterdir()} == before


def test_warnings_pass_but_not_strictly(run: Run, kitchen: Path) -> None:
    pantry = kitchen / "pantry" / "pantry.yaml"
    old = pantry.read_text()
    start = old.index("mint:")
    pantry.write_text(
        old[:start] + old[start:].replace("  allergens: {contains: none, says: own knowledge, since: 2026-11-01}\n", "")
    )
    assert run("check", "kitchen").exit_code == 0
    strict = run("check", "kitchen", "--strict")
    assert strict.exit_code == 1
    assert "warning LB401" in strict.stderr


def test_no_menu_in_force_is_a_fault_with_a_way_out(run: Run, kitchen: Path) -> None:
    result = run("bind", "kitchen", "--date", "2025-12-31")
    assert result.exit_code == 1
    assert "LB902" in result.stderr
    assert "first menu" in result.stderr


def test_batch_prints_a_table_and_writes_one_sheet(run: Run, kitchen: Path, tmp_path: Path) -> None:
    """100 covers × 1 = 100, spare 5 % = 5: 105 portions × 220 g = 23.1 kg; 23.1 / 8 is 3 loads of 7.7 kg.

    That is 3.85 batches of 0.8 kg onions, 0.15 L oil, 1.6 kg lentils and 4 L water: 25.2 L in a pot that takes 80 % of
    10 L, so 4 pots, from the sweating on.
    """
    result = run("batch", "stewed-lentils", "--house", "kitchen", "--covers", "100", "--date", "2027-03-06")
    assert result.exit_code == 0, result.stderr
    assert "23.1 kg" in result.stdout
    assert "sweat 4, stew 4, cool 3" in result.stdout
    text = "\n".join(page.extract_text() for page in PdfReader(tmp_path / "output" / "batch-stewed-lentils.pdf").pages)
    assert "1.54 kg" in text  # lentils of a load: 1.6 x 3.85 / 4
    assert "only" in text


def test_matrix_writes_where_it_is_told(run: Run, kitchen: Path, tmp_path: Path) -> None:
    result = run("matrix", "kitchen", "--date", "2027-03-06", "--paper", "letter", "-o", "wall/m.pdf")
    assert result.exit_code == 0, result.stderr
    page = PdfReader(tmp_path / "wall" / "m.pdf").pages[0]
    assert (float(page.mediabox.width), float(page.mediabox.height)) == (792, 612)


def test_same_text_same_bytes(run: Run, kitchen: Path, tmp_path: Path) -> None:
    for folder in ("one", "two"):
        assert run("bind", "kitchen", "--date", "2027-03-02", "-o", folder).exit_code == 0
    for name in ("stove-binder.pdf", "allergen-matrix.pdf"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_explain_tells_every_code(run: Run) -> None:
    from linebook.source.codes import CODES

    for number in CODES:
        result = run("explain", number)
        assert result.exit_code == 0
        for heading in ("What it checks", "Why it matters", "Example", "Instead"):
            assert heading in result.stdout, number


def test_ids_are_completed(kitchen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from click.shell_completion import ShellComplete

    from linebook.cli.main import command

    complete = ShellComplete(command, {}, "linebook", "_LINEBOOK_COMPLETE")
    found = complete.get_completions(["batch", "--house", "kitchen"], "st")
    assert [item.value for item in found] == ["stewed-lentils"]


def test_demo_checks_clean(run: Run, demo: Path) -> None:
    result = run("check", "--strict")
    assert (result.exit_code, result.stderr) == (0, "")


def test_a_changed_number_changes_every_page_that_depends_on_it(run: Run, kitchen: Path, tmp_path: Path) -> None:
    run("bind", "kitchen", "--date", "2027-03-02", "-o", "before")
    dish = kitchen / "dishes" / "lentil-bowl.md"
    dish.write_text(dish.read_text().replace("amount: 220 g", "amount: 230 g"))
    run("bind", "kitchen", "--date", "2027-03-02", "-o", "after")

    def pages(folder: str) -> list[str]:
        reader = PdfReader(io.BytesIO((tmp_path / folder / "stove-binder.pdf").read_bytes()))
        return [page.extract_text() for page in reader.pages]

    before, after = pages("before"), pages("after")
    assert len(before) == len(after)
    changed = [old.split("\n")[:3] for old, new in zip(before, after, strict=True) if old != new]
    told = " ".join(" ".join(lines) for lines in changed)
    assert "Red lentils, roast carrot, mint yogurt" in told
    assert "Stewed red lentils" in told
    assert "Roast carrots" not in told
