"""``linebook batch``: sizes one component and prints its sheet for one night."""

from __future__ import annotations

import sys
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

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
    from linebook.compute.results import Batch
    from linebook.model.amounts import Amount
    from linebook.model.house import House


@click.command(short_help="Size one component for a night, an amount or a number of batches.")
@click.argument("component", type=IdType("components"))
@click.option("--house", help="The house folder. Default: specs/ here, or the folder you stand in.")
@click.option("--covers", type=CoversType(), help="Make what a night of this many covers needs.")
@click.option("--makes", help='Make this much, as "6 kg" or "48 pieces".')
@click.option("--times", help="Make this many of the spec's batch, as 2.5 or 1/2.")
@menu_option
@date_option
@print_options(half_sheet=True)
@theme_option
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The PDF. Default: output/batch-COMPONENT.pdf.")
def command(
    component: str,
    house: str | None,
    covers: int | None,
    makes: str | None,
    times: str | None,
    menu: str | None,
    day: date | None,
    asked: Asked,
    theme: str | None,
    output: Path | None,
) -> None:
    """Size COMPONENT for one night: a table here, and a one-night sheet as PDF with each load to weigh."""
    from linebook.cli.bundle import say_one
    from linebook.cli.night import choose_menu, show_prints, write_prints
    from linebook.pipeline import build_batch, load_house
    from linebook.source.nearest import nearest

    if sum(size is not None for size in (covers, makes, times)) != 1:
        raise click.UsageError("Say how much with one of --covers N, --makes AMOUNT or --times X.")
    folder, shown = find_house(house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    printing = asked.printing(kitchen)
    if component not in kitchen.components:
        refuse_word("component", component, nearest(component, kitchen.components), sorted(kitchen.components))
    issued = day or today()
    chosen = choose_menu(kitchen, menu, issued)
    batch = _size(kitchen, component, covers=covers, makes=makes, times=times, menu=chosen, day=issued)
    target = output or Path("output") / printing.file_name(f"batch-{component}")
    built = build_batch(
        kitchen,
        batch,
        menu=chosen,
        covers=covers or 0,
        day=issued,
        printing=printing,
        folder=folder,
        theme=theme or "",
        name=target.name,
    )
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None:
        sys.exit(1)
    _print_table(kitchen, batch)
    write_prints([built.value], target.parent)
    say_one(built.value, target.parent, punched=False)
    if asked.opens:
        show_prints(target)


def _size(
    house: House,
    component: str,
    *,
    covers: int | None,
    makes: str | None,
    times: str | None,
    menu: str,
    day: date,
) -> Batch:
    from linebook.compute.batches import compute_batch
    from linebook.compute.demand import compute_night
    from linebook.model.occasion import Occasion
    from linebook.source.faults import ValueMistake

    if covers is not None:
        night = compute_night(house, Occasion(menu=menu, covers=covers, date=day))
        if component not in night.batches:
            served = house.menus[menu].name
            raise click.UsageError(
                f"Nothing on the menu `{served}` needs `{component}`; size it with --makes or --times."
            )
        return night.batches[component]
    try:
        if makes is not None:
            return compute_batch(house, component, makes=_read_makes(house, makes))
        return compute_batch(house, component, times=_read_times(times or ""))
    except ValueMistake as mistake:
        hint = f" {mistake.hints[0]}" if mistake.hints else ""
        raise click.UsageError(f"{mistake.message}.{hint}") from None


def _read_makes(house: House, text: str) -> Amount:
    from linebook.model.quantities import parse_amount

    amount = parse_amount(text, house.file.measures)
    _refuse_odd(amount.number, text, "--makes")
    return amount


def _read_times(text: str) -> Fraction:
    from linebook.model.numbers import parse_number

    number = parse_number(text)
    _refuse_odd(number, text, "--times")
    return number


def _refuse_odd(number: Fraction, text: str, option: str) -> None:
    if number <= 0:
        raise click.UsageError(f"{option} `{text}` must be more than 0.")
    if number > 1_000_000:
        raise click.UsageError(f"{option} `{text}` is more than any kitchen makes.")


def _print_table(house: House, batch: Batch) -> None:
    """Print what the sheet prints, in columns; ``≈`` stands where rounding moved an amount."""
    from linebook.documents.braces import weighed_exactly
    from linebook.documents.ingredients import pieces_text, printed_total
    from linebook.documents.measures import Measures, typed_text
    from linebook.documents.text import NO_BREAK
    from linebook.documents.wording import english

    measures = Measures(house=house.file, wording=english())
    made = [typed_text(printed_total(batch, measures), measures.wording).plain]
    if batch.pieces is not None:
        made.append(pieces_text(batch, measures.wording).plain)
    several = batch.loads > 1
    load = f"\n{batch.loads} even loads of {measures.short(batch.load).plain}" if several else ""
    click.echo(f"{batch.component.name}: makes {', '.join(made)}{load}".replace(NO_BREAK, " "))
    rows: list[tuple[str, ...]] = [
        ("each load", "in all", "base batch", "") if several else ("weigh", "base batch", "")
    ]
    for line in batch.ingredients:
        item = line.ingredient.item
        printed = measures.line(line, batch.loads, exact=weighed_exactly(house, item))
        figures = (printed.load, printed.total, printed.base) if several else (printed.load, printed.base)
        shown = (
            f"{'≈ ' if figure and figure.moved else ''}{measures.measured(figure).exact_words}" for figure in figures
        )
        prep = f", {line.ingredient.prep}" if line.ingredient.prep else ""
        rows.append((*shown, f"{house.name_of(item)}{prep}"))
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]) - 1)]
    for number, row in enumerate(rows):
        cells = "  ".join(cell.rjust(width) for cell, width in zip(row, widths, strict=False))
        text = f"{cells}  {row[-1]}".rstrip().replace(NO_BREAK, " ")
        click.echo(click.style(text, bold=number == 0))
