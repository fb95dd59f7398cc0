"""Text that looks like markup, code or commands is printed as it was typed, or told as a fault with its place; never run, never lost."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from house_mutations import STARTER, Texts, texts_of, write_house
from printed_text import linebook, squeezed, text_of

HOSTILE = '<b>&amp;{{7*7}}{% raw %}<img src="/etc/passwd"></article>]]>"it\'s" $x \\n %s <!-- --> &lt; ${7*7} #{1}'
MARKUP_LIKE = "R&amp;D &copy; &#60; a < b > c ]]> \"q\" 's' $x$ | a | b | ~~z~~ &nbsp; (c) -- ... %s http://www.example.com [^1] ::: 2 ^ 3"


def _quoted(text: str) -> str:
    """Return a text as YAML takes it between single quotes."""
    return "'" + text.replace("'", "''") + "'"


def _put(texts: Texts, file: str, old: str, new: str) -> None:
    assert texts[file].count(old), (file, old)
    texts[file] = texts[file].replace(old, new, 1)


def _step(texts: Texts, words: str) -> Texts:
    """Put words into the middle of a dish's first step."""
    _put(texts, "dishes/lentil-bowl.md", "They should fall", f"{words} zq They should fall")
    return texts


# One of every text field of the starter house that goes on paper: where it is, what it says, where hostile words go.
FIELDS = {
    "House": ("house.yaml", "name: My kitchen", "name: {}"),
    "Line": ("house.yaml", "name: Stove", "name: {}"),
    "Pot": ("house.yaml", "name: 10 L pot", "name: {}"),
    "Pan": ("house.yaml", "name: sixth pan 100 deep", "name: {}"),
    "Cold": ("house.yaml", "name: walk-in", "name: {}"),
    "Bowl": ("house.yaml", "name: bowl 24 cm", "name: {}"),
    "Avoided": ("house.yaml", "garlic: garlic", "garlic: {}"),
    "Menu": ("menus/first-menu.yaml", "name: first menu", "name: {}"),
    "Course": ("menus/first-menu.yaml", "name: Mains", "name: {}"),
    "Carrot": ("pantry/pantry.yaml", "name: carrots", "name: {}"),
    "Yogurt": ("pantry/pantry.yaml", "name: plain yogurt", "name: {}"),
    "Lentil": ("components/stewed-lentils.md", "name: Stewed red lentils", "name: {}"),
    "Prep": ("components/stewed-lentils.md", "prep: finely diced", "prep: {}"),
    "Sort": ("components/stewed-lentils.md", "sort: pulse", "sort: {}"),
    "Noted": ("components/stewed-lentils.md", "prep: crushed", "prep: crushed, note: {}"),
    "Dish": ("dishes/lentil-bowl.md", "name: Red lentils, roast carrot, mint yogurt", "name: {}"),
    "Text": ("dishes/lentil-bowl.md", "plate: bowl-24", "plate: bowl-24\nmenu_text: {}"),
    "Note": ("dishes/lentil-bowl.md", "leave_off: yes", "leave_off: yes, note: {}"),
    "Tool": ("dishes/lentil-bowl.md", "amount: 90 g", "amount: 90 g, tool: {}"),
}
ON_MATRIX = ("House", "Avoided", "Menu", "Course", "Dish", "Yogurt")


