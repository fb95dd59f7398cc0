"""Places in a file: lines and columns from 1, counted in characters, the same as splitting the text by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.source.spans import SourceFile


@given(st.text(alphabet="ab½🍖\n\r ", max_size=60), st.data())
def test_positions_are_those_of_the_text_split_at_its_line_ends(text: str, data: st.DataObject) -> None:
    offset = data.draw(st.integers(0, len(text)))
    before = text[:offset].split("\n")
    source = SourceFile(path="a", text=text)
    assert source.position(offset) == (len(before), len(before[-1]) + 1)
    span = source.span(offset, len(text))
    assert (span.line, span.column, span.text) == (*source.position(offset), text[offset:])
    assert source.line_text(span.line) == text.split("\n")[span.line - 1].rstrip("\r")


@pytest.mark.parametrize(("offset", "place"), [(0, "a.md:1:1"), (4, "a.md:2:1"), (6, "a.md:2:3")])
def test_place(offset: int, place: str) -> None:
    source = SourceFile(path="a.md", text="½ x\nab")
    assert source.span(offset, offset).place == place
    assert source.whole().place == "a.md:1:1"


def test_spans_of_equal_files_are_equal() -> None:
    one, other = (SourceFile(path="a", text="x\n") for _ in range(2))
    assert one.span(0, 1) == other.span(0, 1)
