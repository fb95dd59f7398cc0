"""``linebook cost``: what plates, portions and batches cost, for the chef; it draws no sheet."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from linebook.cli.options import (
    IdType,
    date_option,
    find_house,
    menu_option,
    refuse_word,
    stop_on_faults,
    today,
)
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.model.house import House


@click.command(short_help="Tell the chef what a plate, a portion or a batch costs.")
@click.argument("item", metavar="[DISH|COMPONENT]", required=False, type=IdType("dishes", "components"))
@click.option("--house", help="The house folder. Default: specs/ here, or the folder you stand in.")
@menu_option
@supply_options(on_hand=False)
@date_option
@click.option("--csv", "table", type=click.Path(path_type=Path), help="Write the same as a table into this file.")
def command(
    item: str | None,
    house: str | None,
    menu: str | None,
    supply: SupplyAsked,
    day: date | None,
    table: Path | None,
) -> None:
    """Say what each plate of the menu costs and its share of the price; or what one DISH or COMPONENT is made up of.

    By the prices and yields of the pantry as they are written: tax is not considered. Only here, never on a
    sheet.
    """
    from linebook.cli.cost_lines import batch_table, dish_table, menu_table, say_table, written
    from linebook.cli.night import choose_menu
    from linebook.compute.cost import Costs
    from linebook.pipeline import load_house

    folder, shown = find_house(house)
    loaded = load_house(folder, shown, ())
    stop_on_faults(loaded.faults)
    if loaded.value is None:
        return
    issued = day or today()
    chosen = choose_menu(loaded.value, menu, issued) if item is None else None
    kitchen = served_house(loaded.value, supply, menu=chosen, day=issued, folder=folder).house
    if item is not None and item not in kitchen.dishes and item not in kitchen.components:
        _refuse(kitchen, item)
    costs = Costs(kitchen)
    if item is None or chosen is not None:
        found = menu_table(kitchen, costs, chosen or "")
    elif item in kitchen.dishes:
        found = dish_table(kitchen, costs, item)
    else:
        found = batch_table(kitchen, costs, item)
    say_table(kitchen, found)
    if table is not None:
        _write(table, written(found))
        click.echo(f"{table}  the same as a table")


def _refuse(house: House, item: str) -> NoReturn:
    """Stop for what is no dish or component: with 1 where it is one on other days."""
    from linebook.source.nearest import nearest

    if house.tonight is not None and item in {**house.tonight.before.dishes, **house.tonight.before.components}:
        click.echo(f"`{item}` cannot be had: nothing stands in for what is missing, so it has no cost.", err=True)
        sys.exit(1)
    if item in house.pantry or item in house.by_products:
        kind = "bought" if item in house.pantry else "a by-product"
        raise click.UsageError(f"`{item}` is {kind}: name a dish or a component, or nothing for the whole menu.")
    known = sorted({*house.dishes, *house.components})
    refuse_word("dish or component", item, nearest(item, known), ())


def _write(path: Path, text: str) -> None:
    """Write the table; stops where it cannot be."""
    from linebook.source.codes import fault
    from linebook.writing.atomic import write_files

    try:
        write_files([(path, text.encode("utf-8"))])
    except OSError as mistake:
        hint = "close it where it is open, free some space, or choose another file with --csv"
        stop_on_faults([fault("LB901", f"`{path}` cannot be written: {mistake.strerror}", None, hints=(hint,))])
