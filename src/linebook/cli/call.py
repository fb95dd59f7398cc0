"""``linebook call``: says what starts how many minutes before the plates land, and prints it for the pass."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
    IdType,
    date_option,
    find_house,
    menu_option,
    refuse_word,
    stop_on_faults,
    theme_option,
    today,
)
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.compute.calling import Call
    from linebook.documents.call_sheet import CallSheet
    from linebook.documents.wording import Wording
    from linebook.model.house import House

MOST_PORTIONS: Final = 500
"""Of one dish in one call: more is a slip of the finger, or a function that is plated otherwise."""


@click.command(short_help="Print what starts how many minutes before the plates land.")
@click.argument("words", metavar="[HOUSE] [DISH[=N]]...", nargs=-1, type=IdType("dishes"))
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@click.option("--line", type=IdType(), help="Only what this line starts.")
@supply_options(on_hand=False)
@print_options(half_sheet=False)
@theme_option
@date_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="The PDF. Default: output/call-….pdf."
)
def command(
    words: tuple[str, ...],
    house: str | None,
    menu: str | None,
    line: str | None,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    day: date | None,
    output: Path | None,
) -> None:
    """Say who on which line starts what at minus how many minutes, so that a course lands at once.

    Without a dish: every dish of the menu, one portion of each. With dishes, as `short-rib-celeriac=2 hake-mussels=3`:
    all of them called together, in order of start.
    """
    from linebook.cli.night import choose_menu, print_one
    from linebook.compute.calling import compute_call
    from linebook.documents.call_sheet import DOCUMENT, menu_call_sheet, set_call_sheet
    from linebook.documents.wording import wording_in
    from linebook.pipeline import load_house
    from linebook.source.nearest import nearest

    given, dishes = _parted(words, house)
    folder, shown = find_house(given)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    lines = [one.id for one in kitchen.file.lines]
    if line is not None and line not in lines:
        refuse_word("line", line, nearest(line, lines), lines)
    called_on = day or today()
    chosen = choose_menu(kitchen, menu, called_on)
    kitchen = served_house(kitchen, supply, menu=chosen, day=called_on, folder=folder).house
    portions = _portions(kitchen, chosen, dishes)
    call = compute_call(kitchen, portions) if portions else None

    def view(wording: Wording) -> CallSheet:
        if call is None:
            return menu_call_sheet(kitchen, chosen, wording, line or "")
        return set_call_sheet(kitchen, chosen, call, wording, line or "")

    sheet = view(wording_in(kitchen.file.languages[:1]))
    if not sheet.groups:
        _nothing(kitchen, chosen, call, line)
    for told in _lines(sheet, max(60, min(shutil.get_terminal_size().columns, 110))):
        click.echo(told)
    stem = "call-set" if portions else "-".join(["call", *([line] if line else []), chosen])
    target = output or Path("output") / asked.printing(kitchen).file_name(stem)
    click.echo("")
    print_one(
        kitchen,
        lambda workshop: workshop.sheets(DOCUMENT, [view(workshop.wording)]),
        target,
        menu=chosen,
        issued=called_on,
        asked=asked,
        folder=folder,
        theme=theme,
        faults=loaded.faults,
        punched=not portions,
    )


def _parted(words: Sequence[str], house: str | None) -> tuple[str | None, Sequence[str]]:
    """Return the house folder, if one is given, and the dishes: a first word that is a folder is the house."""
    if house is None and words and "=" not in words[0] and Path(words[0]).is_dir():
        return words[0], words[1:]
    return house, words


def _portions(house: House, menu: str, words: Sequence[str]) -> dict[str, int]:
    """Return the portions asked for by dish; stops with 2 at what is no dish of the menu or no number."""
    from linebook.source.nearest import nearest

    served = [entry.dish for entry in house.menus[menu].dishes]
    found: dict[str, int] = {}
    for word in words:
        dish, equals, number = (part.strip() for part in word.partition("="))
        if dish not in house.dishes:
            names = {house.dishes[id_].name: id_ for id_ in served}
            near = nearest(dish, house.dishes) or names.get(dish) or names.get(nearest(dish, names) or "")
            refuse_word("dish", dish, near, served)
        if dish not in served:
            listed = house.menus[menu].name
            raise click.UsageError(f"`{dish}` is not on the menu `{listed}`: name the menu it is on with --menu.")
        if dish in found:
            raise click.UsageError(f"`{dish}` is named twice: say once how many, as `{dish}={found[dish] + 1}`.")
        found[dish] = _number(dish, number) if equals else 1
    return found


def _number(dish: str, text: str) -> int:
    short = text.isascii() and text.isdigit() and len(text) <= 12
    if not short or not 1 <= int(text) <= MOST_PORTIONS:
        raise click.UsageError(
            f"`{text}` is not a number of portions of `{dish}`: write a whole number from 1 to {MOST_PORTIONS}."
        )
    return int(text)


def _nothing(house: House, menu: str, call: Call | None, line: str | None) -> None:
    """Stop where nothing has a time, or the line asked for starts nothing."""
    what = f"of the menu `{house.menus[menu].name}`" if call is None else "called"
    if line and (call is None or call.goes):
        click.echo(f"The line `{line}` starts nothing for the dishes {what}.", err=True)
    else:
        click.echo(f"No dish {what} has a `call` or a `pick_up`, so nothing can be timed.", err=True)
    sys.exit(1)


def _lines(sheet: CallSheet, columns: int) -> Iterator[str]:
    """Yield what a call sheet says as a table: the minutes, the line, what starts."""
    from textwrap import wrap

    from linebook.documents.text import NO_BREAK, Text

    def plain(text: Text) -> str:
        return text.plain.replace(NO_BREAK, " ").replace("−", "-")

    rows = [row for group in sheet.groups for row in group.rows]
    time = max((len(plain(row.start)) for row in rows), default=0)
    name = max((len(plain(row.line)) for row in rows), default=0)
    indent = " " * (2 + time + 2 + name + 2)
    for group in sheet.groups:
        if group.title:
            yield plain(group.title)
        for row in group.rows:
            head = f"  {plain(row.start):>{time}}  {plain(row.line):{name}}  "
            yield from wrap(plain(row.what), columns, initial_indent=head, subsequent_indent=indent)
    for note in sheet.notes:
        yield from wrap(plain(note.text), columns)
