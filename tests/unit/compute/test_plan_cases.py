"""Weeks that a kitchen meets, each with the answer worked out by hand; facts of the trade are common practice, no source.

Unless a case says otherwise the house is staffed from 9 to 23, serves every day from 17:30 to 21:00 and is set up at 16.
"""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest
from kitchen_factory import amount, bought, component, line
from plan_checker import Checker
from plan_factory import DAY, HOUR, MONDAY, days, kitchen_line, place, served, small_house, span, stage, week

from linebook.compute.plan_results import Barrier, Making, PrepPlan, Strain
from linebook.compute.prep_plan import compute_plan
from linebook.model.component import Attended, ByProduct
from linebook.model.house import Climate, House
from linebook.model.supply import StockEntry

SUNDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SATURDAY = (MONDAY + timedelta(days=at) for at in (-1, 1, 2, 3, 4, 5))
NEXT_SUNDAY = MONDAY + timedelta(days=6)
SMOKER = place("smoker", Climate.HOT, 1)
WALK_IN = place("walk-in")


def planned(house: House, *on: date, covers: int = 10, **more: object) -> PrepPlan:
    """The plan of some services, which the checker must find sound."""
    plan = compute_plan(house, served(*on, covers=covers), first=min(on), last=max(on), **more)
    assert Checker(house, plan, arrives=more.get("arrives")).faults() == []
    return plan


def of(plan: PrepPlan, component_id: str) -> list[Making]:
    return [making for making in plan.makings if making.component == component_id]


def at(day: date, hour: int, minute: int = 0) -> datetime:
    return datetime.combine(day, time(hour, minute))


def test_an_overnight_cook_and_an_overnight_press_start_on_thursday_night_for_saturday() -> None:
    pork = component(
        "pork",
        stages=(
            stage(
                "cook",
                hands_on=30,
                unattended=(14 * HOUR, 16 * HOUR),
                finish=10,
                where="oven",
                attended=Attended.LEFT,
            ),
            stage("press", hands_on=15, unattended=(12 * HOUR, 20 * HOUR), finish=10, where="walk-in"),
        ),
        keeps=days(4),
    )
    house = small_house([pork], {"pork": "100 g"}, service=week(), places=(place("oven", Climate.HOT), WALK_IN))
    (making,) = planned(house, SATURDAY).makings
    cook, press = making.stages
    # The press is over by 16:00 on Saturday and must be started while somebody is there: on Friday, by 23:00, the cook
    # taken out no more than half an hour before. The cook, 14 hours at least, is then put in on Thursday after service.
    assert (cook.start.date(), press.start.date(), making.ready.date()) == (THURSDAY, FRIDAY, SATURDAY)
    assert cook.start.time() >= time(21)
    assert cook.over <= press.start <= cook.over + timedelta(minutes=30)


def test_a_three_day_dough_for_saturday_starts_on_thursday() -> None:
    dough = component(
        "dough",
        stages=(
            stage("mix", hands_on=30, where="bench"),
            stage("bulk", hands_on=5, unattended=(20 * HOUR, 24 * HOUR), where="walk-in"),
            stage("shape", hands_on=30, where="bench"),
            stage("prove", hands_on=5, unattended=(16 * HOUR, 20 * HOUR), where="walk-in"),
            stage("bake", hands_on=10, unattended=40, finish=5, where="oven"),
        ),
        keeps=days(1),
    )
    places = (place("oven", Climate.HOT), WALK_IN, place("bench", Climate.ROOM))
    (making,) = planned(small_house([dough], {"dough": "100 g"}, service=week(), places=places), SATURDAY).makings
    assert (making.start.date(), making.ready) == (THURSDAY, at(SATURDAY, 16))


def test_a_closed_monday_inside_a_four_day_brine_changes_nothing_and_at_its_end_moves_it() -> None:
    ham = component("ham", stages=(stage(hands_on=20, unattended=4 * DAY, finish=20, where="walk-in"),), keeps=days(5))
    house = small_house([ham], {"ham": "100 g"}, service=week(closed=(MONDAY,)), places=(WALK_IN,))
    # Out of the brine from 15:40 to 16:00 on Thursday, so into it by 15:40 on Sunday: Monday is inside.
    (making,) = planned(house, THURSDAY).makings
    assert (making.start, making.ready) == (at(SUNDAY, 15, 20), at(THURSDAY, 16))
    # For Friday it would go in on Monday, when nobody is there: on Sunday after service, out on Thursday after service.
    (making,) = planned(house, FRIDAY).makings
    assert (making.start, making.ready) == (at(SUNDAY, 22, 20), at(THURSDAY, 23))


