"""Says whether a table of marks can stand on its sheet's pages: heads, and some rows under them.

Owns that judgement alone. It must not know how heads are set, nor how a page is filled. Points.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Final, NamedTuple

from linebook.pdf.pieces import Strip

_ROWS: Final = 2
"""Ordinary rows that a page has under its heads: with fewer it shows little but heads."""

_WORTH_STARTING: Final = 0.5
"""Of a further page: where a title leaves less of the first no table need start under it."""


class Place(NamedTuple):
    """What a sheet has for a table: the room of its first page and of any other, both under what stands over it.

    ``part`` are the words for a part of a table's columns, with ``{first}``, ``{last}`` and ``{count}``.
    """

    first: float = inf
    later: float = inf
    part: str = ""

    @property
    def opening(self) -> float:
        """The room of the page that a table starts on: not the first where its title takes most of that."""
        return self.first if self.first > self.later * _WORTH_STARTING else self.later


def stands(part: Sequence[Strip], place: Place) -> bool:
    """Say whether every row fits on a page under the heads said above it, and most pages have more than one."""
    rows = [strip for strip in part if strip.context]
    if not rows:
        return _heads(part) <= place.later
    tallest = max(_said_above(row) + row.height for row in rows)
    usual = _heads(part) + _ROWS * sum(row.height for row in rows) / len(rows)
    return max(tallest, usual) <= place.later and _opening(part, rows) <= place.opening


def pages_of(part: Sequence[Strip], place: Place) -> int:
    """Return how many pages a part takes that starts on one of its own."""
    pages, used = 1, _heads(part)
    for row in part:
        if not row.context:
            continue
        if used + row.height > place.later:
            pages, used = pages + 1, _said_above(row)
        used += row.height
    return pages


def _heads(part: Sequence[Strip]) -> float:
    return sum(strip.height for strip in part if not strip.context)


def _said_above(row: Strip) -> float:
    return sum(strip.height for strip in row.context.head) if row.context else 0.0


def _opening(part: Sequence[Strip], rows: Sequence[Strip]) -> float:
    """Return what a table starts with: its heads, the head of its first course, a row."""
    begun = 2 if len(rows) > 1 and _said_above(rows[1]) > _said_above(rows[0]) else 1
    return _heads(part) + sum(row.height for row in rows[:begun])
