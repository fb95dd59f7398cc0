"""Every field of every view is on its sheet: changing it changes the fingerprint, and the change is said in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from datetime import date
from typing import Any

import pytest
from sample_house import (
    amount,
    binder_view,
    count_view,
    cover_view,
    index_view,
    line_page_view,
    matrix_view,
    night_view,
    plating_view,
    sample_house,
    sample_house_file,
    sheet,
    station_view,
    tonight_view,
    void_view,
    with_changes,
)
from sized_house import sized_house, sized_night, sized_rib, stock

from linebook.documents.text import Piece, Text
from linebook.documents.wording import english
from linebook.markup.difference import describe_difference
from linebook.markup.fingerprint import fingerprint_of

DRESS = english().say("change.dress").plain
NOT_PRINTED = {"key", "id", "line", "name_key", "ticks", "ticks_under", "first", "form", "width", "mark", "night"}


def mutations(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Yield the value with one leaf changed, or one member of a list dropped, each with its path."""
    if isinstance(value, Text):
        if value:
            yield path, Text((*value.first, Piece(words=" quince")))
    elif isinstance(value, tuple):
        for at, item in enumerate(value):
            for inner, changed in mutations(item, f"{path}.{at}"):
                yield inner, (*value[:at], changed, *value[at + 1 :])
        if value and not path.endswith(
            ("nights", "after", "cells", "heads", "figures", ".columns", ".log.0", "size_heads")
        ):
            yield f"{path}.drop", value[:-1]
    elif is_dataclass(value):
        for field in fields(value):
            if field.name in NOT_PRINTED:
                continue
            for inner, changed in mutations(getattr(value, field.name), f"{path}.{field.name}"):
                yield inner, replace(value, **{field.name: changed})
    elif isinstance(value, int) and not isinstance(value, bool):
        yield path, value + 1


def hidden(path: str, view: Any) -> bool:
    """The amount by the name gives way to the nights' columns in a binder; both are tested in their own form."""
    if getattr(view, "night_heads", ()):
        return path == ".main_head" or (path.startswith(".groups") and path.endswith((".number", ".unit")))
    return False


HOUSE = sample_house()
BARE = sample_house(file=sample_house_file(nights=()))
SIZED = sized_house()
SHORT = sized_house(sized_rib(also_makes=(replace(sized_rib().also_makes[0], amount=amount("100 g")),)))
VIEWS = {
    "binder": binder_view(HOUSE),
    "binder without nights": binder_view(BARE),
    "night": night_view(HOUSE),
    "one load": night_view(HOUSE, covers=20),
    "loads by stage": sized_night(SIZED, 140, stock("6 kg", made=date(2027, 3, 5))),
    "binder with loads by stage": binder_view(SIZED),
    "cover of what is short": cover_view(SHORT),
    "station": station_view(HOUSE),
    "station without plate": station_view(HOUSE, "hake-fritter"),
    "plating": plating_view(HOUSE),
    "matrix": matrix_view(HOUSE),
    "cover": cover_view(HOUSE),
    "line allergens": line_page_view(with_changes(HOUSE)),
    "allergen index": index_view(HOUSE),
    "void notice": void_view(HOUSE),
    "tonight notice": tonight_view(HOUSE),
    "count": count_view(HOUSE),
    "cover with fingerprints": cover_view(HOUSE, fingerprints={"station-card:short-rib": "7F3A91C2"}),
}


@pytest.mark.parametrize("name", VIEWS)
def test_every_field_is_on_the_sheet_and_its_change_is_said(name: str) -> None:
    view = VIEWS[name]
    before = sheet(view)
    seen = {fingerprint_of(before)}
    for path, changed in mutations(view):
        if hidden(path, view) or not _drawable(path):
            continue
        after = sheet(changed)
        fingerprint = fingerprint_of(after)
        assert fingerprint not in seen, f"{path} is not on the sheet"
        seen.add(fingerprint)
        said = [text.plain for text in describe_difference(before, after, english())]
        assert said, f"{path}: nothing is said"
        assert DRESS not in said, f"{path}: only its dress is said to change"
    assert len(seen) > (2 if name in ("void notice", "tonight notice") else 20)


def _drawable(path: str) -> bool:
    """A card may not lose one of its three lines or the last words of one: the reader refuses that."""
    return not (path == ".allergens.drop" or (path.startswith(".allergens") and path.endswith(".members.drop")))


def test_the_same_sheet_has_no_difference() -> None:
    for view in VIEWS.values():
        assert describe_difference(sheet(view), sheet(view), english()) == ()
