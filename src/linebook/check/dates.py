"""Days that come in the wrong order (LB505)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from linebook.check.index import Index
from linebook.model.menu import Menu
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related


def check_menu_dates(index: Index) -> Iterator[Fault]:
    """Yield a fault for a menu that ends before it starts, and for two menus that start on one day."""
    starts: dict[date, Menu] = {}
    for menu in index.menus.values():
        if menu.last is not None and menu.last < menu.first:
            yield fault(
                "LB505",
                f"{menu.name} ends on `{menu.last}`, before it starts on `{menu.first}`",
                menu.at("last"),
                hints=("put a day on or after the first, or leave `last` out",),
                related=(Related(span=menu.at("first"), label="starts here"),),
            )
        if menu.first in starts:
            other = starts[menu.first]
            yield fault(
                "LB505",
                f"{menu.name} and {other.name} both start on `{menu.first}`",
                menu.at("first"),
                hints=("give each menu its own first day: the later one takes over from the earlier",),
                related=(Related(span=other.at("first"), label=f"{other.name} starts here"),),
            )
        starts.setdefault(menu.first, menu)


def check_seasons(index: Index) -> Iterator[Fault]:
    """Yield a fault for each season that ends before it starts."""
    for item in index.pantry.values():
        season = item.season
        if season is not None and season.last < season.first:
            yield fault(
                "LB505",
                f"the season of {item.name} ends on `{season.last}`, before it starts on `{season.first}`",
                season.at("last"),
                hints=("put a day on or after the first",),
                related=(Related(span=season.at("first"), label="starts here"),),
            )
