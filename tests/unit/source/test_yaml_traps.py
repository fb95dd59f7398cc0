"""What must not happen to a chef's front matter: one test for each way a YAML reader is known to hurt people."""

from __future__ import annotations

import pytest

from linebook.source.faults import Outcome, Severity
from linebook.source.nodes import Node
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import read_yaml


def read(text: str) -> Outcome[Node]:
    return read_yaml(SourceFile(path="a.yaml", text=text), 0, len(text))


def codes(text: str) -> list[str]:
    return [fault.code for fault in read(text).faults]


def hints(text: str) -> str:
    return " ".join(hint for fault in read(text).faults for hint in fault.hints)


@pytest.mark.parametrize(
    "typed",
    [
        *("12:30", "1:30", "1:30:00", "09:30", "0:45"),
        *("no", "NO", "on", "Off", "y", "yes", "true", "null", "~"),
        *("010", "0755", "1_000", "0b11", "0x10", "1.10", "1e3", ".5", ".inf", ".nan"),
        *("2026-11-25", "2026-02-30", "2027-03-02 10:00:00"),
        *("1,000", "5,5", "1/2", "½", "4-6", "=", "1" * 5000),
    ],
)
def test_no_value_is_retyped(typed: str) -> None:
    outcome = read(f"k: {typed}\n")
    assert outcome.faults == ()
    assert outcome.value.entries[0].value.text == typed


@pytest.mark.parametrize("text", ["k: 1\nk: 2\n", "{k: 1, k: 2}\n", "'k': 1\nk: 2\n"])
def test_a_key_written_twice_is_not_silently_the_last(text: str) -> None:
    (fault,) = read(text).faults
    assert fault.code == "LB102"
    assert fault.related


@pytest.mark.parametrize("text", ["1: a\n1.0: b\n", "yes: a\n1: b\n"])
def test_keys_that_only_look_equal_to_a_program_stay_apart(text: str) -> None:
    outcome = read(text)
    assert outcome.faults == ()
    assert len(outcome.value.entries) == 2


@pytest.mark.parametrize("typed", ["PR #5", "beef #2", "x #a b"])
def test_a_text_cut_at_a_number_sign_is_told(typed: str) -> None:
    (fault,) = read(f"k: {typed}\n").faults
    assert (fault.code, fault.severity) == ("LB112", Severity.WARNING)
    assert fault.span.text == typed[typed.index("#") :]


@pytest.mark.parametrize(
    "text", ["k: v  # a remark\n", "# k: #v\nk: v\n", "k: '#5'\n", "k: a#5\n", "k: v ## heading\n"]
)
def test_a_remark_is_not_a_cut(text: str) -> None:
    assert codes(text) == []


def test_a_value_that_is_all_remark_is_left_to_who_reads_the_field() -> None:
    assert codes("colour: #ff0000\n") == []


def test_a_colon_in_a_text_says_quote_this_text() -> None:
    (fault,) = read("line: hearth\nname: Sauce: hot\n").faults
    assert (fault.code, fault.span.place, fault.span.text) == ("LB101", "a.yaml:2:7", "Sauce: hot")
    assert "colon" in fault.message
    assert fault.hints == ('quote this text: `"Sauce: hot"`',)


def test_a_tab_says_use_spaces() -> None:
    for text in ("\tk: v\n", "k:\tv\n", "k:\n\t- v\n", "k: v\t# x\n"):
        (fault,) = read(text).faults
        assert (fault.code, fault.span.text) == ("LB104", "\t")
        assert "tab" in fault.message
        assert "spaces" in fault.hints[0]


@pytest.mark.parametrize("start", ["@", "`", "%", "> x y", "*bold* "])
def test_a_sign_that_cannot_begin_a_value_says_quote(start: str) -> None:
    text = f"k: {start}x`\n"
    assert codes(text) == ["LB101"]
    assert "double quotes" in hints(text)


