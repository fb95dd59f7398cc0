"""What the commands say of a house in two languages: what is missing, once, and nothing where nothing is asked for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from running import Run

SPECS = Path(__file__).parents[2] / "specs"
MISSING = re.compile(r"Spanish: (?:\d+ names?, )?\d+ methods and \d+ notes are not translated yet; printed in English")


@pytest.fixture
def bilingual(demo: Path) -> Path:
    text = (demo / "house.yaml").read_text(encoding="utf-8")
    (demo / "house.yaml").write_text(f"{text}languages: [en, es]\n", encoding="utf-8")
    return demo


def test_check_says_what_is_missing_where_two_languages_are_printed(run: Run, bilingual: Path):
    result = run("check", "--strict")
    assert result.exit_code == 0
    assert len(MISSING.findall(result.stdout)) == 1
    assert "clean." in result.stdout


def test_check_says_nothing_of_it_in_the_forms_for_machines_or_in_one_language(run: Run, bilingual: Path):
    assert "Spanish" not in run("check", "--form", "json").stdout
    assert "Spanish" not in run("check", "--form", "short").stdout
    result = run("check", "--strict", str(SPECS))
    assert result.exit_code == 0
    assert "Spanish" not in result.stdout


def test_a_fault_in_a_translation_stops_the_sheets_in_that_language_alone(run: Run, demo: Path):
    path = demo / "components" / "celeriac-puree.es.md"
    path.write_text(path.read_text(encoding="utf-8").replace("**94 °C**", "**49 °C**"), encoding="utf-8")
    assert run("check").exit_code == 1
    asked = ("batch", "celeriac-puree", "--times", "1", "--date", "2027-03-06")
    one = run(*asked, "-o", "one.pdf")
    assert (one.exit_code, one.stderr) == (0, "")
    two = run(*asked, "--languages", "en,es", "-o", "two.pdf")
    assert two.exit_code == 1
    assert "LB320" in two.stderr
    assert not (demo.parent / "two.pdf").exists()


def test_the_schema_of_what_is_in_another_language(run: Run):
    for kind in ("words", "dish-words", "component-words"):
        result = run("schema", kind)
        assert result.exit_code == 0
        assert '"additionalProperties": false' in result.stdout


def test_translations_are_no_ids_to_complete(monkeypatch: pytest.MonkeyPatch):
    import click

    from linebook.cli.options import IdType

    monkeypatch.chdir(SPECS.parent)
    context = click.Context(click.Command("x"))
    offered = {item.value for item in IdType("components").shell_complete(context, click.Option(["--x"]), "celeriac")}
    assert offered == {"celeriac-crisp", "celeriac-puree"}
