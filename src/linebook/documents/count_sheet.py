"""The count sheet of a line: at the end of a night, what is left of everything it makes, made when, kept or binned.

It has blanks alone, and before each the fingerprint of the batch card it was made from, so that what is typed back as
stock counts with the right allergens. Adds up nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Final

from linebook.compute.ladders import is_metric
from linebook.documents import batch_card
from linebook.documents.binder_order import binder_order
from linebook.documents.measures import duration_text, unit_text
from linebook.documents.naming import kicker
from linebook.documents.second import by_product_name, item_name, line_name, menu_name, vessel_name
from linebook.documents.text import EMPTY, Text, unparted, words
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.component import ByProduct, Component
from linebook.model.house import House
from linebook.model.units import KILOGRAM, LITRE, PIECE, POUND
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

DOCUMENT: Final = "count-sheet"
_SPARE_ROWS: Final = 4
"""Rows for batches made on another day: two days of one thing are two lines, because each has its own last day."""


@frozen
class Counted:
    """One thing that is counted: a component or a by-product, whose card is that of ``maker``, in ``unit``."""

    item: str
    maker: Component
    made: ByProduct | None
    unit: Unit


@frozen
class CountRow:
    """One thing to count."""

    key: str
    """For data-key."""
    name: Text
    """What it is; empty on a row for another day's batch."""
    note: Text
    """The vessel it waits in, how long it keeps, and the fingerprint of its batch card; may be empty."""
    unit: Text
    """What its amount is written in; empty where it is written too."""


@frozen
class CountGroup:
    """What is made, or what is left over in making it."""

    key: str
    """For data-key."""
    title: Text
    """What it is."""
    rows: tuple[CountRow, ...]
    """The things to count."""


@frozen
class CountSheet:
    """All a count sheet shows."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the line and what this is."""
    title: Text
    """The name of the line."""
    aside: Text
    """For which night."""
    lead: Text
    """How to count."""
    groups: tuple[CountGroup, ...]
    """What to count."""
    rule: Text
    """What becomes of it."""


def things_counted(house: House, menu: str, line: str) -> tuple[Counted, ...]:
    """Return everything a line makes for a menu, in the order of its binder, then what is left over in making it."""
    entries = binder_order(house, menu, line)
    makers = [house.components[entry.subject] for entry in entries if entry.document == batch_card.DOCUMENT]
    found = [Counted(item=one.id, maker=one, made=None, unit=_unit(one)) for one in makers]
    seen: set[str] = set()
    for maker in makers:
        for made in maker.also_makes:
            if made.item not in seen:
                seen.add(made.item)
                found.append(Counted(item=made.item, maker=maker, made=made, unit=_written_in(made.amount)))
    return tuple(found)


def count_sheet(
    house: House, line: str, menu: str, day: date, cards: Mapping[str, str], wording: Wording
) -> CountSheet:
    """Return the count sheet of a line for a night; ``cards`` are the fingerprints of batch cards by component."""
    say = wording.say
    writer = _CountWriter(house=house, cards=cards, wording=wording)
    counted = things_counted(house, menu, line)
    return CountSheet(
        id=f"{DOCUMENT}:{line}",
        line=line,
        kicker=kicker(house, line, DOCUMENT, wording),
        title=say("count.title", line=line_name(house, line)),
        aside=say("count.night", day=wording.full_day(day), menu=menu_name(house, menu)),
        lead=say("count.lead"),
        groups=tuple(writer.groups(counted)),
        rule=say("count.rule"),
    )


@frozen
class _CountWriter:
    house: House
    cards: Mapping[str, str]
    wording: Wording

    def groups(self, counted: tuple[Counted, ...]) -> Iterator[CountGroup]:
        made = tuple(self._row(one) for one in counted if one.made is None)
        left = tuple(self._row(one) for one in counted if one.made is not None)
        say = self.wording.say
        if made:
            yield CountGroup(key="made", title=say("count.made"), rows=made)
        if left:
            yield CountGroup(key="left", title=say("count.left-over"), rows=left)
        spare = tuple(
            CountRow(key=f"other.{number}", name=EMPTY, note=EMPTY, unit=EMPTY) for number in range(1, _SPARE_ROWS + 1)
        )
        yield CountGroup(key="other", title=say("count.other"), rows=spare)

    def _row(self, one: Counted) -> CountRow:
        name = item_name(self.house, one.item)
        if one.made is not None:
            name = by_product_name(self.house, one.maker, one.item, one.made.name)
        return CountRow(
            key=f"item.{one.item}",
            name=name,
            note=self._note(one),
            unit=unit_text(Amount(number=Fraction(2), unit=one.unit), self.wording),
        )

    def _note(self, one: Counted) -> Text:
        """Return the vessel a thing waits in and how long it keeps, or what it is left over from; then its card."""
        return self.wording.listed(part for part in (*self._about(one), self._card(one.maker)) if part)

    def _about(self, one: Counted) -> Iterator[Text]:
        store, keeps = one.maker.store, one.maker.keeps
        if one.made is not None:
            yield self.wording.say("count.from", maker=item_name(self.house, one.maker.id))
            return
        if store is not None and store.vessel:
            yield vessel_name(self.house, store.vessel)
        if keeps is not None:
            yield self.wording.say("count.keeps", time=duration_text(keeps, self.wording))

    def _card(self, maker: Component) -> Text:
        card = self.cards.get(maker.id, "")
        return self.wording.say("count.card-of", card=words(unparted(card))) if card else EMPTY


def _unit(component: Component) -> Unit:
    return PIECE if component.pieces else _written_in(component.makes)


def _written_in(amount: Amount) -> Unit:
    """Return the unit a count is written in: kg or L, pounds where the card is in pounds, else as the card has it."""
    unit = amount.unit
    if unit.kind is Kind.MASS:
        return KILOGRAM if is_metric(unit) else POUND
    return LITRE if unit.kind is Kind.VOLUME and is_metric(unit) else unit
