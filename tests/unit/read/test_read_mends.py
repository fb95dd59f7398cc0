"""What is told better, or only once, because the reader knows the whole house."""

from __future__ import annotations

import pytest
from read_specs import GOOD, faults_of, read_changed

COMPONENT_FILE = "components/short-rib-glazed.md"
DISH_FILE = "dishes/short-rib.md"
HOUSE_FILE = "house.yaml"


@pytest.mark.parametrize(
    ("file", "old", "new", "mend"),
    [
        (COMPONENT_FILE, "line: hearth", "line: Hearth", "write `hearth`"),
        (COMPONENT_FILE, "vessel: gn-rack", "vessel: GN racks", "did you mean `gn-rack`?"),
        (DISH_FILE, "plate: oval-30", "plate: Oval plate, 30 cm", "did you mean `oval-30`?"),
    ],
)
def test_a_name_for_an_id_is_told_with_the_id_that_the_house_has(tmp_path, file, old, new, mend):
    (fault,) = faults_of(tmp_path, file, old, new)
    assert fault.code == "LB203"
    assert fault.hints[0] == mend


def test_a_measure_that_the_house_does_not_name_is_told_once(tmp_path):
    text = GOOD[HOUSE_FILE].replace("measures: {cup: us, spoon: metric, pint: imperial}\n", "")
    faults = read_changed(tmp_path, {HOUSE_FILE: text}).outcome.faults
    spoons = [fault for fault in faults if "spoon" in fault.hints[0]]
    assert [fault.code for fault in spoons] == ["LB317"]
    assert spoons[0].related


def test_a_dish_among_the_components_is_one_fault(tmp_path):
    (fault,) = read_changed(tmp_path, {"components/stray.md": GOOD[DISH_FILE]}).outcome.faults
    assert (fault.code, fault.span.text) == ("LB106", "elements")
    assert fault.hints == ("move the file to dishes",)


def test_an_id_written_twice_loses_an_entry_of_the_pantry(tmp_path):
    text = "salt:\n  name: salt\nsalt:\n  name: pepper\n"
    outcome = read_changed(tmp_path, {"pantry/more.yaml": text}).outcome
    assert [fault.code for fault in outcome.faults] == ["LB102"]
    assert "house.pantry" in outcome.value.incomplete


def test_a_missing_choice_shows_the_choices(tmp_path):
    (fault,) = faults_of(tmp_path, "pantry/meat.yaml", "says: supplier sheet, ", "")
    assert fault.code == "LB403"
    assert "`label`, `supplier sheet`" in fault.hints[0]


@pytest.mark.parametrize(("typed", "sound"), [("12", True), ("12.5", False), ("35", False), ("35 %", True)])
def test_a_share_is_portions_a_cover(tmp_path, typed, sound):
    faults = faults_of(tmp_path, "menus/early-spring.yaml", "share: 0.35", f"share: {typed}")
    assert [fault.code for fault in faults] == ([] if sound else ["LB316"])
