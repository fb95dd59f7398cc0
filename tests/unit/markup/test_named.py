"""What a member of an allergen line names, and what is told where only another list calls it otherwise."""

from __future__ import annotations

from dataclasses import replace

import pytest
from test_difference import allergens, sheet

from linebook.documents.wording import english
from linebook.markup.compared import tell_changes
from linebook.markup.named import is_named, named


@pytest.mark.parametrize(
    ("text", "foods"),
    [
        ("mustard", {"mustard"}),
        ("nuts (almond, walnut)", {"almond", "walnut"}),
        ("fish (cod, from the fryer)", {"cod"}),
        ("fish (cod, some from the fryer, the grill and the boiler)", {"cod"}),
        ("sulphites (from the fryer)", {"sulphites"}),
        ("sulphites (UK)", {"sulphites"}),
        ("tree nuts (US) (walnut)", {"walnut"}),
        ("nuts (EU, UK) (from the fryer)", {"nuts"}),
    ],
)
def test_the_foods_are_named_and_neither_the_list_nor_what_brings_them(text: str, foods: set[str]):
    assert named(text, english()) == foods


def test_what_comes_from_the_same_fryer_is_not_the_same():
    assert not is_named("sulphites (from the fryer)", ["fish (cod, from the fryer)"], english())


def told(before: str, after: str) -> tuple[list[str], list[str]]:
    old, new = (replace(sheet(body), kind="batch-card") for body in (before, after))
    changes = tell_changes(old, new, english())
    return [one.plain for one in changes.allergens], [one.plain for one in changes.other]


def test_what_no_longer_comes_from_the_fryer_is_told_beside_what_still_does():
    fish, sulphites = ("may.fish", "fish (cod, from the fryer)"), ("may.so2", "sulphites (from the fryer)")
    before, after = allergens(fish, sulphites, line="may-contain"), allergens(fish, line="may-contain")
    assert told(before, after) == (["no longer may contain sulphites (from the fryer)"], [])
    assert told(after, before) == (["now may contain sulphites (from the fryer)"], [])


def test_another_list_s_name_is_no_news_and_is_said_in_a_sentence():
    uk = allergens(("contains.nut", "nuts (walnut)"), ("contains.so2", "sulphites"))
    both = allergens(
        ("contains.nut-uk", "nuts (UK) (walnut)"),
        ("contains.nut-us", "tree nuts (US) (walnut)"),
        ("contains.so2-uk", "sulphites (UK)"),
    )
    assert told(uk, both) == ([], ["the same allergens, under the names of other lists"])
    almond = allergens(("contains.nut-us", "tree nuts (US) (almond, walnut)"), ("contains.so2-uk", "sulphites (UK)"))
    assert told(uk, almond)[0] == ["now contains tree nuts (US) (almond, walnut)"]


def test_what_is_undeclared_is_known_by_its_name_alone():
    veal, jus = ("undeclared.stock", "stock (veal)"), ("undeclared.jus", "jus (veal)")
    before, after = allergens(veal, line="undeclared"), allergens(jus, line="undeclared")
    assert told(before, after)[0] == ["not declared: jus (veal)", "now declared, or no longer in it: stock (veal)"]


@pytest.mark.parametrize(("was", "now"), [("contains", "may-contain"), ("may-contain", "contains")])
def test_what_goes_from_one_line_to_the_other_is_told_as_that(was: str, now: str):
    walnut, celery = ("nut", "nuts (walnut)"), ("celery", "celery")
    before = allergens(walnut, line=was) + allergens(celery, line=now)
    after = allergens(celery, walnut, line=now)
    words = {"contains": "contains", "may-contain": "may contain"}
    assert f"nuts (walnut): {words[was]} → {words[now]}" in told(before, after)[0]
    assert not any("now" in one for one in told(before, after)[0])
    both = allergens(walnut, line=was) + allergens(celery, walnut, line=now)
    assert told(before, both)[0] == [f"now {words[now]} nuts (walnut)"], "it is still on the other line too"
