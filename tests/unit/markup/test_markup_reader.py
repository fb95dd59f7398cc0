"""Reading rendered sheets: the whole vocabulary, white space as in HTML, and every refusal with its place."""

from __future__ import annotations

import pytest

from linebook.markup.blocks import (
    Box,
    Cell,
    Fact,
    Facts,
    FigureRef,
    Heading,
    Mark,
    Paragraph,
    Points,
    Row,
    Rule,
    Run,
    Split,
    Step,
    Steps,
    Table,
)
from linebook.markup.reader import read_markup
from linebook.markup.vocabulary import MARKS, TAGS
from linebook.source.spans import SourceFile

HEAD = '<article id="a" class="batch-card"><header><h1>Name</h1></header>\n'


def read(body: str):
    return read_markup(f"{HEAD}{body}\n</article>", "sheet.xml")


def blocks(body: str):
    outcome = read(body)
    assert outcome.faults == ()
    return outcome.value.blocks


def the_fault(body: str):
    outcome = read(body)
    assert outcome.value is None
    assert len(outcome.faults) == 1, outcome.faults
    return outcome.faults[0]


def test_a_sheet_has_its_head():
    text = (
        '<article id="b:x" class="batch-card" data-line="hearth" data-page="landscape"><header>'
        '<p class="kicker">Hearth</p><h1>Short <i>rib</i></h1><p class="aside">draft</p></header></article>'
    )
    sheet = read_markup(text, "s").value
    assert (sheet.id, sheet.kind, sheet.line, sheet.landscape) == ("b:x", "batch-card", "hearth", True)
    assert sheet.kicker == (Run(text="Hearth"),)
    assert sheet.title == (Run(text="Short "), Run(text="rib", italic=True))
    assert sheet.aside == (Run(text="draft"),)
    assert sheet.blocks == ()


def test_every_block_is_read():
    body = """
      <section><h2 data-key="k">Smoke<span class="aside">7 h</span></h2></section>
      <p class="lead" data-key="makes">Makes <b>9 kg</b></p>
      <dl class="allergens"><dt data-key="contains">Contains</dt><dd><span data-key="milk">milk</span>, egg</dd></dl>
      <table class="log"><colgroup><col class="name"/><col class="text"/></colgroup>
        <thead><tr><th scope="col" colspan="2">log</th></tr></thead>
        <tbody><tr class="group" data-key="g"><th colspan="2">Brine</th></tr>
        <tr data-key="r"><th scope="row">salt<span class="note">fine</span></th><td>at <span class="blank" data-width="5"></span></td></tr>
        </tbody></table>
      <ol start="3"><li data-key="s.1">Lay.</li><li>Turn.</li></ol>
      <ul><li data-key="p.1">Sharp</li></ul>
      <hr/>
      <figure class="small" data-figure="plate" aria-label="a plate"><figcaption>see</figcaption></figure>
      <div class="box limit" data-key="cool"><p>57 to 21</p></div>
      <div class="split" data-left="40"><div class="left"><p>l</p></div><div class="right"><p>r</p></div></div>
    """
    assert blocks(body) == (
        Heading(level=2, content=(Run(text="Smoke"),), aside=(Run(text="7 h"),), key="k"),
        Paragraph(content=(Run(text="Makes "), Run(text="9 kg", bold=True)), role="lead", key="makes"),
        Facts(
            facts=(
                Fact(
                    term=(Run(text="Contains"),),
                    value=(Run(text="milk", key="milk"), Run(text=", egg")),
                    key="contains",
                ),
            ),
            role="allergens",
        ),
        Table(
            columns=("name", "text"),
            head=(Row(cells=(Cell(content=(Run(text="log"),), scope="col", span=2),)),),
            rows=(
                Row(cells=(Cell(content=(Run(text="Brine"),), span=2),), heading=True, key="g"),
                Row(
                    cells=(
                        Cell(content=(Run(text="salt"),), note=(Run(text="fine"),), scope="row"),
                        Cell(content=(Run(text="at "), Mark(kind="blank", width=5))),
                    ),
                    key="r",
                ),
            ),
            role="log",
        ),
        Steps(
            steps=(
                Step(number=3, content=(Run(text="Lay."),), key="s.1"),
                Step(number=4, content=(Run(text="Turn."),)),
            )
        ),
        Points(points=(Paragraph(content=(Run(text="Sharp"),), key="p.1"),)),
        Rule(),
        FigureRef(name="plate", alternative="a plate", caption=(Run(text="see"),), role="small"),
        Box(blocks=(Paragraph(content=(Run(text="57 to 21"),)),), role="limit", key="cool"),
        Split(left=(Paragraph(content=(Run(text="l"),)),), right=(Paragraph(content=(Run(text="r"),)),), left_share=40),
    )


