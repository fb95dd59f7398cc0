"""A spec made to exhaust whoever reads it is told or refused in seconds, with its place, and what is large but honest is drawn."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from house_mutations import STARTER, Texts, assert_told_well, texts_of, try_house, write_house
from printed_text import linebook

from linebook.pipeline import load_house

MOST_SECONDS = 15.0
"""Of the processor, so that a busy machine does not fail the test."""

STEWED, BOWL, PANTRY = "components/stewed-lentils.md", "dishes/lentil-bowl.md", "pantry/bomb.yaml"
Spoil = Callable[[Texts], None]


def _file(name: str, text: str) -> Spoil:
    return lambda texts: texts.__setitem__(name, text)


def _put(name: str, old: str, new: str) -> Spoil:
    def put(texts: Texts) -> None:
        assert old in texts[name]
        texts[name] = texts[name].replace(old, new, 1)

    return put


def _method(text: str) -> Spoil:
    return lambda texts: texts.__setitem__(STEWED, f"{texts[STEWED]}\n{text}\n")


def _aliases() -> str:
    """Nine levels of nine: 3.9e8 leaves in a file of some 300 bytes."""
    first = "a: &a [" + ",".join("x" * 9) + "]\n"
    return first + "".join(
        f"{name}: &{name} [{','.join([f'*{before}'] * 9)}]\n"
        for before, name in zip("abcdefgh", "bcdefghi", strict=True)
    )


# What it is, and the code it is told by.
REFUSED: dict[str, tuple[Spoil, str]] = {
    "alias bomb": (_file(PANTRY, _aliases()), "LB103"),
    "alias bomb in house.yaml": (lambda texts: texts.__setitem__("house.yaml", _aliases() + texts["house.yaml"]), "LB103"),
    "over 1 MB": (_file(PANTRY, "# salt\n" * 150_000), "LB110"),
    "1 MB of steps": (_method("- **salt** *and* water **\n" * 38_000), "LB110"),
    "1 MB in one step": (_method("- " + "*a " * 330_000), "LB110"),
    "1 MB of brackets": (_method("- " + "[" * 990_000), "LB110"),
    "1 MB of link definitions": (_method("".join(f"[a{at}]: /u\n\n" for at in range(60_000))), "LB110"),
    "1 MB in one name": (_put("house.yaml", "My kitchen", "m" * 990_000), "LB110"),
    "1 MB of escapes": (_file(PANTRY, 'a: "' + "\\x41" * 240_000 + '"'), "LB110"),
    "1 MB of unknown fields": (_file(PANTRY, "".join(f"x{at}: {{nme: 1}}\n" for at in range(55_000))), "LB110"),
    "1 MB of plain values": (_file(PANTRY, "".join(f"x{at}: 1\n" for at in range(90_000))), "LB110"),
    "1 MB of one id": (_file(PANTRY, "x: {name: a}\n" * 70_000), "LB102"),
    "40,000 sections": (_method("".join(f"## Head {at}\n\n- x\n" for at in range(40_000))), "LB110"),
    "a table of 20,000 columns": (_method("|" + "a|" * 20_000 + "\n|" + "-|" * 20_000), "LB117"),
    "quotes 5,000 deep": (_method(">" * 5_000 + " x"), "LB117"),
    "lists 5,000 deep": (_method("- " * 5_000 + "x"), "LB117"),
    "groups 1,300 deep": (_file(PANTRY, "".join(" " * at + "a:\n" for at in range(1_300))), "LB110"),
    "lists 5,000 deep in YAML": (_file(PANTRY, "a: " + "[" * 5_000 + "]" * 5_000), "LB110"),
    "lists 490,000 deep in YAML": (_file(PANTRY, "a: " + "[" * 490_000 + "]" * 490_000), "LB110"),
    "mappings 5,000 deep in YAML": (_file(PANTRY, "a: " + "{a: " * 5_000), "LB110"),
    "sequences 490,000 deep in YAML": (_file(PANTRY, "- " * 490_000 + "x"), "LB110"),
    "keys 490,000 deep in YAML": (_file(PANTRY, "? " * 490_000 + "x"), "LB110"),
    "2,000 open brackets": (_file(PANTRY, "a: " + "[" * 2_000), "LB110"),
    "2,000 open brackets in a dish": (_put(BOWL, "warm: yes", "warm: " + "[" * 2_000), "LB110"),
    "a step of 100,000 words": (_put(BOWL, "1. Stir", "1. " + "salt " * 100_000 + "Stir"), "LB110"),
    "10^12 covers": (_put("house.yaml", "[40, 60, 80]", "[1000000000000]"), "LB316"),
    "10^12 covers on a Saturday": (_put("menus/first-menu.yaml", "sat: 80", "sat: 1000000000000"), "LB316"),
    "1,000 nights": (_put("house.yaml", "[40, 60, 80]", str(list(range(1, 1_001)))), "LB110"),
    "5,000 digits": (_put("house.yaml", "holds: 10 L", "holds: " + "9" * 5_000 + " L"), "LB110"),
    "40 digits": (_put("house.yaml", "holds: 10 L", "holds: " + "9" * 40 + " L"), "LB316"),
    "a power": (_put("house.yaml", "holds: 10 L", "holds: 1e999999999 L"), "LB301"),
    "a tiny largest batch": (_put(STEWED, "largest_batch: 8 kg", "largest_batch: 0.001 g"), "LB316"),
    "20,000 ingredients": (_put(STEWED, "ingredients:\n", "ingredients:\n" + "  - {item: water, amount: 1 g}\n" * 20_000), "LB110"),
    "2,000 elements": (_put(BOWL, "elements:\n", "elements:\n" + "  - {item: mint, amount: 1 leaf, at: centre}\n" * 2_000), "LB110"),
    "2,000 places": (_put(BOWL, "at: 10 o'clock", "at: [" + ", ".join(["10 o'clock"] * 2_000) + "]"), "LB110"),
    "5,001 files": (lambda texts: texts.update({f"pantry/p-{at}.yaml": "" for at in range(5_001)}), "LB110"),
}  # fmt: skip

DRAWN: dict[str, Spoil] = {
    "9,000 brackets in a step": _method("- " + "[" * 9_000),
    "3,000 open emphases": _method("- " + "*a_" * 3_000),
    "3,000 open tags": _method("- " + "<a " * 3_000),
    "4,500 open pictures": _method("- " + "![" * 4_500),
    "a thousand million leaves": _put(BOWL, "amount: 4 leaves", "amount: 999999999 leaves"),
    "a thousand million spots": _put(BOWL, "amount: 30 g, at: 10 o'clock", "amount: 999999999 each, at: 10 o'clock"),
    "10^12 pieces": _put(STEWED, "makes: 6 kg", "makes: 6 kg\npieces: 999999999999"),
    "twelve portions a cover": _put("menus/first-menu.yaml", "share: 1,", "share: 12,"),
    "a chain of 300 components": lambda texts: texts.update(_chain(300)),
}


def _chain(length: int) -> Texts:
    def card(at: int) -> str:
        item = f"c-{at + 1}" if at + 1 < length else "water"
        fields = f"name: c {at}\nline: stove\nmakes: 1 kg\ningredients:\n  - {{item: {item}, amount: 1 kg}}\nstages:\n  - {{stage: mix}}"
        return f"---\n{fields}\n---\n## Mix\n1. Mix.\n"

    return {f"components/c-{at}.md": card(at) for at in range(length)}


@pytest.mark.parametrize("bomb", list(REFUSED))
def test_a_bomb_is_told_in_seconds(tmp_path: Path, bomb: str) -> None:
    spoil, code = REFUSED[bomb]
    texts = texts_of(STARTER)
    spoil(texts)
    house = write_house(texts, tmp_path / "k")
    began = time.process_time()
    loaded = load_house(house, "kitchen")
    took = time.process_time() - began
    assert loaded.value is None
    assert code in {fault.code for fault in loaded.faults}
    assert_told_well(loaded.faults[:1_000])
    assert took < MOST_SECONDS


@pytest.mark.parametrize("bomb", ["alias bomb", "1 MB of one id", "20,000 ingredients", "lists 5,000 deep in YAML"])
def test_the_command_tells_a_bomb_in_seconds_and_in_few_words(tmp_path: Path, bomb: str) -> None:
    spoil, code = REFUSED[bomb]
    texts = texts_of(STARTER)
    spoil(texts)
    house = write_house(texts, tmp_path / "k")
    began = time.process_time()
    result = linebook("check", house)
    assert time.process_time() - began < MOST_SECONDS
    assert result.exit_code == 1
    assert f"error {code} " in result.stderr
    assert len(result.stderr) < 1_000_000
    if bomb == "1 MB of one id":
        assert "more: mend these first, or see all with `linebook check --form short`\n" in result.stderr
        assert "69999 errors" in result.stderr


@pytest.mark.parametrize("load", list(DRAWN))
def test_what_is_only_large_is_drawn_in_seconds(tmp_path: Path, load: str) -> None:
    texts = texts_of(STARTER)
    DRAWN[load](texts)
    house = write_house(texts, tmp_path / "k")
    began = time.process_time()
    assert try_house(house, sized=False) == "drawn"
    assert time.process_time() - began < 2 * MOST_SECONDS


@pytest.mark.parametrize(
    "arguments",
    [
        ("bind", "--covers", "1000000000000"),
        ("bind", "--covers", "9" * 5_000),
        ("bind", "--date", "9" * 5_000),
        ("batch", "stewed-lentils", "--makes", "1e400 kg"),
        ("batch", "stewed-lentils", "--makes", "9" * 5_000 + " kg"),
        ("batch", "stewed-lentils", "--makes", "1/" + "9" * 30 + " kg"),
        ("batch", "stewed-lentils", "--times", "9" * 13),
        ("batch", "stewed-lentils", "--times", "nan"),
        ("batch", "stewed-lentils", "--times", "-1"),
        ("batch", "x" * 5_000, "--times", "1"),
        ("explain", "LB" + "9" * 5_000),
        ("schema", "\x00"),
    ],
)
def test_the_command_line_refuses_what_no_kitchen_asks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...]
) -> None:
    write_house(texts_of(STARTER), tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    result = linebook(*arguments)
    assert result.exit_code == 2, result.output
    assert not (tmp_path / "output").exists()


@pytest.mark.parametrize("arguments", [("batch", "stewed-lentils", "--times", "9000"), ("bind", "--covers", "100000")])
def test_more_loads_than_a_card_can_log_are_told_at_the_largest_batch(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...]
) -> None:
    write_house(texts_of(STARTER), tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    began = time.process_time()
    result = linebook(*arguments)
    assert time.process_time() - began < MOST_SECONDS
    assert result.exit_code == 1
    assert result.stderr.startswith("error LB316 ")
    assert f"{STEWED}:7:16\n" in result.stderr
