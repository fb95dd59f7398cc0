"""Needs against an oracle of another kind: all batch factors at once, as one system of linear equations.

For each component, factor x yield x (1 - loss) equals what plates and other components take of it. What is made in
pieces is an unknown whole number instead: the fewest pieces that are enough. All such counts start at none and grow
until every one is enough; in between, the rest of the system is solved by elimination over fractions. Units are turned
by factors written out here. Fixed seeds.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil, floor
from random import Random

from kitchen_factory import bought, component, dish, element, house, line, listed, menu, percent, size

from linebook.compute.demand import compute_night
from linebook.model.amounts import Amount
from linebook.model.component import Scale
from linebook.model.occasion import Occasion
from linebook.model.units import EACH, GRAM, KILOGRAM, LITRE, MILLILITRE, OUNCE, PIECE, UNITS

HOUSES = 400
GRAMS = {"gram": Fraction(1), "kilogram": Fraction(1000), "ounce": Fraction("28.349523125")}
ML = {"millilitre": Fraction(1), "litre": Fraction(1000), "us-cup": Fraction("236.5882365")}
TAKEN = (GRAM, KILOGRAM, OUNCE, MILLILITRE, UNITS["us-cup"], PIECE)
MADE = (GRAM, KILOGRAM, LITRE, EACH)


def _number(random: Random, most: int = 40) -> Fraction:
    return Fraction(random.randint(1, most * 12), random.choice((1, 2, 3, 4, 12)))


def _grams(amount: Amount, density: Fraction, each: Fraction) -> Fraction:
    if amount.unit.key in GRAMS:
        return amount.number * GRAMS[amount.unit.key]
    if amount.unit.key in ML:
        return amount.number * ML[amount.unit.key] * density
    return amount.number * each


class RandomHouse:
    """A house with linear lines and percentages between components; whole and per-load lines are bought items."""

    def __init__(self, seed: int) -> None:
        self.random = random = Random(seed)
        self.pantry = [
            bought(f"p{at}", density=str(_number(random, 2)), weighs={"each": str(_number(random))})
            for at in range(random.randint(1, 4))
        ]
        self.components = []
        for at in range(random.randint(1, 7)):
            self.components.append(self._component(f"c{at}"))
        self.dishes = [self._dish(f"d{at}") for at in range(random.randint(1, 4))]
        entries = [
            listed(
                plate.id,
                str(_number(random, 1)),
                str(Fraction(random.randint(0, 20), 100)),
                str(random.randint(0, 4)),
                **random.choice([{}, {"full": "2/3", "large": "1/3"}]),
            )
            for plate in self.dishes
        ]
        self.covers, self.line_up = random.randint(1, 300), random.randint(0, 2)
        self.entries = entries
        self.house = house(self.pantry, self.components, self.dishes, [menu("spring", entries)], line_up=self.line_up)

    def _amount(self, units=TAKEN) -> Amount:
        return Amount(number=_number(self.random), unit=self.random.choice(units))

    def _component(self, id_: str):
        random = self.random
        lower = [part.id for part in self.components]
        names = [item.id for item in self.pantry]
        lines = [line(random.choice(lower + names), self._amount()) for _ in range(random.randint(1, 4))]
        stepped = [(EACH, Scale.WHOLE)] * random.randint(0, 1) + [(None, Scale.PER_LOAD)] * random.randint(0, 1)
        for unit, scale in stepped:
            lines.append(line(random.choice(names), self._amount((unit,) if unit else TAKEN), scale=scale))
        of = lines[0].item
        # A percentage of a stepped line is no linear need, so it is of a bought item there.
        spices = [item for item in (names if stepped else lower + names) if item != of]
        if spices and random.random() < 0.5:
            lines.append(line(random.choice(spices), percent(str(_number(random, 5)), of)))
        made, in_pieces = self._amount(MADE), random.random() < 0.6
        largest = Amount(number=made.number * _number(random, 5), unit=made.unit)
        return replace(
            component(id_, ingredients=lines, loss=str(Fraction(random.randint(0, 30), 100))),
            makes=made,
            pieces=Fraction(random.randint(1, 60)) if made.unit is not EACH and in_pieces else None,
            piece_weighs=Amount(number=_number(random), unit=GRAM) if made.unit is EACH or not in_pieces else None,
            density=_number(random, 2),
            largest_batch=random.choice([None, largest]),
        )

    def _dish(self, id_: str):
        random = self.random
        items = [part.id for part in self.components] + [item.id for item in self.pantry]
        chosen = random.sample(items, min(len(items), random.randint(1, 3)))
        parts = [replace(element(item), amount=self._amount()) for item in chosen]
        return dish(id_, parts, sizes=[size("full"), size("large", str(_number(random, 2)))])


def _facts(kitchen: RandomHouse, item: str) -> tuple[Fraction, Fraction]:
    """Density and grams of one."""
    if item in kitchen.house.pantry:
        known = kitchen.house.pantry[item]
        return known.density, known.weighs["each"]
    part = kitchen.house.components[item]
    if part.piece_weighs:
        return part.density, part.piece_weighs.number
    return part.density, _yield(kitchen, item) / part.pieces


def _yield(kitchen: RandomHouse, item: str) -> Fraction:
    part = kitchen.house.components[item]
    each = part.piece_weighs.number if part.piece_weighs else Fraction(0)
    return _grams(part.makes, part.density, each)


def _plates(kitchen: RandomHouse) -> dict[str, Fraction]:
    """Grams of every item on all plates of the night."""
    found: dict[str, Fraction] = {}
    for entry, plate in zip(kitchen.entries, kitchen.dishes, strict=True):
        portions = kitchen.covers * entry.share
        portions += max(portions * entry.spare, entry.at_least)
        mix = dict(entry.mix) or {"full": Fraction(1)}
        for serving in plate.sizes:
            extra = kitchen.line_up if serving.id == "full" else 0
            count = ceil(portions * mix.get(serving.id, 0) + extra)
            for part in plate.elements:
                grams = _grams(part.amount, *_facts(kitchen, part.item)) * serving.factor * count
                found[part.item] = found.get(part.item, Fraction(0)) + grams
    return found


def _linear(kitchen: RandomHouse, item: str) -> dict[str, Fraction]:
    """Grams of every item that grow with one batch of a component, percentages of linear lines included."""
    found: dict[str, Fraction] = {}
    part = kitchen.house.components[item]

    def weight(entry) -> Fraction:
        return _grams(entry.amount, *_facts(kitchen, entry.item))

    for entry in part.ingredients:
        if isinstance(entry.amount, Amount):
            grams = weight(entry) if entry.scale is Scale.LINEAR else Fraction(0)
        else:
            of = [other for other in part.ingredients if other.item in entry.amount.of and other.scale is Scale.LINEAR]
            grams = sum((weight(other) for other in of), Fraction(0)) * entry.amount.number / 100
        found[entry.item] = found.get(entry.item, Fraction(0)) + grams
    return found


def _solve(matrix: list[list[Fraction]], right: list[Fraction]) -> list[Fraction]:
    """Gauss and Jordan, over fractions."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for at in range(len(rows)):
        pivot = next(index for index in range(at, len(rows)) if rows[index][at])
        rows[at], rows[pivot] = rows[pivot], rows[at]
        rows[at] = [value / rows[at][at] for value in rows[at]]
        for index, row in enumerate(rows):
            if index != at and row[at]:
                rows[index] = [value - row[at] * other for value, other in zip(row, rows[at], strict=True)]
    return [row[-1] for row in rows]


