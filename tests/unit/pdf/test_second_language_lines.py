"""A second language on paper: on lines of its own under the first, or after it where there is one line; never too small."""

from __future__ import annotations

from dataclasses import fields

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pdf_samples import FACES, THEME, set_out

from linebook.documents.catalogue import catalogue_of
from linebook.markup.blocks import Cell, Fact, Facts, Heading, Mark, Row, Run, Second, Table
from linebook.model.taxonomy import spanish
from linebook.pdf.layout import Layout
from linebook.pdf.lines import LineMaker
from linebook.pdf.pieces import Words
from linebook.pdf.theme import Density, floor_of
from linebook.pdf.words import parted, run_on

TIGHT = LineMaker(THEME, FACES, Density(type=0.8, leading=0.9, space=0.3))
LAYOUT = Layout(THEME, FACES, Density(type=1, leading=1, space=1))
OPEN = LAYOUT.lines
STYLES = THEME.styles


def two(first: str, second: str, **style: bool):
    return (Run(text=first), Second(content=(Run(text=second, **style),), lang="es"))


def text_of(line) -> str:
    return "".join(text for _, pieces in line.runs for _, text in pieces)


def settings_of(line):
    return {setting for _, pieces in line.runs for setting, _ in pieces}


def drawn(strips) -> list[str]:
    return [
        "".join(text for _, text in op.pieces).strip()
        for strip in strips
        for op in set_out(strip)
        if isinstance(op, Words)
    ]


def test_the_second_begins_a_line_of_its_own_however_short():
    lines = OPEN.lines(OPEN.words(two("Salt", "Sal"), STYLES.step), 400)
    assert [text_of(line) for line in lines] == ["Salt", "Sal"]
    assert [line.part for line in lines] == [1.0, pytest.approx(STYLES.step.least / STYLES.step.size)]


@pytest.mark.parametrize("maker", [OPEN, TIGHT], ids=["open", "tight"])
@pytest.mark.parametrize("style", [getattr(STYLES, one.name) for one in fields(STYLES)], ids=lambda style: style.name)
def test_the_second_is_in_the_least_size_regular_and_as_dark_as_the_first(maker, style):
    content = (Run(text="Salt", small=True), Second(content=(Run(text="Sal", small=True),), lang="es"))
    words = maker.words(content, style)
    setting = words[-1].parts[-1][0]
    assert setting.face in ("regular", "italic")
    assert setting.ink == style.ink
    assert setting.size >= floor_of(style.name)
    assert setting.size == (style.least if words[-1].begins else maker.size(style))


@pytest.mark.parametrize("maker", [OPEN, TIGHT], ids=["open", "tight"])
@pytest.mark.parametrize("style", THEME.paragraphs.values(), ids=lambda style: style.name)
def test_in_running_text_it_stands_under_in_the_least_size(maker, style):
    *_, word = maker.words(two("Salt", "Sal"), style)
    assert (word.begins, word.parts[0][0].size) == (pytest.approx(style.least / maker.size(style)), style.least)


def test_a_quiet_figure_is_quiet_in_both():
    content = (Run(text="12 leaves", quiet=True), Second(content=(Run(text="12 hojas", quiet=True),), lang="es"))
    assert {word.parts[0][0].ink for word in OPEN.words(content, STYLES.figure)} == {"quiet"}


def test_what_is_marked_out_in_the_second_stays_bold():
    content = (
        Run(text="10 min", bold=True),
        Second(content=(Run(text="10 min ", bold=True), Run(text="solo")), lang="es"),
    )
    _, line = OPEN.lines(OPEN.words(content, STYLES.step), 400)
    assert [(setting.face, text) for _, pieces in line.runs for setting, text in pieces] == [
        ("bold", "10 min "),
        ("regular", "solo"),
    ]


@pytest.mark.parametrize("name", ["kicker", "aside", "running", "column", "group", "foot"])
def test_where_there_is_one_line_it_follows_after_a_stroke(name):
    style = getattr(STYLES, name)
    (line,) = OPEN.lines(OPEN.words(two("Station card", "Ficha de plato"), style), 500)
    assert text_of(line) == "Station card / Ficha de plato"
    assert line.part == 1.0


def test_any_line_can_be_asked_to_have_one():
    (line,) = OPEN.lines(OPEN.words(two("contains", "contiene"), STYLES.fact, along=True), 500)
    assert text_of(line) == "contains / contiene"


@pytest.mark.parametrize(
    ("first", "second", "shown"),
    [
        ("80 covers", "80 cubiertos", "80 covers / cubiertos"),
        ("Hearth · Station card", "Hearth · Ficha de plato", "Hearth · Station card / Ficha de plato"),
        ("menu", "menu del día", "menu / menu del día"),
        ("menu a", "menu", "menu a / menu"),
        ("from Hearth", "de Fuego", "from Hearth / de Fuego"),
    ],
)
def test_what_both_begin_with_is_said_once(first, second, shown):
    (line,) = OPEN.lines(OPEN.words(two(first, second), STYLES.column), 500)
    assert text_of(line) == shown


plain = st.lists(st.text(alphabet="abcñé1-/", min_size=1, max_size=9), min_size=1, max_size=12).map(" ".join)


