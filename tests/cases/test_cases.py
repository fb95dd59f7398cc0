"""Every code that a house can produce: small changes to a small good house that fail, and others that pass.

A change that fails must give exactly one fault, of the file's code, at the place and with the mend the case states:
one slip, one report. A change that passes must give none at all.
"""

import shutil
from pathlib import Path

import pytest
import yaml

from linebook.check.house import check_house
from linebook.compute.base import base_batch
from linebook.read.house_folder import read_house
from linebook.source.codes import CODES
from linebook.source.faults import Severity

HERE = Path(__file__).parent
SMALL_HOUSE = HERE / "small-house"

ELSEWHERE = {
    **dict.fromkeys(
        ("LB701", "LB702", "LB703", "LB704", "LB705", "LB706"), "templates: tests/unit/templating and tests/unit/markup"
    ),
    **dict.fromkeys(("LB801", "LB802", "LB803", "LB804", "LB805"), "theme and fit: tests/unit/pdf"),
    **dict.fromkeys(("LB806", "LB807", "LB808"), "a house's own theme: tests/unit/looks"),
    "LB328": "what a sized batch cannot be weighed with: tests/unit/compute/test_refused.py",
    "LB709": "services and covers to order for: tests/unit/compute/test_services.py",
    **dict.fromkeys(("LB901", "LB902"), "output: tests/cli and tests/unit/writing"),
    **dict.fromkeys(
        ("LB623", "LB625"), "labels and saved plans: tests/unit/pdf/test_label_pages.py, tests/cli/test_plan.py"
    ),
    **dict.fromkeys(("LB531", "LB908"), "tasting notes: tests/cli/test_note_command.py"),
    **dict.fromkeys(("LB904", "LB905", "LB906", "LB907", "LB909"), "the register: tests/cli/test_issue_command.py"),
    **dict.fromkeys(("LB413", "LB903"), "what is missing and what is left: tests/cli/test_supply.py"),
}
"""Codes that no spec text can produce, and where they are tested."""


def load_cases(kind):
    for path in sorted(HERE.glob("LB*.yaml")):
        for case in yaml.safe_load(path.read_text(encoding="utf-8"))[kind]:
            yield pytest.param(path.stem, case, id=f"{path.stem} {case['title']}")


def change(root, edit):
    path = root / edit["file"]
    if "delete" in edit:
        path.unlink()
    elif "link" in edit:
        path.parent.mkdir(exist_ok=True)
        path.symlink_to(edit["link"])
    elif "hex" in edit:
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(bytes.fromhex(edit["hex"]))
    elif "write" in edit:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(edit["write"] * edit.get("times", 1), encoding="utf-8")
    elif "add" in edit:
        path.write_text(path.read_text(encoding="utf-8") + edit["add"], encoding="utf-8")
    elif "rename" in edit:
        path.rename(root / edit["rename"])
    else:
        text = path.read_text(encoding="utf-8")
        assert text.count(edit["find"]) == 1, f"{edit['find']!r} stands {text.count(edit['find'])} times in {path.name}"
        path.write_text(text.replace(edit["find"], edit["put"]), encoding="utf-8")


def faults_of(root):
    reading = read_house(root, "specs").outcome
    checked = check_house(reading.value) if reading.value is not None else None
    return [*reading.faults, *(checked.faults if checked is not None else ())], checked


def shown(faults):
    return "\n".join(f"{f.span.place if f.span else '-'} {f.code} {f.message} {f.hints}" for f in faults)


@pytest.fixture
def house(tmp_path):
    return shutil.copytree(SMALL_HOUSE, tmp_path / "specs")


def test_small_house_is_good():
    faults, checked = faults_of(SMALL_HOUSE)
    assert not faults, shown(faults)
    assert checked.value is not None


@pytest.mark.parametrize(("code", "case"), list(load_cases("fails")))
def test_fails(house, code, case):
    for edit in case["change"]:
        change(house, edit)
    faults, checked = faults_of(house)
    assert [fault.code for fault in faults] == [code], shown(faults)
    (fault,) = faults
    if "file" in case:
        assert fault.span is not None
        assert fault.span.source.path == f"specs/{case['file']}", shown(faults)
    if "spot" in case:
        assert fault.span.text == case["spot"], f"{fault.span.text!r}\n{shown(faults)}"
    assert case["says"] in fault.message, shown(faults)
    assert any(case["mend"] in hint for hint in fault.hints), shown(faults)
    for path in case.get("related", ()):
        assert any(related.span.source.path == f"specs/{path}" for related in fault.related), fault.related
    if CODES[code].severity is Severity.ERROR:
        assert checked is None or checked.value is None or code < "LB200"
    else:
        assert checked is not None
        assert checked.value is not None


@pytest.mark.parametrize(("code", "case"), list(load_cases("passes")))
def test_passes(house, code, case):
    for edit in case["change"]:
        change(house, edit)
    faults, checked = faults_of(house)
    assert not faults, shown(faults)
    assert checked.value is not None
    for component in checked.value.components:  # what is checked can be computed
        assert base_batch(checked.value, component).ingredients


@pytest.mark.parametrize("code", sorted(CODES))
def test_every_code_has_its_cases(code):
    path = HERE / f"{code}.yaml"
    assert path.exists() != (code in ELSEWHERE), f"{code} needs a case file, or a reason in ELSEWHERE"
    if path.exists():
        cases = yaml.safe_load(path.read_text(encoding="utf-8"))
        assert cases["fails"], code
        assert cases["passes"], code


def test_no_case_file_is_without_a_code():
    assert {path.stem for path in HERE.glob("LB*.yaml")} <= set(CODES)
