"""Plans of small houses against all plans there are, of all components together: none has fewer batches.

Components share a cook and an oven, and are made from each other; parts that ask their user to move are in too. Nor is
there a plan in which all is ready and nothing strained where ours is not so.

Run alone for more houses: ``python tests/unit/compute/test_plan_fewest.py COUNT FIRST``.
"""

from __future__ import annotations

import sys
from collections import Counter
from datetime import timedelta

from plan_factory import small_house
from plan_fewest import AllPlans, TooManyError
from test_plan_small import SmallHouse, first_plan, moment

from linebook.compute.plan_order import users_then_parts
from linebook.compute.plan_results import PrepPlan

HOUSES = 50
WON = (26, 118, 205, 262, 306, 329)
"""Houses in which the first plan, made one component after another, has a batch or a strain too many."""


def is_clean(plan: PrepPlan) -> bool:
    return not plan.unready and not any(making.strains for making in plan.makings)


def ready_of(plan: PrepPlan) -> int:
    """The hours at which the batches are ready, added up."""
    return sum((making.ready - moment(0)) // timedelta(hours=1) for making in plan.makings)


def compare(seed: int, seen: Counter[str]) -> None:
    small = SmallHouse(seed)
    plan = small.planned()
    house = small_house([small.component(card) for card in small.cards.values()], {})
    plans = AllPlans(small, users_then_parts(house))
    clean = is_clean(plan)
    try:
        better = plans.better(len(plan.makings), ready_of(plan)) if clean else plans.any()
    except TooManyError:
        seen["too many to try"] += 1
        return
    seen["clean" if clean else "never clean"] += 1
    assert better is None, (seed, len(plan.makings), ready_of(plan), clean, better)


def test_no_plan_of_a_small_house_has_fewer_batches_or_fresher_ones() -> None:
    seen: Counter[str] = Counter()
    for seed in (*range(HOUSES), *WON):
        compare(seed, seen)
    assert seen["clean"] > HOUSES / 2, seen
    assert seen["too many to try"] < HOUSES / 5, seen


def test_plans_are_better_for_being_made_again() -> None:
    for seed in WON:
        first = first_plan(SmallHouse(seed))
        best = SmallHouse(seed).planned()
        assert is_clean(best), seed
        assert not is_clean(first) or len(best.makings) < len(first.makings), seed


if __name__ == "__main__":
    count, first_seed = (int(word) for word in (sys.argv[1:] + ["1000", "0"][len(sys.argv) - 1 :]))
    total: Counter[str] = Counter()
    for number in range(first_seed, first_seed + count):
        try:
            compare(number, total)
        except AssertionError as wrong:
            total["not the best"] += 1
            print(str(wrong)[:200], flush=True)
    print(dict(total))
