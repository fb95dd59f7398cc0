"""``linebook templates``, ``--theme`` and what ``check`` says of a house's own looks: as typed, word for word."""

from __future__ import annotations

import re
import zlib
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

REPOSITORY = Path(__file__).parents[2]
SHIPPED = REPOSITORY / "templates"
DAY = ("--date", "2027-03-02")


def test_the_list_names_every_template_and_theme_and_whose_is_in_use(run: Run, kitchen: Path) -> None:
    told = run("templates", "kitchen")
    assert told.exit_code == 0, told.stderr
    names = {path.name.removesuffix(".xml.j2").replace("_", "-") for path in SHIPPED.glob("*.xml.j2")}
    assert names <= set(told.stdout.split())
    assert "  standard  in use  The usual look: " in told.stdout
    assert "yours" not in told.stdout
    assert max(map(len, told.stdout.splitlines())) <= 80
    assert run("templates", "--copy", "station-card", "--house", "kitchen").exit_code == 0
    (kitchen / "templates/theme.yaml").write_text("based_on: towpath\n")
    told = run("templates", "kitchen")
    assert re.search(r"^  station-card +yours  A station card: ", told.stdout, re.MULTILINE)
    assert "  towpath   in use  Bookish: " in told.stdout
    assert "  kitchen/templates/theme.yaml is laid over towpath\n" in told.stdout


def test_without_a_house_it_tells_of_what_comes_with_linebook(run: Run) -> None:
    told = run("templates")
    assert told.exit_code == 0
    assert "station-card" in told.stdout
    assert "Next" not in told.stderr


def test_a_theme_with_a_fault_is_told_in_the_list(run: Run, kitchen: Path) -> None:
    (kitchen / "templates").mkdir()
    (kitchen / "templates/theme.yaml").write_text("based_on: towpth\n")
    assert "  there is no theme `towpth`\n" in run("templates", "kitchen").stdout


@pytest.mark.parametrize("name", ["station-card", "station_card", "station_card.xml.j2"])
def test_a_template_is_told_by_any_of_its_names(run: Run, name: str) -> None:
    told = run("templates", name)
    assert told.exit_code == 0
    lines = told.stdout.splitlines()
    assert lines[0] == "station_card.xml.j2"
    assert "In use: linebook's own station_card.xml.j2" in lines
    assert "It prints part-allergens, part-elements, part-section." in lines
    assert "  .title         text   The name of the dish." in lines
    assert "{% for row in sheet.elements %}  one thing on the plate: its number in plating" in lines
    assert "  .plating  number  Its number in plating order." in lines
    assert max(map(len, lines)) <= 80


def test_a_part_is_told_with_the_loops_it_stands_in(run: Run) -> None:
    told = run("templates", "part-section").stdout
    assert "Printed by station-card, for section in sheet.pick_up; for section in\n  sheet.sections\n" in told
    assert "\nsection  a heading of the method" in told
    assert "{% for passage in section.passages %}" in told
    assert "section.limit  a food-safety limit" in told


def test_the_tags_and_the_words_are_told(run: Run) -> None:
    from linebook.markup.vocabulary import TAGS

    tags = run("templates", "tags").stdout
    for tag in TAGS:
        assert re.search(rf"\b{tag}\b", tags), tag
    assert "undeclared-leave" in tags
    assert max(map(len, tags.splitlines())) <= 80
    assert "allergens.contains  Contains\n" in run("templates", "words").stdout


def test_a_theme_is_told_as_it_is_written(run: Run) -> None:
    told = run("templates", "towpath").stdout
    assert told.endswith((SHIPPED / "themes/towpath.yaml").read_text("utf-8"))


def test_an_original_is_copied_into_the_house_and_never_over_a_file(run: Run, kitchen: Path) -> None:
    first = run("templates", "--house", "kitchen", "--copy", "station-card", "--copy", "part-limit")
    assert first.exit_code == 0, first.stderr
    assert first.stdout == "kitchen/templates/station_card.xml.j2\nkitchen/templates/part_limit.xml.j2\n"
    copy = kitchen / "templates/station_card.xml.j2"
    assert copy.read_bytes() == (SHIPPED / "station_card.xml.j2").read_bytes()
    copy.write_text("mine")
    again = run("templates", "--house", "kitchen", "--copy", "station-card", "--copy", "line-cover")
    assert again.exit_code == 2
    assert (
        "`kitchen/templates/station_card.xml.j2` is there already; move it away, copy to another folder with -o, or "
        "write over it with --force."
    ) in again.stderr
    assert copy.read_text() == "mine"
    assert not (kitchen / "templates/line_cover.xml.j2").exists(), "all or none"
    assert run("templates", "--house", "kitchen", "--copy", "station-card", "--force").exit_code == 0
    assert copy.read_bytes() == (SHIPPED / "station_card.xml.j2").read_bytes()


