"""By-products on a prep plan go in while they keep: weeks worked out by hand, of a butchery and a stock of its bones."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from types import MappingProxyType

import pytest
from kitchen_factory import amount, bought, component, line
from plan_checker import Checker
from plan_factory import MONDAY, days, place, served, small_house, stage, week

from linebook.compute.placing import Placing
from linebook.compute.plan_board import Board
from linebook.compute.plan_results import Making, PrepPlan, Strain
from linebook.compute.plan_run import Run
from linebook.compute.plan_trims import leaves_in_time
from linebook.compute.prep_plan import compute_plan
from linebook.compute.slots import A_DAY
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.component import ByProduct, Component
from linebook.model.dating import counts_in_trim
from linebook.model.house import House

THURSDAY, FRIDAY, SATURDAY, SUNDAY = (MONDAY + timedelta(days=at) for at in range(3, 7))
NOTHING: tuple[Strain, ...] = ()


def fillet(bones_keep: int, *, side: bool = False) -> Component:
    """Fillets for five days, and the bones they leave when they are cut; of a side made before, where there is one."""
    bones = ByProduct(
        item="bones",
        name="bones",
        amount=amount("200 g"),
        after="cut",
        keeps=days(bones_keep),
        span=week().span,
        spans={},
    )
    stages = (stage("cut", hands_on=30), stage("cure", hands_on=5, unattended=60, where="walk-in", sets_date=True))
    lines = [line("side", "1 kg", stage="cut")] if side else []
    return component("fillet", "1 kg", lines, stages=stages, keeps=days(5), also_makes=(bones,))


def stock(keeps: int, *, anew: bool = True) -> Component:
    """A stock of bones, half an hour of work; its days count from when it is cooked, or else by the bones' own too."""
    stages = (stage("boil", hands_on=30, sets_date=anew),)
    return component("stock", "1 kg", [line("bones", "500 g")], stages=stages, keeps=days(keeps))


def kitchen(*parts: Component) -> House:
    return small_house(list(parts), {"fillet": "10 g", "stock": "10 g"}, service=week(), places=(place("walk-in"),))


def planned(house: House) -> PrepPlan:
    """Both are served on Thursday and on Sunday; the fillets for both days are cut on Thursday."""
    plan = compute_plan(house, served(THURSDAY, SUNDAY), first=THURSDAY, last=SUNDAY)
    assert Checker(house, plan).faults() == []
    assert [(one.services, one.ready.date(), one.strains) for one in of(plan, "fillet")] == [
        ((THURSDAY, SUNDAY), THURSDAY, NOTHING)
    ]
    return plan


def of(plan: PrepPlan, id_: str) -> list[Making]:
    return [making for making in plan.makings if making.component == id_]


def for_sunday(plan: PrepPlan) -> tuple[datetime, date | None, tuple[Strain, ...]]:
    (making,) = (one for one in of(plan, "stock") if one.services == (SUNDAY,))
    return making.ready, making.use_by, making.strains


def at(day: date, hour: int, minute: int = 0) -> datetime:
    return datetime.combine(day, time(hour, minute))


def test_what_is_made_of_trim_is_made_while_that_keeps() -> None:
    # Bones of Thursday keep until Friday, and the stock from Friday until Sunday: Friday night, when service is over.
    plan = planned(kitchen(fillet(2), stock(3)))
    assert for_sunday(plan) == (at(FRIDAY, 23), SUNDAY, NOTHING)
    # From Saturday on there is a day more for it.
    plan = planned(kitchen(fillet(3), stock(3)))
    assert for_sunday(plan) == (at(SATURDAY, 23), MONDAY + timedelta(days=7), NOTHING)


def test_trim_that_is_over_must_be_there_already() -> None:
    # A stock of two days for Sunday is made on Saturday at the earliest, and the bones of Thursday are over on Friday.
    plan = planned(kitchen(fillet(2), stock(2)))
    assert for_sunday(plan) == (at(SUNDAY, 16), MONDAY + timedelta(days=7), (Strain.EARLIER_TRIM,))


