"""``linebook matrix``: prints the allergen matrix of a menu."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from linebook.cli.options import date_option, find_house, menu_option, paper_option, stop_on_faults, today


@click.command(short_help="Print the allergen matrix of a menu.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@date_option
@paper_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path), default=Path("output/allergen-matrix.pdf"), help="The PDF."
)
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    day: date | None,
    paper: str | None,
    output: Path,
) -> None:
    """Print the allergen matrix of the menu in force, for front of house."""
    from linebook.cli.night import choose_menu, write_prints
    from linebook.pipeline import build_matrix, load_house

    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = loaded.value
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    built = build_matrix(
        kitchen,
        menu=chosen,
        paper=(paper or kitchen.file.paper).lower(),
        issued=issued,
        folder=folder,
        name=output.name,
    )
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None:
        sys.exit(1)
    write_prints([built.value], output.parent)