def test_several_are_copied_at_once(run: Run, kitchen: Path) -> None:
    told = run("templates", "kitchen", "--copy", "station-card", "batch-card")
    assert told.stdout == "kitchen/templates/station_card.xml.j2\nkitchen/templates/batch_card.xml.j2\n"
    assert "There is no template or theme `tags`" in run("templates", "kitchen", "--copy", "tags").stderr


def test_all_are_copied_to_a_folder(run: Run, tmp_path: Path) -> None:
    assert run("templates", "-o", "originals").exit_code == 0
    assert {path.name for path in (tmp_path / "originals").iterdir()} == {p.name for p in SHIPPED.glob("*.xml.j2")}


def test_a_theme_is_copied_as_the_houses_own(run: Run, kitchen: Path) -> None:
    told = run("templates", "kitchen", "--copy", "towpath")
    assert told.stdout == (
        "kitchen/templates/theme.yaml\n"
        "In theme.yaml keep only what you change: the rest then follows the theme it is based on.\n"
    )
    assert run("check", "kitchen", "--strict").exit_code == 0
    both = run("templates", "kitchen", "--copy", "towpath", "--copy", "standard", "--force")
    assert both.exit_code == 2
    assert "`towpath` and `standard` are both themes; a house has one theme.yaml." in both.stderr


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("templates", "staton-card"), "Did you mean `station-card`?"),
        (("templates", "--copy", "towpth"), "Did you mean `towpath`?"),
        (("templates", "kitchen", "somewhere"), "There is no template or theme `somewhere`, nor a folder. `linebook templates` lists them all."),
        (("bind", "kitchen", "--theme", "towpth"), "There is no theme `towpth`. Did you mean `towpath`? There are: standard, towpath."),
        (("matrix", "kitchen", "--theme", "x"), "There is no theme `x`. There are: standard, towpath."),
        (("batch", "stewed-lentils", "--house", "kitchen", "--times", "2", "--theme", "x"), "There is no theme `x`."),
    ],
)  # fmt: skip
def test_a_wrong_name_exits_2_and_says_what_there_is(
    run: Run, kitchen: Path, arguments: tuple[str, ...], words: str
) -> None:
    told = run(*arguments)
    assert told.exit_code == 2
    assert words in " ".join(told.stderr.split())