@pytest.mark.parametrize("kind", MARKS)
def test_every_mark_is_read_and_said(kind):
    paragraph = blocks(f'<p><span class="{kind}">said</span></p>')[0]
    assert paragraph.content == (Mark(kind=kind, word="said"),)


@pytest.mark.parametrize(
    ("inside", "runs"),
    [
        ("  a \n\t b  ", (Run(text="a b"),)),
        ("a <b> b</b> c", (Run(text="a "), Run(text="b", bold=True), Run(text=" c"))),
        ("a<b> b </b> c", (Run(text="a"), Run(text=" b ", bold=True), Run(text="c"))),
        ("<b>a</b><b>b</b>", (Run(text="ab", bold=True),)),
        ("2\u00a0kg&#160; x", (Run(text="2\u00a0kg\u00a0 x"),)),
        ("a <i> </i> b", (Run(text="a b"),)),
        ("<b> </b>", ()),
        ("x <b><i>y</i></b>", (Run(text="x "), Run(text="y", bold=True, italic=True))),
        ('<span class="quiet">q<span lang="es">s</span></span>', (Run(text="q", quiet=True), Run(text="s", quiet=True, lang="es"))),
        ('a <span class="tick"></span> b', (Run(text="a "), Mark(kind="tick"), Run(text=" b"))),
        ("&lt;b&gt;fish&amp;chips&lt;/b&gt;", (Run(text="<b>fish&chips</b>"),)),
    ],
)  # fmt: skip
def test_white_space_runs_together_as_in_html(inside, runs):
    assert blocks(f"<p>{inside}</p>")[0].content == runs


@pytest.mark.parametrize(
    ("body", "words", "hint"),
    [
        ("<em>x</em>", "`<em>` is no tag of a sheet", "write `<i>`"),
        ("<tabel/>", "`<tabel>` is no tag of a sheet", "write `<table>`"),
        ('<p class="laed">x</p>', "`<p>` has no class `laed` on a sheet", "write `lead`"),
        ('<p style="x">x</p>', "`<p>` has no attribute `style` on a sheet", ""),
        ('<p datakey="x">x</p>', "`<p>` has no attribute `datakey` on a sheet", "write `data-key`"),
        ("loose words", "the words `loose words` stand directly in `<article>`", "put the words in a `<p>`"),
        ("<ul><p>x</p></ul>", "`<p>` may not stand in `<ul>`", "`<ul>` holds `li`"),
        ('<figure data-figure="x"/>', "`<figure>` lacks its attribute `aria-label`", 'write `aria-label="…"`'),
        ("<div/>", "`<div>` needs a class", "one of box, split"),
        ("<?php x ?>", "`<?php` is nothing a sheet may hold", "leave it out"),
        ('<ol start="x"/>', '`start="x"` is no whole number from 1 to 999', "write a number"),
        ("<dl><dd>x</dd></dl>", "a `dl` holds `dt` and `dd` in turn", "write one `dd` after each `dt`"),
        ("<table><tbody/></table>", "a table names its columns first", "begin it with `<colgroup>`"),
        (
            '<table><colgroup><col class="name"/></colgroup><tbody><tr><td>a</td><td>b</td></tr></tbody></table>',
            "a row fills 2 columns of a table that has 1",
            "give each row one cell a column",
        ),
        ('<div class="split"><div class="left"/></div>', '`<div class="split">` is neither a box nor a split', "write"),
        ('<p class="aside">x</p>', "a paragraph in the sheet has no class `aside`", "give it one role"),
        ('<p><span class="aside">x</span></p>', '`<span class="aside">` stands at the end of a heading', "move it there"),
        (
            '<dl class="allergens"><dt>Contains</dt><dd> </dd></dl>',
            "a line about allergens is empty",
            "print what the card is given for it",
        ),
        (
            '<dl class="allergens"><dt>Contains</dt><dd><span class="quiet">milk</span></dd></dl>',
            "words about allergens may not be quiet or small",
            "take the class away",
        ),
    ],
)  # fmt: skip
def test_what_sheets_do_not_have_is_refused_with_its_line(body, words, hint):
    fault = the_fault(f"<hr/>\n{body}")
    assert fault.code == "LB703"
    assert words in fault.message
    assert not hint or hint in fault.hints[0]
    assert fault.span.line == 3


