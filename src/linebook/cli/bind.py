"""``linebook bind``: prints every line's binder and the allergen matrix."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from linebook.cli.faults import show_progress
from linebook.cli.options import (
    CoversType,
    IdType,
    date_option,
    find_house,
    menu_option,
    paper_option,
    refuse_word,
    stop_on_faults,
    today,
)


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
@paper_option
@date_option
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path("output"), help="Folder for the PDFs.")
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    covers: tuple[int, ...],
    lines: tuple[str, ...],
    paper: str | None,
    day: date | None,
    output: Path,
) -> None:
    """Print one binder a line, and the allergen matrix, from the house folder HOUSE.

    HOUSE is the folder with house.yaml; by default specs/ here, or the folder you stand in. What was printed before is
    replaced only when all of it is ready.
    """
    from linebook.cli.night import choose_menu, write_prints
    from linebook.pipeline import build_binders, load_house
    from linebook.source.nearest import nearest

    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = loaded.value
    known = [line.id for line in kitchen.file.lines]
    for line in lines:
        if line not in known:
            refuse_word("line", line, nearest(line, known), known)
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    nights = covers or kitchen.file.nights
    built = build_binders(
        kitchen,
        menu=chosen,
        nights=tuple(dict.fromkeys(nights)),
        lines=tuple(line for line in known if not lines or line in lines),
        paper=(paper or kitchen.file.paper).lower(),
        issued=issued,
        folder=folder,
        progress=show_progress,
    )
    show_progress("")
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None:
        sys.exit(1)
    write_prints(built.value, output)
