"""The declarable lists, entry by entry, against the laws that make them.

Sources, read through the check values of the project's reference pages:
us   FD&C Act 201(qq) as set by FALCPA 2004 and the FASTER Act 2021; tree nuts by FDA, Questions and Answers Regarding
     Food Allergens, Edition 5 (6 January 2025), Table 1; sulphites by 21 CFR 101.100(a)(4)
eu   Regulation (EU) No 1169/2011, Annex II (as amended by Reg. 78/2014)
uk   assimilated Reg. 1169/2011 Annex II; Food Information Regulations 2014
ca   Food and Drug Regulations, C.R.C. c. 870, B.01.010.1 to B.01.010.4
anz  Food Standards Code, Standard 1.2.3 and Schedule 9
codex  Codex CXS 1-1985, section 4.2.1.4
"""

from __future__ import annotations

import pytest

from linebook.model.taxonomy import LISTS, SUBSTANCES, covered_by, find_substance, known_words

FIVE = ("us", "eu", "uk", "ca", "anz")


def _group(code: str, id_: str):
    return next(group for group in LISTS[code].groups if group.id == id_)


def _declared(code: str, *, apart: bool = True) -> set[str]:
    """Every substance a list asks to be declared."""
    groups = [group for group in LISTS[code].groups if apart or not group.apart]
    return {id_ for group in groups for id_ in covered_by(group.members)}


def _names(code: str, *, apart: bool = False) -> list[str]:
    return [group.name for group in LISTS[code].groups if group.apart is apart]


def test_the_six_lists():
    assert list(LISTS) == ["us", "eu", "uk", "ca", "anz", "codex"]


def test_us_names():  # FD&C Act 201(qq): the nine; 21 CFR 101.100(a)(4) beside them
    assert _names("us") == [
        "milk", "egg", "fish", "Crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans", "sesame",
    ]  # fmt: skip
    assert _names("us", apart=True) == ["sulfiting agents"]


@pytest.mark.parametrize("code", ["eu", "uk"])
def test_eu_and_uk_names(code):  # Reg. 1169/2011 Annex II, items 1 to 14 in their order
    assert _names(code) == [
        "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts", "celery",
        "mustard", "sesame seeds", "sulphur dioxide and sulphites", "lupin", "molluscs",
    ]  # fmt: skip
    assert _names(code, apart=True) == []


def test_canadian_names():  # B.01.010.1, protein groups (a) to (k); gluten sources and added sulphites are separate
    assert _names("ca") == [
        "tree nuts", "peanuts", "sesame seeds", "wheat or triticale", "eggs", "milk", "soybeans", "crustaceans",
        "molluscs", "fish", "mustard seeds",
    ]  # fmt: skip
    assert _names("ca", apart=True) == ["gluten sources", "added sulphites"]


def test_australian_and_new_zealand_names():  # Standard 1.2.3 and Schedule 9
    assert set(_names("anz")) == {
        "wheat", "gluten", "tree nuts", "crustacean", "mollusc", "egg", "fish", "lupin", "milk", "peanut", "sesame",
        "soy", "sulphites",
    }  # fmt: skip


def test_codex_names():  # CXS 1-1985 section 4.2.1.4 before 2024, then what CCFL48 (October 2024) added
    assert _names("codex") == [
        "cereals containing gluten", "crustacea", "eggs", "fish", "peanuts", "soybeans", "milk", "tree nuts", "sulphite",
    ]  # fmt: skip
    assert _names("codex", apart=True) == ["sesame", "buckwheat", "celery", "lupin", "mustard"]


@pytest.mark.parametrize(("code", "count"), [("us", 9), ("eu", 14), ("uk", 14), ("ca", 11)])
def test_counts(code, count):
    assert len(_names(code)) == count


MATRIX = {  # food: which of us, eu, uk, ca, anz ask for it (sulphites above a threshold; ca gluten as a gluten source)
    "milk": "us eu uk ca anz",
    "cows-milk": "us eu uk ca anz",
    "goats-milk": "us eu uk ca anz",  # US: Edition 5
    "hen-egg": "us eu uk ca anz",
    "quail-egg": "us eu uk ca anz",  # US: Edition 5
    "fish": "us eu uk ca anz",
    "trout": "us eu uk ca anz",
    "crab": "us eu uk ca anz",
    "lobster": "us eu uk ca anz",
    "prawn": "us eu uk ca anz",
    "shrimp": "us eu uk ca anz",
    "crayfish": "us eu uk ca anz",
    "clam": "eu uk ca anz",
    "mussel": "eu uk ca anz",
    "oyster": "eu uk ca anz",
    "scallop": "eu uk ca anz",
    "squid": "eu uk ca anz",
    "snail": "eu uk ca anz",
    "peanut": "us eu uk ca anz",
    "soy": "us eu uk ca anz",
    "wheat": "us eu uk ca anz",
    "spelt": "us eu uk ca anz",
    "khorasan": "us eu uk ca anz",
    "rye": "eu uk ca anz",
    "barley": "eu uk ca anz",
    "oats": "eu uk ca anz",
    "sesame": "us eu uk ca anz",
    "celery": "eu uk",
    "mustard": "eu uk ca",
    "lupin": "eu uk anz",
    "sulphites": "us eu uk ca anz",
    "almond": "us eu uk ca anz",
    "pine-nut": "us ca anz",
    "coconut": "",
    "chestnut": "",
    "buckwheat": "",
}


