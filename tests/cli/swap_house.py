"""The small house of the cases with a third line, for issues and swap sheets: bound in a second."""

from __future__ import annotations

import shutil
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]
WINTER, SPRING, LATER = "2027-01-12", "2027-03-02", "2027-03-09"

_POT = """\
---
name: Lemon pot, walnut
line: sweet
course: sweets
plate: bowl-20
elements:
  - {item: lemon-pot, amount: 1 piece, at: centre, shape: disc, size: 60 mm}
  - {item: walnuts, amount: 6 g, on: lemon-pot, leave_off: yes}
---

## Pick-up

1. Read the ticket for allergies.
2. Turn out the pot and scatter the walnuts.
"""
_LEMON_POT = """\
---
name: Lemon pot
line: sweet
makes: 2.4 kg
pieces: 24
keeps: 4 d
store: {at: 3 °C, where: walk-in}
ingredients:
  - {item: cream, amount: 2.5 L}
  - {item: lemon, amount: 6 each, scale: whole}
stages:
  - {stage: boil, hands_on: 20 min, vessel: pan-6}
  - {stage: set, hands_on: 15 min, unattended: 3 h, limit: cool, where: blast-chiller}
tested: 2027-01-20
---

## Boil

1. Boil {cream} cream for **3 min** and take it off the heat with the juice of the lemon.

## Set

1. Pour into moulds and chill.
"""


def swap_house(folder: Path) -> Path:
    """Make the house. Late winter has a sweet on a line of its own that early spring has not."""
    shutil.copytree(REPOSITORY / "tests/cases/small-house", folder)
    edit(
        folder / "house.yaml",
        ("  cold: {name: Cold, cooks: 1}\n", "  cold: {name: Cold, cooks: 1}\n  sweet: {name: Sweet}\n"),
    )
    (folder / "dishes/pot.md").write_text(_POT, encoding="utf-8")
    (folder / "components/lemon-pot.md").write_text(_LEMON_POT, encoding="utf-8")
    winter = folder / "menus/late-winter.yaml"
    edit(
        winter,
        ("1}\ndishes:\n", "1}\n  - {course: sweets, name: Sweets, portions_a_cover: 0.4}\ndishes:\n"),
        ("at_least: 2}\n", "at_least: 2}\n  - {dish: pot, share: 0.4}\n"),
    )
    return folder


def edit(path: Path, *pairs: tuple[str, str]) -> None:
    """Replace each text of a file once; it must be there."""
    text = path.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    path.write_text(text, encoding="utf-8")
