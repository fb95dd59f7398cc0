"""For which night something is computed: one frozen value that goes into every computation."""

from __future__ import annotations

from datetime import date

from linebook.model.supply import StockEntry
from linebook.source.frozen import frozen


@frozen
class Occasion:
    """A menu served to a number of covers; ``date`` is None for a standard night in a binder.

    ``without`` are the ids that cannot be had, ``on_hand`` is what is left from before.
    """

    menu: str
    covers: int
    date: date | None = None
    without: tuple[str, ...] = ()
    on_hand: tuple[StockEntry, ...] = ()
