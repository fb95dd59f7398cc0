"""Orders of generated houses against a purchaser who works day by day with pencil and paper, and the laws of buying.

The nights themselves are held against another oracle in test_needs_oracle; here what a night takes is only read off its
batches and plates. Longest ways are found by walking every way; deliveries by stepping from day to day; packs by adding
one at a time. Fixed seeds.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from random import Random

import pytest
from kitchen_factory import (
    AT,
    amount,
    bought,
    by_product,
    component,
    dish,
    element,
    house,
    line,
    listed,
    menu,
    minutes,
    stage,
)

from linebook.compute.demand import compute_night
from linebook.compute.order import compute_order
from linebook.compute.order_needs import days_before
from linebook.compute.services import CoversAsked, find_services
from linebook.model.amounts import Amount, Duration
from linebook.model.house import Service
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry, Supplier
from linebook.model.units import GRAM

SEEDS = range(300)
MONDAY = date(2027, 3, 1)
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
DAY = timedelta(days=1)


class Kitchen:
    """A house with suppliers, packs, leads, stages of up to three days and stock, all in grams."""

    def __init__(self, seed: int) -> None:
        self.random = random = Random(seed)
        self.suppliers = tuple(
            Supplier(name=f"s{at}", delivers=tuple(sorted(random.sample(WEEKDAYS, random.randint(1, 4)))), **AT)
            for at in range(random.randint(1, 3))
        )
        self.pantry = [self._item(f"p{at}") for at in range(random.randint(1, 4))]
        self.components = []
        for at in range(random.randint(0, 4)):
            self.components.append(self._component(f"c{at}"))
        items = [one.id for one in (*self.pantry, *self.components)]
        parts = [
            element(item, f"{random.randint(1, 200)} g") for item in random.sample(items, random.randint(1, len(items)))
        ]
        plates = [dish("d", parts)]
        served = replace(menu("m", [listed("d", str(Fraction(random.randint(1, 10), 10)))], MONDAY), covers={})
        kitchen = house(self.pantry, self.components, plates, [served])
        days = tuple(sorted(random.sample(WEEKDAYS, random.randint(2, 6)), key=WEEKDAYS.index))
        closed = (MONDAY + DAY * random.randint(0, 8),)
        service = Service(days=days, closed=closed, **AT)
        self.house = replace(kitchen, file=replace(kitchen.file, suppliers=self.suppliers, service=service))
        self.covers = random.randint(1, 60)
        self.days = random.randint(1, 14)
        self.written = MONDAY - DAY * random.randint(0, 12)
        self.stock = tuple(self._left() for _ in range(random.randint(0, 3)))
        self.open = [
            day
            for day in (MONDAY + DAY * at for at in range(self.days))
            if WEEKDAYS[day.weekday()] in days and day not in closed
        ]

    def _item(self, id_: str):
        random = self.random
        return replace(
            bought(id_),
            usable=random.choice([None, Fraction(random.randint(1, 20), 20)]),
            pack=random.choice([None, amount(f"{random.randint(50, 5000)} g")]),
            lead=random.choice([None, Duration(least=Fraction(0), most=Fraction(random.randint(1, 5760)))]),
            supplier=random.choice(self.suppliers).name,
        )

    def _component(self, id_: str):
        random = self.random
        names = [one.id for one in (*self.pantry, *self.components)]
        lines = [
            replace(line(random.choice(names), f"{random.randint(1, 900)} g"), weigh_before=random.random() < 0.3)
            for _ in range(random.randint(1, 3))
        ]
        stages = [
            stage("one", hands_on=minutes(20, random.randint(20, 90)), unattended=minutes(random.randint(1, 4000)))
        ]
        return component(id_, f"{random.randint(100, 2000)} g", lines, stages=tuple(stages))

    def _left(self) -> StockEntry:
        random = self.random
        item = random.choice([*self.pantry, *self.components])
        use_by = MONDAY + DAY * random.randint(-1, 10)
        is_made = item in self.components
        return StockEntry(
            item=item.id,
            amount=amount(f"{random.randint(1, 9000)} g"),
            made=MONDAY - DAY if is_made else None,
            use_by=use_by if is_made or random.random() < 0.5 else None,
            **AT,
        )

    def order(self):
        services = find_services(self.house, MONDAY, self.days, CoversAsked(every=self.covers))
        if not self.open:
            assert services.value is None
            return None
        assert [one.day for one in services.value.days] == self.open
        last = MONDAY + DAY * (self.days - 1)
        return compute_order(
            self.house, services.value, first=MONDAY, last=last, written=self.written, on_hand=self.stock
        )


def longest(kitchen: Kitchen, id_: str, made: set[str]) -> Fraction:
    """The longest way of a component, walking every way up."""
    part = kitchen.house.components[id_]
    own = sum((one.hands_on.most + one.unattended.most for one in part.stages), Fraction(0))
    ups = [user for user in made if any(row.item == id_ for row in kitchen.house.components[user].ingredients)]
    return own + max((longest(kitchen, user, made) for user in ups), default=Fraction(0))


def takes(kitchen: Kitchen):
    """Yield day of service, day in the house, item and grams as purchased; stock of components taken off by hand."""
    left = {at: entry.amount.number for at, entry in enumerate(kitchen.stock)}
    for day in kitchen.open:
        live = {
            at: entry
            for at, entry in enumerate(kitchen.stock)
            if entry.item in kitchen.house.components and entry.use_by >= day and left[at]
        }
        on_hand = tuple(replace(entry, amount=Amount(number=left[at], unit=GRAM)) for at, entry in live.items())
        night = compute_night(kitchen.house, Occasion(menu="m", covers=kitchen.covers, date=day, on_hand=on_hand))
        needs = {id_: batch.needed.number for id_, batch in night.batches.items()}
        needs |= {id_: need.number for id_, need in night.covered.items()}
        for at, entry in sorted(live.items(), key=lambda pair: pair[1].use_by):
            part = min(left[at], needs.get(entry.item, Fraction(0)))
            left[at] -= part
            needs[entry.item] = needs.get(entry.item, Fraction(0)) - part
        (plate,) = kitchen.house.dishes.values()
        portions = sum(one.portions for one in night.demands)
        rows = [(day, one.item, one.amount.number * portions, False) for one in plate.elements]
        for id_, batch in night.batches.items():
            before = longest(kitchen, id_, set(night.batches))
            whole_days = -(-before // 1440)
            for row in batch.ingredients:
                grams = row.total.number
                rows.append((day - DAY * int(whole_days), row.ingredient.item, grams, row.ingredient.weigh_before))
        for by, item, grams, weighed_before in rows:
            if item in kitchen.house.pantry and grams:
                usable = kitchen.house.pantry[item].usable or 1
                yield day, by, item, grams if weighed_before else grams / usable


def pencil(kitchen: Kitchen, item: str, wants):
    """What to buy of one item: [(delivery, needed, ordered)], stepping from day to day."""
    record = kitchen.house.pantry[item]
    stock = sorted(
        ([entry.amount.number, entry.use_by or date.max] for entry in kitchen.stock if entry.item == item),
        key=lambda one: one[1],
    )
    delivers = next(one.delivers for one in kitchen.suppliers if one.name == record.supplier)
    lead = 0 if record.lead is None else -(-record.lead.most // 1440)
    coming: dict[date, Fraction] = {}
    for day, by, wanted in sorted(wants):
        grams = wanted
        for one in stock:
            if one[1] >= day:
                part = min(one[0], grams)
                one[0] -= part
                grams -= part
        if not grams:
            continue
        arrives = by
        while WEEKDAYS[arrives.weekday()] not in delivers:
            arrives -= DAY
        if arrives - DAY * int(lead) < kitchen.written:
            arrives = kitchen.written + DAY * int(lead)
            while WEEKDAYS[arrives.weekday()] not in delivers:
                arrives += DAY
        coming[arrives] = coming.get(arrives, Fraction(0)) + grams
    over, found = Fraction(0), []
    for arrives in sorted(coming):
        need, packs = coming[arrives], 0
        if record.pack is None:
            if need > over:
                found.append((arrives, need - over, need - over))
            over = max(Fraction(0), over - need)
            continue
        while over + packs * record.pack.number < need:
            packs += 1
        if packs:
            found.append((arrives, need - over, packs * record.pack.number))
        over += packs * record.pack.number - need
    return found


@pytest.mark.parametrize("seed", SEEDS)
def test_against_pencil_and_paper(seed):
    kitchen = Kitchen(seed)
    order = kitchen.order()
    if order is None:
        return
    wanted: dict[str, list[tuple[date, date, Fraction]]] = {}
    for day, by, item, grams in takes(kitchen):
        wanted.setdefault(item, []).append((day, by, grams))
    for item in kitchen.house.pantry:
        lines = [(delivery.day, one) for delivery in order.deliveries for one in delivery.lines if one.item == item]
        found = sorted((day, _grams(one.needed), _grams(one.ordered)) for day, one in lines)
        assert found == pencil(kitchen, item, wanted.get(item, []))
        for _, one in lines:
            assert _grams(one.ordered) - _grams(one.needed) == _grams(one.over) >= 0
            assert one.packs is None or one.pack.number * one.packs == one.ordered.number


@pytest.mark.parametrize("seed", SEEDS)
def test_never_less_than_is_used_on_any_day_and_no_pack_too_many(seed):
    kitchen = Kitchen(seed)
    order = kitchen.order()
    if order is None:
        return
    late = {one.item for one in order.too_late}
    events: dict[str, list[tuple[date, date, Fraction]]] = {}
    for day, by, item, grams in takes(kitchen):
        events.setdefault(item, []).append((day, by, grams))
    for item, found in events.items():
        stock = sum((entry.amount.number for entry in kitchen.stock if entry.item == item), Fraction(0))
        arrivals = [(one.day, row) for one in order.deliveries for row in one.lines if row.item == item]
        used = sum((grams for _, _, grams in found), Fraction(0))
        brought = sum((_grams(row.ordered) for _, row in arrivals), Fraction(0))
        assert brought + stock >= used
        lasting = all(entry.use_by is None for entry in kitchen.stock if entry.item == item)
        if item in late or not lasting:
            continue
        for today in {by for _, by, _ in found}:
            here = sum((_grams(row.ordered) for day, row in arrivals if day <= today), Fraction(0))
            gone = sum((grams for _, by, grams in found if by <= today), Fraction(0))
            assert here + stock >= gone
        pack = kitchen.house.pantry[item].pack
        if pack is not None and arrivals:
            last = max(arrivals, key=lambda pair: pair[0])[1]
            assert last.over.number < pack.number


def test_orders_add_up_over_dishes():
    """What two dishes need together is what each needs alone, item by item and day by day."""
    pantry = [bought("flour"), bought("butter")]
    parts = [
        component(
            "dough",
            "1 kg",
            [line("flour", "600 g"), line("butter", "400 g")],
            stages=(stage("mix", hands_on=minutes(20)),),
        )
    ]
    plates = [
        dish("tart", [element("dough", "80 g"), element("butter", "3 g")]),
        dish("pie", [element("dough", "55 g")]),
    ]

    def needed(*names):
        kitchen = house(pantry, parts, plates, [menu("m", [listed(name, "0.5") for name in names])])
        services = find_services(kitchen, date(2027, 3, 2), 3, CoversAsked(every=40)).value
        order = compute_order(kitchen, services, first=date(2027, 3, 2), last=date(2027, 3, 4), written=MONDAY)
        return {row.item: _grams(row.needed) for one in order.deliveries for row in one.lines}

    together, tart, pie = needed("tart", "pie"), needed("tart"), needed("pie")
    assert together == {item: tart.get(item, 0) + pie.get(item, 0) for item in together}
    assert together["flour"] == 3 * 20 * Fraction(6, 10) * (80 + 55)


def test_the_way_of_trim_counts():
    """A stock of 20 h takes the bones that a fillet of 30 min leaves: the fish must be there as early as the stock needs."""
    fillet = component(
        "fillet",
        "1 kg",
        [line("fish", "2 kg")],
        stages=(stage("cut", hands_on=minutes(30)), stage("cure", unattended=minutes(60))),
        also_makes=(by_product("bones", "fish", "cut"),),
    )
    stock = component("stock", "1 kg", [line("bones", "1 kg")], stages=(stage("boil", unattended=minutes(1440)),))
    kitchen = house([bought("fish")], [fillet, stock], [dish("d", [element("fillet"), element("stock")])])
    assert days_before(kitchen, "fillet") == 2  # 30 min and a day
    assert days_before(kitchen, "stock") == 1
    assert days_before(kitchen, "fillet", {"fillet"}) == 1


def _grams(found: Amount) -> Fraction:
    assert found.unit.key in ("gram", "kilogram")
    return found.number * (1000 if found.unit.key == "kilogram" else 1)
