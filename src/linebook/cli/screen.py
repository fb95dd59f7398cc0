"""``linebook screen``: makes a folder of pages to be read on a phone, a tablet or any other screen."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
    CoversType,
    IdType,
    date_option,
    find_house,
    menu_option,
    stop_on_faults,
    today,
    wanted_lines,
)
from linebook.cli.print_options import LanguagesType
from linebook.cli.progress import show_progress
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.model.house import House
    from linebook.screen.folder import ScreenFile

LIST_NAME: Final = "linebook-files.txt"
"""The list of what a run made, by which the next knows what it may take away."""

_MOST_NAMED: Final = 5


@click.command(short_help="Make pages for a phone or a tablet: cards, plates and the matrix.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@menu_option
@date_option
@click.option(
    "--covers",
    type=CoversType(),
    multiple=True,
    help="Show batch cards for this night instead of the house's usual nights; may be repeated.",
)
@click.option("--line", "lines", multiple=True, type=IdType(), help="Only this line's sheets; may be repeated.")
@supply_options()
@click.option("--languages", type=LanguagesType(), help="en, es, or both as en,es: the first is the main one.")
@click.option("--open", "opens", is_flag=True, help="Show what was made, in this system's browser.")
@click.option(
    "-o", "--output", type=click.Path(path_type=Path), default=Path("output/screen"), help="Folder for the pages."
)
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    day: date | None,
    covers: tuple[int, ...],
    lines: tuple[str, ...],
    supply: SupplyAsked,
    languages: tuple[str, ...] | None,
    opens: bool,
    output: Path,
) -> None:
    """Make one folder of pages from the house folder HOUSE: an index, the allergen matrix, each card and plate.

    The pages need no network and no other program than a browser. The folder is replaced only when all of it is
    ready; a folder with anything else in it is left alone.
    """
    from linebook.cli.night import choose_menu, show_prints
    from linebook.pipeline import build_screen, load_house

    _refuse_others(output)
    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, languages or ())
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = Asked(languages=languages or ()).house(loaded.value)
    wanted = wanted_lines(kitchen, lines)
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    kitchen = served_house(kitchen, supply, menu=chosen, day=issued, folder=folder).house
    built = build_screen(
        kitchen,
        menu=chosen,
        nights=tuple(dict.fromkeys(covers or kitchen.file.nights)),
        lines=wanted,
        issued=issued,
        folder=folder,
        progress=show_progress,
    )
    show_progress("")
    stop_on_faults((*loaded.faults, *built.faults))
    if not built.value:
        served = kitchen.menus[chosen].name
        click.echo(f"No line asked for has a dish on the menu `{served}`, so there are no pages to make.", err=True)
        sys.exit(1)
    _write(built.value, output)
    _say_made(built.value, output, kitchen)
    if opens:
        show_prints(output / built.value[0].name)


def _refuse_others(output: Path) -> None:
    """Stop with 2 where the folder holds what no earlier run made, or what was changed since."""
    from linebook.writing.folders import find_others

    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    try:
        others = find_others(output, LIST_NAME)
    except OSError as mistake:
        _cannot_write(mistake, output)
        return
    if others:
        more = f" and {len(others) - _MOST_NAMED} more" if len(others) > _MOST_NAMED else ""
        raise click.UsageError(
            f"`{output}` holds what linebook did not make, or what was changed since: "
            f"{', '.join(others[:_MOST_NAMED])}{more}. Move that away, or choose another folder with -o."
        )


def _write(files: Sequence[ScreenFile], output: Path) -> None:
    from linebook.writing.folders import replace_folder

    try:
        replace_folder(output, [(file.name, file.content) for file in files], LIST_NAME)
    except OSError as mistake:
        _cannot_write(mistake, output)


def _cannot_write(mistake: OSError, output: Path) -> None:
    from linebook.source.codes import fault

    not_written = fault(
        "LB901",
        f"`{mistake.filename or output}` cannot be written: {mistake.strerror}",
        None,
        hints=("close it where it is open, free some space, or choose another folder with -o",),
    )
    stop_on_faults([not_written])


def _say_made(files: Sequence[ScreenFile], output: Path, kitchen: House) -> None:
    pages = "1 page" if len(files) == 1 else f"{len(files)} pages"
    click.echo(f"{output}  {pages} to read on a screen")
    click.echo("")
    click.echo(f"Open     {output / files[0].name} first, in any browser")
    click.echo("Copy     the whole folder to a phone or a tablet: it needs no network")
    if kitchen.prints_translations:
        from linebook.documents.untranslated import untranslated_sentences

        for sentence in untranslated_sentences(kitchen):
            click.echo(f"Missing  {sentence}")
