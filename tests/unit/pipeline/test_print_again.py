"""A print made from what is kept of the one before it is, byte for byte, the print made anew: never a stale sheet.

Every declared field is changed in some house, one after the other, and random edits are made, each print starting from
the one before.
"""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from house_edits import edit
from print_again import DAY, Bench
from sheets_said import DEMO
from spec_fields import Place, others, places_in

PLACE = Path(__file__).parents[2] / "houses"
HOUSES = {
    "teasel-quay": "2027-10-01",
    "copper-switch": "2027-06-02",
    "quarry-lamp": "2027-02-05",
    "gannet-steps": "2027-02-05",
    "tansy-row": "2027-03-05",
    "plover-stairs": "2027-03-02",
    "osier-lock": "2027-03-02",
    "specs": DAY,
}
"""Each house with the day it is printed for; the demo is last, because it is the largest."""

EVERY = int(os.environ.get("LINEBOOK_EVERY_FIELD") or 20)
"""All fields take long: ``LINEBOOK_EVERY_FIELD=1 pytest`` does them, else it is each twentieth."""

TAKEN = 2
"""So many changes of a field are printed that the rules let pass."""


def folder_of(house: str) -> Path:
    return DEMO if house == "specs" else PLACE / house


def chosen() -> dict[str, tuple[str, list[Place]]]:
    """Return the places of each declared field that some house fills in: those of the first that does."""
    found: dict[str, tuple[str, list[Place]]] = {}
    for house in HOUSES:
        for place in places_in(folder_of(house)):
            owner, places = found.setdefault(place.field, (house, []))
            if owner == house:
                places.append(place)
    return found


PLACES = chosen()


@pytest.fixture(scope="module")
def benches(tmp_path_factory: pytest.TempPathFactory):  # type: ignore[no-untyped-def]
    with pytest.MonkeyPatch.context() as patch:
        made: dict[str, Bench] = {}

        def bench(house: str) -> Bench:
            if house not in made:
                place = tmp_path_factory.mktemp(house)
                shutil.copytree(folder_of(house), place / "specs")
                made[house] = Bench(place / "specs", place, patch, "--date", HOUSES[house])
                assert made[house].check("first")
            return made[house]

        yield bench


@pytest.mark.parametrize("field", sorted(PLACES, key=lambda field: (PLACES[field][0], field))[::EVERY])
def test_a_changed_field_is_printed_as_it_is_printed_anew(field: str, benches: Callable[[str], Bench]) -> None:
    house, places = PLACES[field]
    bench = benches(house)
    taken = 0
    for place in places[:: max(1, len(places) // 3)]:
        path = bench.house / place.path
        text = path.read_text(encoding="utf-8")
        for number, other in enumerate(others(text[place.start : place.end], {})):
            path.write_text(text[: place.start] + other + text[place.end :], encoding="utf-8")
            if not bench.is_sound():
                if not number:  # what is refused is refused from what is kept too
                    bench.check((place, other))
                continue
            taken += bench.check((place, other))
            if log := os.environ.get("LINEBOOK_FIELDS"):
                with Path(log).open("a", encoding="utf-8") as file:
                    file.write(f"{field} {house} {place.path} {bench.stood} stood {bench.made} made\n")
            if taken >= TAKEN or number > 9:
                break
        path.write_text(text, encoding="utf-8")
        if taken >= TAKEN:
            break


STEPS = int(os.environ.get("LINEBOOK_EDITS") or 5)
"""So many edits of each house: ``LINEBOOK_EDITS=50 pytest`` makes two hundred."""

WAYS: tuple[tuple[str, ...], ...] = (
    (),
    ("--paper", "letter"),
    ("--duplex", "--ink", "grey"),
    ("--units", "both"),
    ("--languages", "en,es"),
    ("--languages", "es"),
    ("--large",),
    ("--date", "2027-03-03"),
    ("--theme", "towpath"),
)
"""Ways of printing; the first two thirds of all prints are asked for in the first."""


@pytest.mark.parametrize("house", ["specs", "gannet-steps", "teasel-quay", "tansy-row"])
def test_after_any_edits_a_house_is_printed_as_it_is_printed_anew(
    house: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seed = f"{house} {os.environ.get('LINEBOOK_SEED', '1')}"
    pick = random.Random(seed)
    root = tmp_path / "specs"
    shutil.copytree(folder_of(house), root)
    day = HOUSES[house]
    bench = Bench(root, tmp_path, monkeypatch, "--date", day)
    assert bench.check("first")
    sound = 0
    for number in range(STEPS):
        before = tmp_path / "before"
        shutil.rmtree(before, ignore_errors=True)
        shutil.copytree(root, before)
        told = edit(pick, root)
        while not bench.is_sound() and pick.random() < 0.9:
            shutil.rmtree(root)
            shutil.copytree(before, root)
            told = edit(pick, root)
        way = pick.choice(WAYS) if pick.random() < 0.4 else ()
        bench.words = way if "--date" in way else ("--date", day, *way)
        spoil(pick, tmp_path)
        printed = bench.check((seed, number, told, way))
        sound += printed
        if log := os.environ.get("LINEBOOK_FIELDS"):
            with Path(log).open("a", encoding="utf-8") as file:
                file.write(f"{seed} {number} {told} {way} {bench.stood} stood {bench.made} made\n")
        if not printed:
            shutil.rmtree(root)
            shutil.copytree(before, root)
    assert sound > STEPS // 2


def spoil(pick: random.Random, place: Path) -> None:
    """Now and then damage what is kept, or what was printed."""
    kept = [path for path in sorted((place / "cache").rglob("*")) if path.is_file()]
    chance = pick.random()
    if chance < 0.05 and kept:
        one = pick.choice(kept)
        one.write_bytes(one.read_bytes()[: pick.randrange(one.stat().st_size)])
    elif chance < 0.08 and kept:
        pick.choice(kept).unlink()
    elif chance < 0.12:
        for pdf in sorted((place / "kept").glob("*.pdf"))[:1]:
            pdf.write_bytes(b"something else")
    elif chance < 0.14:
        shutil.rmtree(place / "cache")
