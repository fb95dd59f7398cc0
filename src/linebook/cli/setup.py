"""``linebook setup``: prints which pans each line sets up for one night, on the line and behind it."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
    CoversType,
    IdType,
    date_option,
    find_house,
    menu_option,
    stop_on_faults,
    theme_option,
    today,
    wanted_lines,
)
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.model.house import House


@click.command(short_help="Print which pans each line sets up for a night.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@click.option("--covers", type=CoversType(), help="For this many. Default: what the menu expects on that weekday.")
@click.option("--line", "lines", multiple=True, type=IdType(), help="Only this line; may be repeated.")
@supply_options(on_hand=False)
@print_options(half_sheet=False)
@theme_option
@date_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="The PDF. Default: output/set-up-DATE.pdf."
)
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    covers: int | None,
    lines: tuple[str, ...],
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    day: date | None,
    output: Path | None,
) -> None:
    """Print a set-up sheet for each line: pans on the line and behind, and the plates, for one night.

    Every binder has the same sheet for the house's usual nights.
    """
    from linebook.cli.night import choose_menu, note_no_service, print_one
    from linebook.compute.demand import compute_night
    from linebook.documents.binder_order import dishes_of_line
    from linebook.model.occasion import Occasion
    from linebook.pipeline import load_house
    from linebook.service_sheets import set_up_sheets

    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    wanted = wanted_lines(kitchen, lines)
    night_of = day or today()
    chosen = choose_menu(kitchen, menu, night_of)
    expected = covers or _expected(kitchen, chosen, night_of)
    if day is not None and covers:
        note_no_service(kitchen, day)
    kitchen = served_house(kitchen, supply, menu=chosen, day=night_of, folder=folder).house
    wanted = [line for line in wanted if dishes_of_line(kitchen, chosen, line)]
    if not wanted:
        served = kitchen.menus[chosen].name
        click.echo(f"No line asked for has a dish on the menu `{served}`, so there is nothing to set up.", err=True)
        sys.exit(1)
    night = compute_night(kitchen, Occasion(menu=chosen, covers=expected, date=night_of))
    target = output or Path("output") / asked.printing(kitchen).file_name(f"set-up-{night_of}")
    print_one(
        kitchen,
        lambda workshop: set_up_sheets(workshop, wanted, [night]),
        target,
        menu=chosen,
        issued=night_of,
        asked=asked,
        folder=folder,
        theme=theme,
        faults=loaded.faults,
    )


def _expected(house: House, menu: str, day: date) -> int:
    """Return the covers the menu expects on a day; stops where it does not say, or where there is no service."""
    from linebook.compute.services import is_service_day, say_day
    from linebook.read.menu_fields import WEEKDAYS

    expected = house.menus[menu].covers.get(WEEKDAYS[day.weekday()])
    if not expected or not is_service_day(house, day):
        raise click.UsageError(
            f"The menu `{house.menus[menu].name}` expects nobody on {say_day(day)}: say how many with --covers N, "
            "or another day with --date."
        )
    return expected
