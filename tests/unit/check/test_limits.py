"""Figures of the rule sets that a spec can plainly contradict, against the published ones.

Values: FDA Food Code 2022 sections 3-401.11, 3-403.11, 3-501.14, 3-501.16, 3-501.19, 3-402.11; Food Safety and Hygiene
(England) Regulations 2013, Schedule 4; Regulation (EC) 853/2004, Annex III, Section VIII.
"""

from linebook.check.limits import figures_for


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
