"""What each sheet of the demo says, taken from what its template wrote and from what its drawings hold."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from linebook.compute.allergens import compute_allergens
from linebook.compute.demand import compute_night
from linebook.compute.matrix_columns import compute_also
from linebook.documents.binder_order import binder_order
from linebook.model.occasion import Occasion
from linebook.pipeline import load_house
from linebook.templating.templates import Templates
from linebook.workshop import open_workshop

DEMO = Path(__file__).parents[3] / "specs"
UNSEEN = re.compile(r' (?:id|data-key|data-line)="[^"]*"')
"""What the template writes for the next issue to find a block again, and for the band: no words of the sheet."""
MENU, DAY = "early-spring", date(2027, 3, 2)


def said(root: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, tuple[str, str]] | None:
    """Return of each sheet of a house its fingerprint, and its text and figures; None where the house has a fault."""
    written: dict[str, str] = {}
    plain = Templates.sheet

    def spy(self, name, view, wording):  # type: ignore[no-untyped-def]
        rendered = self.render(name, view, wording)
        if rendered.value is not None:
            written[view.id] = re.sub(r"\s+", " ", UNSEEN.sub("", rendered.value.text))
        return plain(self, name, view, wording)

    loaded = load_house(root, "specs", ())
    if loaded.value is None or MENU not in loaded.value.menus:
        return None
    house = loaded.value
    with monkeypatch.context() as patch:
        patch.setattr(Templates, "sheet", spy)
        workshop = open_workshop(house, MENU, DAY, root).value
        if workshop is None:
            return None
        table, also = compute_allergens(house, MENU, on=DAY), compute_also(house, MENU)
        nights = [compute_night(house, Occasion(menu=MENU, covers=covers)) for covers in house.file.nights]
        made = [workshop.matrix_sheet(table, also)]
        for line in (one.id for one in house.file.lines):
            if binder_order(house, MENU, line):
                made.append(workshop.binder_sheets(line, table, nights, also))
    if any(outcome.value is None for outcome in made):
        return None
    sheets = [sheet for outcome in made for sheet in outcome.value or ()]
    return {one.text.id: (one.fingerprint, f"{written[one.text.id]} {dict(one.figures)!r}") for one in sheets}
