"""Fonts and the document: widths agree with another reader, bad files are refused, no setting of the machine leaks in."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from pdf_samples import FACES, THEME
from PIL import ImageFont

from linebook.pdf.document import Document
from linebook.pdf.fonts import open_faces

PACKAGED = Path(FACES._paths["regular"]).parent


@pytest.mark.parametrize("name", ["regular", "bold", "italic", "bold-italic"])
def test_widths_agree_with_freetype(name):
    drawn = ImageFont.truetype(str(FACES._paths[name]), 1000, layout_engine=ImageFont.Layout.BASIC)
    for letter in "AMiogé½°→0123456789—ß":
        assert FACES[name].width(letter) * 1000 == pytest.approx(drawn.getlength(letter), abs=1.0)


def test_digits_are_of_one_width():
    for name in ("regular", "bold"):
        assert len({FACES[name].width(digit) for digit in "0123456789"}) == 1


def test_a_missing_character_is_noted_when_measured():
    face = open_faces(THEME).value["regular"]
    assert face.missing == set()
    face.width("a☐b")
    assert face.missing == {"☐"}


def test_a_missing_character_is_noted_for_each_document_that_measures_it():
    for _ in range(2):
        bold = open_faces(THEME).value["bold"]  # what is known of its widths outlives it
        assert bold.width("a☐b") == pytest.approx(bold.width("a") + bold.width("b"))
        assert bold.missing == {"☐"}


def forbidden(data):
    """The same font with its embedding bit set to restricted."""
    count = int.from_bytes(data[4:6], "big")
    for at in range(12, 12 + 16 * count, 16):
        if data[at : at + 4] == b"OS/2":
            offset = int.from_bytes(data[at + 8 : at + 12], "big")
            return data[: offset + 8] + (2).to_bytes(2, "big") + data[offset + 10 :]
    raise AssertionError("the font has no OS/2 table")


def own(theme_fonts, tmp_path, **files):
    fonts = replace(THEME.fonts, package="", folder="", files={**THEME.fonts.files, **files})
    return open_faces(replace(THEME, fonts=fonts), tmp_path)


def test_a_house_may_name_its_own_files(tmp_path):
    for name in THEME.fonts.files.values():
        (tmp_path / name).write_bytes((PACKAGED / name).read_bytes())
    outcome = own(THEME.fonts, tmp_path)
    assert outcome.faults == ()
    assert outcome.value["bold"].width("A") == FACES["bold"].width("A")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda data: b"OTTO" + data[4:], "is not a TrueType font"),
        (lambda data: data.replace(b"OS/2", b"fvar", 1), "is a variable font"),
        (lambda data: data.replace(b"glyf", b"glyq", 1), "has no TrueType outlines"),
        (lambda data: data[:4000], "is damaged"),
        (forbidden, "may not be put into a document"),
        (lambda data: b"", "is not a TrueType font"),
    ],
)
def test_a_font_that_cannot_print_is_refused(tmp_path, change, words):
    data = (PACKAGED / "Lato-Regular.ttf").read_bytes()
    for name in THEME.fonts.files.values():
        (tmp_path / name).write_bytes((PACKAGED / name).read_bytes())
    (tmp_path / "Lato-Regular.ttf").write_bytes(change(data))
    outcome = own(THEME.fonts, tmp_path)
    assert outcome.value is None
    assert [one.code for one in outcome.faults] == ["LB805"]
    assert words in outcome.faults[0].message


@pytest.mark.parametrize("name", ["../Lato-Regular.ttf", "/etc/passwd", "", "no-such.ttf", ".hidden"])
def test_a_font_outside_its_folder_is_refused(tmp_path, name):
    outcome = own(THEME.fonts, tmp_path, bold=name)
    assert outcome.value is None
    assert {one.code for one in outcome.faults} == {"LB805"}


@pytest.mark.parametrize("package", ["no_such_package", "os;x", "../x"])
def test_a_package_that_is_not_there_is_refused(package):
    outcome = open_faces(replace(THEME, fonts=replace(THEME.fonts, package=package)))
    assert [one.code for one in outcome.faults] == ["LB805"] * 4


def test_more_than_256_characters_are_all_shown():
    many = "".join(chr(code) for code in range(0x100, 0x250) if code in FACES["regular"].glyphs)
    assert len(many) > 256
    document = Document(FACES, title="t", language="en", extra=many)
    font = document.font("regular", 12)
    code = [
        f"BT {font} 1 0 0 1 20 {800 - 20 * at} Tm {document.show('regular', 12, many[at : at + 20])} ET"
        for at in range(0, len(many), 20)
    ]
    document.page(595, 9000, code)
    from pdf_reading import letters

    assert letters(document.finish())[0] == many


SCRIPT = """
import sys
sys.path.insert(0, sys.argv[1])
import pdf_samples as samples
from linebook.pdf.binder import draw_binder
sheets = [samples.batch_card(), samples.matrix()]
data = draw_binder(sheets, samples.THEME, "a4", title="x").value.content
assert not any(name.startswith("reportlab.platypus") for name in sys.modules), "platypus"
assert not any(name.startswith("reportlab.graphics") for name in sys.modules), "graphics"
sys.stdout.buffer.write(data)
"""


def drawn(home, **environment):
    kept = {name: value for name, value in os.environ.items() if name in ("PATH", "PYTHONPATH", "LANG")}
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(Path(__file__).parent)],
        capture_output=True,
        env={**kept, "HOME": str(home), **environment},
        check=False,
        cwd=home,
    )
    assert done.returncode == 0, done.stderr.decode()
    return done.stdout


def test_no_setting_of_the_machine_changes_the_bytes(tmp_path):
    calm, hostile = tmp_path / "calm", tmp_path / "hostile"
    calm.mkdir()
    hostile.mkdir()
    trace = hostile / "ran"
    settings = (
        f"open({str(trace)!r}, 'w').write('x')\nuseA85 = 1\ninvariant = 0\npageCompression = 0\nttfAsciiReadable = 0\n"
    )
    (hostile / ".reportlab_settings").write_text(settings)
    (hostile / "reportlab_settings.py").write_text(settings)
    plain = drawn(calm, PYTHONHASHSEED="1", TZ="UTC")
    other = drawn(
        hostile, PYTHONHASHSEED="2", TZ="Asia/Tokyo", RL_useA85="1", RL_invariant="0", RL_pageCompression="zero",
        SOURCE_DATE_EPOCH="not a number", RL_documentLang="xx",
    )  # fmt: skip
    assert plain == other
    assert not trace.exists()
