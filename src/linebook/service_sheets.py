"""The sheets that are no part of a binder, each by a house's workshop: for one service, for a week, for a screen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from linebook.source.faults import Outcome
from linebook.workshop import alone, together

if TYPE_CHECKING:
    from linebook.compute.order import Order
    from linebook.compute.plan_record import Change
    from linebook.compute.plan_results import PrepPlan
    from linebook.compute.results import AllergenTable, Night
    from linebook.compute.services import ServiceDay
    from linebook.documents.guest_request import AnsweredSeat, GuestRequest
    from linebook.markup.sheet import Sheet
    from linebook.workshop import Workshop


def set_up_sheets(workshop: Workshop, lines: Sequence[str], nights: Sequence[Night]) -> Outcome[tuple[Sheet, ...]]:
    """Return the set-up sheet of each line."""
    return together([workshop.set_up_page(line, nights) for line in lines])


def plan_sheets(
    workshop: Workshop, plan: PrepPlan, line: str, changes: Sequence[Change] = ()
) -> Outcome[tuple[Sheet, ...]]:
    """Return a line's week at a glance, then for each day with work its prep plan and its pull list."""
    from linebook.documents import prep_week

    workshop = _for_menus(workshop, plan.services)
    made: list[Outcome[Sheet]] = []
    for days in prep_week.weeks_of(plan):
        week = prep_week.prep_week(workshop.house, plan, line, days, workshop.wording)
        if week is not None:
            made.append(workshop.sheet(prep_week.DOCUMENT, week[0], week[1]))
        for day in days:
            made += _day_sheets(workshop, plan, line, day, changes)
    return together(made)


def _for_menus(workshop: Workshop, services: Sequence[ServiceDay]) -> Workshop:
    """Return the workshop whose notices tell of the dishes of all menus that are served on some days."""
    if workshop.notices is None:
        return workshop
    from linebook.documents.tonight_notice import notice_writer

    menus = [service.menu for service in services]
    return replace(workshop, notices=notice_writer(workshop.house, workshop.menu, workshop.wording, *menus))


def _day_sheets(
    workshop: Workshop, plan: PrepPlan, line: str, day: date, changes: Sequence[Change]
) -> Iterator[Outcome[Sheet]]:
    """Yield the prep plan and the pull list of a line for a day, where it has work."""
    from linebook.documents import prep_day, pull_list

    if line not in prep_day.lines_with_work(workshop.house, plan, day, changes):
        return
    sheet = prep_day.prep_day(workshop.house, plan, line, day, workshop.wording, changes)
    yield workshop.sheet(prep_day.DOCUMENT, sheet)
    pulls = pull_list.pull_list(workshop.house, plan, line, day, workshop.wording)
    if pulls.groups:
        yield workshop.sheet(pull_list.DOCUMENT, pulls)


def guest_sheet(workshop: Workshop, request: GuestRequest, seats: Sequence[AnsweredSeat]) -> Outcome[tuple[Sheet, ...]]:
    """Return the guest sheet of a table for the day of issue."""
    from linebook.documents.guest_sheet import DOCUMENT, guest_sheet

    view = guest_sheet(workshop.house, workshop.menu, request, seats, workshop.issued, workshop.wording)
    return alone(workshop.sheet(DOCUMENT, view))


def order_sheets(workshop: Workshop, order: Order) -> Outcome[tuple[Sheet, ...]]:
    """Return the sheet of an order."""
    from linebook.documents.order_sheet import DOCUMENT, order_sheet

    workshop = _for_menus(workshop, order.services)
    return alone(workshop.sheet(DOCUMENT, order_sheet(workshop.house, order, workshop.wording)))


def screen_sheets(
    workshop: Workshop,
    lines: Sequence[str],
    table: AllergenTable,
    nights: Sequence[Night],
    also: AllergenTable | None = None,
) -> Outcome[tuple[Sheet, ...]]:
    """Return the sheets of a house on a screen: its index, the matrix, then each line's binder."""
    from linebook.documents.screen_index import DOCUMENT, screen_index

    index = alone(workshop.sheet(DOCUMENT, screen_index(workshop.house, workshop.menu, lines, workshop.wording)))
    made = [
        index,
        workshop.matrix_sheet(table, also),
        *(workshop.binder_sheets(line, table, nights, also) for line in lines),
    ]
    faults = tuple(dict.fromkeys(one for outcome in made for one in outcome.faults))
    sheets = tuple(sheet for outcome in made for sheet in outcome.value or ())
    return Outcome(value=None if faults else sheets, faults=faults)


def tasting_sheets(workshop: Workshop, day: date) -> Outcome[tuple[Sheet, ...]]:
    """Return the tasting sheet of the menu for a day's service."""
    from linebook.documents.tasting_sheet import DOCUMENT, tasting_sheet

    return alone(workshop.sheet(DOCUMENT, tasting_sheet(workshop.house, workshop.menu, day, workshop.wording)))


def rail_cards(workshop: Workshop, line: str, table: AllergenTable) -> Outcome[tuple[Sheet, ...]]:
    """Return the station cards of a line's dishes, in the order of its binder."""
    from linebook.documents.binder_order import BinderEntry, dishes_of_line
    from linebook.documents.station_card import DOCUMENT

    dishes = dishes_of_line(workshop.house, workshop.menu, line)
    entries = [BinderEntry(document=DOCUMENT, subject=dish.id) for dish in dishes]
    return together([workshop.entry_sheet(entry, table, ()) for entry in entries])
