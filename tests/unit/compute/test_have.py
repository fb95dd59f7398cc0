"""A batch from what there is: which ingredient decides, and what is left of the others; worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from kitchen_factory import amount, bought, component, dish, element, house, line, listed, menu, percent, size

from linebook.compute.asked import size_by_pieces, size_by_portions, size_by_yield
from linebook.compute.have import size_from_had
from linebook.model.component import Scale
from linebook.source.faults import ValueMistake

PANTRY = [
    bought("trout"),
    bought("salt"),
    bought("water", density="1"),
    bought("egg", weighs={"each": "50"}),
    bought("oil", density="0.92"),
    bought("dill"),
]


def _kitchen(*parts, elements=()):
    return house(PANTRY, parts, [dish("plate", list(elements))], [menu("spring", [listed("plate")])])


CURED = component(
    "cured",
    "4.2 kg",
    [line("trout", "6 kg"), line("salt", percent("3.5", "trout")), line("water", "2 L"), line("dill")],
    pieces="30",
    loss="0.05",
)


def _had(**amounts: str):
    return {item: amount(text) for item, text in amounts.items()}


def test_one_ingredient_decides_by_itself():
    kitchen = _kitchen(CURED, elements=[element("cured", "100 g")])
    sized = size_from_had(kitchen, "cured", _had(trout="9.3 kg"), "spring")
    # 9.3 / 6 = 1.55; 4.2 kg x 1.55 = 6.51 kg; less 5 %: 6.1845 kg, 61 portions of 100 g
    assert sized.batch.factor == Fraction("1.55")
    assert sized.batch.total == amount("6.51 kg")
    assert sized.limiting == ("trout",)
    assert [(left.used, left.left) for left in sized.left] == [(amount("9.3 kg"), replace_number("1 kg", Fraction(0)))]
    assert [(given.count, given.dish, given.amount) for given in sized.portions] == [(61, "plate", amount("100 g"))]


def test_the_scarcest_decides_and_the_rest_is_left():
    sized = size_from_had(_kitchen(CURED), "cured", _had(trout="9.3 kg", salt="300 g", water="5 L"), "spring")
    # salt is 210 g a batch: 300 / 210 = 10/7; trout would do 1.55, water 2.5
    assert sized.batch.factor == Fraction(10, 7)
    assert sized.limiting == ("salt",)
    left = {one.item: one.left for one in sized.left}
    assert left == {
        "trout": replace_number("9.3 kg", Fraction("9.3") - Fraction(60, 7)),
        "salt": replace_number("1 g", Fraction(0)),
        "water": replace_number("5 L", 5 - Fraction(20, 7)),
    }


def replace_number(text: str, number: Fraction):
    return replace(amount(text), number=number)


def test_two_that_are_spent_together_both_decide():
    sized = size_from_had(_kitchen(CURED), "cured", _had(trout="3 kg", water="1 L", salt="1 kg"), "spring")
    assert (sized.batch.factor, sized.limiting) == (Fraction(1, 2), ("trout", "water"))


def test_an_item_on_two_lines_is_used_by_both():
    part = component("broth", "5 L", [line("water", "4 L"), line("water", "2000 ml", medium=True)])
    sized = size_from_had(_kitchen(part), "broth", _had(water="9 L"), "spring")
    assert sized.batch.factor == Fraction(3, 2)


def test_had_in_another_unit():
    part = component("mayo", "1 kg", [line("oil", "920 g"), line("egg", "100 g")])
    assert size_from_had(_kitchen(part), "mayo", _had(oil="2 L"), "spring").batch.factor == 2
    assert size_from_had(_kitchen(part), "mayo", _had(egg="5 each"), "spring").batch.factor == Fraction(5, 2)


def test_a_component_had_in_pieces():
    whole = component("tart", "2 kg", [line("cured", "15 pieces")])
    sized = size_from_had(_kitchen(CURED, whole), "tart", _had(cured="2.1 kg"), "spring")  # 15 pieces are 2.1 kg
    assert (sized.batch.factor, sized.limiting) == (1, ("cured",))


@pytest.mark.parametrize(
    ("had", "factor", "count"),
    [("7 each", Fraction(7, 3), "7 each"), ("7.9 each", Fraction(7, 3), "7 each"), ("3 each", 1, "3 each")],
)
def test_whole_counts_limit_to_whole_counts(had, factor, count):
    part = component("curd", "1 kg", [line("egg", "3 each", scale=Scale.WHOLE), line("oil", "1 L")])
    sized = size_from_had(_kitchen(part), "curd", _had(egg=had), "spring")
    assert sized.batch.factor == factor
    assert sized.batch.ingredients[0].total == amount(count)
    assert sized.limiting == ("egg",)


def test_whole_counts_in_each_of_two_loads():
    # 7 eggs are two and a third batches, in two loads of 3.5 eggs: 4 each, which is 8. So less is made.
    part = component("curd", "1 kg", [line("egg", "3 each", scale=Scale.WHOLE)], largest_batch="1.5 kg")
    sized = size_from_had(_kitchen(part), "curd", _had(egg="7 each"), "spring")
    assert sized.batch.ingredients[0].total.number <= 7
    assert sized.limiting == ("egg",)
    # three eggs a load, and as much as rounds down to them: 2 x 3.5 / 3, to a hundredth of a per cent
    assert Fraction("2.333") < sized.batch.factor <= Fraction(7, 3)


def test_what_goes_in_by_the_load_limits_the_loads():
    part = component(
        "chips", "5 kg", [line("dill", "5 kg"), line("oil", "4 L", scale=Scale.PER_LOAD)], largest_batch="5 kg"
    )
    sized = size_from_had(_kitchen(part), "chips", _had(dill="20 kg", oil="9 L"), "spring")
    assert sized.batch.loads == 2
    assert sized.limiting == ("oil",)
    assert Fraction("1.999") < sized.batch.factor <= 2


@pytest.mark.parametrize(("had", "steps"), [("6 kg", 2), ("8.9 kg", 2), ("9 kg", 3), ("100 kg", 33)])
def test_steps_are_whole_and_rounded_down(had, steps):
    part = replace(CURED, batch_step=amount("2.1 kg"), loss=Fraction(0))
    sized = size_from_had(_kitchen(part), "cured", _had(trout=had, salt="5 kg"), "spring")
    assert sized.batch.total == replace_number("1 kg", Fraction("2.1") * steps)
    assert sized.limiting == ("trout",)
    assert sized.left[0].left.number == amount(had).number - 3 * steps


def test_steps_of_whole_counts_are_those_of_whole_counts_had():
    # 12 eggs at 7 a card of four trays are 6.86 trays; the half of them that do not make a tray are left
    part = replace(component("loaf", "8 kg", [line("egg", "7 each", scale=Scale.WHOLE)]), batch_step=amount("2 kg"))
    sized = size_from_had(_kitchen(part), "loaf", _had(egg="12 each"), "spring")
    assert (sized.batch.total, sized.limiting) == (amount("12 kg"), ("egg",))
    # 10.5 eggs are 11 by the card's own rule
    assert (sized.left[0].used, sized.left[0].left) == (amount("11 each"), amount("1 each"))


def _refused(kitchen, item: str, had) -> ValueMistake:
    with pytest.raises(ValueMistake) as caught:
        size_from_had(kitchen, item, had, "spring")
    return caught.value


def test_what_is_not_on_the_card_or_has_no_amount_is_refused():
    kitchen = _kitchen(CURED)
    assert _refused(kitchen, "cured", _had(egg="3 each")).code == "LB201"
    assert _refused(kitchen, "cured", _had(dill="1 kg")).code == "LB305"
    unmeasured = _refused(kitchen, "cured", _had(trout="9 L"))
    assert unmeasured.code == "LB304"
    assert "`9 L` of trout" in unmeasured.message


def test_too_little_for_the_least_is_refused():
    tray = replace(CURED, batch_step=amount("2.1 kg"))
    found = _refused(_kitchen(tray), "cured", _had(trout="2.9 kg"))
    assert found.message == "`2.9 kg` of trout is not enough for one step of `2.1 kg` of cured"
    eggs = component("curd", "1 kg", [line("egg", "3 each", scale=Scale.WHOLE)])
    assert "not enough" in _refused(_kitchen(eggs), "curd", _had(egg="0.5 each")).message


def test_what_is_the_same_in_every_load_sets_no_size():
    part = component("chips", "5 kg", [line("dill", "5 kg"), line("oil", "4 L", scale=Scale.PER_LOAD)])
    assert "sets no size" in _refused(_kitchen(part), "chips", _had(oil="9 L")).message


def test_portions_are_those_of_the_menu_or_as_asked():
    kitchen = _kitchen(CURED, elements=[element("cured", "2 pieces")])
    sized = size_by_portions(kitchen, "cured", "spring", Fraction(19))
    assert (sized.batch.pieces, sized.portions[0].count) == (40, 19)  # 38 pieces / 0.95
    asked = size_by_portions(kitchen, "cured", "spring", Fraction(19), amount("140 g"))
    assert asked.batch.total == amount("2.8 kg")  # 2.66 kg / 0.95


def test_portions_that_differ_or_are_not_served_are_asked_for():
    kitchen = _kitchen(CURED, elements=[element("cured", "2 pieces")])
    kitchen.dishes["plate"] = replace(kitchen.dishes["plate"], sizes=(size("full"), size("taste", "1/2")))
    kitchen.menus["spring"] = menu("spring", [listed("plate", full="0.5", taste="0.5")])
    with pytest.raises(ValueMistake, match="not the same in every dish: `2 pieces` in plate"):
        size_by_portions(kitchen, "cured", "spring", Fraction(10))
    with pytest.raises(ValueMistake, match="no dish on the menu `spring`"):
        size_by_portions(_kitchen(CURED), "cured", "spring", Fraction(10))


def test_pieces():
    assert size_by_pieces(_kitchen(CURED), "cured", "spring", Fraction(48)).batch.total == amount("6.72 kg")
    dozen = component("pot", "2 dozen", piece_weighs="90 g")
    assert size_by_pieces(_kitchen(dozen), "pot", "spring", Fraction(30)).batch.factor == Fraction(5, 4)
    with pytest.raises(ValueMistake, match="does not say how many pieces"):
        size_by_pieces(_kitchen(component("soup", "5 L")), "soup", "spring", Fraction(3))


def test_an_amount_says_what_it_gives():
    kitchen = _kitchen(CURED, elements=[element("cured", "100 g")])
    sized = size_by_yield(kitchen, "cured", "spring", makes=amount("6 kg"))
    assert [given.count for given in sized.portions] == [57]  # 5.7 kg
