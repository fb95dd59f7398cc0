"""Days with too much work, with the answer worked out by hand: done earlier where no limit breaks, else marked."""

from __future__ import annotations

from datetime import time

from kitchen_factory import component
from plan_factory import days, kitchen_line, small_house, stage, week
from test_plan_cases import TUESDAY, WEDNESDAY, at, planned

from linebook.compute.plan_results import Strain


def test_one_cook_has_two_hands_and_the_work_that_keeps_is_done_the_day_before() -> None:
    parts = [
        component("terrine", stages=(stage(hands_on=300),), keeps=days(3)),
        component("salad", stages=(stage(hands_on=300),), keeps=days(3), make_daily=True),
    ]
    house = small_house(parts, {"terrine": "1 g", "salad": "1 g"}, service=week(), lines=(kitchen_line(cooks=1),))
    plan = planned(house, WEDNESDAY)
    # Both take five hours and are wanted at 16:00, and there are seven since 9:00.
    assert [(one.component, one.start, one.strains) for one in plan.makings] == [
        ("terrine", at(TUESDAY, 12, 30), ()),
        ("salad", at(WEDNESDAY, 11), ()),
    ]
    assert not any(one.is_over for one in plan.work)


def test_two_that_cannot_be_done_earlier_are_marked() -> None:
    parts = [component(id_, stages=(stage(hands_on=300),), make_daily=True) for id_ in ("salad", "slaw")]
    house = small_house(
        parts,
        {"salad": "1 g", "slaw": "1 g"},
        service=week(staffed=(9, 17), doors=time(18)),
        lines=(kitchen_line(cooks=1),),
    )
    plan = planned(house, WEDNESDAY)
    assert sorted((one.component, one.strains) for one in plan.makings) == [
        ("salad", ()),
        ("slaw", (Strain.SHORT_OF_COOKS,)),
    ]
    (work,) = plan.work
    assert (work.minutes, work.available, work.is_over, work.movable) == (600, 480, True, ())


def test_a_day_with_too_much_work_is_eased_by_what_keeps() -> None:
    parts = [
        component("terrine", stages=(stage(hands_on=180),), keeps=days(3)),
        component("salad", stages=(stage(hands_on=540),), make_daily=True),
    ]
    house = small_house(
        parts,
        {"terrine": "1 g", "salad": "1 g"},
        service=week(),
        lines=(kitchen_line(cooks=1, set_up=time(22)),),
    )
    plan = planned(house, WEDNESDAY)
    # Nine hours in one go reach into the service whenever they begin; with the other three they are more than the ten
    # and a half outside service. The three are done the day before, until the doors open again at its end.
    assert [(one.component, one.start.date(), one.strains) for one in plan.makings] == [
        ("terrine", TUESDAY, ()),
        ("salad", WEDNESDAY, (Strain.IN_SERVICE,)),
    ]
    assert not any(one.is_over for one in plan.work)
