"""A house's own templates may move and leave out what a sheet says, and do nothing else; and nothing in the house folder leads out of it."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest
from house_mutations import ISSUED, REPOSITORY, STARTER, assert_told_well, texts_of, write_house
from printed_text import linebook, pages_of, sheets_of, squeezed, text_of

from linebook.model.house import House
from linebook.pdf.printing import Printing
from linebook.pipeline import build_binders, load_house
from linebook.source.faults import Outcome
from linebook.workshop import PdfFile

CARD = (REPOSITORY / "templates/station_card.xml.j2").read_text("utf-8")
OWN = '<p data-key="own">Ring the bell when it is up</p>'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_house(texts_of(STARTER), tmp_path / "kitchen")


@pytest.fixture(scope="module")
def house() -> House:
    loaded = load_house(STARTER, "kitchen")
    assert loaded.value is not None
    return loaded.value


def _override(folder: Path, text: str, name: str = "station_card.xml.j2") -> Path:
    (folder / "templates").mkdir(exist_ok=True)
    (folder / "templates" / name).write_bytes(text.encode("utf-8", "surrogateescape"))
    return folder


def _card_with(text: str) -> str:
    """Return our station card with something more at its end."""
    begin, end, rest = CARD.rpartition("</article>")
    return f"{begin}{text}{end}{rest}"


def _bind(house: House, folder: Path) -> Outcome[tuple[PdfFile, ...]]:
    return build_binders(
        house, menu="first-menu", nights=(40,), lines=("stove",), printing=Printing(paper="a4"), issued=ISSUED, folder=folder, progress=lambda _: None
    )  # fmt: skip


def test_an_override_of_one_sheet_changes_that_sheet_alone(folder: Path, tmp_path: Path) -> None:
    assert linebook("bind", folder, "-o", tmp_path / "before").exit_code == 0
    _override(folder, _card_with(OWN))
    result = linebook("bind", folder, "-o", tmp_path / "after")
    assert result.exit_code == 0, result.stderr
    before, after = (sheets_of(tmp_path / name / "stove-binder.pdf") for name in ("before", "after"))
    assert [sheet.titles for sheet in before] == [sheet.titles for sheet in after]
    changed = [sheet.titles[-1] for sheet, other in zip(before, after, strict=True) if sheet.pages != other.pages]
    assert changed == ["Line binder", "Station card"], "the card, and its fingerprint on the cover"
    card = next(sheet for sheet in after if sheet.titles[-1] == "Station card")
    assert card.says("Ring the bell when it is up")
    assert pages_of(tmp_path / "before/allergen-matrix.pdf") == pages_of(tmp_path / "after/allergen-matrix.pdf")


def test_an_override_of_a_part_changes_every_sheet_that_has_it(folder: Path, tmp_path: Path) -> None:
    part = (REPOSITORY / "templates/part_allergens.xml.j2").read_text("utf-8")
    _override(folder, OWN + part, "part_allergens.xml.j2")
    result = linebook("bind", folder, "-o", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    assert text_of(tmp_path / "out/stove-binder.pdf").count(squeezed("Ring the bell when it is up")) >= 4


def test_an_override_that_leaves_a_thing_out_shows_in_the_fingerprint(folder: Path, tmp_path: Path) -> None:
    assert linebook("bind", folder, "-o", tmp_path / "before").exit_code == 0
    _override(folder, CARD.replace('<p data-key="call">{{ sheet.call }}</p>', '<p data-key="call">call</p>'))
    assert linebook("bind", folder, "-o", tmp_path / "after").exit_code == 0
    before, after = (sheets_of(tmp_path / name / "stove-binder.pdf")[3].pages[-1] for name in ("before", "after"))
    marks = [page.partition("issued")[0][-8:] for page in (before, after)]
    assert marks[0] != marks[1]
    assert all(mark.isalnum() and mark.upper() == mark for mark in marks)


# What a template tries, and the code it is told by. Each is the whole template, on its third line.
TRIES: dict[str, tuple[str, str]] = {
    "times": ("{{ sheet.call * 2 }}", "LB705"),
    "plus": ("{{ 1 + 1 }}", "LB705"),
    "per cent": ("{{ '%d' % 3 }}", "LB705"),
    "joined": ('{{ "1" ~ sheet.call }}', "LB705"),
    "minus": ("{{ -1 }}", "LB705"),
    "an amount made larger": ("{% for row in sheet.elements %}{{ row.number * 10 }}{% endfor %}", "LB705"),
    "an amount with a nought behind": ("{% for row in sheet.elements %}{{ row.number ~ '0' }}{% endfor %}", "LB705"),
    "an amount replaced": ("{% for row in sheet.elements %}{{ row.number|replace('2', '9') }}{% endfor %}", "LB705"),
    "an amount set": ("{% set sheet = 1 %}", "LB705"),
    "a password file": ('{% include "/etc/passwd" %}', "LB701"),
    "a password file if there": ('{% include "/etc/passwd" ignore missing %}', "LB701"),
    "a spec": ('{% include "../house.yaml" %}', "LB701"),
    "a spec by a turn": ('{% include "x/../../house.yaml" %}', "LB701"),
    "a list of files": ('{% include ["/etc/passwd"] %}', "LB705"),
    "a computed name": ("{% include sheet.id %}", "LB705"),
    "itself": ('{% include "station_card.xml.j2" %}', "LB705"),
    "an import": ('{% import "x.xml.j2" as x %}', "LB705"),
    "a parent": ('{% extends "line_cover.xml.j2" %}', "LB705"),
    "a class": ("{{ sheet.__class__ }}", "LB705"),
    "a class of a text": ("{{ ''.__class__.__mro__ }}", "LB705"),
    "globals": ("{{ say.__globals__ }}", "LB705"),
    "globals by init": ("{{ say.__init__.__globals__ }}", "LB705"),
    "the words' own": ("{{ say._wording }}", "LB705"),
    "attr": ('{{ sheet|attr("__class__") }}', "LB705"),
    "format": ('{{ "{0.__class__}".format(sheet) }}', "LB705"),
    "item": ('{{ sheet["__class__"] }}', "LB705"),
    "loop's own": ("{% for row in sheet.elements %}{{ loop.__init__ }}{% endfor %}", "LB705"),
    "a call": ("{{ sheet.elements.count(1) }}", "LB705"),
    "a method": ("{{ sheet.elements.count }}", "LB705"),
    "self": ("{{ self }}", "LB704"),
    "cycler": ("{{ cycler }}", "LB704"),
    "lipsum": ("{{ lipsum(n=1000000) }}", "LB705"),
    "safe": ("{{ sheet.title|safe }}", "LB705"),
    "no escaping": ("{% autoescape false %}{{ sheet.title }}{% endautoescape %}", "LB705"),
    "a macro of itself": ("{% macro a() %}{{ a() }}{% endmacro %}{{ a() }}", "LB705"),
    "words of a thing": ('{{ say("loads", loads=sheet, load=sheet.elements) }}', "LB705"),
    "words by a thing": ("{{ say(sheet.elements) }}", "LB705"),
    "words by things": ("{{ say(*sheet.elements) }}", "LB705"),
    "words by fields": ("{{ say(**sheet) }}", "LB705"),
    "range": ("{% for i in range(1000000000) %}x{% endfor %}", "LB705"),
    "a loop of itself": ("{% for row in sheet.elements recursive %}{{ loop(sheet.elements) }}{% endfor %}", "LB705"),
    "four loops": ("".join(f"{{% for {name} in sheet.elements %}}" for name in "abcd") + "{% endfor %}" * 4, "LB705"),
    "a loop over letters": ("{% for a in sheet.id %}{{ a }}{% endfor %}", "LB705"),
    "loops over letters": ("{% for a in sheet.title|plain %}" * 3 + "{% endfor %}" * 3, "LB705"),
    "a loop over a number": ("{% for a in 5 %}x{% endfor %}", "LB705"),
    "a name taken": ("{% for loop in sheet.elements %}x{% endfor %}", "LB705"),
    "another name taken": ("{% for say in sheet.elements %}x{% endfor %}", "LB705"),
    "deep blocks": ("{% if sheet %}" * 150 + "x" + "{% endif %}" * 150, "LB705"),
    "very deep blocks": ("{% if sheet %}" * 5_000 + "x" + "{% endif %}" * 5_000, "LB705"),
    "deep brackets": ("{{ " + "(" * 5_000 + "1" + ")" * 5_000 + " }}", "LB705"),
    "deep nots": ("{% if " + "not " * 300 + "sheet %}x{% endif %}", "LB705"),
    "a long chain": ("{{ sheet" + ".a" * 500 + " }}", "LB705"),
    "many ands": ("{% if " + " and ".join(["sheet"] * 5_000) + " %}x{% endif %}", "LB705"),
    "many filters": ("{{ sheet.title" + "|plain" * 400 + " }}", "LB705"),
    "words of words": ("{{ " + 'say("list.comma", x=' * 100 + "1" + ")" * 100 + " }}", "LB705"),
    "a long number": ("{{ " + "9" * 5_000 + " }}", "LB705"),
    "a number too long": ("{{ " + "9" * 13 + " }}", "LB705"),
    "a long text": ("{% for row in sheet.elements %}" + "x" * 600_000 + "{% endfor %}", "LB706"),
    "not closed": ("{{ sheet.", "LB702"),
    "not ended": ("{% for row in sheet.elements %}", "LB702"),
    "a statement of others": ("{% do 1 %}", "LB702"),
    "debug": ("{% debug %}", "LB702"),
    "a null": ("\x00", "LB104"),
    "bytes": ("\udcff", "LB111"),
}


OF_THE_WHOLE = ("very deep blocks", "deep brackets", "a long text", "a long number", "words of words")
"""What is told of the template as a whole: it cannot be read as far as the line, or no line of it is too long."""


@pytest.mark.parametrize("tried", list(TRIES))
def test_what_a_template_may_not_do_is_told_at_its_line(house: House, folder: Path, tried: str) -> None:
    text, code = TRIES[tried]
    _override(folder, f"{{# one #}}\n\n{text}\n")
    began = time.process_time()
    built = _bind(house, folder)
    assert time.process_time() - began < 2
    assert built.value is None
    assert_told_well(built.faults)
    assert built.faults[0].code == code, built.faults[0].message
    line = 1 if tried in OF_THE_WHOLE else 3
    assert built.faults[0].span is not None
    assert built.faults[0].span.place.endswith(f"kitchen/templates/station_card.xml.j2:{line}:1")
    assert all("root:" not in fault.message for fault in built.faults)


SHEETS = {
    "another tag": ('<img src="/etc/passwd"/>', "LB703"),
    "a script": ("<script>alert(1)</script>", "LB703"),
    "a link": ('<a href="file:///etc/passwd">x</a>', "LB703"),
    "a style": ('<p style="color: red">x</p>', "LB703"),
    "an event": ('<p onclick="x">x</p>', "LB703"),
    "deep tags": ('<p data-key="a">' + "<b>" * 3_000 + "x" + "</b>" * 3_000 + "</p>", "LB703"),
    "a tag not closed": ("<p>", "LB702"),
    "an entity": ("<p>&nbsp;</p>", "LB702"),
}


@pytest.mark.parametrize("tried", list(SHEETS))
def test_what_a_sheet_has_no_place_for_is_told(house: House, folder: Path, tried: str) -> None:
    text, code = SHEETS[tried]
    built = _bind(house, _override(folder, _card_with(text)))
    assert built.value is None
    assert_told_well(built.faults)
    assert code in {fault.code for fault in built.faults}


@pytest.mark.parametrize(
    "head",
    [
        '<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>',
        '<!DOCTYPE a [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>',
    ],
)
def test_a_document_type_is_refused(house: House, folder: Path, head: str) -> None:
    built = _bind(house, _override(folder, head + _card_with("<p>&b;</p>")))
    assert built.value is None
    assert {fault.code for fault in built.faults} <= {"LB702", "LB703"}
    assert all("root:" not in fault.message for fault in built.faults)


@pytest.mark.parametrize("name", ["station_card.xml.j2", "theme.yaml"])
def test_a_link_out_of_the_templates_folder_is_not_followed(house: House, folder: Path, name: str) -> None:
    (folder / "templates").mkdir()
    (folder / "templates" / name).symlink_to("/etc/passwd")
    built = _bind(house, folder)
    assert built.value is None
    assert [fault.code for fault in built.faults] == ["LB113"]
    assert_told_well(built.faults)


def test_a_templates_folder_that_leads_out_is_not_followed(house: House, folder: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "station_card.xml.j2").write_text(_card_with(OWN), "utf-8")
    (folder / "templates").symlink_to(elsewhere)
    built = _bind(house, folder)
    assert built.value is None
    assert [fault.code for fault in built.faults] == ["LB113"]


LINKS = {
    "house.yaml": "/etc/passwd",
    "pantry/passwords.yaml": "/etc/passwd",
    "menus/outside.yaml": "../../outside.yaml",
    "dishes/outside.md": "../../outside.yaml",
    "components/outside.md": "/proc/self/environ",
    "pantry/device.yaml": "/dev/zero",
    "pantry/itself.yaml": "itself.yaml",
    "pantry/gone.yaml": "../../gone.yaml",
}


@pytest.mark.parametrize("name", list(LINKS))
def test_a_link_out_of_the_house_is_told_and_not_read(folder: Path, tmp_path: Path, name: str) -> None:
    (tmp_path / "outside.yaml").write_text("secret-sauce: {name: secret}\n")
    (folder / name).unlink(missing_ok=True)
    (folder / name).symlink_to(LINKS[name])
    result = linebook("check", folder, "--form", "short")
    assert result.exit_code == 1
    code = "LB115" if name == "pantry/itself.yaml" else "LB113"
    assert f"kitchen/{name}:1:1: error {code} " in result.stderr
    for secret in ("secret", "root:", "PATH="):
        assert secret not in result.stderr


def test_a_folder_that_leads_out_is_told_and_not_read(folder: Path, tmp_path: Path) -> None:
    (folder / "pantry").rename(tmp_path / "pantry")
    (folder / "pantry").symlink_to(tmp_path / "pantry")
    result = linebook("check", folder, "--form", "short")
    assert result.exit_code == 1
    assert "kitchen/pantry:1:1: error LB113 " in result.stderr


def test_a_link_inside_the_house_is_followed(folder: Path) -> None:
    (folder / "components/roast-carrots.md").rename(folder / "carrots.txt")
    (folder / "components/roast-carrots.md").symlink_to("../carrots.txt")
    assert linebook("check", folder).exit_code == 0


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no named pipes")
@pytest.mark.parametrize(
    "name",
    ["house.yaml", "pantry/pipe.yaml", "dishes/pipe.md", "templates/station_card.xml.j2", "templates/theme.yaml"],
)
def test_a_named_pipe_does_not_stop_the_run(folder: Path, tmp_path: Path, name: str) -> None:
    (folder / name).parent.mkdir(exist_ok=True)
    (folder / name).unlink(missing_ok=True)
    os.mkfifo(folder / name)
    result = linebook("bind", folder, "-o", tmp_path / "out")
    assert result.exit_code == 1
    assert "error LB115 " in result.stderr


THEME = (REPOSITORY / "templates/theme.yaml").read_text("utf-8")
# What a house's own theme asks for, in place of our fonts or colours.
THEMES = {
    "a module that opens a browser": ("package: fontpkg_lato", "package: antigravity"),
    "a module that prints": ("package: fontpkg_lato", "package: this"),
    "a module with a path": ("package: fontpkg_lato", "package: ../../x"),
    "the running module": ("package: fontpkg_lato", "package: __main__"),
    "a package without the files": ("package: fontpkg_lato", "package: json"),
    "a folder up from the package": ("folder: files", "folder: ../../.."),
    "a folder at the root": ("folder: files", "folder: /etc"),
    "a file at the root": ("regular: Lato-Regular.ttf", "regular: /etc/passwd"),
    "a file up": ("regular: Lato-Regular.ttf", "regular: ../__init__.py"),
    "a colour that computes": ('colour: "#762013"', 'colour: "__import__(1)"'),
    "a length that computes": ("binding: 22 mm", "binding: 11*2 mm"),
    "a huge page": ("width: 595.28 pt", "width: 1e12 pt"),
    "no page": ("width: 595.28 pt", "width: 0 pt"),
    "margins over the page": ("binding: 22 mm", "binding: 400 mm"),
    "type too small": ("step: {size: 14 pt, least: 12 pt", "step: {size: 6 pt, least: 5 pt"),
    "huge type": ("title: {size: 24 pt", "title: {size: 5000 pt"),
}


@pytest.mark.parametrize("asked", list(THEMES))
def test_a_theme_runs_and_reads_nothing(
    house: House, folder: Path, asked: str, capfd: pytest.CaptureFixture[str]
) -> None:
    old, new = THEMES[asked]
    assert THEME.count(old)
    built = _bind(house, _override(folder, THEME.replace(old, new, 1), "theme.yaml"))
    assert built.value is None
    assert_told_well(built.faults, located=False)
    assert {fault.code[:3] for fault in built.faults} <= {"LB1", "LB3", "LB8"}
    assert capfd.readouterr().out == ""


def test_a_font_that_leads_out_of_the_house_is_not_read(house: House, folder: Path, tmp_path: Path) -> None:
    from importlib.resources import files

    theme = THEME.replace("  package: fontpkg_lato\n", "")
    _override(folder, theme, "theme.yaml")
    here = folder / "templates/files"
    here.mkdir()
    for name in ("Regular", "Bold", "Italic", "BoldItalic"):
        content = (files("fontpkg_lato") / "files" / f"Lato-{name}.ttf").read_bytes()
        (tmp_path / f"Lato-{name}.ttf").write_bytes(content)
        (here / f"Lato-{name}.ttf").write_bytes(content)
    assert _bind(house, folder).value is not None, "a house's own fonts are read"
    (here / "Lato-Bold.ttf").unlink()
    (here / "Lato-Bold.ttf").symlink_to(tmp_path / "Lato-Bold.ttf")
    built = _bind(house, folder)
    assert [fault.code for fault in built.faults] == ["LB805"]
    _override(folder, theme.replace("folder: files", "folder: ../.."), "theme.yaml")
    assert {fault.code for fault in _bind(house, folder).faults} == {"LB805"}
