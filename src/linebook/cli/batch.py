"""``linebook batch``: sizes one component and prints its sheet for one night."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linebook.cli.asked import Asked
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
from linebook.cli.print_options import print_options
from linebook.cli.sizes import SizeAsked, size_batch
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.compute.results import Night, Sized
    from linebook.model.house import House
    from linebook.model.occasion import Occasion
    from linebook.source.faults import Outcome
    from linebook.workshop import PdfFile


@click.command(short_help="Size one component for a night, an amount, or what you have.")
@click.argument("component", type=IdType("components"))
@click.option("--house", help="The house folder. Default: specs/ here, or the folder you stand in.")
@click.option("--covers", type=CoversType(), help="Make what a night of this many covers needs, less what is on hand.")
@click.option("--makes", help='Make this much, as "6 kg" or "48 pieces".')
@click.option("--pieces", help="Make this many pieces.")
@click.option("--portions", help="Make this many portions, of the menu's size or of --portion.")
@click.option("--portion", help='With --portions: how large one is, as "230 g".')
@click.option("--times", help="Make this many of the spec's batch, as 2.5 or 1/2.")
@click.option(
    "--have",
    multiple=True,
    help='Make what this is enough for, as "9.3 kg trout". May be given for several ingredients.',
)
@supply_options()
@menu_option
@date_option
@print_options(half_sheet=True)
@theme_option
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The PDF. Default: output/batch-COMPONENT.pdf.",
)
def command(
    component: str,
    house: str | None,
    supply: SupplyAsked,
    menu: str | None,
    day: date | None,
    asked: Asked,
    theme: str | None,
    output: Path | None,
    **size: Any,
) -> None:
    """Size COMPONENT: a table here, and a one-night sheet as PDF with each load to weigh."""
    from linebook.cli.batch_table import print_batch
    from linebook.cli.night import choose_menu, note_no_service
    from linebook.model.occasion import Occasion
    from linebook.pipeline import load_house

    wanted = SizeAsked(**size)
    wanted.refuse_at_odds(on_hand=supply.on_hand is not None)
    folder, shown = find_house(house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    _refuse_unknown(kitchen, component)
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    if day is not None and wanted.covers is not None:
        note_no_service(kitchen, day)
    served = served_house(kitchen, supply, menu=chosen, day=issued, folder=folder)
    kitchen = served.house
    if component not in kitchen.components:
        raise click.UsageError(f"`{component}` is not to be had without {', '.join(supply.without)}.")
    occasion = Occasion(menu=chosen, covers=wanted.covers or 0, date=issued, on_hand=served.on_hand)
    sized, night = size_batch(kitchen, component, wanted, occasion)
    target = output or Path("output") / asked.printing(kitchen).file_name(f"batch-{component}")
    built = _draw(kitchen, sized, night, occasion, asked, folder, target.name, theme or "")
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None:
        sys.exit(1)
    print_batch(kitchen, sized, night, issued)
    _finish(built.value, target, asked)


def _refuse_unknown(house: House, component: str) -> None:
    from linebook.source.nearest import nearest

    if component not in house.components:
        refuse_word("component", component, nearest(component, house.components), sorted(house.components))


def _finish(file: PdfFile, target: Path, asked: Asked) -> None:
    from linebook.cli.bundle import say_one
    from linebook.cli.night import show_prints, write_prints

    write_prints([file], target.parent)
    say_one(file, target.parent, punched=False)
    if asked.opens:
        show_prints(target)


def _draw(
    house: House,
    sized: Sized,
    night: Night | None,
    occasion: Occasion,
    asked: Asked,
    folder: Path,
    name: str,
    theme: str,
) -> Outcome[PdfFile]:
    from linebook.pipeline import build_batch

    return build_batch(
        house,
        sized.batch,
        menu=occasion.menu,
        covers=occasion.covers,
        day=occasion.date or today(),
        printing=asked.printing(house),
        folder=folder,
        theme=theme,
        name=name,
        night=night,
        sized=sized if night is None else None,
    )
