"""A house in which something has turned out wrong: only ever more dangerous, and nothing else is changed."""

from __future__ import annotations

from datetime import date

import pytest
from kitchen_factory import (
    bought,
    by_product,
    component,
    dish,
    element,
    house,
    line,
    listed,
    medium,
    menu,
    stage,
)

from linebook.compute.allergens import compute_allergens
from linebook.compute.answers import WORST_FIRST
from linebook.compute.results import Answer
from linebook.compute.voiding import Turned, find_things, spec_of, thing_words, voided
from linebook.model.house import House

TODAY = date(2027, 3, 6)
MILK = Turned(contains=("cows-milk",), says="label", since=TODAY, called="a spill")


def kitchen() -> House:
    """A pie fried beside potatoes, a soup of the trimmings of its dough, and a relish that nobody has declared."""
    return house(
        pantry=[bought("flour", ["wheat"]), bought("potato"), bought("oil"), bought("salt"), bought("relish", None)],
        components=[
            component("dough", ingredients=[line("flour"), line("salt")], also_makes=(by_product("trimmings"),)),
            component("pie", ingredients=[line("dough", stage="fry")], stages=(stage("fry", "fryer"),)),
            component("soup", ingredients=[line("trimmings"), line("potato")]),
        ],
        dishes=[
            dish("pie-plate", [element("pie"), element("salt")]),
            dish("chips", [element("potato", "10 g", "fryer"), element("salt")]),
            dish("soup-bowl", [element("soup")]),
            dish("relish-pot", [element("relish"), element("salt")]),
        ],
        media=[medium("fryer", "oil")],
        menus=[menu("now", [listed(one) for one in ("pie-plate", "chips", "soup-bowl", "relish-pot")])],
    )


def milk(of: House) -> dict[str, Answer]:
    table = compute_allergens(of, "now")
    return {id_: findings["milk"].answer for id_, findings in table.dishes.items()}


@pytest.mark.parametrize(
    ("thing", "pie", "chips", "soup"),
    [
        # bought: wherever it goes, and into the fryer with what it is in
        ("flour", Answer.CONTAINS, Answer.MAY, Answer.CONTAINS),
        ("potato", Answer.MAY, Answer.CONTAINS, Answer.CONTAINS),
        # a card: itself, its by-product, and the fryer, because nobody knows when it got in
        ("dough", Answer.CONTAINS, Answer.MAY, Answer.CONTAINS),
        ("pie", Answer.CONTAINS, Answer.MAY, Answer.FREE),
        ("soup", Answer.FREE, Answer.FREE, Answer.CONTAINS),
        # a by-product: it comes off the dough, so the dough is taken for it too
        ("trimmings", Answer.CONTAINS, Answer.MAY, Answer.CONTAINS),
        # a medium: all that goes through it
        ("fryer", Answer.CONTAINS, Answer.CONTAINS, Answer.FREE),
    ],
)
def test_what_turned_out_to_contain_milk_is_found_wherever_it_goes(
    thing: str, pie: Answer, chips: Answer, soup: Answer
) -> None:
    now = milk(voided(kitchen(), [thing], MILK))
    assert (now["pie-plate"], now["chips"], now["soup-bowl"]) == (pie, chips, soup)
    assert now["relish-pot"] is Answer.UNDECLARED


def test_nobody_knows_what_is_in_it() -> None:
    unknown = Turned(undeclared=True, since=TODAY, called="?")
    for thing in ("flour", "dough", "pie", "fryer"):
        table = compute_allergens(voided(kitchen(), [thing], unknown), "now")
        assert {finding.answer for finding in table.dishes["pie-plate"].values()} <= {
            Answer.UNDECLARED,
            Answer.CONTAINS,
        }


def test_what_may_be_in_it_stays_may() -> None:
    now = voided(kitchen(), ["flour"], Turned(may_contain=("cows-milk",), since=TODAY, says="supplier"))
    assert milk(now)["pie-plate"] is Answer.MAY
    declared = now.pantry["flour"].allergens
    assert declared is not None
    assert (declared.contains, declared.may_contain, declared.says, declared.since) == (
        ("wheat",),
        ("cows-milk",),
        "supplier",
        TODAY,
    )


@pytest.mark.parametrize(
    "turned",
    [MILK, Turned(may_contain=("walnut",), since=TODAY), Turned(undeclared=True, since=TODAY)],
    ids=["contains", "may", "undeclared"],
)
def test_nothing_ever_becomes_safer_and_the_specs_stay_as_they_are(turned: Turned) -> None:
    before, own = compute_allergens(kitchen(), "now"), kitchen()
    for thing in ("flour", "potato", "relish", "dough", "pie", "soup", "trimmings", "fryer"):
        after = compute_allergens(voided(own, [thing], turned), "now")
        for id_, findings in after.dishes.items():
            for column, finding in findings.items():
                old = before.dishes[id_][column].answer
                # what is known to be in it is more than what nobody knows, and both are told as unsafe
                safer = WORST_FIRST.index(finding.answer) > WORST_FIRST.index(old)
                assert not safer or {old, finding.answer} == {Answer.CONTAINS, Answer.UNDECLARED}
    assert own == kitchen()


def test_an_undeclared_item_stays_so_because_that_is_worse() -> None:
    now = voided(kitchen(), ["relish"], MILK)
    assert now.pantry["relish"].allergens is None


def test_things_are_found_by_id_or_name_and_nothing_else_is() -> None:
    own = kitchen()
    assert find_things(own, "Flour") == ("flour",)
    assert find_things(own, " fryer ") == ("fryer",)
    assert find_things(own, "trimmings") == ("trimmings",)
    assert find_things(own, "flou") == ()
    assert {"flour", "pie", "trimmings", "fryer"} <= set(thing_words(own)[0])
    for thing in ("flour", "relish", "pie", "trimmings", "fryer"):
        assert spec_of(own, thing).place.startswith("test:")