@pytest.mark.parametrize(
    ("bones_keep", "strains", "use_by"),
    [
        (3, (Strain.EARLIER_TRIM,), MONDAY + timedelta(days=10)),
        (4, NOTHING, SUNDAY),
        (5, NOTHING, SUNDAY + timedelta(1)),
    ],
)
def test_trim_whose_date_counts_keeps_until_the_service(
    bones_keep: int, strains: tuple[Strain, ...], use_by: date
) -> None:
    # Cooked without a date of its own: bones of Thursday that keep three days would be over on Saturday.
    made = component("stock", "1 kg", [line("bones", "500 g")], stages=(stage("boil", hands_on=30),), make_daily=True)
    plan = planned(kitchen(fillet(bones_keep), replace(made, keeps=days(5))))
    assert for_sunday(plan) == (at(SUNDAY, 16), use_by, strains)


def test_no_service_is_served_of_one_batch_that_its_trim_does_not_keep_for() -> None:
    # The stock of Thursday keeps until Monday by its own days, and so do bones of five; bones of three are over before.
    plan = planned(kitchen(fillet(5), stock(5, anew=False)))
    assert [one.services for one in of(plan, "stock")] == [(THURSDAY, SUNDAY)]
    plan = planned(kitchen(fillet(3), stock(5, anew=False)))
    assert [one.services for one in of(plan, "stock")] == [(THURSDAY,), (SUNDAY,)]


def test_trim_keeps_no_longer_than_what_it_was_cut_from() -> None:
    # The side is made on Thursday and keeps two days, so its bones do too, whatever is said of them.
    side = component("side", "1 kg", stages=(stage(hands_on=10),), keeps=days(2))
    plan = planned(kitchen(fillet(5, side=True), stock(3), side))
    assert of(plan, "side")[0].use_by == FRIDAY
    assert for_sunday(plan) == (at(FRIDAY, 23), SUNDAY, NOTHING)
    plan = planned(kitchen(fillet(5, side=True), stock(2), side))
    assert for_sunday(plan)[2] == (Strain.EARLIER_TRIM,)


def test_trim_of_a_card_without_stages_has_in_it_what_goes_in_there() -> None:
    cut = replace(fillet(5, side=True), stages=())
    (bones,) = cut.also_makes
    cut = replace(cut, ingredients=(replace(cut.ingredients[0], stage=None),), also_makes=(replace(bones, after=None),))
    assert counts_in_trim(cut, 0, cut.also_makes[0])
    assert not counts_in_trim(cut, 0, replace(cut.also_makes[0], source="water"))


@pytest.mark.parametrize("anew", [False, True])
def test_what_can_be_bought_too_waits_for_no_trim(anew: bool) -> None:
    house = kitchen(fillet(2), stock(3, anew=anew))
    house = replace(house, pantry=MappingProxyType({**house.pantry, "bones": bought("bones")}))
    assert for_sunday(planned(house)) == (at(SUNDAY, 16), MONDAY + timedelta(days=8), NOTHING)


def test_what_leaves_trim_is_not_moved_to_where_it_would_be_over() -> None:
    house, services = kitchen(fillet(2), stock(3)), served(THURSDAY, SUNDAY)
    run = Run(house, WorkCalendar(house, MONDAY - timedelta(days=30), 45), services, (), {})
    run.plan()
    (number,) = (at for at, one in enumerate(run.board.placed) if one.component.id == "fillet")
    assert leaves_in_time(run.board, number, earlier(run.board, number, 1))
    assert not leaves_in_time(run.board, number, earlier(run.board, number, A_DAY))


def earlier(board: Board, number: int, slots: int) -> Placing:
    placing = board.placed[number].placing
    moved = tuple(
        replace(leg, start=leg.start - slots, alone=leg.alone - slots, done=leg.done - slots, over=leg.over - slots)
        for leg in placing.legs
    )
    return replace(placing, legs=moved)
