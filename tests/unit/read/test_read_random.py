"""Random text: nothing raises, every place is inside its file, and the plain reader agrees with Markdown."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from read_specs import GOOD, write_house

from linebook.read import body as body_module
from linebook.read import inline as inline_module
from linebook.read.body import read_body
from linebook.read.house_folder import read_house
from linebook.read.plain_blocks import plain_blocks
from linebook.read.reading import Reading
from linebook.source.spans import SourceFile

_TOKENS = re.compile(r"\w+|\s+|[^\w\s]")
_NOISE = ["", " ", "\n", "  ", "- ", ": ", "{", "}", "[", "]", ",", "'", '"', "#", "---", "\t", "é", "½", "°", "0", "~"]
_MORE_NOISE = ["&a", "*a", "<<", "!x", "null", "1,5", "💥", "\u00a0", "“", "%", "|", ">", "x" * 3000, "yes", "9" * 40]


@st.composite
def changed_specs(draw):
    """A good spec with a few of its words replaced, doubled or left out."""
    path = draw(st.sampled_from(list(GOOD)))
    words = _TOKENS.findall(GOOD[path])
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(words) - 1))
        kind = draw(st.integers(0, 3))
        if kind == 0:
            words[at] = draw(st.sampled_from(_NOISE + _MORE_NOISE))
        elif kind == 1:
            words[at] = draw(st.text(max_size=6).filter(lambda text: text.isprintable()))
        elif kind == 2:
            words[at : at + draw(st.integers(1, 12))] = [""]
        else:
            other = draw(st.integers(0, len(words) - 1))
            words[at], words[other] = words[other], words[at]
        words = words or [""]
    return path, "".join(words)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return write_house(tmp_path_factory.mktemp("random"))


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(change=changed_specs())
def test_a_changed_spec_never_raises_and_every_fault_has_its_place(folder, change):
    path, text = change
    target = folder / path
    try:
        target.write_bytes(text.encode("utf-8", "replace"))
        reading = read_house(folder, "specs")
    finally:
        target.write_bytes(GOOD[path].encode())
    assert reading.outcome.value is not None
    for fault in reading.outcome.faults:
        assert fault.span is not None
        assert 0 <= fault.span.start <= fault.span.end <= len(fault.span.source.text)
        assert fault.message
        assert not fault.message.endswith(".")


_WORDS = st.sampled_from(
    [
        "salt",
        "Whisk",
        "at 93 °C",
        "2.5 kg",
        "12",
        "1/2",
        "{butter}",
        "{1/3 of egg}",
        "it's",
        "(see",
        "over)",
        "½",
        "a.b",
        "5",
        "x:",
    ]
)
_MARKS = st.sampled_from(["**", "*", "_", "\\*", "`", "[", "<b>", "!", "&amp;", "***", "~", "|", "#", "**,", "*."])
_PIECE = st.one_of(_WORDS, _WORDS, _WORDS, _MARKS)
_TEXT = st.lists(st.tuples(_PIECE, st.sampled_from(["", " ", " "])), min_size=1, max_size=7).map(
    lambda parts: "".join(piece + gap for piece, gap in parts)
)
_START = st.sampled_from(
    [
        "",
        "",
        "1. ",
        "2. ",
        "3) ",
        "- ",
        "- ",
        "* ",
        "## ",
        "## ",
        "# ",
        "   ",
        "  ",
        "    ",
        "> ",
        "10. ",
        "1.",
        "-",
        "+ ",
        "=",
        "---",
    ]
)
_END = st.sampled_from(["\n", "\n", "\n\n", " \n", "  \n", "\\\n", "\r\n"])
_METHODS = st.lists(st.tuples(_START, _TEXT, _END), max_size=9).map(
    lambda lines: "".join("".join(line) for line in lines)
)


def read_in_full(text, monkey):
    """Read a method with Markdown's parser alone."""
    with monkey.context() as patched:
        patched.setattr(body_module, "plain_blocks", lambda *_: None)
        patched.setattr(inline_module, "_plain_pieces", lambda *_: None)
        patched.setattr(inline_module, "_parts", lambda _: None)
        return read(text)


def read(text):
    source = SourceFile(path="x.md", text=text)
    reading = Reading()
    body = read_body(source, 0, len(text), reading)
    spans = [piece.span for section in body.sections for block in section.blocks for piece in block.pieces]
    faults = [(fault.code, fault.message, fault.span.start, fault.span.end) for fault in reading.faults]
    return body, [(span.start, span.end) for span in spans], faults


@settings(max_examples=600, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=_METHODS)
@example(text="## A\n- a\n2. b\n")
@example(text="## A\n1. a\n- b\n")
@example(text="## A\n**a**b **c**\n")
@example(text="1. a\n\n   b\n")
def test_the_plain_reader_agrees_with_markdown(text):
    with pytest.MonkeyPatch.context() as monkey:
        assert read(text) == read_in_full(text, monkey)


@settings(max_examples=400, deadline=None)
@given(text=_METHODS)
@example(text="## A\nsalt \\\nsalt\n")
@example(text="## A\n1. salt\n   #\n   salt\n")
def test_every_piece_is_found_again_where_it_says_it_stands(text):
    body, spans, _ = read(text)
    assert spans == sorted(spans)
    for section in body.sections:
        for block in section.blocks:
            for piece in block.pieces:
                plain = getattr(piece, "text", None)
                if plain is None or not hasattr(piece, "part"):
                    assert piece.span.text.startswith("{")
                    assert piece.span.text.endswith("}")
                    continue
                for at, letter in enumerate(plain):
                    typed = piece.part(at, at + 1).text
                    assert typed in (letter, f"\\{letter}") or (letter == " " and not typed.strip(" \\\r\n\t"))


def test_most_plain_methods_need_no_markdown():
    methods = [text.split("---\n")[2] for path, text in GOOD.items() if path.endswith(".md")]
    assert methods
    assert all(plain_blocks(method) is not None for method in methods)
