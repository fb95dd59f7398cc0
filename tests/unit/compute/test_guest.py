"""What can be done for a guest, on small houses, each rule and each trap by hand."""

from __future__ import annotations

from datetime import date

import pytest
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

from linebook.compute.allergens import compute_allergens
from linebook.compute.avoidances import of_column
from linebook.compute.columns import columns_for
from linebook.compute.guest import Action, judge
from linebook.compute.guest_words import find_avoidances
from linebook.compute.results import Answer

SERVE, WITHOUT, WITH = Action.SERVE, Action.WITHOUT, Action.WITH
REFUSE, CANNOT_SAY = Action.REFUSE, Action.CANNOT_SAY
PANTRY = (
    bought("flour", ["wheat"]),
    bought("butter", ["cows-milk"]),
    bought("walnuts", ["walnut"], ["almond"]),
    bought("walnut-oil", ["walnut"]),
    bought("paste", None),
    bought("salt"),
    bought("plain-oil"),
    bought("beef"),
    bought("leek"),
    bought("oats", ["oats"]),
    bought("seeds", [], ["sesame"]),
    bought("egg", ["hen-egg"]),
    bought("heather-honey", ["honey"]),
)


def kitchen(dishes, components=(), media=(), menus=None, pantry=PANTRY, **options):
    served = menus or [menu("spring", [listed(plate.id) for plate in dishes])]
    return house(pantry, components, dishes, served, media, avoid={"honey": "honey"}, **options)


def verdict(made, *words, dish_id="plate", menu_id="spring"):
    avoided = [found for word in words for found in find_avoidances(made, word)]
    return next(one for one in judge(made, menu_id, avoided) if one.dish == dish_id)


def done(made, *words, **where):
    found = verdict(made, *words, **where)
    return found.action, found.leave_off, found.exchange


def test_what_is_free_is_served_as_it_is():
    assert done(kitchen([dish("plate", [element("beef"), element("leek")])]), "milk") == (SERVE, (), ())


def test_exactly_what_is_not_free_is_left_off():
    plate = dish("plate", [element("beef", leave_off=True), element("butter", leave_off=True), element("leek")])
    made = kitchen([plate])
    assert done(made, "milk") == (WITHOUT, ("butter",), ())
    (reason,) = verdict(made, "milk").reasons
    assert (reason.answer, reason.items, reason.substances, reason.element) == (
        Answer.CONTAINS, ("butter",), ("cows-milk",), "butter",
    )  # fmt: skip
    assert reason.avoidance.id == "milk"


def test_leaving_off_the_crumb_does_not_help_when_the_dressing_has_walnut_oil():
    dressing = component("dressing", ingredients=[line("walnut-oil", "1 kg"), line("salt", "1 kg")])
    plate = dish("plate", [element("leek"), element("walnuts", leave_off=True), element("dressing")])
    made = kitchen([plate], [dressing])
    assert done(made, "walnut") == (REFUSE, (), ())
    assert {reason.element for reason in verdict(made, "walnut").reasons} == {"walnuts", "dressing"}
    both = dish("plate", [element("leek"), element("walnuts", leave_off=True), element("dressing", leave_off=True)])
    assert done(kitchen([both], [dressing]), "walnut") == (WITHOUT, ("walnuts", "dressing"), ())


def test_a_free_alternative_is_taken_before_leaving_off():
    crumb = element("walnuts", leave_off=True, instead=[alternative("walnut-oil"), alternative("seeds")])
    made = kitchen([dish("plate", [element("leek"), crumb])])
    assert done(made, "walnut") == (WITH, (), (("walnuts", "seeds"),))
    assert [reason.alternative for reason in verdict(made, "walnut").reasons] == [None, "walnut-oil"]
    # For a guest who avoids sesame too, the alternative is no help, and the crumb goes.
    assert done(made, "walnut", "sesame") == (WITHOUT, ("walnuts",), ())


def test_the_alternative_s_own_ingredients_count():
    crumble = component("crumble", ingredients=[line("oats", "1 kg"), line("butter", percent("10", "oats"))])
    plate = dish("plate", [element("leek"), element("walnuts", instead=[alternative("crumble")])])
    made = kitchen([plate], [crumble])
    assert done(made, "walnut") == (WITH, (), (("walnuts", "crumble"),))
    assert done(made, "walnut", "milk") == (REFUSE, (), ())
    assert done(made, "milk") == (SERVE, (), ())


