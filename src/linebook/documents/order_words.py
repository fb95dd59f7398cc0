"""How an order is said: amounts as they are told to a supplier, packs, days and times to order by."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

from linebook.compute.order import Delivery, OrderLine
from linebook.compute.told_amounts import told
from linebook.documents.measures import Measures, typed_text
from linebook.documents.second import item_name
from linebook.documents.text import EMPTY, Text, unparted, words
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount
from linebook.model.house import House

_MOST_NAMES: Final = 3


def told_text(amount: Amount, measures: Measures, *, up: bool = True) -> Text:
    """Return an amount as it is told to a supplier, in the system the house prints; in both where it prints both."""
    asked = told(measures.system.asked(amount), up=up)
    other = measures.system.other(asked)
    said = typed_text(asked, measures.wording)
    if other is None:
        return said
    beside = told(other, up=up)
    if not beside.number:
        return said
    return measures.wording.say("amount.with-beside", amount=said, beside=typed_text(beside, measures.wording))


def pack_text(line: OrderLine, measures: Measures) -> Text:
    """Return what is asked for: *2 × 5 kg*, or an amount where no pack is known."""
    if line.packs is None or line.pack is None:
        return told_text(line.ordered, measures)
    pack = typed_text(line.pack, measures.wording)
    return measures.wording.say("order.packs", count=words(f"{line.packs:,}"), pack=pack)


def when_text(delivery: Delivery, wording: Wording) -> Text:
    """Return the day and time to order by; the day alone where no time is known."""
    if delivery.order_by is None:
        return EMPTY
    day = wording.day(delivery.order_by)
    if delivery.until is None:
        return day
    return wording.say("order.when", day=day, time=words(f"{delivery.until:%H:%M}"))


def supplier_text(name: str, wording: Wording) -> Text:
    """Return a supplier's name, or that none is known."""
    return words(name) if name else wording.say("order.supplier.none")


def weekday_text(day: date, wording: Wording) -> Text:
    """Return a day of the order as short as it can be: *Tue 9*."""
    said = wording.say("order.weekday", weekday=wording.say(f"weekday.{day.weekday()}"), day=day.day)
    return words(unparted(said.plain), unparted("".join(piece.words for piece in said.in_second)))


def some_names(house: House, items: Sequence[str], wording: Wording) -> Text:
    """Return the first few of some names, and how many more there are."""
    names = [item_name(house, item) for item in items]
    if len(names) <= _MOST_NAMES + 1:
        return wording.named(names)
    return wording.say_count("guest.more", len(names) - _MOST_NAMES, first=wording.named(names[:_MOST_NAMES]))
