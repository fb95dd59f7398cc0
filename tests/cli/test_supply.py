"""What is missing tonight and what is left from before, through every command that takes a house."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

SMALL_HOUSE = Path(__file__).parents[1] / "cases" / "small-house"
DAY = ("--date", "2027-03-05")
NEXT = ("--date", "2027-03-06")
WITHOUT = ("--without", "walnuts")
SAID = (
    "Without walnuts: hazelnuts instead, 0.9 of the weight (toast them first)\n"
    "Now contains nuts (hazelnut), mustard: Walnut fritters; Shin, celeriac, walnut.\n"
)


@pytest.fixture
def steps(tmp_path: Path) -> Path:
    """A house where hazelnuts with mustard in them stand in for walnuts, in ``specs/``."""
    root = shutil.copytree(SMALL_HOUSE, tmp_path / "specs")
    dry = root / "pantry" / "dry.yaml"
    text = dry.read_text(encoding="utf-8").replace(
        "  name: walnuts\n",
        "  name: walnuts\n  substitutes: {item: hazelnuts, ratio: 0.9, note: toast them first}\n",
    )
    text += (
        "hazelnuts:\n  name: hazelnuts\n  allergens: {contains: [hazelnut, mustard], says: label, since: 2026-11-02}\n"
    )
    dry.write_text(text, encoding="utf-8")
    return root


def pages(path: Path) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]


def test_every_touched_sheet_says_so_at_its_top_and_no_other_does(run: Run, steps: Path, tmp_path: Path) -> None:
    done = run("bind", *DAY, *WITHOUT)
    assert (done.exit_code, done.stderr) == (0, SAID)
    for name in ("cold", "stove"):
        texts = pages(tmp_path / "output" / f"{name}-binder.pdf")
        for text in texts:
            assert "without walnuts" in text
        cards = [
            text
            for text in texts
            if re.match(r"\w+ \w+ · (Station|Batch|Plating) .{0,60}(fritters?|celeriac, walnut) Now contains", text)
        ]
        assert len(cards) in (2, 3)
        for card in cards:
            top = card[:260]
            assert "Tonight without walnuts: hazelnuts instead, 0.9 of the weight (toast them first)." in top
            assert "Now contains nuts (hazelnut), mustard" in top
        puree = [text for text in texts if "Stove · Batch card Celeriac puree" in text[:60]]
        assert len(puree) == (name == "stove")
        assert all("Tonight" not in text for text in puree)
    (matrix, *_) = pages(tmp_path / "output" / "allergen-matrix.pdf")
    assert "Now contains nuts (hazelnut), mustard: Walnut fritters; Shin, celeriac, walnut" in matrix


def test_an_untouched_sheet_keeps_its_fingerprint(run: Run, steps: Path, tmp_path: Path) -> None:
    run("bind", *DAY, "-o", "usual")
    run("bind", *DAY, *WITHOUT, "-o", "tonight")
    for component, same in (("Celeriac puree", True), ("Walnut fritter", False)):
        prints = [
            re.findall(r"([0-9A-HJKMNP-TV-Z]{8}) issued", text)
            for folder in ("usual", "tonight")
            for line in ("cold", "stove")
            for text in pages(tmp_path / folder / f"{line}-binder.pdf")
            if re.match(rf"\w+ \w+ · Batch card {component}", text)
        ]
        assert prints[0], component
        assert (prints[0] == prints[1]) is same


def test_the_amounts_follow(run: Run, steps: Path) -> None:
    done = run("batch", "walnut-fritter", "--times", "2", *DAY, *WITHOUT)
    assert done.exit_code == 0
    assert "900 g       450 g  hazelnuts" in done.stdout  # 500 g of walnuts x 0.9 x 2
    assert "walnuts" not in done.stdout.split("\n", 1)[1]


def test_the_answers_follow(run: Run, steps: Path) -> None:
    done = run("why", "shin", "mustard", *DAY, *WITHOUT)
    assert done.exit_code == 0
    assert "Contains: mustard" in done.stdout
    assert "hazelnuts" in done.stdout
    assert "Serve without Walnut fritter" in run("guest", "mustard", *DAY, *WITHOUT).stdout
    assert "Serve  " in run("guest", "mustard", *DAY).stdout


def test_the_order_follows(run: Run, steps: Path, tmp_path: Path) -> None:
    assert (
        run("order", "--from", "2027-03-05", "--days", "1", "--covers", "50", *WITHOUT, "-o", "order.pdf").exit_code
        == 0
    )
    table = (tmp_path / "order.csv").read_text(encoding="utf-8")
    assert "hazelnuts" in table
    assert "walnuts" not in table


def test_an_order_over_two_menus_tells_what_falls_on_both_and_on_no_other(run: Run, steps: Path) -> None:
    winter = steps / "menus" / "late-winter.yaml"
    winter.write_text(
        "".join(line for line in winter.read_text(encoding="utf-8").splitlines(True) if "fritters" not in line),
        encoding="utf-8",
    )
    off = ("--without", "beef-shin", "--without", "walnuts", "--covers", "50", "-o", "order.pdf")
    of_shin = "Not served: Shin, celeriac, walnut (nothing stands in for beef shin, in Braised shin)\n"
    now = "Now contains nuts (hazelnut), mustard: Walnut fritters.\n"
    both = run(
        "order", "--from", "2027-02-27", "--days", "5", *off
    ).stderr  # a Saturday of the old, a Wednesday of the new
    assert of_shin in both
    assert now in both
    of_winter = run("order", "--from", "2027-02-20", "--days", "1", "--without", "walnuts", *off[4:]).stderr
    assert "Walnut fritters" not in of_winter


def test_dishes_that_nothing_can_save_are_listed_and_not_printed(run: Run, steps: Path, tmp_path: Path) -> None:
    done = run("bind", *DAY, "--without", "beef-shin")
    assert done.exit_code == 0
    assert done.stderr == "Not served: Shin, celeriac, walnut (nothing stands in for beef shin, in Braised shin)\n"
    assert not (tmp_path / "output" / "stove-binder.pdf").exists()
    (cover, *others) = pages(tmp_path / "output" / "cold-binder.pdf")
    assert "Tonight without beef shin. Not served tonight: Shin, celeriac, walnut." in cover
    assert "Not served tonight: Shin" in pages(tmp_path / "output" / "allergen-matrix.pdf")[0]
    assert not any("Station card Shin" in text for text in others)


def test_where_no_dish_is_left_nothing_is_printed(run: Run, steps: Path, tmp_path: Path) -> None:
    done = run("bind", *DAY, "--without", "water")
    assert done.exit_code == 1
    assert "LB903 no dish of the menu can be served without water" in done.stderr
    assert not (tmp_path / "output").exists()


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("matrix", "--without", "walnut"), 2, "There is no item `walnut` in this house. Did you mean `walnuts`?"),
        (("matrix", "--without", "fine sea salt"), 2, "Did you mean `fine-salt`?"),
        (("matrix", "--without", "hazelnuts"), 0, "Without hazelnuts: nothing on the menu uses it"),
        (
            ("batch", "celeriac-puree", "--covers", "50", "--without", "celeriac"),
            2,
            "is not to be had without celeriac",
        ),
        (("why", "shin", "milk", "--without", "celeriac"), 2, "`shin` is not to be had without celeriac."),
        (("matrix", "--on-hand", "nothing.yaml"), 1, "LB115 this file is not there"),
    ],
)
def test_what_is_said(run: Run, steps: Path, arguments: tuple[str, ...], code: int, said: str) -> None:
    done = run(*arguments, *DAY)
    assert done.exit_code == code, done.output
    assert said in done.stderr


def fill(path: Path, item: str, amount: str, made: str) -> None:
    """Fill in one line of a file of a count as a cook does: the # away, the amount and the day over the dots."""
    text = path.read_text(encoding="utf-8")
    (line,) = re.findall(rf"^#- {{item: {item},.*$", text, re.MULTILINE)
    filled = re.sub(r"amount: \.\.\. \w+", f"amount: {amount}", line[1:]).replace("....-..-..", made)
    path.write_text(text.replace(line, filled), encoding="utf-8")


