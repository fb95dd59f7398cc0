"""Laws of sizing on random houses: needs add up over dishes, and nothing rounds a batch but what is made whole."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from kitchen_factory import house, menu
from sizing_houses import SizingHouse

from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night
from linebook.compute.results import Night
from linebook.model.component import Scale
from linebook.model.house import House
from linebook.model.occasion import Occasion

HOUSES = 120


def _plain(kitchen: SizingHouse, entries) -> House:
    """The house without anything that is made whole or by the load, and with these dishes alone on its menu."""
    parts = [
        replace(
            part,
            pieces=None,
            piece_weighs=part.piece_weighs if part.makes.unit.key == "each" else None,
            batch_step=None,
            smallest_batch=None,
            ingredients=tuple(
                replace(line, scale=Scale.LINEAR) if line.scale in (Scale.WHOLE, Scale.PER_LOAD) else line
                for line in part.ingredients
            ),
        )
        for part in kitchen.parts
        if part.makes.unit.key != "each"
    ]
    return house(kitchen.pantry, parts, kitchen.dishes, [menu("spring", entries)])


def _takes_whole(kitchen: SizingHouse) -> bool:
    """Whether a card or a plate takes a component by the piece or one made by the piece."""
    made = {part.id for part in kitchen.parts if part.makes.unit.key == "each"}
    parts = {part.id for part in kitchen.parts}
    amounts = [(line.item, line.amount) for part in kitchen.parts for line in part.ingredients]
    amounts += [(one.item, one.amount) for plate in kitchen.dishes for one in plate.elements]
    counted = any(item in parts and getattr(amount, "unit", None) and amount.unit.counts for item, amount in amounts)
    return bool(made) or counted


def _sums(kitchen: SizingHouse, nights: list[Night]) -> Counter[str]:
    found: Counter[str] = Counter()
    for night in nights:
        for id_, batch in night.batches.items():
            found[f"made {id_}"] += batch.factor
            found[f"needed {id_}"] += batch.needed.number
        for item, amount in night.needs.items():
            found[f"bought {item}"] += kitchen.weigh(item, amount)
        for item, balance in night.balances.items():
            found[f"left {item}"] += balance.made.number
            found[f"taken {item}"] += balance.needed.number
    return +found


def test_needs_add_up_over_dishes_before_anything_is_made_whole():
    compared = 0
    for seed in range(HOUSES * 6):
        kitchen = SizingHouse(seed)
        if len(kitchen.entries) < 2 or _takes_whole(kitchen):
            continue
        occasion = Occasion(menu="spring", covers=kitchen.covers)
        together = compute_night(_plain(kitchen, kitchen.entries), occasion)
        apart = [compute_night(_plain(kitchen, [entry]), occasion) for entry in kitchen.entries]
        assert _sums(kitchen, [together]) == _sums(kitchen, apart), seed
        compared += 1
    assert compared > 40


@settings(max_examples=150, deadline=None)
@given(
    seed=st.integers(0, 10_000),
    times=st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=97),
)
def test_so_many_times_and_back_again_is_the_card(seed, times):
    kitchen = SizingHouse(seed)
    for id_ in kitchen.house.components:
        base = compute_batch(kitchen.house, id_)
        there = compute_batch(kitchen.house, id_, times=times)
        assert there.total.number == base.total.number * times
        assert compute_batch(kitchen.house, id_, times=there.factor / times) == base
        assert compute_batch(kitchen.house, id_, makes=there.total) == there


@settings(max_examples=150, deadline=None)
@given(seed=st.integers(0, 10_000), more=st.integers(1, 60))
def test_more_covers_never_need_less_and_what_is_made_is_enough(seed, more):
    kitchen = SizingHouse(seed)
    fewer = compute_night(kitchen.house, Occasion(menu="spring", covers=kitchen.covers))
    night = compute_night(kitchen.house, Occasion(menu="spring", covers=kitchen.covers + more))
    for id_, batch in night.batches.items():
        assert batch.total.number >= batch.needed.number
        if all(_grows(kitchen, user) for user in _users(kitchen, id_)) and id_ in fewer.batches:
            assert batch.needed.number >= fewer.batches[id_].needed.number


def _users(kitchen: SizingHouse, id_: str) -> set[str]:
    """Every component that has this one in it, at any depth."""
    found: set[str] = set()
    waiting = [id_]
    while waiting:
        item = waiting.pop()
        for part in kitchen.parts:
            if part.id not in found and any(line.item == item for line in part.ingredients):
                found.add(part.id)
                waiting.append(part.id)
    return found


def _grows(kitchen: SizingHouse, id_: str) -> bool:
    """Whether all that goes into a component grows with it: a whole count in more loads may round down further."""
    return all(line.scale is not Scale.WHOLE for line in kitchen.house.components[id_].ingredients)
