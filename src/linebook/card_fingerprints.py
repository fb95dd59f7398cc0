"""Which fingerprints the batch cards of a house bear in its binders, for a sheet that names them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from linebook.compute.allergens import compute_allergens
from linebook.compute.demand import compute_night
from linebook.documents.batch_card import DOCUMENT
from linebook.documents.binder_order import BinderEntry
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.workshop import open_workshop


def find_card_fingerprints(house: House, menu: str, wanted: Iterable[str], folder: Path, day: date) -> dict[str, str]:
    """Return the fingerprints of components' batch cards as a binder has them for a menu, by component.

    A component whose card cannot be made has none.
    """
    opened = open_workshop(house, menu, day, folder)
    if opened.value is None:
        return {}
    table = compute_allergens(house, menu, on=day)
    nights = [compute_night(house, Occasion(menu=menu, covers=covers)) for covers in sorted(house.file.nights)]
    entries = [BinderEntry(document=DOCUMENT, subject=id_) for id_ in wanted if id_ in house.components]
    made = [(entry.subject, opened.value.entry_sheet(entry, table, nights)) for entry in entries]
    return {id_: sheet.value.fingerprint for id_, sheet in made if sheet.value}
