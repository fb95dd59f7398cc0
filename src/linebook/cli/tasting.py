"""``linebook tasting``: prints the sheet of the tasting before one service."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from linebook.cli.asked import Asked
from linebook.cli.options import date_option, find_house, menu_option, stop_on_faults, theme_option, today
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options


@click.command(short_help="Print the sheet of the tasting before service.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@supply_options(on_hand=False)
@print_options(half_sheet=False)
@theme_option
@date_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="The PDF. Default: output/tasting-DATE.pdf."
)
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    day: date | None,
    output: Path | None,
) -> None:
    """Print the tasting sheet of a menu: a row a dish, what it must taste of, and room to write.

    What a dish must taste of is the section `Taste for` of its card and of those it is plated from.
    """
    from linebook.cli.night import choose_menu, note_no_service, print_one
    from linebook.pipeline import load_house
    from linebook.service_sheets import tasting_sheets

    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    served_on = day or today()
    chosen = choose_menu(kitchen, menu, served_on)
    note_no_service(kitchen, served_on)
    kitchen = served_house(kitchen, supply, menu=chosen, day=served_on, folder=folder).house
    target = output or Path("output") / asked.printing(kitchen).file_name(f"tasting-{served_on}")
    print_one(
        kitchen,
        lambda workshop: tasting_sheets(workshop, served_on),
        target,
        menu=chosen,
        issued=served_on,
        asked=asked,
        folder=folder,
        theme=theme,
        faults=loaded.faults,
    )
