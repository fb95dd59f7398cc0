"""Diets answered from declared origin, each rule by hand: origin, kinds not named, cooking, raw, pasteurised."""

from __future__ import annotations

from fractions import Fraction

import pytest
from kitchen_factory import bought, component, dish, element, house, line, listed, medium, menu, stage

from linebook.compute.diets import compute_diets, diet_columns
from linebook.compute.results import Answer
from linebook.model.amounts import Temperature
from linebook.model.component import Limit
from linebook.model.diets import DIETS

CONTAINS, UNDECLARED, MAY, FREE = Answer.CONTAINS, Answer.UNDECLARED, Answer.MAY, Answer.FREE
PANTRY = (
    bought("leek", origin=["plant"]),
    bought("beef", origin=["beef"]),
    bought("lard", origin=["animal-fat-pork"]),
    bought("leaf", origin=["gelatine"]),
    bought("cheese", ["cows-milk"], origin=["milk", "rennet"], unpasteurised=True),
    bought("fresh-cream", ["cows-milk"], origin=["milk"], unpasteurised=False),
    bought("milk", ["cows-milk"], origin=["milk"]),
    bought("egg", ["hen-egg"], origin=["egg"], unpasteurised=True),
    bought("yolk", ["hen-egg"], origin=["egg"], unpasteurised=False),
    bought("hake", ["hake"], origin=["fish"]),
    bought("sauce", ["anchovy", "cows-milk"], ["crab"]),
    bought("wine", ["sulphites"], origin=["plant", "alcohol", "fining"]),
)


def answers(*elements, components=(), media=(), **others):
    dishes = [dish("plate", elements), *(dish(id_, parts) for id_, parts in others.items())]
    made = house(PANTRY, components, dishes, [menu("spring", [listed(one.id) for one in dishes])], media)
    return {diet: cell.answer for diet, cell in compute_diets(made, "spring").dishes["plate"].items()}


def test_what_is_of_plants_is_free_of_everything():
    assert set(answers(element("leek")).values()) == {FREE}


def test_origin_answers_each_diet():
    found = answers(element("beef"), element("lard"))
    assert {diet for diet, answer in found.items() if answer is CONTAINS} == {
        "vegetarian", "vegan", "pescatarian", "meat", "beef", "pork",
    }  # fmt: skip
    assert found["raw-meat"] is UNDECLARED  # nobody says that the beef is cooked
    assert found["poultry"] is found["gelatine"] is FREE


def test_a_kind_that_is_not_named_leaves_open_what_hangs_on_it():
    found = answers(element("leaf"))
    assert found["vegetarian"] is found["gelatine"] is CONTAINS
    assert found["pork"] is found["beef"] is found["pescatarian"] is UNDECLARED
    assert found["animal-rennet"] is found["alcohol"] is FREE
    cheese = answers(element("cheese"))
    assert (cheese["vegetarian"], cheese["vegan"], cheese["animal-rennet"]) == (UNDECLARED, CONTAINS, UNDECLARED)
    wine = answers(element("wine"))
    assert (wine["alcohol"], wine["vegan"], wine["gelatine"]) == (CONTAINS, UNDECLARED, UNDECLARED)


def test_without_an_origin_only_what_is_declared_is_certain():
    found = answers(element("sauce"))
    assert found["vegan"] is found["vegetarian"] is CONTAINS
    assert {found[diet] for diet in ("meat", "pork", "gelatine", "alcohol", "raw-fish", "unpasteurised")} == {
        UNDECLARED
    }


def test_a_supplier_s_may_contain_counts_for_diets_too():
    pantry = (*PANTRY, bought("chips", [], ["crab"], origin=["plant"]))
    made = house(pantry, [], [dish("plate", [element("chips")])], [menu("spring", [listed("plate")])])
    cells = compute_diets(made, "spring").dishes["plate"]
    assert (cells["vegetarian"].answer, cells["vegetarian"].substances) == (MAY, ("crustacean",))


