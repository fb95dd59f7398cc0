"""The date on a label against published examples of date marking, from spec text to the words printed.

FDA Food Code 3-501.17(A): prepared on 1 April and kept at 5 °C or below, the last of 7 days is 7 April, for the day of
preparation is day 1. 3-501.17(D): meat cooked on 1 June that goes into chili on 3 June: the chili's last day is 7 June.
Both as read at a state's reprint of the code.
"""

from __future__ import annotations

from datetime import date
from textwrap import dedent

import pytest

from linebook.compute.allergens import compute_allergens
from linebook.compute.containers import containers_of
from linebook.compute.prep_plan import compute_plan
from linebook.compute.services import ServiceDay
from linebook.documents.container_labels import label_run
from linebook.documents.wording import english
from linebook.pipeline import load_house

HOUSE = """
    name: Date Marks
    rules: FDA Food Code 2022
    measures: {cup: us, spoon: us, pint: us}
    nights: [10]
    allergens: {lists: [us]}
    lines: {stove: {name: Stove, cooks: 4}}
    service: {days: [mon, tue, wed, thu, fri, sat, sun], doors: 17:30, last_seating: 21:00, staffed: 08:00 to 23:30, closed: CLOSED}
    places: {oven: {name: oven, climate: hot}, walk-in: {name: walk-in, climate: cold, at: 3 °C}}
    vessels: {tub: {name: tub, holds: 5 L}}
    plates: {bowl: {name: bowl, shape: bowl, size: 20 cm}}
    instruments: [{scale: bench scale, up_to: 30 kg, reads: 5 g}]
"""
MENU = """
    name: all
    first: 2027-01-01
    courses: [{course: mains, name: Mains}]
    dishes: [{dish: bowl, share: 1}]
"""
DISH = """
    ---
    name: Bowl
    line: stove
    course: mains
    price: 9
    plate: bowl
    elements: [{item: ITEM, amount: 100 g, at: centre}]
    tested: 2027-01-01
    ---
    ## Pick-up
    1. Read the ticket for allergies, then warm it and send.

    ## Taste for
    - Itself.
"""
CARD = """
    ---
    name: NAME
    line: stove
    makes: 1 kg
    keeps: 7 d
    ingredients: [{item: ITEM, amount: 1 kg, stage: cook}]
    stages: [{stage: cook, hands_on: 30 min, where: oven}, {stage: chill, unattended: 2 h, limit: cool, where: walk-in}, {stage: hold, unattended: HELD, where: walk-in}]
    tested: 2027-01-01
    ---
    ## Cook
    1. Cook it until it is done.

    ## Chill
    1. Chill it on trays.

    ## Hold
    1. Leave it covered in the cold.
"""


def house_of(root, item, cards, closed):
    files = {
        "house.yaml": HOUSE.replace("CLOSED", str(closed)),
        "pantry/all.yaml": "    beef: {name: beef, allergens: {contains: none, says: label, since: 2027-01-01}}\n",
        "menus/all.yaml": MENU,
        "dishes/bowl.md": DISH.replace("ITEM", item),
        **{f"components/{id_}.md": text for id_, text in cards.items()},
    }
    for name, text in files.items():
        (root / name).parent.mkdir(exist_ok=True)
        (root / name).write_text(dedent(text).lstrip("\n"), encoding="utf-8")
    loaded = load_house(root, "specs")
    assert loaded.value is not None, loaded.faults
    return loaded.value


def labels_on(house, served, first):
    services = [ServiceDay(day=served, menu="all", covers=10)]
    plan = compute_plan(house, services, first=first, last=served)
    days = [date.fromordinal(at) for at in range(first.toordinal(), served.toordinal() + 1)]
    made = [one for day in days for one in containers_of(house, plan, day, ["stove"])]
    run = label_run(house, served, made, {"all": compute_allergens(house, "all")}, english())
    return plan, {label.component: label for label in run.labels}


@pytest.mark.parametrize(("held", "served"), [("6 d", 7), ("4 d", 5), ("1 h", 1)])
def test_the_day_of_preparation_is_day_one(tmp_path, held, served):
    card = CARD.replace("NAME", "Beef stew").replace("ITEM", "beef").replace("HELD", held)
    # The kitchen is shut between, so that it can be cooked on 1 April alone.
    closed = [f"2027-04-{day:02}" for day in range(2, served)]
    house = house_of(tmp_path, "stew", {"stew": card}, closed)
    plan, labels = labels_on(house, date(2027, 4, served), date(2027, 4, 1))
    assert not plan.unready
    assert [one.life_from for one in plan.makings] == [date(2027, 4, 1)]
    assert labels["stew"].use_by.plain.replace("\u00a0", " ") == "Use by Wed 7 April"


def test_on_the_eighth_day_it_cannot_be_served(tmp_path):
    card = CARD.replace("NAME", "Beef stew").replace("ITEM", "beef").replace("HELD", "7 d")
    closed = [f"2027-04-{day:02}" for day in range(2, 8)]
    house = house_of(tmp_path, "stew", {"stew": card}, closed)
    plan, _ = labels_on(house, date(2027, 4, 8), date(2027, 4, 1))
    assert [one.component for one in plan.unready] == ["stew"]


def test_what_is_combined_takes_the_date_of_its_earliest_part(tmp_path):
    cards = {
        "meat": CARD.replace("NAME", "Cooked meat").replace("ITEM", "beef").replace("HELD", "42 h"),
        "chili": CARD.replace("NAME", "Chili").replace("ITEM", "meat").replace("HELD", "3 d 20 h"),
    }
    closed = [f"2027-06-{day:02}" for day in (2, 4, 5, 6)]
    house = house_of(tmp_path, "chili", cards, closed)
    plan, labels = labels_on(house, date(2027, 6, 7), date(2027, 6, 1))
    assert not plan.unready
    days = {one.component: one.life_from for one in plan.makings}
    assert days == {"meat": date(2027, 6, 1), "chili": date(2027, 6, 3)}
    assert {said.use_by.plain.replace("\u00a0", " ") for said in labels.values()} == {"Use by Mon 7 June"}
