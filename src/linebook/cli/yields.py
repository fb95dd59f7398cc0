"""``linebook yields``: what of the bought items can be used, what that costs, and what to buy. For the chef alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import click

from linebook.cli.options import IdType, find_house, refuse_word, stop_on_faults
from linebook.cli.supply_refused import no_supply
from linebook.source.faults import ValueMistake

if TYPE_CHECKING:
    from linebook.model.amounts import Amount
    from linebook.model.house import House
    from linebook.model.pantry import PantryItem

MOST_PORTIONS: Final = 1_000_000


@click.command(short_help="Show what of the bought items can be used, tested or declared.")
@click.argument("item", metavar="[ITEM]", required=False, type=IdType("pantry"))
@click.option("--house", help="The house folder. Default: specs/ here, or the folder you stand in.")
@click.option("--need", help='What to buy for this much usable, as "6 kg".')
@click.option("--bought", help='What is usable of this much bought, as "10 lb".')
@click.option("--portion", help='What one portion is, as "150 g": how many there are, and what one costs.')
@click.option("--portions", type=click.IntRange(1, MOST_PORTIONS), help="What to buy for this many portions.")
@no_supply("it tells of each bought item by itself; ask for the one that stands in by its own id")
def command(
    item: str | None,
    house: str | None,
    need: str | None,
    bought: str | None,
    portion: str | None,
    portions: int | None,
) -> None:
    """Print the yields of all bought items, or all that is known of ITEM: its yield tests, what they cost, what to buy.

    Prices stand here and in `cost` only, on no sheet.
    """
    from linebook.cli.yield_lines import Asked, answer_lines, item_lines, table_lines
    from linebook.pipeline import load_house

    _refuse_apart(item, need=need, bought=bought, portion=portion, portions=portions)
    folder, shown = find_house(house)
    loaded = load_house(folder, shown, ())
    stop_on_faults(loaded.faults)
    if loaded.value is None:
        return
    kitchen = loaded.value
    if item is None:
        click.echo("\n".join(table_lines(kitchen)))
        return
    found = _find(kitchen, item)
    asked = Asked(
        need=_amount(kitchen, need),
        bought=_amount(kitchen, bought),
        portion=_amount(kitchen, portion),
        portions=portions,
    )
    try:
        answers = answer_lines(kitchen, found, asked)
    except ValueMistake as mistake:
        raise _usage(mistake) from None
    click.echo("\n".join((*item_lines(kitchen, found), *answers)))


def _refuse_apart(
    item: str | None, *, need: str | None, bought: str | None, portion: str | None, portions: int | None
) -> None:
    asks = any(one is not None for one in (need, bought, portion, portions))
    if item is None and asks:
        raise click.UsageError("Say of which item: linebook yields ITEM, with the id of a pantry item.")
    if portions is not None and portion is None:
        raise click.UsageError('Say what one portion is, as --portion "150 g".')
    if portions is not None and need is not None:
        raise click.UsageError("Say what is needed with one of --need AMOUNT or --portions N.")


def _find(house: House, item: str) -> PantryItem:
    from linebook.source.nearest import nearest

    if item in house.components or item in house.by_products:
        raise click.UsageError(f"`{item}` is made here; yields are those of bought items.")
    if item not in house.pantry:
        tested = sorted(one.id for one in house.pantry.values() if one.yield_tests)
        refuse_word("pantry item", item, nearest(item, house.pantry), tested)
    return house.pantry[item]


def _amount(house: House, text: str | None) -> Amount | None:
    from linebook.model.quantities import parse_amount

    if text is None:
        return None
    try:
        return parse_amount(text, house.file.measures)
    except ValueMistake as mistake:
        raise _usage(mistake) from None


def _usage(mistake: ValueMistake) -> click.UsageError:
    hint = f" {mistake.hints[0][0].upper()}{mistake.hints[0][1:]}" if mistake.hints else ""
    hint += "." if hint and not hint.endswith("?") else ""
    return click.UsageError(f"{mistake.message}.{hint}")
