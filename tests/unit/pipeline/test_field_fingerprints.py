"""A fingerprint changes if and only if the text or the figures of its sheet do: every declared field of the demo is changed.

What a sheet says is taken here from what its template wrote and from what its drawings hold, not from the block tree.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from sheets_said import DEMO, said
from spec_fields import Place, others, places_in

TRIES = 14
EVERY = int(os.environ.get("LINEBOOK_EVERY_FIELD") or 12)
"""All fields take a quarter of an hour: ``LINEBOOK_EVERY_FIELD=1 pytest`` does them, else it is each twelfth."""


def chosen() -> dict[str, list[Place]]:
    """Return the places of each field: those to try until one takes a change."""
    found: dict[str, list[Place]] = {}
    for place in places_in(DEMO):
        found.setdefault(place.field, []).append(place)
    return found


PLACES = chosen()


@pytest.fixture(scope="module")
def before() -> dict[str, tuple[str, str]]:
    with pytest.MonkeyPatch.context() as patch:
        sheets = said(DEMO, patch)
    assert sheets is not None
    return sheets


def changes(field: str, root: Path) -> Iterator[Place]:
    """Change a field in one place after another, in a copy of the demo, and put it back again each time."""
    places = PLACES[field]
    step = max(1, len(places) // 3)
    for place in places[::step]:
        path = root / place.path
        text = path.read_text(encoding="utf-8")
        for other in others(text[place.start : place.end], {}):
            path.write_text(text[: place.start] + other + text[place.end :], encoding="utf-8")
            yield place
        path.write_text(text, encoding="utf-8")


@pytest.mark.parametrize("field", sorted(PLACES)[::EVERY])
def test_a_field_changes_the_fingerprints_of_the_sheets_that_say_something_else_and_no_other(
    field: str, before: dict[str, tuple[str, str]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = tmp_path / "specs"
    shutil.copytree(DEMO, root)
    taken = 0
    for tried, place in enumerate(changes(field, root)):
        after = said(root, monkeypatch)
        if after is None:
            continue
        taken += 1
        moved = 0
        for id_ in {**before, **after}:
            old, new = before.get(id_), after.get(id_)
            if old is None or new is None:
                moved += 1
                continue
            assert (old[0] == new[0]) == (old[1] == new[1]), (place.path, id_)
            moved += old[0] != new[0]
        if log := os.environ.get("LINEBOOK_FIELDS"):
            with Path(log).open("a", encoding="utf-8") as file:
                file.write(f"{field} {place.path} {moved}\n")
        if moved or tried > TRIES:
            break
