"""A house's own theme: what it says is laid over another, and what is wrong with it is told at its place in its file."""

import shutil
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from linebook.house_theme import STANDARD, find_templates, find_themes, laid_over, open_looks, theme_in_use
from linebook.pdf.fonts import open_faces
from linebook.pdf.theme import Styles, floor_of, names_of
from linebook.pipeline import load_house
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import read_yaml

REPOSITORY = Path(__file__).parents[3]
SMALL_HOUSE = REPOSITORY / "tests/cases/small-house"
HOUSE = load_house(SMALL_HOUSE, "specs").value.file


def node(text, path="a.yaml"):
    source = SourceFile(path=path, text=text)
    return read_yaml(source, 0, len(text)).value


def plain(tree):
    if hasattr(tree, "entries"):
        return {entry.key.text: plain(entry.value) for entry in tree.entries}
    return [plain(one) for one in tree.items] if hasattr(tree, "items") else tree.text


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "templates").mkdir()
    return tmp_path


def looks(folder, text, asked="", **house):
    (folder / "templates/theme.yaml").write_text(text, encoding="utf-8")
    return open_looks(replace(HOUSE, **house), folder, asked)


def theme(folder, text, asked="", **house):
    opened = looks(folder, text, asked, **house)
    assert opened.faults == (), opened.faults
    return opened.value.theme


def plain_theme(asked=""):
    return open_looks(HOUSE, Path("nowhere"), asked).value.theme


# -- laying over


def test_names_are_laid_over_names_and_a_list_over_a_list():
    upper = node("a: 1\nb: {c: 2}\nl: [9]\nnew: x\n")
    lower = node("a: 0\nb: {c: 0, d: 3}\nl: [1, 2]\nz: 4\n")
    assert plain(laid_over(upper, lower)) == {"a": "1", "b": {"c": "2", "d": "3"}, "l": ["9"], "z": "4", "new": "x"}


def test_what_is_no_group_takes_the_place_of_one_and_is_told_later():
    assert plain(laid_over(node("b: 3"), node("b: {c: 1}"))) == {"b": "3"}
    assert plain(laid_over(node("b: {c: 1}"), node("b: 3"))) == {"b": {"c": "1"}}


def test_a_house_gives_only_what_it_changes(folder):
    mine, ours = theme(folder, "spaces: {hang: 31 pt}\n"), plain_theme()
    assert mine.spaces.hang == 31
    assert replace(mine, spaces=ours.spaces) == ours


def test_an_empty_theme_changes_nothing(folder):
    assert theme(folder, "") == plain_theme()
    assert theme(folder, "# all as it was\n") == plain_theme()


def test_a_list_is_taken_whole(folder):
    mine = theme(folder, 'accents:\n  - {colour: "#123456", grey: 0.2, over: white}\n')
    assert [accent.ink.colour for accent in mine.accents] == ["#123456"]


def test_the_theme_below_is_the_asked_one_then_the_named_one_then_that_of_the_house(folder):
    serif, sans = plain_theme("towpath").fonts.package, plain_theme().fonts.package
    assert serif != sans
    change = "spaces: {hang: 31 pt}\n"
    assert theme(folder, change).fonts.package == sans
    assert theme(folder, change, theme="towpath").fonts.package == serif
    assert theme(folder, f"based_on: standard\n{change}", theme="towpath").fonts.package == sans
    assert theme(folder, f"based_on: standard\n{change}", "towpath").fonts.package == serif
    assert theme(folder, f"based_on: standard\n{change}", "towpath").spaces.hang == 31


def test_which_theme_is_in_use_is_told(folder):
    assert theme_in_use(HOUSE, folder) == ("standard", "")
    assert theme_in_use(replace(HOUSE, theme="towpath"), folder) == ("towpath", "")
    (folder / "templates/theme.yaml").write_text("based_on: towpath\n")
    assert theme_in_use(HOUSE, folder) == ("towpath", "")
    (folder / "templates/theme.yaml").write_text("based_on: towpth\n")
    assert theme_in_use(HOUSE, folder) == ("", "there is no theme `towpth`")


