"""What is looked at first and what is left for last are together what a whole check finds, in the same order."""

from __future__ import annotations

from pathlib import Path

import pytest

from linebook.check.house import CHECKS, begin_check
from linebook.read.house_folder import read_house

TESTS = Path(__file__).parents[2]
FAULTY = ("crossed", "overfull")


def test_most_checks_come_first_and_find_nothing_in_the_demo() -> None:
    parsed = read_house(TESTS.parent / "specs", "specs").outcome.value
    assert parsed is not None
    looked = begin_check(parsed).look_first()
    assert len(CHECKS) // 2 < len(looked) < len(CHECKS)
    assert not any(looked.values())


@pytest.mark.parametrize("house", FAULTY)
def test_a_check_in_two_parts_finds_what_one_in_one_part_does(house: str) -> None:
    parsed = read_house(TESTS / "annotated" / house, house).outcome.value
    assert parsed is not None
    checking = begin_check(parsed)
    whole = checking.finish()
    assert whole.faults
    assert checking.finish(checking.look_first()) == whole
