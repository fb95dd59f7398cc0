"""The tasting sheet: each dish of the menu once, in its order, with what its cards say of its taste."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from pathlib import Path

import pytest
from planned_house import small_house
from sample_house import sheet
from test_view_mutations import mutations

from linebook.documents.tasting_sheet import tasting_sheet
from linebook.documents.wording import english, wording_in
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.body import Body
from linebook.pipeline import load_house

SATURDAY = date(2027, 3, 13)


def said(text):
    return text.plain.replace("\u00a0", " ")


def view(house=None, menu="early-spring", wording=None):
    return tasting_sheet(house or small_house(), menu, SATURDAY, wording or english())


def rows_of(found):
    return [row for group in found.groups for row in group.rows]


def test_all_dishes_in_the_order_of_the_menu():
    house = small_house()
    names = [house.dishes[one.dish].name for one in house.menus["early-spring"].dishes]
    assert [said(row.name) for row in rows_of(view())] == names
    assert [said(group.title) for group in view().groups] == ["Snacks", "Mains"]


def test_the_demo_house_has_a_taste_for_every_dish():
    demo = load_house(Path(__file__).parents[3] / "specs", "specs", ()).value
    assert demo is not None
    for id_, menu in demo.menus.items():
        rows = rows_of(view(demo, id_))
        assert len(rows) == len({entry.dish for entry in menu.dishes})
        assert not any("not written" in said(row.taste) for row in rows)


def test_what_it_must_taste_of_is_its_cards_own_words():
    row = next(row for row in rows_of(view()) if said(row.name).startswith("Shin"))
    assert said(row.taste) == "Deep beef, then the sweetness of celeriac."
    assert said(row.parts) == "Celeriac puree: Celeriac before butter."


def test_a_card_that_does_not_say_is_told():
    house = small_house()
    dishes = {id_: replace(dish, body=Body(sections=())) for id_, dish in house.dishes.items()}
    parts = {id_: replace(part, body=Body(sections=())) for id_, part in house.components.items()}
    rows = rows_of(view(replace(house, dishes=dishes, components=parts)))
    assert {said(row.taste) for row in rows} == {"not written on its card"}
    assert not any(row.parts for row in rows)


@pytest.mark.parametrize(("doors", "taste"), [(time(17, 30), "17:15"), (time(18), "17:45"), (time(12, 10), "11:55")])
def test_it_is_a_quarter_of_an_hour_before_the_doors(doors, taste):  # common practice, no source
    house = small_house()
    service = replace(house.file.service, doors=doors)
    found = view(replace(house, file=replace(house.file, service=service)))
    assert said(found.when) == f"Taste at {taste}, a quarter of an hour before the doors open at {doors:%H:%M}."


def test_it_is_for_one_service_alone():
    assert said(view().aside) == "for Sat 13 March only, bin after service"
    assert view().id == "tasting-sheet:early-spring:2027-03-13"


def test_doors_that_nobody_has_named():
    house = small_house()
    found = view(replace(house, file=replace(house.file, service=None)))
    assert said(found.when) == "Taste a quarter of an hour before the doors open."


def test_each_text_is_on_the_sheet():
    base = fingerprint_of(sheet(view()))
    seen = 0
    for path, changed in mutations(view()):
        if path.endswith(".line"):
            continue
        assert fingerprint_of(sheet(changed)) != base, path
        seen += 1
    assert seen > 10


def test_in_spanish():
    assert said(view(wording=wording_in(("es",))).when).startswith("Probar a las 17:15")
