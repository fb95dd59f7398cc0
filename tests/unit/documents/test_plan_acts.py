"""What a cook does in one go: every minute of hands of a day stands in exactly one go, and none is parted needlessly."""

from datetime import timedelta
from itertools import pairwise

import pytest
from planned_house import small_house, week_plan

from linebook.documents.plan_acts import goes_on, in_parts
from linebook.documents.plan_words import days_of


def spans_by_hand(plan, line, day):
    """Each stretch of hands on a load, read off the plan itself."""
    found = []
    for making in plan.makings:
        if making.batch.component.line != line:
            continue
        for stage in making.stages:
            if stage.start.date() == day and stage.alone > stage.start:
                found.append((making.number, stage.number, stage.load, stage.start, stage.alone))
            if stage.done.date() == day and stage.over > stage.done:
                found.append((making.number, stage.number, stage.load, stage.done, stage.over))
    return sorted(found)


@pytest.mark.parametrize("covers", [40, 60, 200])
def test_all_hands_are_in_one_go_each(covers):
    plan = week_plan(covers=covers)
    seen = 0
    for line in small_house().file.lines:
        for day in days_of(plan):
            goes = goes_on(plan, line.id, day)
            acts = sorted(
                (go.making.number, act.stage.number, act.stage.load, act.at, act.end)
                for go in goes
                for act in go.acts
                if act.minutes
            )
            assert acts == spans_by_hand(plan, line.id, day)
            seen += len(acts)
    assert seen > 20


@pytest.mark.parametrize("covers", [40, 60, 200])
def test_a_go_has_no_pause_and_a_new_one_has(covers):
    plan = week_plan(covers=covers)
    merged = 0
    for line in small_house().file.lines:
        for day in days_of(plan):
            by_batch = {}
            for go in goes_on(plan, line.id, day):
                ends = go.acts[0].end
                for act in go.acts[1:]:
                    assert act.at <= ends + timedelta(minutes=10)
                    ends = max(ends, act.end)
                assert len(go.acts) == 1 or go.end - go.at <= timedelta(hours=2)
                merged += len(go.acts) > 1
                by_batch.setdefault(go.making.number, []).append(go)
            for goes in by_batch.values():
                for before, after in pairwise(goes):
                    longer = after.acts[0].end - before.at > timedelta(hours=2)
                    assert longer or after.at > before.end + timedelta(minutes=10)
    assert merged


def test_goes_are_in_the_order_of_the_day_and_parted_by_service():
    plan = week_plan()
    house = small_house()
    service = house.file.service
    for day in days_of(plan):
        goes = goes_on(plan, "stove", day)
        assert [go.at for go in goes] == sorted(go.at for go in goes)
        doors = goes[0].at.replace(hour=service.doors.hour, minute=service.doors.minute) if goes else None
        last = doors.replace(hour=21, minute=0) if doors else None
        parts = dict(in_parts(goes, doors, last))
        assert sum(len(part) for part in parts.values()) == len(goes)
        assert all(go.at < doors for go in parts.get("before", ()))
        assert all(doors <= go.at < last for go in parts.get("during", ()))
        assert all(go.at >= last for go in parts.get("after", ()))


def test_what_is_left_alone_is_not_done_when_the_hands_leave():
    left = [
        (go, stage) for day in days_of(week_plan()) for go in goes_on(week_plan(), "stove", day) for stage in go.left
    ]
    assert left
    assert all(stage.done > go.end for go, stage in left)
