"""The prep plans of three small houses, every answer worked out by hand before the tool was asked. Independent of the code.

Wherry Court, a hotel: doors 06:30, in the building 22:00 to 14:00, which is the night before each breakfast; closed on
Thursday 11 March, so that nobody is there from Wednesday 14:00 to Thursday 22:00. 60 portions (59 covers and one for the line-up).

Bacon, 80 g: sliced in the half hour before 06:15. It hangs 12 h at least, and between 14:00 and 22:00 nobody is there, so it is
hung at 13:50 the day before, lifted from the cure at 13:35, and put into it 96 h before, after half an hour of work: for Tuesday the
9th Thursday the 4th, 13:05. Seven days from the 9th are the 15th: six services, 28.8 kg. For the 16th that would be Thursday the 11th,
which is closed: Wednesday by 14:00, from 13:30, is 110 h to Monday 04:00, within the four days and a half the cure may take.

Beans: 7 h in the oven and ten minutes at either end, for 06:15 from 22:55 with the night shift near; soaked 8 h at least before,
at the end of the day shift, 13:50. For Friday they would be soaked on the Thursday: not ready, first on Saturday. Patties keep their
day: forty minutes, each day from 05:35. Poolish, 14 to 18 h before the loaf: for Friday stirred on Wednesday by 14:00, from 13:50.

Skerry Light, a fish house: Wednesday to Sunday, set up at 17:00, in the building 11:00 to midnight, service 18:00 to 21:30; 20 portions.

Bisque, 250 g, keeps four days from the day it is boiled: half an hour, 4 h, a quarter; ten minutes, 3 to 4 h in the chiller, five
minutes, 8 h at least: from 11:00 never for 17:00 of the same day. No hands during service: boiled off by 18:00, out of the
chiller at 22:05 after the longest time, so from 13:05. For Wednesday the Sunday before; boiled on Wednesday it serves Thursday to
Saturday; for Sunday on Saturday.
Crab keeps its day: an hour from 16:00, each day of service, and not on a Saturday that is closed.
Salmon that comes on Friday: cured 36 to 48 h and wiped down in 20 min, by 16:35 on Sunday, as one of the two cooks dresses crab
and the other slices bass from then on. So it is put in by Saturday 04:15: on Friday by midnight, from 23:30. Sunday is the first
service that has it.
Gravlax keeps five days. For Wednesday it must be done by Sunday midnight, wiped down from 23:40: that is made on Sunday the 7th,
though the clock then says Monday 00:00, and the fifth day is Thursday the 11th. So it serves two services, 20 portions of 60 g
each, and another batch the three after them.
Bass for raw: thawed at 23:50, frozen 168 h at least before and for that put in at 22:55 a week earlier, trimmed for 40 min.

Tally House: Friday to Sunday, one cook, Thursday 10:00 to 18:00 for preparing. Lamb roasts 14 to 18 h, cools, is pressed 12 to
24 h and keeps four days from the roast. For Friday it would be roasted by Sunday and keep until Wednesday: not ready, first on Saturday.
Levain stands 9 to 10 h and may wait 8: fed on the night before by 23:00, from 22:50, done 08:00 to 09:00, not at 03:00 in the night.
"""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from linebook.cli.main import command

HOUSES = Path(__file__).parent
WEEKS = {"wherry-court": ("2027-03-09", 7), "skerry-light": ("2027-03-10", 5), "tally-house": ("2027-03-12", 3)}


@pytest.fixture(autouse=True)
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> str:
    result = CliRunner().invoke(command, list(arguments), catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return result.output


def planned(house: str, *options: str) -> tuple[str, dict[str, list[tuple[float, str, str]]]]:
    """Return what was said, and by component the amount, start and end of each batch, as month, day and time."""
    first, days = WEEKS[house]
    said = run("plan", str(HOUSES / house), "--from", first, "--days", str(days), *options)
    found: dict[str, list[tuple[float, str, str]]] = {}
    for one in json.loads(Path(f"output/plan-{first}.json").read_text(encoding="utf-8"))["batches"]:
        start, end = one["stages"][0][2], one["stages"][-1][3]
        found.setdefault(one["component"], []).append((float(Fraction(one["amount"])), start[5:], end[5:]))
    return said, found


def starts(batches: list[tuple[float, str, str]]) -> list[str]:
    return [start for _, start, _ in batches]


def paper(name: str) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(name).pages).split())


