"""A block tree kept as text comes back as it was, and is believed only under its own fingerprint."""

from __future__ import annotations

import json

import pytest
from test_fingerprint import FULL

from linebook.markup.fingerprint import fingerprint_of
from linebook.markup.kept import read_sheet, written_sheet

MARK = fingerprint_of(FULL)


def test_it_comes_back_as_it_was_a_block_a_line() -> None:
    text = written_sheet(FULL)
    assert read_sheet(text, MARK) == FULL
    assert len(text.splitlines()) == 1 + len(FULL.blocks) + 1
    assert read_sheet(text.replace("\n", "\r\n"), MARK) == FULL


def test_another_fingerprint_is_not_believed() -> None:
    assert read_sheet(written_sheet(FULL), "00000000") is None


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        "null",
        '{"is":"Run","text":"a"}',
        '{"is":"open"}',
        "{",
        "[" * 3000,
        json.dumps({"is": "SheetText"}),
    ],
)
def test_what_is_no_sheet_is_none(text: str) -> None:
    assert read_sheet(text, MARK) is None


def test_no_cut_or_changed_text_is_believed() -> None:
    text = written_sheet(FULL)
    lines = text.splitlines(keepends=True)
    assert all(read_sheet("".join(lines[:at] + lines[at + 1 :]), MARK) is None for at in range(len(lines)))
    for old, other in (('"a"', '"b"'), ('"k"', '"j"'), ('"x"', '"y"'), ('"k"', "5")):
        assert old in text
        assert read_sheet(text.replace(old, other, 1), MARK) is None
