"""The quick reading of font files, held against the PDF library's own on every face of the installed font packages."""

from importlib.util import find_spec
from pathlib import Path

import pytest

from linebook.pdf.font_files import _QuickFace

LIBRARY = _QuickFace.__mro__[1]
"""The library's own class of faces, in whose place the quick one stands."""

FILES = sorted(
    file
    for package in ("fontpkg_lato", "fontpkg_ibm_plex_serif")
    for file in (Path(find_spec(package).submodule_search_locations[0]) / "files").glob("*.ttf")
)


APART = ("_ttf_data", "_pos", "_pdfScale", "glyphToChar")
"""The bytes of the file and a reader's place in them, a function that is another one each time, and what only the
library's shaping of text asks for, which is switched off."""


@pytest.fixture
def quickly(monkeypatch):
    """What each quick reading said of itself: whether it was enough."""
    said = []
    quick = _QuickFace._read_tables

    def heard(face):
        said.append(quick(face))
        return said[-1]

    monkeypatch.setattr(_QuickFace, "_read_tables", heard)
    return said


def told(face):
    """All that a face knows of its file, with the kind of each value."""
    return {name: (type(value), value) for name, value in vars(face).items() if name not in APART}


def table_at(data, tag):
    count = int.from_bytes(data[4:6], "big")
    (entry,) = (at for at in range(12, 12 + 16 * count, 16) if data[at : at + 4] == tag)
    return int.from_bytes(data[entry + 8 : entry + 12], "big")


def changed(file, tag, at, number, folder):
    """A copy of a font file with the two bytes at ``at`` of a table changed."""
    data = bytearray(file.read_bytes())
    place = table_at(data, tag) + at
    data[place : place + 2] = number.to_bytes(2, "big")
    copy = folder / "changed.ttf"
    copy.write_bytes(data)
    return copy


def test_both_packages_have_faces():
    families = [file.name.split("-")[0] for file in FILES]
    assert families.count("Lato") >= 18
    assert families.count("IBMPlexSerif") >= 14


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_face_is_read_as_the_library_reads_it(file, quickly):
    quick, library = _QuickFace(str(file)), LIBRARY(str(file))
    assert quickly == [True]
    mine, theirs = told(quick), told(library)
    mine["filename"] = theirs["filename"]
    assert mine == theirs
    assert len(quick.charToGlyph) > 300
    assert len(quick.glyphPos) == quick.numGlyphs + 1


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_subset_of_a_face_is_the_same_file(file):
    letters = [ord(letter) for letter in " AMiogé½–0123456789()"]
    assert _QuickFace(str(file)).makeSubset(letters) == LIBRARY(str(file)).makeSubset(letters)


@pytest.mark.parametrize(("tag", "at"), [(b"hhea", 34), (b"head", 52)], ids=["fewer advances", "form of outlines"])
def test_what_is_not_in_the_usual_form_is_left_to_the_library(tag, at, quickly, tmp_path):
    file = changed(FILES[0], tag, at, 1, tmp_path)
    mine = outcome(_QuickFace, file)
    assert quickly == [False]
    assert mine == outcome(LIBRARY, file)


@pytest.mark.parametrize("of_last", [False, True], ids=["many tables of characters", "a place outside of the file"])
def test_of_a_damaged_file_the_same_is_said(of_last, quickly, tmp_path):
    data = FILES[0].read_bytes()
    tables = int.from_bytes(data[table_at(data, b"cmap") + 2 :][:2], "big")
    file = changed(FILES[0], b"cmap", 4 + 8 * (tables - 1) + 4 if of_last else 2, 0xFFFF, tmp_path)
    said = outcome(_QuickFace, file)
    assert said == outcome(LIBRARY, file)
    assert isinstance(said, tuple)
    assert True not in quickly


def outcome(kind, file):
    """What a face knows of a file, or what is said when it cannot be read."""
    try:
        return told(kind(str(file)))
    except Exception as error:
        return type(error).__name__, str(error)
