"""Small houses planned by trying everything: the first plan, from which others are looked for, is the best of its kind.

That of all kinds is ``test_plan_fewest``'s business. Component by component, whoever uses something first: all ways to share its demands out among batches and all places of
every batch are tried; the fewest batches win, then the latest ready and the latest started, the first batch first;
between these each stage takes no longer by itself than it must, and the next starts as late as it may. All times are
whole hours. Where a part has no place once its user has its best one, the planner asks the user for another: no
objective is stated for that, such houses are left to the checker. Where a batch has no place until others are moved out
of its way, the batches must be as few as can be, and none of them strained.

Run alone for more houses: ``python tests/unit/compute/test_plan_small.py COUNT FIRST``.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from itertools import pairwise
from random import Random
from unittest.mock import patch

from kitchen_factory import component, line
from plan_factory import HOUR, MONDAY, days, kitchen_line, place, served, small_house, span, stage, week

from linebook.compute import plan_best, plan_run, plan_search
from linebook.compute.placing import Placing
from linebook.compute.plan_order import users_then_parts
from linebook.compute.plan_relief import relieve
from linebook.compute.plan_results import PrepPlan
from linebook.compute.prep_plan import compute_plan
from linebook.model.component import Component
from linebook.model.house import Climate

HOUSES = 120
BEGIN = MONDAY - timedelta(days=4)
OPENS, SHUTS, SET_UP = 8, 20, 16


@dataclass(frozen=True)
class Step:
    """One stage, in hours. ``wait`` is how long what it leaves may stand."""

    hands: int
    least: int
    most: int
    finish: int
    oven: bool
    wait: int


@dataclass(frozen=True)
class Card:
    """One component: its steps, its life in days or hours, and the parts that go in at its steps."""

    id: str
    steps: tuple[Step, ...]
    keeps_days: int | None
    keeps_hours: int | None
    daily: bool
    parts: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True)
class Want:
    """What is wanted by an hour, until a day, for some services."""

    due: int
    served: int
    services: tuple[int, ...]


@dataclass(frozen=True)
class Way:
    """One place of a batch: when each step starts and is over, and the hours it takes, as bits."""

    starts: tuple[int, ...]
    dones: tuple[int, ...]
    ready: int
    hands: int
    oven: int

    @property
    def rank(self) -> tuple[int, ...]:
        """Ready late, started late; then each step no longer by itself than it must, and the next started late."""
        steps = (at for start, done in zip(self.starts, self.dones, strict=True) for at in (start, -done))
        return (self.ready, *steps)


@dataclass
class Kitchen:
    """What is taken so far, as bits."""

    staffed: int
    busy: int = 0
    baking: int = 0

    def is_free(self, way: Way) -> bool:
        return not (self.busy & way.hands or self.baking & way.oven)

    def take(self, way: Way) -> None:
        self.busy |= way.hands
        self.baking |= way.oven

    def give_back(self, way: Way) -> None:
        self.busy &= ~way.hands
        self.baking &= ~way.oven


def bits(begin: int, end: int) -> int:
    return sum(1 << at for at in range(begin, end))


def ways(card: Card, staffed: int, earliest: int, latest: int) -> list[Way]:
    """Every way to work a card between two hours, whatever is taken, the best first."""
    found: list[Way] = []

    def further(at: int, starts: tuple[int, ...], dones: tuple[int, ...], hands: int, oven: int, over: int) -> None:
        if at == len(card.steps):
            found.append(Way(starts, dones, over, hands, oven))
            return
        step = card.steps[at]
        for start in range(over, (latest if at == 0 else min(latest, over + card.steps[at - 1].wait)) + 1):
            alone = start + step.hands
            if not staffed >> start & 1:
                continue
            for done in range(alone + step.least, alone + step.most + 1):
                end = done + step.finish
                busy = bits(start, alone) | bits(done, end)
                if end <= latest and busy & staffed == busy:
                    baking = bits(start, end) if step.oven else 0
                    further(at + 1, (*starts, start), (*dones, done), hands | busy, oven | baking, end)

    further(0, (), (), 0, 0, earliest)
    return sorted(found, key=lambda way: way.rank, reverse=True)


def does(card: Card, way: Way, group: Sequence[Want], cards: dict[str, Card]) -> bool:
    """Whether a batch made so keeps every limit of all that it is for."""
    if way.ready > min(want.due for want in group):
        return False
    for want in group:
        if card.keeps_days is not None and way.ready // 24 < want.served - card.keeps_days + 1:
            return False
        if card.keeps_hours is not None and way.ready < want.due - card.keeps_hours:
            return False
        if card.daily and way.ready < want.due // 24 * 24:
            return False
    if (
        card.keeps_days is None
        and card.keeps_hours is None
        and len({(want.served, want.due // 24) for want in group}) > 1
    ):
        return False
    last = max(want.served for want in group)
    for part, step in card.parts:
        kept = 1 if cards[part].keeps_hours is not None else cards[part].keeps_days
        if kept is not None and way.starts[step] // 24 < last - kept + 1:
            return False
    return True


def partitions(wants: Sequence[int]) -> Iterator[list[list[int]]]:
    """Every way to share demands out among batches, the batches in the order of their first."""
    if not wants:
        yield []
        return
    head, rest = wants[0], wants[1:]
    for mask in range(1 << len(rest)):
        group = [head] + [want for at, want in enumerate(rest) if mask >> at & 1]
        left = [want for at, want in enumerate(rest) if not mask >> at & 1]
        for others in partitions(left):
            yield [group, *others]


def placed(options: Sequence[Sequence[Way]], kitchen: Kitchen) -> list[Way] | None:
    """The best places of batches, the first batch first, or None where there are none."""
    if not options:
        return []
    for way in options[0]:
        if kitchen.is_free(way):
            kitchen.take(way)
            others = placed(options[1:], kitchen)
            kitchen.give_back(way)
            if others is not None:
                return [way, *others]
    return None


def best(
    card: Card, wants: list[Want], kitchen: Kitchen, cards: dict[str, Card]
) -> list[tuple[Way, list[Want]]] | None:
    """The best batches of a card, by the stated objective."""
    earliest = max(0, min(want.due for want in wants) - 5 * 24)
    known = ways(card, kitchen.staffed, earliest, max(want.due for want in wants))
    options: dict[tuple[int, ...], list[Way]] = {}
    for number in range(1, len(wants) + 1):
        found = []
        for groups in partitions(range(len(wants))):
            if len(groups) != number:
                continue
            for group in groups:
                key = tuple(group)
                if key not in options:
                    options[key] = [way for way in known if does(card, way, [wants[at] for at in group], cards)]
            its = placed([options[tuple(group)] for group in groups], kitchen)
            if its is not None:
                batches = [(way, [wants[at] for at in group]) for way, group in zip(its, groups, strict=True)]
                found.append((([way.rank for way in its], [len(group) for group in groups]), batches))
        if found:
            return max(found, key=lambda one: one[0])[1]
    return None


class SmallHouse:
    """A random small house, as cards to try everything with, and as a house to plan."""

    def __init__(self, seed: int) -> None:
        self.random = random = Random(seed)
        self.cards: dict[str, Card] = {}
        number = random.randint(1, 3)
        for at in range(number):
            parts = ()
            steps = tuple(self.step() for _ in range(random.choice([1, 1, 2])))
            if at and random.random() < 0.5:
                parts = ((f"c{random.randrange(at)}", random.randrange(len(steps))),)
            life = random.choice([("d", 1), ("d", 2), ("d", 2), ("d", 3), ("d", 4), ("h", 6), ("h", 12), None])
            self.cards[f"c{at}"] = Card(
                id=f"c{at}",
                steps=steps,
                keeps_days=life[1] if life and life[0] == "d" else None,
                keeps_hours=life[1] if life and life[0] == "h" else None,
                daily=random.random() < 0.1,
                parts=parts,
            )
        self.plated = [id_ for id_ in self.cards if random.random() < 0.5] or [f"c{number - 1}"]
        used = {part for card in self.cards.values() for part, _ in card.parts}
        self.plated += [id_ for id_ in self.cards if id_ not in used and id_ not in self.plated]
        self.closed = {4 + at for at in range(-2, 4) if random.random() < 0.15}
        self.days = [4 + at for at in range(4) if random.random() < 0.75 and 4 + at not in self.closed] or [8]
        open_days = [day * 24 for day in range(9) if day not in self.closed]
        self.kitchen = Kitchen(sum(bits(day + OPENS, day + SHUTS) for day in open_days))

    def step(self) -> Step:
        random = self.random
        least = random.choice([0, 0, 1, 3, 12, 20])
        return Step(
            hands=random.choice([1, 1, 2, 3]),
            least=least,
            most=least + random.choice([0, 0, 2, 4]) if least else 0,
            finish=random.choice([0, 0, 1]),
            oven=random.random() < 0.4,
            wait=random.choice([0, 1, 4, 12]),
        )

    def component(self, card: Card) -> Component:
        stages = []
        for at, step in enumerate(card.steps):
            stages.append(
                stage(
                    f"s{at}",
                    hands_on=step.hands * HOUR,
                    unattended=(step.least * HOUR, step.most * HOUR) if step.most else None,
                    finish=step.finish * HOUR or None,
                    may_hold=step.wait * HOUR,
                    where="oven" if step.oven else "walk-in",
                )
            )
        keeps = days(card.keeps_days) if card.keeps_days else None
        keeps = span(card.keeps_hours * HOUR) if card.keeps_hours else keeps
        lines = [line(part, "100 g", stage=f"s{step}") for part, step in card.parts]
        return component(card.id, "1 kg", lines, stages=tuple(stages), keeps=keeps, make_daily=card.daily)

    def planned(self) -> PrepPlan:
        closed = tuple(BEGIN + timedelta(days=day) for day in self.closed)
        house = small_house(
            [self.component(card) for card in self.cards.values()],
            dict.fromkeys(self.plated, "10 g"),
            service=week(staffed=(OPENS, SHUTS), doors=None, closed=closed),
            lines=(kitchen_line("stove", 1, time(SET_UP)),),
            places=(place("oven", Climate.COLD, 1), place("walk-in")),
        )
        on = [BEGIN + timedelta(days=day) for day in self.days]
        return compute_plan(house, served(*on), first=on[0], last=on[-1])

    def solved(self, order: Sequence[str]) -> dict[str, list[tuple[Way, list[Want]]]] | None:
        """The best batches of every card, None where one has no way."""
        wants: dict[str, list[Want]] = {id_: [] for id_ in self.cards}
        for id_ in self.plated:
            wants[id_] += [Want(day * 24 + SET_UP, day, (day,)) for day in self.days]
        found = {}
        for id_ in order:
            if not wants[id_]:
                continue
            if len(wants[id_]) > 5:
                return None
            mine = sorted(wants[id_], key=lambda want: (want.due, want.served))
            batches = best(self.cards[id_], mine, self.kitchen, self.cards)
            if batches is None:
                return None
            found[id_] = batches
            for way, group in batches:
                self.kitchen.take(way)
                services = tuple(sorted({day for want in group for day in want.services}))
                for part, step in self.cards[id_].parts:
                    wants[part].append(Want(way.starts[step], max(want.served for want in group), services))
        return found


def moment(at: int) -> datetime:
    return datetime.combine(BEGIN, time(0)) + timedelta(hours=at)


def first_plan(small: SmallHouse) -> PrepPlan:
    """The plan that is made component by component, no other looked for."""
    with patch.object(plan_best, "MOST_BATCHES", -1), patch.object(plan_search, "_MOST_PLACED", 0):
        return small.planned()


def compare(seed: int, seen: Counter[str]) -> None:
    small = SmallHouse(seed)
    moved: list[Placing] = []

    def watched(*given: object, **named: object) -> Placing | None:
        found = relieve(*given, **named)
        moved.extend([found] if found is not None else [])
        return found

    with patch.object(plan_run, "relieve", watched):
        plan = first_plan(small)
    house = small_house([small.component(card) for card in small.cards.values()], {})
    solved = small.solved(users_then_parts(house))
    if solved is None:
        seen["left to the checker"] += 1
        return
    assert plan.unready == (), seed
    for id_ in small.cards:
        its = [making for making in plan.makings if making.component == id_]
        mine = sorted(its, key=lambda making: (making.due, making.ready, making.start))
        wanted = sorted(solved.get(id_, []), key=lambda one: (min(w.due for w in one[1]), one[0].rank))
        assert len(mine) == len(wanted), (seed, id_)
        if not moved:
            times = [(moment(way.ready), moment(way.starts[0])) for way, _ in wanted]
            assert [(one.ready, one.start) for one in mine] == times, (seed, id_)
        assert all(making.strains == () for making in mine), seed
        seen["batches"] += len(mine)
        seen["for several services"] += sum(len(making.services) > 1 for making in mine)
        seen["of a part"] += sum(any(share.user for share in making.shares) for making in mine)
        seen["one after another"] += sum(one.ready < other.due for one, other in pairwise(mine))
    seen["houses"] += 1
    seen["with something moved"] += bool(moved)


def test_small_houses_are_planned_as_well_as_can_be() -> None:
    seen: Counter[str] = Counter()
    for seed in range(HOUSES):
        compare(seed, seen)
    assert seen["houses"] > HOUSES / 2, seen
    assert min(seen["for several services"], seen["of a part"]) > 20, seen


if __name__ == "__main__":
    count, first = (int(word) for word in (sys.argv[1:] + ["1000", "0"][len(sys.argv) - 1 :]))
    total: Counter[str] = Counter()
    for number in range(first, first + count):
        try:
            compare(number, total)
        except AssertionError as wrong:
            total["not the best"] += 1
            print(str(wrong)[:700])
    print(dict(total))
