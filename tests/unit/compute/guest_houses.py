"""Random small houses for the guest's oracle: nested components, by-products, media, earlier menus, alternatives, diets."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from random import Random

from kitchen_factory import (
    alternative,
    bought,
    by_product,
    component,
    dish,
    element,
    house,
    line,
    listed,
    medium,
    menu,
    percent,
    stage,
)

from linebook.model.amounts import Temperature
from linebook.model.component import Limit

SUBSTANCES = (
    "almond",
    "tree-nut",
    "pine-nut",
    "wheat",
    "gluten",
    "cows-milk",
    "hen-egg",
    "crab",
    "shellfish",
    "oyster",
    "hake",
    "honey",
)
FROM = {
    "cows-milk": "milk",
    "hen-egg": "egg",
    "crab": "crustacean",
    "oyster": "mollusc",
    "hake": "fish",
    "honey": "honey",
}
ORIGINS = ("plant", "pork", "beef", "gelatine", "gelatine-fish", "rennet", "animal-fat", "alcohol", "mineral", "juice")


def some(random: Random, things, most: int) -> tuple:
    return tuple(random.sample(list(things), min(len(things), random.randint(0, most))))


def random_house(random: Random):
    pantry = [_random_item(random, f"p{at}") for at in range(random.randint(3, 9))]
    names = [item.id for item in pantry]
    media = [
        medium(f"m{at}", *some(random, names, 1), changed=random.random() < 0.2) for at in range(random.randint(0, 3))
    ]
    through = [entry.id for entry in media]
    items, components = list(names), []
    for at in range(random.randint(0, 6)):
        part = _random_component(random, f"c{at}", items, names, through)
        components.append(part)
        items += [part.id, *(entry.item for entry in part.also_makes)]
    dishes = [_random_dish(random, f"d{at}", items, through) for at in range(random.randint(2, 5))]
    plates = [plate.id for plate in dishes]
    menus = [
        menu(
            f"menu{at}",
            [listed(id_) for id_ in random.sample(plates, random.randint(1, 3) if len(plates) > 2 else 1)],
            date(2027, 1 + at, 1),
            oil_changed=random.random() < 0.3,
        )
        for at in range(random.randint(1, 3))
    ]
    lists = random.choice([("uk",), ("us",), ("us", "eu"), ("ca", "anz"), ("codex",)])
    return house(pantry, components, dishes, menus, media, lists=lists, avoid={"honey": "honey"})


def _random_item(random: Random, id_: str):
    contains = some(random, SUBSTANCES, 2) if random.random() < 0.5 else ()
    origin = None
    if random.random() < 0.85:
        extra = some(random, ORIGINS, 2)
        origin = tuple(dict.fromkeys((*(FROM[one] for one in contains if one in FROM), *extra))) or ("plant",)
    return bought(
        id_,
        None if random.random() < 0.06 else contains,
        some(random, SUBSTANCES, 1) if random.random() < 0.2 else (),
        origin=origin,
        unpasteurised=random.choice([None, True, False, False]),
        one_food=random.random() < 0.6,
    )


def _random_stage(random: Random, name: str, through):
    limit = Limit.COOK if random.random() < 0.2 else Limit.COOL if random.random() < 0.2 else None
    until = random.choice([None, None, 60, 74, 75, 93])
    heat = None if until is None else Temperature(celsius=Fraction(until))
    return stage(name, *some(random, through, 2), limit=limit, until=heat)


def _random_component(random: Random, id_: str, items, pantry, through):
    stages = tuple(_random_stage(random, f"s{n}", through) for n in range(random.randint(0, 3)))
    words = [entry.name for entry in stages]
    lines = [
        line(
            random.choice(items),
            random.choice(["1 kg", "to taste", percent("2", "batch")]),
            stage=random.choice([None, *words]),
            medium=random.random() < 0.2,
        )
        for _ in range(random.randint(1, 4))
    ]
    made = []
    if random.random() < 0.5:
        source = random.choice([None, random.choice(lines).item])
        item = random.choice([f"b-{id_}", "b0", *pantry[:1]])
        made.append(by_product(item, source, random.choice([None, *words])))
    return component(
        id_,
        ingredients=lines,
        stages=stages,
        adjust_with=some(random, items, 1),
        also_touches=some(random, items, 1) if random.random() < 0.3 else (),
        also_makes=tuple(made),
        raw=some(random, pantry, 2) if random.random() < 0.5 else (),
    )


def _random_dish(random: Random, id_: str, items, through):
    elements = [
        element(
            random.choice(items),
            "10 g",
            *some(random, through, 1),
            leave_off=random.random() < 0.5,
            raw=random.random() < 0.2,
            instead=[
                alternative(random.choice(items), *some(random, through, 1))
                for _ in range(random.choice([0, 0, 0, 1, 1, 2]))
            ],
        )
        for _ in range(random.randint(1, 4))
    ]
    return dish(id_, elements, some(random, items, 1) if random.random() < 0.2 else ())
