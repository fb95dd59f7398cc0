"""The JSON Schema accepts what the reader accepts and refuses plain slips, judged by the jsonschema library."""

from __future__ import annotations

import json
import re

import pytest
from jsonschema import Draft7Validator
from read_specs import GOOD, kind_of, node_of

from linebook.read.groups import walk_groups
from linebook.read.kinds import KINDS
from linebook.read.schema import schema_for
from linebook.source.nodes import MappingNode, Scalar

_NUMBER = re.compile(r"[-+]?(0|[1-9][0-9]*)(\.[0-9]+)?")


def as_editor_sees(node):
    """Return a node as YAML 1.2's core schema reads it, which is what editors validate."""
    if type(node) is MappingNode:
        return {entry.key.text: as_editor_sees(entry.value) for entry in node.entries}
    if type(node) is Scalar:
        if not node.plain:
            return node.text
        if node.text in ("", "~", "null"):
            return None
        if node.text in ("true", "false"):
            return node.text == "true"
        return float(node.text) if _NUMBER.fullmatch(node.text) else node.text
    return [as_editor_sees(item) for item in node.items]


def value_of(path, text=None):
    return as_editor_sees(node_of(path, text or GOOD[path]))


def errors(path, text=None):
    return [error.json_path for error in Draft7Validator(schema_for(kind_of(path))).iter_errors(value_of(path, text))]


@pytest.mark.parametrize("kind", list(KINDS))
def test_each_schema_is_a_schema_and_plain_json(kind):
    schema = schema_for(kind)
    Draft7Validator.check_schema(schema)
    assert json.loads(json.dumps(schema)) == schema
    assert schema["$schema"] == "http://json-schema.org/draft-07/schema#"


@pytest.mark.parametrize("path", list(GOOD))
def test_the_good_specs_pass(path):
    assert errors(path) == []


def test_every_field_is_described():
    for kind in KINDS:
        text = json.dumps(schema_for(kind), ensure_ascii=False)
        for group in walk_groups(KINDS[kind].root):
            for field in group.fields:
                assert json.dumps(field.doc, ensure_ascii=False)[1:-1] in text


def test_objects_are_closed_everywhere():
    def walk(schema):
        if isinstance(schema, dict):
            if "properties" in schema:
                assert schema["additionalProperties"] is False
            for inner in schema.values():
                walk(inner)
        elif isinstance(schema, list):
            for inner in schema:
                walk(inner)

    for kind in KINDS:
        walk(schema_for(kind))


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        ("house.yaml", "name: Harrow Weir\n", ""),
        ("house.yaml", "rules: FDA Food Code 2022", "rules: FDA"),
        ("house.yaml", "lists: [uk]", "lists: [usa]"),
        ("house.yaml", "lists: [uk]", "lists: []"),
        ("house.yaml", "paper: a4", "papper: a4"),
        ("house.yaml", "doors: 17:30", "doors: 5pm"),
        ("house.yaml", "  hearth: {", "  The Hearth: {"),
        ("house.yaml", "climate: hot", "climate: warm"),
        ("house.yaml", "rim: 3 cm", "rim: 3"),
        ("house.yaml", "nights: [80, 110, 150]", "nights: {a: 1}"),
        ("pantry/meat.yaml", "contains: none", "contains: nothing at all"),
        ("pantry/meat.yaml", "weigh_exactly: yes", "weigh_exactly: maybe"),
        ("pantry/meat.yaml", "since: 2026-11-02}", "since: 2 Nov}"),
        ("pantry/meat.yaml", "usable: 72 %", "usable: 0.72"),
        ("menus/early-spring.yaml", "tue: 70", "tuesday: 70"),
        ("menus/early-spring.yaml", "dish: short-rib, share: 0.35", "dish: short-rib"),
        ("dishes/short-rib.md", "shape: swoosh", "shape: swosh"),
        ("dishes/short-rib.md", "at: centre", "at: left"),
        ("dishes/short-rib.md", "    amount: 70 g\n", ""),
        ("components/short-rib-glazed.md", "makes: 9 kg", "makes: 9"),
        ("components/short-rib-glazed.md", "makes: 9 kg", "makes:"),
        ("components/short-rib-glazed.md", "limit: cool", "limit: chill"),
        ("components/short-rib-glazed.md", "until: 93 °C", "until: hot"),
        ("components/short-rib-glazed.md", "unattended: 7 h to 9 h", "unattended: overnight"),
        ("components/short-rib-glazed.md", "sort: braise", "unattended: 7 h"),
    ],
)
def test_a_slip_is_refused(path, old, new):
    assert GOOD[path].count(old) == 1
    assert errors(path, GOOD[path].replace(old, new))


def test_schemas_are_made_new_each_time():
    schema_for("dish")["properties"].clear()
    assert schema_for("dish")["properties"]
