"""When every strand of a pick-up starts, so that all dishes called together land at once.

Owns turns and the sharing of places between the dishes of one call. It must not know paper, clocks or the menu. All
times are minutes before the plates land, exact. Cooks are not modelled: a strand takes its minutes whoever does it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from heapq import heapify, heappop, heappush
from itertools import groupby, islice, permutations
from math import factorial, lcm, prod
from typing import Final, NamedTuple

from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

MOST_ORDERS: Final = 1_000
"""Up to so many orders of the portions on a place every one is tried; of more, only those that keep a dish together."""

_MOST_SINGLY: Final = 50
"""Portions on one place. Of more, the orders are always too many, unless all are of one dish."""


@frozen
class Strand:
    """One strand of one dish. ``number`` counts from 0; ``do`` is None where the dish gives no more than its `call`.

    ``at_once`` is how many portions all places of this kind take together, None where no limit is known.
    """

    dish: str
    number: int
    do: str | None
    line: str
    where: str | None
    takes: Fraction
    rests: Fraction
    at_once: int | None


@frozen
class Go:
    """Some portions of a strand done at one time: ``turn`` of ``turns``, the earliest is 1.

    It starts ``start`` minutes before the plates land, comes off at ``off``, rests, then ``waits`` for the others.
    """

    strand: Strand
    portions: int
    turn: int
    turns: int
    start: Fraction
    waits: Fraction

    @property
    def off(self) -> Fraction:
        """Return how many minutes before the plates land it comes off."""
        return self.start - self.strand.takes


@frozen
class Crowd:
    """A moment at which more strands of a line start than it has cooks."""

    line: str
    start: Fraction
    strands: int
    cooks: int


@frozen
class Call:
    """Dishes called together: every go, the earliest first. ``untimed`` are dishes whose spec gives no time at all."""

    portions: Mapping[str, int]
    goes: tuple[Go, ...]
    untimed: tuple[str, ...]
    crowds: tuple[Crowd, ...]

    @property
    def minutes(self) -> Fraction:
        """Return how long it takes from the call until all plates land."""
        return max((go.start for go in self.goes), default=Fraction(0))


class _Task(NamedTuple):
    """What a strand asks of its place, in whole ticks; ``load`` is what one portion fills, of ``_Way``'s whole."""

    portions: int
    load: int
    takes: int
    rests: int


class _Way(NamedTuple):
    """One way to share a place: when the first portion starts, how long portions wait, and each go.

    A go is which task, how many portions, and how long they wait.
    """

    length: int
    waiting: int
    goes: tuple[tuple[int, int, int], ...]


def strands_of(house: House, dish: Dish) -> tuple[Strand, ...]:
    """Return a dish's strands: those of its pick-up, else one of its `call` on its own line; none without times."""
    counts = {place.id: place.count or 1 for place in house.file.places}
    found = tuple(
        Strand(
            dish=dish.id,
            number=number,
            do=one.do,
            line=one.line or dish.line,
            where=one.where,
            takes=one.takes.most,
            rests=one.rests.most if one.rests else Fraction(0),
            at_once=one.at_once * counts.get(one.where, 1) if one.at_once and one.where else None,
        )
        for number, one in enumerate(dish.pick_up)
    )
    if found or dish.call is None:
        return found
    none = Fraction(0)
    return (
        Strand(
            dish=dish.id, number=0, do=None, line=dish.line, where=None, takes=dish.call.most, rests=none, at_once=None
        ),
    )


def compute_call(house: House, portions: Mapping[str, int]) -> Call:
    """Return when everything starts for dishes called together; ``portions`` are by dish, at least 1.

    The call is as short as the places allow; then the portions done before the others wait as little as can be,
    counted in portions times minutes; then it is as few goes as can be. A strand without a known limit is one go.
    """
    strands = [strand for id_ in portions for strand in strands_of(house, house.dishes[id_])]
    ticks = lcm(*(part.denominator for strand in strands for part in (strand.takes, strand.rests)))
    free = [strand for strand in strands if strand.at_once is None]
    by_place = _by_place(strands)
    ways = {place: _ways(found, portions, ticks) for place, found in by_place.items()}
    shortest = [min(way.length for way in found) for found in ways.values()]
    length = max([*shortest, *(_ticks(one.takes + one.rests, ticks) for one in free)], default=0)
    goes = [_go(strand, portions[strand.dish]) for strand in free]
    for place, found in ways.items():
        kept = (way for way in found if way.length <= length)
        best = min(kept, key=lambda way: (way.waiting, len(way.goes), way.length))
        goes += _goes(by_place[place], best, ticks)
    order = {strand: at for at, strand in enumerate(strands)}
    goes.sort(key=lambda go: (-go.start, order[go.strand]))
    timed = {strand.dish for strand in strands}
    return Call(
        portions=dict(portions),
        goes=tuple(goes),
        untimed=tuple(id_ for id_ in portions if id_ not in timed),
        crowds=tuple(_crowds(house, goes)),
    )


