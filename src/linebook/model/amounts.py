"""Amounts: an exact number and a unit. Parsing lives in ``quantities``, factors in ``units``."""

from __future__ import annotations

from enum import Enum
from typing import Final, TypeAlias

from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


class Kind(Enum):
    """What a unit measures."""

    MASS = "weight"
    VOLUME = "volume"
    COUNT = "count"

    # Each is one object; an ``Enum`` hashes its name, and units are looked up by the thousand.
    __hash__ = object.__hash__


@frozen
class Unit:
    """A unit as printed. ``key`` tells units apart (``us-cup``); ``symbol`` and ``plural`` are printed.

    ``counts`` is set for count units alone: the word whose weight a pantry item gives (*piece* and
    *dozen* count ``each``; a leaf counts ``leaf``). Factors are in ``units``, never here.
    """

    key: str
    kind: Kind
    symbol: str
    plural: str
    counts: str | None = None

    def __hash__(self) -> int:
        return hash(self.key)  # half the time of a hash of all fields, and amounts are looked up by the thousand


@frozen(kw_only=False)
class Amount:
    """An exact number of a unit."""

    number: Fraction
    unit: Unit

    def __hash__(self) -> int:
        number = self.number  # which hashes by a modular inverse
        return hash((number.numerator, number.denominator, self.unit.key))


BATCH: Final = "batch"


@frozen
class Percent:
    """``number`` per cent by weight of the items in ``of`` (ids on the same card), or of ``("batch",)``."""

    number: Fraction
    of: tuple[str, ...]


@frozen
class ToTaste:
    """Added to taste: no amount, always in the allergens."""


IngredientAmount: TypeAlias = Amount | Percent | ToTaste


@frozen
class Temperature:
    """A temperature, never scaled. ``celsius`` is exact; ``fahrenheit`` says how the chef typed it."""

    celsius: Fraction
    fahrenheit: bool = False


@frozen
class Duration:
    """A span of time in minutes; ``most`` equals ``least`` unless a range was given.

    ``in_days`` is true where it was written in days, which keeping times count as dates.
    """

    least: Fraction
    most: Fraction
    in_days: bool = False
