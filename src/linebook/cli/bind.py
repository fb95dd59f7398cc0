"""``linebook bind``: prints every line's binder and the allergen matrix."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linebook.cli.asked import Asked
from linebook.cli.binding import Binding
from linebook.cli.options import (
    CoversType,
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
from linebook.cli.progress import show_progress
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.model.house import House


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
@click.option(
    "--issue", "records", is_flag=True, help="Record it as issued, and print the swap sheet; asks for clean specs."
)
@click.option("--only-changed", is_flag=True, help="A PDF a line of just the sheets to put in since the last issue.")
@supply_options()
@print_options(half_sheet=True)
@theme_option
@date_option
@click.option("--no-cache", is_flag=True, help="Make it again even where nothing has changed; keep nothing.")
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path("output"), help="Folder for the PDFs.")
def command(
    house_folder: str | None,
    house: str | None,
    menu: str | None,
    covers: tuple[int, ...],
    lines: tuple[str, ...],
    records: bool,
    only_changed: bool,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    day: date | None,
    no_cache: bool,
    output: Path,
) -> None:
    """Print one binder a line, and the allergen matrix, from the house folder HOUSE.

    With --half-sheet it prints cards of the dishes for each line's ticket rail instead.

    HOUSE is the folder with house.yaml; by default specs/ here, or the folder you stand in. What was printed before is
    replaced only when all of it is ready.
    """
    from linebook.cli.bundle import bundle_lines
    from linebook.cli.keeping import Keeping
    from linebook.cli.night import choose_menu, note_no_service, show_prints, write_prints

    if records or only_changed:
        from linebook.cli.issue import refuse_at_odds

        refuse_at_odds(asked, covers, supply)
    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house_folder or house)
    issued = day or today()
    told: dict[str, Any] = {"issued": issued, "folder": folder, "theme": theme or ""}
    tells_more = records or only_changed or supply.without or supply.on_hand or (day and covers)
    keeping = Keeping(shown, output, "" if day else issued.isoformat(), chosen=bool(house_folder or house))
    reads_there = not (records or only_changed or asked.half_sheet)
    binding = Binding(
        asked, menu=menu, covers=covers, lines=lines, shown=shown, output=output, reads_there=reads_there, **told
    )
    keeping.begin(wanted=not (no_cache or tells_more or asked.opens))
    if not keeping.has_record:  # there is no print to start from, so the other process begins at once; but after
        binding.get_ready()  # the look, or it could read a card older than the record of the print says
    kept = None if asked.half_sheet else keeping.open_store()
    opened = binding.open(kept)
    is_plain = not (tells_more or asked.half_sheet or (folder / "issued").is_dir())
    loaded = opened.check(binding.begin(opened) if is_plain else {})
    if loaded.value is None:
        binding.end()
        show_progress("")
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    wanted = wanted_lines(kitchen, lines)
    chosen = choose_menu(kitchen, menu, issued)
    if day is not None and covers:
        note_no_service(kitchen, day)
    plain = kitchen
    kitchen = served_house(plain, supply, menu=chosen, day=issued, folder=folder).house
    if records or only_changed:
        from linebook.cli.issue import run_issue

        run_issue(
            kitchen,
            asked,
            binding.get_ready(),
            loaded.faults,
            menu=chosen,
            lines=wanted,
            shown=shown,
            output=output,
            records=records,
            only_changed=only_changed,
            **told,
        )
        return
    built = binding.finish(kitchen, opened, chosen, wanted, as_read=kitchen is plain)
    show_progress("")
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None or not built.value.files:
        _refuse_nothing(kitchen, chosen)
        return
    files = built.value.files
    said = bundle_lines(files, output)
    record = keeping.record(files, said)
    write_prints(files, output, last=record)
    if record:
        binding.keep(opened)
    for line in said:
        click.echo(line)
    if asked.opens:
        show_prints(output / files[0].name if len(files) == 1 else output)


def _refuse_nothing(kitchen: House, menu: str) -> None:
    served = kitchen.menus[menu].name
    click.echo(f"No line asked for has a dish on the menu `{served}`, so there are no cards to print.", err=True)
    sys.exit(1)
