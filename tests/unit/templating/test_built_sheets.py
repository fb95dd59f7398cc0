"""The code that builds a shipped template's sheet: for that very text alone, and never a sheet that its text would not be."""

from __future__ import annotations

import shutil
import subprocess
import sys
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from jinja2 import Environment

from linebook.documents.text import EMPTY, Text, words
from linebook.documents.wording import english
from linebook.markup import built as building
from linebook.markup.reader import read_markup
from linebook.templating import shipped
from linebook.templating.code_of_sheets import code_of_sheet
from linebook.templating.mixed import Unbuilt, mixed_tree
from linebook.templating.templates import TemplateFolder, Templates

SHIPPED = Path(__file__).parents[3] / "templates"
NOTICE = "void_notice.xml.j2"
INDEX = "allergen_index.xml.j2"
SAID = words("a < b & “c”")


@dataclass(frozen=True)
class Notice:
    id: str = "void-notice:pickle"
    replaces: Text = SAID
    reason: Text = SAID
    aloud: Text = EMPTY


@dataclass(frozen=True)
class Row:
    key: str
    name: Text
    dishes: Text


@dataclass(frozen=True)
class Part:
    rows: tuple[Row, ...]
    key: str = "part"
    title: Text = SAID
    note: Text = EMPTY


@dataclass(frozen=True)
class Index:
    parts: tuple[Part, ...]
    id: str = "allergen-index:menu"
    kicker: Text = SAID
    title: Text = SAID
    menu: Text = SAID
    how: Text = SAID
    caution: Text = SAID


def opened(folder: Path = SHIPPED) -> Templates:
    return Templates((TemplateFolder(path=folder, shown="templates"),))


def both(view: object, name: str = NOTICE, templates: Templates | None = None):
    """Return a sheet as it is built, and what is read of its text, with the faults."""
    templates = templates or opened()
    rendered = templates.render(name, view, english())
    if rendered.value is None:
        return templates.sheet(name, view, english()), rendered
    return templates.sheet(name, view, english()), read_markup(rendered.value.text, name)


def test_every_shipped_template_has_code_that_builds_its_sheet():
    names = [path.name for path in SHIPPED.glob("*.xml.j2") if not path.name.startswith("part_")]
    assert len(names) > 20
    assert [name for name in names if shipped.builder_ahead(name) is None] == []


def test_a_chefs_copy_gives_the_same_sheet_by_its_text(tmp_path):
    shutil.copytree(SHIPPED, tmp_path / "templates")
    (tmp_path / "templates" / NOTICE).write_text((SHIPPED / NOTICE).read_text("utf-8") + "{# mine #}\n", "utf-8")
    ours, _ = both(Notice())
    none, theirs = both(Notice(), templates=opened(tmp_path / "templates"))
    assert none is None
    assert ours is not None
    assert ours == theirs.value


def test_a_chefs_part_of_a_shipped_template_is_printed(tmp_path):
    shutil.copytree(SHIPPED, tmp_path / "templates")
    part = tmp_path / "templates" / "part_allergens.xml.j2"
    part.write_text(part.read_text("utf-8") + "<hr/>", "utf-8")
    templates = opened(tmp_path / "templates")
    assert templates._builder("station_card.xml.j2") is None
    assert templates._builder("set_up_sheet.xml.j2") is not None


@pytest.mark.parametrize("other", ["BUILDER", "FENCE"])
def test_code_by_another_hand_is_not_used(other, monkeypatch):
    monkeypatch.setattr(f"linebook.templating.compiled.contents.{other}", "another")
    monkeypatch.setattr(shipped, "_KNOWN", shipped._contents())
    assert opened().sheet(NOTICE, Notice(), english()) is None


@pytest.mark.parametrize(
    "changes",
    [
        {"reason": words("a\x07bell")},
        {"reason": words("a\rline")},
        {"replaces": words("  ")},
        {"id": " "},
        {"id": "a\tb"},
        {"reason": None},
        {"reason": True},
    ],
    ids=repr,
)
def test_what_is_unusual_or_wrong_is_left_to_the_text(changes):
    built, read = both(replace(Notice(), **changes))
    assert built is None
    assert read.faults or read.value is not None


@pytest.mark.parametrize("said", ["a  b", " a \n b ", "<b>", "&amp;", "]]>", "\u00a0", "½ l – “x”", ""])
def test_words_are_what_their_text_is_read_as(said):
    built, read = both(replace(Notice(), reason=words(said), aloud=words(said, bold=True)))
    assert built is not None
    assert built == read.value


def test_a_number_and_a_word_are_printed_as_they_are():
    built, read = both(replace(Notice(), reason="two  words", aloud=12))
    assert built is not None
    assert built == read.value


