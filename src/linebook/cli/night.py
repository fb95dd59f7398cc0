"""What ``bind``, ``batch`` and ``matrix`` share: choosing the menu, writing what was drawn, and showing it."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.options import refuse_word, stop_on_faults
from linebook.source.codes import fault
from linebook.source.nearest import nearest

if TYPE_CHECKING:
    from linebook.cli.asked import Asked
    from linebook.markup.sheet import Sheet
    from linebook.model.house import House
    from linebook.source.faults import Fault, Outcome
    from linebook.workshop import PdfFile, Workshop


def choose_menu(house: House, asked: str | None, day: date) -> str:
    """Return the id of the asked menu, or of the one in force on the day; stops where there is none."""
    from linebook.pipeline import find_menu

    if asked is not None:
        if asked not in house.menus:
            refuse_word("menu", asked, nearest(asked, house.menus), sorted(house.menus))
        return asked
    found = find_menu(house, day)
    if found is None:
        listing = ", ".join(f"{menu.name} from {menu.first}" for menu in house.menus.values())
        no_menu = fault(
            "LB902",
            f"no menu is in force on {day}",
            None,
            hints=(f"name one with --menu, or a day with --date (the house has: {listing})",),
        )
        stop_on_faults([no_menu])
        sys.exit(1)
    return found


def write_prints(
    files: Sequence[PdfFile],
    folder: Path,
    *,
    first: Sequence[tuple[Path, bytes]] = (),
    last: Sequence[tuple[Path, bytes]] = (),
) -> None:
    """Write every PDF into the folder, all or none, between other files; stops where one cannot be written."""
    from linebook.writing.atomic import write_files

    try:
        made = [(folder / file.name, file.content) for file in files if not file.digest]
        write_files([*first, *made, *last])
    except OSError as mistake:
        not_written = fault(
            "LB901",
            f"`{mistake.filename or folder}` cannot be written: {mistake.strerror}",
            None,
            hints=("close it where it is open, free some space, or choose another folder with -o",),
        )
        stop_on_faults([not_written])


def print_one(
    house: House,
    sheets: Callable[[Workshop], Outcome[tuple[Sheet, ...]]],
    target: Path,
    *,
    menu: str,
    issued: date,
    asked: Asked,
    folder: Path,
    theme: str | None,
    faults: Sequence[Fault] = (),
    punched: bool = False,
) -> None:
    """Draw one PDF, write it, say so, and show it if asked; stops where it cannot be drawn or written.

    ``faults`` are those of the house, told before its own.
    """
    from linebook.cli.bundle import say_one
    from linebook.pipeline import build_prints

    built = build_prints(
        house,
        lambda workshop: [(target.name, sheets(workshop))],
        menu=menu,
        issued=issued,
        printing=asked.printing(house),
        folder=folder,
        theme=theme or "",
    )
    stop_on_faults((*faults, *built.faults))
    if not built.value:
        sys.exit(1)
    write_prints(built.value, target.parent)
    say_one(built.value[0], target.parent, punched=punched)
    if asked.opens:
        show_prints(target)


def show_prints(path: Path) -> None:
    """Open what was made in the system's viewer, and say so; a run never fails for want of one."""
    from linebook.cli.opening import show

    click.echo(show(path))


def note_no_service(house: House, day: date) -> None:
    """Warn, on the error stream, that a night is asked for on a day without service: a party, or a slip."""
    from linebook.compute.leftovers import next_service
    from linebook.compute.services import is_service_day, say_day

    if not is_service_day(house, day):
        open_day = next_service(house, day)
        other = f" The next service is on {say_day(open_day)}." if open_day is not None else ""
        text = f"Warning: the house has no service on {say_day(day)}. Is the date right?{other}"
        click.echo(click.style(text, fg="yellow", bold=True), err=True)
