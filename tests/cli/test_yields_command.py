"""``linebook yields``: the table, one item's tests and money, what to buy; and what it refuses."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

RIB = """\
standing-rib:
  name: standing rib
  allergens: {contains: none, says: supplier sheet, since: 2026-11-02}
  origin: beef
  price: 3.49 per lb
  yield_tests:
    - tested: 2027-01-14
      bought: 38.75 lb
      usable: 22 lb
      price: 3.19 per lb
      by: MH
      parts:
        - {part: fat, weighs: 6.5 lb}
        - {part: bones, weighs: 4.25 lb, value: 0.32 per lb}
        - {part: short ribs, weighs: 3.25 lb, value: 1.49 per lb}
        - {part: chopped beef, weighs: 2.5 lb, value: 1.59 per lb}
"""


@pytest.fixture
def rib(demo: Path) -> Path:
    """The demo house with the standing rib of the butcher's test, which is published: see tests/published."""
    path = demo / "pantry" / "meat.yaml"
    path.write_text(f"{path.read_text('utf-8').rstrip()}\n\n{RIB}", "utf-8")
    return demo


def test_the_butchers_test_line_by_line(run: Run, rib: Path) -> None:
    result = run("yields", "standing-rib", "--portion", "10 oz")
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        "standing rib: 56.77 % usable",
        "1 test, on 2027-01-14",
        "",
        "2027-01-14, by MH: 38.75 lb bought, 22 lb usable, 56.77 %",
        "      6.5 lb   16.77 %  fat",
        "     4.25 lb   10.97 %  bones, worth £0.32 a lb",
        "     3.25 lb    8.39 %  short ribs, worth £1.49 a lb",
        "      2.5 lb    6.45 %  chopped beef, worth £1.59 a lb",
        "     0.25 lb    0.65 %  not found again",
        "  cost £123.61, £10.18 of it in the other parts",
        "  a usable lb £5.1561, cost factor 1.6163",
        "",
        "cost factor: 1.6163",
        "price: a bought lb £3.49, a usable lb £5.641",
        "2027-01-14: 22 lb usable",
        "  35 portions of 10 oz, 2 oz left",
        "a portion of 10 oz costs £3.5256",
    ]


def test_several_tests_show_their_spread(run: Run, demo: Path) -> None:
    lines = run("yields", "beef-short-rib").stdout.splitlines()
    assert lines[:3] == [
        "beef short rib, bone in: 73 % usable",
        "average of 2 tests (72.59 % to 73.39 %), the last on 2027-01-12",
        "declared 73 %: the tests count",
    ]
    assert "cooked: 60.79 % of what is usable (59.98 % to 61.54 %)" in lines
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize(
    ("options", "answers"),
    [
        (("--need", "6 kg"), ["6 kg usable: buy 6.977 kg"]),
        (("--bought", "10 lb"), ["10 lb bought: 8.6 lb usable"]),
        (
            ("--bought", "2 kg", "--portion", "150 g"),
            ["2 kg bought: 1.72 kg usable", "  11 portions of 150 g, 70 g left"],
        ),
        (("--portion", "150 g", "--portions", "40"), ["40 portions of 150 g: 6000 g usable, buy 6976.74 g"]),
        (
            ("--need", "4 each", "--portion", "1 kg"),
            ["4 each usable: buy 4.651 each", "  3 portions of 1 kg, 0.4 kg left"],
        ),
    ],
)
def test_what_to_buy_and_what_it_gives(run: Run, demo: Path, options: tuple[str, ...], answers: list[str]) -> None:
    """Celeriac: 17.2 of 20 kg in two tests is 86 %; one weighs 850 g."""
    lines = run("yields", "celeriac", *options).stdout.splitlines()
    at = lines.index(answers[0])
    assert lines[at : at + len(answers)] == answers


def test_what_is_declared_and_what_nobody_has_said(run: Run, demo: Path) -> None:
    assert run("yields", "duck-leg").stdout.splitlines()[0] == "duck legs, thigh on: 95 % usable, declared, not tested"
    lines = run("yields", "fine-salt", "--need", "2 kg").stdout.splitlines()
    assert lines[0] == "fine sea salt: nobody has said what of it is usable, so all that is bought counts"
    assert "2 kg usable: buy 2 kg" in lines


def test_the_table(run: Run, demo: Path) -> None:
    lines = run("yields").stdout.splitlines()
    assert lines[0].split() == ["usable", "tests", "least", "most", "declared", "last", "test", "item"]
    rows = {line.rsplit(None, 1)[-1]: line.split() for line in lines[1:-1]}
    assert list(rows) == sorted(rows)
    assert rows["celeriac"] == ["86", "%", "2", "85.78", "%", "86.22", "%", "86", "%", "2026-12-08", "celeriac"]
    assert rows["duck-leg"] == ["95", "%", "declared", "duck-leg"]
    assert lines[-1].endswith("all that is bought counts as usable.")
    assert max(map(len, lines)) <= 100


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("celery-rt",), "There is no pantry item `celery-rt` in this house. Did you mean `celery-stick`?"),
        (("short-rib-smoked",), "`short-rib-smoked` is made here; yields are those of bought items."),
        (("beef-short-ribs",), "Did you mean `beef-short-rib`?"),
        (("--need", "6 kg"), "Say of which item"),
        (("celeriac", "--portions", "40"), 'Say what one portion is, as --portion "150 g".'),
        (("celeriac", "--portions", "4", "--portion", "1 kg", "--need", "2 kg"), "--need AMOUNT or --portions N"),
        (("celeriac", "--portions", "0", "--portion", "1 kg"), "0 is not in the range"),
        (("celeriac", "--need", "0 kg"), "`0 kg` is nothing."),
        (("celeriac", "--need", "-3 kg"), "`-3 kg` is less than nothing."),
        (("celeriac", "--need", "6"), "`6` has no unit."),
        (("celeriac", "--need", "99999999999999 kg"), "has more than 12 digits"),
        (("celeriac", "--portion", "1 leaf", "--bought", "2 kg"), "without the weight of one"),
        (("celeriac", "--portion", "1 leaf"), "cannot be turned into a"),
    ],
)
def test_what_is_refused(run: Run, demo: Path, arguments: tuple[str, ...], said: str) -> None:
    result = run("yields", *arguments)
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""


def test_faults_of_the_house_stop_it(run: Run, demo: Path) -> None:
    path = demo / "pantry" / "meat.yaml"
    path.write_text(path.read_text("utf-8").replace("usable: 9.1 kg", "usable: 91 kg"), "utf-8")
    result = run("yields")
    assert result.exit_code == 1
    assert "LB330" in result.stderr
    assert result.stdout == ""


def test_a_batch_that_is_cut_brings_its_plan(run: Run, demo: Path, tmp_path: Path) -> None:
    result = run("batch", "honey-cake-built", "--makes", "96 pieces", "--date", "2027-03-06")
    assert result.exit_code == 0
    pages = [page.extract_text() for page in PdfReader(tmp_path / "output" / "batch-honey-cake-built.pdf").pages]
    (plan,) = [page for page in pages if "Cutting plan" in page]
    assert pages[-1] == plan
    assert "48 pieces of 47 × 46 mm from each block" in plan.replace("\u00a0", " ")
    outline = PdfReader(tmp_path / "output" / "batch-honey-cake-built.pdf").outline
    assert [entry.title for entry in outline] == ["Honey cake, built", "Honey cake, built · Cutting plan"]