def test_a_name_that_the_view_has_not_is_told_by_the_text():
    built, read = both(object())
    assert built is None
    assert [fault.code for fault in read.faults] == ["LB704"]


def test_a_long_sheet_and_a_long_text_are_left_to_the_limits_of_the_text(monkeypatch):
    rows = tuple(Row(str(at), words(f"name {at}"), words("dishes")) for at in range(40))
    index = Index(parts=(Part(rows=rows),))
    built, read = both(index, INDEX)
    assert built == read.value
    monkeypatch.setattr(building, "_MOST_TURNS", 30)
    assert both(index, INDEX)[0] is None
    assert both(replace(Notice(), reason=words("x" * (building._LONGEST + 1))))[0] is None


def test_a_loop_over_no_list_is_told_by_the_text():
    built, read = both(Index(parts="letters"), INDEX)  # type: ignore[arg-type]
    assert built is None
    assert [fault.code for fault in read.faults] == ["LB705"]


HEAD = '<article id="a" class="batch-card"><header><h1>{{ sheet.title }}</h1></header>'


@pytest.mark.parametrize(
    "body",
    [
        "{% if sheet.a %}<p>{% endif %}a</p>",
        "<p{% if sheet.a %} data-key='k'{% endif %}>a</p>",
        "<p class='{{ sheet.a }}'>a</p>",
        "<p class='kicker'>a</p>",
        "<blink>a</blink>",
        "<p bad='a'>a</p>",
        "words",
        "{{ sheet.a }}",
        "<dl><dd>a</dd></dl>",
        "<dl>{% for a in sheet.a %}<dt>a</dt>{% endfor %}<dd>a</dd></dl>",
        "<table><tbody></tbody></table>",
        "<p><span class='note'>a</span></p>",
        "<p><span class='tick' data-count='900'></span></p>",
        "<h2><span class='note'>a</span></h2>",
        "<div class='split'><div class='left'></div></div>",
        "<p>{{ sheet.a + 1 }}</p>",
        "<p>{{ loop.last }}</p>",
        "{% for a in sheet.a %}{% for a in a.b %}<p>a</p>{% endfor %}{% endfor %}",
    ],
)
def test_a_template_that_is_not_plain_enough_has_no_such_code(body):
    tree = Environment(autoescape=True).parse(f"{HEAD}{body}</article>")
    with pytest.raises(Unbuilt):
        code_of_sheet(mixed_tree(tree, lambda _: pytest.fail("prints no other")))


def test_the_code_of_a_plain_template_is_python():
    tree = Environment(autoescape=True).parse(f"{HEAD}<p data-key='k'>{{{{ sheet.a }}}}</p></article>")
    code = code_of_sheet(mixed_tree(tree, lambda _: pytest.fail("prints no other")))
    compile(code, "built", "exec")
    assert "blocks=(Paragraph(line(v_sheet.a), 'body', 'k'),)" in code


@pytest.mark.parametrize(
    ("body", "built"),
    [
        ("<p>{{ sheet.a }}</p><hr/>", "(Paragraph(line(v_sheet.a), 'body'), Rule())"),
        ("{% for a in sheet.a %}<hr/>{% endfor %}", "tuple([Rule() for v_a in turns(v_sheet.a)])"),
        ("<hr/>{% for a in sheet.a %}<hr/>{% endfor %}", "(Rule(), *[Rule() for v_a in turns(v_sheet.a)])"),
        ("{% for a in sheet.a %}{% for b in a.b %}<hr/>{% endfor %}{% endfor %}", "tuple(all1)"),
        ("{% if sheet.a %}<hr/>{% endif %}", "tuple(all1)"),
        ("{% for a in sheet.a %}<hr/>{% else %}<p>a</p>{% endfor %}", "tuple(all1)"),
        ("", "()"),
    ],
)
def test_blocks_that_are_known_before_are_made_at_once(body, built):
    tree = Environment(autoescape=True).parse(f"{HEAD}{body}</article>")
    code = code_of_sheet(mixed_tree(tree, lambda _: pytest.fail("prints no other")))
    compile(code, "built", "exec")
    assert f"blocks={built})" in code


def test_a_binder_is_printed_without_jinja2(tmp_path):
    """What is shipped is built by its code, so nothing that runs templates is imported."""
    script = (
        "import sys; from linebook import copies; copies._can_copy = lambda: False\n"
        "from click.testing import CliRunner; from linebook.cli.main import command\n"
        f"done = CliRunner().invoke(command, ['bind', '--house', {str(SHIPPED.parent / 'specs')!r}, '--date', '2027-03-02', '--no-cache', '-o', {str(tmp_path)!r}])\n"
        "assert done.exit_code == 0, done.output\n"
        "assert 'linebook.pdf.binder' in sys.modules\n"
        "sys.exit('jinja2' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0