def test_a_templates_folder_that_leads_out_is_not_written_to(run: Run, kitchen: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (kitchen / "templates").symlink_to(tmp_path / "elsewhere")
    told = run("templates", "kitchen", "--copy", "station-card")
    assert told.exit_code == 2
    assert "leads out of the house folder" in told.stderr
    assert not list((tmp_path / "elsewhere").iterdir())


# -- printing with them


def fonts_of(path: Path) -> set[str]:
    found: set[str] = set()
    for page in PdfReader(path).pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            found.add(str(font.get_object()["/BaseFont"]).split("+")[-1])
    return found


def test_a_theme_is_chosen_on_the_command_line_or_in_house_yaml(run: Run, kitchen: Path, tmp_path: Path) -> None:
    assert run("matrix", "kitchen", *DAY, "-o", "a.pdf").exit_code == 0
    assert run("matrix", "kitchen", *DAY, "--theme", "towpath", "-o", "b.pdf").exit_code == 0
    house = kitchen / "house.yaml"
    house.write_text(house.read_text() + "theme: towpath\n")
    assert run("matrix", "kitchen", *DAY, "-o", "c.pdf").exit_code == 0
    assert run("matrix", "kitchen", *DAY, "--theme", "standard", "-o", "d.pdf").exit_code == 0
    content = {name: (tmp_path / f"{name}.pdf").read_bytes() for name in "abcd"}
    assert content["a"] == content["d"] != content["b"] == content["c"]
    assert all("Lato" in name for name in fonts_of(tmp_path / "a.pdf") - {"Helvetica"})
    assert any("Plex" in name for name in fonts_of(tmp_path / "b.pdf"))


def test_a_house_that_changes_one_colour_and_one_template_prints_with_them(
    run: Run, kitchen: Path, tmp_path: Path
) -> None:
    assert run("bind", "kitchen", *DAY, "-o", "before").exit_code == 0
    assert run("templates", "kitchen", "--copy", "station-card").exit_code == 0
    card = kitchen / "templates/station_card.xml.j2"
    card.write_text(card.read_text().replace("</header>", '</header>\n<p data-key="ours">Wipe the rail first.</p>'))
    (kitchen / "templates/theme.yaml").write_text(
        'line-accents:\n  stove: {colour: "#102a8c", grey: 0.2, over: white}\n'
    )
    assert run("check", "kitchen", "--strict").exit_code == 0
    assert run("bind", "kitchen", *DAY, "-o", "after").exit_code == 0
    text = {
        when: "\n".join(page.extract_text() for page in PdfReader(tmp_path / when / "stove-binder.pdf").pages)
        for when in ("before", "after")
    }
    assert "Wipe the rail first." in text["after"]
    assert "Wipe the rail first." not in text["before"]
    colour = " ".join(f"{part / 255:.3g}" for part in (0x10, 0x2A, 0x8C)) + " rg"
    code = {when: pages_code(tmp_path / when / "stove-binder.pdf") for when in ("before", "after")}
    assert colour in code["after"]
    assert colour not in code["before"]


def pages_code(path: Path) -> str:
    return "".join(page.get_contents().get_data().decode("latin-1") for page in PdfReader(path).pages)  # type: ignore[union-attr]


# -- what check says of them

PLANTED = {
    "theme.yaml": (
        "spaces:\n  hangg: 31 pt\n",
        "kitchen/templates/theme.yaml:2:3: error LB803 `hangg` is not a name that `spaces` has (did you mean `hang`?)",
    ),
    "station_card.xml.j2": (
        "<article>\n{{ sheet.title + 1 }}</article>\n",
        "kitchen/templates/station_card.xml.j2:2:1: error LB705 `+` computes, and a template may not "
        "(amounts come finished: print them)",
    ),
    "part_section.xml.j2": (
        "{{ secton.title }}\n",
        "kitchen/templates/part_section.xml.j2:1:1: error LB704 there is nothing called `secton` here "
        "(did you mean `section`?)",
    ),
    "batch_card.xml.j2": (
        '{% include "part_alergens.xml.j2" %}\n',
        "kitchen/templates/batch_card.xml.j2:1:1: error LB701 there is no template `part_alergens.xml.j2` "
        "(did you mean `part_allergens.xml.j2`?)",
    ),
    "staton_card.xml.j2": (
        "<article/>\n",
        "kitchen/templates/staton_card.xml.j2:1:1: warning LB116 `staton_card.xml.j2` is not read "
        "(rename it to `station_card.xml.j2`)",
    ),
    "theme.yml": (
        "spaces: {}\n",
        "kitchen/templates/theme.yml:1:1: warning LB116 `theme.yml` is not read (rename it to `theme.yaml`)",
    ),
}


@pytest.mark.parametrize("name", list(PLANTED))
def test_check_tells_a_fault_planted_in_a_houses_own_looks(run: Run, kitchen: Path, name: str) -> None:
    text, said = PLANTED[name]
    (kitchen / "templates").mkdir()
    (kitchen / "templates" / name).write_text(text)
    told = run("check", "kitchen", "--strict", "--form", "short")
    assert told.exit_code == 1
    assert [line for line in told.stderr.splitlines() if " LB" in line] == [said]


def test_check_tells_a_font_that_cannot_be_used(run: Run, kitchen: Path) -> None:
    (kitchen / "templates").mkdir()
    (kitchen / "templates/theme.yaml").write_text("fonts:\n  bold: Ours.ttf\n")
    told = run("check", "kitchen", "--form", "short")
    assert told.exit_code == 1
    assert told.stderr.startswith("kitchen/templates/theme.yaml:2:9: error LB805 the bold font `Ours.ttf` is not there")


def test_bind_tells_the_fault_with_its_line_and_writes_nothing(run: Run, kitchen: Path, tmp_path: Path) -> None:
    (kitchen / "templates").mkdir()
    (kitchen / "templates/theme.yaml").write_text('inks:\n  quiet: {colour: "#9a9a9a"}\n')
    told = run("bind", "kitchen", *DAY)
    assert told.exit_code == 1
    assert "kitchen/templates/theme.yaml:2:19" in told.stderr
    assert 'quiet: {colour: "#9a9a9a"}' in told.stderr
    assert "has a contrast of 2.8 to white paper, and words are printed in it" in told.stderr
    assert not (tmp_path / "output").exists()


def test_the_originals_are_the_ones_that_print(run: Run, kitchen: Path, tmp_path: Path) -> None:
    """Copied unchanged, all of them print the same bytes."""
    assert run("bind", "kitchen", *DAY, "-o", "before").exit_code == 0
    assert run("templates", "kitchen", "-o", "kitchen/templates").exit_code == 0
    assert run("templates", "kitchen", "--copy", "standard").exit_code == 0
    assert run("bind", "kitchen", *DAY, "-o", "after").exit_code == 0
    sums = [
        {path.name: zlib.crc32(path.read_bytes()) for path in (tmp_path / when).iterdir()}
        for when in ("before", "after")
    ]
    assert sums[0] == sums[1]
