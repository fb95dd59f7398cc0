"""A file of what is left: every way it can be wrong is told at its place, and nothing of it is then taken for stock."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from linebook.model.units import METRIC_ONLY
from linebook.read.on_hand import read_on_hand

SOUND = "on_hand:\n- {item: brine, amount: 1.8 L, made: 2027-03-04, card: 7F3A92KD, contains: none}\n"


def read(tmp_path: Path, text: str | bytes):
    path = tmp_path / "left.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_on_hand(path, "count/left.yaml", METRIC_ONLY)


def test_all_of_an_entry(tmp_path):
    (entry,) = read(tmp_path, SOUND).value
    assert (entry.item, entry.amount.number, entry.made) == ("brine", Fraction(9, 5), date(2027, 3, 4))
    assert (entry.card, entry.contains, entry.may_contain) == ("7F3A92KD", (), ())
    assert entry.span.source.path == "count/left.yaml"


@pytest.mark.parametrize("text", ["on_hand: []\n", "# a remark\non_hand: []\n"])
def test_nothing_left(tmp_path, text):
    assert read(tmp_path, text).value == ()


@pytest.mark.parametrize(
    ("text", "code", "place"),
    [
        ("", "LB107", 1),
        ("on_hand:\n#- {item: brine, amount: 1 L}\n", "LB109", 1),
        ("- {item: brine, amount: 1 L}\n", "LB108", 1),
        ("brine 1 L\n", "LB108", 1),
        ("on_hand: brine\n", "LB108", 1),
        ("onhand:\n- {item: brine, amount: 1 L}\n", "LB106", 1),
        ("on_hand:\n- {item: brine}\n", "LB107", 2),
        ("on_hand:\n- {amount: 1 L}\n", "LB107", 2),
        ("on_hand:\n- {item: brine, amount: 0 L}\n", "LB310", 2),
        ("on_hand:\n- {item: brine, amount: -1 L}\n", "LB310", 2),
        ("on_hand:\n- {item: brine, amount: ... L}\n", "LB301", 2),
        ("on_hand:\n- {item: brine, amount: 1 litr}\n", "LB302", 2),
        ("on_hand:\n- {item: brine, amount: 1 cup}\n", "LB317", 2),
        ("on_hand:\n- {item: brine, amount: 1 L, made: 4 March}\n", "LB313", 2),
        ("on_hand:\n- {item: brine, amount: 1 L, made: 2027-02-30}\n", "LB313", 2),
        ("on_hand:\n- {item: brine, amount: 1 L, mad: 2027-03-04}\n", "LB106", 2),
        ("on_hand:\n- {item: Brine 1, amount: 1 L}\n", "LB203", 2),
        ("on_hand:\n- {item: brine, amount: 1 L\n", "LB101", None),
        ("on_hand:\n\t- {item: brine, amount: 1 L}\n", "LB104", 2),
        ("on_hand:\n- {item: brine, amount: 1 L}\non_hand: []\n", "LB102", 3),
        (b"on_hand:\n- {item: br\xffine, amount: 1 L}\n", "LB111", 2),
        ("on_hand: []\n" + "#" * 1_100_000, "LB110", 1),
    ],
)
def test_a_fault_stands_at_its_place(tmp_path, text, code, place):
    outcome = read(tmp_path, text)
    assert outcome.value is None
    assert code in [one.code for one in outcome.faults], outcome.faults
    found = next(one for one in outcome.faults if one.code == code)
    assert found.span is not None
    assert found.span.source.path == "count/left.yaml"
    assert found.hints
    assert place in (None, found.span.line)


def test_every_fault_is_told_at_once(tmp_path):
    text = "on_hand:\n- {item: brine, amount: 0 L}\n- {item: jus, amount: 1 L, made: soon}\n"
    assert [(one.code, one.span.line) for one in read(tmp_path, text).faults] == [("LB310", 2), ("LB313", 3)]


def test_a_count_with_nothing_filled_in_says_what_to_do(tmp_path):
    (found,) = read(tmp_path, "on_hand:\n#- {item: brine, amount: ... L}\n").faults
    assert any("#" in hint for hint in found.hints)
    assert any("on_hand: []" in hint for hint in found.hints)


def test_what_is_not_there(tmp_path):
    outcome = read_on_hand(tmp_path / "no.yaml", "no.yaml", METRIC_ONLY)
    assert (outcome.value, [one.code for one in outcome.faults]) == (None, ["LB115"])
    folder = read_on_hand(tmp_path, "here", METRIC_ONLY)
    assert (folder.value, [one.code for one in folder.faults]) == (None, ["LB115"])


def test_a_link_is_read(tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "left.yaml").write_text(SOUND, encoding="utf-8")
    link = tmp_path / "link.yaml"
    link.symlink_to(tmp_path / "elsewhere" / "left.yaml")
    assert read_on_hand(link, "link.yaml", METRIC_ONLY).value
