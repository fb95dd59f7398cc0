"""A house as it was read is the same when it was written out and read back, with the place of every word in its file."""

from __future__ import annotations

import pickle
from collections.abc import Iterator, Mapping
from dataclasses import FrozenInstanceError
from pathlib import Path
from typing import Any

import pytest
from sheets_said import DEMO

from linebook.model.house import ParsedHouse
from linebook.model.record import Record
from linebook.read.house_folder import read_house
from linebook.source.spans import Span
from linebook.source.written import pickled

HOUSES = Path(__file__).parents[2] / "houses"
FOLDERS = (DEMO, HOUSES / "gannet-steps", HOUSES / "kiln-corner", HOUSES / "tally-house")


def parsed(folder: Path) -> ParsedHouse:
    house = read_house(folder, "house").outcome.value
    assert house is not None
    return house


def told(value: Any, where: str = "") -> Iterator[tuple[str, object]]:
    """Yield all that can be told of a value, field by field, where it is no value of ours as Python spells it."""
    names = getattr(type(value), "__dataclass_fields__", None)
    if isinstance(value, Span):
        yield where, (value.source.path, value.source.text, value.start, value.end, type(value))
    elif names is not None:
        yield where, type(value)
        for name in names:
            yield from told(getattr(value, name), f"{where}.{name}")
    elif isinstance(value, Mapping):
        yield where, (isinstance(value, dict), list(value))
        for name, one in value.items():
            yield from told(one, f"{where}[{name!r}]")
    elif isinstance(value, tuple | list):
        yield where, (type(value), len(value))
        for at, one in enumerate(value):
            yield from told(one, f"{where}[{at}]")
    elif isinstance(value, frozenset | set):
        yield where, (type(value), sorted(map(repr, value)))
    else:
        yield where, (type(value), value)


def records_in(value: Any) -> Iterator[Record]:
    if isinstance(value, Record):
        yield value
    if isinstance(value, Mapping):
        value = tuple(value.values())
    names = getattr(type(value), "__dataclass_fields__", ())
    for one in value if isinstance(value, tuple) else [getattr(value, name) for name in names]:
        if not isinstance(one, str | Span):
            yield from records_in(one)


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_a_house_read_back_is_the_same(folder: Path) -> None:
    house = parsed(folder)
    again = pickle.loads(pickled(house))
    known, found = list(told(house)), list(told(again))
    assert len(known) > 500
    assert found == known
    assert list(told(pickle.loads(pickled(again)))) == known


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_all_fields_of_a_record_stand_in_one_file(folder: Path) -> None:
    """They are written out with one file for all."""
    records = list(records_in(parsed(folder)))
    assert len(records) > 20
    for record in records:
        sources = {id(place.source) for place in record.spans.values()}
        assert sources <= {id(record.span.source)}, type(record).__name__


def test_what_was_read_back_cannot_be_changed() -> None:
    again = pickle.loads(pickled(parsed(DEMO)))
    with pytest.raises(FrozenInstanceError):
        again.dishes[0].name = "another"
