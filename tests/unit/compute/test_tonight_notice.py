"""What a sheet says at its top on a night without some item."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from kitchen_factory import AT, alternative, bought, by_product, component, dish, element, house, line, listed, menu

from linebook.compute.substitutes import without
from linebook.documents.tonight_notice import how_text, notice_writer
from linebook.documents.wording import english, wording_in
from linebook.model.house import House, Line
from linebook.model.supply import Substitute
from linebook.model.tonight import StandIn


def kitchen(
    eel=("trout",), instead=("trout", "mustard"), *, note: str | None = None, may: tuple[str, ...] = ()
) -> House:
    missing = replace(
        bought("eel", eel), substitutes=(Substitute(item="other", ratio=Fraction(4, 5), note=note, **AT),)
    )
    mousse = component("mousse", "1 kg", [line("eel", "1 kg")])
    plates = [dish("toast", [element("mousse")]), dish("salad", [element("beet", instead=[alternative("roe")])])]
    pantry = [missing, bought("other", instead, may), bought("beet"), bought("roe")]
    made = house(pantry, [mousse], plates, [menu("m", [listed("toast"), listed("salad")])])
    return replace(made, file=replace(made.file, lines=(Line(id="stove", name="Stove", **AT),)))


def said(house_: House, missing: list[str], sheet: str, line_: str = "stove") -> list[str]:
    writer = notice_writer(without(house_, missing), "m", english())
    assert writer is not None
    notice = writer.for_sheet(sheet, line_)
    return [one.text.plain for one in (*notice.instead, *notice.brings, *notice.fewer)] if notice else []


def test_a_card_says_what_stands_in_and_what_that_brings():
    assert said(kitchen(), ["eel"], "batch-card:mousse") == [
        "Tonight without eel: other instead, 0.8 of the weight.",
        "Now contains mustard.",
    ]
    assert said(kitchen(), ["eel"], "station-card:toast")[-1] == "Now contains mustard."
    assert said(kitchen(), ["eel"], "station-card:salad") == []
    assert said(kitchen(), ["eel"], "batch-card:mousse:2027-03-05") == said(kitchen(), ["eel"], "batch-card:mousse")


def test_a_plan_of_a_line_tells_what_touches_that_line_alone():
    for sheet in ("prep-day:stove:2027-03-05", "prep-week:stove:2027-03-05"):
        assert said(kitchen(), ["eel"], sheet)[-1] == "Now contains mustard: toast."
        assert said(kitchen(), ["eel"], sheet.replace("stove", "cold"), "cold") == []
    assert said(kitchen(), ["eel"], "pull-list:stove:2027-03-05") == ["Without eel: other instead, 0.8 of the weight."]


def test_a_plan_over_two_menus_tells_what_the_dishes_of_both_bring():
    made = kitchen()
    later = menu("later", [listed("toast")])
    made = replace(made, menus={"m": replace(made.menus["m"], dishes=made.menus["m"].dishes[1:]), "later": later})
    served = without(made, ["eel"])
    alone, both = notice_writer(served, "m", english()), notice_writer(served, "m", english(), "m", "later")
    for sheet in ("prep-day:stove:2027-03-05", "order-sheet:2027-03-05"):
        told = both.for_sheet(sheet, "stove")
        assert [one.text.plain for one in told.brings] == ["Now contains mustard: toast."]
        first = alone.for_sheet(sheet, "stove")
        assert not first or not first.brings


def test_what_it_brings_is_bold():
    writer = notice_writer(without(kitchen(), ["eel"]), "m", english())
    notice = writer.for_sheet("batch-card:mousse", "stove")
    assert all(piece.bold or piece.words == "." for member in notice.brings for piece in member.text.first)
    assert notice.brings


def test_another_substance_of_the_same_column_is_named():
    """Fish before and fish after: whoever may eat trout is told that it is cod now."""
    assert said(kitchen(instead=("cod",)), ["eel"], "batch-card:mousse") == [
        "Tonight without eel: other instead, 0.8 of the weight.",
        "Now contains fish (cod).",
        "No longer lists fish (trout). That clears nobody: answer a guest from tonight's matrix.",
    ]


def test_what_may_be_in_it_and_what_nobody_has_declared():
    assert "Now may contain mustard." in said(
        kitchen(instead=("trout",), may=("mustard",)), ["eel"], "batch-card:mousse"
    )
    undeclared = kitchen()
    undeclared = replace(
        undeclared, pantry={**undeclared.pantry, "other": replace(undeclared.pantry["other"], allergens=None)}
    )
    assert "Now not declared: other." in said(undeclared, ["eel"], "batch-card:mousse")


def test_a_note_of_the_substitute_is_said():
    (first, *_) = said(kitchen(note="season last"), ["eel"], "batch-card:mousse")
    assert first == "Tonight without eel: other instead, 0.8 of the weight (season last)."


def test_the_matrix_names_each_dish_and_what_is_off():
    assert said(kitchen(), ["eel"], "allergen-matrix:m", "") == [
        "Tonight without eel: other instead, 0.8 of the weight.",
        "Now contains mustard: toast.",
    ]
    assert said(kitchen(), ["eel", "other"], "allergen-matrix:m", "") == [
        "Tonight without eel.",
        "Not served tonight: toast.",
    ]


def test_every_cover_lists_what_is_off():
    assert said(kitchen(), ["eel", "other"], "line-cover:stove")[-1] == "Not served tonight: toast."


def test_a_choice_that_is_gone_is_said():
    assert said(kitchen(), ["roe"], "station-card:salad") == ["No roe to serve instead of anything tonight."]


def test_trim_that_is_gone_is_said():
    made = kitchen()
    mousse = replace(made.components["mousse"], also_makes=(by_product("skin", "eel"),))
    made = replace(made, components={"mousse": mousse}, by_products={"skin": ((mousse, mousse.also_makes[0]),)})
    assert "No skin is left over here tonight." in said(made, ["eel"], "batch-card:mousse")


@pytest.mark.parametrize(
    ("ratio", "by", "expected"),
    [
        ("1", ("weight",), "the same weight"),
        ("4/5", ("weight",), "0.8 of the weight"),
        ("5/4", ("weight",), "1.25 times the weight"),
        ("1/3", ("measure",), "0.333 of the measure"),
        ("2", ("count",), "2 for each one"),
        ("1", ("weight", "count"), "the same weight, one for one"),
    ],
)
def test_how_much_of_it(ratio, by, expected):
    stand_in = StandIn(missing="a", item="b", ratio=Fraction(ratio), by=by)
    assert how_text(stand_in, english()).plain == expected


def test_it_is_said_in_both_languages():
    writer = notice_writer(without(kitchen(), ["eel"]), "m", wording_in(("en", "es")))
    notice = writer.for_sheet("batch-card:mousse", "stove")
    assert notice.instead[0].text.both == (
        "Tonight without eel: other instead, 0.8 of the weight. / Esta noche sin eel: en su lugar other, 0.8 del peso."
    )
    assert writer.foot.both == "without eel / sin eel"


def test_many_missing_things_are_counted_in_the_foot():
    assert notice_writer(without(kitchen(), ["eel", "beet", "roe"]), "m", english()).foot.plain == "without 3 things"


def test_where_nothing_is_missing_there_is_no_writer():
    assert notice_writer(kitchen(), "m", english()) is None


def test_a_line_called_as_a_component_has_the_notice_of_the_line():
    made = kitchen()
    made = replace(made, file=replace(made.file, lines=(Line(id="mousse", name="Mousse", **AT),)))
    made = replace(made, dishes={id_: replace(one, line="mousse") for id_, one in made.dishes.items()})
    assert said(made, ["eel", "other"], "line-cover:mousse", "mousse")[-1] == "Not served tonight: toast."