def test_an_alternative_is_cooked_here_so_its_medium_has_met_it():
    crisp = component("crisp", ingredients=[line("flour", "1 kg")], stages=[stage("fry", "fryer")])
    plates = [
        dish("plate", [element("leek", "1 g", "fryer", leave_off=True), element("beef")]),
        dish("other", [element("walnuts", instead=[alternative("crisp", "fryer")]), element("salt")]),
    ]
    made = kitchen(plates, [crisp], [medium("fryer", "plain-oil")])
    assert done(made, "gluten") == (WITHOUT, ("leek",), ())
    (reason,) = verdict(made, "gluten").reasons
    assert (reason.answer, reason.media, reason.items) == (Answer.MAY, ("fryer",), ("flour",))
    assert "crisp" in compute_allergens(made, "spring").served


def test_an_alternative_through_a_medium_is_not_free_of_what_went_through_it():
    plates = [
        dish("plate", [element("leek"), element("walnuts", instead=[alternative("seeds", "fryer")])]),
        dish("other", [element("walnuts", "1 g", "fryer")]),
    ]
    assert done(kitchen(plates, media=[medium("fryer", "plain-oil")]), "walnut") == (REFUSE, (), ())


def test_what_touches_the_dish_cannot_be_taken_away():
    made = kitchen([dish("plate", [element("beef"), element("leek")], touches=["butter"])])
    assert done(made, "milk") == (REFUSE, (), ())
    assert verdict(made, "milk").reasons[0].element is None


def test_only_undeclared_is_cannot_say_and_may_besides_is_a_refusal():
    assert done(kitchen([dish("plate", [element("beef"), element("paste")])]), "milk") == (CANNOT_SAY, (), ())
    maybe = component("maybe", ingredients=[line("paste", "1 kg"), line("seeds", "1 kg")])
    made = kitchen([dish("plate", [element("beef"), element("maybe")])], [maybe])
    assert done(made, "sesame") == (REFUSE, (), ())
    assert done(made, "milk") == (CANNOT_SAY, (), ())


def test_an_undeclared_item_inside_a_leave_off_element_goes_with_it():
    dip = component("dip", ingredients=[line("paste", "1 kg")])
    plate = dish("plate", [element("beef"), element("dip", leave_off=True)])
    assert done(kitchen([plate], [dip]), "milk") == (WITHOUT, ("dip",), ())


def test_a_plate_with_nothing_left_is_refused():
    plate = dish("plate", [element("walnuts", leave_off=True), element("walnut-oil", leave_off=True)])
    made = kitchen([plate])
    assert done(made, "walnut") == (REFUSE, (), ())
    assert verdict(made, "walnut").nothing_left
    assert compute_allergens(made, "spring").dishes["plate"]["tree-nut"].without == ()
    one = dish("plate", [element("walnuts", leave_off=True, instead=[alternative("seeds")])])
    assert done(kitchen([one]), "walnut") == (WITH, (), (("walnuts", "seeds"),))


def test_an_item_on_the_plate_twice_goes_in_both_places():
    media = [medium("fryer", "plain-oil")]
    other = dish("other", [element("egg", "1 g", "fryer")])
    twice = dish(
        "plate", [element("leek", leave_off=True), element("leek", "1 g", "fryer", leave_off=True), element("beef")]
    )
    assert done(kitchen([twice, other], media=media), "egg") == (WITHOUT, ("leek",), ())
    stays = dish("plate", [element("leek"), element("leek", "1 g", "fryer", leave_off=True), element("beef")])
    assert done(kitchen([stays, other], media=media), "egg") == (REFUSE, (), ())


@pytest.mark.parametrize(
    "way_in",
    [
        {"ingredients": [line("butter", "1 kg")]},
        {"ingredients": [line("butter", percent("2", "salt")), line("salt", "1 kg")]},
        {"ingredients": [line("salt", "1 kg")], "also_touches": ("butter",)},
        {"ingredients": [line("salt", "1 kg")], "adjust_with": ("butter",)},
    ],
    ids=["listed", "percent", "also touches", "adjust with"],
)
def test_an_allergen_four_levels_down(way_in):
    parts = [
        component("one", **way_in),
        component("two", ingredients=[line("one", "1 kg")]),
        component("three", ingredients=[line("two", "1 kg", medium=True)]),
        component("four", ingredients=[line("three", "to taste")]),
    ]
    made = kitchen([dish("plate", [element("beef"), element("four", leave_off=True)])], parts)
    assert done(made, "milk") == (WITHOUT, ("four",), ())


