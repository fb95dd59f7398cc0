"""Tasting notes stand in the order of their days (LB530), and none is of a day to come (LB531).

Which day it is now only a command knows: it asks for the notes that are ahead of the day it is for.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import pairwise

from linebook.check.index import Index
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related


def check_tastings(index: Index) -> Iterator[Fault]:
    """Yield a warning for each note that stands under one of a later day."""
    for card in index.cards:
        for before, after in pairwise(card.tastings):
            if after.day < before.day:
                yield fault(
                    "LB530",
                    f"the tasting note of `{after.day}` stands under that of `{before.day}`",
                    after.at("date"),
                    hints=("put the oldest first and the newest last, or mend the date",),
                    related=(Related(span=before.at("date"), label="stands above it"),),
                )


def tastings_ahead(cards: Iterable[Component | Dish], day: date) -> Iterator[Fault]:
    """Yield a warning for each note of a day after ``day``: a slip in the year, most likely."""
    for card in cards:
        for note in card.tastings:
            if note.day > day:
                yield fault(
                    "LB531",
                    f"the tasting note of `{note.day}` is of a day after `{day}`",
                    note.at("date"),
                    hints=("mend the date, or name the day it is for with --date",),
                )