def _steps(kitchen: RandomHouse, factor: Fraction, item: str) -> tuple[int, dict[str, Fraction]]:
    """Loads, and grams of the bought items that go by whole counts or by the load (and percentages of them)."""
    part = kitchen.house.components[item]
    loads = 1
    if part.largest_batch:
        loads = max(1, ceil(factor * part.makes.number / part.largest_batch.number))
    found: dict[str, Fraction] = {}
    for entry in part.ingredients:
        amount = entry.amount
        if not isinstance(amount, Amount) or entry.scale is Scale.LINEAR:
            continue
        if entry.scale is Scale.WHOLE:
            count = max(1, floor(amount.number * factor / loads + Fraction(1, 2)))
            amount = Amount(number=Fraction(count), unit=amount.unit)
        grams = _grams(amount, *_facts(kitchen, entry.item)) * loads
        found[entry.item] = found.get(entry.item, Fraction(0)) + grams
    return loads, found


def _percent_of_steps(kitchen: RandomHouse, item: str, stepped: dict[str, Fraction]) -> dict[str, Fraction]:
    found: dict[str, Fraction] = {}
    for entry in kitchen.house.components[item].ingredients:
        if not isinstance(entry.amount, Amount):
            grams = sum((stepped.get(of, Fraction(0)) for of in entry.amount.of), Fraction(0))
            found[entry.item] = found.get(entry.item, Fraction(0)) + grams * entry.amount.number / 100
    return found


