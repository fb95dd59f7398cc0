"""Which files of a house folder are in another language, by their names alone."""

from __future__ import annotations

from pathlib import PurePosixPath

import pytest

from linebook.documents.catalogue import LANGUAGES as PRINTED
from linebook.model.translations import LANGUAGE_NAMES, written_language
from linebook.read.house_fields import LANGUAGES
from linebook.source.files import find_spec_files, split_translation


@pytest.mark.parametrize(
    ("name", "split"),
    [
        ("short-rib.es.md", ("short-rib", "es")),
        ("short-rib.ES.md", ("short-rib", "ES")),
        ("short-rib.es-ES.md", ("short-rib", "es-ES")),
        ("short-rib.esp.md", ("short-rib", "esp")),
        ("a.b.es.md", ("a.b", "es")),
        ("short-rib.md", None),
        ("short-rib.old.md", None),
        ("short-rib.v2.md", None),
        ("short-rib.es.yaml", None),
        (".es.md", None),
    ],
)
def test_the_name_of_a_translation(name, split):
    assert split_translation(name) == split


def test_translations_are_no_cards(tmp_path):
    for path in (
        "house.yaml",
        "words.es.yaml",
        "words.fr.yaml",
        "dishes/a.md",
        "dishes/a.es.md",
        "dishes/a.old.md",
        "components/b.md",
        "components/b.es.md",
        "menus/m.es.yaml",
    ):
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_text("name: x\n", encoding="utf-8")
    found = find_spec_files(tmp_path, "specs")
    assert found.faults == ()
    assert found.value is not None
    assert found.value.dishes == (PurePosixPath("dishes/a.md"), PurePosixPath("dishes/a.old.md"))
    assert found.value.components == (PurePosixPath("components/b.md"),)
    assert found.value.menus == (PurePosixPath("menus/m.es.yaml"),)
    assert found.value.translations == (PurePosixPath("dishes/a.es.md"), PurePosixPath("components/b.es.md"))
    assert found.value.words == (PurePosixPath("words.es.yaml"), PurePosixPath("words.fr.yaml"))


@pytest.mark.parametrize(
    ("path", "mend"),
    [
        ("words.yaml", "words.es.yaml"),
        ("words.es.yml", "words.es.yaml"),
        ("words-es.yaml", "words.es.yaml"),
        ("words_es.yaml", "words.es.yaml"),
        ("word.es.yaml", "words.es.yaml"),
        ("words.fr.yml", "words.fr.yaml"),
        ("words.es.md", "words.es.yaml"),
        ("pantry/words.es.yaml", "words.es.yaml"),
    ],
)
def test_the_words_of_a_house_under_another_name_are_one_fault(tmp_path, path, mend):
    (tmp_path / "house.yaml").write_text("name: x\n", encoding="utf-8")
    (tmp_path / path).parent.mkdir(exist_ok=True)
    (tmp_path / path).write_text("lines: {}\n", encoding="utf-8")
    found = find_spec_files(tmp_path, "specs")
    assert [(fault.code, fault.span.source.path) for fault in found.faults] == [("LB119", f"specs/{path}")]
    assert f"`{mend}`" in found.faults[0].hints[0]


@pytest.mark.parametrize(
    ("printed", "translated", "written"),
    [
        (("en",), {"es"}, "en"),
        (("en", "es"), {"es"}, "en"),
        (("es", "en"), {"en"}, "es"),
        (("es",), {"es"}, ""),
        (("es",), set(), "es"),
        (("es",), {"en", "es"}, "es"),
        (("en", "es"), {"en"}, "en"),
    ],
)
def test_which_language_the_specs_are_written_in(printed, translated, written):
    assert written_language(printed, frozenset(translated)) == written


def test_all_parts_know_the_same_languages():
    assert dict(LANGUAGE_NAMES) == dict(PRINTED)
    assert set(LANGUAGE_NAMES) == set(LANGUAGES)