def test_a_life_of_one_day_and_services_on_friday_and_sunday_make_two_batches() -> None:
    sauce = component("sauce", stages=(stage(hands_on=30),), keeps=days(1))
    house = small_house([sauce], {"sauce": "100 g"}, service=week("fri", "sun"))
    plan = planned(house, FRIDAY, NEXT_SUNDAY)
    assert [(one.start, one.ready, one.use_by) for one in plan.makings] == [
        (at(FRIDAY, 15, 30), at(FRIDAY, 16), FRIDAY),
        (at(NEXT_SUNDAY, 15, 30), at(NEXT_SUNDAY, 16), NEXT_SUNDAY),
    ]


def test_one_smoker_wanted_by_two_dishes_takes_one_after_the_other() -> None:
    parts = [
        component(id_, stages=(stage(hands_on=30, unattended=6 * HOUR, where="smoker"),), keeps=days(2))
        for id_ in ("eel", "trout")
    ]
    house = small_house(parts, {"eel": "50 g", "trout": "50 g"}, service=week(), places=(SMOKER,))
    plan = planned(house, WEDNESDAY)
    # Six hours and a half each, somebody near all the while: one from 9:30 to 16:00, the other until 23:00 the day before.
    assert [(one.start, one.ready) for one in plan.makings] == [
        (at(TUESDAY, 16, 30), at(TUESDAY, 23)),
        (at(WEDNESDAY, 9, 30), at(WEDNESDAY, 16)),
    ]
    assert [one.strains for one in plan.makings] == [(), ()]


def test_of_two_dishes_the_one_that_keeps_makes_way_for_the_one_that_does_not() -> None:
    smoked = stage(hands_on=30, unattended=6 * HOUR, where="smoker")
    parts = [
        component("eel", stages=(smoked,), keeps=days(2)),
        component("trout", stages=(smoked,), keeps=days(2), make_daily=True),
    ]
    house = small_house(parts, {"eel": "50 g", "trout": "50 g"}, service=week(), places=(SMOKER,))
    plan = planned(house, WEDNESDAY)
    assert [(one.component, one.ready) for one in plan.makings] == [
        ("eel", at(TUESDAY, 23)),
        ("trout", at(WEDNESDAY, 16)),
    ]


def test_two_that_must_be_made_on_the_day_and_one_smoker_leave_one_without_room() -> None:
    smoked = stage(hands_on=30, unattended=6 * HOUR, where="smoker")
    parts = [component(id_, stages=(smoked,), keeps=days(2), make_daily=True) for id_ in ("eel", "trout")]
    house = small_house(parts, {"eel": "50 g", "trout": "50 g"}, service=week(), places=(SMOKER,))
    plan = planned(house, WEDNESDAY)
    assert [one.component for one in plan.makings] == ["eel"]
    (unready,) = plan.unready
    # Were there a second smoker, or were it smoked the day before, there would be a way; the first of the two is told.
    assert (unready.component, unready.service, unready.barrier) == ("trout", WEDNESDAY, Barrier.KEEPING)


def test_a_window_that_falls_at_three_in_the_morning_moves_into_staffed_hours() -> None:
    def house(most: int) -> House:
        stock = component(
            "stock",
            stages=(stage(hands_on=30, unattended=(6 * HOUR, most), finish=15, attended=Attended.LEFT, where="hob"),),
            keeps=days(1),
        )
        lines = (kitchen_line(set_up=time(9, 30)),)
        return small_house([stock], {"stock": "1 g"}, service=week(), lines=lines, places=(place("hob", Climate.HOT),))

    # On the hob by 23:00 when all go home, six hours end at 5:00: it simmers on until somebody is there at 9:00. Its life
    # begins on the day it is done, so that the evening before would not do.
    (making,) = planned(house(10 * HOUR), WEDNESDAY).makings
    assert (making.start, making.stages[0].done, making.ready) == (
        at(TUESDAY, 22, 30),
        at(WEDNESDAY, 9),
        at(WEDNESDAY, 9, 15),
    )
    plan = planned(house(9 * HOUR), WEDNESDAY)
    assert [(one.component, one.barrier) for one in plan.unready] == [("stock", Barrier.KEEPING)]


