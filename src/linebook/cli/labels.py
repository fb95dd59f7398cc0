"""``linebook labels``: prints a label for each container of what is made on a day, on a sheet of labels."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.asked import Asked
from linebook.cli.options import (
    DateType,
    IdType,
    date_option,
    find_house,
    stop_on_faults,
    theme_option,
    today,
    wanted_lines,
)
from linebook.cli.plan_asked import PlanAsked, plan_options
from linebook.cli.print_options import LANGUAGES_OPTION
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.model.house import House


@click.command(short_help="Print labels for the containers of what is made on a day.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@date_option
@click.option(
    "--from", "first", type=DateType(), help="The first day of the plan, as `plan` was told. Default: the day."
)
@click.option("--line", "lines", multiple=True, type=IdType(), help="Only this line's labels; may be repeated.")
@click.option(
    "--start", type=click.IntRange(min=1), default=1, show_default=True, help="Begin at this label of a used sheet."
)
@plan_options
@supply_options()
@LANGUAGES_OPTION
@theme_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="The PDF. Default: output/labels-DATE.pdf."
)
def command(
    house_folder: str | None,
    house: str | None,
    day: date | None,
    first: date | None,
    lines: tuple[str, ...],
    start: int,
    planned: PlanAsked,
    supply: SupplyAsked,
    languages: tuple[str, ...] | None,
    theme: str | None,
    output: Path | None,
) -> None:
    """Print a label for each container of what the plan has ready on a day.

    Name, use-by, when it is made, what it contains and may contain, line and a place for initials. The sheet of labels
    is `labels` in house.yaml: its measurements.
    """
    from linebook.cli.night import write_prints
    from linebook.cli.plan_asked import make_plan, with_closed
    from linebook.label_prints import build_labels
    from linebook.model.label_sheets import labels_of
    from linebook.pipeline import find_menu, load_house

    made_on = day or today()
    begin = first or made_on
    folder, shown = find_house(house_folder or house)
    asked = Asked(languages=languages or ())
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    printed = asked.house(loaded.value)
    served = served_house(printed, supply, menu=find_menu(printed, made_on), day=made_on, folder=folder)
    kitchen = with_closed(served.house, planned)
    wanted = wanted_lines(kitchen, lines)
    stop_on_faults(loaded.faults)
    _stop_where_left_out(kitchen, made_on, begin)
    plan = make_plan(kitchen, begin, planned, served.on_hand)
    if made_on > plan.last:
        raise click.UsageError(f"The plan from {begin} ends on {plan.last}: give it more --days, or a later --from.")
    sheet = labels_of(kitchen.file)
    if start > sheet.columns * sheet.rows:
        raise click.UsageError(f"--start {start} is no label of your sheet: it has {sheet.columns * sheet.rows}.")
    target = output or Path("output") / f"labels-{made_on}.pdf"
    built = build_labels(
        kitchen, plan, made_on, lines=wanted, start=start, folder=folder, name=target.name, theme=theme or ""
    )
    stop_on_faults(built.faults)
    if built.value is None:
        click.echo("Nothing is ready on that day on the lines asked for, so there is nothing to label.", err=True)
        sys.exit(1)
    file, count, measures = built.value.file, built.value.labels, built.value.measures
    write_prints([file], target.parent)
    pages = f"{file.pages} {'sheet' if file.pages == 1 else 'sheets'}"
    click.echo(f"{target}  {count} {'label' if count == 1 else 'labels'}, {pages}, {measures}")
    click.echo("Print at 100 %, do not fit to page; measure the line of 50 mm on the first sheet before you stick one.")


def _stop_where_left_out(house: House, made_on: date, begin: date) -> None:
    """Stop where a plan that begins later leaves out what is made on a day for a service before it."""
    from datetime import timedelta

    from linebook.compute.services import is_service_day

    before = (made_on + timedelta(days=at) for at in range((begin - made_on).days))
    service = next((day for day in before if is_service_day(house, day)), None)
    if service is not None:
        raise click.UsageError(
            f"--from {begin} is after {made_on}: that plan leaves out what is made then for the service of {service}."
        )
