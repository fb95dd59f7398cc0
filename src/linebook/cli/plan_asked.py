"""What ``plan`` and ``labels`` are asked alike: the days, what is otherwise in them, and the plan of that."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import wraps
from typing import TYPE_CHECKING, Any, Final

import click

from linebook.cli.options import CoversForType, DateType, refuse_word, stop_on_faults
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.plan_results import PrepPlan
    from linebook.model.house import House
    from linebook.model.supply import StockEntry

MOST_DAYS: Final = 366
"""A year at once; a sheet a line and day is then a book of its own."""

_YEARS: Final = (1950, 2500)
"""Years a plan may begin in: what is outside is a slip of the hand, and may lie past the last day a date can be."""


@frozen
class PlanAsked:
    """For how many days it is planned, and what is otherwise in them than the specs say."""

    days: int
    covers: tuple[tuple[str, int], ...] = ()
    closed: tuple[date, ...] = ()
    arrives: tuple[tuple[str, date], ...] = ()


class ArrivesType(click.ParamType[tuple[str, date]]):
    """An item and the day it comes, as ``rock-oyster=2027-03-06``."""

    name = "item=date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, date]:
        if isinstance(value, tuple):
            return value
        item, equals, day = str(value).partition("=")
        if not equals or not item:
            self.fail(
                f"`{value}` does not say what comes when: write ITEM=DATE, like rock-oyster=2027-03-06.", param, ctx
            )
        return item.strip(), DateType().convert(day.strip(), param, ctx)


_OPTIONS: Final = (
    click.option("--days", type=click.IntRange(1, MOST_DAYS), default=7, show_default=True, help="For so many days."),
    click.option(
        "--covers",
        type=CoversForType(),
        multiple=True,
        help="Covers of every service, of a weekday or of a date; may be repeated. Default: what the menu expects.",
    ),
    click.option("--closed", multiple=True, type=DateType(), help="A day that is closed for once; may be repeated."),
    click.option(
        "--arrives",
        multiple=True,
        type=ArrivesType(),
        help="A bought item that comes late, and the day it comes: ITEM=DATE. May be repeated.",
    ),
)


def plan_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options of a plan, gathered into one argument ``planned``."""

    @wraps(command)
    def gathered(
        *,
        days: int,
        covers: tuple[tuple[str, int], ...],
        closed: tuple[date, ...],
        arrives: tuple[tuple[str, date], ...],
        **given: Any,
    ) -> None:
        command(planned=PlanAsked(days=days, covers=covers, closed=closed, arrives=arrives), **given)

    for option in reversed(_OPTIONS):
        gathered = option(gathered)
    return gathered


def with_closed(house: House, asked: PlanAsked) -> House:
    """Return the house with single days closed for once."""
    service = house.file.service
    if not asked.closed:
        return house
    if service is None:
        raise click.UsageError("--closed needs a service week in house.yaml: `service: {days: [...]}`.")
    return replace(house, file=replace(house.file, service=replace(service, closed=(*service.closed, *asked.closed))))


def make_plan(house: House, first: date, asked: PlanAsked, on_hand: Sequence[StockEntry]) -> PrepPlan:
    """Return the plan; stops where there is no service to plan for, or nothing arrives of that name."""
    from linebook.cli.order import read_covers
    from linebook.compute.prep_plan import compute_plan, days_ahead
    from linebook.compute.services import find_services, later_services

    if not _YEARS[0] <= first.year <= _YEARS[1]:
        raise click.UsageError(f"`{first}` is no year to plan in: write one from {_YEARS[0]} to {_YEARS[1]}.")
    _stop_without_hours(house)
    arrives = _arrivals(house, asked.arrives)
    covers = read_covers(asked.covers)
    found = find_services(house, first, asked.days, covers)
    stop_on_faults(found.faults)
    if found.value is None or not found.value.days:
        raise click.UsageError("Nobody is expected in these days: say how many with --covers N.")
    last = first + timedelta(days=asked.days - 1)
    ahead = last + timedelta(days=days_ahead(house))
    later = later_services(house, last + timedelta(days=1), ahead, covers)
    return compute_plan(house, found.value.days, later, first=first, last=last, on_hand=on_hand, arrives=arrives)


def _stop_without_hours(house: House) -> None:
    """Stop where nobody has said when somebody is in the building: no start of any plan could be relied on."""
    from linebook.source.codes import fault

    service = house.file.service
    if service is not None and service.staffed_from is not None and service.staffed_to is not None:
        return
    stop_on_faults(
        [
            fault(
                "LB107",
                "a plan needs the hours in which somebody is in the building, and house.yaml does not give them",
                service.at("days") if service is not None else None,
                hints=("add `staffed: 09:00 to 23:30` to `service:` in house.yaml, with your own hours",),
            )
        ]
    )


def _arrivals(house: House, arrives: Sequence[tuple[str, date]]) -> dict[str, date]:
    from linebook.source.nearest import nearest

    for item, _ in arrives:
        if item not in house.pantry:
            refuse_word("bought item", item, nearest(item, house.pantry), ())
    return dict(arrives)
