"""``linebook swap``: what to pull from the binders, put in and leave, against what was issued before."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linebook.cli.asked import Asked
from linebook.cli.options import DateType, date_option, find_house, menu_option, stop_on_faults, theme_option, today
from linebook.cli.print_options import print_options
from linebook.cli.progress import show_progress
from linebook.cli.supply_refused import refused_option

if TYPE_CHECKING:
    from linebook.model.house import House
    from linebook.model.supply import StockEntry

_LAST = "last"


class SinceType(DateType):
    """A date, or the word ``last``."""

    def get_metavar(self, param: click.Parameter, ctx: click.Context) -> str:
        return "DATE|last"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        return date.max if str(value).strip().lower() == _LAST else super().convert(value, param, ctx)


@click.command(short_help="Print what to pull from the binders, put in and leave.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@click.option(
    "--since",
    type=SinceType(),
    default=_LAST,
    show_default=True,
    help="Compare with what stood in the binders on this day, or with the last issue.",
)
@menu_option
@date_option
@print_options(half_sheet=False)
@theme_option
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path("output"), help="Folder for the PDF.")
@click.option(
    "--on-hand",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="What is left, from a count sheet: what to finish of it, and by when, where it is no longer made.",
)
@refused_option(
    "--without",
    "it compares with what was issued, and a night without an item is not issued; `bind --without` prints one",
)
def command(
    house_folder: str | None,
    house: str | None,
    since: date,
    menu: str | None,
    day: date | None,
    asked: Asked,
    theme: str | None,
    output: Path,
    on_hand: Path | None,
) -> None:
    """Print the swap sheet: the binders as they would be bound now, against those that were issued.

    It records nothing: `linebook bind --issue` prints the same sheet and records the issue.
    """
    from linebook.cli.bundle import say_one
    from linebook.cli.night import choose_menu, show_prints, write_prints
    from linebook.cli.register import open_register, say_swaps, since_words
    from linebook.compute.issued import binders_on
    from linebook.copies import Ahead
    from linebook.pipeline import find_answers
    from linebook.ready import get_ready
    from linebook.swap_prints import build_issue

    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house_folder or house)
    ahead = Ahead(partial(get_ready, folder, theme or ""))
    click.get_current_context().call_on_close(ahead.end)
    from linebook.pipeline import load_house

    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    left = _read_on_hand(on_hand, kitchen) if on_hand is not None else None
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    compared = min(since, issued)
    register = open_register(folder, shown, compared)
    before = binders_on(register, compared)
    if not before:
        refuse_nothing_issued(register.issues[0].day if register.issues else None, compared)
    built = ahead.run(
        build_issue,
        kitchen,
        answer=partial(find_answers, kitchen, chosen, issued),
        menu=chosen,
        nights=kitchen.file.nights,
        lines=[line.id for line in kitchen.file.lines],
        printing=replace(asked, large=False).printing(kitchen),
        swap_printing=asked.printing(kitchen),
        issued=issued,
        folder=folder,
        shown=shown,
        register=register,
        since=compared,
        only_changed=False,
        progress=show_progress,
        theme=theme or "",
        on_hand=left,
    )
    show_progress("")
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None or built.value.swap is None:
        sys.exit(1)
    write_prints([built.value.swap], output)
    click.echo(f"Leaves, against {since_words(before)}:")
    say_swaps(kitchen, built.value.swaps)
    say_one(built.value.swap, output, punched=False)
    if asked.opens:
        show_prints(output / built.value.swap.name)


def _read_on_hand(path: Path, kitchen: House) -> tuple[StockEntry, ...]:
    """Return what was counted; stops with 1 where the file cannot be read."""
    from linebook.check.stock_entries import open_on_hand

    read = open_on_hand(path, str(path), kitchen)
    stop_on_faults(read.faults)
    return read.value or ()


def refuse_nothing_issued(first: date | None, day: date) -> None:
    """Stop with 1, because nothing was issued by a day; ``first`` is the first issue's day."""
    from linebook.source.codes import fault

    hint = "issue it first with: linebook bind --issue"
    if first is not None:
        hint = f"name a day from {first} on, the first that anything was issued for"
    message = "nothing was ever issued in this house" if first is None else f"nothing was issued by {day}"
    stop_on_faults([fault("LB905", message, None, hints=(hint,))])
