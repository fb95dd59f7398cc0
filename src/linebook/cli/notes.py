"""``linebook notes``: prints the chef's copy of the tasting notes of a menu, with room to write."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
    DateType,
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
from linebook.cli.supply_refused import no_supply


@click.command(short_help="Print the chef's copy of the tasting notes, with room to write.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@click.option("--line", "lines", multiple=True, type=IdType(), help="Only this line; may be repeated.")
@click.option("--since", type=DateType(), help="Only the notes from this day on.")
@no_supply("it prints what was tasted, whatever there is tonight")
@print_options(half_sheet=False)
@theme_option
@date_option
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The PDF. Default: output/tasting-notes.pdf.",
)
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    lines: tuple[str, ...],
    since: date | None,
    asked: Asked,
    theme: str | None,
    day: date | None,
    output: Path | None,
) -> None:
    """Print the tasting notes of each dish and component of a menu, newest first, a sheet or more a line.

    It is the chef's copy and goes into no binder. What is written on it is put in with `linebook note`.
    """
    from linebook.check.tastings import tastings_ahead
    from linebook.cli.night import choose_menu, print_one
    from linebook.documents.binder_order import components_of_line, dishes_of_line
    from linebook.documents.tasting_notes import DOCUMENT, tasting_notes
    from linebook.pipeline import load_house

    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    wanted = wanted_lines(kitchen, lines)
    printed = day or today()
    chosen = choose_menu(kitchen, menu, printed)
    cards = {
        line: [
            *dishes_of_line(kitchen, chosen, line),
            *map(kitchen.components.get, components_of_line(kitchen, chosen, line)),
        ]
        for line in wanted
    }
    ahead = [found for line in cards for found in tastings_ahead(filter(None, cards[line]), printed)]
    print_one(
        kitchen,
        lambda workshop: workshop.sheets(
            DOCUMENT,
            [
                tasting_notes(kitchen, chosen, line, workshop.wording, since or date.min)
                for line, held in cards.items()
                if held
            ],
        ),
        output or Path("output") / asked.printing(kitchen).file_name("tasting-notes"),
        menu=chosen,
        issued=printed,
        asked=asked,
        folder=folder,
        theme=theme,
        faults=(*loaded.faults, *ahead),
    )
