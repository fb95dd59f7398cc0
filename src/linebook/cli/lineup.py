"""``linebook lineup``: prints what servers are told of every dish before the doors open."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from linebook.cli.asked import Asked
from linebook.cli.options import date_option, find_house, menu_option, stop_on_faults, theme_option, today
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options


@click.command(short_help="Print what servers are told of every dish before the doors open.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@supply_options()
@print_options(half_sheet=False)
@theme_option
@date_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="The PDF. Default: output/line-up-DATE.pdf."
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
    """Print the servers' line-up sheet: each dish in plain words, how it is laid, minutes from call, allergens.

    The allergens are a headline: for a guest who asks, use `linebook guest`.
    """
    from linebook.cli.night import choose_menu, note_no_service, print_one
    from linebook.compute.allergens import compute_allergens
    from linebook.documents.line_up_sheet import DOCUMENT, line_up_sheet
    from linebook.pipeline import load_house

    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    service = day or today()
    asked_for = asked.house(loaded.value)
    chosen = choose_menu(asked_for, menu, service)
    note_no_service(asked_for, service)
    kitchen = served_house(asked_for, supply, menu=chosen, day=service, folder=folder).house
    table = compute_allergens(kitchen, chosen, on=service)
    target = output or Path("output") / asked.printing(kitchen).file_name(f"line-up-{service}")
    print_one(
        kitchen,
        lambda workshop: workshop.sheets(DOCUMENT, [line_up_sheet(kitchen, chosen, table, service, workshop.wording)]),
        target,
        menu=chosen,
        issued=service,
        asked=asked,
        folder=folder,
        theme=theme,
        faults=loaded.faults,
    )
