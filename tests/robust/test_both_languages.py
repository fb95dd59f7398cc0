"""A binder in two languages says every word of the specs and every word of their translations, to the last letter.

The translations are read here by PyYAML and a few patterns, not by linebook, and the PDF by another library.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from house_mutations import REPOSITORY
from printed_text import PrintedSheet, linebook, pages_of, sheets_of, squeezed

SPECS = REPOSITORY / "specs"
ARTICLE = re.compile(r"\s*de(?:l| la| las| los)\s")
DAYS = {"early-spring": "2027-03-02", "late-winter": "2027-02-02"}
Prints = dict[str, tuple[PrintedSheet, ...]]


def bound(folder: Path, menu: str, languages: str, line: str = "hearth") -> tuple[PrintedSheet, ...]:
    result = linebook(*("bind", SPECS, "--date", DAYS[menu], "--line", line, "--languages", languages, "-o", folder))
    assert result.exit_code == 0, result.stderr
    return sheets_of(folder / f"{line}-binder.pdf")


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Prints:
    return {menu: bound(tmp_path_factory.mktemp(menu), menu, "en,es") for menu in DAYS}


@pytest.fixture(scope="module")
def spanish(tmp_path_factory: pytest.TempPathFactory) -> tuple[PrintedSheet, ...]:
    return bound(tmp_path_factory.mktemp("es"), "early-spring", "es")


def card_of(path: Path) -> tuple[dict, str]:
    """Return front matter and method of a file."""
    _, fields, body = re.split(r"^---\s*$", path.read_text(encoding="utf-8"), maxsplit=2, flags=re.MULTILINE)
    return yaml.safe_load(fields), body


def texts_of(path: Path) -> Iterator[str]:
    """Yield every text of a spec or of its translation that is printed, its steps cut where an amount is computed."""
    fields, body = card_of(path)
    yield fields["name"]
    yield fields.get("menu_text") or ""
    yield fields.get("sort") or ""
    for line in (*(fields.get("elements") or ()), *(fields.get("ingredients") or ())):
        yield from (line.get(part) or "" for part in ("note", "prep", "tool"))
    for part in ("notes", "preps", "tools", "sizes", "also_makes"):
        said = fields.get(part)
        if isinstance(said, dict) and all(isinstance(text, str) for text in said.values()):
            yield from said.values()
    for line in filter(None, map(str.strip, body.splitlines())):
        text = re.sub(r"^(?:## |[0-9]+\. |- )", "", line).replace("**", "").replace("*", "")
        text = re.sub(r"\{fixed ([^}]*)\}", r"\1", text)
        first, *after = re.split(r"\{[^}]*\}", text)
        yield first
        yield from (ARTICLE.sub("", part, count=1) if ARTICLE.match(part) else part for part in after)


def subjects() -> list[Path]:
    return sorted(path for folder in ("dishes", "components") for path in (SPECS / folder).glob("*.es.md"))


def sheets_about(both: Prints, path: Path) -> list[PrintedSheet]:
    """Return the sheets of a dish or component, of whichever menu has it."""
    own = card_of(path.with_name(path.name.replace(".es.md", ".md")))[0]["name"]
    found = (
        [sheet for sheet in sheets if any(squeezed(title).startswith(squeezed(own)) for title in sheet.titles)]
        for sheets in both.values()
    )
    return next(filter(None, found), [])


def test_there_are_enough_translations_to_look_at():
    paths = subjects()
    assert sum(path.parent.name == "dishes" for path in paths) >= 4
    assert sum(path.parent.name == "components" for path in paths) >= 8


@pytest.mark.parametrize("path", subjects(), ids=lambda path: path.name)
def test_both_languages_are_all_there(both: Prints, path: Path):
    sheets = sheets_about(both, path)
    assert sheets, f"{path.name} is in no binder of the hearth"
    for spec in (path, path.with_name(path.name.replace(".es.md", ".md"))):
        texts = [text for text in texts_of(spec) if len(squeezed(text)) > 1]
        assert len(texts) > 8
        lost = [text for text in texts if not any(sheet.says(text) for sheet in sheets)]
        assert not lost, spec.name


def test_the_names_of_the_house_are_there_in_both(both: Prints):
    said = "".join(page for sheets in both.values() for sheet in sheets for page in sheet.pages)
    words = yaml.safe_load((SPECS / "words.es.yaml").read_text(encoding="utf-8"))
    own = yaml.safe_load((SPECS / "house.yaml").read_text(encoding="utf-8"))
    for kind, id_ in (("lines", "hearth"), ("places", "walk-in"), ("vessels", "rondeau-12"), ("plates", "oval-30")):
        assert squeezed(own[kind][id_]["name"]) in said
        assert squeezed(words[kind][id_]) in said
    for item in ("celeriac", "unsalted-butter", "fine-salt", "beef-short-rib"):
        assert squeezed(words["pantry"][item]) in said
    for text in (words["courses"]["fire"], words["menus"]["early-spring"], words["media"]["fryer"]):
        assert squeezed(text) in said


def test_in_spanish_alone_what_is_translated_is_not_said_in_english_too(spanish: tuple[PrintedSheet, ...]):
    said = "".join(page for sheet in spanish for page in sheet.pages)
    card = SPECS / "components" / "celeriac-puree.es.md"
    assert all(squeezed(text) in said for text in texts_of(card))
    for text in ("Run in", "Tub it cold", "peeled, in 2 cm dice", "Celeriac purée"):
        assert squeezed(text) not in said
    assert squeezed("Añadir la nata, hirviendo") in said  # an amount that a binder does not print leaves its article


def test_in_spanish_alone_what_is_not_translated_stands_as_the_specs_have_it(tmp_path: Path):
    sheets = bound(tmp_path, "early-spring", "es", line="larder")
    (card,) = (sheet for sheet in sheets if squeezed("Trucha curada") == squeezed(sheet.titles[-1]))
    fields, body = card_of(SPECS / "components" / "cured-trout.md")
    assert card.says("Cuarto frío")
    assert not card.says(fields["name"])
    steps = [line.split(" ", 1)[1] for line in body.splitlines() if line[:1].isdigit() and "{" not in line]
    assert steps
    assert all(card.says(step.replace("**", "")) for step in steps)


def test_no_translation_is_printed_where_none_is_asked_for(tmp_path: Path):
    result = linebook("bind", SPECS, "--date", DAYS["early-spring"], "--line", "hearth", "-o", tmp_path)
    assert result.exit_code == 0, result.stderr
    assert "Spanish" not in result.stdout
    said = "".join(pages_of(tmp_path / "hearth-binder.pdf"))
    for path in subjects():
        assert squeezed(card_of(path)[0]["name"]) not in said


def test_what_is_missing_is_said_and_counted(tmp_path: Path):
    result = linebook("matrix", SPECS, "--date", DAYS["early-spring"], "--languages", "en,es", "-o", tmp_path / "m.pdf")
    assert result.exit_code == 0, result.stderr
    found = re.search(
        r"Spanish: (?:\d+ names?, )?(\d+) methods and (\d+) notes are not translated yet; printed in English",
        result.stdout,
    )
    assert found, result.stdout
    cards = [path for folder in ("dishes", "components") for path in (SPECS / folder).glob("*.md")]
    own = [path for path in cards if ".es." not in path.name]
    assert int(found[1]) == len(own) - len(subjects())
