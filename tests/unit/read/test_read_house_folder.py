"""A whole folder: every file is read, one bad file hides no other, and one slip is one fault."""

from __future__ import annotations

import pytest
from read_specs import GOOD, read_changed, said, write_house

from linebook.read.house_folder import read_house
from linebook.source.faults import Severity

OTHER = """\
---
name: Other
line: larder
makes: 2 kg
ingredients:
  - {item: flour, amount: 1 cup}
---
## Notes

Text.
"""


def test_a_missing_folder_is_a_fault_and_no_house(tmp_path):
    reading = read_house(tmp_path / "nowhere", "nowhere")
    assert reading.outcome.value is None
    assert [fault.code for fault in reading.outcome.faults] == ["LB115"]
    assert reading.sources == ()


def test_an_empty_folder_says_that_house_yaml_is_missing(tmp_path):
    reading = read_house(tmp_path, "specs")
    assert [fault.code for fault in reading.outcome.faults] == ["LB114"]
    assert reading.outcome.value.file is None


def test_a_syntax_fault_hides_its_own_file_alone(tmp_path):
    changes = {
        "components/other.md": OTHER.replace("makes: 2 kg", "makes: '2 kg"),
        "components/third.md": OTHER.replace("makes: 2 kg", "makes: two"),
        "dishes/short-rib.md": GOOD["dishes/short-rib.md"].replace("price: 34", "price: lots"),
        "pantry/meat.yaml": GOOD["pantry/meat.yaml"].replace("usable: 72 %", "usable: most"),
        "menus/late.yaml": "name: [x\n",
    }
    reading = read_changed(tmp_path, changes)
    places = [(fault.code, fault.span.source.path) for fault in reading.outcome.faults]
    assert places == [
        ("LB301", "specs/pantry/meat.yaml"),
        ("LB101", "specs/components/other.md"),
        ("LB301", "specs/components/third.md"),
        ("LB301", "specs/dishes/short-rib.md"),
        ("LB101", "specs/menus/late.yaml"),
    ]
    parsed = reading.outcome.value
    assert [component.id for component in parsed.components] == ["short-rib-glazed"]
    assert {"other", "third", "late"} <= parsed.broken
    assert parsed.incomplete == {"short-rib", "beef-short-rib"}
    assert len(reading.sources) == 11


def test_a_broken_pantry_file_is_remembered_by_its_ids(tmp_path):
    text = GOOD["pantry/meat.yaml"].replace("name: flour", "name: 'flour")
    parsed = read_changed(tmp_path, {"pantry/meat.yaml": text}).outcome.value
    assert {"beef-short-rib", "flour"} <= parsed.broken
    assert "name" not in parsed.broken


def test_a_broken_component_is_remembered_with_its_by_products(tmp_path):
    path = "components/short-rib-glazed.md"
    for old, new in (("makes: 9 kg", "makes: nine"), ("makes: 9 kg", "makes: '9 kg")):
        parsed = read_changed(tmp_path, {path: GOOD[path].replace(old, new)}).outcome.value
        assert parsed.broken == {"short-rib-glazed", "beef-trim"}


def test_a_broken_by_product_is_remembered(tmp_path):
    path = "components/short-rib-glazed.md"
    parsed = read_changed(tmp_path, {path: GOOD[path].replace("amount: 900 g", "amount: some")}).outcome.value
    assert parsed.broken == {"beef-trim"}
    assert parsed.incomplete == {"short-rib-glazed"}


def test_broken_places_and_courses_are_remembered(tmp_path):
    changes = {
        "house.yaml": GOOD["house.yaml"]
        .replace("climate: hot", "climate: warm")
        .replace("shape: oval", "shape: egg")
        .replace("holds: 24 L", "holds: lots"),
        "menus/early-spring.yaml": GOOD["menus/early-spring.yaml"].replace(
            "course: mains, name: Mains", "course: mains"
        ),
    }
    parsed = read_changed(tmp_path, changes).outcome.value
    assert parsed.broken == {"smoker", "oval-30", "mains"}
    assert parsed.incomplete == {"house", "early-spring"}
    assert [vessel.id for vessel in parsed.file.vessels] == ["rondeau-24", "third-pan-100", "gn-rack"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("measures: {cup: us, spoon", "measures: {cup: big, spoon"),
        ("measures: {cup: us, spoon", "messures: {cup: us, spoon"),
        ("measures: {cup: us, spoon: metric, pint: imperial}", "measures: us"),
        ("name: Harrow Weir", "name: [Harrow"),
        ("holds: 3.5 L", "holds: 3.5"),
        ("holds: 3.5 L", ""),
        ("vessels:\n", "vessels: none\nvesels:\n"),
        ("third-pan-100: {", "third pan 100: {"),
    ],
)
def test_a_cup_or_vessel_that_house_yaml_got_wrong_is_one_fault(tmp_path, old, new):
    text = GOOD["house.yaml"].replace(old, new)
    assert text != GOOD["house.yaml"]
    faults = read_changed(tmp_path, {"house.yaml": text}).outcome.faults
    assert {fault.span.source.path for fault in faults if fault.code != "LB302"} <= {"specs/house.yaml"}
    if new:
        assert len({fault.span.line for fault in faults}) <= 2
        assert not [fault for fault in faults if fault.code in ("LB302", "LB317")]
    else:  # a vessel may be without a volume; then it is no measure
        assert said(faults) == [("LB302", "2 third-pan-100")]


