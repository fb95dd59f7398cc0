"""What allergens are called in each language: by list, with what a food adds to its group, and the house's own."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample_house import sample_house

from linebook.compute.columns import columns_for
from linebook.documents.allergen_names import adds_to, column_name, column_text, list_short, list_title
from linebook.documents.text import words
from linebook.documents.wording import english, wording_in
from linebook.model.taxonomy import LISTS, SUBSTANCES
from linebook.model.taxonomy.spanish import GROUP_NAMES, NOT_NAMED, SUBSTANCE_NAMES

BOTH, SPANISH, TURNED = wording_in(("en", "es")), wording_in(("es",)), wording_in(("es", "en"))


def house_of(*lists: str, **avoid: str):
    house = sample_house()
    policy = replace(house.file.allergens, lists=lists, avoid=avoid)
    return replace(house, file=replace(house.file, allergens=policy))


def column(house, id_: str):
    return next(one for one in columns_for(house.file.allergens) if one.id == id_)


@pytest.mark.parametrize("code", LISTS)
def test_every_group_is_named_by_its_own_list(code):
    house = house_of(code)
    for one in columns_for(house.file.allergens):
        expected = GROUP_NAMES[code][one.id].text
        assert column_name(one, SPANISH, house).plain == expected
        assert column_name(one, BOTH, house).both in (f"{one.name} / {expected}", one.name)
        assert column_name(one, english(), house) == words(one.name)


def test_of_several_lists_the_first_that_has_the_group_words_it():
    house = house_of("us", "eu")
    assert column_name(column(house, "soy"), SPANISH, house).plain == "soya"
    assert column_name(column(house, "celery"), SPANISH, house).plain == "apio"
    assert column_name(column(house_of("eu", "us"), "soy"), SPANISH, house_of("eu", "us")).plain == "soja"


def test_two_groups_of_one_name_say_whose_they_are():
    house = house_of("us", "eu")
    assert column_name(column(house, "tree-nut-us"), BOTH, house).both == "tree nuts (US) / frutos secos (EE. UU.)"
    assert column_name(column(house, "tree-nut-eu"), BOTH, house).both == "nuts (EU) / frutos de cáscara (UE)"


def text(id_: str, *substances: str, wording=BOTH, lists=("eu",)) -> str:
    house = house_of(*lists)
    names = [SUBSTANCES[one].name for one in substances]
    return column_text(column(house, id_), names, wording, house=house).both


def test_a_food_follows_its_group_in_each_language():
    assert text("tree-nut", "walnut", "almond") == "nuts (walnut, almond) / frutos de cáscara (nueces, almendras)"
    assert text("tree-nut", "walnut", wording=TURNED) == "frutos de cáscara (nueces) / nuts (walnut)"
    assert text("fish", "cod", wording=SPANISH) == "pescado (bacalao)"
    assert text("milk", "cows-milk") == "milk (cow's milk) / leche (leche de vaca)"


def test_a_food_that_is_its_group_adds_nothing_in_any_language():
    assert text("soy", "soy") == "soybeans / soja"
    assert text("peanut", "peanut", lists=("us",)) == "peanuts / maní (cacahuate)"
    assert text("sulphites", "sulphites") == "sulphur dioxide and sulphites / dióxido de azufre y sulfitos"


def test_a_general_name_adds_only_that_the_kind_is_not_named():
    assert text("fish", "fish") == "fish (species not named) / pescado (especie sin indicar)"
    assert text("tree-nut", "tree-nut") == "nuts (kind not named) / frutos de cáscara (tipo sin indicar)"


def test_what_a_spanish_name_adds():
    for id_, name in SUBSTANCE_NAMES.items():
        added = adds_to("nada", name.text, NOT_NAMED)
        assert added, id_
        assert name.text.endswith(added), id_


def test_the_house_s_own_avoidances_are_the_house_s_to_translate():
    house = house_of("eu", honey="honey")
    own = column(house, "honey")
    assert column_name(own, BOTH, house) == words("honey")
    assert column_text(own, ("honey",), BOTH, house=house).both == "honey"


def test_lists_have_titles_and_short_names():
    assert list_title("eu", BOTH).both == "European Union list / lista de la Unión Europea"
    assert list_title("us", english()).both == LISTS["us"].title
    assert list_short("US", BOTH).both == "US / EE. UU."
    assert list_short("ANZ", BOTH).both == "ANZ"
    assert list_short("Canada", TURNED).both == "Canadá / Canada"
