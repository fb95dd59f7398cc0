"""The call sheet of the pass: who on which line starts what, how many minutes before the plates land.

Works from computed calls alone: each dish of a menu by itself, or some dishes called together as one timeline.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import Final

from linebook.compute.calling import Call, Go, compute_call
from linebook.documents.measures import duration_text
from linebook.documents.naming import before_comma
from linebook.documents.parts import Member
from linebook.documents.second import dish_name, line_name, menu_name, phrase
from linebook.documents.text import EMPTY, Text, each_language, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.amounts import Duration
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

DOCUMENT: Final = "call-sheet"
MINUS: Final = "−"


@frozen
class CallRow:
    """One thing that starts."""

    key: str
    """For data-key."""
    start: Text
    """How many minutes before the plates land: −9, or with seconds −1:30."""
    line: Text
    """The line that starts it."""
    what: Text
    """What is done, how long it rests, which portions; in a call of several dishes for which."""


@frozen
class CallGroup:
    """One dish of the menu with what is started for it, or the whole of a call."""

    key: str
    """For data-key."""
    title: Text
    """The dish and its time from call to pass; empty for a call of several dishes."""
    rows: tuple[CallRow, ...]
    """What is started, in order."""


@frozen
class CallSheet:
    """All a call sheet shows."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of the line it is for; empty for the pass."""
    kicker: Text
    """Over the name: the menu and what sheet this is."""
    title: Text
    """What the sheet tells."""
    aside: Text
    """That it is for one table; empty for a menu."""
    rule: Text
    """How the minutes are counted."""
    called: tuple[Member, ...]
    """The dishes called together, with portions; empty for a menu."""
    groups: tuple[CallGroup, ...]
    """What starts when."""
    notes: tuple[Member, ...]
    """Where more starts at once than a line has cooks, and what has no time."""
    hands: Text
    """What is not counted."""


def menu_dishes(house: House, menu: str) -> tuple[Dish, ...]:
    """Return the dishes of a menu by course and within it in menu order."""
    served = house.menus[menu]
    order = {course.id: at for at, course in enumerate(served.courses)}
    dishes = (house.dishes[entry.dish] for entry in served.dishes)
    return tuple(sorted(dishes, key=lambda dish: order.get(dish.course, len(order))))


def menu_call_sheet(house: House, menu: str, wording: Wording, line: str = "") -> CallSheet:
    """Return the call sheet of a menu, each dish for one portion; of one ``line`` only what that starts."""
    writer = _CallWriter(house=house, wording=wording, line=line)
    title = wording.say("call.title-line", line=line_name(house, line)) if line else wording.say("call.title")
    calls = {dish.id: compute_call(house, {dish.id: 1}) for dish in menu_dishes(house, menu)}
    return CallSheet(
        id=f"{DOCUMENT}:{line or menu}",
        line=line,
        kicker=writer.kicker(menu),
        title=title,
        aside=EMPTY,
        rule=wording.say("call.rule"),
        called=(),
        groups=tuple(writer.dish_groups(calls)),
        notes=(),
        hands=wording.say("call.hands"),
    )


def set_call_sheet(house: House, menu: str, call: Call, wording: Wording, line: str = "") -> CallSheet:
    """Return the call sheet of dishes called together: one timeline, in order of start."""
    writer = _CallWriter(house=house, wording=wording, line=line)
    rows = tuple(writer.set_rows(call))
    return CallSheet(
        id=f"{DOCUMENT}:{menu}:together",
        line=line,
        kicker=writer.kicker(menu),
        title=wording.say("call.title-set"),
        aside=strong(wording.say("call.aside-set")),
        rule=wording.say("call.rule-set"),
        called=tuple(writer.called(call.portions)),
        groups=(CallGroup(key="call", title=EMPTY, rows=rows),) if rows else (),
        notes=tuple(writer.notes(call)),
        hands=wording.say("call.hands"),
    )


def minus_text(minutes: Fraction) -> str:
    """Return minutes before the landing as they are called: ``−9``, ``−1:30``; a part of a second counts whole."""
    whole, seconds = divmod(ceil(minutes * 60), 60)
    sign = MINUS if whole or seconds else ""
    return f"{sign}{whole}:{seconds:02}" if seconds else f"{sign}{whole}"


def span_text(minutes: Fraction, wording: Wording) -> Text:
    """Return a length of time in minutes and whole seconds."""
    rounded = Fraction(ceil(minutes * 60), 60)
    return duration_text(Duration(least=rounded, most=rounded), wording)


