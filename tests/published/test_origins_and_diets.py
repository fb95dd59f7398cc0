"""What diets leave out and from which heat a food is cooked, by their sources.

Vegetarian, vegan and the rest have no definition in law that was read (Regulation (EU) No 1169/2011, Article 36(3)(b),
leaves one to come): they are common practice, no source, and the table says so.
food code    FDA Food Code 2022: 3-401.11(A) cooking; 3-603.11 the advisory for animal foods served raw or undercooked;
             3-801.11 pasteurised eggs, juice and milk for those most at risk
fsa          UK Food Standards Agency, cooking guidance: 70 °C for 2 min, 75 °C for 30 s, 80 °C for 6 s
"""

from __future__ import annotations

import pytest

from linebook.compute.guest_words import find_avoidances
from linebook.compute.origin_facts import cooked_from
from linebook.model.diets import COMMON_PRACTICE, DIETS, MAY_BE_RAW, UNPASTEURISED
from linebook.model.origins import MAY_BE_UNPASTEURISED, ORIGINS, origins_of
from linebook.model.taxonomy import SUBSTANCES

FLESH = {"poultry", "beef", "veal", "lamb", "pork", "game"}
SEA = {"fish", "crustacean", "mollusc"}


def forbids(diet: str) -> set[str]:
    return set(DIETS[diet].forbids)


def test_every_diet_says_who_says_so():
    assert {diet.reason for diet in DIETS.values() if "FDA" not in diet.reason} == {COMMON_PRACTICE}
    for id_ in ("raw-egg", "raw-fish", "raw-shellfish", "raw-meat", UNPASTEURISED):
        assert DIETS[id_].reason.startswith("FDA Food Code 2022, 3-"), id_


def test_what_vegetarians_and_vegans_leave_out():  # common practice, no source
    assert FLESH | SEA | {
        "insect",
        "gelatine",
        "gelatine-fish",
        "animal-fat",
        "animal-fat-pork",
        "rennet-animal",
    } <= forbids("vegetarian")
    assert not forbids("vegetarian") & {
        "milk",
        "egg",
        "honey",
        "rennet-vegetable",
        "rennet-microbial",
        "fungus",
        "alcohol",
    }
    assert forbids("vegan") - forbids("vegetarian") == {"milk", "egg", "honey"}
    assert forbids("vegetarian") - forbids("pescatarian") == SEA | {"gelatine-fish", "gelatine"}


@pytest.mark.parametrize("word", ["gelatine", "rennet", "animal-fat", "fining"])
def test_a_word_that_names_no_kind_leaves_the_question_open(word):
    could = set(ORIGINS[word].could_be)
    assert could <= set(ORIGINS)
    for diet in DIETS.values():
        assert (word in diet.forbids) == (could <= diet.forbids), diet.id
    assert "gelatine" in forbids("vegan")
    assert "gelatine" not in forbids("pork")
    assert "rennet" not in forbids("vegetarian")


def test_the_foods_it_matters_of_whether_they_are_raw():  # food code 3-603.11(A): beef, eggs, fish, lamb, pork, poultry, shellfish
    assert {"beef", "egg", "fish", "lamb", "pork", "poultry", "crustacean", "mollusc"} <= MAY_BE_RAW
    assert not MAY_BE_RAW & {"milk", "plant", "honey"}


def test_the_foods_it_matters_of_whether_they_are_pasteurised():  # food code 3-801.11(A) juice, (C) eggs; 3-202.14 milk
    assert {"milk", "egg", "juice"} <= MAY_BE_UNPASTEURISED


def test_the_heat_at_which_any_food_is_cooked():
    assert cooked_from("FDA Food Code 2022") == 74  # 3-401.11(A)(3): poultry, stuffed food, the highest row
    assert cooked_from("UK") == 75  # fsa: the lowest that is held 30 s or less
    assert cooked_from("EU") is None  # Regulation (EC) 852/2004, Annex II, gives no figure


def test_every_animal_substance_has_its_origin():
    kinds = {"milk": "milk", "egg": "egg", "fish": "fish", "crustacean": "crustacean", "mollusc": "mollusc"}
    for substance in SUBSTANCES.values():
        general, seen = substance, {substance.id}
        while general.kind_of:
            general = SUBSTANCES[general.kind_of[0]]
            seen.add(general.id)
        expected = {kinds[id_] for id_ in seen if id_ in kinds}
        assert origins_of((substance.id,)) == expected, substance.id
    assert origins_of(("honey", "pork", "garlic", "wheat")) == {"honey", "pork"}


NAMED_IN_LAW = {  # Reg. 1169/2011 Annex II item 8 and FDA Edition 5 Table 1, in the words printed there
    "almond": "almond", "Brazil nut": "brazil-nut", "California walnut": "california-walnut", "black walnut": "black-walnut",
    "cashew": "cashew", "filbert": "hazelnut", "hazelnut": "hazelnut", "heartnut": "heartnut", "Japanese walnut": "heartnut",
    "macadamia": "macadamia", "Queensland nut": "macadamia", "pecan": "pecan", "pine nut": "pine-nut",
    "pistachio": "pistachio", "English walnut": "walnut", "Persian walnut": "walnut",
    "spelt": "spelt", "khorasan": "khorasan", "rye": "rye", "barley": "barley", "oats": "oats", "triticale": "triticale",
    "crab": "crab", "lobster": "lobster", "prawn": "prawn", "shrimp": "shrimp", "crayfish": "crayfish",
    "clam": "clam", "mussel": "mussel", "oyster": "oyster", "scallop": "scallop", "squid": "squid", "snail": "snail",
    "lupin": "lupin", "celery": "celery", "mustard": "mustard", "sesame": "sesame", "peanut": "peanut", "soybean": "soy",
    "soya": "soy", "sulphur dioxide": "sulphites", "sulphites": "sulphites", "sulfites": "sulphites",
}  # fmt: skip


@pytest.mark.parametrize("word", NAMED_IN_LAW)
def test_a_guest_may_use_the_words_of_the_law(word, plain_house):
    found = find_avoidances(plain_house, word)
    assert NAMED_IN_LAW[word] in {substance for one in found for substance in one.substances}


@pytest.mark.parametrize(
    ("word", "inside", "outside"),
    [
        ("nuts", {"pine-nut", "coconut", "peanut", "chestnut"}, {"sesame"}),  # wider than any one list
        ("gluten", {"wheat", "spelt", "triticale", "oats"}, {"buckwheat"}),
        ("wheat", {"spelt", "durum", "khorasan", "triticale"}, {"rye", "barley"}),  # US: every species of Triticum
        ("shellfish", {"prawn", "oyster", "snail"}, {"hake"}),
        ("milk", {"goats-milk", "sheeps-milk", "buffalo-milk"}, {"egg"}),  # FDA Edition 5: other ruminants too
        ("egg", {"duck-egg", "quail-egg"}, {"milk"}),  # FDA Edition 5: other birds too
    ],
)
def test_group_words_are_as_wide_as_the_widest_list(word, inside, outside, plain_house):
    found = {substance for one in find_avoidances(plain_house, word) for substance in one.substances}
    assert inside <= found
    assert not outside & found


@pytest.fixture(scope="module")
def plain_house(tmp_path_factory):
    from linebook.check.house import check_house
    from linebook.read.house_folder import read_house

    root = tmp_path_factory.mktemp("plain")
    (root / "house.yaml").write_text(
        "name: Kiln Row\nrules: UK\nallergens: {lists: [uk]}\nlines: {stove: {name: Stove}}\n", encoding="utf-8"
    )
    return check_house(read_house(root, "specs").outcome.value).value
