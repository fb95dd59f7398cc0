"""Proofs: every path with its places, what a free answer was looked for in, and the index, on houses read from files."""

from __future__ import annotations

from datetime import date
from textwrap import dedent

import pytest

from linebook.check.house import check_house
from linebook.compute.allergen_index import allergen_index
from linebook.compute.avoidances import of_diet
from linebook.compute.guest_words import find_avoidances
from linebook.compute.results import Answer
from linebook.compute.why import paths, why
from linebook.model.diets import DIETS
from linebook.read.house_folder import read_house

FILES = {
    "house.yaml": """
        name: Kiln Row
        rules: UK
        allergens: {lists: [uk], avoid: {honey: honey}}
        lines: {stove: {name: Stove}}
        media:
          fryer: {name: fryer, carries: [oil]}
          boiler: {name: boiler, changed_between: yes}
        """,
    "pantry/all.yaml": """
        oil: {name: oil, origin: plant, one_food: yes, allergens: {contains: none, may_contain: [soy], says: label, since: 2026-01-05}}
        flour:
          name: flour
          origin: plant
          allergens: {contains: [wheat], says: label, since: 2026-02-01}
        leek: {name: leek, origin: plant, one_food: yes, allergens: {contains: none, says: own knowledge, since: 2026-03-01}}
        beef: {name: beef, origin: beef, one_food: yes, allergens: {contains: none, says: label, since: 2026-02-01}}
        cheese: {name: blue cheese, allergens: {contains: [cows-milk], says: label, since: 2026-02-01}}
        leaf: {name: gelatine leaf, origin: gelatine, allergens: {contains: none, says: label, since: 2026-02-01}}
        egg: {name: egg, origin: egg, unpasteurised: yes, one_food: yes, allergens: {contains: [hen-egg], says: label, since: 2026-02-01}}
        paste: {name: chilli paste}
        """,
    "menus/old.yaml": """
        name: old
        first: 2026-11-01
        courses: [{course: mains, name: Mains}]
        dishes: [{dish: fritter, share: 1}]
        """,
    "menus/new.yaml": """
        name: new
        first: 2027-02-01
        courses: [{course: mains, name: Mains}]
        dishes: [{dish: leeks, share: 1}, {dish: stew, share: 1}]
        """,
    "dishes/fritter.md": """
        name: Fritter
        line: stove
        course: mains
        elements:
          - {item: batter, amount: 50 g, through: fryer}
        """,
    "dishes/leeks.md": """
        name: Leeks
        line: stove
        course: mains
        elements:
          - {item: leek, amount: 50 g, through: [fryer, boiler], leave_off: yes, alternative: {item: beef, amount: 40 g}}
          - {item: dressing, amount: 20 g}
        also_touches: [paste]
        """,
    "dishes/stew.md": """
        name: Stew
        line: stove
        course: mains
        elements:
          - {item: sauce, amount: 50 g}
          - {item: beef, amount: 100 g, raw: yes}
        """,
    "components/batter.md": """
        name: Batter
        line: stove
        makes: 1 kg
        ingredients: [{item: flour, amount: 800 g}, {item: egg, amount: 200 g}]
        """,
    "components/dressing.md": """
        name: Dressing
        line: stove
        makes: 1 kg
        ingredients: [{item: cheese, amount: 800 g}, {item: egg, amount: 200 g}]
        raw: [egg]
        """,
    "components/sauce.md": """
        name: Sauce
        line: stove
        makes: 900 g
        ingredients: [{item: bones, amount: 500 g}, {item: leaf, amount: 20 g}, {item: beef, amount: 500 g, stage: boil}]
        stages: [{stage: boil, limit: cook}]
        """,
    "components/roast.md": """
        name: Roast
        line: stove
        makes: 500 g
        ingredients: [{item: beef, amount: 1 kg}, {item: flour, amount: 50 g, stage: dust}]
        stages: [{stage: trim}, {stage: dust}]
        also_makes: [{item: bones, name: bones, amount: 500 g, from: beef, after: trim}]
        """,
}
BODIES = {"components/sauce.md": "## Boil\n1. Boil.\n", "components/roast.md": "## Trim\n1. Trim.\n## Dust\n1. Dust.\n"}


