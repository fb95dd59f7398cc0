"""A comma inside braces: one fault, with the mend written out, and what was meant is read all the same."""

from __future__ import annotations

import pytest
from read_specs import GOOD, faults_of, read_changed, said

COMPONENT_FILE = "components/short-rib-glazed.md"
HOUSE_FILE = "house.yaml"

PEPPER = "{item: pepper, amount: to taste}"


@pytest.mark.parametrize(
    ("typed", "code", "pointed", "mend"),
    [
        ("{item: pepper, amount: 2 g, note: black, fine}", "LB108", "fine", '`note: "black, fine"`'),
        ("{item: pepper, amount: 2 g, note: a, b, c}", "LB108", "b", '`note: "a, b, c"`'),
        ('{item: pepper, amount: 2 g, note: 4" thick, fine}', "LB108", "fine", "`note: '4\" thick, fine'`"),
        ('{item: pepper, amount: 2 g, note: "black", fine}', "LB108", "fine", "note: '\"black\", fine'"),
        ("{item: pepper, amount: 1,5 kg}", "LB303", "1,5 kg", "`1.5`"),
        ("{item: pepper, amount: 2 %, of: pepper, salt}", "LB108", "pepper, salt", "`of: [pepper, salt]`"),
        ("{item: pepper, amount 2 g}", "LB106", "amount 2 g", "`amount: 2 g`"),
        ("{item: pepper, amount:2 g}", "LB106", "amount:2 g", "`amount: 2 g`"),
        ("{pepper, amount: 2 g}", "LB106", "pepper", "`item: pepper`"),
        ("{pepper, 2 g}", "LB106", "pepper", "`{item: pepper, amount: 2 g}`"),
        ("pepper, 2 g", "LB108", "pepper, 2 g", "`{item: pepper, amount: 2 g}`"),
        ("{item: pepper, amount: 2 g, note: “black, fine”}", "LB104", "“black", "straight quotes"),
    ],
)
def test_a_comma_inside_braces_is_one_fault(tmp_path, typed, code, pointed, mend):
    faults = faults_of(tmp_path, COMPONENT_FILE, PEPPER, typed)
    assert said(faults) == [(code, pointed)]
    assert any(mend in hint for hint in faults[0].hints), faults[0].hints


def test_what_was_meant_is_read(tmp_path):
    text = GOOD[COMPONENT_FILE].replace(PEPPER, "{item: pepper, amount 2 g, note: black, fine}")
    outcome = read_changed(tmp_path, {COMPONENT_FILE: text}).outcome
    assert [fault.code for fault in outcome.faults] == ["LB106", "LB108"]
    (line,) = [line for line in outcome.value.components[0].ingredients if line.item == "pepper"]
    assert (line.note, line.amount.number) == ("black, fine", 2)


@pytest.mark.parametrize(
    ("typed", "mend"),
    [("tue, wed", "`days: [tue, wed]`"), ("[tue, wed", "`]`"), ("tue, wed]", "`days: [tue, wed]`")],
)
def test_a_list_without_its_brackets(tmp_path, typed, mend):
    (fault,) = faults_of(tmp_path, HOUSE_FILE, "days: [tue, wed, thu, fri, sat]", f"days: {typed}")
    assert any(mend in hint for hint in fault.hints), fault.hints


def test_a_value_that_begins_with_a_remark_sign_is_one_fault(tmp_path):
    (fault,) = faults_of(tmp_path, HOUSE_FILE, "name: Harrow Weir", "name: #1 Weir")
    assert (fault.code, fault.span.text) == ("LB109", "name")
    assert "double quotes" in fault.hints[0]
