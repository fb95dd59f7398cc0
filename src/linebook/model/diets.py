"""The ways of eating that can be asked about: what each leaves out, as origins, and who says so.

Knows no house and no dish. What is asked of a food is where it comes from, whether it is pasteurised, or whether it is
raw; the four answers are worked out elsewhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from typing import Final

from linebook.model.origins import ORIGINS
from linebook.source.frozen import frozen

COMMON_PRACTICE: Final = "common practice, no source"
UNPASTEURISED: Final = "unpasteurised"
"""Stands among a diet's origins for what has not been pasteurised: no word of the table, but asked like one."""


class Asks(Enum):
    """What a diet asks of a food: where it comes from, or whether it is raw."""

    ORIGIN = "origin"
    RAW = "raw"


@frozen
class Diet:
    """One way of eating, or one thing left out. ``forbids`` are words for origins; ``reason`` is who says so."""

    id: str
    name: str
    forbids: frozenset[str]
    reason: str
    asks: Asks = Asks.ORIGIN


_FLESH: Final = ("poultry", "beef", "veal", "lamb", "pork", "game", "insect")
_SEA: Final = ("fish", "crustacean", "mollusc")
_FATS: Final = ("animal-fat-poultry", "animal-fat-beef", "animal-fat-pork")
_LAND_GELATINE: Final = ("gelatine-pork", "gelatine-beef")
_OF_MEAT: Final = (*_FLESH, *_FATS, *_LAND_GELATINE, "rennet-animal")
_SWAPPED: Final = "FDA Food Code 2022, 3-801.11: pasteurised egg in place of raw egg"
_ADVISORY: Final = "FDA Food Code 2022, 3-603.11: animal foods served raw or undercooked"


def _diet(id_: str, *forbids: str, name: str = "", reason: str = COMMON_PRACTICE, asks: Asks = Asks.ORIGIN) -> Diet:
    every = set(forbids)
    every |= {word for word, origin in ORIGINS.items() if origin.could_be and every.issuperset(origin.could_be)}
    return Diet(id=id_, name=name or id_.replace("-", " "), forbids=frozenset(every), reason=reason, asks=asks)


DIETS: Final[Mapping[str, Diet]] = {
    diet.id: diet
    for diet in (
        _diet("vegetarian", *_OF_MEAT, *_SEA, "gelatine-fish"),
        _diet("vegan", *_OF_MEAT, *_SEA, "gelatine-fish", "milk", "egg", "honey"),
        _diet("pescatarian", *_OF_MEAT),
        _diet("meat", *_OF_MEAT),
        _diet("poultry", "poultry", "animal-fat-poultry"),
        _diet("beef", "beef", "veal", "animal-fat-beef", "gelatine-beef", "rennet-animal"),
        _diet("lamb", "lamb", "rennet-animal"),
        _diet("pork", "pork", "animal-fat-pork", "gelatine-pork"),
        _diet("game", "game"),
        _diet("gelatine", *_LAND_GELATINE, "gelatine-fish"),
        _diet("animal-rennet", "rennet-animal"),
        _diet("insect", "insect"),
        _diet("alcohol", "alcohol"),
        _diet("unpasteurised", UNPASTEURISED, reason=_ADVISORY, asks=Asks.RAW),
        _diet("raw-egg", "egg", reason=_SWAPPED, asks=Asks.RAW),
        _diet("raw-fish", "fish", reason=_ADVISORY, asks=Asks.RAW),
        _diet("raw-shellfish", "crustacean", "mollusc", reason=_ADVISORY, asks=Asks.RAW),
        _diet("raw-meat", "poultry", "beef", "veal", "lamb", "pork", "game", reason=_ADVISORY, asks=Asks.RAW),
    )
}
"""Every question about diet that can be asked, in the order in which it is printed."""

MAY_BE_RAW: Final = frozenset(word for diet in DIETS.values() if diet.asks is Asks.RAW for word in diet.forbids) - {
    UNPASTEURISED
}
"""The origins of the animal foods of which it matters whether they are raw."""
