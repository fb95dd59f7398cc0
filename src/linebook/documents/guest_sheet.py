"""The guest sheet: what a table may be served on one night, carried by the server and initialled by the pass.

Groups and orders what ``guest_answers`` words; no dish of the menu is ever left out, and no answer is weaker for how
strongly a guest avoids a thing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from linebook.compute.guest import Action, DishVerdict
from linebook.documents.guest_answers import GuestWriter, by_course
from linebook.documents.guest_names import taken_as
from linebook.documents.guest_request import AnsweredSeat, AskedWord, GuestRequest, GuestSeat
from linebook.documents.parts import Labelled
from linebook.documents.second import course_name, dish_name, menu_name
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.read.ids import kebab
from linebook.source.frozen import frozen

DOCUMENT: Final = "guest-sheet"
MOST_ACROSS: Final = 3
"""Seats side by side: more columns are too narrow for an action in words."""

_GROUPS: Final[Mapping[str, tuple[Action, ...]]] = {
    "serve": (Action.SERVE,),
    "change": (Action.WITHOUT, Action.WITH),
    "refuse": (Action.REFUSE,),
    "cannot-say": (Action.CANNOT_SAY,),
}
_CLEAN: Final = ("hands", "board", "knife", "container", "plate", "last")


@frozen
class GuestRow:
    """One dish for one seat."""

    key: str
    """For data-key."""
    course: Text
    """Its course."""
    dish: Text
    """The dish."""
    action: Text
    """What to do with it; empty where the group's head says it all."""
    reason: Text
    """Why; empty where it is served as it is."""


@frozen
class GuestGroup:
    """The dishes with the same verdict, by course."""

    key: str
    """For data-key."""
    title: Text
    """The verdict."""
    rows: tuple[GuestRow, ...]
    """Its dishes, by course."""


@frozen
class SeatBlock:
    """One guest: what was asked, and the verdict on every dish."""

    key: str
    """For data-key, with a point and a word after it."""
    title: Text
    """Of several seats which one; then allergy, intolerance or preference, and to what, in the guest's words."""
    degree_open: bool
    """Whether it was not said which of these it is, and is ticked by hand."""
    no_weaker: Text
    """That a preference is handled as an allergy is; may be empty."""
    taken: Text
    """Each word of the guest and what it was taken as."""
    groups: tuple[GuestGroup, ...]
    """The dishes by verdict; of several seats only those that are not served as they are."""


@frozen
class TableRow:
    """One dish for several seats, or the head of a course: then there are no cells."""

    key: str
    """For data-key."""
    name: Text
    """The dish, or the course."""
    cells: tuple[Text, ...]
    """What to do with it for each seat of the table's columns; none is empty."""


@frozen
class SeatTable:
    """A verdict column a seat, for a few seats side by side."""

    key: str
    """For data-key."""
    heads: tuple[Text, ...]
    """The seats."""
    rows: tuple[TableRow, ...]
    """The dishes, each course under its head; first those that all may be served, last those that none may."""

    @property
    def width(self) -> int:
        """Return how many columns the table has, the names included."""
        return 1 + len(self.heads)


@frozen
class CleanRow:
    """Two places to initial, side by side."""

    key: str
    """For data-key."""
    first: Text
    """What is done."""
    second: Text
    """What is done next."""


@frozen
class GuestSheet:
    """All a guest sheet shows."""

    id: str
    """The sheet's own id."""
    kicker: Text
    """Over the name: which document it is, and the menu."""
    title: Text
    """Table and seat, or which document it is where neither was given."""
    aside: Text
    """For which service only."""
    blank_table: bool
    """Whether the table was not given and is written in by hand."""
    blank_seat: bool
    """Whether the one seat was not given and is written in by hand."""
    seats: tuple[SeatBlock, ...]
    """The guests; one or several."""
    tables: tuple[SeatTable, ...]
    """For several seats, a verdict column for each; none for one seat."""
    changes: tuple[Labelled, ...]
    """For several seats, what the pass changes, dish by dish."""
    none_left: Text
    """That nothing can be served to some seat; may be empty."""
    listed: Text
    """That every dish is here, that no other may be served, and that drinks are not covered."""
    read_back: Text
    """The line to read back aloud first."""
    clean: tuple[CleanRow, ...]
    """The clean-down, to initial."""
    valid: Text
    """For which service it is valid."""
    caution: Text
    """What it rests on, and who decides."""