@settings(max_examples=200, deadline=None)
@given(first=plain, second=plain, width=st.sampled_from([40.0, 120.0, 400.0]))
def test_no_letter_of_either_language_is_lost_or_set_too_wide(first, second, width):
    words = OPEN.words(two(first, second), STYLES.step)
    lines = OPEN.lines(words, width)
    assert "".join(text_of(line) for line in lines).replace(" ", "") == (first + second).replace(" ", "")
    assert all(line.width <= width + 0.02 for line in lines)
    own, other = parted(words)
    assert OPEN.natural(words) == pytest.approx(max(sum(word.width + word.gap for word in one) for one in (own, other)))
    assert OPEN.least(words) == max(word.width for word in words)
    starts = [number for number, line in enumerate(lines) if line.part < 1]
    assert starts == list(range(starts[0], len(lines))), "the second language comes last, whole"


def test_lines_of_the_second_stand_closer():
    (strip,) = LAYOUT.flow(OPEN.words(two("Salt", "Sal"), STYLES.step), STYLES.step, 400, before=0)
    leading = OPEN.leading(STYLES.step)
    assert strip.height == pytest.approx(leading * (1 + STYLES.step.least / STYLES.step.size))


# -- two texts in a row


def said(words) -> list[str]:
    return [text_of(line) for line in OPEN.lines(words, 500)]


def test_texts_in_a_row_run_on_language_by_language():
    name, note = OPEN.words(two("Salt", "Sal"), STYLES.name), OPEN.words(two("fine", "fina"), STYLES.note)
    assert said(run_on(name, OPEN.apart(note, 9))) == ["Salt fine", "Sal fina"]
    assert parted(run_on(name, OPEN.apart(note, 9)))[1][1].gap == 9
    alone = OPEN.words((Run(text="Salt"),), STYLES.name)
    assert said(run_on(alone, OPEN.apart(note, 9))) == ["Salt fine", "fina"]
    assert said(run_on(name, OPEN.apart(OPEN.words((Run(text="fine"),), STYLES.note), 9))) == ["Salt fine", "Sal"]
    assert run_on(alone, []) == alone
    assert run_on([], note) == note


def test_a_verdict_names_its_foods_in_both_languages_even_where_they_have_one_name():
    facts = Facts(
        facts=(Fact(term=two("Do not serve", "No servir"), value=(Run(text="honey"),), key="refuse"),), role="verdicts"
    )
    shown = "|".join(drawn(LAYOUT.measure(facts, 400, {})))
    assert shown == "Do not serve|honey|No servir|honey"


def test_a_heading_has_its_aside_beside_it_in_each_language():
    heading = Heading(level=3, content=two("Salt", "Salar"), aside=two("by hand 5 min", "a mano 5 min"))
    (strip,) = LAYOUT.measure(heading, 400, {})
    rows = {}
    for op in set_out(strip):
        rows.setdefault(round(op.y, 2), []).append("".join(text for _, text in op.pieces).strip())
    assert list(rows.values()) == [["Salt", "by hand 5 min"], ["Salar", "a mano 5 min"]]


def test_labels_stand_language_by_language_and_further_apart():
    both = Facts(facts=tuple(Fact(term=two("Keeps", "Se conserva"), value=two("3 days", "3 días")) for _ in range(2)))
    one = Facts(facts=tuple(Fact(term=(Run(text="Keeps"),), value=(Run(text="3 days"),)) for _ in range(2)))
    first, second = LAYOUT.measure(both, 300, {})
    assert drawn([first]) == ["Keeps", "Se conserva", "3 days", "3 días"]
    assert second.before > LAYOUT.measure(one, 300, {})[1].before


@pytest.mark.parametrize(("columns", "lines"), [(6, 2), (40, 1)])
def test_heads_of_marks_have_a_line_for_each_language_where_the_column_is_wide_enough(columns, lines):
    heads = (Cell(content=()), *(Cell(content=two("milk", "leche"), scope="col") for _ in range(columns)))
    cells = (
        Cell(content=(Run(text="Rib"),), scope="row"),
        *(Cell(content=(Mark(kind="free"),)) for _ in range(columns)),
    )
    table = Table(
        columns=("name", *["mark"] * columns), head=(Row(cells=heads),), rows=(Row(cells=cells),) * 2, role="matrix"
    )
    width = 500 if lines > 1 else THEME.spaces.matrix_name + columns * THEME.spaces.mark_column_least
    turned = [
        "".join(text for _, text in op.pieces)
        for strip in LAYOUT.measure(table, width, {})
        for op in strip.ops
        if isinstance(op, Words) and op.turn
    ]
    shown = ["milk", "leche"] if lines > 1 else ["milk / leche"]
    assert turned[: len(shown)] == shown
    assert len(turned) == columns * lines


# -- letters


def test_the_font_has_every_letter_of_the_spanish_words():
    letters = set("".join(catalogue_of("es").sentences.values()))
    for names in (spanish.SUBSTANCE_NAMES, *spanish.GROUP_NAMES.values()):
        letters |= set("".join(name.text for name in names.values()))
    letters |= set("".join((*spanish.TITLES.values(), *spanish.SHORT.values())))
    assert set("ñáéíóúü¿º") <= letters | {"ü"}
    assert FACES.lacks(letters | set("¡ÑÁÉÍÓÚÜ")) == ()
