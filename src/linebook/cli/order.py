"""``linebook order``: what to order for the services of some days, as a sheet and as a table."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
    CoversForType,
    DateType,
    find_house,
    stop_on_faults,
    theme_option,
    today,
)
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.compute.order import Order
    from linebook.compute.services import CoversAsked, Services
    from linebook.model.house import House
    from linebook.workshop import PdfFile

MOST_DAYS: Final = 92
"""A quarter of a year: nobody orders further ahead."""

_YEARS: Final = (1950, 2500)


@click.command(short_help="Print what to order for some days, by supplier and delivery.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@click.option("--from", "first", type=DateType(), required=True, help="The first day to order for, as 2027-03-02.")
@click.option(
    "--days", type=click.IntRange(1, MOST_DAYS), required=True, help="For so many days, closed days among them."
)
@click.option(
    "--covers",
    type=CoversForType(),
    multiple=True,
    help="Covers of every service, of a weekday or of a date; may be repeated. Default: what the menu expects.",
)
@supply_options()
@click.option(
    "--date",
    "day",
    type=DateType(),
    help="The day it is ordered from: nothing comes before its lead time. Default: today.",
)
@print_options(half_sheet=False)
@theme_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="The PDF. Default: output/order-DATE.pdf."
)
def command(
    house_folder: str | None,
    house: str | None,
    first: date,
    days: int,
    covers: tuple[tuple[str, int], ...],
    supply: SupplyAsked,
    day: date | None,
    asked: Asked,
    theme: str | None,
    output: Path | None,
) -> None:
    """Print the order sheet for N days of services, and the same as a table for other programs (CSV) beside it.

    Amounts are as purchased, less what is on hand, in whole packs, for each delivery of each supplier.
    """
    from linebook.cli.bundle import say_one
    from linebook.cli.night import show_prints
    from linebook.cli.order_lines import say_order
    from linebook.compute.order import compute_order
    from linebook.compute.services import find_services
    from linebook.documents.order_table import order_table
    from linebook.pipeline import load_house

    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    _refuse_odd_years(first, day)
    last = first + timedelta(days=days - 1)
    if day is not None and day > last:
        raise click.UsageError(f"--date `{day}` is after the last of these days, {last}: nothing can come in time.")
    wanted_covers = read_covers(covers)
    served = served_house(asked.house(loaded.value), supply, menu=None, day=first, folder=folder, days=days)
    kitchen = served.house
    found = find_services(kitchen, first, days, wanted_covers)
    stop_on_faults((*loaded.faults, *found.faults))
    services = _some(found.value, first, last)
    order = compute_order(
        kitchen,
        services,
        first=first,
        last=last,
        written=day or _written(services, first),
        on_hand=served.on_hand,
        asked=wanted_covers,
    )
    printing = asked.printing(kitchen)
    target = output or Path("output") / printing.file_name(f"order-{first.isoformat()}")
    drawn = _draw(kitchen, order, asked, folder=folder, theme=theme or "", name=target.name)
    table = target.with_suffix(".csv")
    _write(target, drawn, table, order_table(kitchen, order))
    say_order(kitchen, order)
    click.echo("")
    say_one(drawn, target.parent, punched=False)
    click.echo(f"{table}  the same as a table")
    if asked.opens:
        show_prints(target)


def read_covers(given: Sequence[tuple[str, int]]) -> CoversAsked:
    """Return the covers asked for; stops with 2 where a day is given twice."""
    from linebook.compute.services import WEEKDAYS, CoversAsked

    days = [day for day, _ in given]
    twice = next((day for day in days if days.count(day) > 1), None)
    if twice is not None:
        told = f"for `{twice}`" if twice else "for every service"
        raise click.UsageError(f"--covers is given twice {told}.")
    said = dict(given)
    return CoversAsked(
        every=said.get(""),
        weekdays={day: covers for day, covers in given if day in WEEKDAYS},
        dates={date.fromisoformat(day): covers for day, covers in given if day and day not in WEEKDAYS},
    )


def _refuse_odd_years(first: date, day: date | None) -> None:
    for option, given in (("--from", first), ("--date", day)):
        if given is not None and not _YEARS[0] <= given.year <= _YEARS[1]:
            raise click.UsageError(
                f"{option} `{given}` is no year to order in: write one from {_YEARS[0]} to {_YEARS[1]}."
            )


def _written(services: Services, first: date) -> date:
    """Return the day it is ordered from: today, and for days that are all over the first of them."""
    now = today()
    return now if now <= services.days[-1].day else first


def _some(services: Services | None, first: date, last: date) -> Services:
    if services is None:
        sys.exit(1)
    if not services.days:
        raise click.UsageError(f"Nobody is expected from {first} to {last}: say how many with --covers N.")
    return services


def _draw(house: House, order: Order, asked: Asked, *, folder: Path, theme: str, name: str) -> PdfFile:
    """Return the PDF of the sheet; stops where it cannot be drawn."""
    from linebook.pipeline import build_prints
    from linebook.service_sheets import order_sheets

    built = build_prints(
        house,
        lambda workshop: [(name, order_sheets(workshop, order))],
        menu=order.services[0].menu,
        issued=order.first,
        printing=asked.printing(house),
        folder=folder,
        theme=theme,
    )
    stop_on_faults(built.faults)
    if not built.value:
        sys.exit(1)
    return built.value[0]


def _write(target: Path, drawn: PdfFile, table: Path, text: str) -> None:
    """Write the sheet and the table, both or neither; stops where that cannot be."""
    from linebook.source.codes import fault
    from linebook.writing.atomic import write_files

    try:
        write_files([(target, drawn.content), (table, text.encode("utf-8"))])
    except OSError as mistake:
        where = mistake.filename or target.parent
        hint = "close it where it is open, free some space, or choose another folder with -o"
        stop_on_faults([fault("LB901", f"`{where}` cannot be written: {mistake.strerror}", None, hints=(hint,))])
