"""How to print, as ``bind``, ``batch`` and ``matrix`` are asked: each option stands for what house.yaml says."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, Final

import click

from linebook.cli.asked import Asked

_INKS: Final = ("colour", "grey", "saving")
_ALSO: Final = {"color": "colour", "gray": "grey"}
_SYSTEMS: Final = ("as-written", "metric", "us", "both")


class SystemType(click.ParamType[str]):
    """A system of units, in any case and with or without the hyphen."""

    name = "system"

    def get_metavar(self, param: click.Parameter, ctx: click.Context) -> str:
        return f"[{'|'.join(_SYSTEMS)}]"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        word = value.strip().lower().replace("-", " ")
        if word.replace(" ", "-") not in _SYSTEMS:
            self.fail(f"`{value}` is not one of {', '.join(_SYSTEMS)}.", param, ctx)
        return word


class InkType(click.ParamType[str]):
    """An ink, in either spelling."""

    name = "ink"

    def get_metavar(self, param: click.Parameter, ctx: click.Context) -> str:
        return f"[{'|'.join(_INKS)}]"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        ink = _ALSO.get(value.lower(), value.lower())
        if ink not in _INKS:
            self.fail(f"`{value}` is not one of {', '.join(_INKS)}.", param, ctx)
        return ink


class LanguagesType(click.ParamType[tuple[str, ...]]):
    """One language or two with a comma between; the first is the main one."""

    name = "languages"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, ...]:
        if isinstance(value, tuple):
            return value
        from linebook.read.house_fields import LANGUAGES, MOST_LANGUAGES

        asked = tuple(value.lower().replace(",", " ").split())
        unknown = [word for word in asked if word not in LANGUAGES]
        if unknown:
            self.fail(f"`{unknown[0]}` is not a language it prints in: write {' or '.join(LANGUAGES)}.", param, ctx)
        if not 1 <= len(set(asked)) == len(asked) <= MOST_LANGUAGES:
            self.fail(f"`{value}` is not one language or two different ones: write en, es or en,es.", param, ctx)
        return asked


def print_options(*, half_sheet: bool) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command the options of printing, gathered into one argument ``asked``."""

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        @wraps(command)
        def gathered(**given: Any) -> None:
            own = {name: given.pop(name) for name in Asked.__dataclass_fields__ if name in given}
            asked = Asked(**{name: value for name, value in own.items() if value is not None})
            _refuse_at_odds(asked)
            command(asked=asked, **given)

        for option in reversed([one for one in _OPTIONS if half_sheet or one is not _HALF_SHEET]):
            gathered = option(gathered)
        return gathered

    return decorate


def _refuse_at_odds(asked: Asked) -> None:
    if asked.large and asked.half_sheet:
        raise click.UsageError("--large is for the wall and --half-sheet for the rail: choose one of them.")
    if asked.duplex and (asked.large or asked.half_sheet):
        where = "--large is for the wall" if asked.large else "--half-sheet is cut into cards for the rail"
        raise click.UsageError(f"{where}, so it prints on one side: leave out --duplex.")


_HALF_SHEET: Final = click.option(
    "--half-sheet", is_flag=True, help="Cards of half the paper for the rail, two on a sheet with marks to cut at."
)
_UNITS: Final = click.option(
    "--units", type=SystemType(), help="Amounts as written, in metric or US units, or both. Default: as in house.yaml."
)
LANGUAGES_OPTION: Final = click.option(
    "--languages", type=LanguagesType(), help="en, es, or both as en,es: the first is the main one."
)
_OPTIONS: Final = (
    click.option(
        "--paper", type=click.Choice(["a4", "letter"], case_sensitive=False), help="Default: what house.yaml says."
    ),
    click.option("--duplex/--no-duplex", default=None, help="Both sides, each sheet starting on the right; or one."),
    click.option("--ink", type=InkType(), help="In colour, in grey alone, or saving ink: outlines, thin rules."),
    click.option("--large", is_flag=True, help="For the wall: type half as large again, on the same paper."),
    _HALF_SHEET,
    LANGUAGES_OPTION,
    _UNITS,
    click.option("--open", "opens", is_flag=True, help="Show what was made, in this system's viewer."),
)
