"""Every declared field of a house, with ways to write something else in it: for tests of what a change changes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from linebook.read.fields import FieldType
from linebook.read.groups import Group
from linebook.read.kinds import KINDS
from linebook.read.lists import ById, ListOf
from linebook.source.front_matter import split_front_matter
from linebook.source.nodes import MappingNode, Node, SequenceNode
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import read_yaml

_KIND_OF = {"house.yaml": "house", "pantry": "pantry", "menus": "menu", "dishes": "dish", "components": "component"}


class Place(NamedTuple):
    """Where a field is filled in: its file, its name under that of its group, and the stretch of text that is its value."""

    path: str
    field: str
    start: int
    end: int


def places_in(root: Path) -> Iterator[Place]:
    """Yield every field that is filled in anywhere in a house, and each heading of a method with what stands under it."""
    for path in sorted((*root.rglob("*.yaml"), *root.rglob("*.md"))):
        name = path.relative_to(root).as_posix()
        kind = _KIND_OF.get(name.partition("/")[0])
        if kind is None or path.name.count(".") > 1 or "issued" in name:
            continue
        source = SourceFile(path=name, text=path.read_text(encoding="utf-8"))
        start, end = 0, len(source.text)
        if path.suffix == ".md":
            split = split_front_matter(source).value
            assert split is not None
            start, end = split.yaml_start, split.yaml_end
            yield from _steps(name, source.text, split.yaml_end)
        node = read_yaml(source, start, end).value
        for group, inside in _groups(KINDS[kind].root, node):
            for entry in inside.entries:
                if type(entry.value) is not MappingNode:
                    yield Place(name, f"{group.name}.{entry.key.text}", entry.value.span.start, entry.value.span.end)


def _steps(name: str, text: str, after: int) -> Iterator[Place]:
    for heading in re.finditer(r"^## (.+)\n(?:\d+\.|-) (.+)$", text[after:], re.MULTILINE):
        yield Place(name, "method.step", after + heading.start(2), after + heading.end(2))


def _groups(kind: FieldType, node: Node | None) -> Iterator[tuple[Group, MappingNode]]:
    if isinstance(kind, Group) and type(node) is MappingNode:
        yield kind, node
        for entry in node.entries:
            if entry.key.text in kind.by_name:
                yield from _groups(kind.by_name[entry.key.text].type, entry.value)
    elif isinstance(kind, ListOf) and type(node) is SequenceNode:
        for item in node.items:
            yield from _groups(kind.item, item)
    elif isinstance(kind, ById) and type(node) is MappingNode:
        for entry in node.entries:
            yield from _groups(kind.group, entry.value)


def others(value: str, ids: Mapping[str, object]) -> Iterator[str]:
    """Yield other things that a value might be; most are refused where they stand, which is for the caller to see."""
    if value in ("yes", "no"):
        yield "no" if value == "yes" else "yes"
    if re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        yield value[:-2] + ("05" if value[-2:] != "05" else "06")
        yield f"{int(value[:4]) - 1}{value[4:]}"
    for number in list(re.finditer(r"\d+(?:\.\d+)?", value))[:2]:
        before, after = value[: number.start()], value[number.end() :]
        for factor in (1.1, 0.9, 2, 0.5):
            changed = float(number[0]) * factor
            yield f"{before}{changed:g}{after}"
            yield f"{before}{round(changed)}{after}"
        yield f"{before}{int(float(number[0])) + 1}{after}"
    if not value.startswith(("[", "{", '"', "'", "-")) and "\n" not in value:
        yield f"{value} quince"
        yield from ("centre", "mound", "dots", "bench", "walk-in", "blast-chiller", "ahead", "daily", "whole")
        yield from sorted(ids)[:6]
    if value.startswith('"'):
        yield f'{value[:-1]} quince"'
    if value.startswith("[") and "," in value:
        yield re.sub(r",[^,]*\]$", "]", value)
    elif value.startswith("["):
        yield value[:-1] + ", milk]"
