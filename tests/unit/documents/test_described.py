"""What templates are told to be given is what they are given: every name, with words about it, and no other."""

import re
from pathlib import Path

import pytest
from markupsafe import Markup

from linebook.documents.described import describe, part_at, parts_of, view_of
from linebook.documents.station_card import StationCard
from linebook.house_theme import find_templates
from linebook.templating.outline import printed_by, purpose
from linebook.templating.templates import TemplateFolder, Templates

SHIPPED = Path(__file__).parents[3] / "templates"
STEMS = sorted(name.removesuffix(".xml.j2") for name in find_templates())
SHEETS = [stem for stem in STEMS if not stem.startswith("part_")]


@pytest.mark.parametrize("stem", SHEETS)
def test_every_sheet_has_its_view(stem):
    assert view_of(stem) is not None


def test_a_part_has_no_view_of_its_own():
    assert all(view_of(stem) is None for stem in STEMS if stem.startswith("part_"))


@pytest.mark.parametrize("stem", STEMS)
def test_every_template_says_what_it_is_for(stem):
    said = purpose((SHIPPED / f"{stem}.xml.j2").read_text("utf-8"))
    assert len(said) > 30
    assert said.endswith(".")


@pytest.mark.parametrize("stem", SHEETS)
def test_every_name_is_told_with_words_about_it(stem):
    view = view_of(stem)
    for part in (view, *parts_of(view)):
        told = describe(part)
        assert told.doc
        assert not [name.name for name in told.names if not name.doc.endswith(".")], part
        own = set(vars(part)["__dataclass_fields__"])
        own |= {name for name, value in vars(part).items() if isinstance(value, property)}
        assert {name.name for name in told.names} == {name for name in own if not name.startswith("_")}


@pytest.mark.parametrize("stem", SHEETS)
def test_every_name_a_template_uses_is_told(stem):
    """Whatever follows ``sheet.`` in the shipped templates is a name of the view, or leads on from one."""
    view = view_of(stem)
    text = (SHIPPED / f"{stem}.xml.j2").read_text("utf-8")
    names = {name.name for name in describe(view).names}
    assert set(re.findall(r"\bsheet\.([a-z_]+)", text)) <= names


def test_what_a_name_leads_to_is_found_by_its_path():
    row = part_at(StationCard, ["elements"])
    assert {name.name: name.kind for name in describe(row).names} == {
        "key": "word", "plating": "number", "number": "text", "unit": "text", "name": "text", "note": "text",
        "figures": "texts",
    }  # fmt: skip
    assert part_at(StationCard, ["title"]) is None
    assert part_at(StationCard, ["nothing"]) is None
    assert part_at(StationCard, ["elements", "name", "more"]) is None
    kinds = {name.name: name.kind for name in describe(StationCard).names}
    assert (kinds["plate"], kinds["sections"], kinds["line"]) == ("part?", "list", "word")


def test_the_ways_to_a_part_are_told_as_a_template_writes_them():
    ways = {part.__name__: found for part, found in parts_of(StationCard).items()}
    assert ways["ElementRow"] == ("{% for row in sheet.elements %}",)
    assert ways["Section"] == ("{% for section in sheet.pick_up %}", "{% for section in sheet.sections %}")
    assert ways["LimitBox"] == ("section.limit",)
    assert ways["LogRow"] == ("{% for row in section.limit.log %}",)


def test_what_a_template_prints_of_others_is_told_with_the_loops_around_it(tmp_path):
    (tmp_path / "a.xml.j2").write_text(
        "{#- What it is for. -#}\n{% for one in sheet.parts %}{% if one %}{% include 'b.xml.j2' %}{% endif %}{% endfor %}"
        "{% include 'c.xml.j2' %}"
    )
    templates = Templates([TemplateFolder(path=tmp_path, shown="t")])
    told = [(one.name, one.loops) for one in printed_by(templates, "a.xml.j2")]
    assert told == [("b.xml.j2", (("one", "sheet.parts"),)), ("c.xml.j2", ())]
    assert printed_by(templates, "gone.xml.j2") == ()
    (tmp_path / "d.xml.j2").write_text("{% for %}")
    assert printed_by(templates, "d.xml.j2") == ()


def test_a_template_without_a_comment_at_its_head_says_nothing():
    assert purpose("<article/>") == ""
    assert purpose(Markup("\n{# Two\n  lines. #}<p/>")) == "Two lines."
