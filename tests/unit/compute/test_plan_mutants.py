"""Defects planted in sound plans: the checker must see every one of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

import pytest
from kitchen_factory import amount, component, line
from plan_checker import Checker
from plan_factory import MONDAY, days, kitchen_line, place, served, small_house, stage, week

from linebook.compute.plan_results import Making, PlannedStage, PrepPlan, Strain
from linebook.compute.prep_plan import compute_plan
from linebook.model.amounts import Amount
from linebook.model.component import Attended
from linebook.model.house import Climate, House

HOUR, DAY = timedelta(hours=1), timedelta(days=1)


def sound() -> tuple[House, PrepPlan]:
    """A braise of two days from a stock, a bread made daily, an oven of one; three services."""
    parts = [
        component("stock", stages=(stage("boil", hands_on=30, unattended=240, where="hob"),), keeps=days(3)),
        component(
            "braise",
            "1 kg",
            [line("stock", "500 g", stage="braise"), line("meat", "1 kg", stage="braise")],
            stages=(
                stage("braise", hands_on=40, unattended=(180, 240), where="oven", attended=Attended.BUILDING),
                stage("press", hands_on=15, unattended=(480, 1200), finish=10, where="walk-in"),
            ),
            keeps=days(3),
            loss="0.1",
            batch_step=amount("500 g"),
        ),
        component("bread", stages=(stage("bake", hands_on=20, unattended=60, where="oven"),), make_daily=True),
        component("oil", stages=(stage("stir", hands_on=10),), keeps=days(2), fresh_within=None),
    ]
    house = small_house(
        parts,
        {"braise": "100 g", "bread": "50 g", "oil": "10 g"},
        service=week(),
        lines=(kitchen_line("stove", 1),),
        places=(place("oven", Climate.HOT, 1), place("hob", Climate.HOT, 1), place("walk-in")),
    )
    days_ = [MONDAY + timedelta(days=at) for at in (1, 2, 3)]
    return house, compute_plan(house, served(*days_), first=MONDAY, last=MONDAY + 3 * DAY)


def first_of(plan: PrepPlan, id_: str) -> Making:
    return next(making for making in plan.makings if making.component == id_)


def changed(plan: PrepPlan, making: Making) -> PrepPlan:
    return replace(plan, makings=tuple(making if one.number == making.number else one for one in plan.makings))


def stages_of(change: Callable[[PlannedStage], PlannedStage]) -> Callable[[Making], Making]:
    return lambda making: replace(making, stages=tuple(change(one) for one in making.stages))


def shifted(one: PlannedStage, by: timedelta) -> PlannedStage:
    names = ("start", "alone", "may_be_done", "done", "over")
    return replace(one, **{name: getattr(one, name) + by for name in names})


def all_later(by: timedelta) -> Callable[[Making], Making]:
    return lambda making: replace(
        stages_of(lambda one: shifted(one, by))(making), ready=making.ready + by, life_from=(making.ready + by).date()
    )


MUTANTS: dict[str, tuple[str, Callable[[Making], Making]]] = {
    "a batch later than it is wanted": ("bread", all_later(HOUR)),
    "a batch in the night": ("bread", all_later(-12 * HOUR)),
    "one stage later than the next can wait": ("braise", stages_of(lambda one: shifted(one, -HOUR * (1 - one.number)))),
    "two stages at once": ("braise", stages_of(lambda one: shifted(one, HOUR * 3 * (1 - one.number)))),
    "longer by itself than may be": (
        "stock",
        stages_of(lambda one: replace(one, start=one.start - HOUR, alone=one.alone - HOUR)),
    ),
    "less work than there is": ("braise", stages_of(lambda one: replace(one, alone=one.start))),
    "off the grid": ("oil", stages_of(lambda one: shifted(one, timedelta(minutes=-2)))),
    "a stage left out": ("braise", lambda making: replace(making, stages=making.stages[:1])),
    "too little shared out": (
        "stock",
        lambda making: replace(
            making,
            shares=tuple(
                replace(one, amount=Amount(number=one.amount.number / 2, unit=one.amount.unit)) for one in making.shares
            ),
        ),
    ),
    "less made than shared out": (
        "bread",
        lambda making: replace(
            making, batch=replace(making.batch, total=Amount(number=Fraction(1, 100), unit=making.batch.total.unit))
        ),
    ),
    "not in whole steps": (
        "braise",
        lambda making: replace(
            making,
            batch=replace(
                making.batch,
                total=Amount(number=making.batch.total.number + Fraction(1, 7), unit=making.batch.total.unit),
            ),
        ),
    ),
    "a use-by a day too far": ("oil", lambda making: replace(making, use_by=making.use_by + DAY)),
    "a life that counts a day late": ("braise", lambda making: replace(making, life_from=making.life_from + DAY)),
    "a strain that is none": ("bread", lambda making: replace(making, strains=(Strain.IN_SERVICE,))),
    "a life said to be over that is not": ("oil", lambda making: replace(making, strains=(Strain.PART_OVER,))),
    "a due that is not": ("oil", lambda making: replace(making, due=making.due + HOUR)),
}


def test_the_plan_they_are_planted_in_is_sound() -> None:
    house, plan = sound()
    assert Checker(house, plan).faults() == []
    assert not plan.unready
    assert {making.component for making in plan.makings} == {"stock", "braise", "bread", "oil"}


@pytest.mark.parametrize("name", MUTANTS)
def test_a_defect_in_a_batch_is_seen(name: str) -> None:
    house, plan = sound()
    id_, change = MUTANTS[name]
    mutant = changed(plan, change(first_of(plan, id_)))
    assert mutant != plan
    assert Checker(house, mutant).faults() != []


@pytest.mark.parametrize("id_", ["stock", "braise", "bread", "oil"])
def test_a_batch_left_out_is_seen(id_: str) -> None:
    house, plan = sound()
    gone = first_of(plan, id_).number
    left = [making for making in plan.makings if making.number != gone]
    renumbered = {making.number: number for number, making in enumerate(left)}
    makings = tuple(
        replace(
            making,
            number=renumbered[making.number],
            shares=tuple(replace(one, taker=renumbered.get(one.taker)) for one in making.shares),
        )
        for making in left
    )
    assert Checker(house, replace(plan, makings=makings)).faults() != []


def test_an_oven_booked_twice_and_a_cook_with_four_hands_are_seen() -> None:
    house, plan = sound()
    one = place("oven", Climate.HOT, 1)
    stretched = first_of(plan, "bread")
    braise = first_of(plan, "braise")
    by = braise.stages[0].alone - stretched.stages[0].alone
    mutant = changed(plan, all_later(by)(stretched))
    found = Checker(house, mutant).faults()
    assert any("('place', 'oven')" in text for text in found)
    crowd = changed(
        plan, all_later(braise.stages[0].start - first_of(plan, "oil").stages[0].start)(first_of(plan, "oil"))
    )
    assert any("hands at" in text for text in Checker(house, crowd).faults())
    assert one in house.file.places


def test_minutes_of_a_day_that_are_wrong_are_seen() -> None:
    house, plan = sound()
    wrong = tuple(replace(one, minutes=one.minutes + 5) for one in plan.work)
    assert Checker(house, replace(plan, work=wrong)).faults() != []
