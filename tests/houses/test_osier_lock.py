"""The order sheet of a small house, every figure worked out by hand. Independent of the code.

20 portions on Tuesday and Wednesday, 30 on Thursday, 40 on Friday and Saturday. Both components take under an hour, so
what they take must be in the house the day before; leek goes on the plate as it is, on the day.

Brill: 150 g of fillet a portion, half of a fish is fillet: 300 g a portion. 1.5 kg of fillet made on Monday keeps until
Tuesday and covers half of Tuesday's 3 kg: 3 kg of fish for Tuesday, then 6, 9, 12 and 12. 4 kg of fish on hand: 3 go to
Tuesday, 1 to Wednesday, so 0, 5, 9, 12, 12 are to buy, in the house by Mon 1, Tue 2, Wed 3, Thu 4, Fri 5. It comes on
Tuesdays and Fridays: 26 kg on Tue 2 (six 5 kg packs, 4 over), and 12 - 4 = 8 on Fri 5 (two packs, 2 over).

Asparagus: 60 g a portion of trimmed, of which 1 kg as bought gives 750 g: 80 g a portion, weighed before the prep, so
its yield of 70 % is not taken again. 1.6, 1.6, 2.4, 3.2, 3.2 kg by Mon 1 ... Fri 5, in packs of 1 kg, one delivery each:
2 (0.4 over), 1.2 -> 2 (0.8), 1.6 -> 2 (0.4), 2.8 -> 3 (0.2), 3.0 -> 3 (0). Its last day is Thu 4: Saturday's 3.2 kg come
after it, and so do the two weeks to Sat 20 March: 150 portions, then 150 less the 20 of the closed Wednesday 17th, 80 g
each: 22.4 kg. Until the menu ends 12 + 22.4 = 34.4 kg.

Leek: 50 g a portion, 80 % of it usable: 62.5 g.
"""

import csv
import io
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from linebook.cli.main import command

HOUSE = Path(__file__).parent / "osier-lock"
STOCK = """on_hand:
  - {item: brill, amount: 4 kg}
  - {item: brill-fillet, amount: 1.5 kg, made: 2027-03-01}
"""


@pytest.fixture
def kitchen(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    shutil.copytree(HOUSE, tmp_path / "specs")
    (tmp_path / "left.yaml").write_text(STOCK, encoding="utf-8")
    return tmp_path


def order(*arguments, first="2027-03-01", days="7", written="2027-02-20"):
    result = CliRunner().invoke(
        command,
        ["order", "--from", first, "--days", days, "--date", written, *arguments],
        catch_exceptions=False,
    )
    assert result.exit_code == 0, result.output
    text = Path("output", f"order-{first}.csv").read_bytes().decode("utf-8")
    assert text.count("\n") == text.count("\r\n")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    page = "\n".join(page.extract_text() for page in PdfReader(f"output/order-{first}.pdf").pages)
    return rows, result.output, page.replace("\u00a0", " ")


def bought(rows, item):
    keys = ("order_by", "delivery", "needed", "packs", "ordered", "over")
    return [tuple(row[key] for key in keys) for row in rows if row["item"] == item]


def test_fish_comes_twice_a_week_less_what_is_on_hand(kitchen):
    rows, _, page = order("--on-hand", "left.yaml")
    assert bought(rows, "brill") == [
        ("2027-02-27T14:00", "2027-03-02", "26", "6", "30", "4"),
        ("2027-03-02T14:00", "2027-03-05", "8", "2", "10", "2"),
    ]
    assert "order by Sat 27 February 14:00" in page
    assert "6 × 5 kg" in page
    assert "by telephone" in page


def test_a_season_ends_in_the_middle(kitchen):
    rows, output, page = order("--on-hand", "left.yaml")
    assert bought(rows, "asparagus") == [
        ("2027-02-28", "2027-03-01", "1.6", "2", "2", "0.4"),
        ("2027-03-01", "2027-03-02", "1.2", "2", "2", "0.8"),
        ("2027-03-02", "2027-03-03", "1.6", "2", "2", "0.4"),
        ("2027-03-03", "2027-03-04", "2.8", "3", "3", "0.2"),
        ("2027-03-04", "2027-03-05", "3", "3", "3", "0"),
    ]
    assert {row["season_last"] for row in rows if row["item"] == "asparagus"} == {"2027-03-04"}
    assert "asparagus, 25.6 kg: needed after its last day, Thu 4 March; 3.2 kg of it for these services" in output
    assert "34.4 kg" in page
    assert "until Sat 20 March" in page
    assert page.count("out of season") == 1  # Friday's, after Thursday's last day


def test_without_a_pack_just_what_is_needed(kitchen):
    rows, _, page = order()
    assert [row["ordered"] for row in rows if row["item"] == "leek"] == ["1250", "1250", "1875", "2500", "2500"]
    assert [row["delivery"] for row in rows if row["item"] == "leek"] == [f"2027-03-0{day}" for day in range(2, 7)]
    assert "no pack known" in page


def test_what_has_no_supplier_stands_together_at_the_end(kitchen):
    rows, output, page = order()
    (salt,) = [row for row in rows if row["item"] == "salt"]
    assert (salt["supplier"], salt["needed"], salt["unit"]) == ("", "75", "g")  # 10 g for each 3 kg, 22.5 kg in all
    assert "No supplier known" in page
    assert "In the house by Mon 1 March" in page
    assert "not bought: water 24 L" in output  # 2 L for each 750 g, 9 kg in all


def test_too_late(kitchen):
    """Written on Sunday, three days are too few for Tuesday: 6 + 6 + 9 + 12 kg come with Friday's 12."""
    rows, output, page = order(written="2027-02-28")
    assert bought(rows, "brill") == [("2027-03-02T14:00", "2027-03-05", "45", "9", "45", "0")]
    assert [row["in_time"] for row in rows if row["item"] == "brill"] == ["no"]
    assert "next delivery Fri 5 March, first service it can serve Sat 6 March. brill, whole 33 kg" in output
    assert "33 kg" in page
    assert "comes too late" in page
    assert "What it is for: brill, whole for Brill fillet, salted" in page


def test_covers_said_now_stand_before_the_menu(kitchen):
    rows, output, _ = order("--covers", "10", "--covers", "sat=60", "--covers", "2027-03-04=50")
    assert "Thu 4 March 50 covers" in output
    assert "Sat 6 March 60 covers" in output
    assert [row["ordered"] for row in rows if row["item"] == "leek"] == ["625", "625", "3125", "625", "3750"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_money_on_the_sheet(kitchen, paper):
    _, output, page = order("--paper", paper)
    assert "£" not in page + output


def test_cost_of_the_plate(kitchen):
    """Fish 300 g at 12.00 a kg is 3.60, asparagus 80 g at 9.00 is 0.72, leek 62.5 g at 2.00 is 0.125: 4.445 of 24."""
    result = CliRunner().invoke(command, ["cost", "--date", "2027-03-03", "--csv", "cost.csv"], catch_exceptions=False)
    assert "≥ £4.45  £24.00  ≥ 18.5 %" in result.output  # salt has no price
    assert "no price that reaches the amount for salt" in result.output
    (row,) = csv.DictReader(io.StringIO(Path("cost.csv").read_text(encoding="utf-8")))
    assert (row["cost"], row["at_least"], row["without_price"]) == ("4.445", "yes", "salt")