def test_a_line_is_given_its_accent_by_its_id(folder):
    last = HOUSE.lines[-1].id
    mine = theme(folder, f'line-accents: {{{last}: {{colour: "#102030", grey: 0.1, over: white}}}}\n')
    ours = plain_theme()
    at = len(HOUSE.lines) - 1
    assert mine.accents[at].ink.colour == "#102030"
    assert [one for other, one in enumerate(mine.accents) if other != at] == [
        one for other, one in enumerate(ours.accents) if other != at
    ]


def test_with_fewer_accents_than_lines_only_the_named_line_changes(folder):
    lines = tuple(replace(HOUSE.lines[0], id=f"line-{at}") for at in range(5))
    two = 'accents: [{colour: "#000000", grey: 0, over: white}, {colour: "#ffffff", grey: 1, over: black}]\n'
    own = 'line-accents: {line-2: {colour: "#102030", grey: 0.1, over: white}}\n'
    colours = [one.ink.colour for one in theme(folder, two + own, lines=lines).accents]
    assert colours == ["#000000", "#ffffff", "#102030", "#ffffff", "#000000"]


def test_a_size_brought_under_the_least_size_below_it_brings_that_down(folder):
    assert plain_theme().styles.note.least == 10.5
    mine = theme(folder, "styles: {note: {size: 10 pt}}\n")
    assert (mine.styles.note.size, mine.styles.note.least) == (10, 10)


def test_a_face_of_the_house_stands_beside_its_theme_and_the_rest_in_the_package(folder):
    from importlib.resources import files

    package = files("fontpkg_lato") / "files"
    (folder / "templates/Ours.ttf").write_bytes((package / "Lato-Black.ttf").read_bytes())
    opened = looks(folder, "fonts: {bold: Ours.ttf}\n").value
    faces = open_faces(opened.theme, opened.theme_folder)
    assert faces.faults == ()
    ours = open_faces(plain_theme()).value
    assert faces.value["bold"].width("amount") > ours["bold"].width("amount")
    assert faces.value["regular"].width("amount") == ours["regular"].width("amount")


def test_a_face_of_the_house_may_stand_in_a_folder_of_its_own(folder):
    from importlib.resources import files

    (folder / "templates/ours").mkdir()
    for name in ("Regular", "Bold", "Italic", "BoldItalic"):
        content = (files("fontpkg_lato") / "files" / f"Lato-{name}.ttf").read_bytes()
        (folder / f"templates/ours/{name}.ttf").write_bytes(content)
    text = (
        "fonts: {folder: ours, regular: Regular.ttf, bold: Bold.ttf, italic: Italic.ttf, bold-italic: BoldItalic.ttf}"
    )
    opened = looks(folder, text).value
    assert open_faces(opened.theme, opened.theme_folder).faults == ()


# -- faults: each planted one gives one, at its place in the house's file

