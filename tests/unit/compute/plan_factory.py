"""Random houses for the prep plan: nested cards, long stages, shared places, short lives, closed days, few cooks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from fractions import Fraction
from random import Random

from kitchen_factory import AT, amount, bought, component, dish, element, house, line, listed, menu

from linebook.compute.services import WEEKDAYS, ServiceDay
from linebook.model.amounts import Duration, Temperature
from linebook.model.component import Attended, ByProduct, Component, Growth, KeptBy, Stage, Store
from linebook.model.dish import Dish
from linebook.model.house import Climate, House, Line, Service, Vessel, Workplace
from linebook.model.supply import StockEntry

MONDAY = date(2027, 3, 1)
HOUR = 60
DAY = 24 * HOUR
PLACES = (("walk-in", Climate.COLD), ("bench", Climate.ROOM), ("oven", Climate.HOT), ("freezer", Climate.FROZEN))


def span(least: int, most: int | None = None, *, in_days: bool = False) -> Duration:
    return Duration(least=Fraction(least), most=Fraction(least if most is None else most), in_days=in_days)


def days(number: int) -> Duration:
    return span(number * DAY, in_days=True)


def place(id_: str, climate: Climate = Climate.COLD, count: int | None = None) -> Workplace:
    return Workplace(id=id_, name=id_, climate=climate, count=count, **AT)


def kitchen_line(id_: str = "stove", cooks: int = 2, set_up: time | None = time(16, 0)) -> Line:
    return Line(id=id_, name=id_, cooks=cooks, set_up=set_up, **AT)


def week(
    *open_days: str,
    staffed: tuple[int, int] = (9, 23),
    doors: time | None = time(17, 30),
    last: time | None = time(21, 0),
    closed: tuple[date, ...] = (),
    prep: dict[str, tuple[time, time]] | None = None,
) -> Service:
    return Service(
        days=open_days or WEEKDAYS,
        doors=doors,
        last_seating=last,
        staffed_from=time(staffed[0]),
        staffed_to=time(staffed[1] % 24),
        closed=closed,
        prep=prep or {},
        **AT,
    )


def stage(name: str = "s0", **fields: object) -> Stage:
    """A stage; whole numbers and pairs are minutes."""
    for key in ("hands_on", "unattended", "finish", "may_hold"):
        value = fields.get(key)
        if isinstance(value, int):
            fields[key] = span(value)
        elif isinstance(value, tuple):
            fields[key] = span(*value)
    return Stage(name=name, **fields, **AT)


def small_house(
    components: list[Component],
    plates: dict[str, str],
    *,
    service: Service | None = None,
    lines: tuple[Line, ...] | None = None,
    places: tuple[Workplace, ...] = (),
    vessels: tuple[Vessel, ...] = (),
    rules: str = "UK",
) -> House:
    """A house whose dishes each plate so much of a component a cover."""
    items = {one.item for part in components for one in part.ingredients} - {part.id for part in components}
    made = {entry.item for part in components for entry in part.also_makes}
    dishes = [dish(f"d-{id_}", [element(id_, how_much)]) for id_, how_much in plates.items()]
    built = house(
        [bought(item) for item in sorted(items - made)],
        components,
        dishes,
        [menu("spring", [listed(one.id) for one in dishes], MONDAY - timedelta(days=60))],
    )
    file = replace(
        built.file,
        rules=rules,
        service=service,
        lines=lines or (kitchen_line(),),
        places=places,
        vessels=vessels,
    )
    return replace(built, file=file)


def served(*on: date, covers: int = 10) -> tuple[ServiceDay, ...]:
    return tuple(ServiceDay(day=day, menu="spring", covers=covers) for day in on)


class PlanHouse:
    """One random house, the services to plan, what is on hand and what comes late."""

    def __init__(self, seed: int) -> None:
        self.random = random = Random(seed)
        self.other = Random(f"kept {seed}")
        self.busy = random.random() < 0.3
        self.lines = tuple(
            kitchen_line(id_, random.randint(1, 1 if self.busy else 3), random.choice([None, time(16, 0), time(17, 0)]))
            for id_ in ("stove", "larder")[: random.randint(1, 2)]
        )
        self.places = tuple(place(id_, climate, random.choice([None, 1, 1, 2])) for id_, climate in PLACES)
        self.vessels = tuple(
            Vessel(id=f"v{at}", name=f"v{at}", holds=amount("4 L"), count=random.choice([None, 1, 2, 3]), **AT)
            for at in range(2)
        )
        self.parts: list[Component] = []
        self.trims: list[str] = []
        for at in range(random.randint(1, 9 if self.busy else 6)):
            self.parts.append(self.part(f"c{at}"))
        self.dishes = [self.dish(f"d{at}") for at in range(random.randint(1, 3))]
        entries = [listed(one.id, str(Fraction(random.randint(2, 12), 10))) for one in self.dishes]
        built = house(
            [bought("salt"), bought("roe"), *(bought(item) for item in self.trims if self.other.random() < 0.15)],
            self.parts,
            self.dishes,
            [menu("spring", entries, MONDAY - timedelta(days=90))],
        )
        file = replace(
            built.file,
            rules=random.choice(["UK", "UK", "FDA 2022"]),
            service=self.service(),
            lines=self.lines,
            places=self.places,
            vessels=self.vessels,
        )
        self.house = replace(built, file=file)
        self.first = MONDAY
        self.last = MONDAY + timedelta(days=random.randint(2, 8))
        self.services, self.later = self.days_of(self.first, self.last), ()
        if random.random() < 0.15:
            self.later = self.days_of(self.last + timedelta(days=1), self.last + timedelta(days=6))
        self.on_hand = self.stock()
        late = self.first + timedelta(days=random.randint(-2, 4))
        self.arrives = {"roe": late} if random.random() < 0.2 else {}

    def days_of(self, first: date, last: date) -> tuple[ServiceDay, ...]:
        service, found = self.house.file.service, []
        for at in range((last - first).days + 1):
            day = first + timedelta(days=at)
            if service is None or (WEEKDAYS[day.weekday()] in service.days and day not in service.closed):
                found.append(ServiceDay(day=day, menu="spring", covers=self.random.choice((10, 20, 45))))
        return tuple(found)

    def service(self) -> Service | None:
        random = self.random
        if random.random() < 0.05:
            return None
        closed = tuple(MONDAY + timedelta(days=random.randint(-3, 7)) for _ in range(random.randint(0, 2)))
        open_days = WEEKDAYS[random.randint(0, 2) :] if random.random() < 0.7 else random.sample(WEEKDAYS, 4)
        prep = {day: (time(10), time(16)) for day in WEEKDAYS if day not in open_days and random.random() < 0.5}
        doors = time(17, 30)
        return week(
            *open_days,
            staffed=random.choice([(9, 23), (8, 24), (10, 22), (11, 26)]),
            doors=random.choice([doors, doors, doors, None]),
            closed=closed,
            prep=prep,
        )

    def stage(self, name: str) -> Stage:
        random = self.random
        kind = random.random()
        least = 0
        if kind > 0.3:
            least = random.choice([10, 30, 60, 120, 180, 8 * HOUR, 16 * HOUR, DAY, 3 * DAY])
        most = least + random.choice([0, 0, least // 4 // 5 * 5, least // 2 // 5 * 5])
        much = [60, 120, 180] if self.busy else []
        hands = random.choice([0, 5, 12, 20, 45, *much]) if least else random.choice([5, 12, 20, 45, 90, *much])
        finish = random.choice([0, 0, 5, 15, 30])
        long = least > 4 * HOUR
        attended = random.choice([None, None, Attended.LEFT if long else Attended.BUILDING, Attended.LEFT])
        return Stage(
            name=name,
            hands_on=span(hands) if hands else None,
            unattended=span(least, most) if least else None,
            finish=span(finish) if finish else None,
            may_hold=random.choice([None, None, None, span(random.choice([0, 45, 240, DAY]))]),
            where=random.choice([None, "walk-in", "walk-in", "bench", "oven", "freezer"]),
            vessel=random.choice([None, None, "v0", "v1"]),
            attended=attended,
            until=Temperature(celsius=Fraction(60)) if random.random() < 0.1 else None,
            work=random.choice([Growth.SAME, Growth.GROWS]),
            time=random.choice([Growth.SAME, Growth.SAME, Growth.GROWS]) if least < 4 * HOUR else Growth.SAME,
            sets_date=random.random() < 0.1,
            **AT,
        )

    def part(self, id_: str) -> Component:
        random = self.random
        stages = [self.stage(f"s{at}") for at in range(random.choice([0, 1, 1, 1, 2, 2, 3]))]
        names = [*(one.name for one in stages), None]
        lower = [one.id for one in self.parts]
        lines = [line(random.choice(["salt", "roe"]), "500 g", stage=random.choice(names))]
        for item in random.sample(lower, min(len(lower), random.choice([0, 0, 1, 1, 2]))):
            lines.append(line(item, f"{random.randint(2, 9)}00 g", stage=random.choice(names)))
            lines[-1] = replace(lines[-1], medium=random.random() < 0.1)
        if self.trims and random.random() < 0.5:
            lines.append(line(random.choice(self.trims), "100 g", stage=random.choice(names)))
        leaves = ()
        if random.random() < 0.2:
            after = random.choice(names)
            keeps = self.other.choice([None, days(1), days(2), span(6 * HOUR)])
            item = f"t{id_}"
            leaves = (ByProduct(item=item, name=item, amount=amount("100 g"), after=after, keeps=keeps, **AT),)
            self.trims.append(f"t{id_}")
        made = component(id_, "1 kg", lines, stages=tuple(stages), also_makes=leaves, **self.sizes())
        return replace(made, line=random.choice(self.lines).id, **self.kept())

    def kept(self) -> dict[str, object]:
        """How it is kept: mostly cold, some of it frozen, some kept by more than the cold."""
        kind = self.other.random()
        if kind < 0.2:
            return {"store": Store(place="freezer", **AT)}
        return {"kept_by": KeptBy.ACID} if kind < 0.27 else {}

    def sizes(self) -> dict[str, object]:
        random = self.random
        found: dict[str, object] = {}
        found["keeps"] = random.choice([*(days(at) for at in (1, 2, 2, 3, 3, 4, 5, 7)), span(6 * HOUR), None])
        found["make_daily"] = random.random() < 0.1
        if random.random() < 0.1:
            found["fresh_within"] = span(random.choice([3, 6, 12]) * HOUR)
        if random.random() < 0.3:
            found["loss"] = Fraction(random.randint(1, 4), 10)
        if random.random() < 0.4:
            found["largest_batch"] = amount(random.choice(["800 g", "1.5 kg", "3 kg"]))
        if random.random() < 0.2:
            found["smallest_batch"] = amount(random.choice(["500 g", "2 kg"]))
        if random.random() < 0.2:
            found["batch_step"] = amount(random.choice(["250 g", "600 g"]))
        return found

    def dish(self, id_: str) -> Dish:
        random = self.random
        chosen = random.sample(self.parts, random.randint(1, min(2, len(self.parts))))
        plate = dish(id_, [element(one.id, f"{random.randint(1, 12)}0 g") for one in chosen])
        return replace(plate, line=random.choice(self.lines).id)

    def stock(self) -> tuple[StockEntry, ...]:
        random = self.random
        if random.random() < 0.7:
            return ()
        return tuple(
            StockEntry(
                item=one.id,
                amount=amount(random.choice(["300 g", "2 kg"])),
                use_by=MONDAY + timedelta(days=random.randint(-1, 5)),
                **AT,
            )
            for one in self.parts
            if random.random() < 0.5
        )