def _written(path: str, text: str) -> str:
    if not path.endswith(".md"):
        return f"{text}\n"
    usual = "## Pick-up\n1. Read the ticket for allergies.\n" if path.startswith("dishes") else ""
    return f"---\n{text}\n---\n{BODIES.get(path, usual)}"


@pytest.fixture(scope="module")
def kiln(tmp_path_factory):
    root = tmp_path_factory.mktemp("kiln")
    for path, text in FILES.items():
        (root / path).parent.mkdir(exist_ok=True)
        (root / path).write_text(_written(path, dedent(text).strip()), encoding="utf-8")
    read = read_house(root, "specs").outcome
    checked = check_house(read.value)
    bad = [one for one in (*read.faults, *checked.faults) if one.severity.value == "error"]
    assert not bad, [(one.message, one.span and one.span.place) for one in bad]
    return checked.value


def shown(path) -> str:
    return " > ".join(f"{step.kind} {step.id}" for step in path.steps)


def at(step) -> str:
    return f"{step.span.source.path}: {step.span.text}"


def test_a_path_leads_from_the_element_to_the_word_of_the_label(kiln):
    (milk,) = find_avoidances(kiln, "milk")
    proof = why(kiln, "new", "leeks", milk)
    sure = [path for path in proof.paths if path.answer is Answer.CONTAINS]
    assert [shown(path) for path in sure] == ["element dressing > item cheese > ground cheese"]
    assert sure[0].substances == ("cows-milk",)
    assert [at(step) for step in sure[0].steps] == [
        "specs/dishes/leeks.md: dressing", "specs/components/dressing.md: cheese", "specs/pantry/all.yaml: cows-milk",
    ]  # fmt: skip
    assert proof.paths == paths(kiln, "new", "leeks", milk)


def test_a_path_through_a_medium_names_who_left_it_there_and_on_which_menu(kiln):
    (gluten,) = find_avoidances(kiln, "gluten")
    proof = why(kiln, "new", "leeks", gluten)
    maybe = [path for path in proof.paths if path.answer is Answer.MAY]
    assert [shown(path) for path in maybe] == [
        "element leek > medium fryer > menu old > dish fritter > element batter > item flour > ground flour"
    ] or [shown(path) for path in maybe] == [
        "medium fryer > menu old > dish fritter > element batter > item flour > ground flour"
    ]
    assert at(maybe[0].steps[-1]) == "specs/pantry/all.yaml: wheat"


def test_undeclared_is_a_path_too_and_comes_before_may(kiln):
    (gluten,) = find_avoidances(kiln, "gluten")
    proof = why(kiln, "new", "leeks", gluten)
    assert proof.answer is Answer.UNDECLARED
    assert [path.answer for path in proof.paths] == [Answer.UNDECLARED, Answer.MAY]
    assert shown(proof.paths[0]) == "touches paste > ground paste"
    assert at(proof.paths[0].steps[-1]) == "specs/pantry/all.yaml: paste"


def test_what_the_medium_carries_is_a_path_of_its_own(kiln):
    (soy,) = find_avoidances(kiln, "soy")
    found = [shown(path) for path in paths(kiln, "new", "leeks", soy) if path.answer is Answer.MAY]
    assert found[0].endswith("medium fryer > item oil > ground oil")