def test_a_count_typed_back_is_taken_off(run: Run, steps: Path, tmp_path: Path) -> None:
    """Print the count, fill it in, size a batch: 3.15 kg are needed (45 portions of 70 g), 1.2 kg are left."""
    done = run("count", *DAY)
    assert done.exit_code == 0, done.output
    sheets = pages(tmp_path / "output" / "count-2027-03-05.pdf")
    assert any("Celeriac puree" in text and "third pan" in text for text in sheets)
    file = tmp_path / "output" / "on-hand-stove.yaml"
    fill(file, "celeriac-puree", "1.2 kg", "2027-03-05")
    sized = run("batch", "celeriac-puree", "--covers", "50", *NEXT, "--on-hand", str(file))
    assert (sized.exit_code, sized.stderr) == (0, "")
    assert "Celeriac puree: makes 1.95 kg" in sized.stdout
    again = run("count", *NEXT)
    assert "holds a count and is left as it is" in again.stdout
    assert "1.2 kg" in file.read_text(encoding="utf-8")


def test_the_fingerprint_in_the_file_is_that_of_the_binder_s_card(run: Run, steps: Path, tmp_path: Path) -> None:
    run("count", *DAY)
    run("bind", *DAY)
    text = (tmp_path / "output" / "on-hand-stove.yaml").read_text(encoding="utf-8")
    (card,) = re.findall(r"item: celeriac-puree,.*card: (\w+)", text)
    (page,) = [one for one in pages(tmp_path / "output" / "stove-binder.pdf") if "Batch card Celeriac puree" in one]
    assert card in page


