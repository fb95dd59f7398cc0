"""The chef's copy of the tasting notes: its order, and that all it is given is printed; what to do with what is left."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from planned_house import small_house
from sample_house import sheet
from test_view_mutations import mutations

from linebook.documents.tasting_notes import tasting_notes, told_note
from linebook.documents.use_up import use_up_text
from linebook.documents.wording import english, wording_in
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.amounts import Amount
from linebook.model.supply import StockEntry
from linebook.model.tasting import Tasting
from linebook.source.spans import SourceFile

NOWHERE = SourceFile(path="", text="").whole()
MENU, LINE = "early-spring", "stove"


def note(day, tasted, **more):
    return Tasting(day=day, tasted=tasted, span=NOWHERE, spans={}, **more)


def noted_house():
    house = small_house()
    log = (note(date(2027, 2, 1), "dull"), note(date(2027, 2, 9), "good", changed="lemon", by="MH"))
    return replace(house, dishes={**house.dishes, "shin": replace(house.dishes["shin"], tastings=log)})


def view(wording=None, **more):
    return tasting_notes(noted_house(), MENU, LINE, wording or english(), **more)


def said(text):
    return text.plain.replace("\u00a0", " ")


def test_dishes_then_components_each_with_its_notes_newest_first():
    dishes, made = view().groups
    assert [said(group.title) for group in (dishes, made)] == ["Dishes", "Components"]
    (shin,) = dishes.cards
    assert [(said(row.day), said(row.tasted), said(row.changed), said(row.by)) for row in shin.rows] == [
        ("9 February 2027", "good", "lemon", "MH"),
        ("1 February 2027", "dull", "", ""),
    ]
    assert {card.key for card in made.cards} >= {"celeriac-puree", "shin-sauce"}
    assert not any(card.rows for card in made.cards)


def test_since_a_day():
    found = view(since=date(2027, 2, 2))
    assert [said(row.tasted) for row in found.groups[0].cards[0].rows] == ["good"]
    assert said(found.lead).startswith("From 2 February 2027 on")


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({}, "tasted 9 February 2027: good"),
        ({"by": "MH"}, "tasted 9 February 2027 by MH: good"),
        ({"by": "MH", "changed": "lemon"}, "tasted 9 February 2027 by MH: good – changed: lemon"),
    ],
)
def test_a_note_in_one_sentence(more, words):
    assert said(told_note(note(date(2027, 2, 9), "good", **more), english())) == words


def test_whatever_changes_in_the_view_changes_the_sheet():
    before = fingerprint_of(sheet(view()))
    for path, other in mutations(view()):
        assert fingerprint_of(sheet(other)) != before, path


def test_in_two_languages_the_words_of_the_house_stand_once():
    found = view(wording_in(("en", "es")))
    row = found.groups[0].cards[0].rows[0]
    assert row.day.second is not None
    assert row.tasted.second is None


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (date(2027, 3, 1), "keeps 3 d: finish by Wed 3 March or bin it"),
        (date(2027, 2, 28), "keeps 3 d: finish by Tue 2 March or bin it"),
        (date(2027, 2, 27), "keeps 3 d: was to be finished by Mon 1 March, bin it"),
    ],
)
def test_what_is_left_is_finished_by_the_day_its_life_ends(made, words):
    house = small_house()
    puree = house.components["celeriac-puree"]
    assert said(use_up_text(house, puree, made, date(2027, 3, 2), None, english())) == words


def test_what_was_counted_counts():
    house = small_house()
    puree = house.components["celeriac-puree"]
    amount = Amount(number=2, unit=puree.makes.unit)
    left = [
        StockEntry(item=puree.id, amount=amount, made=made, span=NOWHERE, spans={})
        for made in (date(2027, 3, 1), date(2027, 2, 20), None)
    ]
    told = said(use_up_text(house, puree, date(2027, 3, 1), date(2027, 3, 2), left, english()))
    assert told == (
        "2 kg: finish by Wed 3 March, then bin it; 2 kg: was to be finished by Mon 22 February, bin it; "
        "2 kg, without a day: bin it"
    )
    assert said(use_up_text(house, puree, date(2027, 3, 1), date(2027, 3, 2), [], english())) == "none was counted"


def test_what_keeps_for_hours_or_nobody_knows_how_long():
    house = small_house()
    puree = house.components["celeriac-puree"]
    keeps = house.components["walnut-fritter"].keeps
    days = date(2027, 3, 1), date(2027, 3, 2)
    assert (
        said(use_up_text(house, replace(puree, keeps=keeps), *days, None, english())) == "keeps 8 h: bin what is left"
    )
    unknown = said(use_up_text(house, replace(puree, keeps=None), *days, None, english()))
    assert unknown == "its card does not say how long it keeps: ask the chef"
