"""What the smokehouse orders and what it costs, worked out by hand; what it makes is in test_teasel_quay."""

from __future__ import annotations

import csv
from pathlib import Path

from house_prints import run_house
from pypdf import PdfReader

NAME = "teasel-quay"
DAY = ("--date", "2027-10-02")

# Services of 30 September, 1, 2, 8 and 9 October; Thursday 7 is closed. Trout is 66 % usable (9.9 of 15 kg):
# 2.316, 3.474, 4.632, 3.474, 4.632 kg as bought. It takes a day and 50 minutes: two days. Thursday's comes on Friday 24;
# 2.5 - 2.316 = 0.184 kg are left for Friday's and Saturday's of Wednesday 29: 7.921 kg; and so on.
# Hocks take 67 hours with the terrine: three days. Monday 27 is before Tuesday 28, the first that can still come.
# 12, 18, 24, 18, 24 pieces of terrine from blocks of 20 that keep 4 days: 8, 10, 6 and 2 are left for the next service
# (the 6 not over the week), so 1, 1, 1, 1 and 2 blocks of 4.267 kg hock: 12.8 kg, then 12.8 less the 3.2 the packs leave.
# Belly, 90 %: 3 kg at the least on Thursday for 2.4 leave 0.6 for Friday's 3.6: 3 + 3 + 4.8 made of 18 kg, then
# 3.6 + 4.8 of 14, less the two kilograms left.
ORDERED = {
    "trout": [
        ("2027-09-23T14:00", "2027-09-24", "2.31579", "1", "0.18421", "yes"),
        ("2027-09-28T14:00", "2027-09-29", "7.921053", "4", "2.078947", "yes"),
        ("2027-10-05T14:00", "2027-10-06", "6.026316", "3", "1.473684", "yes"),
    ],
    "ham-hock": [
        ("2027-09-26T12:00", "2027-09-28", "12.8", "4", "3.2", "no"),
        ("2027-10-03T12:00", "2027-10-05", "9.6", "3", "2.4", "yes"),
    ],
    "pork-belly": [
        ("2027-09-26T12:00", "2027-09-28", "18", "4", "2", "yes"),
        ("2027-10-03T12:00", "2027-10-05", "12", "3", "3", "yes"),
    ],
    # 80 %: 1.28 + 1.92, 2.56, 1.92, 2.56, less what the packs leave
    "celeriac": [
        ("2027-09-28T20:00", "2027-09-29", "3.2", "4", "0.8", "yes"),
        ("2027-09-30T20:00", "2027-10-01", "1.76", "2", "0.24", "yes"),
        ("2027-10-05T20:00", "2027-10-06", "1.68", "2", "0.32", "yes"),
        ("2027-10-07T20:00", "2027-10-08", "2.24", "3", "0.76", "yes"),
    ],
    # 75 %: 1.68 + 2.52, 3.36, 2.52, 3.36; the last is covered by what is left of the fourth sack
    "potato": [
        ("2027-09-28T20:00", "2027-09-29", "4.2", "1", "0.8", "yes"),
        ("2027-09-30T20:00", "2027-10-01", "2.56", "1", "2.44", "yes"),
        ("2027-10-05T20:00", "2027-10-06", "0.08", "1", "4.92", "yes"),
    ],
    # Of 22, 32, 42, 32, 42 in tens, each with what the last left while it keeps: 30, 30, 40, 40, 40 of 60 ml
    "cream": [("", "2027-09-27", "10.8", "6", "1.2", "yes")],
    "gelatine": [("", "2027-09-27", "106", "", "0", "yes")],  # 11 + 11 + 14 + 14 + 14, and 7 for each of 6 terrines
    "water": [],  # costs nothing, is not ordered
}


def test_what_is_ordered_for_ten_days(tmp_path: Path) -> None:
    asked = ("order", "--from", "2027-09-30", "--days", "10", "--date", "2027-09-20")
    result = run_house(NAME, tmp_path, *asked, "-o", str(tmp_path / "sheet.pdf"))
    assert result.exit_code == 0, result.output
    text = result.output
    with (tmp_path / "sheet.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    keys = ("order_by", "delivery", "needed", "packs", "over", "in_time")
    found = {item: [tuple(row[key] for key in keys) for row in rows if row["item"] == item] for item in ORDERED}
    assert found == ORDERED
    assert (
        "Too late for Coldharbour Meats of Tue 21 September (order-by was Sun 19 September 12:00): next delivery "
        "Tue 28 September, first service it can serve Fri 1 October. ham hock, fresh 4.267 kg, by Mon 27 September. "
        "Touches Pressed hock; Smoked belly, celeriac on Thu 30."
    ) in text
    # 14 to 16 October, after the last day: 2.316 + 3.474 + 4.632 kg
    assert "trout, whole, 10.43 kg: later services of the menu need it after its last day, Fri 8 October" in text
    assert "belly trim: short by 72 g on Sat 2 October for Belly hash" in text
    paper = " ".join(page.extract_text() for page in PdfReader(tmp_path / "sheet.pdf").pages)
    assert "trout, whole Fri 8 October 18.53 kg 28.95 kg" in " ".join(paper.split())


def test_what_it_costs(tmp_path: Path) -> None:
    """Trout: 2.2 / 0.66 kg at 12.00 is 40.00, and 0.53 of salt, sugar, cure and dill: 40.53 for 1.9 kg on the plate.

    Belly: 6 / 0.9 kg at 7.20 is 48.00, and 0.18: 1.81 a portion; puree 0.21, sauce 0.02 (stock is worth nothing): 2.03.
    """

    def cost(*of: str) -> str:
        result = run_house(NAME, tmp_path, "cost", *of, *DAY)
        assert result.exit_code == 0, result.output
        return result.output

    assert "£40.53" in cost("cured-trout")
    assert "£21.33 a kg on the plate" in cost("cured-trout")
    menu = " ".join(cost().split())
    for line in (
        "£1.39 £9.00 15.4 %",
        "£0.82 £8.00 10.2 %",
        "£2.03 £19.00 10.7 %",
        "£0.24 £14.00 1.7 %",
        "£0.48 £7.00",
    ):
        assert line in menu
    tests = run_house(NAME, tmp_path, "yields", "trout", "--need", "6 kg").output
    assert "66 % usable" in tests
    assert "(60 % to 78 %)" in tests
    assert "cost factor: 1.5152" in tests
    assert "buy 9.091 kg" in tests
