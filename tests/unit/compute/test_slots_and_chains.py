"""Sets of moments against moments tried one by one, and the latest chain against every chain there is."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence

from linebook.compute.chains import Leg, Placed, place_chain
from linebook.compute.slots import after, before, between, earliest, free_for, latest, slots_in


def moments(chance: random.Random, width: int, likely: float) -> int:
    return sum(1 << at for at in range(width) if chance.random() < likely)


def test_free_before_and_after_agree_with_counting() -> None:
    chance = random.Random(1)
    for _ in range(3000):
        width = chance.randint(1, 40)
        free, targets = moments(chance, width, 0.8), moments(chance, width, 0.3)
        least = chance.randint(0, 6)
        most = least + chance.randint(0, 9)
        run = chance.randint(0, 7)

        def is_free(first: int, last: int, free: int = free, width: int = width) -> bool:
            return all(0 <= at < width and free >> at & 1 for at in range(first, last))

        def is_target(at: int, targets: int = targets, width: int = width) -> bool:
            return 0 <= at < width and bool(targets >> at & 1)

        places, spans = range(width), range(least, most + 1)
        assert free_for(free, run, width) == sum(1 << at for at in places if is_free(at, at + run))
        assert before(targets, free, least, most, width) == sum(
            1 << at for at in places if any(is_target(at + far) and is_free(at, at + far) for far in spans)
        )
        assert after(targets, free, least, most, width) == sum(
            1 << at for at in places if any(is_target(at - far) and is_free(at - far, at) for far in spans)
        )


def test_single_moments() -> None:
    assert between(2, 5) == 0b11100
    assert between(5, 2) == 0
    assert (latest(0b10100), earliest(0b10100)) == (4, 2)
    assert [slots_in(minutes) for minutes in (0, 1, 5, 6, 90)] == [0, 1, 1, 2, 18]


def all_of(mask: int, first: int, last: int, width: int) -> bool:
    return all(0 <= at < width and mask >> at & 1 for at in range(first, last))


def ways(leg: Leg, starts: Sequence[int], width: int) -> Iterator[Placed]:
    """Yield every way to work one leg from one of these starts."""
    for start in starts:
        alone = start + leg.hands
        if not leg.start >> start & 1 or not all_of(leg.work & leg.room, start, alone, width) or alone >= width:
            continue
        for by_itself in [leg.most] if leg.judged else range(leg.least, leg.most + 1):
            done = alone + by_itself
            over = done + leg.finish
            watched = not leg.judged or all_of(leg.present, done - (leg.most - leg.least), over, width)
            if (
                over < width
                and watched
                and all_of(leg.near & leg.room, alone, done, width)
                and all_of(leg.work & leg.room, done, over, width)
                and leg.end >> over & 1
            ):
                yield Placed(start=start, alone=alone, done=done, over=over)


def every_chain(legs: Sequence[Leg], width: int) -> Iterator[tuple[Placed, ...]]:
    """Yield every chain of legs that keeps all limits."""

    def further(done: tuple[Placed, ...]) -> Iterator[tuple[Placed, ...]]:
        if len(done) == len(legs):
            yield done
            return
        first, last = 0, width - 1
        if done:
            wait = legs[len(done) - 1].wait
            first = done[-1].over
            last = last if wait is None else min(last, first + wait)
        for placed in ways(legs[len(done)], range(first, last + 1), width):
            yield from further((*done, placed))

    yield from further(())


def test_the_latest_chain_of_all_is_found() -> None:
    chance = random.Random(2)
    found = 0
    for _ in range(1200):
        width = chance.randint(8, 20)
        likely = chance.choice([0.8, 0.9, 0.95])
        legs = []
        for _ in range(chance.randint(1, 3)):
            least = chance.randint(0, 3)
            legs.append(
                Leg(
                    hands=chance.randint(0, 2),
                    least=least,
                    most=least + chance.randint(0, 3),
                    finish=chance.randint(0, 2),
                    judged=chance.random() < 0.3,
                    wait=chance.choice([None, 0, 1, 3]),
                    work=moments(chance, width, likely),
                    near=moments(chance, width, likely),
                    present=moments(chance, width, likely),
                    room=moments(chance, width, 0.95),
                    start=moments(chance, width, 0.9),
                    end=moments(chance, width, 0.8),
                )
            )
        all_chains = set(every_chain(legs, width))
        placed = place_chain(legs, width)
        if placed is None:
            assert not all_chains
            continue
        found += 1
        assert placed in all_chains
        assert (placed[-1].over, placed[0].start) == max((chain[-1].over, chain[0].start) for chain in all_chains)
    assert found > 400