FAULTS = {
    "an unknown part": ("spacs: {hang: 31 pt}", "LB803", "spacs", "did you mean `spaces`?"),
    "an unknown name": ("spaces: {hangg: 31 pt}", "LB803", "hangg", "did you mean `hang`?"),
    "an unknown style": ("styles: {stepp: {size: 14 pt}}", "LB803", "stepp", "did you mean `step`?"),
    "an unknown field of a style": ("styles: {step: {sise: 14 pt}}", "LB803", "sise", "did you mean `size`?"),
    "an unknown role": ("paragraphs: {boddy: {size: 14 pt}}", "LB803", "boddy", "did you mean `body`?"),
    "an unknown form": ("forms: {bands: outlined}", "LB803", "bands", "did you mean `band`?"),
    "an unknown choice": ("forms: {band: outline}", "LB803", "outline", "did you mean `outlined`?"),
    "an unknown face": ("styles: {step: {face: bld}}", "LB803", "bld", "did you mean `bold`?"),
    "an unknown ink of words": ("styles: {step: {ink: quite}}", "LB803", "quite", "did you mean `quiet`?"),
    "words in a hairline's ink": ("styles: {note: {ink: hairline}}", "LB803", "hairline", "ink, quiet"),
    "an unknown paper": ("papers: {a5: {width: 148 mm, height: 210 mm}}", "LB803", "a5", "a4, letter"),
    "a paper of an odd width": ("papers: {a4: {width: 200 mm}}", "LB806", "200 mm", "width: 210.0 mm"),
    "a paper of an odd height": ("papers: {letter: {height: 297 mm}}", "LB806", "297 mm", "height: 279.4 mm"),
    "a length without a unit": ("spaces: {hang: 31}", "LB108", "31", "14 pt or 22 mm"),
    "a length in inches": ("margins: {outer: 1 in}", "LB108", "1 in", "14 pt or 22 mm"),
    "a group in place of a length": ("spaces: {hang: {a: 1}}", "LB108", None, ""),
    "a length in place of a group": ("spaces: 31 pt", "LB108", "31 pt", ""),
    "no list of accents": ("accents: red", "LB108", "red", ""),
    "an accent without its grey": ('accents: [{colour: "#123456", over: white}]', "LB803", None, "`grey:`"),
    "a length too large": ("spaces: {hang: 300 mm}", "LB316", "300 mm", "113 pt or less"),
    "no height for a head": ("spaces: {matrix-head-most: 0 pt}", "LB316", "0 pt", "48 pt or more"),
    "a stroke too thin": ("strokes: {strong: 0.1 pt}", "LB316", "0.1 pt", "0.25 pt or more"),
    "type too large": ("styles: {title: {size: 200 pt}}", "LB316", "200 pt", "96 pt or less"),
    "a step too small": ("styles: {step: {size: 11 pt}}", "LB802", "11 pt", "12 pt or more"),
    "a least step too small": ("styles: {step: {least: 11 pt}}", "LB802", "11 pt", "12 pt or more"),
    "a caption too small": ("styles: {caption: {size: 8.5 pt}}", "LB802", "8.5 pt", "9 pt or more"),
    "safety too small": ("paragraphs: {safety: {size: 11.9 pt}}", "LB802", "11.9 pt", "12 pt or more"),
    "a least size above the size": ("styles: {note: {least: 14 pt}}", "LB108", "14 pt", "make it less"),
    "grey safety": ("paragraphs: {safety: {ink: quiet}}", "LB108", "quiet", "leave `ink` out"),
    "grey amounts": ("styles: {amount: {ink: quiet}}", "LB108", "quiet", "leave `ink` out"),
    "leading too tight": ("styles: {step: {leading: 1}}", "LB108", "1", "from 1.1 to 2"),
    "a colour by name": ("inks: {quiet: {colour: grey}}", "LB108", "grey", '"#7d2012"'),
    "quiet words too pale": ('inks: {quiet: {colour: "#777777"}}', "LB807", "#777777", "4.5 or more"),
    "quiet words with a grey too pale": ("inks: {quiet: {grey: 0.5}}", "LB807", "0.5", "4.5 or more"),
    "ink as pale as quiet words": ('inks: {ink: {colour: "#595959"}}', "LB807", "#595959", "12 or more"),
    "ink with a pale grey": ("inks: {ink: {grey: 0.4}}", "LB807", "0.4", "12 or more"),
    "white on a pale band": (
        'accents: [{colour: "#e5ba62", grey: 0.3, over: white}]', "LB807", "#e5ba62", "darker",
    ),
    "white on a band of a pale grey": (
        'accents: [{colour: "#762013", grey: 0.6, over: white}]', "LB807", "0.6", "darker",
    ),
    "black on a dark band": ('accents: [{colour: "#762013", grey: 0.8, over: black}]', "LB807", "#762013", "lighter"),
    "a name on a band in pink": ('accents: [{colour: "#762013", grey: 0.2, over: pink}]', "LB803", "pink", "white, black"),
    "the accent of an unknown line": (
        'line-accents: {stov: {colour: "#762013", grey: 0.2, over: white}}', "LB206", "stov", "did you mean `stove`?",
    ),
    "an unreadable accent of a line": (
        'line-accents: {stove: {colour: red, grey: 0.2, over: white}}', "LB108", "red", '"#7d2012"',
    ),
    "holes in the text": ("margins: {binding: 21 mm}", "LB806", "21 mm", "22 mm or more"),
    "text at the edge": ("margins: {top: 9 mm}", "LB806", "9 mm", "10 mm or more"),
    "text at the side": ("margins: {side: 25 pt}", "LB806", "25 pt", "10 mm or more"),
    "a band at the edge": ("spaces: {band-inset: 5 mm}", "LB806", "5 mm", "10 mm or more"),
    "a band in the text": ("spaces: {band-width: 13 mm}", "LB806", "13 mm", "make `outer` larger"),
    "a margin in the band": ("margins: {outer: 12 mm}", "LB806", "12 mm", "make `outer` larger"),
    "no room across": ("margins: {outer: 90 mm}", "LB806", "90 mm", "make the margins smaller"),
    "no room down": ("margins: {top: 180 mm}", "LB806", "180 mm", "make the margins smaller"),
    "no room on a turned sheet": ("margins: {side: 95 mm}", "LB806", "95 mm", "make the margins smaller"),
    "an unknown theme below": ("based_on: towpth", "LB808", "towpth", "did you mean `towpath`?"),
    "a list of themes below": ("based_on: [standard, towpath]", "LB108", None, "based_on: standard"),
    "a list": ("- a", "LB108", None, ""),
    "a name twice": ("spaces: {hang: 31 pt, hang: 32 pt}", "LB102", "hang", ""),
    "an anchor": ("spaces: &a {hang: 31 pt}", "LB103", None, ""),
    "a tab": ("spaces:\n\thang: 31 pt", "LB104", None, ""),
    "no YAML": ("spaces: {hang: 31 pt", "LB101", None, ""),
}  # fmt: skip


