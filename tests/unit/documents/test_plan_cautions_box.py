"""The food-safety box of a prep plan: each limit one line with its clock times, then what to do when it is missed."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, time, timedelta
from fractions import Fraction
from pathlib import Path

import pytest

from linebook.compute.plan_cautions import day_cautions
from linebook.compute.prep_plan import compute_plan
from linebook.compute.services import find_services
from linebook.documents.plan_cautions import caution_box
from linebook.documents.prep_day import prep_day
from linebook.documents.wording import english
from linebook.model.amounts import Duration
from linebook.model.component import Limit
from linebook.pipeline import load_house

SPECS = Path(__file__).parents[3] / "specs"
TUESDAY, THURSDAY = date(2027, 3, 9), date(2027, 3, 11)


def planned(rules):
    house = load_house(SPECS, "specs").value
    house = replace(house, file=replace(house.file, rules=rules))
    services = find_services(house, TUESDAY, 3).value.days
    return house, compute_plan(house, services, first=TUESDAY, last=THURSDAY)


@pytest.fixture(scope="module")
def american():
    return planned("FDA Food Code 2022")


@pytest.fixture(scope="module")
def british():
    return planned("UK")


def box(kitchen, line="hearth", day=TUESDAY):
    return caution_box(*kitchen, line, day, english())


def clock(moment):
    return moment.strftime("%H:%M")


def test_a_row_a_limit_in_the_order_of_the_day(american):
    logs, rows = day_cautions(*american, "hearth", TUESDAY).logs, box(american).rows
    assert len(rows) == len(logs) > 3
    assert [row.when.plain for row in rows] == sorted(row.when.plain for row in rows)
    assert len({row.key for row in rows}) == len(rows)


def test_cooling_says_both_clocks_of_the_plan(american):
    rows = [
        (row, log)
        for row, log in zip(box(american).rows, day_cautions(*american, "hearth", TUESDAY).logs, strict=True)
        if log.limit is Limit.COOL
    ]
    assert rows
    for row, log in rows:
        if log.stages[0].start.time() > time(17, 0):
            continue
        # FDA Food Code 3-501.14(A), read: 21 °C within 2 h, 5 °C within 6 h, both from the start
        first, last = clock(log.at + timedelta(hours=2)), clock(log.at + timedelta(hours=6))
        assert row.rule.plain.replace("\N{NO-BREAK SPACE}", " ") == f"cool: 21 °C by {first}, 5 °C by {last}"
        assert row.twice


def test_rules_without_a_figure_say_so_and_give_the_time_of_the_plan(british):
    found = box(british)
    cooled = [row for row in found.rows if row.rule.plain.startswith("cool: planned by ")]
    assert cooled
    assert not any(row.twice for row in cooled)
    assert "the UK rules give no figure" in next(one.text.plain for one in found.rules if one.key == "rule.cool")


def test_each_limit_says_once_what_to_do_when_missed_and_the_sheet_who_decides(american):
    found = box(american)
    keys = [one.key for one in found.rules]
    assert len(keys) == len(set(keys)) > 1
    for one in found.rules:
        assert "Missed?" in one.text.plain
    assert "3-501.14(A)" in found.source.plain
    house, plan = american
    ends = prep_day(house, plan, "hearth", TUESDAY, english()).caution.plain
    assert ends.endswith("local code and your food-safety plan decide.")


def test_few_limits_that_are_checked_twice_have_two_lines_many_a_column(american, british):
    found, logs = box(british), day_cautions(*british, "hearth", TUESDAY).logs
    held = [log for log in logs if log.limit is Limit.HOLD]
    assert held
    assert len(found.rows) == len(logs) + len(held)
    assert not found.twice
    again = [row for row in found.rows if row.key.endswith(".again")]
    assert [row.name.plain for row in again] == ["Smoked short rib, glazed, Hold: again, later"]
    assert found.rows[found.rows.index(again[0]) - 1].key == again[0].key.removesuffix(".again")
    assert box(american).twice
    assert not any(row.key.endswith(".again") for row in box(american).rows)


def test_short_words_never_part_at_a_line_end(british):
    lines = [line.id for line in british[0].file.lines]
    days = [TUESDAY + timedelta(days=at) for at in range(3)]
    said = [row.name.plain for line in lines for day in days for row in box(british, line, day).rows]
    told = [text for text in said if "load" in text.replace("loaf", "")]
    assert told
    assert all(
        re.search("load\N{NO-BREAK SPACE}[0-9]+\N{NO-BREAK SPACE}of\N{NO-BREAK SPACE}[0-9]+", text) for text in told
    )


def test_what_ends_today_is_named_with_the_day_it_was_made(british):
    house, plan = british
    for line in house.file.lines:
        named = [one.text.plain for one in box(british, line.id).last_days]
        for making in plan.makings:
            if making.batch.component.line != line.id or making.ready.date() > TUESDAY:
                continue
            name = house.components[making.component].name
            if making.use_by == TUESDAY:
                assert any(text.startswith(name) for text in named), name
    assert any("made today" in one.text.plain for one in box(british).last_days)


def test_what_comes_out_a_week_later_has_its_date():
    house = load_house(SPECS, "specs").value
    loins = house.components["trout-loins"]
    week = Duration(least=Fraction(168 * 60), most=Fraction(200 * 60))
    frozen = tuple(replace(one, unattended=week) if one.limit is Limit.FREEZE else one for one in loins.stages)
    parts = {**house.components, loins.id: replace(loins, stages=frozen)}
    house = replace(house, components=parts, file=replace(house.file, rules="FDA Food Code 2022"))
    services = find_services(house, TUESDAY, 3).value.days
    plan = compute_plan(house, services, first=TUESDAY, last=THURSDAY)
    freezing = next(
        stage for one in plan.makings if one.component == loins.id for stage in one.stages if stage.number == 1
    )
    out = freezing.alone + timedelta(hours=168)  # FDA Food Code 3-402.11(A)(1), read
    rows = caution_box(house, plan, "larder", freezing.start.date(), english()).rows
    said = [row.rule.plain.replace("\N{NO-BREAK SPACE}", " ") for row in rows]
    assert f"freeze for raw: in; out no earlier than {out:%a} {out.day} {out:%B} {clock(out)}" in said


def test_a_line_with_nothing_to_log_has_no_rows_and_no_source(british):
    found = box(british, "hearth", date(2027, 3, 1))
    assert (found.rows, found.rules, found.source.plain) == ((), (), "")
