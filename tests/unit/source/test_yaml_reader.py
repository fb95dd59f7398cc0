"""What the YAML reader gives back: text as typed, exact places, and the same on both parsers."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from linebook.source import yaml_reader
from linebook.source.faults import Outcome, Severity
from linebook.source.nodes import MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import DEEPEST, LONGEST_TEXT, read_yaml

BEFORE = "---\n"  # so that an offset of the slice and one of the file differ


def read(text: str) -> Outcome[Node]:
    source = SourceFile(path="dishes/a.md", text=BEFORE + text + "---\nbody: not: yaml\n")
    return read_yaml(source, len(BEFORE), len(BEFORE) + len(text))


def plain(node: Node) -> Any:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, MappingNode):
        return {entry.key.text: plain(entry.value) for entry in node.entries}
    return [plain(item) for item in node.items]


def placed(node: Node) -> Any:
    span = (node.span.start, node.span.end)
    if isinstance(node, Scalar):
        return node.text, node.plain, span
    if isinstance(node, MappingNode):
        return span, [(placed(entry.key), placed(entry.value)) for entry in node.entries]
    return span, [placed(item) for item in node.items]


def codes(outcome: Outcome[Node]) -> list[str]:
    return [fault.code for fault in outcome.faults]


def test_a_spec_is_read_as_typed() -> None:
    text = """\
