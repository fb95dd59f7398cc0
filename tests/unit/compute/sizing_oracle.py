"""A second way to size every batch of a night: all factors at once, as a system of linear equations over fractions.

Nothing of linebook's computation is used; all is in grams. For components that may be made in any amount, what is made
is what is needed less stock: (I - A) x = d, solved by elimination. What is made in pieces, steps or a smallest batch, and
what goes in by counts or by the load, are no linear things: they are held still, the system is solved, and they are
worked out anew from it, until nothing changes. There is one such night, as no card is made from itself.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta
from fractions import Fraction
from itertools import combinations
from math import ceil, floor

from sizing_houses import DAY, SizingHouse, grams

from linebook.model.amounts import Amount
from linebook.model.component import Component, Scale

ZERO = Fraction(0)
MOST = 100
"""More loads than a card logs: there the search is given up, and so is the night."""

LINEAR = (Scale.LINEAR, Scale.HELD_BACK)


class TooManyLoads(Exception):
    """A stage takes more loads than are sought."""


@dataclass
class Made:
    """One batch: factor, loads of the whole and of each stage, loads and grams of each line."""

    factor: Fraction
    loads: int
    stages: list[int]
    line_loads: list[int]
    lines: list[Fraction]


@dataclass
class Solved:
    """One night, in grams."""

    batches: dict[str, Made] = field(default_factory=dict)
    needed: dict[str, Fraction] = field(default_factory=dict)
    stock: dict[str, Fraction] = field(default_factory=dict)
    taken: dict[str, Fraction] = field(default_factory=dict)


def solve(kitchen: SizingHouse) -> Solved:
    return _Oracle(kitchen).night()


class _Oracle:
    def __init__(self, kitchen: SizingHouse) -> None:
        self.kitchen = kitchen
        self.parts = {part.id: part for part in kitchen.parts}
        self.yields = {id_: grams(part.makes, *kitchen.facts[id_]) for id_, part in self.parts.items()}
        self.spec = {id_: kitchen.spec_grams(part.ingredients) for id_, part in self.parts.items()}
        self.straight = {id_: self._straight(id_) for id_ in self.parts}
        self.plates = self._plates()
        self.stock = self._stock()

    def night(self) -> Solved:
        ids = list(self.parts)
        stepped = [
            id_
            for id_ in ids
            if self.parts[id_].pieces
            or self.parts[id_].makes.unit.key == "each"
            or self.parts[id_].batch_step
            or self.parts[id_].smallest_batch
        ]
        free = [id_ for id_ in ids if id_ not in stepped]
        factors, loads = dict.fromkeys(ids, ZERO), dict.fromkeys(ids, 1)
        while True:
            made = {id_: self._made(id_, factors[id_], loads[id_]) for id_ in ids if factors[id_]}
            extra = {id_: self._beyond_straight(made, id_) for id_ in (*self.parts, *self.kitchen.by_products)}
            new = self._free_factors(free, {id_: factors[id_] for id_ in stepped}, extra)
            needed = {id_: self._needed(id_, new | {s: factors[s] for s in stepped}, extra) for id_ in ids}
            for id_ in stepped:
                new[id_], loads[id_] = self._size(id_, needed[id_] - self.stock.get(id_, ZERO))
            for id_ in free:
                loads[id_] = self._fewest(id_, new[id_] * self.yields[id_])
            if new == factors and all(self._same(made, id_, new, loads) for id_ in ids):
                break
            factors = new
        return Solved(batches=made, needed=needed, stock=self.stock, taken=self._taken(made))

    def _same(self, made: dict[str, Made], id_: str, factors: dict[str, Fraction], loads: dict[str, int]) -> bool:
        return (id_ in made) == bool(factors[id_]) and (id_ not in made or made[id_].loads == loads[id_])

    def _plates(self) -> dict[str, Fraction]:
        found: dict[str, Fraction] = {}
        for entry, plate in zip(self.kitchen.entries, self.kitchen.dishes, strict=True):
            portions = self.kitchen.covers * entry.share
            count = ceil(portions + max(portions * entry.spare, entry.at_least))
            for part in plate.elements:
                weight = self.kitchen.weigh(part.item, part.amount) * count
                found[part.item] = found.get(part.item, ZERO) + weight
        return found

    def _stock(self) -> dict[str, Fraction]:
        found: dict[str, Fraction] = {}
        for entry in self.kitchen.occasion.on_hand:
            part = self.parts.get(entry.item)
            last = entry.use_by
            if last is None and entry.made is not None:
                days = self._days(entry.item) if part and part.keeps else None
                last = entry.made + timedelta(days=(days or 1) - 1)
            if last is not None and last >= DAY and (entry.made is None or entry.made <= DAY):
                weight = self.kitchen.weigh(entry.item, entry.amount)
                found[entry.item] = found.get(entry.item, ZERO) + weight
        return found

    def _days(self, id_: str) -> int | None:
        """Return for how many days a card keeps: no longer than anything made here that goes into it."""
        part = self.parts[id_]
        own = None if part.keeps is None else int(part.keeps.least / 1440) if part.keeps.in_days else 1
        inside = [self._days(line.item) for line in part.ingredients if line.item in self.parts and not line.medium]
        return min((days for days in (own, *inside) if days is not None), default=None)

    def _straight(self, id_: str) -> dict[str, Fraction]:
        """Grams of every item that grow with one spec's batch."""
        part, found = self.parts[id_], {}
        for line, weight in zip(part.ingredients, self.spec[id_], strict=True):
            straight = weight if line.scale in LINEAR else ZERO
            if not isinstance(line.amount, Amount):
                of = (
                    known
                    for other, known in zip(part.ingredients, self.spec[id_], strict=True)
                    if other.item in line.amount.of and other.scale in LINEAR and isinstance(other.amount, Amount)
                )
                straight = sum(of, ZERO) * line.amount.number / 100
            found[line.item] = found.get(line.item, ZERO) + straight
        return found

    def _beyond_straight(self, made: dict[str, Made], item: str) -> Fraction:
        total = ZERO
        for id_, one in made.items():
            for line, weight in zip(self.parts[id_].ingredients, one.lines, strict=True):
                total += weight if line.item == item else ZERO
            total -= self.straight[id_].get(item, ZERO) * one.factor
        return total

    def _needed(self, id_: str, factors: dict[str, Fraction], extra: dict[str, Fraction]) -> Fraction:
        used = self.plates.get(id_, ZERO) + extra[id_]
        used += sum((self.straight[user].get(id_, ZERO) * factors[user] for user in self.parts), ZERO)
        return used / (1 - self.parts[id_].loss)

    def _free_factors(
        self, free: list[str], stepped: dict[str, Fraction], extra: dict[str, Fraction]
    ) -> dict[str, Fraction]:
        """Solve for what is made in any amount; what stock covers is not made at all."""
        active = list(free)
        while True:
            right = []
            for row in active:
                used = self.plates.get(row, ZERO) + extra[row]
                used += sum((self.straight[user].get(row, ZERO) * stepped[user] for user in stepped), ZERO)
                right.append(used / (1 - self.parts[row].loss) - self.stock.get(row, ZERO))
            matrix = [
                [
                    (self.yields[row] if row == column else ZERO)
                    - self.straight[column].get(row, ZERO) / (1 - self.parts[row].loss)
                    for column in active
                ]
                for row in active
            ]
            factors = dict.fromkeys(free, ZERO) | dict(zip(active, eliminate(matrix, right), strict=True))
            clamped = {id_: max(ZERO, factor) for id_, factor in factors.items()}
            needed = {id_: self._needed(id_, clamped | stepped, extra) for id_ in free}
            now = [id_ for id_ in free if needed[id_] > self.stock.get(id_, ZERO)]
            if now == active:
                return factors
            active = now

    def _size(self, id_: str, short: Fraction) -> tuple[Fraction, int]:
        """Return factor and loads of what is made in whole things, from the grams that are short."""
        if short <= 0:
            return ZERO, 1
        part, one_batch = self.parts[id_], self.yields[id_]
        weight = max(short, self._weight(id_, part.smallest_batch) or ZERO)
        pieces = part.makes.number if part.makes.unit.key == "each" else part.pieces
        if pieces:
            weight = -(-weight * pieces // one_batch) * one_batch / pieces
        step, largest = self._weight(id_, part.batch_step), self._weight(id_, part.largest_batch)
        if not step:
            return weight / one_batch, self._fewest(id_, weight)
        loads, steps = 1, -(-weight // step)
        while largest and -(-steps // loads) * step > largest:
            loads += 1
        return loads * -(-steps // loads) * step / one_batch, loads

    def _weight(self, id_: str, amount: Amount | None) -> Fraction | None:
        return None if amount is None else grams(amount, *self.kitchen.facts[id_])

    def _fewest(self, id_: str, weight: Fraction) -> int:
        largest = self._weight(id_, self.parts[id_].largest_batch)
        loads = 1
        while largest and weight / loads > largest:
            loads += 1
        return loads

    def _made(self, id_: str, factor: Fraction, loads: int) -> Made:
        """Return a batch whose stages are in the fewest loads that fit, found by trying one load more at a time."""
        part = self.parts[id_]
        stages = [1 if stage.at_most is not None else loads for stage in part.stages]
        steady = False
        while not steady:
            steady = True
            for at in range(len(stages)):
                while not self._fits(part, factor, loads, stages, at):
                    stages[at] += 1
                    steady = False
                    if stages[at] > MOST:
                        raise TooManyLoads(id_)
            for first, last in combinations(range(len(stages)), 2):
                between = {one.vessel for one in part.stages[first : last + 1]} - {None}
                ends = part.stages[first].vessel is not None and part.stages[last].vessel is not None
                if ends and len(between) == 1 and len(set(stages[first : last + 1])) > 1:
                    stages[first : last + 1] = [max(stages[first : last + 1])] * (last + 1 - first)
                    steady = False
        line_loads = self._line_loads(part, loads, stages)
        return Made(
            factor=factor,
            loads=loads,
            stages=stages,
            line_loads=line_loads,
            lines=self._lines(part, factor, line_loads),
        )

    def _line_loads(self, part: Component, loads: int, stages: list[int]) -> list[int]:
        names = [stage.name for stage in part.stages]
        return [
            stages[names.index(line.stage)] if line.stage else stages[0] if len(stages) == 1 else loads
            for line in part.ingredients
        ]

    def _lines(self, part: Component, factor: Fraction, line_loads: list[int]) -> list[Fraction]:
        """Return the grams of every line over all of its loads."""
        found: list[Fraction] = []
        for line, spec, loads in zip(part.ingredients, self.spec[part.id], line_loads, strict=True):
            if line.scale is Scale.WHOLE:
                count = max(1, floor(line.amount.number * factor / loads + Fraction(1, 2)))
                found.append(count * loads * self.kitchen.facts[line.item][1])
            else:
                found.append(spec * (loads if line.scale is Scale.PER_LOAD else factor))
        for at, line in enumerate(part.ingredients):
            if not isinstance(line.amount, Amount):
                of = (
                    known for known, other in zip(found, part.ingredients, strict=True) if other.item in line.amount.of
                )
                found[at] = sum(of, ZERO) * line.amount.number / 100
        return found

    def _fits(self, part: Component, factor: Fraction, loads: int, stages: list[int], at: int) -> bool:
        stage = part.stages[at]
        names = [one.name for one in part.stages]
        lines = self._lines(part, factor, self._line_loads(part, loads, stages))
        contents = room = ZERO
        if stage.at_most is not None:
            room = grams(stage.at_most, Fraction(1), ZERO)  # of a volume: its millilitres
            by_weight = stage.at_most.unit.key == "kilogram"
            for line, weight in zip(part.ingredients, lines, strict=True):
                own = line.stage == stage.name or (line.stage is None and len(names) == 1)
                earlier = not line.medium and (line.stage is None or names.index(line.stage) < at)
                if (own or earlier) and (not stage.of or line.item in stage.of):
                    contents += weight if by_weight else weight / self.kitchen.facts[line.item][0]
            if not stage.of and by_weight:
                gone = (made.amount for made in part.also_makes if made.after in names[:at])
                contents -= sum((amount.number * 1000 for amount in gone), ZERO) * factor
        elif stage.vessel is not None:
            vessel = next(one for one in self.kitchen.vessels if one.id == stage.vessel)
            if vessel.holds is None:
                return True
            room = vessel.holds.number * 1000 * (stage.fill or vessel.fill) * (vessel.count or 1)
            filled = self._filled(part, factor, lines, at)
            if filled is None:
                return True
            contents = filled
        else:
            return True
        return contents <= room * stages[at]

    def _filled(self, part: Component, factor: Fraction, lines: list[Fraction], at: int) -> Fraction | None:
        """Return the millilitres in the vessel of a stage, line by line; None where nothing goes in at it.

        A line is there as it went in if it has been in that vessel, or by hand alone on the way to it. Of the others
        the card's own yield says how much is left at the least: nothing is gained on the way.
        """
        names = [one.name for one in part.stages]
        run = at
        for earlier in range(at):
            named = {one.vessel for one in part.stages[earlier:at]} - {None}
            if part.stages[earlier].vessel and named <= {part.stages[at].vessel}:
                run = earlier
                break
        unsaid = 0 if len(names) == 1 else -1
        places = [names.index(line.stage) if line.stage else unsaid for line in part.ingredients]
        if not any(run <= place <= at for place in places):
            return None
        sure = [all(one.unattended is None for one in part.stages[max(place, 0) : run]) for place in range(-1, at + 1)]
        filled = went_in = later = ZERO
        for line, weight, place in zip(part.ingredients, lines, places, strict=True):
            is_there = place <= at and (place == at or not line.medium)
            if is_there and sure[place + 1]:
                density = self.kitchen.facts[line.item][0] if line.item in self.kitchen.facts else Fraction(1)
                filled += weight / (density if density >= Fraction(9, 10) else Fraction(22, 10))
            elif is_there:
                went_in += weight
            if not line.medium and (place > at or sure[place + 1]):
                later += weight
        to_come = self.yields[part.id] * factor - later
        for made in part.also_makes:
            weight, place = made.amount.number * 1000 * factor, names.index(made.after) if made.after else None
            if place is None:
                continue
            if place < at and not sure[place + 1]:
                went_in -= weight
                continue
            to_come += weight
            filled -= weight if place < at else 0
        density = self.kitchen.facts[part.id][0]
        carried = max(ZERO, min(went_in, to_come))
        return filled + carried / (density if density >= Fraction(9, 10) else Fraction(22, 10))

    def _taken(self, made: dict[str, Made]) -> dict[str, Fraction]:
        """Grams that the night takes of every item that is not made for it."""
        found = {item: self.plates.get(item, ZERO) for item in (*self.kitchen.facts, *self.kitchen.by_products)}
        for id_, one in made.items():
            for line, weight in zip(self.parts[id_].ingredients, one.lines, strict=True):
                found[line.item] += weight
        return found


def eliminate(matrix: list[list[Fraction]], right: list[Fraction]) -> list[Fraction]:
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
