"""``linebook plan``: when everything starts for the services of some days, a sheet a line and day."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.asked import Asked
from linebook.cli.options import DateType, IdType, find_house, stop_on_faults, theme_option, wanted_lines
from linebook.cli.plan_asked import PlanAsked, make_plan, plan_options, with_closed
from linebook.cli.plan_saved import read_saved, saved_text
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from linebook.compute.plan_record import Change
    from linebook.compute.plan_results import PrepPlan
    from linebook.markup.sheet import Sheet
    from linebook.model.house import House
    from linebook.pdf.printing import Printing
    from linebook.source.faults import Outcome
    from linebook.workshop import PdfFile, Workshop


@click.command(short_help="Print what to start when, so that it is ready for its service.")
@click.argument("house_folder", metavar="[HOUSE]", required=False)
@click.option("--house", help="The house folder, another way to name it.")
@click.option("--from", "first", type=DateType(), required=True, help="The first day of the plan, as 2027-03-02.")
@click.option("--line", "lines", multiple=True, type=IdType(), help="Only this line's sheets; may be repeated.")
@plan_options
@click.option(
    "--since",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="A plan saved before, plan-DATE.json: what has changed since is marked.",
)
@supply_options()
@print_options(half_sheet=False)
@theme_option
@click.option("-o", "--output", type=click.Path(path_type=Path), default=Path("output"), help="Folder for the files.")
def command(
    house_folder: str | None,
    house: str | None,
    first: date,
    lines: tuple[str, ...],
    planned: PlanAsked,
    since: Path | None,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    output: Path,
) -> None:
    """Plan the preparation for N days: the latest start of every stage that every limit allows.

    For each line a PDF: its week at a glance, then for each day what to start by when, what to take from the stores
    and the knife work. Beside them the plan as a calendar (iCalendar), and saved for --since.
    """
    from linebook.cli.bundle import say_bundle
    from linebook.cli.night import show_prints
    from linebook.cli.plan_lines import say_changes, say_plan
    from linebook.compute.plan_record import plan_changes, record_of
    from linebook.pipeline import load_house

    if output.exists() and not output.is_dir():
        raise click.UsageError(f"`{output}` is a file; -o takes a folder.")
    folder, shown = find_house(house_folder or house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    plain = asked.house(loaded.value)
    served = served_house(plain, supply, menu=None, day=first, folder=folder, days=planned.days)
    kitchen = with_closed(served.house, planned)
    wanted = wanted_lines(kitchen, lines)
    stop_on_faults(loaded.faults)
    saved = read_saved(since) if since is not None else None
    plan = make_plan(kitchen, first, planned, served.on_hand)
    changes = plan_changes(saved, record_of(plan)) if saved is not None else ()
    drawn = _draw(kitchen, plan, wanted, asked, changes, folder=folder, theme=theme or "")
    if not drawn:
        click.echo("None of the lines asked for has anything to prepare in these days.", err=True)
        sys.exit(1)
    _write(kitchen, plan, wanted, drawn, output)
    say_plan(kitchen, plan, wanted)
    if saved is not None:
        say_changes(kitchen, changes, wanted)
    _say_old(asked.printing(kitchen), plan, wanted, drawn, output)
    click.echo("")
    say_bundle(drawn, output, for_days=True)
    click.echo(f"{output / _calendar_name(plan)}  the plan as a calendar")
    click.echo(f"{output / _saved_name(plan)}  the plan, for --since")
    if asked.opens:
        show_prints(output / drawn[0].name if len(drawn) == 1 else output)


def _draw(
    house: House,
    plan: PrepPlan,
    lines: Sequence[str],
    asked: Asked,
    changes: Sequence[Change],
    *,
    folder: Path,
    theme: str,
) -> tuple[PdfFile, ...]:
    """Return the PDF of each line that has something to do; stops where one cannot be drawn."""
    from linebook.documents.plan_words import days_of
    from linebook.documents.prep_day import lines_with_work
    from linebook.pipeline import build_prints
    from linebook.service_sheets import plan_sheets

    printing = asked.printing(house)
    busy = {line for day in days_of(plan) for line in lines_with_work(house, plan, day, changes)}

    def make(workshop: Workshop) -> list[tuple[str, Outcome[tuple[Sheet, ...]]]]:
        return [
            (printing.file_name(f"plan-{line}-{plan.first}"), plan_sheets(workshop, plan, line, changes))
            for line in lines
            if line in busy
        ]

    built = build_prints(
        house,
        make,
        menu=plan.services[0].menu,
        issued=plan.first,
        printing=printing,
        folder=folder,
        theme=theme,
    )
    stop_on_faults(built.faults)
    return built.value or ()


def _write(house: House, plan: PrepPlan, lines: Sequence[str], drawn: Sequence[PdfFile], folder: Path) -> None:
    """Write the sheets, the calendar and the plan as saved, all or none; stops where one cannot be written."""
    from linebook.documents.plan_calendar import plan_calendar
    from linebook.documents.wording import wording_in
    from linebook.source.codes import fault
    from linebook.writing.atomic import write_files

    calendar = plan_calendar(house, plan, lines, wording_in(house.file.languages), plan.first)
    files = [(folder / file.name, file.content) for file in drawn]
    try:
        write_files(
            [
                *files,
                (folder / _calendar_name(plan), calendar.encode()),
                (folder / _saved_name(plan), saved_text(plan).encode()),
            ]
        )
    except OSError as mistake:
        where = mistake.filename or folder
        hint = "close it where it is open, free some space, or choose another folder with -o"
        stop_on_faults([fault("LB901", f"`{where}` cannot be written: {mistake.strerror}", None, hints=(hint,))])


def _say_old(printing: Printing, plan: PrepPlan, lines: Sequence[str], drawn: Sequence[PdfFile], folder: Path) -> None:
    """Tell of sheets of an earlier plan that lie there under the names of this one, and that it did not replace."""
    made = {file.name for file in drawn}
    for line in lines:
        name = printing.file_name(f"plan-{line}-{plan.first}")
        if name not in made and (folder / name).exists():
            click.echo(f"{folder / name} is of an earlier plan: this one has nothing on that line. Bin it.", err=True)


def _calendar_name(plan: PrepPlan) -> str:
    return f"plan-{plan.first}.ics"


def _saved_name(plan: PrepPlan) -> str:
    return f"plan-{plan.first}.json"
