"""How what stands in is prepared, cards that still name what is missing, and by-products that are missing themselves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from kitchen_factory import AT, bought, by_product, component, dish, element, house, line, listed, menu

from linebook.compute.demand import compute_night
from linebook.compute.results import Standing
from linebook.compute.substitutes import without
from linebook.documents.stand_in_text import knife_prep, prep_said
from linebook.documents.tonight_notice import notice_writer
from linebook.documents.wording import english, wording_in
from linebook.model.body import Block, Body, Form, Section, Words
from linebook.model.house import House, Line
from linebook.model.occasion import Occasion
from linebook.model.supply import Substitute
from linebook.model.translations import CardWords, HouseWords, Said, Translation, Translations


def method(*steps: str) -> Body:
    blocks = tuple(Block(form=Form.STEP, pieces=(Words(text=step, **SPAN),), **SPAN) for step in steps)
    return Body(sections=(Section(title="Mix", key="mix", blocks=blocks, **SPAN),))


SPAN = {"span": AT["span"]}


def kitchen(prep: str | None = None, *, chained: bool = False, body: Body | None = None) -> House:
    """Capers, rinsed, in a relish; olives stand in for them, or gherkins for olives."""
    capers = replace(bought("capers"), substitutes=(Substitute(item="olives", prep=None if chained else prep, **AT),))
    olives = bought("olives")
    if chained:
        olives = replace(olives, substitutes=(Substitute(item="gherkins", prep=prep, **AT),))
    relish = component("relish", "1 kg", [replace(line("capers", "1 kg"), prep="rinsed"), line("salt", "10 g")])
    relish = replace(relish, body=body or method("Mix it."))
    pantry = [capers, olives, bought("gherkins"), bought("salt")]
    made = house(pantry, [relish], [dish("toast", [element("relish")])], [menu("m", [listed("toast")])])
    return replace(made, file=replace(made.file, lines=(Line(id="stove", name="Stove", **AT),)))


def said_prep(kitchen_: House) -> str:
    card = kitchen_.components["relish"]
    return prep_said(kitchen_, card, card.ingredients[0], english()).plain


@pytest.mark.parametrize(
    ("made", "missing", "shown"),
    [
        (kitchen(), ["capers"], "prep as for the capers it replaces: rinsed"),
        (kitchen("stoned"), ["capers"], "stoned"),
        (kitchen(chained=True), ["capers", "olives"], "prep as for the capers it replaces: rinsed"),
        (kitchen("sliced", chained=True), ["capers", "olives"], "sliced"),
        (kitchen("stoned"), ["salt-of-nobody"], "rinsed"),
    ],
    ids=["not its own", "its own", "chained, not its own", "chained, its own", "nothing replaced"],
)
def test_a_prep_is_the_stand_ins_own_or_says_whose_it_is(made: House, missing: list[str], shown: str) -> None:
    assert said_prep(without(made, missing)) == shown


def test_what_had_no_prep_gets_none_but_its_own() -> None:
    made = kitchen()
    bare = replace(made.components["relish"], ingredients=(line("capers", "1 kg"),))
    made = replace(made, components={"relish": bare})
    assert without(made, ["capers"]).components["relish"].ingredients[0].prep is None
    assert said_prep(without(replace(kitchen("stoned"), components={"relish": bare}), ["capers"])) == "stoned"


def test_the_list_of_knife_work_says_whose_prep_it_is() -> None:
    tonight = without(kitchen(), ["capers"])
    assert knife_prep(tonight, "rinsed", "capers", english()).plain == "prep as for the capers it replaces: rinsed"
    assert knife_prep(tonight, "rinsed", None, english()).plain == "rinsed"


def in_spanish(made: House, body: Body) -> House:
    def said(text: str) -> Said:
        return Said(text=text, span=AT["span"], key=AT["span"])

    card = CardWords(id="relish", language="es", is_dish=False, preps={"capers": said("lavadas")}, body=body, **AT)
    words = HouseWords(
        language="es",
        pantry={"capers": said("alcaparras"), "olives": said("aceitunas")},
        phrases={"stoned": said("sin hueso")},
        **AT,
    )
    second = Translations(
        written="en", by_language={"es": Translation(language="es", words=words, cards={"relish": card})}
    )
    return replace(made, second=second, file=replace(made.file, languages=("en", "es")))


def test_both_languages_say_it() -> None:
    both = wording_in(("en", "es"))
    for prep, spanish in ((None, "preparado como alcaparras, a lo que sustituye: lavadas"), ("stoned", "sin hueso")):
        tonight = without(in_spanish(kitchen(prep), method("Mezclar.")), ["capers"])
        card = tonight.components["relish"]
        text = prep_said(tonight, card, card.ingredients[0], both)
        assert "".join(piece.words for piece in text.in_second) == spanish


def notice(made: House, missing: list[str], sheet: str = "batch-card:relish") -> list[str]:
    writer = notice_writer(without(made, missing), "m", english())
    assert writer is not None
    found = writer.for_sheet(sheet, "stove")
    return [one.text.plain for one in (*found.instead, *found.brings, *found.fewer)] if found else []


NAMES = "The method is written for capers and still names it: read olives."


def test_a_method_that_still_names_what_is_missing_is_told_of() -> None:
    assert NAMES in notice(kitchen(body=method("Salt first.", "Chop the capers fine.")), ["capers"])
    assert NAMES not in notice(kitchen(body=method("Chop it fine.")), ["capers"])
    assert NAMES in notice(in_spanish(kitchen(), method("Picar la alcaparra.")), ["capers"])
    assert NAMES not in notice(in_spanish(kitchen(), method("Picar.")), ["capers"])


def test_a_name_that_still_says_what_is_missing_is_told_of() -> None:
    made = kitchen()
    toast = replace(made.dishes["toast"], menu_text="Toast, caper relish")
    made = replace(made, dishes={"toast": toast})
    told = "The name or the menu still says capers: tell who asks."
    assert told in notice(made, ["capers"], "station-card:toast")
    assert told not in notice(kitchen(), ["capers"], "station-card:toast")


def trimmed() -> House:
    """Ham leaves trim; the soup takes it, and so does the hash, where bacon stands in for it."""
    ham = component("ham", "1 kg", [line("pork", "2 kg")], also_makes=(by_product("trim", "pork"),))
    soup = component("soup", "1 kg", [line("trim", "300 g"), line("water", "700 g")])
    plates = [dish("plate", [element("ham", "100 g")]), dish("bowl", [element("soup", "100 g")])]
    pantry = [bought("pork"), bought("water"), bought("bacon")]
    return house(pantry, [ham, soup], plates, [menu("m", [listed("plate"), listed("bowl")])])


def test_a_missing_by_product_is_not_made_and_its_users_fall() -> None:
    usual = compute_night(trimmed(), Occasion(menu="m", covers=10))
    assert usual.balances["trim"].standing is Standing.SPARE
    tonight = without(trimmed(), ["trim"])
    night = compute_night(tonight, Occasion(menu="m", covers=10))
    assert not night.balances
    assert not tonight.by_products
    assert set(night.batches) == {"ham"}
    assert [fallen.id for fallen in tonight.tonight.dishes] == ["bowl"]
    assert "ham" not in tonight.tonight.touched  # it is made as ever
    writer = notice_writer(tonight, "m", english())
    assert [one.text.plain for one in writer.for_sheet("batch-card:ham", "stove").instead] == [
        "trim is not to be used tonight: do not keep what is left over here."
    ]
    assert writer.for_sheet("station-card:plate", "stove") is None


def test_a_missing_component_takes_what_it_leaves_over_with_it() -> None:
    ham = replace(trimmed().components["ham"], substitutes=(Substitute(item="bacon", ratio=Fraction(1), **AT),))
    tonight = without(replace(trimmed(), components={**trimmed().components, "ham": ham}), ["ham"])
    night = compute_night(tonight, Occasion(menu="m", covers=10))
    assert not night.balances
    assert not night.batches
    assert {demand.dish for demand in night.demands} == {"plate"}
