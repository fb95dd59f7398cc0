"""Nights of random houses against an independent solver, and the laws of sizing on them.

Run alone for more houses: ``python tests/unit/compute/test_sizing_oracle.py COUNT FIRST``.
"""

from __future__ import annotations

import sys
from collections import Counter
from fractions import Fraction

from sizing_houses import SizingHouse, grams
from sizing_oracle import MOST, Solved, TooManyLoads, solve

from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night
from linebook.compute.mass import weigh_batch
from linebook.compute.results import Night, Standing
from linebook.model.amounts import Percent
from linebook.model.component import Scale
from linebook.model.contents import stays_in
from linebook.model.units import to_base

HOUSES = 300
ENOUGH = 8
ZERO = Fraction(0)


def compare(seed: int, seen: Counter[str]) -> None:
    """Compare one house with the solver, and hold its night to the laws."""
    kitchen = SizingHouse(seed)
    night = compute_night(kitchen.house, kitchen.occasion)
    try:
        solved = solve(kitchen)
    except TooManyLoads:
        assert any(loads > MOST for batch in night.batches.values() for loads in batch.stage_loads), seed
        seen["too many loads"] += 1
        return
    assert set(night.batches) == set(solved.batches), seed
    assert set(night.covered) == {id_ for id_, n in solved.needed.items() if n and id_ not in solved.batches}, seed
    seen["covered by stock"] += len(night.covered)
    for id_, batch in night.batches.items():
        known, facts = solved.batches[id_], kitchen.facts[id_]
        assert (batch.factor, batch.loads) == (known.factor, known.loads), (seed, id_)
        assert list(batch.stage_loads) == known.stages, (seed, id_)
        assert [line.loads for line in batch.ingredients] == known.line_loads, (seed, id_)
        assert [kitchen.weigh(line.ingredient.item, line.total) for line in batch.ingredients] == known.lines, (
            seed,
            id_,
        )
        assert grams(batch.needed, *facts) == solved.needed[id_], (seed, id_)
        held = grams(batch.on_hand, *facts) if batch.on_hand else ZERO
        assert held == solved.stock.get(id_, ZERO), (seed, id_)
        _laws(kitchen, batch, seed)
        _count(seen, kitchen, batch)
    _balances(kitchen, night, solved, seed, seen)
    for item in (one.id for one in kitchen.pantry):
        found = night.needs.get(item)
        assert (kitchen.weigh(item, found) if found else ZERO) == solved.taken[item], (seed, item)
    _stock(kitchen, night, solved, seed, seen)


def _laws(kitchen: SizingHouse, batch, seed: int) -> None:
    held = batch.on_hand.number if batch.on_hand else ZERO
    assert batch.total.number + held == batch.needed.number + batch.surplus.number, seed
    assert batch.surplus.number >= 0, seed
    assert batch.load.number * batch.loads == batch.total.number
    for line in batch.ingredients:
        assert line.load.number * line.loads == line.total.number
    if all(line.ingredient.scale in (Scale.LINEAR, Scale.HELD_BACK) for line in batch.ingredients):
        mass = weigh_batch(kitchen.house, batch)
        assert mass.went_in == mass.makes + mass.by_products + mass.lost or not mass.went_in, seed
        assert mass.lost >= 0
    times = Fraction(seed % 17 + 2, seed % 5 + 1)
    there = compute_batch(kitchen.house, batch.component.id, makes=batch.total, times=None)
    grown = compute_batch(kitchen.house, batch.component.id, times=there.factor * times)
    back = compute_batch(kitchen.house, batch.component.id, times=grown.factor / times)
    assert back == there, seed
    assert back.factor == batch.factor