def test_hours_in_which_it_cannot_be_both_begun_and_ended_are_the_barrier() -> None:
    stock = component("stock", stages=(stage(hands_on=30, unattended=6 * HOUR, finish=15, where="walk-in"),))
    hours = week(staffed=(9, 11), doors=None, last=None)
    plan = planned(small_house([stock], {"stock": "1 g"}, service=hours, places=(WALK_IN,)), WEDNESDAY)
    assert [(one.component, one.barrier, one.first) for one in plan.unready] == [("stock", Barrier.HANDS, None)]


def test_what_needs_somebody_near_is_not_left_alone() -> None:
    house_of = {}
    for attended in (Attended.BUILDING, Attended.LEFT):
        stew = component(
            "stew",
            stages=(stage(hands_on=15, unattended=15 * HOUR, attended=attended, where="walk-in"),),
            keeps=days(2),
        )
        house_of[attended] = small_house([stew], {"stew": "1 g"}, service=week(), places=(WALK_IN,))
    plan = planned(house_of[Attended.BUILDING], WEDNESDAY)
    assert [one.barrier for one in plan.unready] == [Barrier.ALONE]
    (making,) = planned(house_of[Attended.LEFT], WEDNESDAY).makings
    # The last start is at 23:00 less a quarter of an hour, over at 14:00 the next day.
    assert (making.start, making.ready) == (at(TUESDAY, 22, 45), at(WEDNESDAY, 14))


def test_a_delivery_that_comes_too_late_says_so_and_what_it_keeps_from_the_table() -> None:
    parts = [
        component("cure", "1 kg", [line("roe", "1 kg")], stages=(stage(hands_on=20, unattended=DAY, where="walk-in"),)),
        component("paste", "1 kg", [line("cure", "1 kg")], stages=(stage(hands_on=10),), keeps=days(1)),
    ]
    house = small_house(parts, {"paste": "10 g"}, service=week(), places=(WALK_IN,))
    assert bought("roe").id in house.pantry
    plan = planned(house, WEDNESDAY, THURSDAY, FRIDAY, arrives={"roe": WEDNESDAY})
    told = [(one.component, one.service, one.barrier, one.part, one.first) for one in plan.unready]
    # In on Wednesday, cured until Thursday: 20 minutes from 9:00 and a day make 9:20, in time for Thursday.
    assert told == [
        ("cure", WEDNESDAY, Barrier.ARRIVAL, None, THURSDAY),
        ("paste", WEDNESDAY, Barrier.PART, "cure", THURSDAY),
    ]
    assert [one.services for one in of(plan, "paste")] == [(THURSDAY,), (FRIDAY,)]


def test_a_house_without_a_service_block_plans_around_the_clock_to_its_set_up_time() -> None:
    bread = component("bread", stages=(stage(hands_on=30, unattended=90),), keeps=days(1))
    plan = planned(small_house([bread], {"bread": "100 g"}), WEDNESDAY)
    assert [(one.start, one.ready) for one in plan.makings] == [(at(WEDNESDAY, 14), at(WEDNESDAY, 16))]


def test_a_house_in_which_nobody_ever_works_can_make_nothing() -> None:
    bread = component("bread", stages=(stage(hands_on=30),), keeps=days(1))
    closed = tuple(MONDAY + timedelta(days=day) for day in range(-200, 10))
    plan = planned(small_house([bread], {"bread": "100 g"}, service=week(closed=closed)), WEDNESDAY)
    assert plan.makings == ()
    assert [one.barrier for one in plan.unready] == [Barrier.CLOSED]