def test_a_free_answer_says_what_was_looked_at(kiln):
    (milk,) = find_avoidances(kiln, "peanut")
    proof = why(kiln, "new", "stew", milk)
    assert (proof.answer, proof.paths, proof.cut) == (Answer.FREE, (), False)
    looked = proof.looked_at
    assert looked.items == ("beef", "flour", "leaf")
    assert looked.components == ("roast", "sauce")
    assert (looked.media, looked.also_through) == ((), ())
    assert looked.oldest == ("beef", date(2026, 2, 1))
    fried = why(kiln, "new", "leeks", milk).looked_at
    assert fried.media == ("fryer", "boiler")
    assert fried.also_through == ("fritter",)
    assert fried.oldest == ("oil", date(2026, 1, 5))


def test_a_by_product_leads_to_what_it_comes_from(kiln):
    found = [shown(path) for path in paths(kiln, "new", "stew", of_diet(DIETS["vegetarian"])) if path.item == "beef"]
    assert "element sauce > by-product bones > by-product roast > item beef > ground beef" in found
    assert "element beef > ground beef" in found
    assert paths(kiln, "new", "stew", *find_avoidances(kiln, "wheat")) == ()


def test_diets_end_at_the_origin_or_at_the_item_without_one(kiln):
    found = paths(kiln, "new", "stew", of_diet(DIETS["pork"]))
    assert [(path.answer, path.item, at(path.steps[-1])) for path in found] == [
        (Answer.UNDECLARED, "leaf", "specs/pantry/all.yaml: gelatine")
    ]
    cheese = [path for path in paths(kiln, "new", "leeks", of_diet(DIETS["animal-rennet"])) if path.item == "cheese"]
    assert [at(path.steps[-1]) for path in cheese] == ["specs/pantry/all.yaml: cheese"]


def test_raw_is_said_by_the_card_and_cooked_is_not_raw(kiln):
    found = paths(kiln, "new", "leeks", of_diet(DIETS["raw-egg"]))
    said = [path for path in found if path.answer is Answer.CONTAINS]
    assert [at(path.steps[-1]) for path in said] == ["specs/components/dressing.md: egg"]
    stew = paths(kiln, "new", "stew", of_diet(DIETS["raw-meat"]))
    assert [(path.answer, shown(path)) for path in stew] == [(Answer.CONTAINS, "element beef > ground beef")]


def test_a_food_by_name_ends_at_itself_and_at_what_is_compound(kiln):
    (leek,) = find_avoidances(kiln, "leek")
    proof = why(kiln, "new", "leeks", leek)
    assert {(path.answer, path.item) for path in proof.paths} == {
        (Answer.CONTAINS, "leek"), (Answer.UNDECLARED, "cheese"), (Answer.UNDECLARED, "paste"),
        (Answer.UNDECLARED, "flour"),
    }  # fmt: skip
    (batter,) = find_avoidances(kiln, "batter")
    stood = [path for path in paths(kiln, "new", "leeks", batter) if path.item == "batter"]
    assert {path.answer for path in stood} == {Answer.MAY}
    assert at(stood[0].steps[-1]).startswith("specs/components/batter.md")


def test_the_index_leads_from_a_thing_to_its_dishes(kiln):
    entries = {(one.sort, one.id): dict(one.dishes) for one in allergen_index(kiln, "new")}
    assert entries["group", "milk"] == {"leeks": Answer.CONTAINS}
    assert entries["group", "peanut"] == {"leeks": Answer.UNDECLARED}
    assert entries["own", "honey"] == {"leeks": Answer.UNDECLARED}
    assert entries["substance", "cows-milk"] == {"leeks": Answer.CONTAINS}
    assert entries["substance", "soy"] == {"leeks": Answer.UNDECLARED}
    assert ("substance", "almond") not in entries
    assert entries["item", "flour"] == {"leeks": Answer.MAY}
    assert entries["item", "beef"] == {"stew": Answer.CONTAINS}
    assert entries["component", "batter"] == {"leeks": Answer.MAY}
    assert entries["by-product", "bones"] == {"stew": Answer.CONTAINS}
    assert entries["component", "roast"] == {"stew": Answer.CONTAINS}  # by what is left over from it
    assert ("component", "dressing") in entries
