"""One rule for dates: plan, label, stock, card and check of generated houses against paths walked one by one.

The houses are spec files, four components deep, read and checked as a chef's are. The dates are worked out here from
the text of the specs and from when the plan has each batch ready: every path from a batch down to what is in it is
walked, and the earliest end wins. None of the code that decides it is used.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import product
from pathlib import Path
from random import Random

import pytest

from linebook.compute.containers import containers_of
from linebook.compute.prep_plan import compute_plan
from linebook.compute.services import CoversAsked, find_services
from linebook.compute.stock import last_day
from linebook.documents.keeping import keeps_text
from linebook.documents.measures import Measures
from linebook.documents.stages import StageWriter
from linebook.documents.wording import english
from linebook.model.amounts import Amount
from linebook.model.supply import StockEntry
from linebook.model.units import KILOGRAM
from linebook.pipeline import load_house

WEDNESDAY = date(2027, 3, 3)
DAY = timedelta(days=1)
HOUSES = 60
DEPTH = 4
HOUSE = """name: Rope Walk
rules: {rules}
currency: £
measures: {{cup: us, spoon: metric, pint: imperial}}
nights: [40]
allergens: {{lists: [uk]}}
lines: {{stove: {{name: Stove, cooks: 9}}}}
service: {{days: [wed, thu, fri, sat, sun, mon, tue], doors: 17:30, last_seating: 21:00, staffed: 06:00 to 23:30}}
places:
  walk-in: {{name: walk-in, climate: cold, at: 3 °C}}
  freezer: {{name: freezer, climate: frozen, at: -22 °C}}
  oven: {{name: oven, climate: hot}}
