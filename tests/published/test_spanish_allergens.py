"""Allergens in Spanish, against the texts that name them. Each list is typed from its source, not from the code.

Annex II of Regulation (EU) No 1169/2011 in Spanish, read in two independent quotations of it: the health authority of
La Rioja (https://riojasalud.es/salud-publica-consumo/consumo/el-rincon-del-consumidor/articulos/alergenos-en-alimentos) and
http://www.consal.es/informacion-sobre-alergenos-obligatoria-en-el-etiquetado-de-alimentos/. Where both add *y productos
a base de …* or *y productos derivados*, the group's own name is what stands before it.
"""

from __future__ import annotations

import pytest

from linebook.model.taxonomy import LISTS, SUBSTANCES
from linebook.model.taxonomy.spanish import (
    AGENCY,
    ANNEX,
    CODEX,
    GROUP_NAMES,
    NOT_NAMED,
    RESIDUES,
    SHORT,
    SUBSTANCE_NAMES,
    TITLES,
    TRADE,
)

ANNEX_II = {
    "gluten-cereal": "Cereales que contengan gluten, a saber: trigo (espelta o trigo khorasan), avena, cebada y centeno",
    "crustacean": "Crustáceos y productos a base de crustáceos",
    "egg": "Huevos y productos a base de huevo",
    "fish": "Pescado y productos a base de pescado",
    "peanut": "Cacahuetes y productos a base de cacahuetes",
    "soy": "Soja y productos a base de soja",
    "milk": "Leche y sus derivados (incluida la lactosa)",
    "tree-nut": (
        "Frutos de cáscara, es decir: almendras, avellanas, nueces, anacardos, pacanas, nueces de Brasil, alfóncigos "
        "(pistachos), nueces macadamia o nueces de Australia"
    ),
    "celery": "Apio y productos derivados",
    "mustard": "Mostaza y productos derivados",
    "sesame": "Granos de sésamo y productos a base de granos de sésamo",
    "sulphites": "Dióxido de azufre y sulfitos en concentraciones superiores a 10 mg/kg o 10 mg/litro",
    "lupin": "Altramuces y productos a base de altramuces",
    "mollusc": "Moluscos y productos a base de moluscos",
}

# https://www.fda.gov/consumers/articulos-para-el-consumidor-en-espanol/tiene-alergias-los-alimentos-lea-la-etiqueta
FDA = {
    "milk": "leche",
    "egg": "huevo",
    "fish": "pescado",
    "crustacean": "crustáceos",
    "tree-nut": "frutos secos",
    "wheat": "trigo",
    "peanut": "maní (cacahuate)",
    "soy": "soya",
    "sesame": "sésamo",
}

# https://eur-lex.europa.eu/legal-content/ES/TXT/?uri=CELEX:32017R0626, annex, 0120000 Frutos de cáscara
NUTS_OF_EUR_LEX = {"pine-nut": "Piñones", "chestnut": "Castañas", "pistachio": "Pistachos"}


@pytest.mark.parametrize("code", ["eu", "uk"])
@pytest.mark.parametrize("group", ANNEX_II)
def test_a_group_of_annex_ii_has_the_law_s_words(code, group):
    name = GROUP_NAMES[code][group]
    assert name.source == ANNEX
    assert ANNEX_II[group].casefold().startswith(name.text)
    rest = ANNEX_II[group][len(name.text) :]
    assert rest.startswith((" y ", ", ", " en concentraciones")), "the name ends where the law's own does"


def test_annex_ii_has_fourteen_groups():
    assert set(GROUP_NAMES["eu"]) == set(ANNEX_II)
    assert len(ANNEX_II) == 14


@pytest.mark.parametrize("id_", [id_ for id_, name in SUBSTANCE_NAMES.items() if name.source == ANNEX])
def test_a_food_of_annex_ii_has_the_law_s_word(id_):
    name = SUBSTANCE_NAMES[id_].text
    assert any(name in text or name in text.casefold() for text in ANNEX_II.values())


def test_every_food_that_annex_ii_names_has_its_word():
    cereals = {"wheat", "spelt", "khorasan", "rye", "barley", "oats"}
    nuts = {"almond", "hazelnut", "walnut", "cashew", "pecan", "brazil-nut", "macadamia"}
    others = {"peanut", "soy", "celery", "mustard", "sesame", "sulphites", "lupin"}
    assert {id_ for id_, name in SUBSTANCE_NAMES.items() if name.source == ANNEX} == cereals | nuts | others


def test_the_united_states_groups_have_the_agency_s_words():
    named = {id_: name.text for id_, name in GROUP_NAMES["us"].items() if name.source == AGENCY}
    assert named == FDA


def test_nuts_outside_annex_ii_have_the_union_s_words():
    named = {id_: name.text for id_, name in SUBSTANCE_NAMES.items() if name.source == RESIDUES}
    assert named == {id_: name.casefold() for id_, name in NUTS_OF_EUR_LEX.items()}


def test_every_food_list_and_group_has_a_name_and_says_who_gives_it():
    assert set(SUBSTANCE_NAMES) == set(SUBSTANCES)
    assert set(GROUP_NAMES) == set(TITLES) == set(SHORT) == set(LISTS)
    for code, list_ in LISTS.items():
        assert set(GROUP_NAMES[code]) == {group.id for group in list_.groups}
    for names in (SUBSTANCE_NAMES, *GROUP_NAMES.values()):
        for name in names.values():
            assert name.text == name.text.strip() != ""
            assert name.source in (ANNEX, AGENCY, CODEX, RESIDUES, TRADE)


def test_no_two_foods_share_a_name():
    names = [name.text for name in SUBSTANCE_NAMES.values()]
    assert len(set(names)) == len(names)


def test_a_general_name_says_that_the_kind_is_not_named_where_the_english_does():
    for id_, substance in SUBSTANCES.items():
        assert substance.name.endswith("not named") == SUBSTANCE_NAMES[id_].text.endswith(NOT_NAMED), id_
