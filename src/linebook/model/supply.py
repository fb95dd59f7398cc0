"""What surrounds buying and keeping: substitutes, yield tests, suppliers and stock on hand. Values only."""

from __future__ import annotations

from datetime import date, time

from linebook.model.amounts import Amount
from linebook.model.record import Record
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Substitute(Record):
    """What can stand in for an item that cannot be had. ``ratio`` is how much of it replaces one of the other.

    By weight, unless both are counted in the same word. ``prep`` is how it is cut or prepared when it stands in.
    """

    item: str
    ratio: Fraction = Fraction(1)
    prep: str | None = None
    note: str | None = None


@frozen
class PartWeighed(Record):
    """One part of a yield test beside the main one: trim, bone, fat.

    ``item`` is the id other cards use it by, ``value`` the money an amount of it is worth, as 1.20 per kg.
    """

    part: str
    weighs: Amount
    item: str | None = None
    value: tuple[Fraction, Amount] | None = None


@frozen
class YieldTest(Record):
    """One delivery taken apart on a scale: what was bought, what of it is usable, and what the rest weighed.

    ``cooked`` is what the usable part weighs after cooking; ``price`` the money an amount of it cost that day.
    """

    tested: date
    bought: Amount
    usable: Amount
    parts: tuple[PartWeighed, ...] = ()
    cooked: Amount | None = None
    price: tuple[Fraction, Amount] | None = None
    by: str | None = None
    note: str | None = None


@frozen
class Supplier(Record):
    """Who is bought from: on which weekdays (``mon`` … ``sun``) they deliver, and until when they take orders."""

    name: str
    delivers: tuple[str, ...] = ()
    order_by: time | None = None
    note: str | None = None


@frozen
class StockEntry(Record):
    """What is left of one item. ``made`` is the day its life counts from, ``use_by`` the last day it may be served.

    ``card`` is the fingerprint of the batch card it was made from; ``contains`` and ``may_contain`` are the substances
    on its label, None where the label was not copied.
    """

    item: str
    amount: Amount
    made: date | None = None
    use_by: date | None = None
    card: str | None = None
    contains: tuple[str, ...] | None = None
    may_contain: tuple[str, ...] = ()
