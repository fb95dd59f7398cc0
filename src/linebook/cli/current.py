"""``linebook current``: says whether a printed sheet, known by its fingerprint, is still the one in force."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date
from functools import partial
from typing import TYPE_CHECKING, Final

import click

from linebook.cli.options import date_option, find_house, today
from linebook.cli.supply_refused import no_supply

if TYPE_CHECKING:
    from linebook.compute.issued import Standing

_LEAST: Final = 4
_MOST_NAMED: Final = 5


@click.command(short_help="Say whether a printed sheet is still current.")
@click.argument("fingerprint", metavar="FINGERPRINT")
@click.option("--house", help="The house folder.")
@date_option
@no_supply("it looks a printed sheet up in the register; a sheet of a night without an item is not in it")
def command(fingerprint: str, house: str | None, day: date | None) -> None:
    """Say whether the sheet with this FINGERPRINT is in force: yes (exit 0), no (exit 1) or unknown (exit 2).

    The fingerprint stands in the foot of each sheet, and in the square beside it. Any case, with or without dashes;
    an O is read as 0, an I or an L as 1; its first four characters do where no other sheet begins so.
    """
    from linebook.cli.register import open_register
    from linebook.compute.apart import is_disputed
    from linebook.compute.issued import Fate, find_issued, standing_of
    from linebook.known_again import known_in_issue
    from linebook.model.issue import folded
    from linebook.swap_changes import OldTexts

    folder, shown = find_house(house)
    register = open_register(folder, shown, day or today())
    asked = folded(fingerprint)
    if not asked:
        raise click.UsageError(f"`{fingerprint}` is not a fingerprint: it is eight letters and digits, like 7F3A91C2.")
    found = find_issued(register, asked) if len(asked) >= _LEAST else ()
    if len(found) != 1:
        click.echo(_unknown(asked, found, issued=bool(register.issues)))
        sys.exit(2)
    if is_disputed(register, found[0], day or today()):
        click.echo(f"Unknown: two issues made apart differ in {found[0]}: one put it in, the other did not.")
        sys.exit(2)
    again = partial(known_in_issue, old=OldTexts(folder=folder, shown=shown, faults=[]))
    standings = standing_of(register, found[0], day or today(), again)
    for words in _answers(standings):
        click.echo(words)
    sys.exit(0 if any(one.fate is Fate.CURRENT for one in standings) else 1)


def _unknown(asked: str, found: tuple[str, ...], *, issued: bool) -> str:
    if len(asked) < _LEAST:
        return f"Unknown: `{asked}` is too short. Give at least {_LEAST} of its eight characters."
    if found:
        more = ", …" if len(found) > _MOST_NAMED else ""
        return (
            f"Unknown: {len(found)} sheets begin so: {', '.join(found[:_MOST_NAMED])}{more}. Give all eight characters."
        )
    if not issued:
        return f"Unknown: nothing was issued in this house yet, {asked} neither. Issue with: linebook bind --issue"
    return f"Unknown: no sheet {asked} was ever issued in this house. Do not cook from it until the chef has seen it."


def _answers(standings: tuple[Standing, ...]) -> Iterator[str]:
    from linebook.compute.issued import Fate
    from linebook.documents.wording import english

    say = english().say
    for one in standings:
        document = say(f"document.{one.sheet.document}").plain
        sheet = ": ".join(dict.fromkeys((document, one.sheet.title)))
        where = f"{one.sheet.line} binder" if one.sheet.line else "front of house"
        named = f"{one.sheet.fingerprint} {sheet} ({where})"
        if one.fate is Fate.CURRENT:
            yield f"Yes: {named}, issued {one.first}, in force on the menu {one.issue.menu_name}."
        elif one.fate is Fate.AHEAD and one.turn:
            yield f"No, not yet: {named}, in force from {one.turn.day} on the menu {one.turn.menu_name}."
        elif one.by and one.turn:
            yield f"No: {named}, issued {one.first}, replaced on {one.turn.day} by {one.by.fingerprint}."
        elif one.turn:
            yield f"No: {named}, issued {one.first}, withdrawn on {one.turn.day} (menu {one.turn.menu_name})."
