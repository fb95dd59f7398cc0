"""What is read as plain YAML is what the YAML parser reads, to the character; all else is left to it."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
import yaml

from linebook.source.front_matter import split_front_matter
from linebook.source.nodes import MappingNode
from linebook.source.plain_yaml import read_plain_yaml
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import _Builder

ROOT = Path(__file__).parents[3]
HOUSES = (ROOT / "specs", ROOT / "src" / "linebook" / "starter")
FILES = sorted(path for house in HOUSES for suffix in ("*.yaml", "*.md") for path in house.rglob(suffix))
# Pieces that mean something in YAML, to be put where they do not belong.
SIGNS = (
    *" :,-#[]{}\"'?!&*|>%@`.~=<\n19ab°é’“”½",
    *(": ", "- ", " #", " # ", "  ", "\n  ", "\n- ", "{a: b}", "[a, b]", "key: ", "k:\n", '"x: y"', ", ", "\n\n"),
    *("- a: 1\n", "---\n", "...\n", "'q'", "a: b", "# r\n", "  # r\n", "{}", "[]"),
)


def fields_of(path: Path) -> str:
    source = SourceFile(path=path.name, text=path.read_text(encoding="utf-8"))
    if path.suffix == ".yaml":
        return source.text
    parts = split_front_matter(source).value
    assert parts is not None
    return source.text[parts.yaml_start : parts.yaml_end]


def by_parser(source: SourceFile, loader: object):
    return _Builder(source=source, start=0).build(source.text, loader)


def agrees(text: str) -> bool:
    """Whether the text is plain; then the parsers must read the same, with the same places, and find no fault."""
    source = SourceFile(path="card.yaml", text=text)
    plain = read_plain_yaml(source, 0, len(text))
    if plain is None:
        return False
    for loader in (getattr(yaml, "CSafeLoader", None), None):
        parsed = by_parser(source, loader)
        assert parsed is not None, text
        assert parsed.faults == (), text
        assert parsed.value == plain, text
    return True


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_the_houses_of_this_repository_are_read_without_a_parser(path):
    assert agrees(fields_of(path))


def test_no_slip_of_the_pen_is_read_as_anything_else_than_a_parser_reads():
    random = Random(7)
    files = [fields_of(path).split("\n") for path in FILES]
    plain = 0
    for _ in range(5000):
        lines = random.choice(files)
        first = random.choice([at for at, line in enumerate(lines) if line[:1].isalpha()])
        letters = list("\n".join(lines[first : first + random.randint(1, 7)]))
        for _ in range(random.randint(1, 3)):
            at = random.randint(0, len(letters))
            letters[at : at + random.randint(0, 1)] = [random.choice(SIGNS)]
        plain += agrees("".join(letters))
    assert plain > 500


@pytest.mark.parametrize(
    "text",
    [
        *("", "- a\n", "a\n", "a:\n", "a: 1\nb:\n", "a: 1\na: 2\n", "{a: 1}\n", "a: b: c\n", "a : b\n", "a:b\n"),
        *("a: &b c\n", "a: *b\n", "a: !b c\n", "<<: b\n", "a: 'b'\n", "a: |\n  b\n", "a: b\n  c\n", "a: b #c\n"),
        *('a: "b\\n"\n', 'a: "b" c\n', "'a': b\n", "a: {b: }\n", "a: {b}\n", "a: [b, ]\n", "a: [b: c]\n", "a: {b: c\n"),
        *(
            "a: [b\n  c]\n",
            "a: {b: 1, b: 2}\n",
            "a: [b}\n",
            "a: “b”\n",
            "a: b\n---\nc: d\n",
            "%a: b\n",
            "a:\n- b\n c: d\n",
        ),
        *(
            "a: b\n c: d\n",
            " a: b\nc: d\n",
            "a:\tb\n",
            "a: b\r\n",
            "a: b\u00a0\n",
            "a: ...\n",
            "- a: b\n",
            "a: [b?, c]\n",
        ),
        "a: " + "b" * 2001 + "\n",
        "a: " + "[" * 12 + "b" + "]" * 12 + "\n",
    ],
)
def test_what_a_parser_must_judge_is_left_to_it(text):
    assert read_plain_yaml(SourceFile(path="card.yaml", text=text), 0, len(text)) is None


@pytest.mark.parametrize(
    "text",
    [
        *("a: b", "a: b # c\n", "a: 1\n\n# c\nb: 2\n", "a:\n- b\n- c\nd: e\n", "a:\n  - b: 1\n    c: 2\n  - d: 3\n"),
        *("a: -18 °C\n", "a: 5:30 o’clock\n", 'a: "b: c # d"\n', "a: {b: [c, {d: e}], f: 1}\n"),
        *(
            "a: [b,\n    c, d]  # e\nf: g\n",
            "a: []\nb: {}\n",
            "a:   # why\n  b: c\n",
            "a:\n\n  # c\n  b:\n    c: d\ne: f\n",
        ),
        *('"a": b\n', '"a, purée (b)": c\n', 'a:\n- "b: c": d\n  e: f\n', "a one with many words in it: b\n"),
        *("1: 2\n", "2027-03-02: x\n", "a: b#c\n", "a: it's, {b}\n", "a: {b: c d , e: f}\n"),
    ],
)
def test_plain_forms_are_read_without_a_parser(text):
    assert agrees(text)


def test_only_what_stands_between_the_offsets_is_read():
    text = "---\na: {b: c}\n---\nd: e\n"
    source = SourceFile(path="card.md", text=text)
    found = read_plain_yaml(source, 4, 14)
    assert isinstance(found, MappingNode)
    assert [entry.key.text for entry in found.entries] == ["a"]
    assert found.entries[0].value.span.text == "{b: c}"
    assert read_plain_yaml(source, 4, 13) == found
