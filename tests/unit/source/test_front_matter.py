"""Where the fields of a spec begin and end, and what is said when they do not."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linebook.source.front_matter import split_front_matter
from linebook.source.spans import SourceFile


def split(text: str) -> tuple[str, str] | None:
    value = split_front_matter(SourceFile(path="a.md", text=text)).value
    return None if value is None else (text[value.yaml_start : value.yaml_end], text[value.body_start : value.body_end])


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("---\na: b\n---\n## Pick-up\n", ("a: b\n", "## Pick-up\n")),
        ("---\r\na: b\r\n---\r\nbody\r\n", ("a: b\r\n", "body\r\n")),
        ("---\n---\n", ("", "")),
        ("---\na: b\n---", ("a: b\n", "")),
        ("--- \na: b\n---  \nx", ("a: b\n", "x")),
        ("---\na: b\n---\nx\n\n---\n\ny\n", ("a: b\n", "x\n\n---\n\ny\n")),
        ("---\na: '---'\nb: ---c\n---\nx", ("a: '---'\nb: ---c\n", "x")),
    ],
)
def test_split(text: str, parts: tuple[str, str]) -> None:
    assert split(text) == parts


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "does not begin with its fields"),
        ("## Pick-up\n1. Sear\n", "does not begin with its fields"),
        ("name: a\n---\n", "does not begin with its fields"),
        ("\n\n---\na: b\n---\n", "blank lines stand before"),
        ("----\na: b\n---\n", "`----` does not open"),
        ("—\na: b\n---\n", "`—` does not open"),
        ("--\na: b\n--\n", "`--` does not open"),
        (" ---\na: b\n---\n", "`---` does not open"),
        ("---yaml\na: b\n---\n", "`---yaml` does not open"),
    ],
)
def test_a_missing_opener_is_told_on_line_1(text: str, words: str) -> None:
    (fault,) = split_front_matter(SourceFile(path="a.md", text=text)).faults
    assert (fault.code, fault.span.line) == ("LB105", 1)
    assert words in fault.message
    assert any("---" in hint or "hyphens" in hint for hint in fault.hints)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("---\na: b\n", None),
        ("---", None),
        ("---\na: b\n\n## Pick-up\n1. x\n", 4),
        ("---\na: b\n----\n## Pick-up\n", 3),
        ("---\na: b\n ---\n## Pick-up\n", 3),
        ("---\na: b\n...\n## Pick-up\n", 3),
        ("---\na: b\n—\n", 3),
        ("---\na: b\n---x\n", 3),
    ],
)
def test_an_opener_without_a_closer_is_never_all_front_matter(text: str, line: int | None) -> None:
    outcome = split_front_matter(SourceFile(path="a.md", text=text))
    (fault,) = outcome.faults
    assert outcome.value is None
    assert (fault.code, fault.span.line) == ("LB105", 1)
    assert [related.span.line for related in fault.related] == ([line] if line else [])


@settings(max_examples=200, deadline=None)
@given(st.text(alphabet="-—_. \n\rab#:", max_size=40) | st.text(max_size=40))
def test_any_text_is_split_or_refused(text: str) -> None:
    outcome = split_front_matter(SourceFile(path="a.md", text=text))
    assert (outcome.value is None) == bool(outcome.faults)
    if outcome.value is not None:
        value = outcome.value
        assert 4 <= value.yaml_start <= value.yaml_end < value.body_start <= value.body_end == len(text)
        assert not any(line.rstrip(" \t\r") == "---" for line in text[value.yaml_start : value.yaml_end].split("\n"))
