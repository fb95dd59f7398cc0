"""How much work with the hands each line has on each day; what is too much is done earlier, or told if it could be.

Knows the batches on the board and the hours of the house.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from linebook.compute.placing import Placing, later_of
from linebook.compute.plan_board import Board
from linebook.compute.plan_results import DayWork
from linebook.compute.plan_trims import leaves_in_time, moments_now
from linebook.compute.slots import A_DAY, SLOT
from linebook.model.house import Line


class Work:
    """The work of a board, kept up while batches are moved: minutes by line and day of the grid, and by batch."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self._spent: defaultdict[tuple[str, int], dict[int, int]] = defaultdict(dict)
        for at in range(len(board.placed)):
            self._count(at)

    def ease(self, first: date, last: date) -> None:
        """Move what can be done earlier out of the days of a span on which a line has more work than time.

        The batch with the most work that day first, as many as it takes; none to where that would be too much, none
        with a strain, and none that breaks a limit. The last day comes first: what is moved may be moved on.
        """
        start = (first - self.board.calendar.first).days
        for day in range((last - self.board.calendar.first).days, start - 1, -1):
            for line in self.board.house.file.lines:
                spent = self._spent[line.id, day]
                for at in sorted(spent, key=lambda at: (-spent[at], at)) if self._is_over(line, day) else ():
                    found = self._earlier(at, day)
                    if found is not None and self._is_over(line, day):
                        self._move_if_light(line, at, found)

    def by_day(self, numbers: Mapping[int, int], first: date, last: date) -> tuple[DayWork, ...]:
        """Return the work of each line on each day of a span on which it has any, in the order of the days.

        ``numbers`` are those of the batches on the plan, by their place on the board.
        """
        start = (first - self.board.calendar.first).days
        return tuple(
            self._day(line, day, numbers)
            for day in range(start, start + (last - first).days + 1)
            for line in self.board.house.file.lines
            if self._spent[line.id, day]
        )

    def _day(self, line: Line, day: int, numbers: Mapping[int, int]) -> DayWork:
        spent = self._spent[line.id, day]
        over = [at for at in spent if at in numbers] if self._is_over(line, day) else []
        return DayWork(
            line=line.id,
            day=self.board.calendar.first + timedelta(days=day),
            minutes=sum(spent.values()),
            cooks=line.cooks,
            available=self._available(line, day),
            movable=tuple(sorted(numbers[at] for at in over if self._earlier(at, day) is not None)),
        )

    def _count(self, at: int, *, off: bool = False) -> None:
        """Count in the work of a batch, or take it off."""
        place = self.board.placed[at]
        for leg in place.placing.legs:
            for first, last in ((leg.start, leg.alone), (leg.done, leg.over)):
                moment = first
                while moment < last:
                    until = min(last, (moment // A_DAY + 1) * A_DAY)
                    spent = self._spent[place.component.line, moment // A_DAY]
                    if off:
                        spent.pop(at, None)
                    else:
                        spent[at] = spent.get(at, 0) + (until - moment) * SLOT
                    moment = until

    def _available(self, line: Line, day: int) -> int:
        on = self.board.calendar.first + timedelta(days=day)
        return line.cooks * self.board.calendar.staffed_minutes(on, outside_service=True)

    def _is_over(self, line: Line, day: int) -> bool:
        return sum(self._spent[line.id, day].values()) > self._available(line, day)

    def _earlier(self, at: int, day: int) -> Placing | None:
        """Return the latest way to have a batch over before a day, with all else where it is."""
        place, placer = self.board.placed[at], self.board.placer
        limits = replace(place.limits, due=min(place.limits.due, day * A_DAY), trims=moments_now(self.board, place))
        earliest = later_of(place.earliest, self.board.parts_ready(at))
        placer.give_back(place.placing)
        found = placer.place(place.placing.sized, limits, earliest)
        placer.take(place.placing)
        return found if found is not None and leaves_in_time(self.board, at, found) else None

    def _move_if_light(self, line: Line, at: int, placing: Placing) -> None:
        """Move a batch unless its line then has too much work on a day on which it works."""
        before = self.board.placed[at].placing
        self._put(at, placing)
        if any(self._is_over(line, moment // A_DAY) for leg in placing.legs for moment in (leg.start, leg.over)):
            self._put(at, before)

    def _put(self, at: int, placing: Placing) -> None:
        self._count(at, off=True)
        self.board.placer.give_back(self.board.placed[at].placing)
        self.board.move(at, placing)
        self._count(at)
