"""The method: what its blocks and pieces are, where each stands, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from linebook.model.body import AmountOf, Fixed, Form, Words
from linebook.read.body import read_body
from linebook.read.reading import Reading
from linebook.source.spans import SourceFile


def read(text, before=""):
    source = SourceFile(path="x.md", text=before + text)
    reading = Reading()
    body = read_body(source, len(before), len(before) + len(text), reading)
    return body, reading.faults


def pieces_of(text):
    body, faults = read(f"## A\n\n{text}\n")
    assert not faults, [(fault.message, fault.span.text) for fault in faults]
    (block,) = body.sections[0].blocks
    return block.pieces


def faults_of(text):
    return [(fault.code, fault.span.text) for fault in read(text)[1]]


def test_sections_and_forms():
    body, faults = read(
        "## Pick-up\n1. one\n2. two\n\n## If it goes wrong ##\n\n- split\n- grainy\n\nA paragraph\nof two lines.\n"
    )
    assert not faults
    assert [(section.title, section.key) for section in body.sections] == [
        ("Pick-up", "pick-up"),
        ("If it goes wrong", "if-it-goes-wrong"),
    ]
    assert [[block.form for block in section.blocks] for section in body.sections] == [
        [Form.STEP, Form.STEP],
        [Form.POINT, Form.POINT, Form.PARAGRAPH],
    ]
    assert body.sections[1].blocks[2].pieces[0].text == "A paragraph of two lines."
    assert body.find_section("pick-up").blocks[1].pieces[0].text == "two"


def test_an_empty_method_has_no_sections_and_no_faults():
    assert read("")[0].sections == ()
    assert read("\n  \n")[1] == []


def test_numbers_typed_by_the_chef_do_not_matter():
    for text in ("## A\n1. a\n1. b\n9. c\n", "## A\n3) a\n4) b\n9) c\n", "## A\n1. a\n\n2. b\n\n3. c\n"):
        body, faults = read(text)
        assert not faults
        assert [block.pieces[0].text for block in body.sections[0].blocks] == ["a", "b", "c"]


def test_pieces_of_a_step():
    pieces = pieces_of("1. Whisk {butter} butter, {1/3 of fine-salt} salt and {fixed 2 L} **hot *very* water** in.")
    assert pieces == (
        Words(text="Whisk ", span=pieces[0].span),
        AmountOf(item="butter", span=pieces[1].span),
        Words(text=" butter, ", span=pieces[2].span),
        AmountOf(item="fine-salt", part=Fraction(1, 3), span=pieces[3].span),
        Words(text=" salt and ", span=pieces[4].span),
        Fixed(text="2 L", span=pieces[5].span),
        Words(text=" ", span=pieces[6].span),
        Words(text="hot ", strong=True, span=pieces[7].span),
        Words(text="very", strong=True, emphasis=True, span=pieces[8].span),
        Words(text=" water", strong=True, span=pieces[9].span),
        Words(text=" in.", span=pieces[10].span),
    )
    assert [piece.span.text for piece in pieces[:6]] == [
        "Whisk ",
        "{butter}",
        " butter, ",
        "{1/3 of fine-salt}",
        " salt and ",
        "{fixed 2 L}",
    ]
    assert [piece.span.text for piece in pieces[7:]] == ["hot ", "very", " water", " in."]


@pytest.mark.parametrize(
    ("typed", "part"),
    [
        ("{butter}", 1),
        ("{ butter }", 1),
        ("{half of butter}", Fraction(1, 2)),
        ("{two thirds of butter}", Fraction(2, 3)),
        ("{30 % of butter}", Fraction(3, 10)),
        ("{½ of butter}", Fraction(1, 2)),
        ("{0.25 of butter}", Fraction(1, 4)),
        ("{1/3 of\n   butter}", Fraction(1, 3)),
    ],
)
def test_parts_in_braces(typed, part):
    before, brace, after = pieces_of(f"1. Melt {typed} now")
    assert (before.text, after.text) == ("Melt ", " now")
    assert (brace.item, brace.part) == ("butter", part)
    assert brace.span.text == typed


def test_bold_braces_are_bold():
    pieces = pieces_of("1. Add **{butter} of butter** now")
    assert [piece.strong for piece in pieces] == [False, True, True, False]


def test_places_count_from_the_top_of_the_file():
    body, faults = read("## A\n\n1. one {b}\n   two\n", before="---\nname: x\n---\n")
    assert not faults
    block = body.sections[0].blocks[0]
    assert [piece.span.place for piece in block.pieces] == ["x.md:6:4", "x.md:6:8", "x.md:6:11"]
    assert body.sections[0].span.place == "x.md:4:4"
    assert block.span.place == "x.md:6:4"
    assert block.span.text == "one {b}\n   two"


@pytest.mark.parametrize("end", ["\n", "\r\n", "  \n", "\\\n"])
@pytest.mark.parametrize("indent", ["   ", "", "     "])
def test_every_character_of_wrapped_words_has_its_place(end, indent):
    (words,) = pieces_of(f"1. Stir \\*well\\* & it's{end}{indent}185 °C{end}{indent}or so")
    assert words.text == "Stir *well* & it's 185 °C or so"
    for at, letter in enumerate(words.text):
        typed = words.part(at, at + 1)
        assert typed.text in (letter, f"\\{letter}") or (letter == " " and not typed.text.strip(" \\\r\n"))
    start = words.text.index("185")
    assert words.part(start, start + 6).text == "185 °C"
    assert words.part(start, start + 6).line == 4


def test_a_step_of_two_paragraphs_is_one_step():
    (words,) = pieces_of("1. first\n\n   second")
    assert words.text == "first second"
    assert words.part(6, 12).text == "second"


def test_text_stays_as_typed():
    typed = "½ & &amp; “quoted” it's 5 < 6 > 4 -- ... (c) http://a.b 1.5 kg a_b_c a*b ~~x~~ [x] {fixed ½ cup}"
    pieces = pieces_of(f"1. {typed}")
    assert "".join(piece.text if isinstance(piece, Words) else "{fixed ½ cup}" for piece in pieces) == typed


def test_escaped_marks_are_text():
    (words,) = pieces_of("1. a \\{b\\} \\*c\\* \\# d")
    assert words.text == "a {b} *c* # d"
    assert words.strong is words.emphasis is False


def test_a_tab_prints_as_a_space():
    assert pieces_of("1.\ta\tb")[0].text == "a b"


@pytest.mark.parametrize(
    ("text", "pointed"),
    [
        ("# A\n", "A"),
        ("### A\n", "A"),
        ("A\n===\n", "A"),
        ("A\n---\n", "A"),
        ("##\n", ""),
        ("text\n", "text"),
        ("## A\n| a | b |\n|---|---|\n| 1 | 2 |\n", "| a | b |"),
        ("## A\n<div>\nx\n</div>\n", "<div>"),
        ("## A\n<!-- x -->\n", "<!-- x -->"),
        ("## A\nx <b>y</b>\n", "<b>"),
        ("## A\nx <br> y\n", "<br>"),
        ("## A\n![x](y)\n", "![x](y)"),
        ("## A\na [x](y) b\n", "[x](y)"),
        ("## A\na <http://x.y> b\n", "<http://x.y>"),
        ("## A\na `x` b\n", "`x`"),
        ("## A\n```\nx\n```\n", "```"),
        ("## A\n    x\n", "x"),
        ("## A\n> x\n", "> x"),
        ("## A\n\n***\n", "***"),
        ("## A\n1. x\n   - y\n", "- y"),
        ("## A\n1.\n", "1."),
        ("## A\n-\n", "-"),
        ("## A\n1.x\n", "1."),
        ("## A\n-x\n", "-"),
        ("## A\n• x\n", "• "),
        ("##A\n", "##"),
        ("## A\nDo:\n2. x\n", "2."),
        ("## A {b}\n", "A {b}"),
    ],
)
def test_what_cannot_be_printed_is_refused_in_its_place(text, pointed):
    faults = read(text)[1]
    assert faults[0].code == "LB117"
    assert faults[0].span.text == pointed
    assert faults[0].hints
    assert len([fault for fault in faults if "before the first heading" not in fault.message]) <= 1


def test_what_follows_a_refused_block_is_still_read():
    body, faults = read("## A\n| a |\n|---|\n| b |\n\n> x\n> - y\n\n1. {b}\n")
    assert [fault.code for fault in faults] == ["LB117", "LB117"]
    assert [block.pieces[0].item for block in body.sections[0].blocks] == ["b"]


@pytest.mark.parametrize(
    ("text", "code", "pointed", "hint"),
    [
        ("{}", "LB214", "{}", "write `{butter}`, `{1/3 of butter}` or `{fixed 2 L}`"),
        ("{Butter}", "LB214", "{Butter}", "write `{butter}`"),
        ("{brown butter}", "LB214", "{brown butter}", "write `{brown-butter}`"),
        ("{1/3 of Brown butter}", "LB214", "{1/3 of Brown butter}", "write `{1/3 of brown-butter}`"),
        ("{200 g butter}", "LB214", "{200 g butter}", "write `{200-g-butter}`"),
        ("{fixed}", "LB214", "{fixed}", "write the amount inside: `{fixed 2 L}`"),
        ("{3/2 of butter}", "LB316", "{3/2 of butter}", None),
        ("{0 of butter}", "LB316", "{0 of butter}", None),
        ("{some of butter}", "LB301", "{some of butter}", None),
        ("{1,5 of butter}", "LB303", "{1,5 of butter}", None),
        ("{butter", "LB214", "{", "close it with `}` after the ingredient's id"),
        ("butter}", "LB214", "}", "open it with `{` before the ingredient's id"),
        ("{a {b}", "LB214", "{", "close it with `}`"),
        ("{{b}}", "LB214", "{{b}", "`{b}`"),
        ("{1/2 b}", "LB214", "{1/2 b}", "`{1/2 of b}`"),
        ("{2 kg}", "LB214", "{2 kg}", "`{fixed 2 kg}`"),
    ],
)
def test_braces_that_cannot_be_read(text, code, pointed, hint):
    _, faults = read(f"## A\n1. Melt {text} now\n")
    assert [(fault.code, fault.span.text) for fault in faults] == [(code, pointed)]
    if hint:
        assert hint in faults[0].hints[0]


def test_a_heading_twice_shows_both():
    _, faults = read("## Smoke\n1. a\n## smoke\n2. b\n")
    (fault,) = faults
    assert (fault.code, fault.span.line, fault.related[0].span.line) == ("LB212", 3, 1)


def test_lengths_are_capped():
    assert faults_of(f"## A\n1. {'x' * 10_001}\n")[0][0] == "LB110"
    assert faults_of(f"## A\n1. {'x' * 10_000}\n") == []
    assert faults_of("## A\n" + "1. x\n" * 501)[0][0] == "LB110"
    assert faults_of("## A\n" + "1. x\n" * 500) == []
    assert faults_of("x" * 200_001)[0][0] == "LB110"
    assert faults_of(f"## {'x' * 201}\n")[0][0] == "LB117"


@pytest.mark.parametrize("mark", ["[", "*", "**a ", "`", "<", "{", "![", "> ", "- ", "&", "\\", "_a ", "](", "1. "])
def test_a_method_of_marks_alone_ends_soon(mark):
    body, _ = read("## A\n" + mark * (10_000 // len(mark)) + "\n")
    assert len(body.sections) <= 2


def test_a_long_method_without_a_heading_is_one_fault():
    assert len(faults_of("1. a\n2. b\n\nc\n")) == 1


def test_plain_methods_do_not_load_the_markdown_parser():
    import subprocess
    import sys

    program = (
        "import sys\n"
        "from linebook.read.body import read_body\n"
        "from linebook.read.reading import Reading\n"
        "from linebook.source.spans import SourceFile\n"
        "text = '## A\\n\\n1. Whisk {b} in, **90 s**,\\n   until *thick*.\\n2. Chill.\\n\\n- 4 °C\\n'\n"
        "body = read_body(SourceFile(path='x', text=text), 0, len(text), Reading())\n"
        "assert len(body.sections[0].blocks) == 3\n"
        "assert 'markdown_it' not in sys.modules\n"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False, timeout=60).returncode == 0


def test_a_heading_without_its_space_is_one_fault_and_still_a_heading():
    body, faults = read("##Smoke\n1. a\n\n## Cool\n1. b\n")
    assert [(fault.code, fault.span.text) for fault in faults] == [("LB117", "##")]
    assert [section.key for section in body.sections] == ["smoke", "cool"]
    assert len(body.sections[0].blocks) == 1
