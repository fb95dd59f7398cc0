"""Until when each batch of a board may be served, and until when it must keep: by its own life and that of all in it.

Knows where the batches are; moves none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from linebook.compute.placing import Place
from linebook.compute.plan_board import Board
from linebook.compute.plan_demands import last_counted, taken_out
from linebook.compute.plan_trims import Left, lefts_of, taken
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.contents import stage_of
from linebook.model.dating import counting, counts_in_trim, days_kept, is_kept_frozen, paused
from linebook.source.frozen import frozen


@frozen
class Dates:
    """By the place of each batch on the board: its last day, None where nobody says, and the day it is wanted until.

    ``lefts`` are the by-products that batches leave, by item.
    """

    ends: tuple[date | None, ...]
    served: tuple[date, ...]
    lefts: Mapping[str, tuple[Left, ...]]

    @classmethod
    def of(cls, board: Board) -> Dates:
        """Return the dates of all batches. What is made from a by-product waits for the date of what left it."""
        served = _last_served(board)
        parts: Mapping[tuple[int, str], date] = {}
        lefts = _lefts(board, parts)
        ends = _last_days(board, served, lefts)
        for _ in board.placed:
            known, parts = parts, _in_trims(board, ends)
            if parts == known:
                break
            lefts = _lefts(board, parts)
            ends = _last_days(board, served, lefts)
        return cls(ends=tuple(ends), served=tuple(served), lefts=lefts)

    def is_over(self, at: int) -> bool:
        """Return whether a batch may not be served as long as it is wanted."""
        end = self.ends[at]
        return end is not None and end < self.served[at]


def _lefts(board: Board, parts: Mapping[tuple[int, str], date]) -> dict[str, tuple[Left, ...]]:
    return {item: lefts_of(board, item, parts) for item in board.house.by_products}


def _last_days(board: Board, served: Sequence[date], lefts: Mapping[str, Sequence[Left]]) -> list[date | None]:
    """Return the last day of each batch: of its own life, and of those of its parts that set its date."""
    ends, inside = [_own_end(place, board.calendar) for place in board.placed], dict(board.stock.ends)
    for at, place in enumerate(board.placed):
        for last in _trim_ends(board, place, served[at], lefts):
            inside[at] = min(last, inside.get(at, last))
    # Parts stand after what is made from them, so going backwards what is in each batch is known in time.
    for at in range(len(board.placed) - 1, -1, -1):
        frozen_on = _frozen_on(board, board.placed[at])
        if frozen_on is None:
            ends[at] = _earlier(ends[at], inside.get(at))
        for demand in board.placed[at].demands:
            end = ends[at] if demand.dated else None
            if demand.paused and frozen_on is not None and at in inside:
                end = inside[at] + paused(frozen_on, taken_out(demand, board.calendar))
            if demand.batch is not None and end is not None:
                inside[demand.batch] = min(end, inside.get(demand.batch, end))
    return ends


def _last_served(board: Board) -> list[date]:
    """Return the last day until which each batch should keep: of its last service, or of its use where that will do."""
    found: list[date] = []
    within: list[date] = []
    for place in board.placed:
        frozen_on = _frozen_on(board, place)
        days, counted = [], []
        for demand in place.demands:
            user = within[demand.batch] if demand.batch is not None and (demand.dated or demand.paused) else None
            days.append(user if user is not None and demand.dated else demand.served)
            whole = replace(demand, counted=user) if user is not None else demand
            counted.append(last_counted(whole, frozen_on, board.calendar))
        found.append(max(days))
        within.append(max(counted))
    return found


def _trim_ends(board: Board, place: Place, served: date, lefts: Mapping[str, Sequence[Left]]) -> Iterator[date]:
    """Yield the last day of each by-product that goes into a batch: of the one that was left last before it goes in.

    What is over by then does not go in, nor what can be bought and would be over before the batch is served.
    """
    house, component = board.house, place.component
    for at, line in enumerate(component.ingredients):
        if line.item in house.components or line.item not in house.by_products:
            continue
        if not counting(component, at, None, {}).counts:
            continue
        for start in place.starts[stage_of(component, at) or 0]:
            left = taken(lefts[line.item], start)
            until = served if line.item in house.pantry else board.calendar.day_of(start)
            if left is not None and left.last is not None and left.last >= until:
                yield left.last


def _in_trims(board: Board, ends: Sequence[date | None]) -> dict[tuple[int, str], date]:
    """Return the last days of what is in by-products, by the batch that leaves them, where its date counts in there."""
    found = dict[tuple[int, str], date]()
    for at, place in enumerate(board.placed):
        end = ends[at]
        if end is None or place.component.kept_by is not None:
            continue
        for demand in place.demands:
            if demand.batch is None or demand.line is None:
                continue
            maker = board.placed[demand.batch].component
            for made in maker.also_makes:
                if counts_in_trim(maker, demand.line, made):
                    key = (demand.batch, made.item)
                    found[key] = min(end, found.get(key, end))
    return found


def _frozen_on(board: Board, place: Place) -> date | None:
    """Return the day on which a batch is frozen, None where it is not kept so."""
    places = {one.id: one for one in board.house.file.places}
    frozen = is_kept_frozen(place.component, places)
    return board.calendar.day_of(place.placing.ready) if frozen else None


def _own_end(place: Place, calendar: WorkCalendar) -> date | None:
    """Return the last day of a batch's own life. What keeps for hours ends with the last use they reach to."""
    days, keeps = days_kept(place.component), place.component.keeps
    if days is None or keeps is None:
        return None
    end = calendar.day_ending(place.placing.life) + timedelta(days=days - 1)
    if keeps.in_days:
        return end
    uses = (one.served if one.user is None else calendar.day_of(one.doors) for one in place.demands)
    return max(end, *uses)


def _earlier(one: date | None, other: date | None) -> date | None:
    return min((day for day in (one, other) if day is not None), default=None)
