"""All plans of a small house, all components together: is there one with fewer batches, or with as many and fresher?

Shares no code with the planner. Every way to share demands out among batches, and every place of every batch, is tried,
users before parts, since where a user stands is when its parts are wanted. Fresh is how late the batches are ready, the
hours added up. What no batch can be left out of, and how late it could be ready had it the kitchen to itself, bounds the
search. It is given up after so many places, and says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from test_plan_small import SET_UP, Kitchen, SmallHouse, Want, Way, does, partitions, ways

MOST_PLACES = 25_000
MOST_WANTS = 7
ANY = -1
NEVER = 99
Group: TypeAlias = tuple[Want, ...]
Wants: TypeAlias = dict[str, Group]


class TooManyError(Exception):
    """There are more plans than are tried."""


class AllPlans:
    """The plans of a small house in which all is ready and nothing strained."""

    def __init__(self, small: SmallHouse, order: Sequence[str]) -> None:
        self.cards, self.order = small.cards, order
        self.kitchen = Kitchen(small.kitchen.staffed)
        begin, end = max(0, (min(small.days) - 7) * 24), max(small.days) * 24 + SET_UP
        self.known = {id_: ways(card, small.kitchen.staffed, begin, end) for id_, card in self.cards.items()}
        on_plates = tuple(Want(day * 24 + SET_UP, day, (day,)) for day in small.days)
        self.wants: Wants = {id_: on_plates if id_ in small.plated else () for id_ in self.cards}
        self.users = {id_: [card for card in self.cards.values() if id_ in dict(card.parts)] for id_ in self.cards}
        self.latest = self._latest()
        self._options: dict[tuple[str, int, int, int, bool], list[Way]] = {}
        self._best: dict[tuple[str, tuple[tuple[int, int], ...]], dict[int, int]] = {}
        self._shared: dict[tuple[str, tuple[tuple[int, int], ...]], list[list[list[int]]]] = {}
        self._left = self._above = 0

    def any(self) -> tuple[int, int] | None:
        """The number of batches of any plan there is, and the hours at which they are ready, added up."""
        found = self._found(NEVER - 1, ANY)
        return None if found is None else (NEVER, found)

    def better(self, batches: int, ready: int) -> tuple[int, int] | None:
        """The same of a plan with fewer batches, or with as many that are ready later; None where there is none."""
        for number in range(self.least(0, self.wants), batches + 1):
            found = self._found(number, ready if number == batches else ANY)
            if found is not None:
                return number, found
        return None

    def least(self, at: int, wants: Wants) -> int:
        """So many batches at the least, if each card had the kitchen to itself."""
        return sum(self._least(id_, wants) for id_ in self.order[at:])

    def options(self, id_: str, group: Group) -> list[Way]:
        """The places of a batch for a group, the best first; all that ``does`` asks of the group tells it from others."""
        dues, days = [want.due for want in group], {(want.served, want.due // 24) for want in group}
        key = (id_, min(dues), max(dues), max(want.served for want in group), len(days) > 1)
        if key not in self._options:
            self._options[key] = [way for way in self.known[id_] if does(self.cards[id_], way, group, self.cards)]
        return self._options[key]

    def _found(self, number: int, above: int) -> int | None:
        """The hours of a plan of no more batches that are more than so many."""
        self._left, self._above = MOST_PLACES, above
        return self._card(0, self.wants, number, 0)

    def _latest(self) -> dict[str, int]:
        """The latest hour at which a batch of each card could be ready."""
        found: dict[str, int] = {}
        for id_ in self.order:
            dues = [want.due for want in self.wants[id_]]
            for user in self.users[id_]:
                its = [way for way in self.known[user.id] if way.ready <= found[user.id]]
                dues += [way.starts[step] for way in its for part, step in user.parts if part == id_]
            due = max(dues, default=0)
            found[id_] = max((way.ready for way in self.known[id_] if way.ready <= due), default=0)
        return found

    def _groupings(self, id_: str, known: Group) -> list[list[list[int]]]:
        """The ways to share demands out among batches that each have a place, had the card the kitchen to itself.

        Those of the fewest batches first.
        """
        key = (id_, tuple((want.due, want.served) for want in known))
        if key not in self._shared:
            if len(known) > MOST_WANTS:
                raise TooManyError
            self._shared[key] = sorted(
                (
                    groups
                    for groups in partitions(range(len(known)))
                    if all(self.options(id_, tuple(known[at] for at in group)) for group in groups)
                ),
                key=len,
            )
        return self._shared[key]

    def _own(self, id_: str, known: Group) -> dict[int, int]:
        """By each number of batches, the hours of the freshest, if the card had the kitchen to itself."""
        key = (id_, tuple((want.due, want.served) for want in known))
        if key not in self._best:
            found = self._best[key] = {}
            for groups in self._groupings(id_, known):
                hours = sum(self.options(id_, tuple(known[at] for at in group))[0].ready for group in groups)
                found[len(groups)] = max(hours, found.get(len(groups), ANY))
        return self._best[key]

    def _least(self, id_: str, wants: Wants) -> int:
        if not wants[id_]:
            return int(bool(self.users[id_]))
        return min(self._own(id_, _sorted(wants[id_])), default=NEVER)

    def _bound(self, at: int, wants: Wants, left: int, *, open_: Sequence[str]) -> int | None:
        """The hours that cards from one on could be ready at the most, by what is free now; None where one cannot be.

        Parts of the ``open`` may be wanted more.
        """
        spare, hours, latest = left - self.least(at, wants), 0, 0
        for id_ in self.order[at:]:
            its = [self._freshest(id_, (want,)) for want in wants[id_]]
            if None in its:
                return None
            least = self._least(id_, wants)
            if any(user.id in open_ for user in self.users[id_]):
                first = min((one for one in its if one is not None), default=self.latest[id_])
                hours += first + (least - 1) * self.latest[id_]
            elif wants[id_]:
                most = sum(sorted(one for one in its if one is not None)[-least:])
                hours += min(most, self._own(id_, _sorted(wants[id_])).get(least, 0))
            latest = max(latest, self.latest[id_])
        return hours + max(0, spare) * latest

    def _card(self, at: int, wants: Wants, left: int, ready: int) -> int | None:
        if at == len(self.order):
            return ready if ready > self._above else None
        if self.least(at, wants) > left:
            return None
        id_ = self.order[at]
        known, rest = _sorted(wants[id_]), self.least(at + 1, wants)
        if not known:
            return self._card(at + 1, wants, left, ready)
        for groups in self._groupings(id_, known):
            if len(groups) > left - rest:
                return None
            its = [tuple(known[number] for number in group) for group in groups]
            found = self._batches(at, its, 0, wants, left - len(groups), ready)
            if found is not None:
                return found
        return None

    def _batches(
        self, at: int, groups: Sequence[Group], number: int, wants: Wants, left: int, ready: int
    ) -> int | None:
        self._try_one()
        if number == len(groups):
            return self._card(at + 1, wants, left, ready)
        id_, card, group = self.order[at], self.cards[self.order[at]], groups[number]
        best = [self._freshest(id_, one) for one in groups[number:]]
        if None in best:
            return None
        rest = self._bound(at + 1, wants, left, open_=self.order[at:])
        if rest is None:
            return None
        rest += ready + sum(one for one in best[1:] if one is not None)
        seen = set()
        for way in self.options(id_, group):
            alike = (way.hands, way.oven, tuple(way.starts[step] for _, step in card.parts))
            if rest + way.ready <= self._above:
                return None
            if alike in seen or not self.kitchen.is_free(way):
                continue
            seen.add(alike)
            self._try_one()
            further = dict(wants)
            services = tuple(sorted({day for want in group for day in want.services}))
            for part, step in card.parts:
                want = Want(way.starts[step], max(one.served for one in group), services)
                further[part] = (*further[part], want)
            self.kitchen.take(way)
            found = self._batches(at, groups, number + 1, further, left, ready + way.ready)
            self.kitchen.give_back(way)
            if found is not None:
                return found
        return None

    def _try_one(self) -> None:
        self._left -= 1
        if self._left < 0:
            raise TooManyError

    def _freshest(self, id_: str, group: Group) -> int | None:
        """The latest hour at which a batch could be ready by what is free now."""
        return next((way.ready for way in self.options(id_, group) if self.kitchen.is_free(way)), None)


def _sorted(wants: Group) -> Group:
    return tuple(sorted(wants, key=lambda want: (want.due, want.served)))
