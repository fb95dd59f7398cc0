"""What a line logs on a day of a plan: the clocks of the rules on the times of the plan, worked out by hand here."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest
from kitchen_factory import AT, component, line
from plan_factory import HOUR, MONDAY, days, place, served, small_house, span, stage, week

from linebook.compute.plan_cautions import day_cautions
from linebook.compute.prep_plan import compute_plan
from linebook.model.amounts import Temperature
from linebook.model.component import Limit, Store
from linebook.model.house import Climate

PLACES = (
    place("chiller", Climate.COLD),
    place("oven", Climate.HOT),
    place("bench", Climate.ROOM),
    place("freezer", Climate.FROZEN),
)
WEDNESDAY = MONDAY + timedelta(days=2)
FDA = "FDA Food Code 2022"


def degrees(celsius):
    return Temperature(celsius=Fraction(celsius), fahrenheit=False)


def planned(components, plates, rules=FDA, on=(WEDNESDAY,)):
    house = small_house(components, plates, service=week(), places=PLACES, rules=rules)
    plan = compute_plan(house, served(*on), first=MONDAY, last=max(on))
    assert not plan.unready
    return house, plan


def every_log(house, plan):
    found = []
    for at in range(-14, 14):
        found += day_cautions(house, plan, "stove", MONDAY + timedelta(days=at)).logs
    return found


def stew(**cooling):
    stages = (
        stage("cook", hands_on=10, unattended=60, where="oven"),
        stage("cool", where="chiller", limit=Limit.COOL, **cooling),
    )
    return component("stew", ingredients=[line("salt", "100 g", stage="cook")], keeps=days(3), stages=stages)


def test_both_clocks_of_cooling_count_from_its_start():
    house, plan = planned([stew(hands_on=10, unattended=3 * HOUR)], {"stew": "20 g"})
    (log,) = every_log(house, plan)
    assert log.limit is Limit.COOL
    assert log.at == log.stages[0].start
    # FDA Food Code 3-501.14(A), read: 2 h and 6 h
    assert log.clocks == (log.at + timedelta(hours=2), log.at + timedelta(hours=6))
    assert log.until == log.at + timedelta(hours=3, minutes=10)
    assert not log.breaks


def test_a_cooling_that_passes_six_hours_with_its_hands_is_marked():
    (log,) = every_log(*planned([stew(hands_on=30, unattended=5 * HOUR + 45)], {"stew": "20 g"}))
    assert log.until > log.clocks[-1]
    assert log.breaks


def test_a_first_stage_of_cooling_that_passes_two_hours_with_its_hands_is_marked():
    for hands, breaks in ((0, False), (10, True)):
        stages = (
            stage("cook", hands_on=10, unattended=60, where="oven"),
            stage("to 21", where="chiller", limit=Limit.COOL, hands_on=hands, unattended=120, until=degrees(21)),
            stage("to 5", where="chiller", limit=Limit.COOL, unattended=120),
        )
        part = component("stew", ingredients=[line("salt", "100 g", stage="cook")], keeps=days(3), stages=stages)
        (log,) = every_log(*planned([part], {"stew": "20 g"}))
        assert log.breaks is breaks


def test_what_never_was_hot_has_one_clock():
    """FDA Food Code 3-501.14(B), read: 5 °C within 4 h, where it is made from ingredients at room temperature."""
    stages = (
        stage("mix", hands_on=10, where="bench"),
        stage("chill", where="chiller", limit=Limit.COOL, unattended=3 * HOUR),
    )
    part = component("salad", ingredients=[line("salt", "100 g", stage="mix")], keeps=days(3), stages=stages)
    (log,) = every_log(*planned([part], {"salad": "20 g"}))
    assert log.from_room
    assert log.clocks == (log.at + timedelta(hours=4),)
    unknown = replace(part, stages=(stage("mix", hands_on=10), stages[1]))  # it may be hot
    (log,) = every_log(*planned([unknown], {"salad": "20 g"}))
    assert len(log.clocks) == 2
    (log,) = every_log(*planned([part], {"salad": "20 g"}, rules="UK"))
    assert not log.clocks


def test_rules_without_a_figure_give_no_clock():
    (log,) = every_log(*planned([stew(hands_on=30, unattended=7 * HOUR)], {"stew": "20 g"}, rules="UK"))
    assert log.clocks == ()
    assert not log.breaks


def test_cooling_in_two_stages_is_one_log_until_the_last():
    stages = (
        stage("cook", hands_on=10, unattended=60, where="oven"),
        stage("blast", hands_on=5, unattended=HOUR, where="chiller", limit=Limit.COOL),
        stage("rest", unattended=2 * HOUR, where="chiller", limit=Limit.COOL),
    )
    part = component("stew", ingredients=[line("salt", "100 g", stage="cook")], keeps=days(3), stages=stages)
    (log,) = every_log(*planned([part], {"stew": "20 g"}))
    assert log.until - log.at == timedelta(hours=3, minutes=5)


def test_what_is_frozen_for_raw_is_logged_in_and_out():
    cold = Temperature(celsius=Fraction(-20), fahrenheit=False)
    freeze = stage(
        "freeze", hands_on=10, unattended=(168 * HOUR, 200 * HOUR), where="freezer", until=cold, limit=Limit.FREEZE
    )
    part = component("loin", ingredients=[line("salt", "100 g", stage="freeze")], keeps=days(3), stages=(freeze,))
    into, out = every_log(*planned([part], {"loin": "20 g"}))
    assert (into.out, out.out) == (False, True)
    # FDA Food Code 3-402.11(A)(1), read: 168 h
    assert into.clocks == (into.stages[0].alone + timedelta(hours=168),)
    assert out.at >= into.clocks[0]


TIMED = [
    # out of the heat: 2 h in England (2013 Regulations, Schedule 4, from memory), 4 h under 3-501.19(B), read (Delaware)
    ("UK", "oven", None, 2),
    (FDA, "oven", None, 4),
    # out of the cold: 4 h; 6 h under 3-501.19(C) where it is known to stay at 21 °C or below
    ("UK", "chiller", None, 4),
    (FDA, "chiller", None, 4),
    (FDA, "chiller", 20, 6),
    # nobody says which: the shorter
    ("UK", "bench", None, 2),
    (FDA, "bench", None, 4),
]


@pytest.mark.parametrize(("rules", "before", "at", "hours"), TIMED)
def test_time_as_control_says_when_it_is_binned(rules, before, at, hours):
    heat = None if at is None else degrees(at)
    stages = (
        stage("first", hands_on=10, unattended=60, where=before),
        stage("hold", hands_on=5, where="bench", limit=Limit.TIME, heat=heat),
    )
    part = component("sauce", ingredients=[line("salt", "100 g", stage="first")], keeps=span(4 * HOUR), stages=stages)
    (log,) = every_log(*planned([part], {"sauce": "20 g"}, rules=rules))
    assert log.clocks == (log.at + timedelta(hours=hours),)


def test_what_ends_its_life_today_is_told_and_no_other_day():
    house, plan = planned([stew(hands_on=10, unattended=HOUR)], {"stew": "20 g"})
    (making,) = plan.makings
    told = {
        day: day_cautions(house, plan, "stove", day).last_days
        for day in (making.use_by - timedelta(days=1), making.use_by, making.use_by + timedelta(days=1))
    }
    (last,) = told.pop(making.use_by)
    assert (last.component, last.made) == ("stew", making.life_from)
    assert last.amount == making.batch.total
    assert not any(told.values())


def test_another_line_logs_nothing():
    house, plan = planned([stew(hands_on=10, unattended=HOUR)], {"stew": "20 g"})
    for at in range(-3, 6):
        found = day_cautions(house, plan, "larder", MONDAY + timedelta(days=at))
        assert not found.logs
        assert not found.last_days


def test_mixed_food_takes_the_date_of_the_part_made_first():
    """FDA Food Code 3-501.17(D), read: meat cooked on 1 June, in chili on 3 June, last day 7 June."""
    cold = Store(place="chiller", temperature=Temperature(celsius=Fraction(3), fahrenheit=False), **AT)
    meat = component(
        "meat",
        ingredients=[line("salt", "100 g", stage="cook")],
        keeps=days(7),
        store=cold,
        stages=(stage("cook", hands_on=30, where="oven"),),
    )
    chili = component(
        "chili",
        ingredients=[line("meat", "500 g", stage="soak"), line("salt", "10 g", stage="simmer")],
        keeps=days(7),
        store=cold,
        stages=(
            stage("soak", hands_on=10, unattended=47 * HOUR, where="chiller"),
            stage("simmer", hands_on=30, where="oven"),
        ),
    )
    served_on = date(2027, 6, 3)
    house = small_house([meat, chili], {"chili": "20 g"}, service=week(), places=PLACES, rules=FDA)
    plan = compute_plan(house, served(served_on), first=served_on, last=served_on)
    assert not plan.unready
    made = {making.component: making for making in plan.makings}
    assert made["meat"].life_from == date(2027, 6, 1)
    assert made["chili"].life_from == date(2027, 6, 3)
    assert made["chili"].use_by == date(2027, 6, 7)
