"""What is saved of a prep plan comes back the same, and what has changed since is told by what was done to the plan."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import timedelta

import pytest
from kitchen_factory import component
from plan_factory import MONDAY, PlanHouse, days, served, small_house, stage, week
from test_plan_checked import plan_of

from linebook.compute.plan_record import ChangeKind, PlanRecord, from_plain, plan_changes, record_of, to_plain
from linebook.compute.prep_plan import compute_plan

TUESDAY, THURSDAY, SATURDAY = (MONDAY + timedelta(days=at) for at in (1, 3, 5))


def record(*on, covers: int = 10, loaf_keeps: int = 1) -> PlanRecord:
    parts = [
        component("loaf", stages=(stage(hands_on=30, unattended=60),), keeps=days(loaf_keeps)),
        component("jam", stages=(stage(hands_on=20),), keeps=days(30)),
    ]
    house = small_house(parts, {"loaf": "100 g", "jam": "10 g"}, service=week())
    return record_of(compute_plan(house, served(*on, covers=covers), first=MONDAY, last=MONDAY + timedelta(days=6)))


def told(old: PlanRecord, new: PlanRecord) -> list[tuple[str, tuple[ChangeKind, ...]]]:
    return [(change.component, change.kinds) for change in plan_changes(old, new)]


def test_a_saved_plan_comes_back_the_same() -> None:
    for seed in range(20):
        saved = record_of(plan_of(PlanHouse(seed)))
        assert from_plain(json.loads(json.dumps(to_plain(saved)))) == saved
        assert plan_changes(saved, saved) == ()


@pytest.mark.parametrize(
    "spoil",
    [
        lambda plain: [],
        lambda plain: {**plain, "form": 2},
        lambda plain: {**plain, "first": "soon"},
        lambda plain: {key: value for key, value in plain.items() if key != "last"},
        lambda plain: {**plain, "batches": [{**plain["batches"][0], "amount": "1/0"}]},
        lambda plain: {**plain, "batches": [{**plain["batches"][0], "stages": []}]},
        lambda plain: {**plain, "batches": [{**plain["batches"][0], "stages": [[0, 0]]}]},
        lambda plain: {**plain, "batches": ["loaf"]},
        lambda plain: {**plain, "batches": 3},
    ],
)
def test_what_is_no_saved_plan_is_none(spoil) -> None:
    assert from_plain(spoil(to_plain(record(TUESDAY)))) is None


def test_a_bigger_night_is_more_of_the_same_batches() -> None:
    assert told(record(TUESDAY, covers=10), record(TUESDAY, covers=20)) == [
        ("loaf", (ChangeKind.MORE,)),
        ("jam", (ChangeKind.MORE,)),
    ]
    assert told(record(TUESDAY, covers=20), record(TUESDAY, covers=10)) == [
        ("loaf", (ChangeKind.LESS,)),
        ("jam", (ChangeKind.LESS,)),
    ]


def test_a_service_more_is_a_batch_more_of_what_does_not_keep() -> None:
    fewer, more = record(TUESDAY, SATURDAY), record(TUESDAY, THURSDAY, SATURDAY)
    changes = plan_changes(fewer, more)
    assert [(one.component, one.kinds) for one in changes] == [("jam", (ChangeKind.MORE,)), ("loaf", (ChangeKind.NEW,))]
    assert changes[1].after is not None
    assert changes[1].after.services == (THURSDAY,)
    assert changes[1].number is not None
    assert more.batches[changes[1].number] == changes[1].after
    dropped = plan_changes(more, fewer)
    assert [(one.component, one.kinds) for one in dropped] == [
        ("jam", (ChangeKind.LESS,)),
        ("loaf", (ChangeKind.DROPPED,)),
    ]
    assert (dropped[1].before, dropped[1].after, dropped[1].number) == (changes[1].after, None, None)


def test_a_service_that_falls_away_moves_what_was_made_for_it_first() -> None:
    old, new = record(TUESDAY, THURSDAY, loaf_keeps=3), record(THURSDAY, loaf_keeps=3)
    changes = {change.component: change for change in plan_changes(old, new)}
    assert changes["loaf"].kinds == (ChangeKind.MOVED, ChangeKind.LESS)
    assert changes["loaf"].before is not None
    assert changes["loaf"].after is not None
    # Set-up is at 16:00: 30 minutes of work and an hour in the oven before it.
    assert changes["loaf"].before.start.isoformat() == "2027-03-02T14:30:00"
    assert changes["loaf"].after.start.isoformat() == "2027-03-04T14:30:00"


def test_only_what_both_plans_could_hold_is_compared() -> None:
    old = record(TUESDAY)
    week_later = replace(old, first=old.first + timedelta(days=7), last=old.last + timedelta(days=7), batches=())
    assert plan_changes(old, week_later) == ()
