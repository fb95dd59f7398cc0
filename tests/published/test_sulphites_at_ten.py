"""Sulphites at exactly 10 mg a kilogram, where the laws differ.

EU Reg. 1169/2011 Annex II and its UK text: *more than* 10 mg/kg. 21 CFR 101.100(a)(4), the Canadian
B.01.010.1, Standard 1.2.3 of Australia and New Zealand and Codex CXS 1-1985: 10 mg/kg *or more*.
"""

import pytest

from linebook.compute.columns import columns_for
from linebook.model.house import AllergenPolicy
from linebook.model.taxonomy import LISTS, covered_by


@pytest.mark.parametrize(
    ("code", "asked"), [("us", True), ("ca", True), ("anz", True), ("codex", True), ("eu", False), ("uk", False)]
)
def test_who_asks_for_it(code, asked):
    (group,) = (one for one in LISTS[code].groups if one.id == "sulphites")
    assert "sulphites" in covered_by(group.members)
    assert ("sulphites-at-10" in covered_by(group.members)) is asked


def test_two_lists_that_disagree_have_a_column_each():
    policy = AllergenPolicy(lists=("eu", "us"), avoid={}, span=None, spans={})
    asked = [column for column in columns_for(policy) if "sulphites" in column.substances]
    assert [("sulphites-at-10" in column.substances) for column in asked] == [False, True]
    assert all("(EU)" in asked[0].name or "(US)" in column.name for column in asked)
