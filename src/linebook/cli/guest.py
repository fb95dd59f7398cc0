"""``linebook guest``: answers what a guest may be served, and prints the guest sheet."""

from __future__ import annotations

import shutil
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from linebook.cli.asked import Asked
from linebook.cli.options import date_option, find_house, menu_option, stop_on_faults, theme_option, today
from linebook.cli.print_options import print_options
from linebook.cli.supply_options import SupplyAsked, served_house, supply_options

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    from linebook.documents.guest_request import AnsweredSeat, Degree, GuestRequest
    from linebook.model.house import House

_NARROWEST: Final = 60
_WIDEST: Final = 110


class _WordType(click.ParamType[str]):
    """A word for what a guest avoids, completed from the words for allergens and diets."""

    name = "word"

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        from click.shell_completion import CompletionItem

        from linebook.model.diets import DIETS
        from linebook.model.taxonomy import SUBSTANCES

        return [CompletionItem(id_) for id_ in sorted((*SUBSTANCES, *DIETS)) if id_.startswith(incomplete)]


@click.command(short_help="Say what a guest may be served, and print the guest sheet.")
@click.argument("words", metavar="WORD...", nargs=-1, type=_WordType())
@click.option("--house", help="The house folder. Default: specs/ here, or the folder you stand in.")
@click.option("--table", help="The table, as 14.")
@click.option(
    "--seat",
    "seats",
    multiple=True,
    help='The seat, as 3; or with its own words, as "3: egg, milk". May be repeated.',
)
@click.option(
    "--as",
    "degree",
    type=click.Choice(["allergy", "intolerance", "preference"], case_sensitive=False),
    help='How strongly, for the record; no answer is weaker for it. For one seat: "3 preference: egg".',
)
@menu_option
@date_option
@supply_options()
@print_options(half_sheet=False)
@theme_option
@click.option(
    "-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="The PDF. Default: output/guest-….pdf."
)
def command(
    words: tuple[str, ...],
    house: str | None,
    table: str | None,
    seats: tuple[str, ...],
    degree: Degree | None,
    menu: str | None,
    day: date | None,
    supply: SupplyAsked,
    asked: Asked,
    theme: str | None,
    output: Path | None,
) -> None:
    """Say what a guest who avoids WORD may be served from the menu, and print a sheet for the server and the pass.

    A WORD is an allergen, a food, a diet, or an everyday word as dairy or nuts; put quotes round one with spaces.
    """
    from linebook.cli.bundle import say_one
    from linebook.cli.guest_seats import read_request
    from linebook.cli.night import choose_menu, show_prints, write_prints
    from linebook.pipeline import build_prints, judge_guests, load_house
    from linebook.service_sheets import guest_sheet

    folder, shown = find_house(house)
    loaded = load_house(folder, shown, asked.languages)
    if loaded.value is None:
        stop_on_faults(loaded.faults)
        return
    kitchen = asked.house(loaded.value)
    printing = asked.printing(kitchen)
    request = read_request(kitchen, words, seats, table=table, degree=degree or "")
    service = day or today()
    chosen = choose_menu(kitchen, menu, service)
    kitchen = served_house(kitchen, supply, menu=chosen, day=service, folder=folder).house
    answers = judge_guests(kitchen, chosen, request)
    _answer(kitchen, chosen, request, answers)
    target = output or Path("output") / printing.file_name(_stem(request))
    built = build_prints(
        kitchen,
        lambda workshop: [(target.name, guest_sheet(workshop, request, answers))],
        menu=chosen,
        issued=service,
        printing=printing,
        folder=folder,
        theme=theme or "",
    )
    stop_on_faults((*loaded.faults, *built.faults))
    if built.value is None:
        sys.exit(1)
    write_prints(built.value, target.parent)
    say_one(built.value[0], target.parent, punched=False)
    if asked.opens:
        show_prints(target)


def _answer(house: House, menu: str, request: GuestRequest, answers: tuple[AnsweredSeat, ...]) -> None:
    from linebook.cli.guest_lines import answer_lines

    columns = max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size((80, 24)).columns))
    for line in answer_lines(house, menu, request, answers, columns):
        click.echo(click.style(line.action, bold=bool(line.action)) + line.text)
    click.echo("")


def _stem(request: GuestRequest) -> str:
    """Return the name of the sheet's file: each table and seat has its own."""
    from linebook.read.ids import kebab

    table = [f"table-{kebab(request.table)}"] if request.table else []
    seats = [kebab(place) for seat in request.seats for place in seat.places]
    named = [*table, *([f"seat-{'-'.join(seats)}"] if seats else [])]
    return "-".join(["guest", *(named or ["sheet"])])
