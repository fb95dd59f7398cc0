"""What must not be missed on an order sheet: what comes too late, what has no season then, and what is short.

Words what ``compute.order`` found; adds up nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final, TypeAlias

from linebook.compute.order import InSeason, Order, find_supplier
from linebook.compute.order_late import TooLate
from linebook.documents.measures import Measures
from linebook.documents.order_words import some_names, supplier_text, told_text, weekday_text
from linebook.documents.parts import Member
from linebook.documents.second import dish_name, item_name
from linebook.documents.text import EMPTY, Text, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.source.frozen import frozen

_MOST_BOXED: Final = 6
_MOST_LETTERS: Final = 1_200
_Van: TypeAlias = tuple[str, date, date | None, date, date | None]


@frozen
class Notice:
    """A box of things that must not be missed."""

    key: str
    """For data-key."""
    title: Text
    """What they have in common."""
    points: tuple[Member, ...]
    """Each of them."""

    @property
    def boxed(self) -> bool:
        """Return whether they are few and short enough for a box, which never parts at the end of a page."""
        letters = sum(len(point.text.both) for point in self.points)
        return len(self.points) <= _MOST_BOXED and letters <= _MOST_LETTERS


@frozen
class NoticesWriter:
    """Writes the notices of one order."""

    house: House
    order: Order
    measures: Measures

    @property
    def wording(self) -> Wording:
        """Return the words they are written in."""
        return self.measures.wording

    def notices(self) -> Iterator[Notice]:
        """Yield what must not be missed, the most pressing first; some may hold nothing."""
        say = self.wording.say
        yield Notice(key="late", title=say("order.late.title"), points=tuple(self._late()))
        yield Notice(key="after", title=say("order.after.title"), points=tuple(self._out_of_season()))
        yield Notice(key="short", title=say("order.short.title"), points=tuple(self._short()))

    def _late(self) -> Iterator[Member]:
        """Yield each van that is missed, with all that should have come with it."""
        vans: dict[_Van, list[TooLate]] = {}
        for one in self.order.too_late:
            supplier = find_supplier(self.house, self.house.pantry[one.item])
            name = supplier.name if supplier else self.house.pantry[one.item].supplier or ""
            vans.setdefault((name, one.missed, one.order_by, one.comes, one.serves), []).append(one)
        for at, (van, found) in enumerate(vans.items()):
            yield Member(key=f"late.{at}", text=self._missed(van, found))

    def _missed(self, van: _Van, found: list[TooLate]) -> Text:
        say, day = self.wording.say, self.wording.day
        name, missed, order_by, comes, serves = van
        dishes = dict.fromkeys(dish for one in found for dish in one.dishes)
        services = sorted({service for one in found for service in one.services})
        values = {
            "supplier": supplier_text(name, self.wording),
            "missed": day(missed),
            "comes": day(comes),
            "serves": say("order.late.serves", day=day(serves)) if serves else say("order.late.serves-none"),
            "items": self.wording.separated(map(self._late_item, found)),
            "dishes": self.wording.named(dish_name(self.house, dish) for dish in dishes),
            "days": self.wording.listed(weekday_text(service, self.wording) for service in services),
        }
        if order_by is None:
            return say("order.late.no-lead", **values)
        until = found[0].until
        when = day(order_by)
        if until is not None:
            when = say("order.when", day=when, time=words(f"{until:%H:%M}"))
        return say("order.late", when=when, **values)

    def _late_item(self, one: TooLate) -> Text:
        amount, by = told_text(one.amount, self.measures), self.wording.day(one.by)
        return self.wording.say("order.late.item", item=item_name(self.house, one.item), amount=amount, by=by)

    def _out_of_season(self) -> Iterator[Member]:
        say = self.wording.say
        for one in self.order.seasons:
            name = item_name(self.house, one.item)
            if one.after.number:
                yield Member(key=f"after.{one.item}", text=self._after(one, name))
            if one.before.number:
                amount, first = told_text(one.before, self.measures), self.wording.day(one.season.first)
                yield Member(key=f"before.{one.item}", text=say("order.before", item=name, amount=amount, first=first))

    def _after(self, one: InSeason, name: Text) -> Text:
        say = self.wording.say
        still_comes = one.last_delivery >= self.order.written
        return say(
            "order.after" if one.after_here.number else "order.after.later",
            item=name,
            amount=told_text(one.after, self.measures),
            here=told_text(one.after_here, self.measures),
            last=self.wording.day(one.season.last),
            mend=say("order.after.buy", day=self.wording.day(one.last_delivery)) if still_comes else EMPTY,
        )

    def _short(self) -> Iterator[Member]:
        for at, one in enumerate(self.order.short):
            yield Member(
                key=f"short.{at}",
                text=self.wording.say(
                    "order.short.apart" if one.apart else "order.short",
                    item=item_name(self.house, one.item),
                    amount=told_text(one.amount, self.measures),
                    day=self.wording.day(one.service),
                    users=some_names(self.house, one.users, self.wording),
                ),
            )
