"""Words people type: what each means, that wider meanings are taken, and that an unknown word means nothing."""

from __future__ import annotations

import pytest
from kitchen_factory import bought, by_product, component, dish, element, house, line, listed, menu

from linebook.compute.guest import Action, judge
from linebook.compute.guest_words import find_avoidances, nearest_words
from linebook.model.taxonomy import LISTS, SUBSTANCES, covered_by

PANTRY = (
    bought("butter", ["cows-milk"], one_food=True),
    bought("blue-cheese", ["sheeps-milk"]),
    bought("garden-mint", one_food=True),
    bought("dried-mint", one_food=True),
    bought("leek", one_food=True),
    bought("salt", one_food=True),
    bought("stock-powder", ["celery"]),
    bought("garlic-bulb", ["garlic"], one_food=True),
    bought("white-miso", ["soy", "barley"]),
    bought("heather-honey", ["honey"], one_food=True),
)
PARTS = (
    component("mint-oil", ingredients=[line("garden-mint", "1 kg")], also_makes=(by_product("mint-stalk"),)),
    component("cultured-butter", ingredients=[line("butter", "1 kg")]),
)
DISHES = tuple(dish(f"d-{item}", [element(item)]) for item in (*(one.id for one in PANTRY), "mint-oil", "mint-stalk"))
HOUSE = house(
    PANTRY,
    PARTS,
    DISHES,
    [menu("spring", [listed(plate.id) for plate in DISHES])],
    avoid={"honey": "honey", "garlic": "garlic"},
)


def found(word, made=HOUSE):
    return find_avoidances(made, word)


def covered(word) -> set[str]:
    return {substance for one in found(word) for substance in one.substances}


@pytest.mark.parametrize(
    ("word", "ids"),
    [
        ("milk", ["milk"]),
        ("dairy", ["milk"]),
        ("Dairy-free", ["milk"]),
        ("lactose", ["milk"]),
        ("no cheese", ["milk"]),
        ("gluten", ["gluten-cereal"]),
        ("gluten free", ["gluten-cereal"]),
        ("Coeliac", ["gluten-cereal"]),
        ("celiac disease", ["gluten-cereal"]),
        ("flour", ["gluten-cereal"]),
        ("nuts", ["tree-nut", "peanut"]),
        ("nut allergy", ["tree-nut", "peanut"]),
        ("tree nuts", ["tree-nut"]),
        ("peanuts", ["peanut"]),
        ("groundnut", ["peanut"]),
        ("shellfish", ["crustacean", "mollusc"]),
        ("seafood", ["fish", "crustacean", "mollusc"]),
        ("oysters", ["oyster"]),
        ("eggs", ["egg"]),
        ("soya", ["soy"]),
        ("sulfites", ["sulphites"]),
        ("sulphur dioxide and sulphites", ["sulphites"]),
        ("cereals containing gluten", ["gluten-cereal"]),
        ("Crustacean shellfish", ["crustacean"]),
        ("celeriac", ["celery"]),
        ("cows-milk", ["cows-milk"]),
        ("cow's milk", ["cows-milk"]),
        ("honey", ["honey"]),
        ("garlic", ["garlic"]),
        ("vegan", ["vegan"]),
        ("Vegetarian", ["vegetarian"]),
        ("pork", ["pork"]),
        ("bacon", ["pork"]),
        ("gelatin", ["gelatine"]),
        ("animal rennet", ["animal-rennet"]),
        ("rennet", ["animal-rennet"]),
        ("raw egg", ["raw-egg"]),
        ("unpasteurized", ["unpasteurised"]),
        ("wine", ["alcohol"]),
        ("lácteos", ["milk"]),
        ("queso", ["milk"]),
        ("frutos secos", ["tree-nut", "peanut"]),
        ("mariscos", ["crustacean", "mollusc"]),
        ("moluscos", ["mollusc"]),
        ("cereales que contengan gluten", ["gluten-cereal"]),
        ("anacardos", ["cashew"]),
        ("vegano", ["vegan"]),
        ("huevo crudo", ["raw-egg"]),
        ("miel", ["honey"]),
        ("ajo", ["garlic"]),
    ],
)
def test_a_word_means(word, ids):
    assert [one.id for one in found(word)] == ids


