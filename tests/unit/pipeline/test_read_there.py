"""A house that both processes read is printed as the one that looks at its rules has read it, whatever is saved then."""

from __future__ import annotations

import os
import shutil
import time
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import pytest

import linebook
from linebook import copies
from linebook.cli.asked import Asked
from linebook.kept_print import Printed, Read, Ready, build_read, build_unkept, digest_of_texts, get_ready_and_read
from linebook.pdf.printing import Printing
from linebook.pipeline import OpenHouse, find_answers, open_house
from linebook.source.faults import Outcome

DAY = date(2027, 3, 2)
CARD = "dishes/lentil-bowl.md"


@pytest.fixture
def house(tmp_path: Path) -> Path:
    return shutil.copytree(Path(linebook.__file__).parent / "starter", tmp_path / "house")


@pytest.fixture(autouse=True)
def copying(monkeypatch: pytest.MonkeyPatch) -> None:
    if not hasattr(os, "fork"):
        pytest.skip("this system cannot copy a process")
    monkeypatch.setattr(copies, "_can_copy", lambda: True)


def named(house: Path, opened: OpenHouse) -> dict[str, Any]:
    assert opened.unchecked is not None
    lines = tuple(line.id for line in opened.unchecked.file.lines)
    told = {"menu": "first-menu", "nights": (40,), "lines": lines, "printing": Printing(paper="a4")}
    return {**told, "issued": DAY, "folder": house, "progress": lambda _: None}


def digests(printed: Outcome[Printed]) -> list[tuple[str, bytes]]:
    assert printed.value is not None, printed.faults
    return [(file.name, file.content) for file in printed.value.files]


def printed_here(house: Path) -> list[tuple[str, bytes]]:
    opened = open_house(house, "house", ())
    assert opened.unchecked is not None
    return digests(build_unkept(opened.unchecked, ready=None, **named(house, opened)))


def printed_there(house: Path, change: str = "") -> tuple[list[tuple[str, bytes]], bool]:
    """Print what this process reads after another has; return the PDFs, and whether the other one drew them."""
    mark = house.with_suffix(".read")

    def get_ready() -> Ready:
        ready = get_ready_and_read(house, "", "house", ())
        mark.touch()
        return ready

    ahead = copies.Ahead(get_ready)
    while not mark.exists():
        time.sleep(0.01)
    if change:
        card, (was, now) = house / CARD, change.split(" -> ")
        card.write_text(card.read_text("utf-8").replace(was, now), "utf-8")
    opened = open_house(house, "house", ())
    assert opened.parsed is not None
    kitchen = opened.check().value
    assert kitchen is not None
    read = Read(opened.parsed, digest_of_texts(opened.sources), there=True)
    printed = ahead.run(
        _build,
        read,
        answer=partial(find_answers, kitchen, "first-menu", DAY),
        printed=Asked().house,
        output=house,
        **{**named(house, opened), "progress": len},
    )
    return digests(printed[0]), printed[1] != os.getpid()


def _build(read: Read, **values: Any) -> tuple[Outcome[Printed], int]:
    return build_read(read, **values), os.getpid()


def test_the_process_that_read_the_same_prints_the_same(house: Path) -> None:
    assert printed_there(house) == (printed_here(house), True)


def test_what_was_saved_in_between_is_printed_by_the_process_that_read_it(house: Path) -> None:
    before = printed_here(house)
    title = (house / CARD).read_text("utf-8").partition("name: ")[2].partition("\n")[0]
    after, elsewhere = printed_there(house, f"{title} -> {title} with mint")
    assert not elsewhere
    assert after == printed_here(house)
    assert after != before


def test_a_house_is_sent_whole_to_a_process_that_has_not_read_it(house: Path) -> None:
    opened = open_house(house, "house", ())
    assert opened.parsed is not None
    sent = copies.pickled(Read(opened.parsed))
    named_alone = copies.pickled(Read(opened.parsed, digest_of_texts(opened.sources), there=True))
    assert len(named_alone) < 300 < len(sent)


def test_texts_are_told_apart_by_their_files_too(house: Path) -> None:
    sources = open_house(house, "house", ()).sources
    assert digest_of_texts(sources) == digest_of_texts(open_house(house, "house", ()).sources)
    assert digest_of_texts(sources) != digest_of_texts(sources[1:])
    (house / CARD).rename(house / "dishes/another-bowl.md")
    assert digest_of_texts(open_house(house, "house", ()).sources) != digest_of_texts(sources)