def _pieces_of(kitchen: RandomHouse, item: str) -> Fraction | None:
    """Pieces in one batch of the spec, None for what is not counted."""
    part = kitchen.house.components[item]
    return part.makes.number if part.makes.unit is EACH else part.pieces


def _factors(kitchen: RandomHouse, plates: dict[str, Fraction]) -> tuple[dict[str, Fraction], int]:
    """Factors of all components, and how many of them are more than the need by the rest of a piece."""
    parts = kitchen.house.components
    lines = {item: _linear(kitchen, item) for item in parts}
    gives = {item: _yield(kitchen, item) * (1 - parts[item].loss) for item in parts}
    counted = {item: pieces for item in parts if (pieces := _pieces_of(kitchen, item))}
    free = [item for item in parts if item not in counted]
    whole = dict.fromkeys(counted, 0)
    while True:
        factors = {item: whole[item] / counted[item] for item in counted}
        right = [
            plates.get(row, Fraction(0)) + sum(factors[user] * lines[user].get(row, Fraction(0)) for user in counted)
            for row in free
        ]
        matrix = [
            [(gives[row] if row == column else Fraction(0)) - lines[column].get(row, Fraction(0)) for column in free]
            for row in free
        ]
        factors |= dict(zip(free, _solve(matrix, right), strict=True))
        needed = {
            item: plates.get(item, Fraction(0))
            + sum(factors[user] * lines[user].get(item, Fraction(0)) for user in parts)
            for item in counted
        }
        short = {item for item in counted if whole[item] * gives[item] < needed[item] * counted[item]}
        if not short:
            return factors, sum(whole[item] * gives[item] > needed[item] * counted[item] for item in counted)
        for item in short:
            whole[item] = -(-needed[item] * counted[item] // gives[item])


def test_every_batch_and_need_of_random_houses_solves_the_system():
    seen = {"split": 0, "nested": 0, "lossy": 0, "rounded": 0}
    for seed in range(HOUSES):
        kitchen = RandomHouse(seed)
        night = compute_night(kitchen.house, Occasion(menu="spring", covers=kitchen.covers))
        ids = list(kitchen.house.components)
        plates = _plates(kitchen)
        lines = {item: _linear(kitchen, item) for item in ids}
        factors, rounded = _factors(kitchen, plates)
        seen["rounded"] += rounded
        needs = {item: plates.get(item, Fraction(0)) for item in kitchen.house.pantry}
        for item in ids:
            if not factors[item]:
                assert item not in night.batches
                continue
            batch = night.batches[item]
            loads, stepped = _steps(kitchen, factors[item], item)
            assert (batch.factor, batch.loads) == (factors[item], loads), (seed, item)
            assert batch.load.number * loads == batch.total.number == factors[item] * batch.component.makes.number
            of_steps = _percent_of_steps(kitchen, item, stepped)
            for name in needs:
                needs[name] += factors[item] * lines[item].get(name, Fraction(0))
                needs[name] += stepped.get(name, Fraction(0)) + of_steps.get(name, Fraction(0))
            seen["split"] += loads > 1
            seen["nested"] += any(name in ids for name in lines[item])
            seen["lossy"] += bool(batch.component.loss)
        for item, grams in needs.items():
            assert item not in night.apart
            if not grams:
                assert item not in night.needs
            else:
                found = night.needs[item]
                assert _grams(found, *_facts(kitchen, item)) == grams, (seed, item)
    assert min(seen.values()) > 200, seen
