"""Characters: what the font lacks is a fault that names it, and nothing is dropped without a word."""

from dataclasses import replace
from unicodedata import combining, is_normalized

import pytest
from pdf_samples import FACES, THEME, sheet, text

from linebook.markup.blocks import Mark, Paragraph, Run
from linebook.pdf.binder import draw_binder
from linebook.pdf.characters import _stands_alone, respelt, spelt, texts_of


def drawn(*blocks, **options):
    return draw_binder([sheet(blocks, **options)], THEME, "a4", title="t", faces=FACES)


@pytest.mark.parametrize(
    ("letter", "code"), [("☐", "U+2610"), ("鮭", "U+9BAD"), ("ا", "U+0627"), ("🐟", "U+1F41F"), ("\x07", "U+0007")]
)
def test_a_missing_character_names_itself_and_its_sheet(letter, code):
    outcome = drawn(text(f"Cure the {letter} overnight"), title="Cured trout")
    assert outcome.value is None
    (fault,) = outcome.faults
    assert fault.code == "LB801"
    assert code in fault.message
    assert "`Cured trout`" in fault.message


def test_every_missing_character_is_reported_once_a_sheet():
    outcome = drawn(text("a ☐ b ☐ c ✓"))
    assert sorted(one.message.split("`")[1] for one in outcome.faults) == ["☐", "✓"]


def test_the_title_and_the_foot_are_looked_at_too():
    assert drawn(text("a"), title="Trout ☑").faults[0].code == "LB801"
    assert drawn(text("a"), lines=("issued ☑",)).faults[0].code == "LB801"


@pytest.mark.parametrize(
    ("written", "printed"),
    [
        ("half\u2011dry", "half-dry"),
        ("65\u202f°C", "65\xa0°C"),
        ("65 ℃", "65 °C"),
        ("cafe\u0301", "café"),
        ("co\u00adoperate", "cooperate"),
    ],
)
def test_a_known_gap_is_respelt(written, printed):
    assert spelt(written) == printed
    assert drawn(text(written)).faults == ()


def test_respelling_reaches_every_text_and_leaves_the_rest():
    made = sheet(
        [Paragraph(content=(Run(text="a\u2011b", bold=True), Mark(kind="tick", count=2)))], title="x\u2011y"
    ).text
    again, letters = respelt(made)
    assert texts_of(again) == [one.replace("\u2011", "-") for one in texts_of(made)]
    assert again.blocks[0].content[0].bold
    assert again.blocks[0].content[1] == Mark(kind="tick", count=2)
    assert letters == set("".join(texts_of(again)))
    assert respelt(again)[0] is again


def test_signs_and_letters_taken_for_composed_never_join_what_stands_before_them():
    alone = [chr(code) for code in range(0x110000) if _stands_alone(chr(code))]
    assert len(alone) > 3000
    for letter in alone:
        assert combining(letter) == 0
        for before in "aeAO<=-→½":
            assert is_normalized("NFC", before + letter)


@pytest.mark.parametrize("joins", ["e\u0301", "\u1112\u1161", "\u0bc6\u0bbe", "x\u20d7\u0323", "\u212b"])
def test_letters_that_join_are_composed(joins):
    made = sheet([text(f"Purée {joins}")]).text
    again, letters = respelt(made)
    assert again is not made
    assert letters == set("".join(texts_of(again)))


@pytest.mark.parametrize("words", ["Purée ½ → 65 °C", "a\x07\x7f\t", "\ud800 lone", ""])
def test_every_letter_of_a_sheet_is_known(words):
    made = sheet([Paragraph(content=(Run(text=words),))]).text
    assert respelt(made) == (made, set("".join(texts_of(made))))


def test_spelling_of_plain_text_is_left_alone():
    plain = "Sweat 40 g of butter, 2½ cups, 65 °C → 75 °C; crème fraîche — ½"
    assert spelt(plain) == plain


def test_a_character_only_the_bold_face_lacks_is_found():
    faces = type(FACES)(FACES._paths, FACES.ready)
    bold = faces["bold"]
    bold._letters = type(bold._letters)({code: wide for code, wide in bold._letters.widths.items() if code != ord("q")})
    outcome = draw_binder([sheet([text("**quail**")])], THEME, "a4", title="Hearth", faces=faces)
    assert outcome.value is None
    assert outcome.faults[0].code == "LB801"
    assert "`q`" in outcome.faults[0].message


def test_a_role_the_theme_lacks_is_a_fault():
    theme = replace(THEME, paragraphs={role: style for role, style in THEME.paragraphs.items() if role != "safety"})
    outcome = draw_binder([sheet([text("x", "safety")])], theme, "a4", title="t", faces=FACES)
    assert [one.code for one in outcome.faults] == ["LB803"]
