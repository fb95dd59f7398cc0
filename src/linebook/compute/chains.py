"""The latest time at which the stages of one batch can be worked, one after another, so that none breaks a limit.

Every moment of the span is tried at once, as sets of moments. A batch is ready as late as its limits let it be, and of
the ways that are ready then, the one that starts last is taken. Knows legs and moments; knows no component.
"""

from __future__ import annotations

from collections.abc import Sequence

from linebook.compute.slots import Slots, after, before, between, earliest, free_for, latest
from linebook.source.frozen import frozen


@frozen
class Leg:
    """One load of one stage, in slots: ``hands`` of work, ``least`` to ``most`` by itself, ``finish`` of work.

    ``judged`` is set where the cook must wait for it to be done: it is planned to its most, and somebody must be there
    from its least on. ``wait`` is how long what it leaves may stand before the next leg, None for as long as it likes.
    ``work`` is when hands are free, ``near`` when somebody is as near as it needs while it works by itself, ``present``
    when somebody is in the building, ``room`` when its place and vessel are free, ``start`` when it may begin and
    ``end`` when it may be over.
    """

    hands: int
    least: int
    most: int
    finish: int
    judged: bool
    wait: int | None
    work: Slots
    near: Slots
    present: Slots
    room: Slots
    start: Slots
    end: Slots


@frozen
class Placed:
    """When one leg is worked: its moments of start, hands off, done and over."""

    start: int
    alone: int
    done: int
    over: int


def place_chain(legs: Sequence[Leg], width: int) -> tuple[Placed, ...] | None:
    """Return when each leg is worked, or None where no way keeps every limit.

    The last leg is over as late as can be, then the first starts as late as can be; each leg between takes no longer
    by itself than it must, and the next starts as late as it may.
    """
    forward = _forward(legs, width)
    if not forward[-1]:
        return None
    starts, dones = _backward(legs, forward, 1 << latest(forward[-1]), width)
    placed: list[Placed] = []
    begin = starts[0]
    for at, leg in enumerate(legs):
        start = latest(begin)
        alone = start + leg.hands
        done = earliest(dones[at] & between(alone + (leg.most if leg.judged else leg.least), alone + leg.most + 1))
        over = done + leg.finish
        placed.append(Placed(start=start, alone=alone, done=done, over=over))
        if at + 1 < len(legs):
            begin = starts[at + 1] & _waiting_from(1 << over, leg.wait, width)
    return tuple(placed)


def _forward(legs: Sequence[Leg], width: int) -> list[Slots]:
    """Return for each leg the moments at which it can be over."""
    found: list[Slots] = []
    starts = between(0, width)
    for leg in legs:
        hands = leg.work & leg.room
        begun = starts & leg.start & free_for(hands, leg.hands, width)
        alone = begun << leg.hands
        done = after(alone, leg.near & leg.room, leg.most if leg.judged else leg.least, leg.most, width)
        over = ((done & can_finish(leg, width)) << leg.finish) & between(0, width) & leg.end
        found.append(over)
        starts = _waiting_from(over, leg.wait, width)
    return found


def _backward(
    legs: Sequence[Leg], forward: Sequence[Slots], last: Slots, width: int
) -> tuple[list[Slots], list[Slots]]:
    """Return for each leg the moments of its start, and those at which it is done by itself, that lead to ``last``."""
    starts: list[Slots] = [0] * len(legs)
    dones: list[Slots] = [0] * len(legs)
    over = last
    for at in range(len(legs) - 1, -1, -1):
        leg = legs[at]
        dones[at] = ((over & forward[at]) >> leg.finish) & can_finish(leg, width)
        alone = before(dones[at], leg.near & leg.room, leg.most if leg.judged else leg.least, leg.most, width)
        begun = (alone >> leg.hands) & free_for(leg.work & leg.room, leg.hands, width) & leg.start
        if at:
            begun &= _waiting_from(forward[at - 1], legs[at - 1].wait, width)
            over = _waiting_until(begun, legs[at - 1].wait, width)
        starts[at] = begun
    return starts, dones


def can_finish(leg: Leg, width: int) -> Slots:
    """Return the moments of being done at which somebody can see to it, and has been there since it could be done."""
    found = free_for(leg.work & leg.room, leg.finish, width)
    if leg.judged:
        watched = leg.most - leg.least
        found &= (free_for(leg.present, watched + leg.finish, width) << watched) & between(0, width)
    return found


def _waiting_from(over: Slots, wait: int | None, width: int) -> Slots:
    """Return the moments no more than a wait after any of these."""
    if not over:
        return 0
    whole = between(0, width)
    if wait is None:
        return between(earliest(over), width)
    return after(over, whole, 0, wait, width)


def _waiting_until(begun: Slots, wait: int | None, width: int) -> Slots:
    """Return the moments no more than a wait before any of these."""
    if not begun:
        return 0
    whole = between(0, width)
    if wait is None:
        return between(0, latest(begun) + 1)
    return before(begun, whole, 0, wait, width)
