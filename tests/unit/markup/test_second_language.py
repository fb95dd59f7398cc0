"""The second language of a sheet: pairs in the markup, one line after the other in the block tree, told when it changes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linebook.documents.wording import english, wording_in
from linebook.markup.blocks import Facts, Mark, Paragraph, Run, Second, Steps, both_in_two
from linebook.markup.difference import describe_difference
from linebook.markup.fingerprint import fingerprint_of
from linebook.markup.reader import read_markup
from linebook.markup.said import plain
from linebook.markup.seconds import in_second_language, languages_of
from linebook.markup.spoken import spoken_of


def two(first: str, second: str, lang: str = "es") -> str:
    return f'<span class="two">{first}<span class="second" lang="{lang}">{second}</span></span>'


def read(body: str, *, title: str = "Rib", aside: str = ""):
    aside = f'<p class="aside">{aside}</p>' if aside else ""
    text = f'<article id="a" class="batch-card"><header><h1>{title}</h1>{aside}</header>{body}</article>'
    return read_markup(text, "sheet.xml")


def sheet(body: str, **heads: str):
    outcome = read(body, **heads)
    assert outcome.faults == ()
    return outcome.value


def line(body: str):
    (block,) = sheet(f"<p>{body}</p>").blocks
    assert isinstance(block, Paragraph)
    return block.content


# -- reading


def test_all_of_a_line_in_the_second_language_follows_all_of_it_in_the_first():
    content = line(f"{two('the oven', 'el horno')} <b>200 °C</b>, {two('lid on', 'tapado')}.")
    assert content == (
        Run(text="the oven "),
        Run(text="200 °C", bold=True),
        Run(text=", lid on."),
        Second(
            content=(Run(text="el horno "), Run(text="200 °C", bold=True), Run(text=", tapado.")),
            lang="es",
        ),
    )


def test_one_language_reads_as_ever():
    assert line("the <b>oven</b> ") == (Run(text="the "), Run(text="oven", bold=True))


def test_a_second_that_says_the_same_is_left_out():
    assert line(two("menu", "menu")) == (Run(text="menu"),)
    assert line(two("menu", " ")) == (Run(text="menu"),)


def test_bold_that_marks_nothing_out_is_dropped_in_the_second():
    content = line(f"<b>{two('milk', 'leche')}</b>, <b>{two('egg', 'huevo')}</b>")
    assert content[-1] == Second(content=(Run(text="leche, huevo"),), lang="es")
    content = line(f"<b>{two('milk', 'leche')}</b> {two('in it', 'dentro')}")
    assert content[-1].content == (Run(text="leche", bold=True), Run(text=" dentro"))


def test_a_key_is_kept_on_its_words_in_both():
    first, second = line(f'<span data-key="milk">{two("milk", "leche")}</span>')
    assert first.key == "milk"
    assert [run.key for run in second.content] == ["milk"]


def test_a_mark_is_drawn_once_and_said_in_both():
    tick, run, second = line(f'<span class="tick" data-count="2"/> {two("done", "hecho")}')
    assert (tick, run) == (Mark(kind="tick", count=2), Run(text=" done"))
    assert second.content == (Run(text="hecho"),)
    (mark,) = line(f'<span class="contains">{two("contains milk", "contiene leche")}</span>')
    assert mark == Mark(kind="contains", word="contains milk / contiene leche")


def test_both_stand_before_a_blank_to_write_on():
    content = line(f'{two("start", "inicio")}&#160;<span class="blank" data-width="4"/>&#160;°C')
    assert content == (
        Run(text="start / "),
        Run(text="inicio", lang="es"),
        Run(text="\u00a0"),
        Mark(kind="blank", width=4),
        Run(text="\u00a0°C"),
    )


def test_a_note_and_an_aside_have_seconds_of_their_own():
    (heading,) = sheet(
        f'<h3 data-key="k">{two("Salt", "Salar")}<span class="aside">{two("5 min by hand", "5 min a mano")}</span></h3>'
    ).blocks
    assert heading.content[-1] == Second(content=(Run(text="Salar"),), lang="es")
    assert heading.aside[-1] == Second(content=(Run(text="5 min a mano"),), lang="es")


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ('<span class="second" lang="es">sal</span>', '`<span class="second">` has no words before it'),
        ('<span class="two">salt</span>', '`<span class="two">` does not end in a second language'),
        ('<span class="two"/>', '`<span class="two">` does not end in a second language'),
        (
            '<span class="two">salt<span class="second">sal</span></span>',
            '`<span class="two">` does not end in a second language',
        ),
        (
            f'<span class="two">{two("a", "b")}<span class="second" lang="es">c</span></span>',
            "a pair of languages stands in another",
        ),
    ],
)
def test_what_is_no_pair_is_refused(body, message):
    outcome = read(f"<p>x {body}</p>")
    assert [(fault.code, fault.message) for fault in outcome.faults] == [("LB703", message)]


def test_allergen_words_are_plain_to_see_in_both_languages():
    body = f'<dl class="allergens"><dt>{two("Contains", "Contiene")}</dt><dd>{{}}</dd></dl>'
    assert read(body.format(two("milk", "leche"))).faults == ()
    grey = body.format(two("milk", '<span class="quiet">leche</span>'))
    assert [fault.message for fault in read(grey).faults] == ["words about allergens may not be quiet or small"]


# -- as a tree


def test_two_lines_read_as_one_both_get_a_second():
    with_second = (Run(text="No"), Second(content=(Run(text="Non"),), lang="es"))
    alone = (Mark(kind="tick"), Run(text="honey"))
    assert both_in_two(with_second, alone) == (
        with_second,
        (*alone, Second(content=(Run(text="honey"),), lang="es")),
    )
    assert both_in_two(alone, alone) == (alone, alone)
    assert both_in_two((), with_second) == ((), with_second)


def test_a_sheet_in_its_second_language():
    one = sheet(f"<p>{two('salt', 'sal')}</p><p>plain</p>", title=two("Rib", "Costilla"))
    other = in_second_language(one)
    assert plain(other.title) == "Costilla"
    assert [plain(block.content) for block in other.blocks] == ["sal", "plain"]
    assert languages_of(one) == ("es",)
    assert languages_of(other) == ()


def test_a_second_language_alone_changes_the_fingerprint():
    one, other = (sheet(f"<p>{two('salt', word)}</p>") for word in ("sal", "sal fina"))
    assert len({fingerprint_of(one), fingerprint_of(other), fingerprint_of(sheet("<p>salt</p>"))}) == 3


# -- what changed


def said(before, after, wording=None) -> list[str]:
    return [text.plain.replace("\u00a0", " ") for text in describe_difference(before, after, wording or english())]


def steps(*texts: str, heading: str = two("Salt", "Salar")) -> str:
    items = "".join(f'<li data-key="salt.{at}">{text}</li>' for at, text in enumerate(texts, 1))
    return f'<h3 data-key="salt">{heading}</h3><ol>{items}</ol>'


def facts(term: str, value: str) -> str:
    return f'<dl class="plain"><dt data-key="fact.keeps">{term}</dt><dd>{value}</dd></dl>'


def row(name: str, amount: str, note: str) -> str:
    return (
        '<table class="ingredients"><colgroup><col class="amount"/><col class="name"/></colgroup><tbody>'
        f'<tr data-key="row"><td>{amount}</td><th scope="row">{name}<span class="note">{note}</span></th></tr>'
        "</tbody></table>"
    )


KEEPS = two("Keeps", "Se conserva")


def test_a_step_reworded_in_the_second_language_alone():
    before = sheet(steps(two("Rub in.", "Frotar."), two("Wait.", "Esperar.")))
    after = sheet(steps(two("Rub in.", "Frotar."), two("Wait.", "Reposar.")))
    assert said(before, after) == ["Spanish: Salt step 2 reworded"]
    assert said(before, after, wording_in(("es",))) == ["español: Salt, paso 2: otra redacción"]


def test_a_step_reworded_in_both_is_told_once_and_the_other_by_itself():
    before = sheet(steps(two("Rub in.", "Frotar."), two("Wait.", "Esperar."), two("Turn.", "Girar.")))
    after = sheet(steps(two("New.", "Nuevo."), two("Rub.", "Frotar bien."), two("Wait.", "Aguardar.")))
    told = said(before, after)
    assert "Spanish: Salt step 3 reworded" in told
    assert not [one for one in told if one.startswith("Spanish") and "step 3" not in one]


def test_a_step_reworded_in_the_first_language_alone_says_so_in_the_second():
    before = sheet(steps(two("Pat the rib dry.", "Secar la costilla."), two("Wait.", "Esperar.")))
    after = sheet(steps(two("Wipe the rib dry.", "Secar la costilla."), two("Wait.", "Esperar.")))
    (told,) = describe_difference(before, after, spoken_of(wording_in(["en", "es"]), [before, after]))
    assert told.plain.replace("\u00a0", " ") == "Salt step 1 reworded: Pat → Wipe"
    other = "".join(piece.words for piece in told.in_second).replace("\u00a0", " ")
    assert other == "inglés: Salar, paso 1: otra redacción: Pat → Wipe"


def test_a_step_translated_for_the_first_time():
    before, after = sheet(steps("Rub in.")), sheet(steps(two("Rub in.", "Frotar.")))
    assert said(before, after) == ["Spanish: Salt step 1 reworded"]


def test_a_heading_a_fact_and_a_note_in_the_second_language_alone():
    assert said(sheet(steps("x")), sheet(steps("x", heading=two("Salt", "Curar")))) == [
        "Spanish: Salar is now called Curar"
    ]
    assert said(sheet(facts(KEEPS, two("3 days", "3 días"))), sheet(facts(KEEPS, two("3 days", "tres días")))) == [
        "Spanish: Keeps: 3 días → tres días"
    ]
    before, after = (sheet(row(two("salt", "sal"), "3 g", two("fine", word))) for word in ("fina", "muy fina"))
    assert said(before, after) == ["Spanish: salt, note: fina → muy fina"]
    before, after = (sheet(row(two("salt", word), "3 g", two("fine", "fina"))) for word in ("sal", "sal de mesa"))
    assert said(before, after) == ["Spanish: sal is now called sal de mesa"]


def test_a_title_in_the_second_language_alone():
    before, after = (sheet(f"<p>{two('a', 'b')}</p>", title=two("Rib", word)) for word in ("Costilla", "Costillar"))
    assert said(before, after) == ["Spanish: Name: Costilla → Costillar"]


def test_what_changed_in_both_languages_is_told_in_the_first():
    before = sheet(facts(KEEPS, two("3 days", "3 días")), title=two("Rib", "Costilla"))
    after = sheet(facts(KEEPS, two("4 days", "4 días")), title=two("Short rib", "Costilla corta"))
    assert said(before, after) == ["Name: Rib → Short rib", "Keeps: 3 days → 4 days"]
    before = sheet(row(two("salt", "sal"), two("3 pieces", "3 piezas"), two("fine", "fina")))
    after = sheet(row(two("salt", "sal"), two("4 pieces", "4 piezas"), two("fine", "muy fina")))
    assert said(before, after) == ["salt 3 pieces → 4 pieces", "Spanish: salt, note: fina → muy fina"]


def test_a_language_that_comes_or_goes_is_told_in_one_sentence():
    one, both = sheet(facts("Keeps", "3 days")), sheet(facts(KEEPS, two("3 days", "3 días")))
    assert said(one, both) == ["now also in Spanish"]
    assert said(both, one) == ["no longer in Spanish"]
    french = sheet(facts(two("Keeps", "Se garde", "fr"), two("3 days", "3 jours", "fr")))
    assert said(both, french) == ["now also in fr", "no longer in Spanish"]


def test_the_same_words_in_other_dress_are_no_change_of_words():
    before = sheet(steps(two("Rub <b>well</b> in.", "Frotar <b>bien</b>.")))
    after = sheet(steps(two("Rub <b>well</b> in.", "Frotar bien.")))
    assert said(before, after) == ["same words, set another way"]
    assert said(before, before) == []


def test_nothing_of_a_second_language_is_lost_by_reading():
    (block,) = sheet(steps(two("Rub in.", "Frotar."))).blocks[1:]
    assert isinstance(block, Steps)
    assert block.steps[0].content[-1].content == (Run(text="Frotar."),)
    (block,) = sheet(facts(KEEPS, two("3 days", "3 días"))).blocks
    assert isinstance(block, Facts)
    assert replace(block.facts[0].term[-1], lang="") == Second(content=(Run(text="Se conserva"),), lang="")
