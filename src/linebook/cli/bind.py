"""``linebook bind``: prints every line's binder and the allergen matrix."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.faults import show_progress
from linebook.cli.options import (
    CoversType,
    IdType,
    date_option,
    find_house,
    menu_option,
    refuse_word,
    stop_on_faults,
    theme_option,
    today,
)
from linebook.cli.print_options import Asked, print_options

if TYPE_CHECKING:
    from linebook.model.house import House
    from linebook.source.faults import Outcome
    from linebook.workshop import PdfFile


@click.command(short_help="Print every line's binder and the allergen matrix.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@click.option(
    "--covers",
    type=CoversType(),
    multiple=True,
    help="Print batch cards for this night instead of the house's usual nights; may be repeated.",
)
@click.option("--line", "lines", multiple=True, type=IdType(), help="Only this line's binder; may be repeated.")
@print_options(half_sheet=True)
@theme_option
@date_option
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path("output"), help="Folder for the PDFs.")
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    covers: tuple[int, ...],
    lines: tuple[str, ...],
    asked: Asked,
    theme: str | None,
    day: date | None,
    output: Path,
) -> None:
    """Print one binder a line, and the allergen matrix, from the house folder HOUSE.

    With --half-sheet it prints cards of the dishes for each line's ticket rail instead.

    HOUSE is the folder with house.yaml; by default specs/ here, or the folder you stand in. What was printed before is
    replaced only when all of it is ready.
    """
    from linebook.cli.bundle import say_bundle
    from linebook.cli.night import choose_menu, show_prints, write_prints
    from linebook.pipeline import load_house
    from linebook.source.nearest import nearest

    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    known = [line.id for line in kitchen.file.lines]
    for line in lines:
        if line not in known:
            refuse_word("line", line, nearest(line, known), known)
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    wanted = [line for line in known if not lines or line in lines]
    built = _build(
        kitchen, asked, menu=chosen, covers=covers, lines=wanted, issued=issued, folder=folder, theme=theme or ""
    )
    show_progress("")
    stop_on_faults((*loaded.faults, *built.faults))
    if not built.value:
        _refuse_nothing(kitchen, chosen)
        return
    write_prints(built.value, output)
    say_bundle(built.value, output)
    if asked.opens:
        show_prints(output / built.value[0].name if len(built.value) == 1 else output)


def _build(
    kitchen: House,
    asked: Asked,
    *,
    menu: str,
    covers: tuple[int, ...],
    lines: Sequence[str],
    issued: date,
    folder: Path,
    theme: str,
) -> Outcome[tuple[PdfFile, ...]]:
    """Draw the binders and the matrix, or the cards for the rail."""
    from linebook.pipeline import build_binders, build_rail_cards

    if asked.half_sheet:
        if covers:
            raise click.UsageError("--covers sizes batch cards, and --half-sheet prints none: leave one of them out.")
        return build_rail_cards(
            kitchen,
            menu=menu,
            lines=lines,
            printing=asked.printing(kitchen),
            issued=issued,
            folder=folder,
            theme=theme,
            progress=show_progress,
        )
    return build_binders(
        kitchen,
        menu=menu,
        nights=tuple(dict.fromkeys(covers or kitchen.file.nights)),
        lines=lines,
        printing=asked.printing(kitchen),
        issued=issued,
        folder=folder,
        theme=theme,
        progress=show_progress,
    )


def _refuse_nothing(kitchen: House, menu: str) -> None:
    served = kitchen.menus[menu].name
    click.echo(f"No line asked for has a dish on the menu `{served}`, so there are no cards to print.", err=True)
    sys.exit(1)
