"""``linebook bind``: prints every line's binder and the allergen matrix."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linebook.cli.faults import show_progress
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
from linebook.cli.print_options import Asked, print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.halves import Ahead
    from linebook.model.house import House
    from linebook.pipeline import OpenHouse
    from linebook.source.faults import Outcome
    from linebook.templating.templates import Templates
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
    from linebook.halves import Ahead
    from linebook.ready import get_ready

    if records or only_changed:
        from linebook.cli.issue import refuse_at_odds

        refuse_at_odds(asked, covers, supply)
    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house_folder or house)
    ahead = Ahead(partial(get_ready, folder, theme or ""))
    click.get_current_context().call_on_close(ahead.end)
    issued = day or today()
    tells_more = records or only_changed or supply.without or supply.on_hand or (day and covers)
    keeping = Keeping(shown, output, "" if day else issued.isoformat(), chosen=bool(house_folder or house))
    keeping.begin(wanted=not (no_cache or tells_more or asked.opens))
    from linebook.pipeline import find_answers, open_house  # here, where the copy gets ready at the same time

    opened = open_house(folder, shown, asked.languages)
    begun = False
    if not (tells_more or asked.half_sheet or (folder / "issued").is_dir()):
        begun = _begin(
            opened, asked, ahead, menu=menu, covers=covers, lines=lines, issued=issued, folder=folder, theme=theme or ""
        )
    loaded = opened.check()
    if loaded.value is None:
        ahead.end()
        show_progress("")
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    wanted = wanted_lines(kitchen, lines)
    chosen = choose_menu(kitchen, menu, issued)
    if day is not None and covers:
        note_no_service(kitchen, day)
    kitchen = served_house(kitchen, supply, menu=chosen, day=issued, folder=folder).house
    if records or only_changed:
        from linebook.cli.issue import run_issue

        run_issue(
            kitchen,
            asked,
            ahead,
            loaded.faults,
            menu=chosen,
            lines=wanted,
            issued=issued,
            folder=folder,
            shown=shown,
            output=output,
            theme=theme or "",
            records=records,
            only_changed=only_changed,
        )
        return
    if begun:
        built = ahead.finish(partial(find_answers, kitchen, chosen, issued))
    else:
        built = _build(
            kitchen,
            asked,
            ahead,
            menu=chosen,
            covers=covers,
            lines=wanted,
            issued=issued,
            folder=folder,
            shown=shown,
            theme=theme or "",
        )
    show_progress("")
    stop_on_faults((*loaded.faults, *built.faults))
    if not built.value:
        _refuse_nothing(kitchen, chosen)
        return
    said = bundle_lines(built.value, output)
    write_prints(built.value, output, last=keeping.record(built.value, said))
    for line in said:
        click.echo(line)
    if asked.opens:
        show_prints(output / built.value[0].name if len(built.value) == 1 else output)


def _begin(
    opened: OpenHouse,
    asked: Asked,
    ahead: Ahead[Templates],
    *,
    menu: str | None,
    covers: tuple[int, ...],
    lines: Sequence[str],
    issued: date,
    folder: Path,
    theme: str,
) -> bool:
    """Send the copy a house whose rules are still to be looked at, where they alone can refuse it; say whether."""
    from linebook.pipeline import find_menu

    if opened.unchecked is None:
        return False
    kitchen = asked.house(opened.unchecked)
    known = {line.id for line in kitchen.file.lines}
    chosen = find_menu(kitchen, issued) if menu is None else menu
    if chosen is None or chosen not in kitchen.menus or kitchen.menus[chosen].on_hand or not known.issuperset(lines):
        return False
    wanted = wanted_lines(kitchen, lines)
    build, named = _binders(kitchen, asked, menu=chosen, covers=covers, lines=wanted, issued=issued, folder=folder)
    ahead.begin(build, kitchen, **named, theme=theme)
    return True


def _binders(
    kitchen: House, asked: Asked, *, covers: tuple[int, ...], **more: Any
) -> tuple[Callable[..., Outcome[tuple[PdfFile, ...]]], dict[str, Any]]:
    """Return what draws the binders, and all it is told beside the house."""
    from linebook.pipeline import build_binders

    nights = tuple(dict.fromkeys(covers or kitchen.file.nights))
    return build_binders, {"nights": nights, "printing": asked.printing(kitchen), "progress": show_progress, **more}


def _build(
    kitchen: House,
    asked: Asked,
    ahead: Ahead[Templates],
    *,
    menu: str,
    covers: tuple[int, ...],
    lines: Sequence[str],
    issued: date,
    folder: Path,
    shown: str,
    theme: str,
) -> Outcome[tuple[PdfFile, ...]]:
    """Draw the binders and the matrix, or the cards for the rail."""
    from linebook.cli.register import first_days_or_none
    from linebook.pipeline import find_answers

    told: dict[str, Any] = {"menu": menu, "lines": lines, "issued": issued, "folder": folder, "theme": theme}
    if asked.half_sheet:
        if covers:
            raise click.UsageError("--covers sizes batch cards, and --half-sheet prints none: leave one of them out.")
        from linebook.pipeline import build_rail_cards

        return build_rail_cards(kitchen, printing=asked.printing(kitchen), progress=show_progress, **told)
    build, named = _binders(kitchen, asked, covers=covers, **told)
    answer = partial(find_answers, kitchen, menu, issued)
    return ahead.run(build, kitchen, **named, first_issued=first_days_or_none(folder, shown), answer=answer)


def _refuse_nothing(kitchen: House, menu: str) -> None:
    served = kitchen.menus[menu].name
    click.echo(f"No line asked for has a dish on the menu `{served}`, so there are no cards to print.", err=True)
    sys.exit(1)
