"""Pans on the line and behind it, worked out by hand.

Capacities: EN 631-1 Gastronorm sizes, nominal litres as one maker gives them (read on metos.com): 1/6 65 deep 1 L, 1/3
100 deep 3.5 L, 1/1 65 deep 7.4 L.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from linebook.compute.demand import compute_night
from linebook.compute.pans import LinePans, line_pans, vessels_for
from linebook.documents.set_up_sheet import SetUpSheet, set_up_sheet
from linebook.documents.wording import english, wording_in
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.quantities import parse_amount
from linebook.pipeline import load_house

HOUSE = """\
name: Pump Yard
rules: UK
allergens: {lists: [uk]}
lines:
  hot: {name: Hot, set_up: 16:30}
  cold: {name: Cold}
vessels:
  sixth-65: {name: sixth pan 65 deep, holds: 1 L, fill: 90 %}
  third-100: {name: third pan 100 deep, holds: 3.5 L, fill: 80 %}
  full-65: {name: full pan 65 deep, holds: 7.4 L}
  tray: {name: tray, holds: 24 each}
places:
  walk-in: {name: walk-in, climate: cold, at: 3 °C}
plates:
  round-28: {name: round plate 28 cm, shape: round, size: 28 cm}
"""
PANTRY = """\
swede: {name: swede, allergens: {contains: none, says: label, since: 2026-01-01}}
chive: {name: chives, allergens: {contains: none, says: label, since: 2026-01-01}, weighs: {sprig: 1 g}}
"""
MENU = """\
name: yard
first: 2027-03-01
courses: [{course: mains, name: Mains}]
dishes:
  - {dish: swede-plate, share: 0.5, mix: {full: 75 %, taste: 25 %}}
  - {dish: dumpling-plate, share: 0.25}
"""
PUREE = """\
---
name: Swede purée
line: hot
makes: 3 kg
density: 1.05 kg/L
store: {at: 3 °C, in: third-100, where: walk-in}
ingredients: [{item: swede, amount: 4 kg}]
---
"""
DUMPLING = """\
---
name: Dumpling
line: cold
makes: 40 pieces
piece_weighs: 50 g
store: {in: tray}
ingredients: [{item: swede, amount: 4 kg}]
---
"""
PLATE = """\
---
name: Swede plate
line: hot
course: mains
plate: round-28
warm: yes
sizes: {full: {name: full}, taste: {name: a taste, factor: 0.4}}
elements:
  - {item: swede-puree, amount: 105 g, hold: {at: 65 °C, most: 2 h, in: sixth-65}, tool: ladle}
  - {item: dumpling, amount: 2 pieces}
  - {item: chive, amount: 3 sprigs}
---
## Pick-up

1. Plate it.
"""
OTHER = """\
---
name: Dumpling plate
line: hot
course: mains
plate: round-28
elements:
  - {item: dumpling, amount: 3 pieces}
  - {item: swede-puree, amount: 50 g}
---
## Pick-up