def guest_sheet(
    house: House, menu: str, request: GuestRequest, seats: Sequence[AnsweredSeat], day: date, wording: Wording
) -> GuestSheet:
    """Return the sheet of a table on a day; ``seats`` are those of the request with their verdicts."""
    writer = _SheetWriter(house=house, menu=menu, request=request, seats=tuple(seats), wording=wording)
    several = len(seats) > 1
    say = wording.say
    clean = [say(f"guest.clean.{key}") for key in _CLEAN]
    return GuestSheet(
        id=f"{DOCUMENT}:{'.'.join((day.isoformat(), *writer.places()))}",
        kicker=joined((say(f"document.{DOCUMENT}"), menu_name(house, menu)), say("kicker.between")),
        title=writer.title() or say(f"document.{DOCUMENT}"),
        aside=say("guest.only-for", day=wording.day(day)),
        blank_table=not request.table,
        blank_seat=not several and not request.seats[0].places,
        seats=tuple(writer.block(number, seat) for number, seat in enumerate(seats, start=1)),
        tables=tuple(writer.tables()) if several else (),
        changes=tuple(writer.changes()) if several else (),
        none_left=writer.none_left(),
        listed=writer.listed(),
        read_back=say("guest.clean.read-back", line=writer.read_back()),
        clean=tuple(
            CleanRow(key=f"clean.{key}", first=first, second=second)
            for key, first, second in zip(_CLEAN[::2], clean[::2], clean[1::2], strict=True)
        ),
        valid=say("guest.valid"),
        caution=say("guest.caution", day=wording.full_day(day)),
    )


def seat_name(seat: GuestSeat, number: int, wording: Wording) -> Text:
    """Return what a seat is called: by what it was given as, else as the guest of that number."""
    if not seat.places:
        return wording.say("guest.seat.number", number=number)
    key = "guest.seat" if len(seat.places) == 1 else "guest.seats"
    return wording.say(key, seat=wording.listed_with_and(map(words, seat.places)))


def asked_text(house: House, seat: GuestSeat, wording: Wording) -> Text:
    """Return what a guest avoids in the guest's own words, with how strongly: *Allergy: egg, allium*."""
    degree = wording.say(f"guest.degree.{seat.degree or 'unknown'}")
    return joined((degree, _asked_words(house, seat, wording)), wording.say("list.reason"))


def seat_asks(house: House, seat: GuestSeat, number: int, wording: Wording) -> Text:
    """Return a seat with what it asks: *Seat 3, allergy: egg, allium*."""
    asks = wording.say(f"guest.asked.{seat.degree or 'unknown'}", asked=_asked_words(house, seat, wording))
    return wording.say("guest.seat-asks", seat=seat_name(seat, number, wording), asks=asks)


def _asked_words(house: House, seat: GuestSeat, wording: Wording) -> Text:
    """Return the guest's own words. A second language has what they were taken as: who reads it may not know them."""
    return wording.listed(_asked_word(house, one, wording) for one in seat.asked)


def _asked_word(house: House, asked: AskedWord, wording: Wording) -> Text:
    if not wording.second_language or any(one.kind == "item" for one in asked.avoidances):
        return words(asked.word)
    taken = taken_as(house, asked, wording)
    return words(asked.word, "".join(piece.words for piece in taken.in_second))


def change_lines(
    house: House, menu: str, seats: Sequence[AnsweredSeat], wording: Wording
) -> Iterator[tuple[str, Text, Text]]:
    """Yield what the pass changes: a dish's id and name, and for which seats what comes off or comes instead."""
    changed: dict[str, dict[Text, list[Text]]] = {}
    for number, answered in enumerate(seats, start=1):
        writer = GuestWriter(house=house, wording=wording, seat=answered.seat)
        name = seat_name(answered.seat, number, wording)
        for verdict in answered.verdicts:
            if change := writer.change(verdict):
                changed.setdefault(verdict.dish, {}).setdefault(change, []).append(name)
    for own in by_course(house, menu, seats[0].verdicts).values():
        for verdict in own:
            if verdict.dish in changed:
                told = [
                    wording.say("guest.pass-changes.seat", seat=wording.listed(names), change=change)
                    for change, names in changed[verdict.dish].items()
                ]
                yield verdict.dish, dish_name(house, verdict.dish), joined(told, wording.say("list.semicolon"))


