"""What ``linebook guest`` answers in the terminal, as lines: for each seat a line a dish, the verdict first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from linebook.compute.guest import Action
from linebook.documents.guest_answers import GuestWriter, by_course
from linebook.documents.guest_names import taken_as
from linebook.documents.guest_sheet import asked_text, change_lines, seat_name
from linebook.documents.second import course_name, dish_name
from linebook.documents.text import NO_BREAK
from linebook.documents.wording import Wording, english
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.guest import DishVerdict
    from linebook.documents.guest_request import AnsweredSeat, GuestRequest
    from linebook.model.house import House

_WIDEST_ACTION: Final = 30


@frozen
class Line:
    """One line. ``action`` is what stands at its start, to be set in bold; '' for none."""

    text: str
    action: str = ""


def answer_lines(
    house: House, menu: str, request: GuestRequest, seats: Sequence[AnsweredSeat], columns: int
) -> Iterator[Line]:
    """Yield the answers to a table in at most ``columns`` columns: each seat, then what the pass changes."""
    wording = english()
    for number, answered in enumerate(seats, start=1):
        if number > 1:
            yield Line(text="")
        yield from _seat_lines(house, menu, request, answered, number, columns, wording)
    if len(seats) > 1:
        yield Line(text="")
        yield Line(text="", action="The pass changes")
        lines = [(name.plain, change.plain) for _, name, change in change_lines(house, menu, seats, wording)]
        for name, change in lines or [("nothing on any dish", "")]:
            yield from _wrapped(f"{name}{': ' if change else ''}{change}", columns, 4)


def _seat_lines(
    house: House,
    menu: str,
    request: GuestRequest,
    answered: AnsweredSeat,
    number: int,
    columns: int,
    wording: Wording,
) -> Iterator[Line]:
    seat = answered.seat
    places = [f"Table {request.table}"] if request.table else []
    if seat.places or len(request.seats) > 1:
        name = seat_name(seat, number, wording).plain
        places.append(f"{name[:1].lower()}{name[1:]}" if places else name)
    head = ". ".join([*([", ".join(places)] if places else []), asked_text(house, seat, wording).plain])
    yield Line(text="", action=head)
    for asked in seat.asked:
        taken = taken_as(house, asked, wording).plain
        if taken.casefold() != asked.word.casefold():
            yield from _wrapped(f"{asked.word}: taken as {taken}", columns, 6)
    writer = GuestWriter(house=house, wording=wording, seat=seat)
    told = {one.dish: writer.action(one).plain for one in answered.verdicts}
    pad = max(len(action) for action in told.values() if len(action) <= _WIDEST_ACTION)
    courses = {course.id: course_name(house, course).plain for course in house.menus[menu].courses}
    for course, verdicts in by_course(house, menu, answered.verdicts).items():
        yield Line(text=courses.get(course, "Other"))
        for verdict in verdicts:
            reason = writer.reason(verdict).plain
            name = dish_name(house, verdict.dish).plain
            yield from _dish_lines(told[verdict.dish], f"{name}{' - ' if reason else ''}{reason}", pad, columns)
    yield from (Line(text=part) for part in wrap(_count(answered.verdicts), columns))


def _dish_lines(action: str, text: str, pad: int, columns: int) -> Iterator[Line]:
    """Yield a dish: the action, then the rest beside it, or under it where the action is long."""
    indent = pad + 4
    rest = wrap(text.replace(NO_BREAK, " "), columns - indent)
    if len(action) > pad:
        for at, part in enumerate(wrap(action.replace(NO_BREAK, " "), columns - 2)):
            yield Line(text="", action=f"{'  ' if not at else '    '}{part}")
        yield from (Line(text=f"{' ' * indent}{part}") for part in rest)
        return
    yield Line(text=f"{' ' * (indent - 2 - len(action))}{rest[0]}", action=f"  {action}")
    yield from (Line(text=f"{' ' * indent}{part}") for part in rest[1:])


def _wrapped(text: str, columns: int, indent: int) -> Iterator[Line]:
    """Yield text two columns in, the lines after the first further in."""
    plain = text.replace(NO_BREAK, " ")
    yield from (Line(text=part) for part in wrap(plain, columns, initial_indent="  ", subsequent_indent=" " * indent))


def _count(verdicts: Sequence[DishVerdict]) -> str:
    """Return how many dishes there are of each verdict, so that none is missed."""
    counts = [
        (sum(one.action is Action.SERVE for one in verdicts), "to serve"),
        (sum(one.action in (Action.WITHOUT, Action.WITH) for one in verdicts), "changed"),
        (sum(one.action is Action.REFUSE for one in verdicts), "not to be served"),
        (sum(one.action is Action.CANNOT_SAY for one in verdicts), "cannot say"),
    ]
    told = ", ".join(f"{count} {word}" for count, word in counts if count)
    return f"{len(verdicts)} {'dish' if len(verdicts) == 1 else 'dishes'}: {told}. Drinks are not covered."
