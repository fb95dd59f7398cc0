"""What of an active substance goes into what a card cures. Hand-worked on small houses."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kitchen_factory import amount, bought, component, dish, element, house, line, percent, stage

from linebook.compute.batches import compute_batch
from linebook.compute.ceilings import find_over_ceilings, ingoing
from linebook.model.component import Scale

NITRITE = "sodium-nitrite"
CEILING = Fraction(150, 1_000_000)


def ppm(number: str) -> Fraction:
    return Fraction(number) / 1_000_000


def salt(strength: str = "0.006"):
    return replace(bought("cure"), strength={NITRITE: Fraction(strength)}, weigh_exactly=True)


def kitchen(*components, pantry=(), ceiling=CEILING, served="it", strength="0.006"):
    plain = [bought("pork"), bought("beans"), bought("sugar"), bought("water", density="1")]
    made = house([salt(strength), *plain, *pantry], list(components), [dish("plate", [element(served)])])
    return replace(made, file=replace(made.file, ceilings={} if ceiling is None else {NITRITE: ceiling}))


def only(made, id_="it", **size):
    (found,) = ingoing(made, compute_batch(made, id_, **size))
    return found


def test_a_percentage_counts_on_what_it_is_of():
    made = kitchen(
        component("it", "10 kg", [line("pork", "10 kg"), line("beans", "5 kg"), line("cure", percent("2.5", "pork"))])
    )
    found = only(made)
    assert (found.part, found.of, found.ceiling, found.is_over) == (ppm("150"), ("pork",), CEILING, False)
    assert only(made, times=Fraction(17, 3)).part == ppm("150")


def test_a_percentage_of_a_percentage_counts_on_the_food():  # 5 % of the 2 % salt: 0.1 % of the pork
    lines = [line("pork", "8 kg"), line("coarse", percent("2", "pork")), line("cure", percent("5", "coarse"))]
    found = only(kitchen(component("it", "8 kg", lines), pantry=[bought("coarse")]))
    assert (found.part, found.of) == (ppm("6"), ("pork",))


def test_a_weight_counts_on_the_foods_in_by_then_and_on_no_salt():
    lines = [
        line("pork", "5 kg", stage="cure"),
        line("coarse", "500 g", stage="cure"),
        line("cure", "100 g", stage="cure"),
        line("beans", "5 kg", stage="cook"),
    ]
    coarse = bought("coarse", origin=["mineral"])
    made = kitchen(component("it", "9 kg", lines, stages=(stage("cure"), stage("cook"))), pantry=[coarse])
    found = only(made)  # 0.6 g in 5 kg, whatever the beans weigh later
    assert (found.part, found.of) == (ppm("120"), ("pork",))


def test_a_cure_that_is_mixed_first_counts_on_the_food_that_comes_after():
    lines = [line("sugar", "200 g", stage="mix"), line("cure", "100 g", stage="mix"), line("pork", "5 kg", stage="rub")]
    found = only(kitchen(component("it", "5 kg", lines, stages=(stage("mix"), stage("rub")))))
    assert found.part == Fraction("0.6") / 5200
    assert found.of == ("sugar", "pork")


def test_a_brine_is_spread_over_itself_and_the_food():
    # the second method of USDA's handbook: 6 g of nitrite in 8 kg of water and cure, with 10 kg of meat
    lines = [line("pork", "10 kg"), line("water", "7 L", medium=True), line("cure", "1 kg", medium=True)]
    found = only(kitchen(component("it", "10 kg", lines)))
    assert found.part == Fraction(6, 18000)
    assert (found.of, found.estimated, found.is_over) == (("pork",), True, True)


def test_a_brine_of_its_own_card_counts_where_it_is_used():
    brine = component("brine", "10 kg", [line("water", "9 L"), line("cure", "1 kg")], density="1")
    it = component("it", "6 kg", [line("pork", "30 kg"), line("brine", "10 kg", medium=True)])
    made = kitchen(brine, it)
    held = only(made, "brine")
    assert (held.cure, held.part, held.is_over) == (True, ppm("600"), False)
    found = only(made)
    assert (found.part, found.estimated) == (ppm("150"), True)


def test_a_cure_mix_used_at_a_percentage():  # 60 g in 1 kg is 360 ppm of the mix; 3 % of that is 10.8 ppm of the trout
    coarse = bought("coarse", origin=["mineral"])
    mix = component("mix", "1 kg", [line("coarse", "940 g"), line("cure", "60 g")])
    made = kitchen(
        mix, component("it", "8 kg", [line("pork", "8 kg"), line("mix", percent("3", "pork"))]), pantry=[coarse]
    )
    assert only(made, "mix").cure
    assert (only(made).part, only(made).of) == (ppm("10.8"), ("pork",))


def test_a_cure_that_loses_water_is_stronger_than_what_went_in():
    mix = component("mix", "500 g", [line("water", "1 kg"), line("cure", "60 g")])
    made = kitchen(mix, component("it", "8 kg", [line("pork", "8 kg"), line("mix", percent("10", "pork"))]))
    assert only(made).part == Fraction("0.36") / 500 / 10


def test_a_cured_food_on_another_card_is_food_and_adds_up_with_a_cure_there():
    ham = component("ham", "8 kg", [line("pork", "10 kg"), line("cure", percent("2", "pork"))])  # 120 ppm, 2 kg lost
    alone = kitchen(ham, component("it", "1 kg", [line("ham", "1 kg"), line("sugar", "20 g")]))
    assert only(alone).part == Fraction("0.12") / 1020
    assert not only(alone).is_over
    twice = kitchen(
        ham, component("it", "2 kg", [line("ham", "1 kg"), line("pork", "1 kg"), line("cure", percent("2.5", "pork"))])
    )
    assert only(twice).part == ppm("60") + ppm("150")
    assert only(twice).is_over


def test_a_cured_food_to_taste_brings_no_more_than_it_has_itself():
    ham = component("ham", "10 kg", [line("pork", "10 kg"), line("cure", percent("2", "pork"))])
    found = only(kitchen(ham, component("it", "1 kg", [line("beans", "1 kg"), line("ham", "to taste")])))
    assert (found.carried, found.is_over) == (True, False)


def test_a_cured_food_over_the_ceiling_is_told_on_its_own_card():
    ham = component("ham", "8 kg", [line("pork", "10 kg"), line("cure", percent("3", "pork"))])
    made = kitchen(ham, component("it", "1 kg", [line("ham", "1 kg"), line("sugar", "20 g")]))
    assert only(made, "ham").is_over


def test_two_cures_of_one_substance_add_up():
    other = replace(bought("pink"), strength={NITRITE: Fraction(1, 16)}, weigh_exactly=True)
    lines = [line("pork", "10 kg"), line("cure", percent("1", "pork")), line("pink", "16 g")]
    found = only(kitchen(component("it", "10 kg", lines), pantry=[other]))
    assert found.part == ppm("60") + ppm("100")


def test_what_cannot_be_weighed_is_never_under_the_ceiling():
    made = kitchen(component("it", "10 kg", [line("pork", "4 each"), line("cure", "1 g")]))
    found = only(made)
    assert (found.part, found.unweighed, found.is_over) == (None, ("pork",), True)
    (fault,) = find_over_ceilings(made, compute_batch(made, "it"))
    assert "`pork` is not known" in fault.message


@pytest.mark.parametrize("how_much", ["2 tsp", "to taste"])
def test_a_cure_of_no_known_weight_is_never_under_the_ceiling(how_much):
    made = kitchen(component("it", "10 kg", [line("pork", "10 kg"), line("cure", how_much)]))
    found = only(made)
    assert (found.part, found.unweighed, found.is_over) == (None, ("cure",), True)
    assert "the weight of `cure` is not known" in next(find_over_ceilings(made, compute_batch(made, "it"))).message


def test_a_mix_with_a_cure_of_no_known_weight_tells_it_where_it_is_used():
    mix = component("mix", "1 kg", [line("sugar", "940 g"), line("cure", "4 tbsp")])
    made = kitchen(mix, component("it", "8 kg", [line("pork", "8 kg"), line("mix", percent("3", "pork"))]))
    assert any(one.is_over for id_ in ("mix", "it") for one in ingoing(made, compute_batch(made, id_)))


def test_a_load_that_does_not_scale_straight_is_held_against_the_ceiling_too():
    lines = [line("pork", "10 kg"), line("cure", "200 g", scale=Scale.PER_LOAD)]
    made = kitchen(component("it", "10 kg", lines))
    assert not list(find_over_ceilings(made, compute_batch(made, "it")))
    (fault,) = find_over_ceilings(made, compute_batch(made, "it", times=Fraction(1, 2)))
    assert (fault.code, "240 ppm" in fault.message) == ("LB327", True)


def test_without_a_ceiling_nothing_is_over_and_without_a_strength_nothing_is_told():
    made = kitchen(component("it", "10 kg", [line("pork", "10 kg"), line("cure", "5 kg")]), ceiling=None)
    assert (only(made).ceiling, only(made).is_over) == (None, False)
    plain = replace(made, pantry={**made.pantry, "cure": bought("cure")})
    assert ingoing(plain, compute_batch(plain, "it")) == ()


@pytest.mark.parametrize("medium", [True, False])
@given(
    food=st.fractions(min_value=1, max_value=10**6, max_denominator=1000),
    cure=st.fractions(min_value=Fraction(1, 100), max_value=10**4, max_denominator=1000),
    strength=st.fractions(min_value=Fraction(1, 1000), max_value=Fraction(1, 10), max_denominator=1000),
    times=st.fractions(min_value=Fraction(1, 100), max_value=100, max_denominator=1000),
)
def test_it_is_the_weight_of_the_substance_over_that_of_the_food_at_any_size(medium, food, cure, strength, times):
    grams = amount("1 g").unit
    lines = [
        line("pork", replace(amount("1 g"), number=food, unit=grams)),
        line("cure", replace(amount("1 g"), number=cure, unit=grams), medium=medium),
    ]
    made = kitchen(component("it", "1 kg", lines), strength=str(strength))
    assert only(made, times=times).part == cure * strength / (food + (cure if medium else 0))