def test_a_component_without_stages_is_there_at_set_up() -> None:
    plan = planned(small_house([component("salt-mix")], {"salt-mix": "1 g"}, service=week()), WEDNESDAY)
    (making,) = plan.makings
    assert (making.start, making.ready, making.use_by) == (at(WEDNESDAY, 16), at(WEDNESDAY, 16), None)


def test_a_component_that_takes_more_than_a_year_is_started_that_long_before() -> None:
    vinegar = component(
        "vinegar", stages=(stage(hands_on=60, unattended=400 * DAY, where="walk-in"),), keeps=days(1000)
    )
    plan = planned(small_house([vinegar], {"vinegar": "1 g"}, service=week(), places=(WALK_IN,)), WEDNESDAY)
    assert plan.makings[0].start == at(WEDNESDAY, 15) - timedelta(days=400)


def test_nothing_wanted_is_nothing_made() -> None:
    bread = component("bread", stages=(stage(hands_on=30),))
    house = small_house([bread], {"bread": "10 g"}, service=week())
    plan = planned(house, WEDNESDAY, covers=0)
    assert (plan.makings, plan.unready, plan.work) == ((), (), ())
    empty = compute_plan(house, (), first=WEDNESDAY, last=WEDNESDAY)
    assert (empty.makings, empty.unready) == ((), ())


def test_fifty_loads_of_ten_minutes_fill_the_day_and_spill_into_the_evening_before() -> None:
    fritter = component("fritter", "1 kg", largest_batch="100 g", stages=(stage(hands_on=10),), keeps=days(2))
    house = small_house([fritter], {"fritter": "500 g"}, service=week(), lines=(kitchen_line(cooks=1),))
    (making,) = planned(house, WEDNESDAY).makings
    # 42 fit between 9:00 and 16:00; the other eight are worked until 23:00 the evening before.
    assert len(making.stages) == 50
    assert (making.start, making.ready) == (at(TUESDAY, 21, 40), at(WEDNESDAY, 16))
    assert sum(one.start.date() == WEDNESDAY for one in making.stages) == 42


def test_what_does_not_say_how_long_it_keeps_is_made_for_one_service() -> None:
    house = small_house([component("jelly", stages=(stage(hands_on=10),))], {"jelly": "1 g"}, service=week())
    plan = planned(house, WEDNESDAY, THURSDAY)
    assert [(one.services, one.use_by) for one in plan.makings] == [((WEDNESDAY,), None), ((THURSDAY,), None)]


def test_what_keeps_is_made_once_and_for_the_fewest_batches() -> None:
    house = small_house(
        [component("jelly", stages=(stage(hands_on=10),), keeps=days(3))], {"jelly": "1 g"}, service=week()
    )
    plan = planned(house, *(MONDAY + timedelta(days=day) for day in range(7)))
    assert [len(one.services) for one in plan.makings] == [3, 3, 1]
    assert all(one.ready == at(one.services[0], 16) for one in plan.makings)


@pytest.mark.parametrize(("field", "value"), [("make_daily", True), ("fresh_within", span(4 * HOUR))])
def test_what_is_made_daily_or_must_be_fresh_is_made_on_each_day(field: str, value: object) -> None:
    made = component("tuile", stages=(stage(hands_on=10),), keeps=days(7), **{field: value})
    plan = planned(small_house([made], {"tuile": "1 g"}, service=week()), WEDNESDAY, THURSDAY)
    assert [(one.services, one.ready) for one in plan.makings] == [
        ((WEDNESDAY,), at(WEDNESDAY, 16)),
        ((THURSDAY,), at(THURSDAY, 16)),
    ]


def test_what_a_tray_makes_beyond_its_need_is_not_made_again() -> None:
    cake = component(
        "cake",
        "1 kg",
        stages=(stage(hands_on=240),),
        keeps=days(2),
        batch_step=amount("1 kg"),
        largest_batch="1 kg",
    )
    # Four hours a tray and one cook: from 9:00 to 16:00 there is time for one tray, and for Wednesday 600 g are wanted;
    # the evening hours are too short. The 400 g left go to Thursday, whose own tray makes up the rest.
    house = small_house(
        [cake],
        {"cake": "60 g"},
        service=week(staffed=(9, 22)),
        lines=(kitchen_line(cooks=1, set_up=time(16)),),
    )
    first, second = planned(house, WEDNESDAY, THURSDAY).makings
    shares = [[(one.services, one.amount.number * 1000) for one in making.shares] for making in (first, second)]
    assert shares == [[((WEDNESDAY,), 600), ((THURSDAY,), 400)], [((THURSDAY,), 200)]]
    assert [making.batch.total.number for making in (first, second)] == [1, 1]
    assert first.use_by == THURSDAY


