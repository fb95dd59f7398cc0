"""Bought items: what they contain and who says so, and what turns counts and volumes into weights."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import Enum
from types import MappingProxyType

from linebook.model.amounts import Amount, Duration
from linebook.model.record import Record
from linebook.model.supply import Substitute, YieldTest
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Declaration(Record):
    """What a bought item contains, who says so and since when. ``contains`` is () for *none*.

    Names are substance ids of the taxonomy or the house's own avoidances. ``exempt`` names, for a substance it is made
    from, the process by which a list lets it go undeclared; each of these is in ``may_contain`` too.
    """

    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    says: str
    since: date
    exempt: Mapping[str, str] = MappingProxyType({})


@frozen
class Price(Record):
    """Money for an amount, in the house's currency: ``14.50 per kg``."""

    money: Fraction
    per: Amount


@frozen
class Season(Record):
    """First and last day an item can be bought."""

    first: date
    last: date


class ParasiteExempt(Enum):
    """Why a fish may be served raw without being frozen here, as its supplier states in writing.

    FDA Food Code 3-402.11(B); Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D.
    """

    FARMED = "farmed"
    TUNA = "listed tuna"
    ROE = "roe"
    FROZEN = "frozen by the supplier"


@frozen
class PantryItem(Record):
    """One bought item.

    ``density`` is grams a millilitre; ``weighs`` gives grams of one by count word (each, leaf …);
    ``usable`` is the edible part of the bought weight, 0 < usable <= 1. ``origin`` is all it comes from, by the words
    of ``origins``, None where nobody has said; ``unpasteurised`` is None too where nobody has. ``one_food`` is true
    where nothing else is in it. ``strength`` is the part by weight of each active substance in it (a curing salt's
    nitrite); ``dilute_in`` the item in which a weight too small to read is dissolved first; ``kept`` the id of the
    place it is kept in; ``parasite_exempt`` why it may be served raw without being frozen here.
    """

    id: str
    name: str
    allergens: Declaration | None = None
    origin: tuple[str, ...] | None = None
    unpasteurised: bool | None = None
    one_food: bool = False
    density: Fraction | None = None
    weighs: Mapping[str, Fraction]
    usable: Fraction | None = None
    also_called: tuple[str, ...] = ()
    weigh_exactly: bool = False
    strength: Mapping[str, Fraction] = MappingProxyType({})
    dilute_in: str | None = None
    yield_tests: tuple[YieldTest, ...] = ()
    substitutes: tuple[Substitute, ...] = ()
    pack: Amount | None = None
    price: Price | None = None
    supplier: str | None = None
    lead: Duration | None = None
    season: Season | None = None
    kept: str | None = None
    parasite_exempt: ParasiteExempt | None = None
    note: str | None = None
