"""What is served from which date, to how many, and which share of covers orders each dish."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from linebook.model.record import Record
from linebook.model.supply import StockEntry
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Course(Record):
    """A course, in serving order. ``portions`` is how many portions a cover it expects, None if not said."""

    id: str
    name: str
    portions: Fraction | None = None


@frozen
class MenuDish(Record):
    """A dish on a menu. ``share`` is portions a cover, >= 0 and not capped at 1.

    ``mix`` gives the part of the portions served in each size (sums to 1; {} is all in the first size).
    Spare is the larger of ``spare`` (a fraction of the portions) and ``at_least`` portions.
    """

    dish: str
    share: Fraction
    mix: Mapping[str, Fraction]
    spare: Fraction | None = None
    at_least: Fraction | None = None


@frozen
class Menu(Record):
    """One menu. ``covers`` gives the expected covers by weekday (``mon`` … ``sun``)."""

    id: str
    name: str
    first: date
    last: date | None = None
    covers: Mapping[str, int]
    courses: tuple[Course, ...]
    dishes: tuple[MenuDish, ...]
    oil_changed: bool = False
    on_hand: tuple[StockEntry, ...] = ()
