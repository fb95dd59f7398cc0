"""Whole bad houses: comments in the specs say which fault is expected and where. Nothing else may be found.

A comment reads ``# expect: LB201 `celeriac-pure` on the next line``, or ``in the method``, or ``in this file``.
"""

import re
from pathlib import Path

import pytest

from linebook.check.house import check_house
from linebook.read.house_folder import read_house

HERE = Path(__file__).parent
HOUSES = sorted(path.name for path in HERE.iterdir() if (path / "house.yaml").exists())
EXPECT = re.compile(r"^\s*# expect: (LB\d{3}) `(.*)` (on the next line|in the method|in this file)$", re.MULTILINE)


def expected_in(path, text):
    """Yield code, file, line and the text the fault points at."""
    lines = text.splitlines()
    ends = [number for number, line in enumerate(lines, 1) if line == "---"]
    for match in EXPECT.finditer(text):
        code, spot, where = match.groups()
        line = text.count("\n", 0, match.start(1)) + 1
        if where == "on the next line":
            while lines[line].lstrip().startswith("# expect:"):
                line += 1
            found = [line + 1]
        elif where == "in the method":
            found = [number for number, content in enumerate(lines, 1) if number > ends[1] and spot in content]
        else:
            found = [1]
        assert found, f"{path}: {spot!r} does not stand {where}"
        yield code, path, found[0], spot


@pytest.mark.parametrize("name", HOUSES)
def test_every_expected_fault_and_no_other(name):
    root = HERE / name
    reading = read_house(root, name).outcome
    faults = [*reading.faults, *check_house(reading.value).faults]
    found = sorted((fault.code, fault.span.source.path, fault.span.line, fault.span.text) for fault in faults)
    expected = sorted(
        one
        for path in sorted(root.rglob("*"))
        if path.is_file()
        for one in expected_in(f"{name}/{path.relative_to(root)}", path.read_text(encoding="utf-8"))
    )
    assert found == expected
    assert all(fault.hints for fault in faults)


def test_there_are_houses_with_enough_faults():
    counts = {name: sum(len(EXPECT.findall(p.read_text())) for p in (HERE / name).rglob("*.*")) for name in HOUSES}
    assert len(counts) >= 3
    assert all(count >= 8 for count in counts.values()), counts


@pytest.mark.parametrize("name", HOUSES)
def test_messages_read_as_one_sentence(name):
    reading = read_house(HERE / name, name).outcome
    for fault in (*reading.faults, *check_house(reading.value).faults):
        assert not fault.message.endswith("."), fault.message
        assert "\n" not in fault.message
        for word in ("None", "Fraction", "tuple", "KeyError", "object", "NoneType"):
            assert word not in fault.message
            assert all(word not in hint for hint in fault.hints)
