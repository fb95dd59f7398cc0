"""The columns beside the allergens: those a house asks for, in its order, answered from origin."""

from __future__ import annotations

from dataclasses import replace

from kitchen_factory import alternative, bought, component, dish, element, house, line, listed, menu

from linebook.compute.diets import compute_diets
from linebook.compute.matrix_columns import also_columns, compute_also
from linebook.compute.results import Answer
from linebook.model.diets import DIETS
from linebook.model.house import House
from linebook.read.house_fields import ALSO_COLUMNS


def kitchen(*also: str) -> House:
    made = house(
        pantry=[
            bought("lardo", origin=["pork"]),
            bought("leek", origin=["plant"], one_food=True),
            bought("stock-cube"),
            bought("egg", ["egg"], origin=["egg"], unpasteurised=True),
            bought("brandy", origin=["alcohol"]),
        ],
        components=[component("sauce", ingredients=[line("leek"), line("brandy")])],
        dishes=[
            dish("plate", [element("leek"), element("lardo", leave_off=True, instead=[alternative("sauce")])]),
            dish("bowl", [element("stock-cube"), element("leek")]),
            dish("cup", [element("egg", raw=True)]),
        ],
        menus=[menu("now", [listed("plate"), listed("bowl"), listed("cup")])],
    )
    policy = replace(made.file.allergens, also=also)
    return replace(made, file=replace(made.file, allergens=policy))


def test_the_field_takes_every_diet_and_raw() -> None:
    assert set(ALSO_COLUMNS) == {"raw", *DIETS}
    assert len(ALSO_COLUMNS) == len(set(ALSO_COLUMNS))


def test_a_house_that_asks_for_nothing_gets_nothing() -> None:
    assert compute_also(kitchen(), "now") is None


def test_columns_stand_in_the_houses_order_once() -> None:
    columns = also_columns(kitchen("pork", "raw", "pork").file.allergens)
    assert [(column.id, column.diet) for column in columns] == [("pork-diet", "pork"), ("raw-diet", "raw")]


def test_the_answers_are_those_of_the_diets() -> None:
    asked = kitchen(*ALSO_COLUMNS)
    also, diets = compute_also(asked, "now"), compute_diets(asked, "now")
    assert also is not None
    for name in ("plate", "bowl", "cup"):
        for diet in DIETS:
            assert also.dishes[name][f"{diet}-diet"].answer is diets.dishes[name][diet].answer


def test_raw_is_every_animal_food_that_may_be_raw() -> None:
    also = compute_also(kitchen("raw"), "now")
    assert also is not None
    raw = {name: found["raw-diet"].answer for name, found in also.dishes.items()}
    assert raw["cup"] is Answer.CONTAINS
    assert raw["bowl"] is Answer.UNDECLARED


def test_an_alternative_has_its_own_answers() -> None:
    also = compute_also(kitchen("pork", "alcohol"), "now")
    assert also is not None
    pork, alcohol = also.dishes["plate"]["pork-diet"], also.dishes["plate"]["alcohol-diet"]
    assert (pork.answer, pork.instead, pork.without) == (Answer.CONTAINS, (("lardo", "sauce"),), ("lardo",))
    assert alcohol.answer is Answer.FREE
    (instead,) = [part for part in also.parts["plate"] if part.instead_of]
    assert instead.item == "sauce"
    assert instead.findings["alcohol-diet"].answer is Answer.CONTAINS
