"""For which night something is computed: one frozen value that goes into every computation."""

from __future__ import annotations

from datetime import date

from linebook.source.frozen import frozen


@frozen
class Occasion:
    """A menu served to a number of covers; ``date`` is None for a standard night in a binder."""

    menu: str
    covers: int
    date: date | None = None