@pytest.mark.parametrize("planted", list(FAULTS))
@pytest.mark.parametrize("base", ["standard", "towpath"])
def test_a_planted_fault_is_told_once_at_its_place(folder, planted, base):
    text, code, spot, mend = FAULTS[planted]
    opened = looks(folder, f"# ours\n\n{text}\n", theme=base, lines=(replace(HOUSE.lines[0], id="stove"),))
    assert opened.value is None
    assert [one.code for one in opened.faults] == [code], [(one.message, one.hints) for one in opened.faults]
    (fault,) = opened.faults
    assert fault.span is not None
    assert fault.span.source.path == f"{folder.as_posix()}/templates/theme.yaml"
    assert fault.span.line >= 3
    if spot is not None:
        assert fault.span.text.strip('"') == spot
    assert any(mend in hint for hint in fault.hints) or not mend


def test_all_faults_are_told_in_one_run(folder):
    text = "margins: {binding: 10 mm}\nstyles: {step: {size: 6 pt}, titel: {size: 20 pt}}\ninks: {quiet: {grey: 0.9}}\n"
    assert sorted(one.code for one in looks(folder, text).faults) == ["LB802", "LB803", "LB806", "LB807"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("fonts: {bold: Ours.ttf}", "the bold font `Ours.ttf` is not there"),
        ("fonts: {bold: theme.yaml}", "the bold font `theme.yaml` is not a TrueType font"),
        ("fonts: {bold: ../x.ttf}", "the bold font `../x.ttf` is not there"),
        ("fonts: {package: fontpkg_lato, bold: Lato-Bld.ttf}", "the bold font `Lato-Bld.ttf` is not there"),
    ],
)
def test_a_font_that_cannot_be_used_is_told_where_it_is_named(folder, text, words):
    opened = looks(folder, f"{text}\n")
    faults = open_faces(opened.value.theme, opened.value.theme_folder).faults
    assert [(one.code, one.message) for one in faults] == [("LB805", words)]
    assert faults[0].span.source.path.endswith("templates/theme.yaml")
    assert f"`{faults[0].span.text}`" in words