def test_diets_flow_through_media_as_allergens_do():
    found = answers(element("leek", "1 g", "fryer"), other=[element("hake", "1 g", "fryer")], media=[medium("fryer")])
    assert (found["vegetarian"], found["pescatarian"]) == (MAY, FREE)
    assert found["raw-fish"] is UNDECLARED
    clean = [medium("fryer", changed=True)]
    assert (
        answers(element("leek", "1 g", "fryer"), other=[element("hake", "1 g", "fryer")], media=clean)["vegetarian"]
        is FREE
    )


def heat(celsius: int) -> Temperature:
    return Temperature(celsius=Fraction(celsius))


@pytest.mark.parametrize(
    ("last", "expected"),
    [
        ({"limit": Limit.COOK}, FREE),
        ({"until": heat(75)}, FREE),
        ({"until": heat(74)}, UNDECLARED),
        ({"limit": Limit.REHEAT}, UNDECLARED),
        ({"heat": heat(200)}, UNDECLARED),
        ({}, UNDECLARED),
    ],
    ids=["cook", "75", "74", "reheat", "oven heat alone", "nothing said"],
)
def test_what_nobody_calls_raw_is_cooked_only_where_a_stage_says_so(last, expected):
    part = component("part", ingredients=[line("hake", "1 kg"), line("egg", "1 kg")], stages=[stage("heat", **last)])
    outer = component("outer", ingredients=[line("part", "1 kg")])
    found = answers(element("outer"), components=[part, outer])
    assert (found["raw-fish"], found["raw-egg"]) == (expected, expected)


def test_what_goes_in_after_the_heat_is_not_cooked_by_it():
    part = component(
        "part",
        ingredients=[line("hake", "1 kg", stage="boil"), line("egg", "1 kg", stage="bind")],
        stages=[stage("boil", limit=Limit.COOK), stage("bind")],
    )
    found = answers(element("part"), components=[part])
    assert (found["raw-fish"], found["raw-egg"]) == (FREE, UNDECLARED)


def test_what_a_card_calls_raw_is_raw_and_stays_raw():
    mayonnaise = component("mayonnaise", ingredients=[line("egg", "1 kg")], raw=("egg",))
    gratin = component("gratin", ingredients=[line("mayonnaise", "1 kg")], stages=[stage("bake", limit=Limit.COOK)])
    assert answers(element("gratin"), components=[mayonnaise, gratin])["raw-egg"] is CONTAINS
    assert answers(element("hake", raw=True))["raw-fish"] is CONTAINS
    assert answers(element("sauce", raw=True))["raw-fish"] is CONTAINS
    assert answers(element("sauce", raw=True))["raw-meat"] is UNDECLARED


def test_pasteurised_egg_is_not_raw_egg():
    assert answers(element("yolk"))["raw-egg"] is FREE
    assert answers(element("egg"))["raw-egg"] is UNDECLARED


def test_unpasteurised_is_what_the_item_says_until_it_is_cooked():
    assert [answers(element(item))["unpasteurised"] for item in ("cheese", "fresh-cream", "milk", "leek")] == [
        CONTAINS, FREE, UNDECLARED, FREE,
    ]  # fmt: skip
    sauce = component(
        "sauce-made", ingredients=[line("cheese", "1 kg"), line("milk", "1 kg")], stages=[stage("boil", until=heat(90))]
    )
    assert answers(element("sauce-made"), components=[sauce])["unpasteurised"] is FREE


def test_columns_are_in_the_order_of_the_diets_and_may_be_chosen():
    assert [column.id for column in diet_columns()] == list(DIETS)
    assert [column.id for column in diet_columns(["raw-egg", "vegan"])] == ["vegan", "raw-egg"]
    made = house(
        PANTRY,
        [],
        [dish("plate", [element("beef"), element("lard", leave_off=True)])],
        [menu("spring", [listed("plate")])],
    )
    table = compute_diets(made, "spring", ["pork", "raw-meat"])
    assert list(table.dishes["plate"]) == ["pork", "raw-meat"]
    assert table.dishes["plate"]["pork"].without == ("lard",)
    assert table.dishes["plate"]["pork"].items == ("lard",)
    assert table.undeclared["plate"] == ("beef",)
