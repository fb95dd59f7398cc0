"""A house whose words try to be markup: every page keeps to the rules, and shows the words as they were typed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from page_reader import read_page
from page_rules import complaints_about

from linebook.cli.main import command

STARTER = Path(__file__).parents[2] / "src" / "linebook" / "starter"
NAMES = (
    "<script>alert(1)</script>",
    "\"><img src=x onerror='alert(1)'>",
    "</title></style><b>x",
    "&lt;&#60;&amp; {{ 7 }} {% if %}",
    "]]> --> <!--",
    "javascript:alert(1)",
)


def _screen(house: Path, out: Path) -> Result:
    arguments = ["screen", str(house), "--date", "2027-03-02", "-o", str(out)]
    return CliRunner().invoke(command, arguments, prog_name="linebook", catch_exceptions=False)


def _rename(house: Path, name: str) -> None:
    quoted = "'" + name.replace("'", "''") + "'"
    places = {
        "dishes/lentil-bowl.md": "name: Red lentils, roast carrot, mint yogurt",
        "components/stewed-lentils.md": "name: ",
        "menus/first-menu.yaml": "name: ",
        "house.yaml": "name: ",
    }
    for file, start in places.items():
        path = house / file
        lines = path.read_text().splitlines(keepends=True)
        at = next(at for at, line in enumerate(lines) if line.startswith(start))
        lines[at] = f"name: {quoted}\n"
        path.write_text("".join(lines))


@pytest.mark.parametrize("name", NAMES)
def test_words_that_look_like_markup_are_words(tmp_path: Path, name: str) -> None:
    house = tmp_path / "house"
    shutil.copytree(STARTER, house)
    _rename(house, name)
    done = _screen(house, tmp_path / "out")
    assert done.exit_code == 0, done.stderr
    pages = {path.name: path.read_text(encoding="utf-8") for path in (tmp_path / "out").glob("*.html")}
    assert {file: found for file, text in pages.items() if (found := complaints_about(text, pages))} == {}
    card = read_page(pages["station-card-lentil-bowl.html"])
    shown = " ".join(name.split())
    assert card.one("h1").text == shown
    assert next(card.all("title")).text == f"{shown} · Station card"
    assert any(head.text.startswith(shown) for head in card.all("th"))
    assert shown in card.one("body").children[-2].text


@pytest.mark.parametrize("letter", ["\u202e", "\u2066", "\u200f"])
@pytest.mark.parametrize("typed", ["raw", "escaped", "in a template"])
def test_what_would_turn_words_round_makes_no_page(tmp_path: Path, letter: str, typed: str) -> None:
    house, out = tmp_path / "house", tmp_path / "out"
    shutil.copytree(STARTER, house)
    if typed == "in a template":
        (house / "templates").mkdir()
        source = (STARTER.parents[2] / "templates" / "station_card.xml.j2").read_text()
        assert "<article" in source
        (house / "templates" / "station_card.xml.j2").write_text(
            source.replace("</header>", f"</header><p>&#{ord(letter)};nuts</p>", 1)
        )
    else:
        dish = house / "dishes" / "lentil-bowl.md"
        word = letter if typed == "raw" else f"\\u{ord(letter):04x}"
        dish.write_text(
            dish.read_text()
            .replace("name: Red lentils", f'name: "Red {word}lentils', 1)
            .replace("mint yogurt", 'mint yogurt"', 1)
        )
    done = _screen(house, out)
    assert done.exit_code == 1
    assert "LB104" in done.stderr
    assert not out.exists()