@pytest.mark.parametrize(("substance", "lists"), MATRIX.items())
def test_who_asks_for_what(substance, lists):
    assert {code for code in FIVE if substance in _declared(code)} == set(lists.split())


def test_sulphites_are_none_of_the_us_nine():
    assert "sulphites" not in _declared("us", apart=False)


US_NUTS = {  # Edition 5, Table 1
    "almond", "black-walnut", "brazil-nut", "california-walnut", "cashew", "hazelnut", "heartnut", "macadamia", "pecan",
    "pine-nut", "pistachio", "walnut",
}  # fmt: skip
US_REMOVED = {  # named in earlier editions, no longer in 2025
    "beech-nut", "butternut", "chestnut", "chinquapin", "coconut", "cola-nut", "ginkgo-nut", "hickory-nut", "palm-nut",
    "pili-nut", "shea-nut",
}  # fmt: skip
EU_NUTS = {"almond", "hazelnut", "walnut", "cashew", "pecan", "brazil-nut", "pistachio", "macadamia"}
NINE_NUTS = EU_NUTS | {"pine-nut"}  # B.01.010.1 and Schedule 9


@pytest.mark.parametrize(
    ("code", "members", "count"),
    [("us", US_NUTS, 12), ("eu", EU_NUTS, 8), ("uk", EU_NUTS, 8), ("ca", NINE_NUTS, 9), ("anz", NINE_NUTS, 9)],
)
def test_tree_nuts(code, members, count):
    group = _group(code, "tree-nut")
    assert set(group.members) == members
    assert len(group.members) == count


def test_nuts_removed_in_the_us_are_on_no_list():
    assert set(SUBSTANCES) >= US_REMOVED
    for code in LISTS:
        assert _declared(code).isdisjoint(US_REMOVED)


CEREALS = {
    ("us", "wheat"): {"wheat"},
    ("eu", "gluten-cereal"): {"wheat", "spelt", "khorasan", "rye", "barley", "oats", "triticale"},
    ("uk", "gluten-cereal"): {"wheat", "spelt", "khorasan", "rye", "barley", "oats", "triticale"},
    ("ca", "wheat"): {"wheat", "triticale"},
    ("ca", "gluten-cereal"): {"barley", "oats", "rye", "triticale", "wheat"},
    ("anz", "wheat"): {"wheat"},
    ("anz", "gluten-cereal"): {"wheat", "barley", "oats", "rye"},
    ("codex", "gluten-cereal"): {"wheat", "rye", "barley", "oats", "spelt"},
}


@pytest.mark.parametrize(("entry", "members"), CEREALS.items())
def test_cereals(entry, members):
    assert set(_group(*entry).members) == members


@pytest.mark.parametrize(
    ("general", "kinds"),
    [
        ("fish", {"cod", "salmon", "anchovy", "tuna", "trout", "sole"}),
        ("crustacean", {"crab", "lobster", "prawn", "shrimp", "crayfish"}),
        ("mollusc", {"clam", "mussel", "oyster", "scallop", "squid", "snail", "octopus", "cuttlefish", "abalone", "whelk", "cockle"}),
        ("wheat", {"spelt", "durum", "einkorn", "emmer", "khorasan", "triticale"}),
        ("milk", {"cows-milk", "goats-milk", "sheeps-milk"}),
        ("egg", {"hen-egg", "duck-egg", "quail-egg"}),
    ],
)  # fmt: skip
def test_a_general_entry_covers_its_kinds(general, kinds):
    assert set(covered_by((general,))) >= kinds


def test_a_label_that_names_no_kind_counts_as_every_kind():
    assert "tree-nut" in covered_by(("almond",))
    assert "gluten" in covered_by(("wheat",))
    assert {"crustacean", "shellfish"} <= set(covered_by(("crab",)))
    assert "walnut" not in covered_by(("almond",))
    assert covered_by(("honey", "honey")) == ("honey",)


def test_every_entry_has_a_source_and_known_members():
    for list_ in LISTS.values():
        for group in list_.groups:
            assert group.source
            assert group.members
            assert set(group.members) <= set(SUBSTANCES)
        assert len({group.id for group in list_.groups}) == len(list_.groups)


def test_substances_are_found_by_id_name_and_synonym():
    assert find_substance("pine-nut").id == "pine-nut"
    assert find_substance(" Groundnut ").id == "peanut"
    assert find_substance("Cow's milk").id == "cows-milk"
    assert find_substance("celeriac").id == "celery"
    assert find_substance("gold") is None
    for substance in SUBSTANCES.values():
        assert substance.name
        assert set(substance.kind_of) <= set(SUBSTANCES)
        assert find_substance(substance.id) is substance
        assert find_substance(substance.name) is substance
        for word in substance.synonyms:
            assert find_substance(word) is not None
            assert word.lower() in known_words()


def test_no_word_means_two_substances():
    meant: dict[str, str] = {}
    for substance in SUBSTANCES.values():
        for word in {substance.name.lower(), substance.id, *(word.lower() for word in substance.synonyms)}:
            assert meant.setdefault(word, substance.id) == substance.id, word
