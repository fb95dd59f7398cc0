"""The latest way to make given batches, none in another's way: who goes first where something is wanted by too many.

Two that take the last of something at once can only be made one after the other: both orders are tried, that first
which leaves all ready later. Knows groups and their moments; which groups there are is not its business.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TypeAlias

from linebook.compute.plan_bounds import Bounds
from linebook.compute.plan_group import Group, Span

Clash: TypeAlias = tuple[Span, ...]
Way: TypeAlias = tuple[int, Span, Span]
"""Minus how late all is ready where the one goes before the other, and the two."""


class TooManyError(Exception):
    """More ways were tried than may be."""


class Clashes:
    """Looks for the latest way; ``left`` are the ways that may still be tried."""

    def __init__(self, bounds: Bounds, most: Callable[[str], int | None], left: int) -> None:
        self.left = left
        self._bounds, self._most = bounds, most

    def try_one(self) -> None:
        """Count one way more that is tried."""
        self.left -= 1
        if self.left < 0:
            raise TooManyError

    def latest(self, groups: Sequence[Group], above: int) -> tuple[int, list[int]] | None:
        """Return how late the batches are ready, added up, and their moments; None where no way is above so much."""
        ready = ready_of(groups, self._bounds.latest)
        if ready <= above:
            return None
        ways = self._ways_out(groups, above)
        if ways is None:
            return ready, list(self._bounds.latest)
        found = None
        for _, first, then in ways:
            mark = self._bounds.mark()
            self._after(first, then)
            self._bounds.settle()
            better = self.latest(groups, above)
            if better is not None:
                found, above = better, better[0]
            self._bounds.back(mark)
        return found

    def _ways_out(self, groups: Sequence[Group], above: int) -> Sequence[Way] | None:
        """Return the ways out of the clash that costs the most however it is settled, None where there is none."""
        found: Sequence[Way] | None = None
        for clash in self._clashes(groups):
            ways = self._in_turn(groups, clash, above)
            if len(ways) < 2:
                return ways
            if found is None or ways[0][0] > found[0][0]:
                found = ways
        return found

    def _in_turn(self, groups: Sequence[Group], clash: Clash, above: int) -> Sequence[Way]:
        """Return the pairs of which one can go before the other, those first that leave all ready later."""
        found = []
        for at, (first, then) in enumerate(_pairs(clash)):
            self.try_one()
            mark = self._bounds.mark()
            self._after(first, then)
            if self._bounds.settle():
                ready = ready_of(groups, self._bounds.latest)
                if ready > above:
                    found.append((-ready, at, first, then))
            self._bounds.back(mark)
        return [(ready, first, then) for ready, _, first, then in sorted(found, key=lambda one: one[:2])]

    def _after(self, first: Span, then: Span) -> None:
        self._bounds.limit(first.last, then.first, then.first_plus - first.last_plus)

    def _clashes(self, groups: Sequence[Group]) -> Iterator[Clash]:
        """Yield those that take more of a thing at one moment than there is, each time the fewest that do."""
        latest = self._bounds.latest
        spans: dict[str, list[tuple[int, int, Span]]] = {}
        for group in groups:
            for span in group.spans:
                first, last = latest[span.first] + span.first_plus, latest[span.last] + span.last_plus
                if first < last and self._most(span.key) is not None:
                    spans.setdefault(span.key, []).append((first, last, span))
        for key, taken in spans.items():
            most = self._most(key) or 0
            taken.sort(key=lambda one: -one[0])
            for at, (first, _, span) in enumerate(taken):
                clash = [span, *(other for _, last, other in taken[at + 1 :] if last > first)]
                if sum(min(one.wanted, most) for one in clash) > most:
                    yield _fewest(clash, most)


def ready_of(groups: Sequence[Group], latest: Sequence[int]) -> int:
    """Return how late batches are ready, added up."""
    return sum(group.ready(latest) for group in groups)


def _fewest(clash: Sequence[Span], most: int) -> Clash:
    found: list[Span] = []
    for span in sorted(clash, key=lambda one: -one.wanted):
        found.append(span)
        if sum(min(one.wanted, most) for one in found) > most:
            break
    return tuple(found)


def _pairs(clash: Clash) -> Iterator[tuple[Span, Span]]:
    for at, one in enumerate(clash):
        for other in clash[at + 1 :]:
            yield one, other
            yield other, one
