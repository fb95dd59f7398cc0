"""The nearest valid word is the one a chef meant, or none."""

from __future__ import annotations

import pytest

from linebook.source.nearest import nearest

IDS = ["beef-short-rib", "butter", "celeriac-puree", "fine-salt", "walnut-crumb"]


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("buter", "butter"),
        ("Butter", "butter"),
        ("fine salt", "fine-salt"),
        ("fine_salt", "fine-salt"),
        ("celeriac-pure", "celeriac-puree"),
        ("short-rib", "beef-short-rib"),
        ("salt", "fine-salt"),
        ("crumb", "walnut-crumb"),
        ("walnut", "walnut-crumb"),
        ("cele", "celeriac-puree"),
        ("zzzz", None),
        ("", None),
        ("x" * 1000, None),
    ],
)
def test_nearest(word: str, meant: str | None) -> None:
    assert nearest(word, IDS) == meant


def test_the_order_of_candidates_does_not_matter() -> None:
    assert nearest("ab", ["abd", "abc"]) == nearest("ab", ["abc", "abd"])


def test_no_candidates() -> None:
    assert nearest("butter", ()) is None


def test_a_word_that_several_hold_names_none_of_them() -> None:
    assert nearest("milk", ["whole-milk", "goats-milk"]) is None


def test_a_slip_of_the_pen_comes_before_a_word_that_is_held() -> None:
    assert nearest("sweets", ["sweet", "sweets-of-the-day"]) == "sweet"
    assert nearest("oats-milk", ["goats-milk", "oats"]) == "goats-milk"