def test_nuts_are_every_nut_of_any_list_and_peanut():
    every = {
        nut for list_ in LISTS.values() for group in list_.groups if group.id == "tree-nut" for nut in group.members
    }
    assert every | {"peanut", "coconut", "chestnut", "tree-nut"} <= covered("nuts")


def test_shellfish_is_every_crustacean_and_mollusc_and_what_names_no_kind():
    assert covered("shellfish") == set(covered_by(("crustacean", "mollusc")))
    assert {"shellfish", "prawn", "snail"} <= covered("shellfish")


def test_a_kind_of_milk_is_that_kind_and_cheese_is_all():
    assert "sheeps-milk" not in covered("cow's milk")
    assert "milk" in covered("cow's milk")  # a label that names no animal
    assert "sheeps-milk" in covered("cheese")


def test_a_name_for_printing_is_that_of_the_house_s_own_list():
    assert found("tree nuts")[0].name == "nuts"
    american = house(PANTRY, PARTS, DISHES, [], lists=("us",))
    assert found("tree nuts", american)[0].name == "tree nuts"
    assert found("gluten", american)[0].name == "cereals containing gluten"


def test_every_word_of_the_taxonomy_and_of_every_list_is_understood():
    for substance in SUBSTANCES.values():
        for word in (substance.id, substance.name, *substance.synonyms):
            assert substance.id in covered(word), word
    for list_ in LISTS.values():
        for group in list_.groups:
            for word in (group.id, group.name):
                assert set(group.members) <= covered(word), (list_.id, word)


@pytest.mark.parametrize("word", ["mint", "Mint", "mints"])
def test_a_food_by_name_is_everything_of_that_name(word):
    (one,) = found(word)
    assert (one.kind, one.items) == ("item", {"garden-mint", "dried-mint", "mint-oil", "mint-stalk"})
    assert one.substances == frozenset()


def test_a_food_that_declares_something_is_avoided_with_what_it_declares():
    (one,) = found("blue cheese")
    assert one.kind == "item"
    assert "sheeps-milk" in one.substances
    (one,) = found("cultured butter")
    assert one.items == {"cultured-butter"}
    assert "cows-milk" in one.substances
    (one,) = found("white miso")
    assert {"soy", "barley", "gluten"} <= one.substances


def test_what_the_house_tracks_is_asked_by_declaration_and_other_alliums_by_name():
    tracked, named = found("alliums")
    assert (tracked.kind, tracked.id) == ("own", "garlic")
    assert (named.kind, named.items) == ("item", {"leek"})


def actions(word) -> dict[str, Action]:
    return {one.dish.removeprefix("d-"): one.action for one in judge(HOUSE, "spring", found(word))}


def test_a_food_nobody_tracks_may_hide_in_what_is_compound():
    done = actions("mint")
    assert {item for item, action in done.items() if action is Action.REFUSE} == {
        "garden-mint", "dried-mint", "mint-oil", "mint-stalk",
    }  # fmt: skip
    assert {item for item, action in done.items() if action is Action.CANNOT_SAY} == {
        "blue-cheese", "stock-powder", "white-miso",
    }  # fmt: skip
    assert done["leek"] is Action.SERVE
    (reason,) = next(one for one in judge(HOUSE, "spring", found("mint")) if one.dish == "d-stock-powder").reasons
    assert reason.items == ("stock-powder",)


def test_a_food_that_would_have_to_be_declared_cannot_hide():
    # Butter is cow's milk, so powder that declares none holds no butter; the cheese is milk of another animal.
    done = actions("cultured butter")
    assert done["stock-powder"] is Action.SERVE
    assert done["blue-cheese"] is Action.SERVE
    assert done["butter"] is Action.REFUSE


def test_a_table_of_foods_none_of_which_is_here_may_still_hide():
    done = actions("citrus")
    assert done["stock-powder"] is Action.CANNOT_SAY
    assert done["leek"] is Action.SERVE


@pytest.mark.parametrize(("word", "near"), [("nutz", "nuts"), ("glutten", "gluten"), ("veggan", "vegan")])
def test_an_unknown_word_has_no_meaning_and_near_ones(word, near):
    assert found(word) is None
    assert near in nearest_words(HOUSE, word)


@pytest.mark.parametrize("word", ["", "   ", "!!", "no", "free", "kosher", "xyzzy"])
def test_a_word_that_says_nothing_is_never_an_empty_answer(word):
    assert find_avoidances(HOUSE, word) is None