def test_broken_xml_is_one_fault_with_its_line():
    fault = the_fault("<hr/>\n<p>fish & chips</p>")
    assert fault.code == "LB702"
    assert fault.span.line == 3
    assert "`&amp;`" in fault.hints[0]
    assert the_fault("<p><b>x</p></b>").message.endswith("a tag is closed that is not the last one opened")


def test_a_document_type_is_refused_before_any_entity_grows():
    bomb = '<!DOCTYPE a [<!ENTITY x "xxxx"><!ENTITY y "&x;&x;&x;">]><article id="a" class="batch-card">&y;</article>'
    outcome = read_markup(bomb, "sheet.xml")
    assert [fault.code for fault in outcome.faults] == ["LB703"]
    assert outcome.faults[0].message == "a sheet has no document type"


def test_deep_nesting_stops():
    outcome = read("<section>" * 3000)
    assert [fault.code for fault in outcome.faults] == ["LB703"]
    assert "40 deep" in outcome.faults[0].message


def test_all_faults_are_found_in_one_run():
    outcome = read('<em>a</em>\n<p class="zz">b</p>\n<p>ok</p>\nloose')
    assert [(fault.code, fault.span.line) for fault in outcome.faults] == [("LB703", 2), ("LB703", 3), ("LB703", 5)]


def test_a_fault_also_shows_the_line_of_the_template():
    template = SourceFile(path="templates/x.xml.j2", text="<article>\n\n  <em>{{ x }}</em>\n")
    outcome = read_markup(f"{HEAD}<em>a</em></article>", "sheet.xml", sources=(template,))
    assert outcome.faults[0].related[0].span.place == "templates/x.xml.j2:3:3"


def test_a_place_counts_characters_not_bytes():
    outcome = read("<p>purée</p><em>x</em>")
    assert (outcome.faults[0].span.line, outcome.faults[0].span.column) == (2, 13)


def test_a_sheet_must_have_a_name_and_a_kind():
    assert "a sheet has no name" in read_markup('<article id="a" class="batch-card"/>', "s").faults[0].message
    wrong = read_markup('<article id="a"><header><h1>x</h1></header></article>', "s").faults
    assert wrong[0].message == "`<article>` needs a class"
    assert read_markup("<p>x</p>", "s").faults[0].message == "a sheet begins with `<article>`, not with `<p>`"


def test_every_tag_of_the_vocabulary_is_documented():
    import linebook.markup.vocabulary as vocabulary

    for tag in TAGS:
        assert (
            f"``{tag}``" in vocabulary.__doc__ or f"``{tag}." in vocabulary.__doc__ or f"<{tag}" in vocabulary.__doc__
        )


def test_a_heading_may_start_a_page():
    starts, runs_on = blocks('<h2 data-key="notes" data-page="new">Notes</h2><h2>More</h2>')
    assert starts == Heading(level=2, content=(Run(text="Notes"),), key="notes", starts_page=True)
    assert not runs_on.starts_page
    assert "no way to start a heading" in the_fault('<h2 data-page="landscape">Notes</h2>').message
    assert the_fault('<h3 data-page="new">Notes</h3>').code == "LB703"