def _with_fields(words: str) -> Texts:
    texts = texts_of(STARTER)
    for name, (file, old, new) in FIELDS.items():
        _put(texts, file, old, new.format(_quoted(f"{name} {words}")))
    return texts


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_field_prints_hostile_words_as_typed(tmp_path: Path, paper: str) -> None:
    house = write_house(_with_fields(HOSTILE), tmp_path / "k")
    result = linebook("bind", house, "--paper", paper, "-o", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    binder, matrix = (text_of(tmp_path / "out" / f"{name}.pdf") for name in ("stove-binder", "allergen-matrix"))
    assert [name for name in FIELDS if squeezed(f"{name} {HOSTILE}") not in binder] == []
    assert [name for name in ON_MATRIX if squeezed(f"{name} {HOSTILE}") not in matrix] == []
    assert b"root:" not in (tmp_path / "out" / "stove-binder.pdf").read_bytes()


def test_a_batch_prints_hostile_words_as_typed(tmp_path: Path) -> None:
    house = write_house(_with_fields(HOSTILE), tmp_path / "k")
    result = linebook("batch", "stewed-lentils", "--house", house, "--times", "3", "-o", tmp_path / "b.pdf")
    assert result.exit_code == 0, result.stderr
    printed = text_of(tmp_path / "b.pdf")
    for name in ("House", "Line", "Pot", "Pan", "Cold", "Avoided", "Menu", "Lentil", "Prep", "Sort", "Noted", "Dish"):
        assert squeezed(f"{name} {HOSTILE}") in printed, name


def test_steps_points_and_headings_print_what_is_no_markdown(tmp_path: Path) -> None:
    texts = _step(texts_of(STARTER), MARKUP_LIKE)
    _put(texts, "dishes/lentil-bowl.md", "- Lentils: salt", f"- {MARKUP_LIKE} zr Lentils: salt")
    _put(texts, "components/stewed-lentils.md", "## If it goes wrong", f"## If it goes wrong\n- {MARKUP_LIKE} zs")
    result = linebook("bind", write_house(texts, tmp_path / "k"), "-o", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    printed = text_of(tmp_path / "out/stove-binder.pdf")
    for mark in ("zqThey", "zrLentils", "zs"):
        assert squeezed(MARKUP_LIKE) + mark in printed, mark


@pytest.mark.parametrize(
    ("words", "code", "at"),
    [
        ("<b>hot</b>", "LB117", "<b>"),
        ("</article>", "LB117", "</article>"),
        ("<!-- no -->", "LB117", "<!--"),
        ("<img src=/etc/passwd>", "LB117", "<img"),
        ("![x](/etc/passwd)", "LB117", "![x]"),
        ("[here](http://example.com)", "LB117", "[here]"),
        ("<http://example.com>", "LB117", "<http"),
        ("`rm -r`", "LB117", "`rm"),
        ("{{7*7}}", "LB214", "{{7*7"),
        ("{% raw %}", "LB214", "{% raw"),
        ("{fixed <b>}", "LB214", "{fixed"),
        ("salt } end", "LB214", "}"),
        ("\u202edlos\u202c", "LB104", "\u202e"),
        ("\u200fsalt", "LB104", "\u200f"),
        ("sa\u200blt", "LB104", "\u200b"),
        ("salt\u2028", "LB104", "\u2028"),
        ("salt\ufeff", "LB104", "\ufeff"),
        ("salt\x07", "LB104", "\x07"),
        ("lemon 🍋", "LB801", "🍋"),
        ("👨\u200d👩\u200d👧", "LB801", "👨"),
        ("鱼", "LB801", "鱼"),
        ("מלח", "LB801", "מ"),
        ("\ue000", "LB801", "\ue000"),
    ],
)
def test_what_cannot_be_printed_in_a_step_is_told_with_its_place(
    tmp_path: Path, words: str, code: str, at: str
) -> None:
    texts = _step(texts_of(STARTER), words)
    result = linebook("bind", write_house(texts, tmp_path / "k"), "-o", tmp_path / "out")
    assert result.exit_code == 1
    assert not (tmp_path / "out").exists()
    lines = texts["dishes/lentil-bowl.md"].split("\n")
    line, text = next((number, text) for number, text in enumerate(lines, 1) if words in text)
    column = text.find(at, text.find(words)) + 1
    head, place = result.stderr.split("\n")[:2]
    assert head.startswith(f"error {code} ")
    assert place.strip() == f"{(tmp_path / 'k').as_posix()}/dishes/lentil-bowl.md:{line}:{column}"


@pytest.mark.parametrize("name", list(FIELDS))
def test_a_character_the_font_lacks_is_told_where_it_was_typed(tmp_path: Path, name: str) -> None:
    """Also in every name: a letter that would print as nothing stops the sheet, and its line is shown."""
    file, old, new = FIELDS[name]
    texts = texts_of(STARTER)
    _put(texts, file, old, new.format(_quoted("salt 🍋 and 塩")))
    result = linebook("bind", write_house(texts, tmp_path / "k"), "-o", tmp_path / "out")
    assert result.exit_code == 1
    text = texts[file]
    for letter in "🍋塩":
        before = text[: text.index(letter)]
        place = f"{file}:{before.count(chr(10)) + 1}:{len(before.rpartition(chr(10))[2]) + 1}"
        assert f"/{place}\n" in result.stderr
    assert result.stderr.count("LB801") == 4, "two letters, each told once and once with its explanation"


@pytest.mark.parametrize("length", [40, 400, 5_000])
def test_a_very_long_word_is_printed_to_its_last_letter(tmp_path: Path, length: int) -> None:
    word = "ж" * length
    texts = _step(texts_of(STARTER), word)
    _put(texts, "components/stewed-lentils.md", "prep: finely diced", f"prep: {'щ' * min(length, 200)}")
    result = linebook("bind", write_house(texts, tmp_path / "k"), "-o", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    printed = text_of(tmp_path / "out/stove-binder.pdf")
    assert printed.count("ж") == length
    assert printed.count("щ") == min(length, 200)


def test_letters_of_many_scripts_are_printed(tmp_path: Path) -> None:
    words = "Crème brûlée, Ærø, Łódź, smørrebrød, jalapeño, þorskur, Γιαούρτι, борщ, phở bò, ½ ⅓ ¾ ≥ ≤ → µ № ™ € £"
    texts = _step(texts_of(STARTER), words)
    result = linebook("bind", write_house(texts, tmp_path / "k"), "-o", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    assert squeezed(words) in text_of(tmp_path / "out/stove-binder.pdf")


@pytest.mark.parametrize("mark", ["\u202e", "\u200f", "\u2066", "\u200b"])
def test_marks_that_turn_text_around_are_refused_in_names_too(tmp_path: Path, mark: str) -> None:
    texts = texts_of(STARTER)
    _put(texts, "pantry/pantry.yaml", "name: carrots", f"name: car{mark}rots")
    result = linebook("check", write_house(texts, tmp_path / "k"), "--form", "short")
    assert result.exit_code == 1
    assert re.search(r"pantry/pantry\.yaml:\d+:12: error LB104", result.stderr), result.stderr
