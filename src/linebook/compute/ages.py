"""How old the word for an allergen is: which declarations a house would ask for again, and which things they stand for.

Owns ages only; what is declared is not its business. An old declaration still holds: it is marked, never dropped.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Final

from linebook.model.house import House
from linebook.source.exact import Fraction

_DAY: Final = Fraction(24 * 60)


def aged_items(house: House, items: Iterable[str], on: date) -> tuple[str, ...]:
    """Return the pantry items among ``items`` whose declaration is older on a day than the house allows, sorted."""
    limit = house.file.allergens.older_than
    if limit is None:
        return ()
    found = []
    for item in set(items):
        declared = house.pantry[item].allergens if item in house.pantry else None
        if declared is not None and (on - declared.since).days > limit.most / _DAY:
            found.append(item)
    return tuple(sorted(found))


def oldest(house: House, items: Iterable[str]) -> tuple[str, date] | None:
    """Return the pantry item whose declaration is the oldest, and its date; None where nothing is declared."""
    declared = ((item.allergens.since, item.id) for id_ in items if (item := house.pantry.get(id_)) and item.allergens)
    first = min(declared, default=None)
    return None if first is None else (first[1], first[0])
