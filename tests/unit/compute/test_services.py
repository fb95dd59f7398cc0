"""Which services a span has: worked out from a calendar by hand (1 March 2027 is a Monday)."""

from dataclasses import replace
from datetime import date

import pytest
from kitchen_factory import AT, house, listed, menu

from linebook.compute.services import CoversAsked, find_services, last_day_of, menu_in_force, weekday_of
from linebook.model.house import Service


def march(day: int) -> date:
    return date(2027, 3, day)


def kitchen(*, closed=(), days=("tue", "wed", "sat")):
    early = replace(menu("early", [listed("d")], march(2)), covers={"tue": 20, "wed": 30, "sat": 40})
    late = replace(menu("late", [listed("d")], march(9)), covers={"tue": 25, "wed": 35}, last=march(31))
    built = house(menus=[early, late])
    return replace(built, file=replace(built.file, service=Service(days=days, closed=closed, **AT)))


def found(*arguments, **own):
    outcome = find_services(kitchen(**own), *arguments)
    assert outcome.value is not None, outcome.faults
    return [(one.day.day, one.menu, one.covers) for one in outcome.value.days]


def test_the_menu_changes_within_the_span():
    asked = CoversAsked(weekdays={"sat": 50})
    assert found(march(1), 14, asked) == [
        (2, "early", 20),
        (3, "early", 30),
        (6, "early", 50),
        (9, "late", 25),
        (10, "late", 35),
        (13, "late", 50),
    ]


def test_a_closed_day_is_no_service():
    assert found(march(1), 7, closed=(march(3),)) == [(2, "early", 20), (6, "early", 40)]


def test_a_date_stands_before_a_weekday_before_all():
    asked = CoversAsked(every=5, weekdays={"wed": 6}, dates={march(10): 7})
    assert found(march(2), 9, asked) == [
        (2, "early", 5),
        (3, "early", 6),
        (6, "early", 5),
        (9, "late", 5),
        (10, "late", 7),
    ]


def test_days_before_the_first_menu_are_told():
    outcome = find_services(kitchen(), date(2027, 2, 27), 4)
    assert [one.day for one in outcome.value.days] == [march(2)]
    assert outcome.value.without_menu == (date(2027, 2, 27),)


@pytest.mark.parametrize(
    ("first", "days", "asked", "code", "says", "mend"),
    [
        (march(13), 1, CoversAsked(), "LB709", "no covers are known for Saturday 2027-03-13", "--covers sat=80"),
        (march(1), 1, CoversAsked(every=9), "LB709", "no service on Monday 2027-03-01", "tue, wed, sat"),
        (march(2), 1, CoversAsked(weekdays={"sat": 9}), "LB709", "covers are given for `sat`", "tue 2027-03-02"),
        (march(2), 1, CoversAsked(dates={march(4): 9}), "LB709", "covers are given for `2027-03-04`", "tue 2027-03-02"),
        (
            date(2027, 2, 2),
            2,
            CoversAsked(every=9),
            "LB902",
            "no menu is in force on 2027-02-02",
            "early from 2027-03-02",
        ),
        (date(2027, 4, 3), 1, CoversAsked(every=9), "LB902", "no menu is in force", "late from 2027-03-09"),
    ],
)
def test_faults(first, days, asked, code, says, mend):
    outcome = find_services(kitchen(), first, days, asked)
    assert outcome.value is None
    (fault,) = outcome.faults
    assert fault.code == code
    assert says in fault.message
    assert any(mend in hint for hint in fault.hints), fault.hints


def test_each_weekday_without_covers_is_told_once():
    outcome = find_services(kitchen(), march(9), 14)
    assert [fault.message for fault in outcome.faults] == ["no covers are known for Saturday 2027-03-13"]


def test_nobody_expected_is_no_service():
    built = kitchen()
    quiet = {**built.menus, "early": replace(built.menus["early"], covers={"tue": 0, "wed": 30, "sat": 40})}
    outcome = find_services(replace(built, menus=quiet), march(2), 2)
    assert [one.day.day for one in outcome.value.days] == [3]


def test_a_house_that_names_no_days_serves_when_it_has_covers():
    built = kitchen()
    open_house = replace(built, file=replace(built.file, service=None))
    outcome = find_services(open_house, march(1), 7)
    assert [one.day.day for one in outcome.value.days] == [2, 3, 6]
    every = find_services(open_house, march(2), 3, CoversAsked(every=10))
    assert [one.day.day for one in every.value.days] == [2, 3, 4]


def test_menus_end_where_the_next_begins():
    built = kitchen()
    assert last_day_of(built, "early") == march(8)
    assert last_day_of(built, "late") == march(31)
    assert menu_in_force(built, date(2027, 4, 1)) is None
    assert weekday_of(march(1)) == "mon"
    open_end = {**built.menus, "late": replace(built.menus["late"], last=None)}
    assert last_day_of(replace(built, menus=open_end), "late") is None
