"""What the call sheet and the line-up sheet say of the demo house: from its specs, told by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from linebook.compute.allergens import compute_allergens
from linebook.compute.calling import compute_call
from linebook.compute.results import Answer
from linebook.documents.allergen_names import column_name
from linebook.documents.call_sheet import menu_call_sheet, menu_dishes, minus_text, set_call_sheet
from linebook.documents.line_up_sheet import line_up_sheet
from linebook.documents.text import NO_BREAK
from linebook.documents.wording import english
from linebook.model.amounts import Duration
from linebook.pipeline import load_house

SPECS = Path(__file__).parents[3] / "specs"
DAY = date(2027, 3, 6)
SPRING = "early-spring"


@cache
def demo():
    house = load_house(SPECS, "specs").value
    assert house is not None
    return house


def plain(text):
    return text.plain.replace("\xa0", " ")


@pytest.mark.parametrize(
    ("minutes", "text"),
    [
        (Fraction(9), "−9"), (Fraction(3, 2), "−1:30"), (Fraction(1, 2), "−0:30"), (Fraction(75), "−75"),
        (Fraction(1, 7), "−0:09"), (Fraction(119, 120), "−1"), (Fraction(0), "0"),
    ],
)  # fmt: skip
def test_minutes_before_the_landing(minutes, text):
    assert minus_text(minutes) == text


def test_a_menu_has_every_dish_in_menu_order_with_what_starts_when():
    house = demo()
    sheet = menu_call_sheet(house, SPRING, english())
    assert [group.key for group in sheet.groups] == [entry.dish for entry in house.menus[SPRING].dishes]
    hake = next(group for group in sheet.groups if group.key == "hake-mussels")
    assert plain(hake.title) == "Hake, mussels, cider, 10 min"
    assert [(plain(row.start), plain(row.line), plain(row.what)) for row in hake.rows] == [
        ("−10", "Stove", "hake skin down, baste it, then the oven, rest 1 min, 8 at once"),
        ("−3", "Stove", "potatoes in a ladle of their water, rest 1 min"),
        ("−1", "Stove", "warm the mussels in the sauce, froth it"),
    ]
    assert (sheet.id, sheet.line) == ("call-sheet:early-spring", "")


def test_dishes_stand_by_course_where_the_menu_mixes_them():
    house = demo()
    menu = house.menus[SPRING]
    mixed = replace(house, menus={SPRING: replace(menu, dishes=tuple(reversed(menu.dishes)))})
    courses = [course.id for course in menu.courses]
    order = [courses.index(dish.course) for dish in menu_dishes(mixed, SPRING)]
    assert order == sorted(order)


def test_a_line_has_only_what_it_starts():
    sheet = menu_call_sheet(demo(), "late-winter", english(), "larder")
    assert {plain(row.line) for group in sheet.groups for row in group.rows} == {"Larder"}
    duck = next(group for group in sheet.groups if group.key == "duck-leg-lentils")
    assert [plain(row.what) for row in duck.rows] == ["toss the leaves in shallot oil"]
    assert plain(duck.title) == "Duck leg, lentils, mustard, 14 min"
    assert "short-rib-celeriac" not in {group.key for group in sheet.groups}


def test_a_call_of_several_dishes_is_one_timeline():
    house = demo()
    sheet = set_call_sheet(house, SPRING, compute_call(house, {"potato-dumplings": 7, "hake-mussels": 3}), english())
    assert [plain(one.text) for one in sheet.called] == [
        "7 × Potato dumplings, brown butter",
        "3 × Hake, mussels, cider",
    ]
    (group,) = sheet.groups
    # the stove takes 8 of either: 3 hake and 5 dumplings are on it together, 2 dumplings went before
    assert [(plain(row.start), plain(row.what)) for row in group.rows[:3]] == [
        ("−14", "2 of 7 × Potato dumplings: dumplings into the water, then onto a cloth, rest 2 min, "
         "off at −8, waits 6 min"),
        ("−10", "3 × Hake: hake skin down, baste it, then the oven, rest 1 min"),
        ("−8", "5 of 7 × Potato dumplings: dumplings into the water, then onto a cloth, rest 2 min"),
    ]  # fmt: skip
    assert [row.start.plain for row in group.rows][3:] == ["−3", "−3", "−2", "−1"]
    assert len({row.key for row in group.rows}) == len(group.rows)


def test_two_dishes_that_begin_alike_keep_their_whole_names():
    house = demo()
    dishes = dict(house.dishes)
    dishes["hake-mussels"] = replace(dishes["hake-mussels"], name="Potato dumplings, fish")
    house = replace(house, dishes=dishes, second=None)
    sheet = set_call_sheet(house, SPRING, compute_call(house, {"potato-dumplings": 1, "hake-mussels": 1}), english())
    said = [plain(row.what) for row in sheet.groups[0].rows]
    assert any(one.startswith("1 × Potato dumplings, fish:") for one in said)
    assert any(one.startswith("1 × Potato dumplings, brown butter:") for one in said)


def changed(dish, **fields):
    house = demo()
    return replace(house, dishes={**house.dishes, dish: replace(house.dishes[dish], **fields)})


def test_a_dish_without_strands_is_as_on_its_card_and_one_without_a_time_says_so():
    house = changed("honey-cake", pick_up=())
    (cake,) = (group for group in menu_call_sheet(house, SPRING, english()).groups if group.key == "honey-cake")
    assert [(plain(row.start), plain(row.what)) for row in cake.rows] == [("−3", "pick up, as on its card")]
    house = changed("honey-cake", pick_up=(), call=None)
    (cake,) = (group for group in menu_call_sheet(house, SPRING, english()).groups if group.key == "honey-cake")
    assert (plain(cake.title), cake.rows) == ("Honey cake, no time given", ())
    sheet = set_call_sheet(house, SPRING, compute_call(house, {"honey-cake": 1, "house-bread": 1}), english())
    assert [plain(one.text) for one in sheet.notes] == [
        "No time from call to pass in the spec of Honey cake: ask the line."
    ]


def test_more_than_a_line_can_start_at_once_is_said():
    house = demo()
    six = {"peas-fresh-cheese": 1, "beet-tartare": 1, "salt-cod-fritters": 1}
    lone = tuple(replace(line, cooks=1) for line in house.file.lines)
    house = replace(house, file=replace(house.file, lines=lone))
    sheet = set_call_sheet(house, SPRING, compute_call(house, six), english())
    assert [plain(one.text) for one in sheet.notes] == [
        "Larder at −4: 2 things start at once, and the line has 1 cook."
    ]


def test_the_demo_says_how_each_of_its_dishes_is_picked_up_laid_and_told():
    for dish in demo().dishes.values():
        assert all((dish.pick_up, dish.plain, dish.cutlery)), dish.id
        assert compute_call(demo(), {dish.id: 1}).minutes == dish.call.least


def line_up(house=None):
    house = house or demo()
    return line_up_sheet(house, SPRING, compute_allergens(house, SPRING, on=DAY), DAY, english())


def test_a_line_up_sheet_has_each_dish_as_a_server_is_told_of_it():
    sheet = line_up()
    assert [dish.key for dish in sheet.dishes] == [entry.dish for entry in demo().menus[SPRING].dishes]
    bread = sheet.dishes[0]
    assert (plain(bread.course), plain(bread.title), plain(bread.call)) == (
        "Bread",
        "House loaf, cultured butter",
        "2 min from call",
    )
    assert plain(bread.told).startswith("Three-day loaf, our own butter · Two thick slices of our sourdough")
    assert [piece.words for piece in bread.told.first if piece.italic] == [
        "Three-day loaf, our own butter",
        f"{NO_BREAK}· ",
    ]
    assert [(plain(fact.label), plain(fact.value)) for fact in bread.facts] == [
        ("lay", "butter knife"),
        ("set down", "in the middle, to share"),
    ]
    assert "for Sat 6 March only" in plain(sheet.aside)
    courses = dict.fromkeys(plain(dish.course) for dish in sheet.dishes)
    assert [*courses] == ["Bread", "Snacks", "Cold", "From the fire", "Pots", "Sweet"]


def test_its_allergens_are_those_of_the_computed_table():
    house, sheet = demo(), line_up()
    table = compute_allergens(house, SPRING, on=DAY)
    for dish in sheet.dishes:
        assert [line.key for line in dish.allergens] == ["contains", "may-contain", "undeclared"]
        assert all(line.members for line in dish.allergens)
        contains = {member.key for member in dish.allergens[0].members}
        expected = {f"contains.{c.id}" for c in table.columns if table.dishes[dish.key][c.id].answer is Answer.CONTAINS}
        assert contains == (expected or {"contains.nothing"})
        said = " ".join(plain(member.text) for member in dish.allergens[0].members)
        for column in table.columns:
            if table.dishes[dish.key][column.id].answer is Answer.CONTAINS:
                assert plain(column_name(column, english(), house)) in said


def test_what_is_not_declared_is_named_in_words():
    house = demo()
    pantry = {**house.pantry, "dill": replace(house.pantry["dill"], allergens=None)}
    trout = next(dish for dish in line_up(replace(house, pantry=pantry)).dishes if dish.key == "cured-trout-rye")
    undeclared = trout.allergens[2]
    assert "dill" in [plain(member.text) for member in undeclared.members]
    assert undeclared.note


def test_a_time_that_nobody_gives_is_said_to_be_missing():
    house = changed("honey-cake", pick_up=(), call=None)
    assert plain(line_up(house).dishes[-1].call) == "time from call not given"
    house = changed("honey-cake", call=None)
    assert plain(line_up(house).dishes[-1].call) == "3 min from call"
    house = changed("honey-cake", pick_up=(), call=Duration(least=Fraction(3, 2), most=Fraction(3, 2)))
    assert plain(line_up(house).dishes[-1].call) == "1 min 30 s from call"


def test_nothing_on_it_promises_what_can_be_left_off():
    house, sheet = demo(), line_up()
    assert any(element.leave_off for dish in house.dishes.values() for element in dish.elements)
    words = " ".join(
        plain(member.text) for dish in sheet.dishes for line in dish.allergens for member in line.members
    ).casefold()
    assert not any(word in words for word in ("without", "leave", "instead"))
    assert "ask the pass before you answer" in plain(sheet.headline)
