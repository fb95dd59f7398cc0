"""``linebook why``: proves an answer, way by way, from a dish to what a label declares."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import click

from linebook.cli.options import IdType, date_option, find_house, menu_option, refuse_word, stop_on_faults, today
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.model.house import House


@click.command(short_help="Prove an answer: every way from a dish to a declaration.")
@click.argument("dish", metavar="DISH", type=IdType("dishes", "components"))
@click.argument("word", metavar="WORD")
@click.option("--house", help="The house folder. Default: specs/ here, or the folder you stand in.")
@menu_option
@date_option
@supply_options()
def command(dish: str, word: str, house: str | None, menu: str | None, day: date | None, supply: SupplyAsked) -> None:
    """Print every way by which WORD comes into DISH, or may: each step with its file and line.

    DISH is the id of a dish on the menu, or of a component. WORD is an allergen, a food or a diet, as for `guest`.
    Where nothing speaks against it, what was looked at is printed instead.
    """
    from linebook.cli.guest_seats import read_words
    from linebook.cli.night import choose_menu
    from linebook.cli.why_lines import proof_lines
    from linebook.pipeline import load_house

    folder, shown = find_house(house)
    loaded = load_house(folder, shown, ())
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = loaded.value
    _refuse_unknown(kitchen, dish)
    words = read_words(kitchen, [word])
    on = day or today()
    chosen = choose_menu(kitchen, menu, on)
    _refuse_elsewhere(kitchen, dish, chosen)
    kitchen = served_house(kitchen, supply, menu=chosen, day=on, folder=folder).house
    if dish not in kitchen.dishes and dish not in kitchen.components:
        raise click.UsageError(f"`{dish}` is not to be had without {', '.join(supply.without)}.")
    for number, asked in enumerate(words):
        click.echo("\n" * bool(number) + "\n".join(proof_lines(kitchen, chosen, dish, asked, on)))


def _refuse_unknown(house: House, dish: str) -> None:
    from linebook.source.nearest import nearest

    if dish not in house.dishes and dish not in house.components:
        refuse_word("dish or component", dish, nearest(dish, (*house.dishes, *house.components)), sorted(house.dishes))


def _refuse_elsewhere(house: House, dish: str, menu: str) -> None:
    """Stop at a dish of another menu: what it meets in the fryer is another menu's."""
    served = {id_ for id_, one in house.menus.items() if any(entry.dish == dish for entry in one.dishes)}
    if dish not in house.dishes or menu in served:
        return
    where = f" Ask with --menu {sorted(served)[0]}." if served else " No menu has it."
    raise click.UsageError(f"`{dish}` is not on the menu `{house.menus[menu].name}`.{where}")
