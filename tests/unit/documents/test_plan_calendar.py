"""The calendar of a plan, read by another program and held against RFC 5545 line by line."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time

import icalendar
import pytest
from planned_house import small_house, week_plan

from linebook.documents.plan_calendar import plan_calendar
from linebook.documents.wording import english, wording_in

LINES = ("stove", "cold")
ISSUED = date(2027, 3, 2)


def text_of(plan=None, house=None, lines=LINES, wording=None):
    return plan_calendar(house or small_house(), plan or week_plan(), lines, wording or english(), ISSUED)


def events_of(text):
    calendar = icalendar.Calendar.from_ical(text)
    assert not calendar.errors
    found = calendar.walk("VEVENT")
    assert not [error for one in found for error in one.errors]
    return found


def named(name):
    part = small_house().components["braised-shin"]
    return replace(small_house(), components={**small_house().components, "braised-shin": replace(part, name=name)})


def test_an_event_for_each_time_hands_are_put_to_a_stage():
    plan = week_plan()
    expected = []
    for making in plan.makings:
        for stage in making.stages:
            for start, end in ((stage.start, stage.alone), (stage.done, stage.over)):
                if end > start and plan.first <= start.date() <= plan.last:
                    expected.append((start, end))
    found = [(one.start, one.end) for one in events_of(text_of()) if ".tasting@" not in str(one["UID"])]
    assert sorted(found) == sorted(expected)
    assert len(found) > 20


def test_each_line_tastes_before_each_service():
    found = [one for one in events_of(text_of()) if ".tasting@" in str(one["UID"])]
    days = [service.day for service in week_plan().services]
    # Issue 6, common practice, no source: a quarter of an hour before a 17:30 opening
    expected = [(datetime.combine(day, time(17, 15)), datetime.combine(day, time(17, 30))) for day in days]
    assert sorted((one.start, one.end) for one in found) == sorted(expected * len(LINES))
    assert {str(one["SUMMARY"]) for one in found} == {"Tasting"}


def test_names_that_must_not_be_there_twice_and_stay_the_same():
    uids = [str(one["UID"]) for one in events_of(text_of())]
    assert len(set(uids)) == len(uids)
    assert uids == [str(one["UID"]) for one in events_of(text_of())]
    longer = {str(one["UID"]) for one in events_of(text_of(week_plan(days=8)))}
    assert len(set(uids) & longer) > len(uids) * 0.8


@pytest.mark.parametrize(
    "name",
    [
        "Shin; braised, pressed",
        'Shin \\ bone: "hot"',
        "Joue de bœuf à l’échalote, très longue, " + "é" * 120,
        "短い名前" * 30,
    ],
)
def test_what_is_written_is_read_again(name):
    text = text_of(house=named(name))
    titles = [str(one["SUMMARY"]) for one in events_of(text)]
    assert any(title.startswith(name) for title in titles)


def test_lines_are_folded_by_octets_and_end_as_the_standard_says():
    text = text_of(house=named("Crème brûlée à la fleur d’oranger " * 6))
    assert text.endswith("END:VCALENDAR\r\n")
    assert "\n" not in text.replace("\r\n", "")
    lines = text.split("\r\n")
    assert all(len(line.encode()) <= 75 for line in lines)
    assert any(line.startswith(" ") for line in lines)
    assert max(len(line.encode()) for line in lines) > 70


def test_each_event_has_what_the_standard_asks_for():
    for one in events_of(text_of()):
        assert {"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY"} <= set(one)
        assert one.start < one.end
        assert one.start.tzinfo is None  # a time of the house's own clock (3.3.5, form 1)
        assert one["DTSTAMP"].dt.tzinfo is not None
    calendar = icalendar.Calendar.from_ical(text_of())
    assert (str(calendar["VERSION"]), str(calendar["CALSCALE"])) == ("2.0", "GREGORIAN")
    assert calendar["PRODID"]


def test_only_the_lines_asked_for():
    for line in LINES:
        name = next(one.name for one in small_house().file.lines if one.id == line)
        told = {str(one["CATEGORIES"].to_ical().decode()) for one in events_of(text_of(lines=(line,)))}
        assert told == {name}


def test_in_two_languages():
    assert any(" / " in str(one["DESCRIPTION"]) for one in events_of(text_of(wording=wording_in(("en", "es")))))


def test_nothing_planned_is_still_a_calendar():
    assert not events_of(text_of(replace(week_plan(), makings=(), services=(), later=())))
