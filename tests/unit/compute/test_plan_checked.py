"""Prep plans of random houses against a checker that shares no code with the planner, and defects it must see.

Run alone for more houses: ``python tests/unit/compute/test_plan_checked.py COUNT FIRST``.
"""

from __future__ import annotations

import sys
from collections import Counter
from datetime import timedelta

from plan_checker import Checker
from plan_factory import PlanHouse

from linebook.compute.plan_results import PrepPlan
from linebook.compute.prep_plan import compute_plan

HOUSES = 100


def plan_of(kitchen: PlanHouse) -> PrepPlan:
    return compute_plan(
        kitchen.house,
        kitchen.services,
        kitchen.later,
        first=kitchen.first,
        last=kitchen.last,
        on_hand=kitchen.on_hand,
        arrives=kitchen.arrives,
    )


def check(seed: int, seen: Counter[str]) -> list[str]:
    kitchen = PlanHouse(seed)
    plan = plan_of(kitchen)
    seen["batches"] += len(plan.makings)
    seen["for several services"] += sum(len(one.services) > 1 for one in plan.makings)
    seen["for what is made from it"] += sum(any(share.user for share in one.shares) for one in plan.makings)
    for one in plan.makings:
        seen.update(strain.name for strain in one.strains)
    seen.update(f"unready: {one.barrier.name}" for one in plan.unready)
    seen["overloaded days"] += sum(one.is_over for one in plan.work)
    seen["stock used"] += len(plan.stock)
    return Checker(kitchen.house, plan, arrives=kitchen.arrives).faults()


def test_plans_of_random_houses_keep_every_limit() -> None:
    seen: Counter[str] = Counter()
    for seed in range(HOUSES):
        assert check(seed, seen) == [], seed
    kinds = ("for several services", "for what is made from it", "IN_SERVICE", "PART_OVER", "stock used")
    assert all(seen[kind] >= 5 for kind in kinds), seen
    assert len([kind for kind in seen if kind.startswith("unready")]) >= 4, seen


def test_what_is_frozen_for_a_batch_after_the_span_is_checked_as_far_as_the_plan_shows() -> None:
    """House 40079: the batch that takes the last share is begun after the plan ends, and so is not on it."""
    kitchen = PlanHouse(40079)
    plan = plan_of(kitchen)
    unseen = [
        share
        for one in plan.makings
        if one.component == "c2"
        for share in one.shares
        if share.user and share.taker is None
    ]
    assert [share.services for share in unseen] == [(kitchen.last + timedelta(days=1),)]
    assert Checker(kitchen.house, plan, arrives=kitchen.arrives).faults() == []


if __name__ == "__main__":
    count, first = (int(word) for word in (sys.argv[1:] + ["1000", "0"][len(sys.argv) - 1 :]))
    total: Counter[str] = Counter()
    wrong = 0
    for number in range(first, first + count):
        found = check(number, total)
        if found:
            wrong += 1
            print(number, *found[:6], sep="\n  ")
    print(f"{count} houses, {wrong} with faults")
    print(dict(total))