1. Plate it.
"""


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> House:
    folder = tmp_path_factory.mktemp("pump-yard")
    files = {
        "house.yaml": HOUSE,
        "pantry/all.yaml": PANTRY,
        "menus/yard.yaml": MENU,
        "components/swede-puree.md": PUREE,
        "components/dumpling.md": DUMPLING,
        "dishes/swede-plate.md": PLATE,
        "dishes/dumpling-plate.md": OTHER,
    }
    for path, text in files.items():
        target = Path(folder) / path
        target.parent.mkdir(exist_ok=True)
        target.write_text(text, encoding="utf-8")
    loaded = load_house(Path(folder), "yard")
    assert loaded.value is not None, loaded.faults
    return loaded.value


def pans_of(house: House, covers: int) -> dict[str, LinePans]:
    night = compute_night(house, Occasion(menu="yard", covers=covers, date=date(2027, 3, 6)))
    return {pans.item: pans for pans in line_pans(house, night, "hot")}


def test_a_hundred_and_sixty_covers(house: House) -> None:
    # 160 covers: 80 of the swede plate, 60 full and 20 tastes; 40 of the dumpling plate.
    # Purée: 60 x 105 g + 20 x 42 g + 40 x 50 g = 6300 + 840 + 2000 = 9140 g = 8704.76 ml.
    # One sixth pan takes 900 ml; 7804.76 ml are left for third pans of 3.5 L x 80 % = 2800 ml: 3 of them.
    # Dumplings: 60 x 2 + 20 x 0.8 + 40 x 3 = 256; a tray of 24 stands on the line, 232 wait: 10 trays.
    found = pans_of(house, 160)
    assert list(found) == ["swede-puree", "dumpling", "chive"]
    puree, dumpling, chive = found.values()
    assert [amount.number * (1000 if amount.unit.key == "kilogram" else 1) for amount in puree.amounts] == [9140]
    assert (puree.at_hand and puree.at_hand.id, puree.behind and puree.behind.id) == ("sixth-65", "third-100")
    assert puree.pans_behind == 3
    assert dumpling.amounts[0].number == 256
    assert (dumpling.at_hand and dumpling.at_hand.id, dumpling.pans_behind) == ("tray", 10)
    assert (chive.at_hand, chive.behind, chive.pans_behind) == (None, None, None)
    assert [(dish.id, element.item) for dish, element in puree.elements] == [
        ("swede-plate", "swede-puree"),
        ("dumpling-plate", "swede-puree"),
    ]


def test_what_fits_on_the_line_leaves_nothing_behind(house: House) -> None:
    # 8 covers: 3 full, 1 taste, 2 dumpling plates: 315 + 42 + 100 = 457 g, 435 ml of the 900 a sixth pan takes.
    assert pans_of(house, 8)["swede-puree"].pans_behind == 0


def test_pans_are_whole_and_exact_at_the_edge(house: House) -> None:
    third = next(vessel for vessel in house.file.vessels if vessel.id == "third-100")
    full = Fraction(2800) * Fraction(105, 100)
    for grams, pans in ((0, 0), (1, 1), (full, 1), (full + Fraction(1, 1000), 2), (full * 3, 3)):
        amount = parse_amount("1 g", None)
        assert vessels_for(house, "swede-puree", type(amount)(number=Fraction(grams), unit=amount.unit), third) == pans


def test_what_says_no_volume_is_not_counted(house: House) -> None:
    full = next(vessel for vessel in house.file.vessels if vessel.id == "full-65")
    assert vessels_for(house, "chive", parse_amount("2 kg", None), full) is None


def sheet_for(house: House, covers: int) -> SetUpSheet:
    night = compute_night(house, Occasion(menu="yard", covers=covers, date=date(2027, 3, 6)))
    return set_up_sheet(house, "hot", "yard", [night], english())


def test_the_sheet_of_a_night_says_it_in_words(house: House) -> None:
    sheet = sheet_for(house, 160)
    assert sheet.id == "set-up-sheet:hot:2027-03-06"
    assert sheet.facts.plain == "set up by 16:30 · 160 covers"
    hot, at_hand = sheet.groups
    assert (hot.key, [row.key for row in hot.rows]) == ("hot", ["item.swede-puree"])
    row = hot.rows[0]
    assert [amount.plain.replace("\u00a0", " ") for amount in row.amounts] == ["9.14 kg"]
    assert row.on_line.plain.replace("\u00a0", " ") == "1 × sixth pan 65 deep, 65 °C, ladle"
    assert [figure.plain for figure in row.behind] == ["3"]
    assert row.waits_in.plain.replace("\u00a0", " ") == "third pan 100 deep, walk-in, 3 °C"
    assert [row.key for row in at_hand.rows] == ["item.dumpling"]
    assert [member.text.plain.replace("\u00a0", " ") for member in sheet.also] == ["chives 204 sprigs"]
    assert [(plate.name.plain, plate.figures[0].plain) for plate in sheet.plates] == [
        ("round plate 28 cm, warmed", "80"),
        ("round plate 28 cm", "40"),
    ]
    assert not sheet.unknown


def test_a_binder_has_a_figure_for_each_standard_night(house: House) -> None:
    nights = [compute_night(house, Occasion(menu="yard", covers=covers)) for covers in (8, 160)]
    sheet = set_up_sheet(house, "hot", "yard", nights, wording_in(("en", "es")))
    assert (sheet.id, sheet.night, sheet.width) == ("set-up-sheet:hot", False, 5)
    assert [figure.plain for figure in sheet.groups[0].rows[0].behind] == ["0", "3"]
    assert sheet.groups[0].rows[0].amounts == ()