def test_stock_of_which_nothing_is_known_leaves_its_dishes_undeclared(run: Run, steps: Path, tmp_path: Path) -> None:
    file = tmp_path / "left.yaml"
    file.write_text("on_hand:\n- {item: celeriac-puree, amount: 1 kg, made: 2027-03-05}\n", encoding="utf-8")
    done = run("matrix", *NEXT, "--on-hand", "left.yaml")
    assert done.exit_code == 0
    assert "warning LB413 nobody knows what is in the Celeriac puree on hand" in done.stderr
    assert "left.yaml:2:10" in done.stderr
    (matrix, *_) = pages(tmp_path / "output" / "allergen-matrix.pdf")
    assert "Celeriac puree left from before" in matrix
    labelled = "on_hand:\n- {item: celeriac-puree, amount: 1 kg, made: 2027-03-05, contains: [sesame]}\n"
    file.write_text(labelled, encoding="utf-8")
    proof = run("why", "shin", "sesame", *NEXT, "--on-hand", "left.yaml")
    assert (proof.exit_code, proof.stderr) == (0, "")
    assert "left.yaml:2" in proof.stdout


def test_stock_out_of_life_brings_nothing(run: Run, steps: Path, tmp_path: Path) -> None:
    file = tmp_path / "left.yaml"
    file.write_text("on_hand:\n- {item: celeriac-puree, amount: 1 kg, made: 2027-03-01}\n", encoding="utf-8")
    assert run("matrix", *NEXT, "--on-hand", "left.yaml").stderr == ""


def test_a_fault_in_the_file_is_told_with_its_place(run: Run, steps: Path, tmp_path: Path) -> None:
    file = tmp_path / "left.yaml"
    file.write_text("on_hand:\n- {item: celeriac-pure, amount: -1 kg, made: 2027-03-05}\n", encoding="utf-8")
    done = run("batch", "brine", "--covers", "50", *NEXT, "--on-hand", "left.yaml")
    assert done.exit_code == 1
    assert "left.yaml:2:" in done.stderr


def test_the_pages_on_a_screen_say_so_too(run: Run, steps: Path, tmp_path: Path) -> None:
    assert run("screen", *DAY, *WITHOUT).exit_code == 0
    texts = {path.name: path.read_text(encoding="utf-8") for path in (tmp_path / "output" / "screen").glob("*.html")}
    touched = [name for name, text in texts.items() if "Now contains" in text]
    assert any("walnut-fritter" in name for name in touched)
    assert not any("celeriac-puree" in name for name in touched)


def test_help_tells_of_both(run: Run) -> None:
    for command in ("bind", "matrix", "screen", "guest", "why", "batch", "order", "void"):
        said = run(command, "--help").stdout
        assert "--without ITEM" in said, command
        assert "--on-hand FILE" in said, command


def test_the_fruit_of_a_void_knows_what_is_missing(run: Run, steps: Path) -> None:
    done = run("void", "strong-flour", "--contains", "sesame", *DAY, *WITHOUT)
    assert done.exit_code == 0, done.output


def test_ids_are_completed(steps: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import click

    from linebook.cli.bind import command
    from linebook.cli.supply_options import ItemType

    monkeypatch.chdir(steps.parent)
    context = click.Context(command)
    found = [item.value for item in ItemType().shell_complete(context, command.params[0], "wal")]
    assert found == ["walnut-fritter", "walnuts"]
