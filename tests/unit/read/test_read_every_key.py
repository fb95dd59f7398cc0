"""Every field of the format, one at a time: left empty, given the wrong shape, or with an unknown one beside it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from read_specs import GOOD, groups_in, node_of, read_changed, root_of, said

from linebook.read.fields import Choice, Plain
from linebook.read.groups import walk_groups
from linebook.read.kinds import KINDS
from linebook.source.nodes import Entry, MappingNode, Node, SequenceNode


def entries_of(node: Node) -> Iterator[Entry]:
    if type(node) is MappingNode:
        for entry in node.entries:
            yield entry
            yield from entries_of(entry.value)
    elif type(node) is SequenceNode:
        for item in node.items:
            yield from entries_of(item)


ALL_ENTRIES = [
    pytest.param(path, entry, id=f"{path}:{entry.key.span.line}:{entry.key.text}")
    for path, text in GOOD.items()
    for entry in entries_of(node_of(path, text))
]
ALL_GROUPS = [
    pytest.param(path, group, node, id=f"{path}:{node.span.line}:{group.name}")
    for path, text in GOOD.items()
    for group, node in groups_in(root_of(path), node_of(path, text))
]


def test_the_good_house_has_no_faults(tmp_path):
    reading = read_changed(tmp_path)
    assert said(reading.outcome.faults) == []
    assert [source.path for source in reading.sources] == [f"specs/{path}" for path in _reading_order()]


def _reading_order():
    house, pantry, menu, dish, component, dish_words, component_words, words = GOOD
    return [house, pantry, component, dish, menu, dish_words, component_words, words]


def test_the_good_house_fills_every_declared_field():
    declared = {
        (group.name, name) for kind in KINDS.values() for group in walk_groups(kind.root) for name in group.by_name
    }
    filled = {
        (group.name, entry.key.text)
        for path, text in GOOD.items()
        for group, node in groups_in(root_of(path), node_of(path, text))
        for entry in node.entries
    }
    assert declared == filled
    assert len(declared) > 120


@pytest.mark.parametrize(("path", "entry"), ALL_ENTRIES)
def test_an_empty_value_is_one_fault_at_its_key(tmp_path, path, entry):
    text = GOOD[path]
    span = entry.value.span
    faults = read_changed(tmp_path, {path: text[: span.start] + text[span.end :]}).outcome.faults
    assert [fault.code for fault in faults] == ["LB109"]
    assert faults[0].span.place == f"specs/{entry.key.span.place}"
    assert faults[0].span.text == entry.key.text
    assert entry.key.text in faults[0].message


@pytest.mark.parametrize(("path", "entry"), ALL_ENTRIES)
def test_a_value_in_quotes_with_nothing_in_it_is_empty_too(tmp_path, path, entry):
    text = GOOD[path]
    span = entry.value.span
    changed = text[: span.start] + '""' + text[span.end :]
    assert [fault.code for fault in read_changed(tmp_path, {path: changed}).outcome.faults] == ["LB109"]


@pytest.mark.parametrize(("path", "entry"), ALL_ENTRIES)
def test_a_list_of_lists_is_refused_everywhere(tmp_path, path, entry):
    text = GOOD[path]
    span = entry.value.span
    changed = text[: span.start] + "[[a, b], [c]]" + text[span.end :]
    faults = read_changed(tmp_path, {path: changed}).outcome.faults
    assert {fault.code for fault in faults} == {"LB108"}
    assert all(fault.span.line == span.line for fault in faults)


@pytest.mark.parametrize(("path", "group", "node"), ALL_GROUPS)
def test_an_unknown_field_is_one_fault_at_every_level(tmp_path, path, group, node):
    text = GOOD[path]
    key = node.entries[0].key.span
    flow = text[node.span.start] == "{"
    inserted = "zqzq: 1, " if flow else "zqzq: 1\n" + " " * (key.column - 1)
    faults = read_changed(tmp_path, {path: text[: key.start] + inserted + text[key.start :]}).outcome.faults
    assert said(faults) == [("LB106", "zqzq")]
    assert (faults[0].span.line, faults[0].span.column) == (key.line, key.column)
    assert group.name in faults[0].message


@pytest.mark.parametrize(("path", "group", "node"), ALL_GROUPS)
def test_a_slip_of_the_pen_in_a_required_field_is_one_fault(tmp_path, path, group, node):
    required = [entry for entry in node.entries if group.by_name[entry.key.text].required and len(entry.key.text) > 3]
    for entry in required:
        key = entry.key.span
        slip = entry.key.text[:-2] + entry.key.text[-1] + entry.key.text[-2]
        text = GOOD[path]
        faults = read_changed(tmp_path, {path: text[: key.start] + slip + text[key.end :]}).outcome.faults
        assert said(faults) == [("LB106", slip)]
        assert any(f"`{entry.key.text}`" in hint for hint in faults[0].hints)


@pytest.mark.parametrize(("path", "group", "node"), ALL_GROUPS)
def test_a_missing_required_field_is_one_fault_with_an_example(tmp_path, path, group, node):
    for entry in node.entries:
        field = group.by_name[entry.key.text]
        if not field.required or len(node.entries) == 1:
            continue
        faults = read_changed(tmp_path, {path: _without(GOOD[path], node, entry)}).outcome.faults
        assert [fault.code for fault in faults] == [field.missing_code]
        assert f"`{field.name}`" in faults[0].message
        assert field.example in faults[0].hints[0]


def _without(text, node, entry):
    """Take one entry out of a mapping, in block or flow style."""
    start, end = entry.key.span.start, entry.value.span.end
    at = node.entries.index(entry)
    if at + 1 < len(node.entries):
        return text[:start] + text[node.entries[at + 1].key.span.start :]
    return text[: node.entries[at - 1].value.span.end] + text[end:]


def test_every_example_of_a_single_value_can_be_read(tmp_path):
    from linebook.model.units import Measures
    from linebook.read.reading import UNREAD, Reading
    from linebook.source.nodes import Scalar
    from linebook.source.spans import SourceFile

    reading = Reading(measures=Measures(cup="us", spoon="metric", pint="us"))
    seen = 0
    for kind in KINDS.values():
        for group in walk_groups(kind.root):
            for field in group.fields:
                if isinstance(field.type, Plain | Choice):
                    source = SourceFile(path="example", text=field.example)
                    node = Scalar(text=field.example, span=source.span(0, len(field.example)))
                    assert field.type.read(node, reading, field, {}) is not UNREAD, field
                    seen += 1
    assert not reading.faults
    assert seen > 80


def test_every_example_of_a_list_or_group_can_be_read():
    from linebook.model.units import Measures
    from linebook.read.reading import Reading
    from linebook.source.nodes import Scalar
    from linebook.source.spans import SourceFile
    from linebook.source.yaml_reader import read_yaml

    reading = Reading(measures=Measures(cup="us", spoon="metric", pint="us"))
    for kind in KINDS.values():
        for group in walk_groups(kind.root):
            for field in group.fields:
                node = read_yaml(SourceFile(path="x", text=field.example), 0, len(field.example)).value
                listed = isinstance(node, MappingNode) and type(field.type).__name__ == "ListOf"
                if listed:
                    node = SequenceNode(items=(node,), span=node.span)
                if not isinstance(node, Scalar):
                    field.type.read(node, reading, field, {})
    assert [(fault.code, fault.message) for fault in reading.faults] == []
