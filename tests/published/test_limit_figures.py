"""The figures of limit boxes against the rules that set them. Each value has its source beside it."""

from __future__ import annotations

import pytest

from linebook.model.component import Limit
from linebook.model.limits import RULE_SETS, Heat, rule_for

HOUR = 3600
DAY = 24 * HOUR


def pairs(rules, limit):
    return [(heat.celsius, heat.fahrenheit) for heat in rule_for(rules, limit).heats]


@pytest.mark.parametrize(
    ("limit", "heats", "times", "section"),
    [
        # FDA Food Code 2022, 3-401.11(A): 63 °C (145 °F) 15 s; 68 °C (155 °F) 17 s; 74 °C (165 °F) under 1 s
        (Limit.COOK, [(63, 145), (68, 155), (74, 165)], (15, 17), "3-401.11(A)"),
        # FDA Food Code 2022, 3-501.14(A): 57 to 21 °C (135 to 70 °F) in 2 h, to 5 °C (41 °F) in 6 h in all
        (Limit.COOL, [(57, 135), (21, 70), (5, 41)], (2 * HOUR, 6 * HOUR), "3-501.14(A)"),
        # FDA Food Code 2022, 3-501.16(A): hot 57 °C (135 °F) or above, cold 5 °C (41 °F) or below
        (Limit.HOLD, [(57, 135), (5, 41)], (), "3-501.16(A)"),
        # FDA Food Code 2022, 3-403.11(A) and (D): 74 °C (165 °F) for 15 s, within 2 h
        (Limit.REHEAT, [(74, 165)], (15, 2 * HOUR), "3-403.11(A)"),
        # FDA Food Code 2022, 3-402.11(A): -20 °C (-4 °F) for 168 h; -35 °C (-31 °F) for 15 h
        (Limit.FREEZE, [(-20, -4), (-35, -31)], (168 * HOUR, 15 * HOUR), "3-402.11(A)"),
        # FDA Food Code 2022, 3-501.19: 4 h from 5 °C or below or 57 °C or above; 6 h from 5 °C, never above 21 °C
        (Limit.TIME, [(5, 41), (57, 135), (21, 70)], (4 * HOUR, 6 * HOUR), "3-501.19"),
        # FDA Food Code 2022, 3-502.12(B): 5 °C (41 °F), 30 days, one further barrier
        (Limit.PACKED, [(5, 41)], (30 * DAY,), "3-502.12(B)"),
    ],
)
def test_food_code(limit, heats, times, section):
    rule = rule_for("FDA Food Code 2022", limit)
    assert pairs("FDA Food Code 2022", limit) == heats
    assert rule.times == times
    assert section in rule.source


def test_acid_and_oil():
    # 21 CFR 114.3: pH 4.6
    assert float(rule_for("FDA Food Code 2022", Limit.ACIDIFY).acidity) == 4.6
    # National Center for Home Food Preservation, garlic in oil (2002): 4 °C (40 °F), at most 7 days
    for rules in RULE_SETS:
        assert pairs(rules, Limit.OIL) == [(4, 40)]
        assert rule_for(rules, Limit.OIL).times == (7 * DAY,)


def test_uk():
    # Food Safety and Hygiene (England) Regulations 2013, Schedule 4: hot 63 °C or above, cold 8 °C or below;
    # one period of under 4 h above 8 °C, under 2 h below 63 °C
    assert [heat.celsius for heat in rule_for("UK", Limit.HOLD).heats] == [63, 8]
    assert rule_for("UK", Limit.TIME).times == (4 * HOUR, 2 * HOUR)
    # UK Food Standards Agency, cooking: 60 °C 45 min, 65 °C 10 min, 70 °C 2 min, 75 °C 30 s, 80 °C 6 s
    cook = rule_for("UK", Limit.COOK)
    assert [heat.celsius for heat in cook.heats] == [60, 65, 70, 75, 80]
    assert cook.times == (2700, 600, 120, 30, 6)


@pytest.mark.parametrize("rules", ["UK", "EU"])
def test_freezing_fish_in_europe(rules):
    # Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D: -20 °C for 24 h, -35 °C for 15 h
    rule = rule_for(rules, Limit.FREEZE)
    assert [heat.celsius for heat in rule.heats] == [-20, -35]
    assert rule.times == (24 * HOUR, 15 * HOUR)


def test_every_rule_set_answers_for_every_limit():
    for rules in RULE_SETS:
        for limit in Limit:
            assert rule_for(rules, limit).source


@pytest.mark.parametrize("celsius", range(-40, 110))
def test_a_conversion_is_never_looser_than_its_limit(celsius):
    exact = celsius * 9 / 5 + 32
    hot, cold = Heat(celsius=celsius), Heat(celsius=celsius, least=False)
    assert exact <= hot.fahrenheit < exact + 1
    assert exact - 1 < cold.fahrenheit <= exact
