"""Figures of the rule sets that a spec can plainly contradict, against the published ones.

Values: FDA Food Code 2022 sections 3-401.11, 3-403.11, 3-501.14, 3-501.16, 3-501.19, 3-402.11; Food Safety and Hygiene
(England) Regulations 2013, Schedule 4; Regulation (EC) 853/2004, Annex III, Section VIII.
"""

from fractions import Fraction

import pytest

from linebook.check.limits import figure_text, figures_for, reaches, stays_within
from linebook.model.amounts import Temperature

# The Food Code's own pairs, of the sections above; 34 °F is of 3-502.12(D)(2)(e), 40 °F of the garlic-in-oil page.
LEAST = ((74, 165), (68, 155), (63, 145), (57, 135), (54, 130))
MOST = ((21, 70), (5, 41), (4, 40), (1, 34), (-20, -4), (-35, -31))


def celsius(fahrenheit: int) -> Fraction:
    return Fraction(fahrenheit - 32) * 5 / 9


@pytest.mark.parametrize(("figure", "printed"), LEAST)
def test_the_printed_fahrenheit_is_hot_enough_and_a_degree_less_is_not(figure, printed):
    assert reaches(celsius(printed), Fraction(figure))
    assert reaches(Fraction(figure), Fraction(figure))
    assert not reaches(celsius(printed - 1), Fraction(figure))


@pytest.mark.parametrize(("figure", "printed"), MOST)
def test_the_printed_fahrenheit_is_cold_enough_and_a_degree_more_is_not(figure, printed):
    assert stays_within(celsius(printed), Fraction(figure))
    assert stays_within(Fraction(figure), Fraction(figure))
    assert not stays_within(celsius(printed + 1), Fraction(figure))


def test_a_figure_is_said_in_the_scale_that_was_typed():
    typed = Temperature(celsius=celsius(150), fahrenheit=True)
    assert (figure_text(Fraction(74), typed), figure_text(Fraction(8), typed)) == ("165 °F", "46.4 °F")
    assert figure_text(Fraction(74), Temperature(celsius=Fraction(60))) == "74 °C"


def test_food_code():
    found = figures_for("FDA Food Code 2022")
    assert (found.cold_at_most, found.reheat_to, found.cool_first_to, found.freeze_raw_to) == (5, 74, 21, -20)
    assert (found.hot_at_least, found.hot_for_some, found.cook_to) == (57, 54, 54)  # 130 °F: roasts
    assert found.warm_minutes == 4 * 60


def test_uk():
    found = figures_for("UK")
    assert (found.cold_at_most, found.hot_at_least, found.freeze_raw_to) == (8, 63, -20)
    assert found.warm_minutes == 2 * 60
    assert (found.reheat_to, found.cook_to, found.cool_first_to) == (None, None, None)


def test_eu_gives_one_figure():
    found = figures_for("EU")
    assert found.freeze_raw_to == -20
    assert (found.cold_at_most, found.hot_at_least, found.reheat_to, found.cook_to) == (None, None, None, None)


def test_unknown_rules_give_none():
    assert figures_for("ours") is None