def test_an_apostrophe_inside_single_quotes_says_the_other_kind_of_quote() -> None:
    assert codes("k: 'it's'\n") == ["LB101"]
    assert "other kind of quote" in hints("k: 'it's'\n")


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("<<: {a: b}\n", "LB103"),
        ("a: &x b\n", "LB103"),
        ("a: *x\n", "LB103"),
        ("a: !!int 3\n", "LB103"),
        ("a: !!python/object:os.system x\n", "LB103"),
        ("a: ! b\n", "LB103"),
        ("a: &x [b]\n", "LB103"),
        ("a: !!map {b: c}\n", "LB103"),
        ("%YAML 1.1\n---\na: b\n", "LB103"),
        ("%TAG ! tag:x,2000:\n---\na: b\n", "LB103"),
        ("a: b\n---\nc: d\n", "LB103"),
        ("? [a, b]\n: c\n", "LB103"),
        ("[" * 2000, "LB110"),
        ("{a: " * 2000, "LB110"),
        ("- " * 2000 + "x", "LB110"),
    ],
)
def test_shortcuts_and_bombs_are_refused_with_a_code(text: str, code: str) -> None:
    assert code in codes(text)


def test_aliases_cannot_blow_up() -> None:
    bomb = "a0: &a0 [x, x, x]\n" + "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 9))
    outcome = read(bomb)
    assert {fault.code for fault in outcome.faults} == {"LB103"}
    assert len(outcome.faults) == 9 + 8 * 9


@pytest.mark.parametrize(
    "text",
    [
        "k:\u00a0v\n",
        "k\u00a0: v\n",
        "\u00a0k: v\n",
        "k: \u00a0v\n",
        "- \u00a0k: v\n",
        "a: {k:\u00a0v}\n",
        "k: v\u00a0\n",
        "k:\u3000v\n",
    ],
)
def test_a_pasted_space_in_the_structure_is_named(text: str) -> None:
    (fault,) = read(text).faults
    assert fault.code == "LB104"
    assert "space" in fault.message


def test_a_pasted_space_in_a_quoted_name_is_named() -> None:
    assert codes("'k\u00a0l': v\n") == ["LB104"]


def test_a_no_break_space_inside_a_value_is_a_space() -> None:
    assert codes("k: 3\u00a0kg of\u202fit\n") == []


@pytest.mark.parametrize("typed", ["“Short rib”", "‘Short rib’", "“Short: rib", "«rib»", "„rib“"])
def test_curly_quotes_round_a_value_are_named(typed: str) -> None:
    assert "LB104" in codes(f"k: {typed}\n") or "LB101" in codes(f"k: {typed}\n")


@pytest.mark.parametrize("typed", ["’nduja", "‘nduja", "it’s", "the “good” oil", "'“Short rib”'"])
def test_curly_quotes_that_belong_to_a_text_are_left(typed: str) -> None:
    assert codes(f"k: {typed}\n") == []


@pytest.mark.parametrize(
    "character",
    ["\x00", "\x07", "\x1b", "\x7f", "\x85", "\u2028", "\ufeff", "\u200b", "\u202e", "\ud800", "\uffff", "\r"],
)
def test_control_characters_are_refused_at_their_place(character: str) -> None:
    (fault,) = read(f"a: b\nk: v{character}w\n").faults
    assert (fault.code, fault.span.place) == ("LB104", "a.yaml:2:5")


@pytest.mark.parametrize("escape", ["\\0", "\\a", "\\e", "\\x1b", "\\N", "\\L", "\\ud800", "\\ufeff", "\\U00110000"])
def test_a_backslash_cannot_smuggle_a_control_character_in(escape: str) -> None:
    outcome = read(f'k: "v{escape}w"\n')
    assert outcome.faults
    assert all(fault.severity is Severity.ERROR for fault in outcome.faults)
    if outcome.value is not None:
        assert outcome.value.entries[0].value.text == "v?w"


