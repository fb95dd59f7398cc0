"""``linebook order`` and ``linebook cost``: wrong words, wrong days, and what is written where."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from running import Run

REPOSITORY = Path(__file__).parents[2]
DEMO = str(REPOSITORY / "specs")
OSIER = str(REPOSITORY / "tests" / "houses" / "osier-lock")
DAYS = ("--from", "2027-03-02", "--days", "3", "--date", "2027-02-20")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--days", "0"), "0 is not in the range"),
        (("--days", "-3"), "-3 is not in the range"),
        (("--days", "1000000000000"), "is not in the range"),
        (("--covers", "0"), "`0` is not a number of covers"),
        (("--covers", "1000000000000"), "`1000000000000` is not a number of covers"),
        (("--covers", "tue="), "`tue=` is not a number of covers"),
        (("--covers", "wen=40"), "Did you mean `wed=40`?"),
        (("--covers", "2027-02-30=40"), "`2027-02-30` is not a date"),
        (("--covers", "40", "--covers", "50"), "--covers is given twice for every service"),
        (("--covers", "wed=40", "--covers", "wed=40"), "--covers is given twice for `wed`"),
        (("--without", "brillo"), "Did you mean `brill`?"),
        (("--from", "0004-03-02"), "--from `0004-03-02` is no year to order in"),
        (("--date", "9999-12-31"), "--date `9999-12-31` is no year to order in"),
        (("--date", "2027-09-01"), "--date `2027-09-01` is after the last of these days"),
    ],
)
def test_a_wrong_word_exits_2(run: Run, arguments, says):
    result = run("order", OSIER, *DAYS, *arguments)
    assert result.exit_code == 2
    assert says in result.stderr
    assert not Path("output").exists()


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (("--covers", "mon=40"), "LB709", "covers are given for `mon`"),
        (("--from", "2027-03-17", "--days", "1"), "LB709", "2027-03-17 is closed"),
        (("--from", "2027-03-16", "--covers", "2027-03-17=40"), "LB709", "`2027-03-17`, which is a closed day"),
        (("--from", "2027-04-20"), "LB902", "no menu is in force on 2027-04-20"),
        (("--on-hand", "nowhere.yaml"), "LB115", "nowhere.yaml"),
    ],
)
def test_a_wrong_day_or_file_exits_1(run: Run, arguments, code, says):
    result = run("order", OSIER, *DAYS, *arguments)
    assert result.exit_code == 1
    assert f"error {code}" in result.stderr
    assert says in result.stderr
    assert not Path("output").exists()


def test_the_same_bytes_twice_and_beside_each_other(run: Run):
    assert run("order", OSIER, *DAYS, "-o", "out/wanted.pdf").exit_code == 0
    first = Path("out/wanted.pdf").read_bytes(), Path("out/wanted.csv").read_bytes()
    assert run("order", "--house", OSIER, *DAYS, "-o", "out/wanted.pdf").exit_code == 0
    assert first == (Path("out/wanted.pdf").read_bytes(), Path("out/wanted.csv").read_bytes())


def test_a_folder_in_the_way_leaves_nothing_half_done(run: Run):
    Path("output/order-2027-03-02.csv").mkdir(parents=True)
    result = run("order", OSIER, *DAYS)
    assert result.exit_code == 1
    assert "error LB901" in result.stderr
    assert not Path("output/order-2027-03-02.pdf").exists()


def test_names_are_no_formulas(run: Run, tmp_path: Path):
    import shutil

    shutil.copytree(OSIER, "specs")
    pantry = Path("specs/pantry/all.yaml")
    text = pantry.read_text(encoding="utf-8").replace("name: leek\n", 'name: "=cmd(1), \\"leek\\""\n')
    pantry.write_text(text.replace("Garth Growers", "'@Garth'"), encoding="utf-8")
    house = Path("specs/house.yaml")
    house.write_text(house.read_text(encoding="utf-8").replace("Garth Growers", "'@Garth'"), encoding="utf-8")
    assert run("order", *DAYS).exit_code == 0
    rows = list(csv.reader(io.StringIO(Path("output/order-2027-03-02.csv").read_bytes().decode("utf-8"), newline="")))
    assert {len(row) for row in rows} == {len(rows[0])}
    names = {row[4] for row in rows}
    assert '\'=cmd(1), "leek"' in names
    assert "'@Garth" in {row[0] for row in rows}
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)


def test_the_demo_orders_and_is_costed(run: Run):
    ordered = run("order", DEMO, "--from", "2027-02-23", "--days", "14", "--date", "2027-02-01")
    assert ordered.exit_code == 0, ordered.output
    assert "Fell and Tarn Meats" in ordered.output
    rows = list(
        csv.DictReader(io.StringIO(Path("output/order-2027-02-23.csv").read_bytes().decode("utf-8"), newline=""))
    )
    assert {row["in_time"] for row in rows} == {"yes"}
    costed = run("cost", "--house", DEMO, "--date", "2027-03-03")
    assert costed.exit_code == 0
    assert "tax is not considered" in costed.output
    assert "≥" not in costed.output  # every item of the demo has its price


def test_cost_of_one_thing(run: Run):
    batch = run("cost", "short-rib-smoked", "--house", DEMO)
    assert "in all" in batch.output
    assert "a kg on the plate" in batch.output
    plate = run("cost", "short-rib-celeriac", "--house", DEMO)
    assert "of the price, £26.00" in plate.output


@pytest.mark.parametrize(
    ("word", "says"),
    [("short-rib-smokd", "Did you mean `short-rib-smoked`?"), ("beef-short-rib", "`beef-short-rib` is bought")],
)
def test_cost_of_nothing_known(run: Run, word, says):
    result = run("cost", word, "--house", DEMO)
    assert result.exit_code == 2
    assert says in result.stderr
