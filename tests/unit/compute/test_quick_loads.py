"""The quick sum by which no loads are sought: on random cards it never says more than what is measured exactly.

Most batches are nowhere near to filling a vessel, so nearly all of them are sized by it alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product
from random import Random

from kitchen_factory import AT, amount, bought, component, house, line, minutes, stage
from sizing_houses import SizingHouse

from linebook.compute.loads import Vessels, find_loads, vessels_of
from linebook.model.amounts import Amount
from linebook.model.component import Component, Ingredient, Scale
from linebook.model.house import House, Vessel

HOUSES = 150
CLOSE = (
    Fraction(1, 4),
    Fraction(9, 10),
    Fraction(99, 100),
    Fraction(1),
    Fraction(101, 100),
    Fraction(6, 5),
    Fraction(3),
)
"""Sizes to try, as parts of what has room for sure."""


def measured(kitchen: House, card: Component) -> Vessels:
    """The same vessels, of which the quick sum says nothing."""
    vessels = vessels_of(kitchen, card)
    slow = Vessels(kitchen, card, {one.id: one for one in kitchen.file.vessels}, vessels.to_grams)
    slow.bounds = [replace(bound, at_once=0.0) for bound in slow.bounds]
    return slow


def with_vessels(kitchen: House, times: int) -> House:
    """The same house with vessels that hold so many times as much."""
    larger = tuple(
        replace(one, holds=one.holds and replace(one.holds, number=one.holds.number * times))
        for one in kitchen.file.vessels
    )
    return replace(kitchen, file=replace(kitchen.file, vessels=larger))


def test_the_quick_sum_asks_for_the_same_loads_as_measuring():
    seen: Counter[str] = Counter()
    for seed in range(HOUSES):
        random, kitchen = Random(seed), SizingHouse(seed)
        larger = with_vessels(kitchen.house, random.choice((1, 20, 400)))
        for card in kitchen.parts:
            stripped = replace(card, stages=tuple(replace(one, at_most=None) for one in card.stages))
            quick, slow = vessels_of(larger, stripped), measured(larger, stripped)
            counts = [one.amount.number for one in card.ingredients if isinstance(one.amount, Amount)]
            beyond = (Fraction(0), max(1 / min(counts), Fraction(1)))  # nothing, or what rounding up can come to
            rooms = [Fraction(bound.at_once) - less for bound in quick.bounds for less in beyond]
            for near, close in product([room for room in rooms if room > 0], CLOSE):
                loads = random.randint(1, 4)
                factor = (near * loads * close).limit_denominator(1000)
                found, wanted = find_loads(quick, factor, loads), find_loads(slow, factor, loads)
                assert found == wanted, (seed, card.id, factor, loads)
                sought = bool(quick.may_be_full(factor, loads))
                seen["sought" if sought else "not sought"] += 1
                seen["more loads"] += wanted.stages != (loads,) * len(wanted.stages)
                seen["not straight, not sought"] += not sought and not quick.straight
    assert min(seen["sought"], seen["not sought"], seen["more loads"], seen["not straight, not sought"]) > 20, seen


def stage_loads(factor: str, lines: Sequence[Ingredient], rooms: Sequence[str]) -> tuple[int, ...]:
    """The loads of a card whose stages each stand in a vessel of their own, with so much room."""
    vessels = tuple(
        Vessel(id=f"v{at}", name=f"v{at}", holds=amount(room), fill=Fraction(1), **AT) for at, room in enumerate(rooms)
    )
    stages = tuple(
        replace(stage(f"s{at}", unattended=minutes(9)), vessel=vessel.id) for at, vessel in enumerate(vessels)
    )
    card = component("card", "10 kg", lines, stages=stages)
    made = house([bought("water", density="1"), bought("egg", weighs={"each": "4000"})], [card])
    made = replace(made, file=replace(made.file, vessels=vessels))
    quick = find_loads(vessels_of(made, card), Fraction(factor), 1)
    assert quick == find_loads(measured(made, card), Fraction(factor), 1)
    return quick.stages


def test_what_goes_in_by_the_load_is_there_in_full_in_a_small_batch():
    # 0.7 x 6 L + 6 L are over 10 L; in two loads there are 2.1 L + 6 L in each
    lines = [line("water", "6 L", stage="s0"), line("water", "6 L", stage="s0", scale=Scale.PER_LOAD)]
    assert stage_loads("7/10", lines, ["10 L"]) == (2,)


def test_a_whole_count_is_one_at_least_however_small_its_part():
    # a batch has a quarter of an egg of 4 kg: in half a batch it fills 4 L of the 4.8 L, and 1 L of water is too much
    lines = [line("water", "2 L", stage="s0"), line("egg", "1/4 each", stage="s0", scale=Scale.WHOLE)]
    assert stage_loads("1/2", lines, ["4.8 L"]) == (2,)


def test_what_the_loads_of_one_stage_add_counts_in_the_next():
    # 2 L and a litre a load: seven loads of 1.3 L. The next stage has room for 7 L, and these are 9 L
    lines = [
        line("water", "1 L", stage="s0"),
        line("water", "1 L", stage="s0", scale=Scale.PER_LOAD),
        line("water", "10 ml", stage="s1"),
    ]
    assert stage_loads("2", lines, ["1.3 L", "7 L"]) == (7, 2)
