"""One entry of a tasting log: on what day what was tasted, what was changed for it, and by whom. For the chef alone."""

from __future__ import annotations

from datetime import date

from linebook.model.record import Record
from linebook.source.frozen import frozen


@frozen
class Tasting(Record):
    """One entry. ``changed`` is what was altered on the card for it, None where nothing was, or not yet."""

    day: date
    tasted: str
    changed: str | None = None
    by: str | None = None