def test_a_night_shift_leads_to_the_breakfast_after_it() -> None:
    said, batches = planned("wherry-court")
    assert batches["back-bacon"] == [
        (28.8, "03-04T13:05", "03-09T06:15"),
        (33.6, "03-10T13:30", "03-16T06:15"),
    ]
    assert starts(batches["sausage-patties"]) == [f"03-{day:02}T05:35" for day in (9, 10, 12, 13, 14, 15)]
    assert starts(batches["oven-beans"])[:3] == ["03-08T13:50", "03-09T13:50", "03-12T13:50"]
    assert "03-10T13:50" in starts(batches["poolish"])
    late = "Not ready: Oven beans for Fri 12 March: the house is closed on Thu 11 March, when it would be worked. "
    assert late + "It can be ready for Sat 13 March." in said
    assert said.count("Not ready") == 1
    grill = paper("output/plan-grill-2027-03-09.pdf")
    assert "06:15 Tasting every dish of the line, before the doors open at 06:30" in grill
    assert "Oven beans Bake, 6 kg, slow oven: done Wed 06:05" in grill  # the night of the 9th


def test_what_keeps_its_day_is_made_for_each_service_and_not_for_a_closed_one() -> None:
    _, batches = planned("skerry-light")
    assert batches["dressed-crab"] == [(0.8, f"03-{day}T16:00", f"03-{day}T17:00") for day in range(10, 15)]
    assert [(made, start) for made, start, _ in batches["bisque"]] == [
        (5, "03-07T13:05"),
        (15, "03-10T13:05"),
        (5, "03-13T13:05"),
        (5, "03-14T13:05"),
    ]
    assert batches["gravlax"][:2] == [(2.4, "03-06T11:10", "03-08T00:00"), (3.6, "03-10T23:30", "03-12T16:35")]
    _, batches = planned("skerry-light", "--closed", "2027-03-13")
    assert starts(batches["dressed-crab"]) == [f"03-{day}T16:00" for day in (10, 11, 12, 14)]


def test_fish_that_comes_late_is_told_with_its_day_and_frozen_fish_has_its_week() -> None:
    said, batches = planned("skerry-light", "--arrives", "salmon=2027-03-12")
    assert batches["gravlax"][0][1:] == ("03-12T23:30", "03-14T16:35")
    late = "Not ready: Gravlax for Wed to Sat: it needs farmed salmon (here from Fri 12 March). "
    assert late + "It can be ready for Sun 14 March." in said
    (_, frozen, out) = batches["bass-frozen"][0]
    assert (frozen[-5:], out[-5:]) == ("22:55", "23:50")
    assert int(out[3:5]) + 28 * (out[:2] != frozen[:2]) - int(frozen[3:5]) == 7


def test_what_is_done_at_midnight_has_the_date_of_the_day_that_ends() -> None:
    days = ("--from", "2027-03-13", "--days", "5", "-o", "labels.pdf")
    run("labels", str(HOUSES / "skerry-light"), "--date", "2027-03-14", *days)
    assert "Gravlax Use by Thu 18 March Made Sun 14 March 24:00" in paper("labels.pdf")


def test_one_cook_one_oven_and_a_window_at_three_in_the_night() -> None:
    said, batches = planned("tally-house")
    assert "Pressed lamb for Fri 12 March: it does not keep until then. It can be ready for Sat 13 March." in said
    assert starts(batches["levain"])[1:] == ["03-12T22:50", "03-13T22:50"]
    (_, start, _), *others = batches["pressed-lamb"]
    assert (start[:5], others) == ("03-11", [])
    kitchen = paper("output/plan-kitchen-2027-03-12.pdf")
    assert "Kept under oil: at 40 °F or below, at most 7 d" in kitchen  # garlic-in-oil page, NCHFP (2002)
    assert "Cool: 135 °F to 70 °F within 2 h, then to 41 °F within 6 h in all" in kitchen  # 3-501.14(A)
    assert "Reheat: every part 165 °F for 15 s, reached within 2 h" in kitchen  # 3-403.11


@pytest.mark.parametrize("name", ["tasting", "lineup"])
def test_a_sheet_for_a_closed_day_says_so_and_names_the_next_service(name: str) -> None:
    said = run(name, str(HOUSES / "skerry-light"), "--date", "2027-03-09", "-o", "closed.pdf")
    assert "no service on Tuesday 2027-03-09. Is the date right? The next service is on Wednesday 2027-03-10." in said
    printed = paper("closed.pdf")
    assert "The house has no service on Tue 9 March: is the date right? The next service is on Wed 10 March." in printed
    assert "17:45" not in printed  # nothing is tasted before doors that stay shut
    run(name, str(HOUSES / "skerry-light"), "--date", "2027-03-10", "-o", "open.pdf")
    assert "no service" not in paper("open.pdf")
