"""A print made from what is kept of the one before it is, byte for byte, the print made anew: never a stale sheet.

Every declared field is changed in some house, one after the other, and random edits are made, each print starting from
the one before.
"""

from __future__ import annotations

import os
import random
import re
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
            if other == text[place.start : place.end]:
                continue
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


STEPS = int(os.environ.get("LINEBOOK_EDITS") or 3)
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
    assert sound >= max(1, STEPS // 3), "too few edits could be printed for this to tell anything"


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


@pytest.fixture
def demo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    shutil.copytree(DEMO, tmp_path / "specs")
    bench = Bench(tmp_path / "specs", tmp_path, monkeypatch, "--date", DAY)
    assert bench.check("first")
    return bench


def test_where_nothing_has_changed_every_sheet_stands_and_where_a_word_has_few_do_not(demo: Bench) -> None:
    assert demo.check("nothing")
    assert (demo.stood > 80, demo.made) == (True, 0)
    served = re.search(r"dish: ([a-z-]+)", (demo.house / "menus" / "early-spring.yaml").read_text("utf-8"))
    assert served is not None
    dish = demo.house / "dishes" / f"{served[1]}.md"
    dish.write_text(dish.read_text("utf-8").replace("## Pick-up\n", "## Pick-up\n1. Say it aloud.\n", 1), "utf-8")
    assert demo.check("a step")
    assert 0 < demo.made <= 5
    component = demo.house / "components" / "rhubarb-compote.md"
    text = component.read_text("utf-8")
    component.write_text(re.sub(r"amount: (\d+)", lambda one: f"amount: {int(one[1]) + 1}", text, count=1), "utf-8")
    assert demo.check("an amount")
    assert 0 < demo.made <= 12


def test_another_menu_in_force_is_another_print(demo: Bench) -> None:
    before, menu = (demo.house / "menus" / f"{name}.yaml" for name in ("late-winter", "early-spring"))
    text = menu.read_text("utf-8")
    before.write_text(re.sub(r"(?m)^last: .+$", "last: 2027-04-10", before.read_text("utf-8")), "utf-8")
    for first in ("2027-03-02", "2027-03-03", "2027-03-02", "2027-03-04"):
        menu.write_text(re.sub(r"(?m)^first: .+$", f"first: {first}", text), "utf-8")
        assert demo.check(first)


def test_what_stock_on_hand_brings_comes_and_goes_with_it(demo: Bench) -> None:
    menu = demo.house / "menus" / "early-spring.yaml"
    text = menu.read_text("utf-8")
    assert "on_hand" not in text
    item = sorted((demo.house / "components").glob("*.md"))[0].stem.partition(".")[0]
    for contains in ("[mustard]", "", "[celery]", ""):
        stock = f"on_hand:\n  - {{item: {item}, amount: 1 kg, made: {DAY}, contains: {contains}}}\n" if contains else ""
        menu.write_text(stock + text, "utf-8")
        assert demo.check(contains)


def test_what_nobody_asks_for_a_while_is_not_answered_from_before(demo: Bench) -> None:
    menu = demo.house / "menus" / "early-spring.yaml"
    card = demo.house / "components" / "rhubarb-compote.md"
    whole = menu.read_text("utf-8")
    menu.write_text(re.sub(r"(?m)^.*dish: rhubarb-custard\b.*\n", "", whole), "utf-8")
    assert demo.check("off the menu")
    without = re.sub(r"(?m)^.*item: rhubarb-juice\b.*\n", "", card.read_text("utf-8")).replace(
        "{rhubarb-juice} juice", ""
    )
    card.write_text(without, "utf-8")
    assert demo.check("made without the juice")
    menu.write_text(whole, "utf-8")
    assert demo.check("back on the menu")
