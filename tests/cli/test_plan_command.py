"""``linebook plan``, ``labels`` and ``tasting``: wrong words, what is written where, and a plan that is made anew."""

from __future__ import annotations

import json
from pathlib import Path

import icalendar
import pytest
from pypdf import PdfReader
from running import Run

REPOSITORY = Path(__file__).parents[2]
DEMO = str(REPOSITORY / "specs")
OSIER = str(REPOSITORY / "tests" / "cases" / "small-house")
FROM = ("--from", "2027-03-03", "--covers", "60")
SAVED = "output/plan-2027-03-03.json"


def text_of(name):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(name).pages).split())


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--days", "0"), "0 is not in the range"),
        (("--days", "367"), "367 is not in the range"),
        (("--line", "stov"), "Did you mean `stove`?"),
        (("--covers", "0"), "`0` is not a number of covers"),
        (("--covers", "wed=40", "--covers", "wed=50"), "--covers is given twice for `wed`"),
        (("--closed", "2027-02-30"), "`2027-02-30` is not a date"),
        (("--arrives", "beef-shin"), "write ITEM=DATE"),
        (("--arrives", "beef-shn=2027-03-04"), "Did you mean `beef-shin`?"),
        (("--arrives", "beef-shin=soon"), "`soon` is not a date"),
        (("--without", "celeriak"), "Did you mean `celeriac`?"),
    ],
)
def test_a_wrong_word_exits_2(run: Run, arguments, says):
    result = run("plan", OSIER, "--from", "2027-03-03", *arguments)
    assert result.exit_code == 2
    assert says in result.stderr
    assert not Path("output").exists()


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01"])
def test_a_year_that_nobody_plans_in_exits_2(run: Run, day):
    for arguments in (("plan", OSIER, "--from", day), ("labels", OSIER, "--date", day)):
        result = run(*arguments, "--covers", "60")
        assert result.exit_code == 2
        assert f"`{day}` is no year to plan in: write one from 1950 to 2500" in result.stderr


def test_it_needs_a_first_day(run: Run):
    result = run("plan", OSIER)
    assert result.exit_code == 2
    assert "--from" in result.stderr


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (("--since", "nowhere.json"), "LB625", "`nowhere.json` cannot be read: no such file or directory"),
        (("--since", "notes.txt"), "LB625", "`notes.txt` is no plan that was saved"),
        (("--since", "list.json"), "LB625", "`list.json` is no plan that was saved"),
        (("--since", "deep.json"), "LB625", "`deep.json` is no plan that was saved"),
        (("--since", "bytes.json"), "LB625", "`bytes.json` is no plan that was saved"),
        (("--on-hand", "nowhere.yaml"), "LB115", "nowhere.yaml"),
    ],
)
def test_a_wrong_file_exits_1_and_writes_nothing(run: Run, arguments, code, says):
    Path("notes.txt").write_text("stock on Tuesday", encoding="utf-8")
    Path("list.json").write_text('[{"form": 1}]', encoding="utf-8")
    Path("deep.json").write_text("[" * 100_000, encoding="utf-8")
    Path("bytes.json").write_bytes(b"\xff\xfe{}")
    result = run("plan", OSIER, *FROM, *arguments)
    assert result.exit_code == 1
    assert f"error {code}" in result.stderr
    assert says in result.stderr
    assert not Path("output").exists()


def test_all_is_written_together_and_alike_twice(run: Run):
    result = run("plan", OSIER, *FROM)
    assert result.exit_code == 0, result.stderr
    names = sorted(one.name for one in Path("output").iterdir())
    assert {"plan-2027-03-03.ics", "plan-2027-03-03.json", "plan-stove-2027-03-03.pdf"} <= set(names)
    assert all(name.startswith("plan-") for name in names)
    before = {name: Path("output", name).read_bytes() for name in names}
    assert run("plan", "--house", OSIER, *FROM).exit_code == 0
    assert before == {name: Path("output", name).read_bytes() for name in names}
    assert len(icalendar.Calendar.from_ical(before["plan-2027-03-03.ics"]).walk("VEVENT")) > 20
    assert json.loads(before["plan-2027-03-03.json"])["first"] == "2027-03-03"
    assert "work by hand" in result.stdout