name: Short rib, celeriac   # remark
call: 9 min
sizes: {full: {factor: 1}, taste: {factor: 0.4}}
elements:
  - {item: celeriac-puree, amount: 70 g, at: 5 o'clock}
  - item: walnut-crumb
    note: >
      thick end
      left
    leave_off: yes
price: '34'
empty:
"""
    outcome = read(text)
    assert outcome.faults == ()
    assert plain(outcome.value) == {
        "name": "Short rib, celeriac",
        "call": "9 min",
        "sizes": {"full": {"factor": "1"}, "taste": {"factor": "0.4"}},
        "elements": [
            {"item": "celeriac-puree", "amount": "70 g", "at": "5 o'clock"},
            {"item": "walnut-crumb", "note": "thick end left\n", "leave_off": "yes"},
        ],
        "price": "34",
        "empty": "",
    }


def test_every_span_covers_its_own_text_and_lines_count_from_the_top_of_the_file() -> None:
    outcome = read("name: Rib 🍖 ½\namount: 14 kg\nlist: [a, 'b c']\n")
    name, amount, items = outcome.value.entries
    assert (name.value.span.text, name.value.span.place) == ("Rib 🍖 ½", "dishes/a.md:2:7")
    assert (amount.key.span.text, amount.value.span.place) == ("amount", "dishes/a.md:3:9")
    assert (items.value.span.text, items.value.items[1].span.text) == ("[a, 'b c']", "'b c'")
    assert outcome.value.span.text == "name: Rib 🍖 ½\namount: 14 kg\nlist: [a, 'b c']"


def test_a_quoted_value_is_known_from_a_plain_one() -> None:
    entries = read("a: '3'\nb: 3\nc: |\n  3\n").value.entries
    assert [entry.value.plain for entry in entries] == [False, True, False]


def test_line_ends_of_windows_move_no_place() -> None:
    outcome = read("name: Rib\r\ncall: 9 min\r\n")
    assert plain(outcome.value) == {"name": "Rib", "call": "9 min"}
    assert outcome.value.entries[1].value.span.place == "dishes/a.md:3:7"


@pytest.mark.parametrize("text", ["", "\n", "# only a remark\n", "---\n", "\n\n# x\n"])
def test_nothing_written_is_an_empty_mapping_or_an_empty_value(text: str) -> None:
    outcome = read(text)
    assert outcome.faults == ()
    assert outcome.value in (MappingNode(entries=(), span=outcome.value.span), Scalar(text="", span=outcome.value.span))


def test_a_missing_value_is_an_empty_plain_text_right_after_its_colon() -> None:
    for text in ("k:\n", "k:   \nl: 1\n", "{k: }\n", "{k: , l: 1}\n", "k: # remark\n"):
        value = read(text).value.entries[0].value
        assert (value.text, value.plain) == ("", True)
        assert value.span.start == value.span.end == len(BEFORE) + text.index("k:") + 2


def test_a_list_at_the_top_and_a_word_at_the_top_are_left_to_the_field_reader() -> None:
    assert isinstance(read("- a\n- b\n").value, SequenceNode)
    assert read("word\n").value.text == "word"


def test_of_a_field_written_twice_the_first_is_kept_and_both_lines_are_shown() -> None:
    outcome = read("name: first\nline: hearth\nname: second\n")
    assert plain(outcome.value) == {"name": "first", "line": "hearth"}
    (found,) = outcome.faults
    assert (found.code, found.severity) == ("LB102", Severity.ERROR)
    assert found.span.line == 4
    assert [related.span.line for related in found.related] == [2]
    assert "`name`" in found.message


def test_the_same_name_in_two_groups_is_no_repetition() -> None:
    assert read("a: {item: x}\nb: {item: y}\nc:\n  - item: x\n  - item: y\n").faults == ()


def test_depth_is_bounded() -> None:
    deep = "a: " + "[" * (DEEPEST - 1) + "]" * (DEEPEST - 1) + "\n"
    assert codes(read(deep)) == []
    assert codes(read("a: " + "[" * DEEPEST + "]" * DEEPEST + "\n")) == ["LB110"]


def test_a_text_too_long_is_a_fault() -> None:
    assert codes(read("a: " + "x" * LONGEST_TEXT + "\n")) == []
    assert codes(read("a: " + "x" * (LONGEST_TEXT + 1) + "\n")) == ["LB110"]


def test_faults_before_a_syntax_fault_are_kept() -> None:
    assert codes(read("a: 1\na: 2\nb: c: d\n")) == ["LB102", "LB101"]


SAMPLES = [
    "a: 1\nb: {c: [d, 'e'], f: }\ng:\n",
    "- item: x\n  amount: 3\n-\n- [a, [b, {c: d}]]\n",
    "a: |\n  text\n  more\n\nb: >-\n  x\n\n\nc: d\n",
    'a: "x\n  y"\nb: it\'s\nc: "é½🍖"\n',
    "a: 🍖 ½\r\nb: 3\r\n",
    "a: b\n  c\n  d\ne: f # g\nh: i #j\n",
    "a: [1, 2,\n  3]\nb: {c: {d: e}}\n? f\n: g\n",
    "{a, b: c}\n",
    "a: {item: x, amount: }\nb: []\nc: {}\n",
    "a:\n  b:\n    - c\n    - d: e\n  f: g\n\n\n# end\n",
    "&a b: *a\nc: !x d\n<<: e\n? [f]\n: g\n",
    "a: b: c\n",
    "a: [b\nc: d\n",
    'a: "\\q"\n',
    'a: "\\ud800"\n',
    "[" * 2000,
    "a: 'b\n",
    "a: b\n---\nc: d\n",
    "%YAML 1.1\n---\na: b\n",
    "a: |3\n x\n",
]


@pytest.mark.parametrize("text", SAMPLES)
def test_both_parsers_give_the_same_values_places_and_faults(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert yaml.__with_libyaml__, "the C parser is not installed, so this test would compare nothing"
    fast = read(text)
    monkeypatch.setattr(yaml_reader, "_fast_loader", lambda: None)
    slow = read(text)
    assert (fast.value and placed(fast.value)) == (slow.value and placed(slow.value))
    assert fast.faults == slow.faults


kitchen_text = st.text(alphabet=st.sampled_from(list("ab1 \n:-{}[],'\"#|>&*!%@`?<=.½\\")), max_size=60)


@settings(max_examples=400, deadline=None)
@given(kitchen_text)
def test_both_parsers_agree_on_anything_both_can_read(text: str) -> None:
    fast = read(text)
    keep = yaml_reader._fast_loader
    yaml_reader._fast_loader = lambda: None
    try:
        slow = read(text)
    finally:
        yaml_reader._fast_loader = keep
    if fast.value is not None and slow.value is not None:
        assert placed(fast.value) == placed(slow.value)


@settings(max_examples=400, deadline=None)
@given(st.text(max_size=80) | kitchen_text | st.text(alphabet=st.characters(), max_size=40))
def test_nothing_is_ever_raised_and_a_missing_value_has_its_fault(text: str) -> None:
    outcome = read(text)
    assert outcome.value is not None or any(fault.severity is Severity.ERROR for fault in outcome.faults)
    for fault in outcome.faults:
        assert 0 <= fault.span.start <= fault.span.end <= len(fault.span.source.text)
        assert fault.message
        assert not fault.message.endswith(".")


lines = st.sampled_from(
    ["name: a", "a: [1", "b: 2]", "- x", "  c: d", "e:", "f: |", "    g", "h: 'i", "j: k: l", "", "# m", "{", "}"]
)


@settings(max_examples=300, deadline=None)
@given(st.lists(lines, max_size=12).map("\n".join))
def test_lines_in_any_order_never_raise(text: str) -> None:
    outcome = read(text)
    assert outcome.value is not None or outcome.faults


@settings(max_examples=150, deadline=None)
@given(
    st.recursive(
        st.text(alphabet="abc 1½é.", min_size=1, max_size=8),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(st.text(alphabet="abc", min_size=1, max_size=4), inner, max_size=3)
        ),
        max_leaves=12,
    )
)
def test_what_another_writer_writes_is_read_back(value: Any) -> None:
    """Compared with PyYAML's own writer, with every text quoted so that no type is guessed on either side."""
    text = yaml.dump(value, default_style='"', allow_unicode=True, width=1000)
    text = text.replace("!!map ", "").replace("!!seq ", "")
    assert plain(read(text).value) == (value if value != {} else {})