@frozen
class _CallWriter:
    house: House
    wording: Wording
    line: str

    def kicker(self, menu: str) -> Text:
        named = (menu_name(self.house, menu), self.wording.say(f"document.{DOCUMENT}"))
        return joined(named, self.wording.say("kicker.between"))

    def called(self, portions: Mapping[str, int]) -> Iterator[Member]:
        """Yield the dishes called, with how many of each."""
        for id_, count in portions.items():
            text = self.wording.say("call.portions", count=count, dish=dish_name(self.house, id_))
            yield Member(key=f"called.{id_}", text=text)

    def dish_groups(self, calls: Mapping[str, Call]) -> Iterator[CallGroup]:
        """Yield each dish with what starts for it; those that this sheet's line has no part in are left out."""
        for id_, call in calls.items():
            rows = tuple(self._row(go, words_of_dish=EMPTY) for go in self._shown(call))
            if rows or (call.untimed and self.line in ("", self.house.dishes[id_].line)):
                yield CallGroup(key=id_, title=strong(self._dish_title(id_, call)), rows=rows)

    def set_rows(self, call: Call) -> Iterator[CallRow]:
        """Yield everything that starts for a call of several dishes."""
        for go in self._shown(call):
            count = self._count(go, call.portions[go.strand.dish])
            dish = self._called_name(go.strand.dish, call)
            yield self._row(go, words_of_dish=strong(self.wording.say("call.portions", count=count, dish=dish)))

    def notes(self, call: Call) -> Iterator[Member]:
        """Yield what of a call needs a decision."""
        for crowd in call.crowds:
            if self.line in ("", crowd.line):
                said = self.wording.say(
                    "call.crowd",
                    line=line_name(self.house, crowd.line),
                    start=minus_text(crowd.start),
                    strands=crowd.strands,
                    cooks=self.wording.say_count("plan.cooks", crowd.cooks),
                )
                yield Member(key=f"crowd.{crowd.line}.{minus_text(crowd.start)}", text=said)
        if call.untimed:
            dishes = self.wording.named(dish_name(self.house, id_) for id_ in call.untimed)
            yield Member(key="untimed", text=self.wording.say("call.untimed", dishes=dishes))

    def _called_name(self, id_: str, call: Call) -> Text:
        """Return a dish's name as it is called: what stands before its comma, where no other of the call begins so."""
        short = {one: each_language(dish_name(self.house, one), before_comma) for one in call.portions}
        alone = sum(short[id_].both == other.both for other in short.values()) == 1
        return short[id_] if alone else dish_name(self.house, id_)

    def _count(self, go: Go, portions: int) -> Text:
        """Return how many portions a go is, of how many where it is not all."""
        if go.turns == 1:
            return words(str(portions))
        return self.wording.say("call.of", count=go.portions, all=portions)

    def _shown(self, call: Call) -> Sequence[Go]:
        return [go for go in call.goes if self.line in ("", go.strand.line)]

    def _dish_title(self, id_: str, call: Call) -> Text:
        name = dish_name(self.house, id_)
        if call.untimed:
            return self.wording.say("call.dish-untimed", dish=name)
        return self.wording.say("call.dish", dish=name, time=span_text(call.minutes, self.wording))

    def _row(self, go: Go, *, words_of_dish: Text) -> CallRow:
        strand = go.strand
        turn = f".{go.turn}" if go.turns > 1 else ""
        return CallRow(
            key=f"start.{strand.dish}.{strand.number}{turn}",
            start=strong(words(minus_text(go.start))),
            line=line_name(self.house, strand.line),
            what=joined((words_of_dish, self._what(go, alone=not words_of_dish)), self.wording.say("list.reason")),
        )

    def _what(self, go: Go, *, alone: bool) -> Text:
        """Return what is done; for one portion also how many go at once, for more how long they wait."""
        strand, say = go.strand, self.wording.say
        parts = [phrase(self.house, strand.do) if strand.do else say("call.as-on-card")]
        if strand.rests:
            parts.append(say("call.rest", time=span_text(strand.rests, self.wording)))
        if alone and strand.at_once:
            parts.append(say("call.at-once", count=strand.at_once))
        if go.waits:
            off = minus_text(go.off)
            parts.append(say("call.waits", off=off, time=span_text(go.waits, self.wording)))
        return self.wording.listed(parts)