def test_a_variable_font_of_the_house_is_refused(folder):
    from importlib.resources import files

    data = (files("fontpkg_lato") / "files/Lato-Bold.ttf").read_bytes()
    (folder / "templates/Ours.ttf").write_bytes(data.replace(b"OS/2", b"fvar", 1))
    opened = looks(folder, "fonts: {bold: Ours.ttf}\n").value
    (fault,) = open_faces(opened.theme, opened.theme_folder).faults
    assert "is a variable font" in fault.message
    assert fault.span.text == "Ours.ttf"


def test_a_theme_that_house_yaml_misspells_is_told_there(tmp_path):
    shutil.copytree(SMALL_HOUSE, tmp_path / "specs")
    house = tmp_path / "specs/house.yaml"
    house.write_text(house.read_text() + "theme: towpth\n")
    kitchen = load_house(tmp_path / "specs", "specs").value
    opened = open_looks(kitchen.file, tmp_path / "specs")
    assert [(one.code, one.span.place.split(":")[0], one.span.text, one.hints) for one in opened.faults] == [
        ("LB808", "specs/house.yaml", "towpth", ("did you mean `towpath`?",))
    ]


@pytest.mark.parametrize("name", ["../theme", "/etc/passwd", "a\\b", "themes/towpath", ".", "x" * 300])
def test_a_name_is_no_path(folder, name):
    opened = looks(folder, f'based_on: "{name}"\n' if "\\" not in name else f"based_on: '{name}'\n")
    assert [one.code for one in opened.faults] == ["LB808"]


# -- what ships


def test_the_themes_and_templates_that_ship():
    assert list(find_themes()) == [STANDARD, "towpath"]
    assert {"station_card.xml.j2", "part_section.xml.j2"} <= set(find_templates())


@pytest.mark.parametrize("name", list(find_themes()))
def test_a_shipped_theme_keeps_the_promises_of_the_design(name):
    made = plain_theme(name)
    assert made.margins.binding >= 22 / 25.4 * 72
    assert made.styles.title.size >= 24
    assert made.styles.cover.size >= 36
    for style in names_of(Styles):
        assert getattr(made.styles, style.replace("-", "_")).least >= floor_of(style)
    for style in (made.styles.step, made.styles.amount, made.styles.name):
        assert style.size >= 13
        assert style.least >= 12
    greys = [accent.ink.grey for accent in made.accents]
    assert all(second - first > 0.12 for first, second in pairwise(sorted(greys[:4])))
    assert all(second - first > 0.05 for first, second in pairwise(sorted(greys)))
    for ink in [*made.inks.values(), *[accent.ink for accent in made.accents]]:
        red, green, blue = (int(ink.colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
        assert 0.299 * red + 0.587 * green + 0.114 * blue == pytest.approx(ink.grey, abs=0.03)  # ITU-R BT.601 luma


@pytest.mark.parametrize("name", list(find_themes()))
def test_a_shipped_theme_has_its_fonts_with_every_ready_character_and_figures_of_one_width(name):
    made = plain_theme(name)
    faces = open_faces(made)
    assert faces.faults == ()
    for face in ("regular", "bold", "italic", "bold-italic"):
        assert not [letter for letter in made.fonts.ready if ord(letter) not in faces.value[face].glyphs]
    for face in ("regular", "bold"):
        assert len({faces.value[face].width(digit) for digit in "0123456789"}) == 1


def test_the_second_theme_is_plainly_different():
    first, second = plain_theme(), plain_theme("towpath")
    assert first.fonts.package != second.fonts.package
    assert not {one.ink.colour for one in first.accents} & {one.ink.colour for one in second.accents}
    forms = [(getattr(first.forms, name), getattr(second.forms, name)) for name in names_of(type(first.forms))]
    assert all(one != other for one, other in forms)
    assert first.margins != second.margins
    assert first.strokes.strong != second.strokes.strong
