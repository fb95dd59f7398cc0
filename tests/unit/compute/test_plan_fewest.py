"""Plans of small houses against all plans there are, of all components together.

None has fewer batches, and none of as many has them ready later, added up. Components share a cook and an oven, and are
made from each other; parts that ask their user to move are in too. Nor is there a plan in which all is ready and nothing
strained where ours is not so.

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
HARD = (318, 1329, 1559, 1780, 3023)
"""Houses in which planning anew in other orders, and with batches started earlier, leaves a batch or a strain too many."""
FRESHER = (12, 25, 33, 44, 112)
"""Houses in which the first plan has as few batches as can be, not as fresh as can be."""


def is_clean(plan: PrepPlan) -> bool:
    return not plan.unready and not any(making.strains for making in plan.makings)


def ready_of(plan: PrepPlan) -> int:
    """The hours at which the batches are ready, added up."""
    return sum((making.ready - moment(0)) // timedelta(hours=1) for making in plan.makings)


def all_plans(small: SmallHouse) -> AllPlans:
    house = small_house([small.component(card) for card in small.cards.values()], {})
    return AllPlans(small, users_then_parts(house))


def compare(seed: int, seen: Counter[str]) -> None:
    small = SmallHouse(seed)
    plan = small.planned()
    plans, clean = all_plans(small), is_clean(plan)
    try:
        better = plans.better(len(plan.makings), ready_of(plan)) if clean else plans.any()
    except TooManyError:
        seen["too many to try"] += 1
        return
    seen["clean" if clean else "never clean"] += 1
    assert better is None, (seed, len(plan.makings), ready_of(plan), clean, better)


def test_no_plan_of_a_small_house_has_fewer_batches_or_fresher_ones() -> None:
    seen: Counter[str] = Counter()
    for seed in (*range(HOUSES), *WON, *HARD, *FRESHER):
        compare(seed, seen)
    assert seen["clean"] > HOUSES / 2, seen
    assert seen["too many to try"] < HOUSES / 5, seen


def test_plans_are_better_for_being_made_again() -> None:
    for seed in WON:
        first = first_plan(SmallHouse(seed))
        best = SmallHouse(seed).planned()
        assert is_clean(best), seed
        assert not is_clean(first) or len(best.makings) < len(first.makings), seed


def test_a_plan_that_is_not_the_best_is_seen() -> None:
    for seed in (*WON[:3], *FRESHER):
        small = SmallHouse(seed)
        first, best = first_plan(small), small.planned()
        found = all_plans(small).better(len(first.makings), ready_of(first))
        assert found is not None or not is_clean(first), seed
        if found is not None:
            assert found[0] == len(best.makings), seed
            assert ready_of(first) < found[1] <= ready_of(best) or found[0] < len(first.makings), seed


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