def test_a_cup_the_house_never_named_is_a_fault_where_it_is_used(tmp_path):
    text = GOOD["house.yaml"].replace("cup: us, ", "")
    assert said(read_changed(tmp_path, {"house.yaml": text}).outcome.faults) == [("LB317", "2 cups")]


def test_what_a_vessel_holds_cannot_be_said_in_vessels(tmp_path):
    text = GOOD["house.yaml"].replace("holds: 24 L", "holds: 7 third-pan-100")
    assert said(read_changed(tmp_path, {"house.yaml": text}).outcome.faults) == [("LB302", "7 third-pan-100")]


def test_a_house_without_a_name_still_says_what_its_cups_hold(tmp_path):
    text = GOOD["house.yaml"].replace("name: Harrow Weir\n", "")
    reading = read_changed(tmp_path, {"house.yaml": text})
    assert [fault.code for fault in reading.outcome.faults] == ["LB107"]
    assert reading.outcome.value.file is None
    assert "hearth" in reading.outcome.value.broken


def test_a_file_name_that_is_no_id(tmp_path):
    reading = read_changed(tmp_path, {"components/Pickled Walnut.md": OTHER})
    (fault,) = reading.outcome.faults
    assert (fault.code, fault.span.place) == ("LB203", "specs/components/Pickled Walnut.md:1:1")
    assert fault.hints[0] == "rename the file to `pickled-walnut.md`"
    assert "pickled-walnut" in reading.outcome.value.broken


def test_a_spec_without_fields_is_one_fault(tmp_path):
    for text in ("just words\n", "---\nname: x\n", "---\n- a\n---\n", "---\nwords\n---\n"):
        faults = read_changed(tmp_path, {"components/other.md": text}).outcome.faults
        assert len(faults) == 1, text
    faults = read_changed(tmp_path, {"components/other.md": "---\n---\n"}).outcome.faults
    assert {fault.code for fault in faults} == {"LB107"}


def test_an_empty_pantry_file_and_an_empty_menu(tmp_path):
    reading = read_changed(tmp_path, {"pantry/more.yaml": "", "menus/empty.yaml": "# nothing yet\n"})
    assert {fault.span.source.path for fault in reading.outcome.faults} == {"specs/menus/empty.yaml"}
    assert {fault.code for fault in reading.outcome.faults} == {"LB107"}


def test_body_faults_are_found_beside_field_faults(tmp_path):
    text = OTHER.replace("makes: 2 kg", "makes: two").replace("Text.", "<b>Text.</b>")
    faults = read_changed(tmp_path, {"components/other.md": text}).outcome.faults
    assert said(faults) == [("LB301", "two"), ("LB117", "<b>")]


def test_a_warning_does_not_make_a_record_incomplete(tmp_path):
    text = OTHER.replace("name: Other", "name: Other #2")
    reading = read_changed(tmp_path, {"components/other.md": text})
    assert [(fault.code, fault.severity) for fault in reading.outcome.faults] == [("LB112", Severity.WARNING)]
    assert reading.outcome.value.incomplete == frozenset()


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(tmp_path):
    plain = read_house(write_house(tmp_path / "plain"), "specs").outcome.value
    changed = {path: "\ufeff" + text.replace("\n", "\r\n") for path, text in GOOD.items()}
    other = read_house(write_house(tmp_path / "other", changed), "specs")
    assert other.outcome.faults == ()
    assert other.outcome.value == plain


def test_reading_twice_gives_the_same(tmp_path):
    write_house(tmp_path)
    assert read_house(tmp_path, "specs") == read_house(tmp_path, "specs")
