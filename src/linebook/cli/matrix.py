"""``linebook matrix``: prints the allergen matrix of a menu."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from linebook.cli.asked import Asked
from linebook.cli.options import date_option, find_house, menu_option, stop_on_faults, theme_option, today
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options


@click.command(short_help="Print the allergen matrix of a menu.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@date_option
@supply_options()
@print_options(half_sheet=False)
@theme_option
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The PDF. Default: output/allergen-matrix.pdf.",
)
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    day: date | None,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    output: Path | None,
) -> None:
    """Print the allergen matrix of the menu in force, for front of house, and beside it an index.

    The index leads from every allergen, substance and ingredient to the dishes that carry it.
    """
    from linebook.cli.bundle import say_bundle
    from linebook.cli.night import choose_menu, show_prints, write_prints
    from linebook.pipeline import build_matrix, load_house

    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    printing = asked.printing(kitchen)
    target = output or Path("output") / printing.file_name("allergen-matrix")
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    kitchen = served_house(kitchen, supply, menu=chosen, day=issued, folder=folder).house
    built = build_matrix(
        kitchen,
        menu=chosen,
        printing=printing,
        issued=issued,
        folder=folder,
        theme=theme or "",
        names=(target.name, _index_name(target.name)),
    )
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None:
        sys.exit(1)
    write_prints(built.value, target.parent)
    say_bundle(built.value, target.parent)
    if asked.opens:
        show_prints(target)


def _index_name(matrix: str) -> str:
    """Return the file name of the index beside a matrix: *allergen-index.pdf* beside *allergen-matrix.pdf*."""
    if "matrix" in matrix:
        return "index".join(matrix.rsplit("matrix", 1))
    stem, dot, ending = matrix.rpartition(".")
    return f"{stem or matrix}-index{dot}{ending if stem else ''}"
