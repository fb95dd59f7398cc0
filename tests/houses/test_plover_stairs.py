"""The prep plan of a small house, every start, ready time and use-by worked out by hand. Independent of the code.

Services Thursday to Sunday, 40, 60, 80 and 50 covers; in the house 10:00 to 23:00, Tuesday 10:00 to 18:00, Wednesday 12:00
to 18:00, nobody on Monday. Half of the covers take ham (100 g) and half the belly (one piece of 150 g).

Ham: smoke, finish and chill take 4 h 10 min, so for 16:00 on Thursday it leaves the brine by 11:50, lifted from 11:35. 96 h
before is Sunday 11:35, half an hour of work before it: Sunday 11:05, over the closed Monday. 115 portions: 11.5 kg.

Belly for Saturday: the press ends 15:30 and is set up by 23:00 on Friday, from 22:40. No cook of 14 h fits into Friday, so it is
put in on Thursday by 23:00, from 22:30. For Thursday: press Wednesday 17:40, cook Tuesday 17:30. Three days of life from the
day it is cooked, Wednesday and Friday: use by Friday 12th and Sunday 14th.

Loaf: 4 h 10 min from shaping to rested, so for 16:30 it is shaped at 12:20, and mixed 48 h before: Thursday 11:50 for Saturday.

Soured cream: 13 to 14 h with work at both ends. Counted back from 16:30 it would be stirred at 03:10; stirred Thursday by 23:00
it is done on Friday at 13:00. For Thursday no night before it can be used (Wednesday ends at 18:00, 14 h later is 08:00; nobody
on Monday), so it is stirred on Saturday the 6th, ready Sunday the 7th, and the fifth day of its life is Thursday the 11th.

Beetroot wants the smoker that ham takes from 11:50 on Thursday: its 1 h 45 min fit before it, from 10:05 to 11:50. Both cards keep
the dates of two services: 40 and 52 portions of 120 g.
"""

import json
import shutil
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from linebook.cli.main import command

HOUSE = Path(__file__).parent / "plover-stairs"


@pytest.fixture
def kitchen(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    shutil.copytree(HOUSE, tmp_path / "specs")
    return tmp_path


def run(*arguments, code=0):
    result = CliRunner().invoke(command, list(arguments), catch_exceptions=False)
    assert result.exit_code == code, result.output
    return result.output


def planned(*options):
    output = run("plan", "--from", "2027-03-09", "--days", "6", *options)
    saved = json.loads(Path("output/plan-2027-03-09.json").read_text(encoding="utf-8"))
    return output, saved["batches"]


def of(batches, component):
    return [
        (float(Fraction(one["amount"])), one["stages"][0][2][5:], one["stages"][-1][3][5:])
        for one in batches
        if one["component"] == component
    ]


def words(name):
    text = " ".join(page.extract_text() for page in PdfReader(name).pages)
    return " ".join(text.split())


def test_every_start_is_the_one_worked_out_by_hand(kitchen):
    _, batches = planned()
    assert of(batches, "brined-ham")[0] == (11.5, "03-07T11:05", "03-11T16:00")
    assert of(batches, "pressed-belly") == [
        (7.5, "03-09T17:30", "03-11T16:00"),
        (9.75, "03-11T22:30", "03-13T16:00"),
    ]
    assert of(batches, "long-dough") == [(8.0, "03-09T11:50", "03-11T16:30"), (10.4, "03-11T11:50", "03-13T16:30")]
    assert of(batches, "soured-cream")[:2] == [
        (0.32, "03-06T22:50", "03-07T13:10"),
        (1.53, "03-11T22:50", "03-12T13:10"),
    ]
    beet = of(batches, "smoked-beet")
    assert beet[0] == (4.8, "03-11T10:05", "03-11T11:50")
    assert [one[0] for one in beet] == [4.8, 6.24]
    assert [one[0] for one in of(batches, "green-sauce")] == [0.6, 0.9, 1.2, 0.75]
    assert "Soured cream since Sat 6 March 22:50" in words("output/plan-cold-2027-03-09.pdf")
    assert "since Sun 7 March 11:05" in words("output/plan-fire-2027-03-09.pdf")


def test_a_bigger_saturday(kitchen):
    _, batches = planned("--covers", "sat=160")
    assert of(batches, "brined-ham")[0][0] == 15.5
    assert of(batches, "pressed-belly")[1][0] == 15.75
    assert of(batches, "soured-cream")[1][0] == 2.17


def test_a_closed_saturday_leaves_friday_and_sunday(kitchen):
    output, batches = planned("--closed", "2027-03-13")
    assert [(one[0], one[2][:5]) for one in of(batches, "milk-curd")] == [
        (0.8, "03-11"),
        (1.2, "03-12"),
        (1.0, "03-14"),
    ]
    assert "Not ready: Pressed belly for Sun 14 March" in output


def test_pork_that_comes_on_friday_makes_sunday_only(kitchen):
    output, batches = planned("--arrives", "pork-side=2027-03-12")
    assert of(batches, "pressed-belly") == [(3.75, "03-12T22:30", "03-14T16:00")]
    late = "Not ready: Pressed belly for Thu to Sat: it needs side of pork (here from Fri 12 March). "
    assert late + "It can be ready for Sun 14 March." in output


def test_use_by_counts_from_the_cook_and_from_the_earliest_part(kitchen):
    run("labels", "--date", "2027-03-11", "--from", "2027-03-09", "-o", "labels.pdf")
    text = words("labels.pdf")
    assert "Pressed belly Use by Fri 12 March" in text
    assert "Green sauce Use by Thu 11 March" in text  # its cream was made on Sunday the 7th and keeps 5 days
    run("labels", "--date", "2027-04-01", "--from", "2027-03-30", "-o", "april.pdf")
    # FDA Food Code 2022, 3-501.17: seven days, the day of preparation is day 1: 1 April, use by 7 April
    assert "Ham, brined and smoked Use by Wed 7 April" in words("april.pdf")


def test_a_set_called_together_and_the_tasting(kitchen):
    run("call", "--house", "specs", "ham-plate=5", "pork-beans=8", "--date", "2027-03-13", "-o", "call.pdf")
    text = words("call.pdf").replace("\u2212", "-")
    for start in ("-18 Fire 2 of 8", "-13 Fire 1 of 5", "-10 Fire 6 of 8", "-7 Fire 4 of 5", "-4 Fire 8"):
        assert start in text
    run("tasting", "--date", "2027-03-13", "-o", "tasting.pdf")
    assert "Taste at 17:15" in words("tasting.pdf")