def test_stock_in_life_is_taken_first_and_ends_what_is_made_from_it() -> None:
    parts = [
        component("jus", "1 kg", stages=(stage(hands_on=30),), keeps=days(5)),
        component("glaze", "1 kg", [line("jus", "1 kg")], stages=(stage(hands_on=10),), keeps=days(5)),
    ]
    house = small_house(parts, {"glaze": "50 g"}, service=week())
    label = {"item": "jus", "amount": amount("2 kg"), "span": house.file.span, "spans": {}}
    plan = planned(house, WEDNESDAY, on_hand=(StockEntry(use_by=THURSDAY, **label),))
    assert [one.component for one in plan.makings] == ["glaze"]
    assert plan.makings[0].use_by == THURSDAY
    (use,) = plan.stock[WEDNESDAY]
    assert use.used is not None
    assert use.used.number * 1000 == 500
    over = planned(house, WEDNESDAY, on_hand=(StockEntry(use_by=TUESDAY, **label),))
    assert [one.component for one in over.makings] == ["jus", "glaze"]


def test_trim_is_used_after_what_leaves_it_or_it_is_marked() -> None:
    leaves = ByProduct(item="bones", name="bones", amount=amount("200 g"), **{"span": week().span, "spans": {}})
    parts = [
        component("fillet", "1 kg", stages=(stage(hands_on=30),), keeps=days(2), also_makes=(leaves,)),
        component("broth", "1 kg", [line("bones", "500 g")], stages=(stage(hands_on=30),), keeps=days(2)),
    ]
    house = small_house(parts, {"fillet": "10 g", "broth": "10 g"}, service=week())
    plan = planned(house, WEDNESDAY)
    # The fillets, planned first, are done at 16:00, when the broth must be ready: its bones are those of an earlier batch.
    assert [(one.component, one.start, one.strains) for one in plan.makings] == [
        ("fillet", at(WEDNESDAY, 15, 30), ()),
        ("broth", at(WEDNESDAY, 15, 30), (Strain.EARLIER_TRIM,)),
    ]
    # Fillets on Wednesday and Friday: the broth for Friday has the bones of Wednesday.
    plan = planned(house, WEDNESDAY, FRIDAY)
    assert [(one.component, one.services, one.strains) for one in plan.makings] == [
        ("fillet", (WEDNESDAY,), ()),
        ("broth", (WEDNESDAY,), (Strain.EARLIER_TRIM,)),
        ("fillet", (FRIDAY,), ()),
        ("broth", (FRIDAY,), ()),
    ]


def test_a_part_is_used_for_no_longer_than_it_keeps() -> None:
    parts = [
        component("yolk", "1 kg", stages=(stage(hands_on=10),), keeps=days(2)),
        component("cream", "1 kg", [line("yolk", "500 g")], stages=(stage(hands_on=10),), keeps=days(5)),
    ]
    house = small_house(parts, {"cream": "10 g"}, service=week())
    plan = planned(house, WEDNESDAY, THURSDAY, FRIDAY)
    assert [(one.services, one.use_by, one.strains) for one in of(plan, "cream")] == [
        ((WEDNESDAY, THURSDAY), THURSDAY, ()),
        ((FRIDAY,), SATURDAY, ()),
    ]


def test_closed_weeks_before_a_service_are_bridged() -> None:
    closed = tuple(MONDAY - timedelta(days=day) for day in range(1, 22))
    jam = component("jam", stages=(stage(hands_on=60, unattended=DAY, where="walk-in"),), keeps=days(60))
    house = small_house([jam], {"jam": "1 g"}, service=week(closed=closed), places=(WALK_IN,))
    (making,) = planned(house, MONDAY).makings
    assert making.start.date() == MONDAY - timedelta(days=22)
