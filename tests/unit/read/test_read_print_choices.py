"""What a house prints with and on: both sides, inks, theme and languages."""

from __future__ import annotations

from pathlib import Path

import pytest
from read_specs import HOUSE, read_changed, said

from linebook.model.house import HouseFile
from linebook.source.faults import Fault

TYPED = "duplex: yes\nink: grey\ntheme: slate\nlanguages: [en, es]\n"


def house_of(tmp_path: Path, typed: str) -> tuple[HouseFile | None, list[Fault]]:
    assert TYPED in HOUSE
    reading = read_changed(tmp_path, {"house.yaml": HOUSE.replace(TYPED, typed)})
    value = reading.outcome.value
    return (value.file if value else None), list(reading.outcome.faults)


def test_what_is_typed_is_read(tmp_path: Path) -> None:
    house, faults = house_of(tmp_path, TYPED)
    assert house is not None
    assert not faults
    assert (house.duplex, house.ink, house.theme, house.languages) == (True, "grey", "slate", ("en", "es"))


def test_a_house_that_says_nothing_prints_one_side_in_colour_in_english(tmp_path: Path) -> None:
    house, faults = house_of(tmp_path, "")
    assert house is not None
    assert not faults
    assert (house.paper, house.duplex, house.ink, house.theme, house.languages) == ("a4", False, "colour", "", ("en",))


@pytest.mark.parametrize(
    ("typed", "languages"),
    [("languages: es\n", ("es",)), ("languages: [es]\n", ("es",)), ("languages: [es, en]\n", ("es", "en"))],
)
def test_the_first_language_is_the_main_one(tmp_path: Path, typed: str, languages: tuple[str, ...]) -> None:
    house, faults = house_of(tmp_path, typed)
    assert house is not None
    assert not faults
    assert house.languages == languages


@pytest.mark.parametrize(("typed", "ink"), [("color", "colour"), ("gray", "grey"), ("saving", "saving")])
def test_an_ink_may_be_spelled_both_ways(tmp_path: Path, typed: str, ink: str) -> None:
    house, _ = house_of(tmp_path, f"ink: {typed}\n")
    assert house is not None
    assert house.ink == ink


@pytest.mark.parametrize(
    ("typed", "found", "hint"),
    [
        ("ink: black\n", ("LB118", "black"), "write `colour`, `grey` or `saving`"),
        ("duplex: both\n", ("LB118", "both"), "write `yes` or `no`"),
        ("theme: Slate Blue\n", ("LB203", "Slate Blue"), "write `slate-blue`"),
        ("languages: [en, fr]\n", ("LB118", "fr"), "write `en` or `es`"),
        ("languages: [es, es]\n", ("LB102", "es"), "keep one of the two"),
        ("languages: [en, es, en]\n", ("LB102", "en"), "keep one of the two"),
        ("languages: []\n", ("LB109", "[]"), "write `languages: [en, es]`, or delete the line"),
    ],
)
def test_a_slip_is_one_fault_at_its_word(tmp_path: Path, typed: str, found: tuple[str, str], hint: str) -> None:
    _, faults = house_of(tmp_path, typed)
    assert said(faults) == [found]
    assert hint in faults[0].hints