def test_one_that_arrives_only_by_a_by_product():
    rib = component(
        "rib",
        ingredients=[line("beef", "1 kg"), line("butter", "1 kg", stage="baste")],
        stages=[stage("trim"), stage("baste")],
        also_makes=(by_product("scraps"), by_product("bones", "beef", "trim")),
    )
    stock = component("stock", ingredients=[line("scraps", "1 kg")])
    broth = component("broth", ingredients=[line("bones", "1 kg")])
    plates = [dish("plate", [element("stock"), element("leek")]), dish("clear", [element("broth"), element("rib")])]
    made = kitchen(plates, [rib, stock, broth])
    assert done(made, "milk") == (REFUSE, (), ())
    found = verdict(made, "milk", dish_id="clear")
    assert [reason.element for reason in found.reasons] == ["rib"]


@pytest.mark.parametrize(("changed", "expected"), [(False, (WITHOUT, ("leek",), ())), (True, (SERVE, (), ()))])
def test_one_that_arrives_only_by_the_oil_of_last_menu(changed, expected):
    plates = [
        dish("plate", [element("leek", "1 g", "fryer", leave_off=True), element("beef")]),
        dish("old", [element("egg", "1 g", "fryer")]),
    ]
    menus = [
        menu("winter", [listed("old")], date(2027, 1, 5)),
        menu("spring", [listed("plate")], date(2027, 3, 2), oil_changed=changed),
    ]
    made = kitchen(plates, media=[medium("fryer", "plain-oil")], menus=menus)
    assert done(made, "egg") == expected


def test_two_lists_that_disagree_both_count():
    made = kitchen(
        [dish("plate", [element("beef"), element("pine-nuts", leave_off=True)])],
        pantry=(*PANTRY, bought("pine-nuts", ["pine-nut"])),
        lists=("eu", "us"),
    )
    assert done(made, "tree nuts") == (WITHOUT, ("pine-nuts",), ())
    by_list = {
        column.id: judge(made, "spring", [of_column(column)])[0].action
        for column in columns_for(made.file.allergens)
        if column.id.startswith("tree-nut")
    }
    assert by_list == {"tree-nut-eu": SERVE, "tree-nut-us": WITHOUT}


def test_own_avoidances_are_judged_like_substances():
    made = kitchen([dish("plate", [element("beef"), element("heather-honey", leave_off=True)])])
    assert done(made, "honey") == (WITHOUT, ("heather-honey",), ())


def test_several_avoidances_are_met_at_once():
    plate = dish(
        "plate",
        [
            element("beef"),
            element("butter", instead=[alternative("plain-oil")]),
            element("walnuts", leave_off=True),
            element("flour", leave_off=True),
        ],
    )
    made = kitchen([plate])
    assert done(made, "milk", "nuts", "gluten") == (WITH, ("walnuts", "flour"), (("butter", "plain-oil"),))


def test_the_matrix_says_what_is_served_instead():
    plate = dish(
        "plate",
        [element("beef"), element("walnuts", instead=[alternative("seeds")]), element("walnut-oil", leave_off=True)],
    )
    cell = compute_allergens(kitchen([plate]), "spring").dishes["plate"]["tree-nut"]
    assert cell.without == ()
    assert cell.instead == (("walnuts", "seeds"), ("walnut-oil", None))


def test_declarations_older_than_the_house_allows_are_named():
    from dataclasses import replace
    from fractions import Fraction

    from kitchen_factory import minutes

    old = bought("old-salt", since=date(2026, 1, 1))
    made = kitchen(
        [dish("plate", [element("beef"), element("old-salt")])],
        pantry=(*PANTRY, old, bought("never", since=date(2020, 1, 1))),
    )
    policy = replace(made.file.allergens, older_than=minutes(365 * 24 * 60))
    made = replace(made, file=replace(made.file, allergens=policy))
    assert policy.older_than.most == Fraction(525600)
    assert compute_allergens(made, "spring").aged == ()
    assert compute_allergens(made, "spring", on=date(2027, 1, 1)).aged == ()
    assert compute_allergens(made, "spring", on=date(2027, 1, 2)).aged == ("old-salt",)
