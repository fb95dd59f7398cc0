"""``linebook count``: prints what each line counts at the end of a night, and the file it is typed back into."""

from __future__ import annotations

import re
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
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
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.markup.sheet import Sheet
    from linebook.model.house import House
    from linebook.source.faults import Outcome
    from linebook.workshop import Workshop


@click.command(short_help="Print what each line counts at the end of a night.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@click.option("--line", "lines", multiple=True, type=IdType(), help="Only this line; may be repeated.")
@menu_option
@date_option
@supply_options(on_hand=False)
@print_options(half_sheet=False)
@theme_option
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path("output"), help="Folder for the files.")
def command(
    house_folder: str | None,
    house: str | None,
    lines: tuple[str, ...],
    menu: str | None,
    day: date | None,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    output: Path,
) -> None:
    """Print one count sheet a line: what is left, made when, keep or bin.

    Beside each stands the file on-hand-LINE.yaml, which it is typed back into: --on-hand of other commands takes it off
    before anything is made. A file of that name with anything in it is left alone.
    """
    from linebook.card_fingerprints import find_card_fingerprints
    from linebook.cli.bundle import say_one
    from linebook.cli.night import choose_menu, show_prints, write_prints
    from linebook.documents.count_file import count_file
    from linebook.documents.count_sheet import DOCUMENT, count_sheet, things_counted
    from linebook.pipeline import build_prints, load_house

    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    wanted = wanted_lines(kitchen, lines)
    night = day or today()
    chosen = choose_menu(kitchen, menu, night)
    kitchen = served_house(kitchen, supply, menu=chosen, day=night, folder=folder).house
    wanted = [line for line in wanted if things_counted(kitchen, chosen, line)]
    if not wanted:
        served = kitchen.menus[chosen].name
        click.echo(f"No line asked for makes anything for the menu `{served}`, so there is nothing to count.", err=True)
        sys.exit(1)
    counted = {line: things_counted(kitchen, chosen, line) for line in wanted}
    makers = dict.fromkeys(one.maker.id for things in counted.values() for one in things)
    cards = find_card_fingerprints(_as_bound(folder, shown, supply, loaded.value, asked), chosen, makers, folder, night)
    printing = asked.printing(kitchen)
    name = printing.file_name(f"count-{night}")

    def make(workshop: Workshop) -> list[tuple[str, Outcome[tuple[Sheet, ...]]]]:
        views = [count_sheet(kitchen, line, chosen, night, cards, workshop.wording) for line in wanted]
        return [(name, workshop.sheets(DOCUMENT, views))]

    built = build_prints(kitchen, make, menu=chosen, issued=night, printing=printing, folder=folder, theme=theme or "")
    stop_on_faults((*loaded.faults, *built.faults))
    if not built.value:
        sys.exit(1)
    write_prints(built.value, output)
    say_one(built.value[0], output, punched=False)
    for line in wanted:
        file = f"on-hand-{line}.yaml"
        _write(output / file, count_file(kitchen, line, counted[line], cards, night, file))
    if asked.opens:
        show_prints(output / name)


def _as_bound(folder: Path, shown: str, supply: SupplyAsked, loaded: House, asked: Asked) -> House:
    """Return the house as its binders are printed tonight: in its own languages, whatever the sheet is in."""
    from linebook.compute.substitutes import without
    from linebook.pipeline import load_house

    own = load_house(folder, shown, ()).value if asked.languages else None
    return without(own or loaded, supply.without)


def _write(path: Path, text: str) -> None:
    """Write the file a count is typed back into, and say so; one with a count in it is left as it is."""
    from linebook.source.codes import fault
    from linebook.writing.atomic import write_file

    try:
        if path.is_file() and re.search(r"^ *-", path.read_text(encoding="utf-8", errors="replace"), re.MULTILINE):
            click.echo(f"{path}  holds a count and is left as it is")
            return
        write_file(path, text.encode("utf-8"))
    except OSError as mistake:
        hint = "close it where it is open, free some space, or choose another folder with -o"
        where = mistake.filename or path
        stop_on_faults([fault("LB901", f"`{where}` cannot be written: {mistake.strerror}", None, hints=(hint,))])
        sys.exit(1)
    click.echo(f"{path}  to type the count back into")
