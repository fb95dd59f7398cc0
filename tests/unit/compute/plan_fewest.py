"""All plans of a small house, all components together: the fewest batches with which every service has what it needs.

Shares no code with the planner. Every way to share demands out among batches, and every place of every batch, is tried,
users before parts, since where a user stands is when its parts are wanted; what no batch can be left out of bounds the
search from below. It is given up after so many places, and says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from test_plan_small import SET_UP, Kitchen, SmallHouse, Want, Way, does, partitions, ways

MOST_PLACES = 150_000
MOST_WANTS = 6
Group: TypeAlias = tuple[Want, ...]
Wants: TypeAlias = dict[str, Group]


class TooManyError(Exception):
    """There are more plans than are tried."""


class AllPlans:
    """The plans of a small house in which nothing is strained."""

    def __init__(self, small: SmallHouse, order: Sequence[str]) -> None:
        self.cards, self.order = small.cards, order
        self.kitchen = Kitchen(small.kitchen.staffed)
        begin, end = max(0, (min(small.days) - 7) * 24), max(small.days) * 24 + SET_UP
        self.known = {id_: ways(card, small.kitchen.staffed, begin, end) for id_, card in self.cards.items()}
        on_plates = tuple(Want(day * 24 + SET_UP, day, (day,)) for day in small.days)
        self.wants: Wants = {id_: on_plates if id_ in small.plated else () for id_ in self.cards}
        self.used = {part for card in self.cards.values() for part, _ in card.parts}
        self._options: dict[tuple[str, Group], list[Way]] = {}
        self._least: dict[tuple[str, Group], int] = {}
        self._left = 0

    def fewest(self, below: int) -> int | None:
        """The fewest batches there can be, None where that is no fewer than ``below``."""
        for number in range(self.least(0, self.wants), below):
            self._left = MOST_PLACES
            if self._card(0, self.wants, number):
                return number
        return None

    def least(self, at: int, wants: Wants) -> int:
        """So many batches at the least, if each card had the kitchen to itself."""
        rest = self.order[at:]
        return sum(self._own(id_, _sorted(wants[id_])) if wants[id_] else int(id_ in self.used) for id_ in rest)

    def options(self, id_: str, group: Group) -> list[Way]:
        key = (id_, group)
        if key not in self._options:
            self._options[key] = [way for way in self.known[id_] if does(self.cards[id_], way, group, self.cards)]
        return self._options[key]

    def _own(self, id_: str, known: Group) -> int:
        if (id_, known) not in self._least:
            numbers = [
                len(groups)
                for groups in partitions(range(len(known)))
                if all(self.options(id_, tuple(known[at] for at in group)) for group in groups)
            ]
            self._least[id_, known] = min(numbers, default=99)
        return self._least[id_, known]

    def _card(self, at: int, wants: Wants, left: int) -> bool:
        if at == len(self.order):
            return True
        if self.least(at, wants) > left:
            return False
        id_ = self.order[at]
        known, rest = _sorted(wants[id_]), self.least(at + 1, wants)
        if not known:
            return self._card(at + 1, wants, left)
        if len(known) > MOST_WANTS:
            raise TooManyError
        for groups in sorted(partitions(range(len(known))), key=len):
            if len(groups) > left - rest:
                return False
            its = [tuple(known[number] for number in group) for group in groups]
            if self._batches(at, its, 0, wants, left - len(groups)):
                return True
        return False

    def _batches(self, at: int, groups: Sequence[Group], number: int, wants: Wants, left: int) -> bool:
        self._left -= 1
        if self._left < 0:
            raise TooManyError
        if number == len(groups):
            return self._card(at + 1, wants, left)
        id_, card, group = self.order[at], self.cards[self.order[at]], groups[number]
        if not all(any(self.kitchen.is_free(way) for way in self.options(id_, one)) for one in groups[number:]):
            return False
        seen = set()
        for way in self.options(id_, group):
            alike = (way.hands, way.oven, tuple(way.starts[step] for _, step in card.parts))
            if alike in seen or not self.kitchen.is_free(way):
                continue
            seen.add(alike)
            further = dict(wants)
            services = tuple(sorted({day for want in group for day in want.services}))
            for part, step in card.parts:
                want = Want(way.starts[step], max(one.served for one in group), services)
                further[part] = (*further[part], want)
            self.kitchen.take(way)
            found = self._batches(at, groups, number + 1, further, left)
            self.kitchen.give_back(way)
            if found:
                return True
        return False


def _sorted(wants: Group) -> Group:
    return tuple(sorted(wants, key=lambda want: (want.due, want.served)))
