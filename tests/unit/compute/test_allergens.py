"""Allergen answers on small houses, each rule by hand."""

from __future__ import annotations

from datetime import date

import pytest
from kitchen_factory import (
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

from linebook.compute.allergens import compute_allergens, menus_since_oil
from linebook.compute.columns import columns_for
from linebook.compute.results import Answer, Finding

CONTAINS, UNDECLARED, MAY, FREE = Answer.CONTAINS, Answer.UNDECLARED, Answer.MAY, Answer.FREE
PANTRY = (
    bought("flour", ["wheat"]),
    bought("butter", ["cows-milk"]),
    bought("almonds", ["almond"], ["hazelnut"]),
    bought("paste", None),
    bought("salt"),
    bought("oil", ["peanut"], ["sesame"]),
    bought("beef"),
    bought("crab-meat", ["crab"]),
)


def table(components=(), dishes=(), media=(), **options):
    served = menu("spring", [listed(plate.id) for plate in dishes])
    return compute_allergens(house(PANTRY, components, dishes, [served], media, **options), "spring")


def answers(cells) -> dict[str, Answer]:
    return {column: cell.answer for column, cell in cells.items() if cell.answer is not FREE}


def test_declared_undeclared_and_free():
    found = table(dishes=[dish("cake", [element("flour"), element("butter")]), dish("beef", [element("beef")])])
    assert answers(found.dishes["cake"]) == {"gluten-cereal": CONTAINS, "milk": CONTAINS}
    assert found.dishes["cake"]["milk"] == Finding(answer=CONTAINS, substances=("cow's milk",), items=("butter",))
    assert answers(found.dishes["beef"]) == {}
    assert found.dishes["beef"]["milk"] == Finding(answer=FREE)
    assert list(found.dishes) == ["cake", "beef"]
    assert all(len(cells) == 14 for cells in found.dishes.values())


def test_an_undeclared_item_leaves_no_cell_free_and_contains_wins():
    found = table(dishes=[dish("rib", [element("paste"), element("flour"), element("oil")])])
    cells = found.dishes["rib"]
    assert {column for column, answer in answers(cells).items() if answer is CONTAINS} == {"gluten-cereal", "peanut"}
    assert sum(answer is UNDECLARED for answer in answers(cells).values()) == 12
    assert cells["milk"] == Finding(answer=UNDECLARED, items=("paste",))
    # Undeclared comes before may contain, which is still told.
    assert cells["sesame"] == Finding(answer=UNDECLARED, items=("paste",), also_may=("sesame",))
    assert found.undeclared == {"rib": ("paste",)}


def test_a_supplier_s_may_contain_is_told_beside_contains():
    cells = table(dishes=[dish("cake", [element("almonds")])]).dishes["cake"]
    expected = Finding(answer=CONTAINS, substances=("almond",), also_may=("hazelnut",), items=("almonds",))
    assert cells["tree-nut"] == expected


@pytest.mark.parametrize(
    "inner",
    [
        component("inner", ingredients=[line("butter", "1 kg")]),
        component("inner", ingredients=[line("butter", "1 kg", medium=True)]),
        component("inner", ingredients=[line("butter")]),
        component("inner", ingredients=[line("salt", "1 kg"), line("butter", percent("2", "salt"))]),
        component("inner", adjust_with=("butter",)),
        component("inner", also_touches=("butter",)),
        component("inner", ingredients=[line("butter", "1 kg", stage="late")], stages=(stage("late"),)),
    ],
    ids=["listed", "medium", "to taste", "percent", "adjust with", "touches", "staged"],
)
def test_every_way_in_rolls_up_three_deep(inner):
    middle = component("middle", ingredients=[line("inner", "1 kg")])
    outer = component("outer", ingredients=[line("middle", "1 kg", medium=True)])
    found = table([outer, middle, inner], [dish("plate", [element("outer")]), dish("other", touches=["middle"])])
    for cells in (*found.dishes.values(), *found.components.values()):
        assert answers(cells) == {"milk": CONTAINS}


def _trimmed(entry):
    parts = [
        component(
            "rib",
            ingredients=[line("beef", "1 kg"), line("flour", "1 kg", stage="rub"), line("butter", "1 kg", stage="glaze")],
            stages=(stage("rub"), stage("smoke", "grill"), stage("glaze")),
            adjust_with=("salt",),
            also_makes=(entry,),
        )
    ]  # fmt: skip
    plates = [dish("plate", [element("trim")]), dish("crab", [element("crab-meat", "10 g", "grill")])]
    return answers(table(parts, plates, [medium("grill")]).dishes["plate"])


@pytest.mark.parametrize("entry", [by_product("trim"), by_product("trim", "beef"), by_product("trim", None, "rub")])
def test_a_by_product_inherits_everything_without_a_source_and_a_stage(entry):
    assert _trimmed(entry) == {"gluten-cereal": CONTAINS, "milk": CONTAINS, "crustacean": MAY}


def test_a_by_product_carries_what_had_gone_in_by_its_stage():
    assert _trimmed(by_product("trim", "beef", "rub")) == {"gluten-cereal": CONTAINS}
    assert _trimmed(by_product("trim", "beef", "smoke")) == {"gluten-cereal": CONTAINS, "crustacean": MAY}
    assert _trimmed(by_product("trim", "butter", "rub")) == {"gluten-cereal": CONTAINS, "milk": CONTAINS}


def test_a_by_product_of_two_components_that_can_be_bought_too_holds_all():
    parts = [
        component("one", ingredients=[line("flour", "1 kg")], also_makes=(by_product("butter"),)),
        component("two", ingredients=[line("almonds", "1 kg")], also_makes=(by_product("butter"),)),
    ]
    found = answers(table(parts, [dish("plate", [element("butter")])]).dishes["plate"])
    assert found == {"gluten-cereal": CONTAINS, "milk": CONTAINS, "tree-nut": CONTAINS}


def test_a_shared_fryer_gives_what_else_goes_through_it_and_its_oil():
    crumbed = component(
        "crumbed",
        ingredients=[line("beef", "1 kg"), line("flour", "1 kg"), line("butter", "1 kg", stage="dress")],
        stages=(stage("fry", "fryer"), stage("dress")),
    )
    plates = [dish("chips", [element("salt", "10 g", "fryer")]), dish("crumbed", [element("crumbed")])]
    cells = table([crumbed], plates, [medium("fryer", "oil")]).dishes["chips"]
    # The butter goes in after the fryer.
    assert answers(cells) == {"gluten-cereal": MAY, "peanut": CONTAINS, "sesame": MAY}
    assert cells["gluten-cereal"] == Finding(answer=MAY, substances=("wheat",), media=("fryer",), items=("flour",))
    assert cells["peanut"] == Finding(answer=CONTAINS, substances=("peanut",), media=("fryer",), items=("oil",))


def test_what_a_medium_brings_besides_is_told_apart_from_what_is_there_without_it():
    plates = [
        dish("plate", [element("almonds", "10 g"), element("salt", "10 g", "fryer"), element("crab-meat")]),
        dish("other", [element("walnuts", "10 g", "fryer"), element("prawns", "10 g", "fryer")]),
        dish("dusted", [element("seeds"), element("salt", "10 g", "fryer")]),
        dish("seeded", [element("more-seeds", "10 g", "fryer")]),
    ]
    more = (
        bought("walnuts", ["walnut"]),
        bought("prawns", ["shrimp"]),
        bought("seeds", [], ["sesame"]),
        bought("more-seeds", ["sesame"]),
    )
    served = menu("spring", [listed(plate.id) for plate in plates])
    found = compute_allergens(house((*PANTRY, *more), [], plates, [served], [medium("fryer")]), "spring").dishes
    nuts, sesame = found["plate"]["tree-nut"], found["dusted"]["sesame"]
    # almond is declared; hazelnut is on the almonds' label, walnut in the fryer
    assert (nuts.substances, nuts.media, nuts.partly) == (("almond",), (), False)
    assert set(nuts.also_may) == {"hazelnut", "walnut"}
    assert (nuts.also_media, nuts.also_partly) == (("fryer",), True)
    crab = found["plate"]["crustacean"]
    assert (crab.substances, crab.also_may, crab.also_media, crab.also_partly) == (
        ("crab",),
        ("shrimp",),
        ("fryer",),
        False,
    )
    # the label of the seeds and the fryer both say sesame
    assert (sesame.answer, sesame.media, sesame.partly) == (MAY, ("fryer",), True)


def test_a_medium_changed_between_foods_gives_only_what_it_carries():
    plates = [dish("chips", [element("salt", "10 g", "fryer")]), dish("crab", [element("crab-meat", "10 g", "fryer")])]
    changed = table([], plates, [medium("fryer", "oil", changed=True)]).dishes["chips"]
    assert answers(changed) == {"peanut": CONTAINS, "sesame": MAY}


def test_an_undeclared_item_in_the_fryer_makes_others_undeclared():
    plates = [
        dish("chips", [element("salt", "10 g", "fryer")]),
        dish("odd", [element("paste", "10 g", "fryer"), element("flour", "10 g", "fryer")]),
    ]
    found = table([], plates, [medium("fryer")])
    expected = Finding(answer=UNDECLARED, media=("fryer",), items=("paste",))
    assert found.dishes["chips"]["milk"] == expected
    assert found.dishes["odd"]["milk"] == Finding(answer=UNDECLARED, items=("paste",))
    assert found.undeclared == {"chips": ("paste",), "odd": ("paste",)}


def test_contact_passes_from_one_medium_to_the_next():
    plates = [
        dish("crab", [element("crab-meat", "10 g", "fryer")]),
        dish("both", [element("salt", "10 g", "fryer", "grill")]),
        dish("beef", [element("beef", "10 g", "grill")]),
    ]
    cells = table([], plates, [medium("fryer"), medium("grill")]).dishes["beef"]
    assert cells["crustacean"] == Finding(answer=MAY, substances=("crab",), media=("grill",), items=("crab-meat",))


def test_bench_flour_goes_through_the_fryer_with_the_elements():
    plates = [
        dish("fish", [element("beef", "10 g", "fryer")], ["flour"]),
        dish("chips", [element("salt", "10 g", "fryer")]),
    ]
    assert answers(table([], plates, [medium("fryer")]).dishes["chips"]) == {"gluten-cereal": MAY}


def test_only_what_the_menu_cooks_goes_through_its_media_and_the_rest_is_judged_as_if_cooked():
    parts = [
        component("fritter", ingredients=[line("butter", "1 kg")], stages=(stage("fry", "fryer"),)),
        component("unused", ingredients=[line("salt", "1 kg")], stages=(stage("fry", "fryer"),)),
    ]
    plates = [dish("chips", [element("crab-meat", "10 g", "fryer")])]
    found = table(parts, plates, [medium("fryer")])
    assert answers(found.dishes["chips"]) == {"crustacean": CONTAINS}
    assert answers(found.components["fritter"]) == {"milk": CONTAINS, "crustacean": MAY}
    assert answers(found.components["unused"]) == {"milk": MAY, "crustacean": MAY}


def _three_menus(*oil_changed: bool):
    plates = [dish(item, [element(item, "10 g", "fryer")]) for item in ("crab-meat", "butter", "beef")]
    menus = [
        menu(f"menu-{at}", [listed(plate.id)], date(2027, at + 1, 1), oil_changed=changed)
        for at, (plate, changed) in enumerate(zip(plates, oil_changed, strict=True))
    ]
    return house(PANTRY, [], plates, menus, [medium("fryer")])


@pytest.mark.parametrize(
    ("oil_changed", "expected"),
    [
        ((False, False, True), {}),
        ((False, True, False), {"milk": MAY}),
        ((True, False, False), {"milk": MAY, "crustacean": MAY}),
    ],
)
def test_old_oil_keeps_the_contacts_of_the_menus_before(oil_changed, expected):
    kitchen = _three_menus(*oil_changed)
    assert answers(compute_allergens(kitchen, "menu-2").dishes["beef"]) == expected
    assert len(menus_since_oil(kitchen, kitchen.menus["menu-2"])) == len(expected) + 1
    # What comes later leaves nothing in the oil of an earlier menu.
    assert answers(compute_allergens(kitchen, "menu-0").dishes["crab-meat"]) == {"crustacean": CONTAINS}


def test_what_can_be_left_off():
    plate = dish(
        "plate",
        [
            element("beef"),
            element("almonds", leave_off=True),
            element("butter", leave_off=True),
            element("flour"),
            element("salt", "1 g", "fryer", leave_off=True),
        ],
    )
    fried = dish("fried", [element("butter", "10 g", "fryer")])
    cells = table([], [plate, fried], [medium("fryer")]).dishes["plate"]
    assert cells["tree-nut"].without == ("almonds",)
    assert cells["milk"].without == ("butter", "salt")  # in plating order; the fryer brings milk to the salt
    assert cells["gluten-cereal"].without == ()
    assert cells["egg"].without == ()


def test_leaving_off_does_not_help_where_something_else_brings_it():
    touched = dish("touched", [element("butter", leave_off=True)], ["butter"])
    twice = dish("twice", [element("butter", leave_off=True), element("butter")])
    found = table(dishes=[touched, twice])
    assert found.dishes["touched"]["milk"].without == ()
    assert found.dishes["twice"]["milk"].without == ()


def test_other_plates_still_fry_what_this_one_leaves_off():
    plate = dish("plate", [element("salt", "1 g", "fryer"), element("crab-meat", "1 g", "fryer", leave_off=True)])
    cells = table([], [plate], [medium("fryer")]).dishes["plate"]
    assert cells["crustacean"].answer is CONTAINS
    assert cells["crustacean"].without == ()


def test_an_id_that_is_nothing_is_undeclared_and_an_unknown_medium_is_shared():
    plates = [
        dish("ghost", [element("ghost")]),
        dish("a", [element("salt", "1 g", "x")]),
        dish("b", [element("butter", "1 g", "x")]),
    ]
    found = table(dishes=plates)
    assert {cell.answer for cell in found.dishes["ghost"].values()} == {UNDECLARED}
    assert answers(found.dishes["a"]) == {"milk": MAY}


def test_cards_in_a_circle_are_still_answered():
    parts = [
        component("stock", ingredients=[line("trim", "1 kg")]),
        component(
            "rib",
            ingredients=[line("beef", "1 kg"), line("butter", "1 kg", stage="glaze"), line("stock", "1 kg", stage="glaze")],
            stages=(stage("trim"), stage("glaze")),
            also_makes=(by_product("trim", "beef", "trim"),),
        ),
    ]  # fmt: skip
    found = table(parts, [dish("plate", [element("stock")]), dish("rib", [element("rib")])])
    assert answers(found.dishes["plate"]) == {}
    assert answers(found.dishes["rib"]) == {"milk": CONTAINS}


def columns(*lists: str, **avoid: str):
    return columns_for(house(lists=lists, avoid=avoid).file.allergens)


def test_columns_of_one_list_and_of_lists_that_agree():
    assert [column.id for column in columns("us")] == [
        "milk", "egg", "fish", "crustacean", "tree-nut", "wheat", "peanut", "soy", "sesame", "sulphites",
    ]  # fmt: skip
    assert columns("eu") == columns("eu", "uk") == columns("uk")
    assert len(columns("uk")) == 14


def test_columns_of_lists_that_differ_are_kept_apart_by_name():
    both = {column.id: column for column in columns("us", "uk")}
    assert both["tree-nut-us"].name == "tree nuts (US)"
    assert both["tree-nut-uk"].name == "nuts (UK)"
    assert set(both["tree-nut-us"].substances) - set(both["tree-nut-uk"].substances) == {"pine-nut"}
    assert {"milk", "wheat", "gluten-cereal", "mollusc", "celery", "mustard", "lupin"} <= set(both)
    assert len(both) == 10 + 14 - 7  # milk, egg, fish, crustacean, peanut, soy and sesame are shared
    assert len({column.name for column in both.values()}) == len(both)


def test_a_column_that_not_all_lists_have_names_those_that_do():
    three = {column.id: column for column in columns("us", "uk", "ca", honey="honey")}
    assert three["mustard"].lists == ("UK", "Canada")
    assert three["celery"].lists == ("UK",)
    assert three["milk"].lists == three["honey"].lists == ()
    # where the name says it, it is not said twice
    assert (three["tree-nut-us"].name, three["tree-nut-us"].lists) == ("tree nuts (US, Canada)", ())
    assert all(column.lists == () for column in columns("uk", "uk", "eu"))


def test_the_house_s_own_avoidances_come_last():
    honey, coconut, celery = columns("uk", honey="honey", coconut="coconut", celery="celery in any form")[14:]
    assert (honey.id, honey.name, honey.substances, honey.own) == ("honey", "honey", ("honey",), True)
    assert coconut.substances == ("tree-nut", "coconut")
    assert (celery.id, celery.name) == ("celery-own", "celery in any form")


def test_own_avoidances_are_answered_by_their_printed_name():
    kitchen = house(
        [bought("mead", ["honey"])],
        [],
        [dish("plate", [element("mead")])],
        [menu("spring", [listed("plate")])],
        avoid={"honey": "honey, raw or cooked"},
    )
    cell = compute_allergens(kitchen, "spring").dishes["plate"]["honey"]
    assert cell == Finding(answer=CONTAINS, substances=("honey, raw or cooked",), items=("mead",))