def _by_place(strands: Iterable[Strand]) -> dict[str, list[Strand]]:
    found: dict[str, list[Strand]] = {}
    for strand in strands:
        if strand.at_once is not None and strand.where is not None:
            found.setdefault(strand.where, []).append(strand)
    return found


def _ticks(minutes: Fraction, ticks: int) -> int:
    return int(minutes * ticks)


def _go(strand: Strand, portions: int) -> Go:
    start = strand.takes + strand.rests
    return Go(strand=strand, portions=portions, turn=1, turns=1, start=start, waits=Fraction(0))


def _goes(strands: Sequence[Strand], way: _Way, ticks: int) -> Iterator[Go]:
    for number, strand in enumerate(strands):
        own = sorted(((portions, wait) for task, portions, wait in way.goes if task == number), key=lambda one: -one[1])
        for turn, (portions, wait) in enumerate(own, start=1):
            waits = Fraction(wait, ticks)
            start = waits + strand.rests + strand.takes
            yield Go(strand=strand, portions=portions, turn=turn, turns=len(own), start=start, waits=waits)


# -- sharing one place


def _ways(strands: Sequence[Strand], portions: Mapping[str, int], ticks: int) -> list[_Way]:
    """Return ways to share one place, the shortest and those that wait least among them."""
    whole = lcm(*(strand.at_once or 1 for strand in strands))
    tasks = [
        _Task(
            portions=portions[strand.dish],
            load=whole // (strand.at_once or 1),
            takes=_ticks(strand.takes, ticks),
            rests=_ticks(strand.rests, ticks),
        )
        for strand in strands
    ]
    return [_way(order, tasks, whole) for order in _orders([task.portions for task in tasks])]


def _orders(counts: Sequence[int]) -> Iterable[Sequence[tuple[int, int]]]:
    """Return the orders in which portions are placed, as runs of a task: all that differ, or a few of too many."""
    if sum(counts) <= _MOST_SINGLY:
        ways = factorial(sum(counts)) // prod(factorial(count) for count in counts)
        if ways <= MOST_ORDERS:
            return ([(task, len([*run])) for task, run in groupby(order)] for order in _all_orders([*counts]))
    tasks = [*enumerate(counts)]
    return [*islice(permutations(tasks), MOST_ORDERS)]


def _all_orders(counts: list[int]) -> Iterator[tuple[int, ...]]:
    """Yield every order of portions once; those of one task are not told apart."""
    if not any(counts):
        yield ()
        return
    for task, count in enumerate(counts):
        if count:
            counts[task] -= 1
            for rest in _all_orders(counts):
                yield (task, *rest)
            counts[task] += 1


def _way(order: Iterable[tuple[int, int]], tasks: Sequence[_Task], whole: int) -> _Way:
    """Place portions one after another, each as near to the landing as those before it leave room.

    Counted from the landing back, what a portion takes follows what it rests. Every best way comes from some order,
    since in a best way no portion can come later while the others stay.
    """
    taken: dict[tuple[int, int, int], int] = {}
    for number, portions in order:
        task, left = tasks[number], portions
        starts = [task.rests, *{end for _, end, _ in taken if end > task.rests}]
        heapify(starts)
        while left:  # at the last end all of the place is free again, so no start is ever wanting
            start = heappop(starts)
            put = _put(taken, number, task, start, left, whole)
            if put:
                left -= put
                heappush(starts, start + task.takes)
    goes = tuple(
        (number, load // tasks[number].load, start - tasks[number].rests) for (start, _, number), load in taken.items()
    )
    waiting = sum(portions * wait for _, portions, wait in goes)
    return _Way(max(end for _, end, _ in taken), waiting, goes)


def _put(
    taken: dict[tuple[int, int, int], int], number: int, task: _Task, start: int, portions: int, whole: int
) -> int:
    """Put as many portions as there is room for from ``start`` back; return how many."""
    end = start + task.takes
    beside = [(first, last, load) for (first, last, _), load in taken.items() if first < end and last > start]
    moments = {start, *(first for first, _, _ in beside if first > start)}
    room = min(whole - sum(load for first, last, load in beside if first <= one < last) for one in moments)
    put = min(portions, room // task.load)
    if put:
        key = (start, end, number)
        taken[key] = taken.get(key, 0) + put * task.load
    return put


def _crowds(house: House, goes: Iterable[Go]) -> Iterator[Crowd]:
    cooks = {line.id: line.cooks for line in house.file.lines}
    starts = Counter((go.strand.line, go.start) for go in goes)
    for (line, start), strands in starts.items():
        if strands > cooks[line]:
            yield Crowd(line=line, start=start, strands=strands, cooks=cooks[line])