def _balances(kitchen: SizingHouse, night: Night, solved: Solved, seed: int, seen: Counter[str]) -> None:
    for item, makers in kitchen.by_products.items():
        made = sum(
            (to_base(amount) * solved.batches[id_].factor for id_, amount in makers if id_ in solved.batches), ZERO
        )
        needed, held = solved.taken[item], solved.stock.get(item, ZERO)
        if not (made or needed or held):
            assert item not in night.balances or not to_base(night.balances[item].needed), seed
            continue
        found = night.balances[item]
        assert (to_base(found.made), to_base(found.needed), to_base(found.on_hand)) == (made, needed, held), seed
        over = made + held - needed
        assert to_base(found.difference) == abs(over), seed
        standing = Standing.COVERED if not over else Standing.SPARE if over > 0 else Standing.SHORT
        assert found.standing is standing, seed
        seen[standing.value] += 1


def _stock(kitchen: SizingHouse, night: Night, solved: Solved, seed: int, seen: Counter[str]) -> None:
    assert [use.entry for use in night.stock] == list(kitchen.occasion.on_hand)
    taken: dict[str, Fraction] = {}
    for use in night.stock:
        seen["in life" if use.counted else "out of life"] += 1
        assert (use.counted is None) == (use.used is None) == (use.reason is not None), seed
        if use.used is not None:
            assert 0 <= use.used.number <= use.counted.number
            item = use.entry.item
            taken[item] = taken.get(item, ZERO) + kitchen.weigh(item, use.used)
    for item, weight in taken.items():
        needed = solved.needed[item] if item in solved.needed else solved.taken[item]
        assert weight == min(needed, solved.stock[item]), (seed, item)


def _count(seen: Counter[str], kitchen: SizingHouse, batch) -> None:
    part = batch.component
    seen["nested"] += any(line.ingredient.item in kitchen.house.components for line in batch.ingredients)
    seen["by-product used"] += any(line.ingredient.item in kitchen.by_products for line in batch.ingredients)
    seen["lossy"] += bool(part.loss)
    seen["pieces"] += bool(part.pieces)
    seen["steps"] += part.batch_step is not None
    seen["steps in loads"] += part.batch_step is not None and batch.loads > 1
    seen["smallest"] += part.smallest_batch is not None and batch.total == part.smallest_batch
    seen["split"] += batch.loads > 1
    seen["loads by stage"] += len(set(batch.stage_loads)) > 1
    mosts = [loads for stage, loads in zip(part.stages, batch.stage_loads, strict=True) if stage.at_most]
    seen["a most splits"] += any(loads > 1 for loads in mosts)
    seen["a most spares loads"] += any(loads < batch.loads for loads in mosts)
    vessels = [loads for stage, loads in zip(part.stages, batch.stage_loads, strict=True) if stage.vessel]
    held = [stays_in(part, at) for at, stage in enumerate(part.stages) if stage.vessel]
    seen["in a vessel since an earlier stage"] += any(len(one.lines) > 1 and not one.before for one in held)
    seen["in another vessel before"] += any(one.before for one in held)
    seen["left its vessel"] += any(one.left or one.left_before for one in held)
    seen["a vessel splits"] += any(loads > batch.loads for loads in vessels)
    seen["stock"] += batch.on_hand is not None
    seen["percent"] += any(isinstance(line.ingredient.amount, Percent) for line in batch.ingredients)
    seen["whole"] += any(line.ingredient.scale is Scale.WHOLE for line in batch.ingredients)
    seen["per load"] += any(line.ingredient.scale is Scale.PER_LOAD and line.loads > 1 for line in batch.ingredients)


def test_every_night_of_random_houses_is_that_of_the_solver():
    seen: Counter[str] = Counter()
    for seed in range(HOUSES):
        compare(seed, seen)
    assert min(seen.values()) >= ENOUGH, seen


if __name__ == "__main__":
    count, first = (int(word) for word in sys.argv[1:3])
    tally: Counter[str] = Counter()
    for number in range(first, first + count):
        compare(number, tally)
    print(f"{count:,} houses agree: {dict(tally)}")