@frozen
class _SheetWriter:
    house: House
    menu: str
    request: GuestRequest
    seats: tuple[AnsweredSeat, ...]
    wording: Wording

    def places(self) -> tuple[str, ...]:
        """Return table and seats as words of an id."""
        given = (self.request.table, *(place for seat in self.request.seats for place in seat.places))
        return tuple(kebab(place) for place in given if kebab(place))

    def title(self) -> Text:
        """Return table and seats; nothing where neither was given."""
        say, request = self.wording.say, self.request
        table = say("guest.table", table=request.table) if request.table else EMPTY
        given = [words(place) for seat in request.seats for place in seat.places]
        if not given:
            return table
        key = "guest.seats" if len(given) > 1 else "guest.seat"
        seats = say(f"{key}.in-line" if table else key, seat=self.wording.listed_with_and(given))
        return self.wording.listed((table, seats))

    def block(self, number: int, answered: AnsweredSeat) -> SeatBlock:
        """Return what one guest asked, and the verdicts."""
        seat, several = answered.seat, len(self.seats) > 1
        groups = [self._group(answered, key) for key in _GROUPS if not (several and key == "serve")]
        return SeatBlock(
            key=f"seat.{number}",
            title=seat_asks(self.house, seat, number, self.wording)
            if several
            else asked_text(self.house, seat, self.wording),
            degree_open=not seat.degree,
            no_weaker=self.wording.say("guest.degree.no-weaker") if seat.degree == "preference" else EMPTY,
            taken=joined(map(self._word_taken, seat.asked), self.wording.say("list.semicolon")),
            groups=tuple(group for group in groups if group.rows),
        )

    def tables(self) -> Iterator[SeatTable]:
        """Yield a table for every few seats."""
        for start in range(0, len(self.seats), MOST_ACROSS):
            across = self.seats[start : start + MOST_ACROSS]
            yield SeatTable(
                key=f"heads.{start}",
                heads=tuple(
                    seat_name(one.seat, number, self.wording) for number, one in enumerate(across, start=start + 1)
                ),
                rows=tuple(self._rows(across, start)),
            )

    def changes(self) -> Iterator[Labelled]:
        """Yield what the pass changes, dish by dish."""
        lines = tuple(change_lines(self.house, self.menu, self.seats, self.wording))
        for dish, name, change in lines:
            yield Labelled(key=f"change.{dish}", label=name, value=change)
        if not lines:
            label = self.wording.say("guest.pass-changes")
            yield Labelled(key="change.none", label=label, value=self.wording.say("guest.pass-changes.none"))

    def none_left(self) -> Text:
        """Return that nothing can be served, where that is so for a seat."""
        bare = [
            seat_name(one.seat, number, self.wording)
            for number, one in enumerate(self.seats, start=1)
            if all(verdict.action in (Action.REFUSE, Action.CANNOT_SAY) for verdict in one.verdicts)
        ]
        if not bare:
            return EMPTY
        if len(self.seats) == 1:
            return self.wording.say("guest.none-left")
        return self.wording.say("guest.none-left.seats", seats=self.wording.listed_with_and(bare))

    def listed(self) -> Text:
        """Return that all dishes are here, and what is not."""
        say = self.wording.say
        count = self.wording.say_count("guest.listed", len(self.seats[0].verdicts))
        return joined((count, say("guest.not-listed"), say("guest.drinks")), say("sentence.between"))

    def read_back(self) -> Text:
        """Return the line that is read back: table, seats, and what each avoids."""
        if len(self.seats) == 1:
            told: Text = asked_text(self.house, self.seats[0].seat, self.wording)
            return joined((self.title(), told), self.wording.say("guest.stop"))
        seats = [
            seat_asks(self.house, one.seat, number, self.wording) for number, one in enumerate(self.seats, start=1)
        ]
        table = self.wording.say("guest.table", table=self.request.table) if self.request.table else EMPTY
        return joined((table, joined(seats, self.wording.say("list.semicolon"))), self.wording.say("guest.stop"))

    def _word_taken(self, asked: AskedWord) -> Text:
        taken = strong(taken_as(self.house, asked, self.wording))
        return self.wording.say("guest.word-taken", word=asked.word, taken=taken)

    def _group(self, answered: AnsweredSeat, key: str) -> GuestGroup:
        writer = GuestWriter(house=self.house, wording=self.wording, seat=answered.seat)
        rows = []
        for course, verdicts in by_course(self.house, self.menu, answered.verdicts).items():
            for verdict in verdicts:
                if verdict.action in _GROUPS[key]:
                    rows.append(
                        GuestRow(
                            key=f"dish.{verdict.dish}",
                            course=self._course(course),
                            dish=dish_name(self.house, verdict.dish),
                            action=writer.action(verdict) if key == "change" else EMPTY,
                            reason=writer.reason(verdict),
                        )
                    )
        return GuestGroup(key=f"group.{key}", title=self.wording.say(f"guest.group.{key}"), rows=tuple(rows))

    def _rows(self, across: Sequence[AnsweredSeat], start: int) -> Iterator[TableRow]:
        by_dish = [{verdict.dish: verdict for verdict in one.verdicts} for one in across]
        for course, verdicts in by_course(self.house, self.menu, across[0].verdicts).items():
            yield TableRow(key=f"course.{course or 'other'}.{start}", name=self._course(course), cells=())
            for dish in sorted((one.dish for one in verdicts), key=lambda dish: _least(by_dish, dish)):
                yield self._row(across, by_dish, dish, start)

    def _row(
        self, across: Sequence[AnsweredSeat], by_dish: Sequence[Mapping[str, DishVerdict]], dish: str, start: int
    ) -> TableRow:
        cells = tuple(
            GuestWriter(house=self.house, wording=self.wording, seat=one.seat).action(own[dish])
            for one, own in zip(across, by_dish, strict=True)
        )
        return TableRow(key=f"dish.{dish}.{start}", name=dish_name(self.house, dish), cells=cells)

    def _course(self, course: str) -> Text:
        for one in self.house.menus[self.menu].courses:
            if one.id == course:
                return course_name(self.house, one)
        return self.wording.say("guest.other-course")


def _least(by_dish: Sequence[Mapping[str, DishVerdict]], dish: str) -> int:
    """Return how little of a table may be served a dish; 0 where all may as it is."""
    order = [action for actions in _GROUPS.values() for action in actions]
    return sum(order.index(own[dish].action) for own in by_dish)