@pytest.mark.parametrize(
    ("text", "place", "word"),
    [
        ("a: b\nc\nd: e\n", "a.yaml:2:1", "no `: `"),
        ("a:b\nc: d\n", "a.yaml:1:2", "no space after"),
        ("a:\n - x\n -y\n", "a.yaml:3:2", "no space after its `-`"),
        ("a: b\n c: d\n", "a.yaml:2:2", "indented under a field"),
        ("a: [b, c\nd: e\n", "a.yaml:1:4", "what `[` opens"),
        ("a: {b: c\nd: e\n", "a.yaml:1:4", "what `{` opens"),
        ('a: "b\nc: d\n', "a.yaml:1:4", "never ends"),
        ("a: 'b\nc: d\n", "a.yaml:1:4", "never ends"),
        ('a: "b" c\n', "a.yaml:1:4", "after the closing quote"),
        ("a: - b\n", "a.yaml:1:4", "list is out of place"),
        (": v\n", "a.yaml:1:1", "name is missing"),
        ('a: "\\q"\n', "a.yaml:1:6", "backslash"),
        ("a: b\n...\nc: d\n", "a.yaml:3:1", "stops in the middle"),
        ("a: }\n", "a.yaml:1:4", "does not fit"),
        ("a: b\n  - c: d\n", "a.yaml:2:6", "colon"),
        ('a: b: "c"\n', "a.yaml:1:4", "colon"),
        ("{a: b}: c: d\n", "a.yaml:1:10", "colon"),
        ("{}\nx: y\n", "a.yaml:2:1", ""),
    ],
)
def test_the_parsers_words_are_put_into_kitchen_words(text: str, place: str, word: str) -> None:
    fault = read(text).faults[-1]
    assert (fault.code, fault.span.place) == ("LB101", place)
    assert word in fault.message
    for jargon in ("mapping", "token", "scalar", "block end", "scanning", "parsing", "anchor", "stream"):
        assert jargon not in fault.message + " ".join(fault.hints)
    assert fault.hints


def test_a_field_without_a_name() -> None:
    assert codes("{'': v}\n") == ["LB101"]
    assert codes("{: v}\n") == ["LB101"]


def test_only_the_first_few_characters_are_reported() -> None:
    assert codes("\tk: v\n" * 100) == ["LB104"] * 5


SLIPS = [
    ("- {item: a, prep: dice: even}\n", 1, 19, 'prep: "dice: even"'),
    ("- {item: a, stage: b}\n- {item: c, amount: 1 L stage: b}\n", 2, 25, "comma before `stage`"),
    ("- {item: a; amount: 1 L}\n", 1, 11, "comma before `amount`"),
    ("- {item: a, note: 'b' c}\n", 1, 23, "whole value"),
    ("- item: a, amount: 2 kg, stage: b}\n", 1, 3, "`{item: `"),
    ("- item: a, amount: 2 kg\n", 1, 3, "`{item: a, amount: 2 kg}`"),
    ("allergens: contains: milk\n", 1, 12, "`{contains: milk}`"),
    ('name: "Brine\nline: hearth\nnote: "half, half"\n', 1, 7, "where the text ends"),
    ("a:\n  - {b: c}\n  {b: d}\n", 3, 3, "`- ` before its `{`"),
    ("a:\n  -{b: c}\n  - {b: d}\n", 2, 3, "`- ` first"),
    ("a: 1\nloss = 5 %\nb: 2\n", 2, 1, "`loss: 5 %`"),
    ("Name - Brine\nline: hearth\n", 1, 1, "`name: Brine`"),
    ("trim:\nname: trim\n  pack: 5 kg\n  lead: 2 d\n", 2, 1, "same column"),
    ("trim:\n  name: trim\n    pack: 5 kg\n  lead: 2 d\n", 3, 5, "same column"),
    ("a: {b: c\nd: e\n", 1, 4, "`}`"),
]


@pytest.mark.parametrize(("text", "line", "column", "mend"), SLIPS)
def test_a_slip_is_told_where_it_was_made(text: str, line: int, column: int, mend: str) -> None:
    (fault,) = read(text).faults
    assert fault.code == "LB101"
    assert (fault.span.line, fault.span.column) == (line, column), fault
    assert any(mend in hint for hint in fault.hints), fault.hints


def test_a_quoted_text_over_two_lines_is_no_slip() -> None:
    (fault,) = read('name: "Brine,\n  cold"\nline hearth\nnote: x\n').faults
    assert (fault.span.line, fault.span.column) == (3, 1)
