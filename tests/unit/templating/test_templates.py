"""Finding and running templates: search order, the fence, and every fault with the template's own line."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from linebook.documents.text import Piece, Text, words
from linebook.documents.wording import english, wording_in
from linebook.templating import running as module
from linebook.templating.templates import TemplateFolder, Templates, template_name

PACKAGED = Path(__file__).parents[3] / "templates"


SHORT_RIB = words("Short rib")


@dataclass(frozen=True)
class Row:
    key: str
    name: Text


@dataclass(frozen=True)
class View:
    title: Text = SHORT_RIB
    key: str = "rib"
    rows: tuple[Row, ...] = ()
    count: int = 3
    missing: None = None


@pytest.fixture
def folder(tmp_path):
    def write(text, name="x.xml.j2", to="one"):
        place = tmp_path / to
        place.mkdir(exist_ok=True)
        (place / name).write_text(text, encoding="utf-8")
        return place

    write.at = tmp_path
    return write


def run(folder, text, view=None, wording=None, **others):
    for name, content in others.items():
        folder(content, f"{name}.xml.j2")
    place = folder(text)
    return Templates([TemplateFolder(path=place, shown="templates")]).render(
        "x.xml.j2", view or View(), wording or english()
    )


def text_of(folder, text, view=None, **others):
    outcome = run(folder, text, view, **others)
    assert outcome.faults == ()
    return outcome.value.text


def faults_of(folder, text, view=None, **others):
    outcome = run(folder, text, view, **others)
    assert outcome.value is None
    return [(fault.code, fault.span and fault.span.line) for fault in outcome.faults]


def test_a_text_is_escaped_and_keeps_its_emphasis(folder):
    title = Text(
        (Piece(words='<b>fish & "chips"</b> {{ 7 }} '), Piece(words="hot", bold=True), Piece(words="!", italic=True))
    )
    shown = text_of(folder, "{{ sheet.title }}", View(title=title))
    assert shown == "&lt;b&gt;fish &amp; &#34;chips&#34;&lt;/b&gt; {{ 7 }} <b>hot</b><i>!</i>"


def test_a_text_in_two_languages_is_written_as_a_pair(folder):
    title = Text((Piece(words="salt"),), (Piece(words="sal & más", bold=True),))
    shown = text_of(folder, "{{ sheet.title }}", View(title=title), wording=wording_in(("en", "es")))
    assert shown == '<span class="two">salt<span class="second" lang="es"><b>sal &amp; más</b></span></span>'


def test_what_a_template_says_itself_is_said_in_both_languages(folder):
    shown = text_of(folder, "{{ say('cover.dish') }}", wording=wording_in(("es", "en")))
    assert shown == '<span class="two">plato<span class="second" lang="en">dish</span></span>'


def test_plain_gives_words_for_an_attribute(folder):
    title = Text((Piece(words="a<b", bold=True),))
    assert text_of(folder, '<i x="{{ sheet.title|plain }}"/>', View(title=title)) == '<i x="a&lt;b"/>'


def test_loops_conditions_keys_numbers_and_words(folder):
    view = View(rows=(Row("a", words("A")), Row("b", words("B"))))
    text = (
        "{% for row in sheet.rows %}{{ loop.index }}{{ row.key }}{{ row.name }}{% if not loop.last %}{{ say('list.comma') }}"
        "{% endif %}{% else %}none{% endfor %} {{ sheet.count }} {% if sheet.key == 'rib' and sheet.rows %}yes{% endif %}"
    )
    assert text_of(folder, text, view) == "1aA, 2bB 3 yes"
    assert text_of(folder, text) == "none 3 "


def test_words_take_values(folder):
    assert text_of(folder, "{{ say('from.line', line=sheet.title) }}") == "from the Short rib line"


@pytest.mark.parametrize(
    "construct",
    [
        "{{ 1 + 1 }}",
        "{{ sheet.count - 1 }}",
        "{{ sheet.count * 2 }}",
        "{{ sheet.count / 2 }}",
        "{{ sheet.count // 2 }}",
        "{{ sheet.count % 2 }}",
        "{{ sheet.count ** 2 }}",
        "{{ -sheet.count }}",
        "{{ +sheet.count }}",
        "{{ sheet.key ~ 'x' }}",
        "{{ 'a%s' % sheet.key }}",
        "{% set x = 1 %}",
        "{% set x %}a{% endset %}",
        "{% macro m() %}{% endmacro %}",
        "{% import 'y.xml.j2' as y %}",
        "{% from 'y.xml.j2' import y %}",
        "{% extends 'y.xml.j2' %}",
        "{% block b %}{% endblock %}",
        "{% filter plain %}a{% endfilter %}",
        "{% with a = 1 %}{% endwith %}",
        "{% autoescape false %}{% endautoescape %}",
        "{% call say() %}{% endcall %}",
        "{{ sheet['title'] }}",
        "{{ sheet.key[0] }}",
        "{{ sheet.title is defined }}",
        "{{ [1, 2] }}",
        "{{ {'a': 1} }}",
        "{{ sheet.key|upper }}",
        "{{ sheet.title|safe }}",
        "{{ sheet.rows|map(attribute='key') }}",
        "{{ sheet.key.upper() }}",
        "{{ sheet.key.format(1) }}",
        "{{ sheet.__class__ }}",
        "{{ sheet._hidden }}",
        "{{ say.__globals__ }}",
        "{{ say('draft').__class__.__mro__ }}",
        "{% include sheet.key %}",
        "{% for a, b in sheet.rows %}{% endfor %}",
        "{% for a in sheet.rows recursive %}{% endfor %}",
        "{% for a in sheet.rows %}{% for b in sheet.rows %}{% for c in sheet.rows %}{% for d in sheet.rows %}"
        "{% endfor %}{% endfor %}{% endfor %}{% endfor %}",
    ],
)
def test_what_a_template_may_not_do_is_refused_before_it_runs(folder, construct):
    faults = faults_of(folder, f"<p>\n\n{construct}</p>")
    assert faults[0] == ("LB705", 3)


@pytest.mark.parametrize("name", ["range", "dict", "lipsum", "cycler", "joiner", "namespace", "self", "titel", "card"])
def test_a_name_that_is_not_given_is_unknown(folder, name):
    assert faults_of(folder, f"\n{{{{ {name} }}}}") == [("LB704", 2)]


def test_a_loop_s_name_ends_with_it(folder):
    assert faults_of(folder, "{% for row in sheet.rows %}{% endfor %}\n{{ row.key }}") == [("LB704", 2)]


def test_the_nearest_name_is_offered(folder):
    fault = run(folder, "{{ sheet.titel }}").faults[0]
    assert (fault.code, fault.message) == ("LB704", "there is nothing called `titel` here")
    assert fault.hints[0] == "did you mean `title`?"
    assert run(folder, "{{ shet.title }}").faults[0].hints[0] == "did you mean `sheet`?"


@pytest.mark.parametrize(
    ("construct", "code"),
    [
        ("{{ sheet.nothing }}", "LB704"),
        ("{% if sheet.nothing %}{% endif %}", "LB704"),
        ("{{ say('no.such.words') }}", "LB704"),
        ("{{ say('from.line') }}", "LB704"),
        ("{{ say() }}", "LB705"),
        ("{{ sheet.missing }}", "LB705"),
        ("{{ sheet.rows }}", "LB705"),
        ("{{ sheet }}", "LB705"),
        ("{{ sheet.count > 2 }}", "LB705"),
        ("{{ sheet.count|plain }}", "LB705"),
        ("{% for a in sheet.count %}{% endfor %}", "LB705"),
        ("{% for a in sheet.title %}{% endfor %}", "LB705"),
        ("{% if sheet.title < 3 %}{% endif %}", "LB705"),
    ],
)
def test_what_goes_wrong_while_it_runs_has_its_line(folder, construct, code):
    assert faults_of(folder, f"<p>\n\n\n{construct}</p>") == [(code, 4)]


def test_all_refusals_are_found_in_one_run(folder):
    assert faults_of(folder, "{{ a }}\n{{ 1 + 1 }}\n{% set x = 1 %}\n{{ b }}") == [
        ("LB704", 1),
        ("LB705", 2),
        ("LB705", 3),
        ("LB704", 4),
    ]


def test_a_syntax_fault_has_its_line(folder):
    assert faults_of(folder, "<p>\n{% if sheet.key %}\n</p>") == [("LB702", 3)]
    assert faults_of(folder, "\n{{ sheet. }}") == [("LB702", 2)]
    assert faults_of(folder, "\n{% endfor %}") == [("LB702", 2)]


def test_nesting_without_end_is_a_fault(folder):
    assert faults_of(folder, "{{ " + "(" * 5000 + "1" + ")" * 5000 + " }}")[0][0] in ("LB702", "LB705")


def test_an_included_part_sees_the_loop_it_stands_in(folder):
    view = View(rows=(Row("a", words("A")), Row("b", words("B"))))
    text = "{% for row in sheet.rows %}{% include 'part.xml.j2' %}{% endfor %}"
    assert text_of(folder, text, view, part="[{{ row.name }}]") == "[A][B]"


def test_faults_of_an_included_part_are_its_own(folder):
    outcome = run(folder, "{% include 'part.xml.j2' %}", part="\n\n{{ sheet.nothing }}")
    assert [fault.span.place for fault in outcome.faults] == ["templates/part.xml.j2:3:1"]
    outcome = run(folder, "{% include 'part.xml.j2' %}", part="\n{{ row.name }}")
    assert [(fault.code, fault.span.place) for fault in outcome.faults] == [("LB704", "templates/part.xml.j2:2:1")]


def test_loops_are_counted_through_an_include(folder):
    inner = "{% for a in sheet.rows %}{% for b in sheet.rows %}{% endfor %}{% endfor %}"
    text = "{% for r in sheet.rows %}{% for s in sheet.rows %}{% include 'part.xml.j2' %}{% endfor %}{% endfor %}"
    assert faults_of(folder, text, part=inner) == [("LB705", 1)]


def test_an_included_part_includes_nothing(folder):
    assert faults_of(folder, "{% include 'part.xml.j2' %}", part="\n{% include 'x.xml.j2' %}") == [("LB705", 2)]


def test_a_missing_part_is_a_fault_where_it_is_named(folder):
    outcome = run(folder, "\n{% include 'prat.xml.j2' %}", part="")
    assert [(fault.code, fault.span.line) for fault in outcome.faults] == [("LB701", 2)]
    assert "did you mean `part.xml.j2`?" in outcome.faults[0].hints


def test_a_missing_template_says_where_it_was_looked_for(folder):
    place = folder("", "batch_card.xml.j2")
    outcome = Templates([TemplateFolder(path=place, shown="specs/templates")]).render(
        "batch_crad.xml.j2", View(), english()
    )
    assert [fault.code for fault in outcome.faults] == ["LB701"]
    assert outcome.faults[0].hints == ("did you mean `batch_card.xml.j2`?", "looked in `specs/templates`")


@pytest.mark.parametrize("name", ["../x.xml.j2", "/etc/passwd", "a/x.xml.j2", "x.txt", "..", ""])
def test_no_path_leads_out_of_the_folders(folder, name):
    place = folder("secret", "x.xml.j2", to="one")
    folder("secret", "x.xml.j2", to="two")
    outcome = Templates([TemplateFolder(path=place, shown="t")]).render(name, View(), english())
    assert [fault.code for fault in outcome.faults] == ["LB701"]


def test_a_link_that_leads_out_is_refused(folder):
    secret = folder("secret", "s.xml.j2", to="elsewhere") / "s.xml.j2"
    place = folder("", "y.xml.j2")
    (place / "x.xml.j2").symlink_to(secret)
    outcome = Templates([TemplateFolder(path=place, shown="t")]).render("x.xml.j2", View(), english())
    assert [fault.code for fault in outcome.faults] == ["LB113"]


def test_the_first_folder_wins_file_by_file(folder):
    one, two = folder("mine", to="one"), folder("ours", to="two")
    folder("only ours", "y.xml.j2", to="two")
    found = Templates([TemplateFolder(path=one, shown="one"), TemplateFolder(path=two, shown="two")])
    assert found.render("x.xml.j2", View(), english()).value.text == "mine"
    assert found.render("y.xml.j2", View(), english()).value.text == "only ours"
    assert found.render("y.xml.j2", View(), english()).value.sources[0].path == "two/y.xml.j2"


def test_output_without_end_is_stopped(folder, monkeypatch):
    monkeypatch.setattr(module, "MOST_CHARACTERS", 1_000_000)
    rows = tuple(Row(str(at), words("x" * 100)) for at in range(60))
    text = "{% for a in sheet.rows %}{% for b in sheet.rows %}{% for c in sheet.rows %}{{ c.name }}{% endfor %}{% endfor %}{% endfor %}"
    outcome = run(folder, text, View(rows=rows))
    assert [fault.code for fault in outcome.faults] == ["LB706"]


def test_a_template_is_read_once_a_run(folder, monkeypatch):
    place = folder("{{ sheet.title }}")
    found = Templates([TemplateFolder(path=place, shown="t")])
    assert found.render("x.xml.j2", View(), english()).value.text == "Short rib"
    (place / "x.xml.j2").write_text("changed")
    assert found.render("x.xml.j2", View(), english()).value.text == "Short rib"


def packaged() -> list[Path]:
    return sorted(PACKAGED.glob("*.xml.j2"))


def test_every_document_has_its_template():
    names = {path.name for path in packaged()}
    for document in (
        "batch-card",
        "station-card",
        "plating-guide",
        "allergen-matrix",
        "line-cover",
        "guest-sheet",
        "order-sheet",
    ):
        assert template_name(document) in names


@pytest.mark.parametrize("path", packaged(), ids=lambda path: path.name)
def test_packaged_templates_hold_no_words_of_their_own(path):
    text = re.sub(
        r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}|<[^>]*>|&#160;", "", path.read_text(encoding="utf-8"), flags=re.DOTALL
    )
    assert text.split() == []


@pytest.mark.parametrize("path", packaged(), ids=lambda path: path.name)
def test_packaged_templates_begin_with_a_note_for_the_chef(path):
    assert path.read_text(encoding="utf-8").startswith("{#")
