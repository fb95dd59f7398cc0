"""Two processes that read the cards of a house together know the same house as one that reads it alone."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import SimpleQueue

import pytest

import linebook
from linebook import copies
from linebook.model.house import ParsedHouse
from linebook.read.house_folder import HouseReading, read_house
from linebook.read.shared_cards import cards_of

DEMO = Path(__file__).parents[3] / "specs"
STARTER = Path(linebook.__file__).parent / "starter"


class Side:
    """One of two sides that take turns one after the other."""

    def __init__(self, first: int, sends: SimpleQueue[tuple[bytes, ...]], gets: SimpleQueue[tuple[bytes, ...]]) -> None:
        self.first, self._sends, self._gets = first, sends, gets
        self.swaps = 0

    def turns(self, count: int) -> Iterator[int]:
        return iter(range(self.first, count, 2))

    def swap(self, *own: bytes) -> tuple[bytes, ...]:
        self.swaps += 1
        self._sends.put(own)
        return self._gets.get(timeout=60)


def read_by_two(one: Path, other: Path) -> tuple[HouseReading, HouseReading]:
    """Return what two sides read that share their cards; each looks at its own folder."""
    there, back = SimpleQueue[tuple[bytes, ...]](), SimpleQueue[tuple[bytes, ...]]()
    sides = Side(0, there, back), Side(1, back, there)
    with ThreadPoolExecutor(2) as pool:
        readings = [
            pool.submit(read_house, root, "house", (), side) for root, side in zip((one, other), sides, strict=True)
        ]
        found = readings[0].result(), readings[1].result()
    assert [side.swaps for side in sides] == [1, 1]
    return found


def spelt(house: ParsedHouse | None) -> str:
    """Return everything there is to a house, with the place of each word."""
    assert house is not None
    places = [
        f"{card.id} {name} {span.place}"
        for card in (*house.components, *house.dishes)
        for name, span in card.spans.items()
    ]
    return "\n".join([repr(house), *places])


@pytest.fixture
def house(tmp_path: Path) -> Path:
    return shutil.copytree(STARTER, tmp_path / "house")


@pytest.mark.parametrize("folder", [DEMO, STARTER], ids=["demo", "starter"])
def test_two_read_what_one_reads(folder: Path) -> None:
    alone = read_house(folder, "house", ())
    for reading in read_by_two(folder, folder):
        assert reading.outcome.faults == alone.outcome.faults == ()
        assert reading.sources == alone.sources
        assert spelt(reading.outcome.value) == spelt(alone.outcome.value)
        assert reading.outcome.value is not None
        cards = *reading.outcome.value.components, *reading.outcome.value.dishes
        assert cards_of(reading.halves) == cards
        assert len(reading.halves) == 2


@pytest.mark.parametrize(("kind", "at"), [("components", 0), ("components", 1), ("dishes", 0)])
def test_a_card_with_a_fault_is_told_of_as_by_one(house: Path, kind: str, at: int) -> None:
    card = sorted((house / kind).iterdir())[at]
    card.write_text(card.read_text("utf-8").replace("\nname: ", "\nnmae: ", 1), "utf-8")
    alone = read_house(house, "house", ())
    assert alone.outcome.faults
    for reading in read_by_two(house, house):
        assert reading.outcome.faults == alone.outcome.faults
        assert reading.sources == alone.sources
        assert spelt(reading.outcome.value) == spelt(alone.outcome.value)
        assert reading.halves == ()


@pytest.mark.parametrize("saved", ["house.yaml", "pantry/pantry.yaml", "dishes/another.md", ""])
def test_what_was_saved_in_between_is_never_mixed(house: Path, tmp_path: Path, saved: str) -> None:
    """One finds the house as it was, the other with more written in a file, or one file more or less."""
    after = shutil.copytree(house, tmp_path / "after")
    if saved:
        given = after / saved if (after / saved).exists() else after / "dishes/lentil-bowl.md"
        (after / saved).write_text(given.read_text("utf-8") + "\n# saved in between\n", "utf-8")
    else:
        (after / "components/roast-carrots.md").unlink()
    for root, reading in zip((house, after), read_by_two(house, after), strict=True):
        alone = read_house(root, "house", ())
        assert (reading.outcome, reading.sources, reading.halves) == (alone.outcome, alone.sources, ())


def test_each_turn_is_one_sides_alone() -> None:
    queue = copies._queue(range(copies._TURNS))
    sides = [copies.Sharing(queue, -1, -1, is_first=first) for first in (True, False)]
    for count in (0, 1, 127, 129, 1000):
        again = copies._queue(range(copies._TURNS))
        turns = [copies.Sharing(again, -1, -1, is_first=side._is_first).turns(count) for side in sides]
        took = [[next(turns[at % 2], None) for at in range(count + 2)], *map(list, turns)]
        assert sorted(one for part in took for one in part if one is not None) == list(range(count))
        os.close(again)
    os.close(queue)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot copy a process")
def test_a_house_is_read_whole_where_the_other_process_dies(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(copies, "_can_copy", lambda: True)
    ahead = copies.Ahead(lambda: None)
    sharing = ahead.get_ready_together(_dies)
    assert sharing is not None
    reading = read_house(house, "house", (), sharing)
    ahead.end()
    alone = read_house(house, "house", ())
    assert (reading.outcome, reading.sources, reading.halves) == (alone.outcome, alone.sources, ())


def _dies(sharing: copies.Sharing) -> None:
    next(sharing.turns(128))
    os._exit(9)
