"""What stock brings: nothing from its own card, its label from another, and what nobody knows where neither is known.

The oracle for fail-closed is the union: whatever stock is there, a dish lists all that it lists without it.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from random import Random

import pytest
from kitchen_factory import AT, amount, bought, by_product, component, dish, element, house, line, listed, menu, stage

from linebook.compute.allergens import compute_allergens
from linebook.compute.results import Answer
from linebook.compute.stock_contents import brought_by, stock_in_life, with_stock
from linebook.compute.substitutes import without
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry, Substitute

DAY = date(2027, 3, 5)
CARDS = {"crumb": "7F3A92KD", "loins": "24WZE6T3"}
WORST_FIRST = (Answer.CONTAINS, Answer.UNDECLARED, Answer.MAY, Answer.FREE)


def entry(item: str = "crumb", **fields: object) -> StockEntry:
    return StockEntry(item=item, amount=amount("1 kg"), **{"made": DAY, **fields}, **AT)


def kitchen() -> House:
    crumb = component("crumb", "1 kg", [line("walnuts", "1 kg")])
    loins = replace(
        component("loins", "1 kg", [line("trout", "2 kg", stage="trim")], stages=[stage("trim")]),
        also_makes=(by_product("trim", "trout", "trim"),),
    )
    paste = component("paste", "1 kg", [line("trim", "1 kg")])
    plates = [dish("nutty", [element("crumb")]), dish("toast", [element("paste")]), dish("leaf", [element("beet")])]
    pantry = [bought("walnuts", ["walnut"]), bought("trout", ["trout"]), bought("beet")]
    return house(pantry, [crumb, loins, paste], plates, [menu("m", [listed(one.id) for one in plates])])


def table_with(before: House, *entries: StockEntry):
    brought = brought_by(before, "m", entries, CARDS)
    after = with_stock(before, brought, lambda item: f"{item} from before", DAY)
    return compute_allergens(after, "m"), brought


def test_stock_of_the_card_as_it_is_changes_nothing():
    before = kitchen()
    table, brought = table_with(before, entry(card="7f3a-92kd"))
    assert brought == ()
    assert table == compute_allergens(before, "m")


def test_a_copied_label_is_added():
    table, _ = table_with(kitchen(), entry(contains=("wheat",), may_contain=("sesame",)))
    found = table.dishes["nutty"]
    assert found["gluten-cereal"].answer is Answer.CONTAINS
    assert found["sesame"].answer is Answer.MAY
    assert found["tree-nut"].answer is Answer.CONTAINS
    assert table.undeclared["nutty"] == ()
    assert table.dishes["toast"]["gluten-cereal"].answer is Answer.FREE


@pytest.mark.parametrize("card", [None, "00000000", ""])
def test_stock_of_which_nothing_is_known_is_undeclared(card):
    table, brought = table_with(kitchen(), entry(card=card))
    assert brought[0].unknown
    assert table.dishes["nutty"]["tree-nut"].answer is Answer.CONTAINS
    assert table.dishes["nutty"]["fish"].answer is Answer.UNDECLARED
    assert table.undeclared["nutty"] == ("stock-crumb",)
    assert table.undeclared["leaf"] == ()


def test_stock_of_trim_goes_where_the_trim_goes():
    table, _ = table_with(kitchen(), entry("trim", contains=("mustard",)))
    assert table.dishes["toast"]["mustard"].answer is Answer.CONTAINS
    assert table.dishes["nutty"]["mustard"].answer is Answer.FREE
    known, brought = table_with(kitchen(), entry("trim", card="24WZE6T3"))
    assert brought == ()
    assert known.dishes["toast"]["fish"].answer is Answer.CONTAINS


def test_a_bought_item_counts_as_declared_and_its_own_label_is_added():
    before = kitchen()
    assert table_with(before, entry("walnuts", made=None))[1] == ()
    table, _ = table_with(before, entry("walnuts", made=None, contains=("almond",)))
    assert table.dishes["nutty"]["tree-nut"].substances == ("almond", "walnut")


def test_two_lots_bring_what_each_of_them_brings():
    table, _ = table_with(kitchen(), entry(contains=("wheat",)), entry(made=date(2027, 3, 4)))
    assert table.dishes["nutty"]["gluten-cereal"].answer is Answer.CONTAINS
    assert table.dishes["nutty"]["fish"].answer is Answer.UNDECLARED


def test_stock_of_the_usual_card_brings_the_usual_on_a_night_without_it():
    """Yesterday's crumb has walnuts in it, whatever tonight's is made of."""
    before = kitchen()
    seeds = replace(before.pantry["walnuts"], substitutes=(Substitute(item="beet", ratio=Fraction(1), **AT),))
    tonight = without(replace(before, pantry={**before.pantry, "walnuts": seeds}), ["walnuts"])
    assert compute_allergens(tonight, "m").dishes["nutty"]["tree-nut"].answer is Answer.FREE
    table, _ = table_with(tonight, entry(card="7F3A92KD"))
    assert table.dishes["nutty"]["tree-nut"].answer is Answer.CONTAINS


def test_what_is_not_in_life_brings_nothing():
    before = kitchen()
    occasion = Occasion(menu="m", covers=1, date=DAY, on_hand=(entry(made=date(2027, 3, 4)), entry(made=None), entry()))
    assert stock_in_life(before, occasion) == (occasion.on_hand[2],)


@pytest.mark.parametrize("seed", range(200))
def test_no_stock_frees_a_dish(seed):
    random = Random(seed)
    substances = ("wheat", "walnut", "trout", "sesame", "mustard", "cows-milk")

    def some() -> tuple[str, ...]:
        return tuple(random.sample(substances, random.randint(0, 2)))

    entries = [
        entry(
            random.choice(("crumb", "loins", "trim", "paste", "walnuts", "beet")),
            card=random.choice((None, "7F3A92KD", "24WZE6T3", "00000000")),
            contains=random.choice((None, some())),
            may_contain=some(),
            made=random.choice((DAY, date(2027, 3, random.randint(1, 4)))),
        )
        for _ in range(random.randint(1, 3))
    ]
    before = kitchen()
    old = compute_allergens(before, "m")
    new, brought = table_with(before, *entries)
    for id_, findings in old.dishes.items():
        assert set(old.undeclared[id_]) <= set(new.undeclared[id_])
        for column, finding in findings.items():
            now = new.dishes[id_][column]
            assert WORST_FIRST.index(now.answer) <= WORST_FIRST.index(finding.answer)
            assert set(finding.substances) <= {*now.substances, *now.also_may}
    for one in brought:  # what any lot brings is on every dish that it goes into
        if one.entry.item in ("crumb", "paste"):
            plate = {"crumb": "nutty", "paste": "toast"}[one.entry.item]
            answers = [new.dishes[plate][column.id] for column in new.columns]
            named = {name for finding in answers for name in (*finding.substances, *finding.also_may)}
            known = {"wheat": "wheat", "walnut": "walnut", "trout": "trout", "sesame": "sesame", "mustard": "mustard"}
            assert {known[word] for word in one.contains if word in known} <= named or one.unknown