def test_a_folder_in_the_way_leaves_nothing_half_done(run: Run):
    Path("output/plan-2027-03-03.ics").mkdir(parents=True)
    result = run("plan", OSIER, *FROM)
    assert result.exit_code == 1
    assert "LB901" in result.stderr
    assert [one.name for one in Path("output").iterdir()] == ["plan-2027-03-03.ics"]


def test_nothing_changed_since_itself(run: Run):
    assert run("plan", OSIER, *FROM).exit_code == 0
    result = run("plan", OSIER, *FROM, "--since", SAVED)
    assert result.exit_code == 0
    assert "No time and no amount has changed since the saved plan." in result.stdout
    assert "Changed since" not in text_of("output/plan-stove-2027-03-03.pdf")


@pytest.mark.parametrize(
    ("arguments", "kind"),
    [
        (("--covers", "sat=160"), "more"),
        (("--covers", "fri=20"), "less"),
        (("--closed", "2027-03-05"), "less"),
        (("--without", "beef-shin"), "dropped"),
        (("--arrives", "celeriac=2027-03-05"), "dropped"),
    ],
)
def test_what_is_otherwise_is_planned_anew_and_marked(run: Run, arguments, kind):
    assert run("plan", OSIER, *FROM).exit_code == 0
    base = json.loads(Path(SAVED).read_text(encoding="utf-8"))
    result = run("plan", OSIER, *FROM, *arguments, "--since", SAVED, "-o", "again")
    assert result.exit_code == 0, result.stderr
    assert json.loads(Path("again/plan-2027-03-03.json").read_text(encoding="utf-8")) != base
    said = next(line for line in result.stdout.splitlines() if line.startswith("Since the saved plan:"))
    assert kind in said, said
    printed = text_of("again/plan-stove-2027-03-03.pdf")
    assert "Changed since the plan that was saved" in printed
    assert f"{kind}," in printed or f": {kind}" in printed


def test_without_an_item_nothing_of_it_is_started(run: Run):
    assert run("plan", OSIER, *FROM, "--without", "beef-shin").exit_code == 0
    made = {one["component"] for one in json.loads(Path(SAVED).read_text(encoding="utf-8"))["batches"]}
    assert made
    assert "braised-shin" not in made
    printed = [text_of(str(one)).casefold() for one in Path("output").glob("*.pdf")]
    assert printed
    assert not any("beef shin" in text.replace("without beef shin", "") for text in printed)


def test_on_a_closed_day_nothing_is_served(run: Run):
    assert run("plan", OSIER, *FROM, "--closed", "2027-03-05").exit_code == 0
    saved = json.loads(Path(SAVED).read_text(encoding="utf-8"))
    days = {day for one in saved["batches"] for day in one["services"]}
    assert "2027-03-05" not in days
    assert {"2027-03-04", "2027-03-06"} <= days


def test_what_comes_late_is_not_ready_and_says_when(run: Run):
    result = run("plan", OSIER, *FROM, "--arrives", "celeriac=2027-03-05")
    assert result.exit_code == 0
    assert "Not ready: Celeriac puree for Wed and Thu: it needs celeriac (here from Fri 5 March). " in result.stderr
    printed = text_of("output/plan-stove-2027-03-03.pdf")
    assert "Cannot be ready" in printed
    assert "(here from Fri 5 March)" in printed


def test_only_the_line_asked_for(run: Run):
    assert run("plan", OSIER, *FROM, "--line", "stove").exit_code == 0
    assert [one.name for one in Path("output").glob("*.pdf")] == ["plan-stove-2027-03-03.pdf"]


@pytest.mark.parametrize(
    "options", [("--languages", "en,es"), ("--languages", "es"), ("--ink", "grey"), ("--paper", "letter")]
)
def test_it_prints_as_every_sheet_does(run: Run, options):
    result = run("plan", OSIER, *FROM, "--line", "stove", *options)
    assert result.exit_code == 0, result.stderr
    printed = text_of("output/plan-stove-2027-03-03.pdf")
    assert ("Plan de preparación" in printed) is ("es" in "".join(options[1:]).split(",") or options[1] == "es")