plates: {{bowl-20: {{name: bowl, shape: bowl, size: 20 cm, rim: 2 cm}}}}
instruments: [{{scale: bench scale, up_to: 30 kg, reads: 5 g}}]
"""
PANTRY = "barley: {name: barley, allergens: {contains: none, says: label, since: 2027-01-02}}\n"
MENU = """name: spring
first: 2027-03-01
covers: {wed: 30, thu: 30, fri: 30, sat: 30, sun: 30, mon: 30, tue: 30}
courses: [{course: pots, name: Pots, portions_a_cover: 1}]
dishes: [{dish: bowl, share: 1}]
"""
DISH = """---
name: Bowl
line: stove
course: pots
plate: bowl-20
elements: [{item: c3, amount: 50 g, at: centre}]
---
## Pick-up
1. Spoon it in.
"""


class Card:
    """One component as it is written: what it keeps, how, and of what it is made at which of its stages."""

    def __init__(self, random: Random, id_: str, parts: list[str]) -> None:
        self.id = id_
        self.frozen = random.random() < 0.25
        self.keeps = random.randint(5, 20) if self.frozen else random.randint(1, 7)
        self.kept_by = random.random() < 0.1
        self.daily = random.random() < 0.1
        self.stages = [
            (random.choice(["oven", "oven", "walk-in"]), random.random() < 0.12) for _ in range(random.randint(1, 3))
        ]
        self.lines = [
            (part, random.randrange(len(self.stages)), random.random() < 0.12)
            for part in random.sample(parts, random.randint(min(1, len(parts)), min(2, len(parts))))
        ]

    def text(self) -> str:
        lines = ["  - {item: barley, amount: 1 kg, stage: s0}"]
        lines += [
            f"  - {{item: {p}, amount: 300 g, stage: s{s}{', medium: yes' if m else ''}}}" for p, s, m in self.lines
        ]
        stages = []
        for at, (where, anew) in enumerate(self.stages):
            cools = ", limit: cool" if where == "walk-in" and at and self.stages[at - 1][0] == "oven" else ""
            stages.append(
                f"  - {{stage: s{at}, hands_on: 10 min, where: {where}{cools}{', sets_date: yes' if anew else ''}}}"
            )
        last = "freezer" if self.frozen else "walk-in"
        said = [f"keeps: {self.keeps} d", f"store: {{where: {last}}}"]
        said += ["kept_by: acid"] if self.kept_by else []
        said += ["make: daily"] if self.daily else []
        head = [
            "---",
            f"name: Part {self.id}",
            "line: stove",
            "makes: 1 kg",
            *said,
            "ingredients:",
            *lines,
            "stages:",
            *stages,
        ]
        if self.stages[-1][0] == "oven":
            head.append("  - {stage: cool, hands_on: 5 min, where: walk-in, limit: cool}")
        body = [f"## S{at}\n1. Stir.\n" for at in range(len(self.stages))]
        body += ["## Cool\n1. Chill.\n"] if self.stages[-1][0] == "oven" else []
        return "\n".join([*head, "---", *body])

    def passes_on(self, cards: dict[str, Card], at: int) -> bool:
        """Whether a date goes on from what is on a line."""
        part, stage, medium = self.lines[at]
        anew = any(sets for _, sets in self.stages[stage:])
        return not (medium or anew or self.kept_by or cards[part].kept_by)


def written(folder: Path, seed: int) -> dict[str, Card]:
    """A house of four levels: each card is made from cards below it, the one that is plated from all in the end."""
    random = Random(seed)
    cards: dict[str, Card] = {}
    for level in range(DEPTH):
        below = [id_ for id_ in cards if not id_.startswith(f"x{level}")]
        for id_ in (f"c{level}", *(["x" + str(level)] if level < DEPTH - 1 and random.random() < 0.5 else [])):
            cards[id_] = Card(random, id_, below)
        if level:
            card = cards[f"c{level}"]
            if f"c{level - 1}" not in [part for part, _, _ in card.lines]:
                card.lines.append((f"c{level - 1}", 0, False))
    rules = random.choice(["FDA Food Code 2022", "UK", "EU"])
    texts = {"house.yaml": HOUSE.format(rules=rules), "pantry/dry.yaml": PANTRY, "menus/spring.yaml": MENU}
    texts |= {"dishes/bowl.md": DISH} | {f"components/{card.id}.md": card.text() for card in cards.values()}
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return cards


def paths(cards: dict[str, Card], start: str) -> Iterator[tuple[tuple[str, int], ...]]:
    """Every way down from a card along lines that pass dates on, the empty way first."""
    yield ()
    for at, (part, _, _) in enumerate(cards[start].lines):
        if cards[start].passes_on(cards, at):
            yield from (((start, at), *rest) for rest in paths(cards, part))


def most_days(cards: dict[str, Card], start: str) -> int:
    """How many days a card keeps where all that is in it is made on its day 1, or on the day before it is frozen."""
    found = [cards[start].keeps]
    for way in paths(cards, start):
        through = [start, *(cards[card].lines[at][0] for card, at in way)]
        if way and not cards[start].frozen and not cards[through[-1]].frozen:
            found.append(max(1, cards[through[-1]].keeps - sum(cards[id_].frozen for id_ in through[1:-1])))
    return min(found)


def end_of(cards: dict[str, Card], plan, number: int) -> date:
    """The last day of a batch: of each batch on each way down, its own end and the days in freezers on the way."""
    made = plan.makings[number]
    found = [made.life_from + (cards[made.component].keeps - 1) * DAY]
    for way in () if cards[made.component].frozen else paths(cards, made.component):
        if not way or cards[cards[way[-1][0]].lines[way[-1][1]][0]].frozen:
            continue
        steps = [[one for one in plan.makings if one.component == cards[card].lines[at][0]] for card, at in way]
        for chain in product(*steps):
            users = (made, *chain[:-1])
            if not all(any(s.taker == user.number for s in one.shares) for user, one in zip(users, chain, strict=True)):
                continue
            end = chain[-1].life_from + (cards[chain[-1].component].keeps - 1) * DAY
            for user, part, (card, at) in zip(users, chain, way, strict=True):
                if cards[part.component].frozen:
                    stage = cards[card].lines[at][1]
                    out = min(one.start for one in user.stages if one.number == stage).date()
                    end += max(0, (out - part.ready.date()).days - 1) * DAY
            found.append(end)
    return min(found)


@pytest.fixture(scope="module")
def houses(tmp_path_factory):
    found = []
    for seed in range(HOUSES):
        folder = tmp_path_factory.mktemp("house")
        cards = written(folder, seed)
        loaded = load_house(folder, "house")
        assert loaded.value is not None, [fault.message for fault in loaded.faults]
        services = find_services(loaded.value, WEDNESDAY, 6, CoversAsked(every=30)).value
        assert services is not None
        plan = compute_plan(loaded.value, services.days, first=WEDNESDAY, last=WEDNESDAY + 5 * DAY)
        found.append((cards, loaded, plan))
    return found


def test_plan_and_label_have_the_earliest_end_of_every_way_down(houses):
    several = paused = 0
    for cards, loaded, plan in houses:
        for making in plan.makings:
            end = end_of(cards, plan, making.number)
            assert making.use_by == end, (making.component, making.life_from)
            several += end < making.life_from + (cards[making.component].keeps - 1) * DAY
            (label,) = (
                one
                for one in containers_of(loaded.value, plan, making.ready.date(), ["stove"])
                if one.making.number == making.number
            )
            assert (label.use_by, label.made) == (end, making.life_from)
        frozen = (one for one in plan.makings if cards[one.component].frozen and cards[one.component].lines)
        paused += sum(
            plan.makings[share.taker].start.date() > one.ready.date() + DAY
            for one in frozen
            for share in one.shares
            if share.taker is not None
        )
    assert several > 100
    assert paused > 10


def test_stock_without_a_label_keeps_no_longer_than_what_is_in_it(houses):
    for cards, loaded, _ in houses:
        span = loaded.value.components["c3"].span
        for id_ in cards:
            entry = StockEntry(item=id_, amount=Amount(number=1, unit=KILOGRAM), made=WEDNESDAY, span=span, spans={})
            assert last_day(loaded.value, entry) == WEDNESDAY + (most_days(cards, id_) - 1) * DAY


def test_the_check_warns_where_a_card_says_more_days_than_it_has(houses):
    seen = set()
    for cards, loaded, _ in houses:
        warned = {fault.span.source.path for fault in loaded.faults if fault.code == "LB529" and fault.span}
        for id_, card in cards.items():
            wanted = most_days(cards, id_) < card.keeps
            assert (f"house/components/{id_}.md" in warned) is wanted, id_
            seen.add(wanted)
    assert seen == {True, False}


def test_the_card_says_whose_date_counts(houses):
    for cards, loaded, _ in houses:
        house = loaded.value
        stages = StageWriter(house=house, measures=Measures(house=house.file, wording=english()))
        for id_, card in cards.items():
            said = keeps_text(house.components[id_], stages).plain.replace("\u00a0", " ")
            assert said.startswith(f"{card.keeps} d{' frozen' if card.frozen else ''}: day 1 is")
            anew = [at for at, (_, sets) in enumerate(card.stages) if sets]
            assert ("stands still" in said) is card.frozen
            assert ("a date of its own" in said) is (card.kept_by and not card.frozen)
            if not card.frozen and not card.kept_by:
                later = any(stage > anew[-1] for _, stage, medium in card.lines if not medium) if anew else True
                assert ("never past the use-by of what" in said) is later
                assert bool(re.search("counted anew from S", said)) is bool(anew)
                kept = {f"Part {part}" for part, at, m in card.lines if cards[part].kept_by and not m}
                assert anew or all(name in said for name in kept)
