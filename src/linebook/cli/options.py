"""What the commands share: finding the house folder, reading dates and covers, and stopping on faults."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NoReturn, TypeVar

import click

from linebook.cli.faults import FORMS, count_errors, print_faults
from linebook.source.faults import Fault

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    from linebook.model.house import House

Command = TypeVar("Command", bound=Callable[..., Any])
MOST_COVERS: Final = 100_000


def find_house(given: str | None) -> tuple[Path, str]:
    """Return the house folder and how to show it: as given, else ``specs/`` here, else the folder we stand in."""
    if given is not None:
        folder = Path(given)
        if not folder.is_dir():
            raise click.UsageError(f"There is no folder `{given}`.")
        return folder, given.rstrip("/") if given.strip("/") else given
    if Path("specs").is_dir():
        return Path("specs"), "specs"
    if Path("house.yaml").is_file():
        return Path(), ""
    raise click.UsageError(
        "There is no house here: no specs/ folder and no house.yaml. "
        "Name the folder, or start one with: linebook new FOLDER"
    )


class DateType(click.ParamType[date]):
    """A date as 2027-03-06."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        if isinstance(value, date):
            return value
        try:
            return date.fromisoformat(value)
        except ValueError:
            self.fail(f"`{value}` is not a date: write year-month-day, like 2027-03-06.", param, ctx)


class CoversType(click.ParamType[int]):
    """A number of covers, 1 or more."""

    name = "covers"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        if isinstance(value, int):
            return value
        if not value.isascii() or not value.isdigit() or not 1 <= int(value[:12]) <= MOST_COVERS or len(value) > 12:
            self.fail(f"`{value}` is not a number of covers: write a whole number from 1 to {MOST_COVERS}.", param, ctx)
        return int(value)


class CoversForType(click.ParamType[tuple[str, int]]):
    """Covers of every service, of a weekday or of one date: ``80``, ``sat=120``, ``2027-03-06=140``.

    Gives the day as ISO date or weekday, '' for every service, and the number.
    """

    name = "covers"

    def get_metavar(self, param: click.Parameter, ctx: click.Context) -> str:
        return "N|DAY=N|DATE=N"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, int]:
        if isinstance(value, tuple):
            return value
        from linebook.compute.services import WEEKDAYS
        from linebook.source.nearest import nearest

        day, equals, number = value.rpartition("=")
        covers = CoversType().convert(number.strip() or value, param, ctx)
        if not equals:
            return "", covers
        word = day.strip().lower()
        if word in WEEKDAYS:
            return word, covers
        if not word[:1].isdigit():
            near = nearest(word[:3], WEEKDAYS)
            hint = f" Did you mean `{near}={covers}`?" if near else f" Days are {', '.join(WEEKDAYS)}."
            self.fail(f"`{day}` is neither a date nor a day of the week.{hint}", param, ctx)
        return DateType().convert(word, param, ctx).isoformat(), covers


class IdType(click.ParamType[str]):
    """An id of the house, completed from the files of one or more of its folders."""

    name = "id"

    def __init__(self, *folders: str) -> None:
        self.folders = folders

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        from click.shell_completion import CompletionItem  # here, because only a shell asks for it

        try:
            house, _ = find_house(ctx.params.get("house"))
        except click.UsageError:
            return []
        stems = {path.stem for folder in self.folders for path in (house / folder).glob("*.*") if "." not in path.stem}
        return [CompletionItem(stem) for stem in sorted(stems) if stem.startswith(incomplete)]


def date_option(command: Command) -> Command:
    return click.option(
        "--date", "day", type=DateType(), help="The day it is for or issued, as 2027-03-06. Default: today."
    )(command)


class ThemeType(click.ParamType[str]):
    """The name of a theme that comes with linebook."""

    name = "name"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        from linebook.house_theme import find_themes
        from linebook.source.nearest import nearest

        known = find_themes()
        if value not in known:
            near = nearest(str(value), known)
            hint = f" Did you mean `{near}`?" if near else ""
            self.fail(f"There is no theme `{value}`.{hint} There are: {', '.join(known)}.", param, ctx)
        return str(value)

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        from click.shell_completion import CompletionItem

        from linebook.house_theme import find_themes

        return [CompletionItem(name) for name in find_themes() if name.startswith(incomplete)]


def theme_option(command: Command) -> Command:
    return click.option("--theme", type=ThemeType(), help="The theme to set it in. Default: what house.yaml says.")(
        command
    )


def menu_option(command: Command) -> Command:
    return click.option("--menu", type=IdType("menus"), help="A menu's id. Default: the menu in force on the date.")(
        command
    )


def form_option(command: Command) -> Command:
    return click.option(
        "--form", type=click.Choice(FORMS), default="human", show_default=True, help="How faults are shown."
    )(command)


def today() -> date:
    """Return the day the command runs; the one place that reads the clock."""
    return date.today()


def stop_on_faults(faults: Sequence[Fault], *, form: str = "human", strict: bool = False) -> None:
    """Print the faults, if any; leave with 1 where there are errors (or warnings, if strict)."""
    print_faults(faults, form)
    if count_errors(faults) or (strict and faults):
        sys.exit(1)


def wanted_lines(house: House, lines: Sequence[str]) -> list[str]:
    """Return the lines asked for in the house's order, all of them where none is; stops at one it has not."""
    from linebook.source.nearest import nearest

    known = [line.id for line in house.file.lines]
    for line in lines:
        if line not in known:
            refuse_word("line", line, nearest(line, known), known)
    return [line for line in known if not lines or line in lines]


def refuse_word(kind: str, word: str, near: str | None, listing: Sequence[str]) -> NoReturn:
    """Stop with 2 for a word on the command line that names nothing in the house."""
    text = f"There is no {kind} `{word}` in this house."
    if near:
        text += f" Did you mean `{near}`?"
    elif listing:
        text += f" It has: {', '.join(listing)}."
    raise click.UsageError(text)
