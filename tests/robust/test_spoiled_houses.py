"""Never a traceback: whole houses, spoiled as hands and clipboards spoil them, are told where they are wrong or come out whole.

``hunt.py`` does the same with thousands of them.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from house_mutations import HOUSES, assert_told_well, spoil, texts_of, try_house, write_house
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from printed_text import linebook

from linebook.pipeline import load_house

SEEDS = {"starter": 24, "quarry-lamp": 8, "tansy-row": 8, "gannet-steps": 8, "small": 10, "demo": 3}


@pytest.mark.parametrize("house", list(SEEDS))
def test_spoiled_houses_are_told_or_drawn(tmp_path: Path, house: str) -> None:
    came = set()
    for seed in range(SEEDS[house]):
        texts, done = spoil(house, seed)
        try:
            came.add(try_house(write_house(texts, tmp_path / "k"), sized=seed % 4 == 0).partition(" ")[0])
        except Exception as error:
            error.add_note(f"seed {seed} of {house}: {done}")
            raise
    assert "refused" in came
    assert came - {"refused"} or house == "demo", "some are drawn"


@pytest.mark.parametrize("house", list(HOUSES))
def test_the_houses_themselves_are_drawn(house: str) -> None:
    assert load_house(HOUSES[house], house).value is not None


@pytest.mark.parametrize("house", ["starter", "small", "gannet-steps"])
def test_every_line_taken_out_alone_is_told_or_accepted(tmp_path: Path, house: str) -> None:
    """One line of one file at a time, a third of all lines, without drawing."""
    texts = texts_of(HOUSES[house])
    for name, text in texts.items():
        lines = text.split("\n")
        for at in range(len(lines)):
            if (at + len(name)) % 3 == 0:
                cut = "\n".join(lines[:at] + lines[at + 1 :])
                try_house(write_house(texts | {name: cut}, tmp_path / "k"), draw=False)


@pytest.mark.parametrize("house", ["starter", "gannet-steps"])
def test_every_file_cut_short_anywhere_is_told_or_accepted(tmp_path: Path, house: str) -> None:
    texts = texts_of(HOUSES[house])
    chance = random.Random(house)
    for name, text in texts.items():
        for _ in range(8):
            cut = text[: chance.randrange(len(text))]
            try_house(write_house(texts | {name: cut}, tmp_path / "k"), draw=False)


LETTERS = st.one_of(
    st.characters(codec="utf-8"),
    st.sampled_from("{}[]:,#&*!|>%@`\"'-?\n\n  \t=~<"),
    st.sampled_from(
        ["name: ", "item: ", "amount: ", "- {", "---\n", "## ", "1. ", "{1/3 of ", "kg", " g", "1/2", "°C", "no", "[]"]
    ),
)
FILES = st.sampled_from(
    [
        "house.yaml",
        "pantry/pantry.yaml",
        "menus/first-menu.yaml",
        "dishes/lentil-bowl.md",
        "components/roast-carrots.md",
    ]
)


@settings(
    max_examples=150,
    derandomize=True,
    deadline=None,
    database=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(name=FILES, put=st.lists(LETTERS, max_size=30).map("".join), at=st.floats(0, 1), over=st.integers(0, 40))
def test_anything_typed_anywhere_is_told_or_accepted(tmp_path: Path, name: str, put: str, at: float, over: int) -> None:
    texts = texts_of(HOUSES["starter"])
    text = texts[name]
    start = int(at * len(text))
    house = write_house(texts | {name: text[:start] + put + text[start + over :]}, tmp_path / "k")
    try_house(house, draw=False)


@settings(
    max_examples=60,
    derandomize=True,
    deadline=None,
    database=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    content=st.one_of(st.binary(max_size=300), st.text(max_size=300).map(lambda text: text.encode("utf-8", "replace"))),
    name=FILES,
)
def test_a_file_of_anything_is_told_or_accepted(tmp_path: Path, content: bytes, name: str) -> None:
    house = write_house(texts_of(HOUSES["starter"]), tmp_path / "k")
    (house / name).write_bytes(content)
    loaded = load_house(house, "kitchen")
    assert_told_well(loaded.faults)
    assert loaded.value is None


@pytest.mark.parametrize("form", ["human", "short", "json"])
def test_the_command_tells_spoiled_houses_in_every_form(tmp_path: Path, form: str) -> None:
    for seed in range(12):
        texts, _ = spoil("starter", seed)
        house = write_house(texts, tmp_path / "k")
        result = linebook("check", house, "--form", form)
        assert result.exit_code in (0, 1)
        assert "Traceback" not in result.output
        assert (result.exit_code == 0) == (load_house(house, "k").value is not None)