def test_labels_of_a_day(run: Run):
    result = run("labels", OSIER, "--date", "2027-03-04", "--from", "2027-03-03", "--covers", "60")
    assert result.exit_code == 0, result.stderr
    assert "of 70 x 37 mm" in result.stdout
    printed = text_of("output/labels-2027-03-04.pdf")
    assert "Measure this line: 50 mm" in printed
    assert "Use by" in printed
    assert "Contains" in printed


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--date", "2027-03-04", "--from", "2027-03-05"), "--from 2027-03-05 is after 2027-03-04"),
        (("--date", "2027-03-14", "--from", "2027-03-03"), "ends on 2027-03-09"),
        (("--date", "2027-03-04", "--start", "0"), "0 is not in the range"),
        (("--date", "2027-03-04", "--line", "colt"), "Did you mean `cold`?"),
    ],
)
def test_wrong_words_for_labels(run: Run, arguments, says):
    result = run("labels", OSIER, "--covers", "60", *arguments)
    assert result.exit_code == 2
    assert says in result.stderr
    assert not Path("output").exists()


def test_a_day_on_which_nothing_is_ready(run: Run):
    result = run("labels", OSIER, "--covers", "60", "--from", "2027-03-03", "--date", "2027-03-08")
    assert result.exit_code == 1
    assert "nothing to label" in result.stderr
    assert not Path("output").exists()


def test_tasting(run: Run):
    result = run("tasting", OSIER, "--date", "2027-03-06")
    assert result.exit_code == 0, result.stderr
    printed = text_of("output/tasting-2027-03-06.pdf")
    assert "Taste at 17:15" in printed
    assert "for Sat 6 March only, bin after service" in printed
    assert "Deep beef, then the sweetness of celeriac." in printed


def test_tasting_on_a_day_without_a_menu(run: Run):
    result = run("tasting", OSIER, "--date", "2029-03-06")
    assert result.exit_code == 1
    assert "LB902" in result.stderr


def test_the_demo_week_is_planned(run: Run):
    result = run("plan", DEMO, "--from", "2027-03-09", "--line", "hearth")
    assert result.exit_code == 0, result.stderr
    printed = text_of("output/plan-hearth-2027-03-09.pdf")
    assert "First, " in printed
    assert "Where it is kept is not written down" not in printed
    assert run("labels", DEMO, "--date", "2027-03-09").exit_code == 0


def test_what_falls_for_want_of_an_item_is_told_as_dropped(run: Run):
    assert run("plan", OSIER, *FROM).exit_code == 0
    Path("kept.json").write_text(Path(SAVED).read_text(encoding="utf-8"), encoding="utf-8")
    stove = Path("output/plan-stove-2027-03-03.pdf")
    assert "Braised shin" in text_of(stove)
    result = run("plan", OSIER, *FROM, "--without", "beef-shin")
    assert result.exit_code == 0, result.stderr
    assert f"{stove} is of an earlier plan: this one has nothing on that line. Bin it." in result.stderr
    result = run("plan", OSIER, *FROM, "--without", "beef-shin", "--since", "kept.json")
    assert " dropped." in result.stdout
    assert "is of an earlier plan" not in result.stderr
    assert "Braised shin: dropped" in text_of(stove)


def test_what_is_no_longer_in_the_specs_is_named(run: Run):
    assert run("plan", OSIER, *FROM).exit_code == 0
    saved = json.loads(Path(SAVED).read_text(encoding="utf-8"))
    saved["batches"].append({**saved["batches"][0], "component": "ox-tail"})
    Path("kept.json").write_text(json.dumps(saved), encoding="utf-8")
    result = run("plan", OSIER, *FROM, "--since", "kept.json")
    assert "In the saved plan and no longer in the specs: `ox-tail`. No sheet tells of it." in result.stderr
