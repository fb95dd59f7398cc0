"""Random houses for the sizing oracle: nested cards with all that changes the size of a batch.

Loss, pieces, steps, smallest and largest batches, stages with a most or a vessel, whole counts, lines per load and held
back, percentages, by-products that feed other cards, and stock in and out of life. A card makes less than goes in.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from random import Random

from kitchen_factory import AT, bought, component, dish, element, house, line, listed, menu, percent, size

from linebook.model.amounts import Amount, Duration
from linebook.model.component import ByProduct, Component, Scale, Stage
from linebook.model.house import Vessel
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry
from linebook.model.units import EACH, GRAM, KILOGRAM, LITRE, MILLILITRE, OUNCE, PIECE, UNITS

DAY = date(2027, 3, 6)
GRAMS = {"gram": Fraction(1), "kilogram": Fraction(1000), "ounce": Fraction("28.349523125")}
ML = {"millilitre": Fraction(1), "litre": Fraction(1000), "us-cup": Fraction("236.5882365")}
TAKEN = (GRAM, KILOGRAM, OUNCE, MILLILITRE, UNITS["us-cup"], PIECE)
MADE = (GRAM, KILOGRAM, LITRE, EACH)


def grams(amount: Amount, density: Fraction, each: Fraction) -> Fraction:
    """An amount in grams, by the factors above."""
    if amount.unit.key in GRAMS:
        return amount.number * GRAMS[amount.unit.key]
    if amount.unit.key in ML:
        return amount.number * ML[amount.unit.key] * density
    return amount.number * each


class SizingHouse:
    """A house and a night. ``facts`` are density and grams of one by item; by-products have a weight alone."""

    def __init__(self, seed: int) -> None:
        self.random = random = Random(seed)
        self.facts: dict[str, tuple[Fraction, Fraction]] = {}
        self.parts: list[Component] = []
        self.by_products: dict[str, list[tuple[str, Amount]]] = {}
        self.pantry = []
        for at in range(random.randint(1, 4)):
            density, each = self.number(2), self.number()
            self.facts[f"p{at}"] = (density, each)
            self.pantry.append(bought(f"p{at}", density=str(density), weighs={"each": str(each)}))
        self.vessels = tuple(self.vessel(f"v{at}") for at in range(random.randint(1, 3)))
        for at in range(random.randint(1, 6)):
            self.parts.append(self.part(f"c{at}"))
        self.dishes = [self.dish(f"d{at}") for at in range(random.randint(1, 3))]
        self.entries = [
            listed(plate.id, str(self.number(1)), str(Fraction(random.randint(0, 20), 100)), str(random.randint(0, 4)))
            for plate in self.dishes
        ]
        made = house(self.pantry, self.parts, self.dishes, [menu("spring", self.entries)])
        self.house = replace(made, file=replace(made.file, vessels=self.vessels))
        self.covers = random.randint(1, 80)
        self.occasion = Occasion(menu="spring", covers=self.covers, date=DAY, on_hand=self.stock())

    def number(self, most: int = 40) -> Fraction:
        return Fraction(self.random.randint(1, most * 12), self.random.choice((1, 2, 3, 4, 12)))

    def amount(self, units=TAKEN) -> Amount:
        return Amount(number=self.number(), unit=self.random.choice(units))

    def vessel(self, id_: str) -> Vessel:
        random = self.random
        holds = random.choice([None, *[Amount(number=Fraction(random.randint(2, 30)), unit=LITRE)] * 3])
        fill, count = Fraction(random.randint(5, 10), 10), random.choice([None, 1, 2, 5])
        return Vessel(id=id_, name=id_, holds=holds, fill=fill, count=count, **AT)

    def weigh(self, item: str, amount: Amount) -> Fraction:
        """Grams of an amount of any item."""
        if item in self.by_products:
            return amount.number * GRAMS[amount.unit.key]
        return grams(amount, *self.facts[item])

    def spec_grams(self, lines) -> list[Fraction]:
        """Grams of every line of a card as written; percentages are of lines that are none."""
        found = [self.weigh(one.item, one.amount) if isinstance(one.amount, Amount) else None for one in lines]
        return [
            weight
            if weight is not None
            else sum(
                (known for other, known in zip(lines, found, strict=True) if other.item in one.amount.of and known),
                Fraction(0),
            )
            * one.amount.number
            / 100
            for one, weight in zip(lines, found, strict=True)
        ]

    def lines(self, stages: list[str]):
        random = self.random
        lower, names = [part.id for part in self.parts], [item.id for item in self.pantry]

        def placed() -> str | None:
            return random.choice([*stages, None])

        found = []
        for _ in range(random.randint(1, 4)):
            scale = random.choice([Scale.LINEAR] * 4 + [Scale.HELD_BACK])
            found.append(line(random.choice(lower + names), self.amount(), stage=placed(), scale=scale))
            if random.random() < 0.15:
                found[-1] = replace(found[-1], medium=True)
        if random.random() < 0.4:
            found.append(line(random.choice(names), self.amount((EACH,)), stage=placed(), scale=Scale.WHOLE))
        if random.random() < 0.3:
            found.append(line(random.choice(lower + names), self.amount(), stage=placed(), scale=Scale.PER_LOAD))
        if self.by_products and random.random() < 0.5:
            left = random.choice(sorted(self.by_products))
            found.append(line(left, self.amount((GRAM,)), stage=placed()))
        if random.random() < 0.5:
            of = random.sample(sorted({one.item for one in found}), random.randint(1, len({one.item for one in found})))
            spices = [item for item in lower + names if item not in of]
            if spices:
                found.append(line(random.choice(spices), percent(str(self.number(5)), *of), stage=placed()))
        random.shuffle(found)
        return found

    def part(self, id_: str) -> Component:
        random = self.random
        names = [f"s{at}" for at in range(random.randint(0, 3))]
        lines = self.lines(names)
        weights = self.spec_grams(lines)
        went_in = sum((w for one, w in zip(lines, weights, strict=True) if not one.medium), Fraction(0))
        kept = Fraction(0)
        leaves = []
        if went_in and random.random() < 0.7:
            kept = went_in * Fraction(random.randint(1, 20), 100)
            after = random.choice([None, *names])
            item = random.choice([f"b{id_}", "b0"])
            amount = Amount(number=kept / 1000, unit=KILOGRAM)
            leaves.append(ByProduct(item=item, name=item, amount=amount, after=after, **AT))
        made = (went_in or self.number() * 100) * Fraction(random.randint(40, 79), 100)
        found = self.sized(id_, made, lines, names, weights)
        found = replace(found, also_makes=tuple(leaves))
        for entry in leaves:
            self.by_products.setdefault(entry.item, []).append((id_, entry.amount))
        return found

    def sized(self, id_: str, made: Fraction, lines, names: list[str], weights: list[Fraction]) -> Component:
        """A card that makes so many grams, in a random unit, with random sizes of batches."""
        random = self.random
        unit, density = random.choice(MADE), self.number(2)
        pieces = Fraction(random.randint(1, 60)) if unit is EACH or random.random() < 0.5 else None
        if unit is EACH:
            makes, each = Amount(number=pieces, unit=EACH), made / pieces
        else:
            factor = ML[unit.key] * density if unit is LITRE else GRAMS[unit.key]
            makes, each = Amount(number=made / factor, unit=unit), (made / pieces if pieces else self.number())
        self.facts[id_] = (density, each)

        def part_of(least: int, most: int) -> Amount:
            return Amount(number=makes.number * Fraction(random.randint(least, most), 12), unit=makes.unit)

        largest = part_of(6, 60) if random.random() < 0.6 else None
        step = Amount(number=makes.number / random.randint(1, 6), unit=makes.unit) if random.random() < 0.3 else None
        if largest is not None and step is not None and step.number > largest.number:
            step = largest
        smallest = part_of(1, 6) if random.random() < 0.4 else None
        keeps = random.choice([None, Duration(least=Fraction(480), most=Fraction(480)), self.days(3)])
        return replace(
            component(id_, ingredients=lines, loss=str(Fraction(random.randint(0, 30), 100))),
            makes=makes,
            pieces=None if unit is EACH else pieces,
            piece_weighs=Amount(number=each, unit=GRAM) if unit is EACH or not pieces else None,
            density=density,
            largest_batch=largest,
            batch_step=step,
            smallest_batch=smallest,
            keeps=keeps,
            stages=tuple(self.stage(at, names, lines, weights) for at in range(len(names))),
        )

    def days(self, count: int) -> Duration:
        return Duration(least=Fraction(count * 1440), most=Fraction(count * 1440), in_days=True)

    def stage(self, at: int, names: list[str], lines, weights: list[Fraction]) -> Stage:
        """A stage, with a most that is more than what goes in by the load, or a vessel, or neither."""
        random = self.random
        there = [
            (one, weight)
            for one, weight in zip(lines, weights, strict=True)
            if one.stage == names[at]
            or (not one.medium and (one.stage is None or names.index(one.stage) < at))
            or (one.stage is None and len(names) == 1)
        ]
        by_itself = self.days(1) if random.random() < 0.4 else None
        plain = Stage(name=names[at], unattended=by_itself, **AT)
        if there and random.random() < 0.45:
            of = random.sample(sorted({one.item for one, _ in there}), 1) if random.random() < 0.5 else []
            counted = [(one, weight) for one, weight in there if not of or one.item in of]
            load = sum((weight for one, weight in counted if one.scale is Scale.PER_LOAD), Fraction(0))
            load += sum((self.facts[one.item][1] for one, _ in counted if one.scale is Scale.WHOLE), Fraction(0))
            whole = sum((weight for _, weight in counted), Fraction(0))
            most = load + (whole or 1) * Fraction(random.randint(3, 40), 12)
            by_weight = any(one.item in self.by_products for one, _ in counted) or random.random() < 0.7
            if by_weight:
                return replace(plain, at_most=Amount(number=most / 1000, unit=KILOGRAM), of=tuple(of))
            lightest = min(self.facts[one.item][0] for one, _ in counted)
            return replace(plain, at_most=Amount(number=most / lightest, unit=MILLILITRE), of=tuple(of))
        if random.random() < 0.7:
            by_load = [one for one, _ in there if one.scale in (Scale.PER_LOAD, Scale.WHOLE)]
            if not by_load:
                fill = random.choice([None, Fraction(1, 2)])
                return replace(plain, vessel=random.choice(self.vessels).id, fill=fill)
        return plain

    def dish(self, id_: str):
        random = self.random
        items = [part.id for part in self.parts] + [item.id for item in self.pantry]
        chosen = random.sample(items, min(len(items), random.randint(1, 3)))
        parts = [replace(element(item), amount=self.amount((GRAM, OUNCE, MILLILITRE))) for item in chosen]
        if random.random() < 0.3:
            parts[0] = replace(parts[0], amount=Amount(number=self.number(1), unit=PIECE))
        if self.by_products and random.random() < 0.3:
            parts.append(replace(element(random.choice(sorted(self.by_products))), amount=self.amount((GRAM,))))
        return dish(id_, parts, sizes=[size("full")])

    def stock(self) -> tuple[StockEntry, ...]:
        random = self.random
        found = []
        for part in self.parts:
            for _ in range(random.choice((0, 0, 0, 1, 2))):
                made = random.choice([None, *(DAY + timedelta(days=at) for at in (-4, -2, -1, 0, 1))])
                use_by = random.choice([None, None, *(DAY + timedelta(days=at) for at in (-1, 0, 2))])
                found.append(StockEntry(item=part.id, amount=self.amount(), made=made, use_by=use_by, **AT))
        for item in self.by_products:
            if random.random() < 0.3:
                found.append(StockEntry(item=item, amount=self.amount((GRAM, KILOGRAM)), use_by=DAY, **AT))
        random.shuffle(found)
        return tuple(found)
