"""A batch as legs of work on the grid, and what of the kitchen they take: hands, places, vessels.

Knows one batch and who else has taken what; where on the grid a batch lands is ``chains``' business.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import gcd
from typing import Final

from linebook.compute.results import Batch
from linebook.compute.slots import Slots, between, slots_in
from linebook.compute.stage_contents import vessels_at_least
from linebook.compute.stage_times import loads_of_stages, stage_times
from linebook.model.amounts import Duration
from linebook.model.component import Attended, Component, Stage
from linebook.model.house import Climate, House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_HOT_WAIT: Final = 30
"""Minutes that what leaves a hot stage may stand before the next (common practice, no source): it is still hot."""
_ROOM_WAIT: Final = 120
"""Minutes that what leaves a stage at room temperature may stand (common practice, no source)."""


@frozen
class LegPlan:
    """One load of one stage, in slots, and what it takes while it runs; ``minutes`` is the work with the hands.

    ``near`` is true where somebody must be in the building while it works by itself. ``takes`` are the keys of places
    and vessels, with how many of each.
    """

    stage: int
    load: int
    loads: int
    hands: int
    least: int
    most: int
    finish: int
    judged: bool
    wait: int | None
    near: bool
    minutes: int
    takes: tuple[tuple[str, int], ...] = ()


class Taken:
    """Who has taken what of the kitchen, moment by moment: cooks by line, places, vessels."""

    def __init__(self, house: House) -> None:
        self._most: dict[str, int] = {f"cooks:{line.id}": line.cooks for line in house.file.lines}
        self._most |= {f"place:{place.id}": place.count for place in house.file.places if place.count}
        self._most |= {f"vessel:{vessel.id}": vessel.count for vessel in house.file.vessels if vessel.count}
        self._layers: dict[str, list[Slots]] = {}

    def free(self, key: str, first: int, width: int, wanted: int = 1) -> Slots:
        """Return the moments from ``first`` on, counted from there, at which so many of a thing are free.

        Of what nobody has counted there are enough. Who wants more than there are waits until all are free.
        """
        most, layers, whole = self._most.get(key), self._layers.get(key, ()), between(0, width)
        if most is None or most - min(wanted, most) >= len(layers):
            return whole
        return whole & ~(layers[most - min(wanted, most)] >> first)

    def most(self, key: str) -> int | None:
        """Return how many of a thing there are, None where nobody has counted them."""
        return self._most.get(key)

    def is_over(self, key: str, first: int, last: int) -> bool:
        """Return whether more of a thing is taken than there is, at some moment from one to another."""
        most, layers = self._most.get(key), self._layers.get(key, ())
        return most is not None and most < len(layers) and bool(layers[most] & between(first, last))

    def copy(self) -> dict[str, list[Slots]]:
        """Return all that is taken, to come back to."""
        return {key: list(layers) for key, layers in self._layers.items()}

    def restore(self, known: Mapping[str, Sequence[Slots]]) -> None:
        """Come back to what was taken then."""
        self._layers = {key: list(layers) for key, layers in known.items()}

    def take(self, key: str, first: int, last: int, wanted: int = 1) -> None:
        """Take so many of a thing from one moment to another."""
        most = self._most.get(key)
        if most is None or last <= first:
            return
        layers = self._layers.setdefault(key, [])
        for _ in range(min(wanted, most)):
            moments = between(first, last)
            for at, layer in enumerate(layers):
                layers[at], moments = layer | moments, layer & moments
                if not moments:
                    break
            if moments:
                layers.append(moments)

    def give_back(self, key: str, first: int, last: int, wanted: int = 1) -> None:
        """Undo one taking."""
        most = self._most.get(key)
        if most is None or last <= first:
            return
        layers = self._layers[key]
        for _ in range(min(wanted, most)):
            moments = between(first, last)
            for at in range(len(layers) - 1, -1, -1):
                layers[at], moments = layers[at] & ~moments, moments & ~layers[at]
                if not moments:
                    break


def chains_of(house: House, batch: Batch, base: Batch) -> tuple[tuple[LegPlan, ...], ...]:
    """Return the legs of a batch in order, as chains that can be worked apart from each other.

    Where every stage is made in two loads, each of the two goes its own way through all of them. Where the loads
    differ, all loads of a stage are worked before the next: what waits is counted from the end of a stage's last load
    to the first of the next, and from load to load of that. A component without stages is one leg that takes no time
    that anybody knows.
    """
    component = batch.component
    if not component.stages:
        nothing = LegPlan(
            stage=0, load=0, loads=1, hands=0, least=0, most=0, finish=0, judged=False, wait=None, near=False, minutes=0
        )
        return ((nothing,),)
    chains = gcd(*loads_of_stages(batch))
    return tuple(_chain(house, batch, base, chain, chains) for chain in range(chains))


def _chain(house: House, batch: Batch, base: Batch, chain: int, chains: int) -> tuple[LegPlan, ...]:
    component, loads_of = batch.component, loads_of_stages(batch)
    found: list[LegPlan] = []
    between_loads: int | None = None
    for at, (stage, times) in enumerate(zip(component.stages, stage_times(batch, base), strict=True)):
        waits = _wait_after(house, stage)
        takes = _takes(house, batch, at)
        last = loads_of[at] // chains * (chain + 1)
        for load in range(loads_of[at] // chains * chain, last):
            found.append(
                LegPlan(
                    stage=at,
                    load=load,
                    loads=loads_of[at],
                    hands=_slots(times.hands_on),
                    least=slots_in(times.by_itself.least) if times.by_itself else 0,
                    most=_slots(times.by_itself),
                    finish=_slots(times.finish),
                    judged=stage.until is not None and times.by_itself is not None and _is_watched(house, stage),
                    wait=waits if load + 1 == last else between_loads,
                    near=_is_watched(house, stage),
                    minutes=_minutes(times.hands_on) + _minutes(times.finish),
                    takes=takes,
                )
            )
        between_loads = waits
    return tuple(found)


def life_leg(house: House, component: Component, legs: Sequence[LegPlan]) -> int:
    """Return the leg whose end begins the life of a component: of its last hot stage, else of its last one.

    Of several loads it is the first: no part of the batch is older than its date says.
    """
    hot = [at for at, stage in enumerate(component.stages) if _climate(house, stage) is Climate.HOT]
    stage = hot[-1] if hot else legs[-1].stage
    return next(number for number, leg in enumerate(legs) if leg.stage == stage)


def _wait_after(house: House, stage: Stage) -> int | None:
    if stage.may_hold is not None:
        return slots_in(stage.may_hold.most)
    climate = _climate(house, stage)
    if climate in (Climate.COLD, Climate.FROZEN):
        return None
    return slots_in(_HOT_WAIT if climate is Climate.HOT else _ROOM_WAIT)


def _is_watched(house: House, stage: Stage) -> bool:
    """Return whether somebody must be in the building. What is hot, and a fryer, defaults to that (common practice)."""
    if stage.attended is not None:
        return stage.attended is not Attended.LEFT
    return _climate(house, stage) is Climate.HOT or bool(stage.through)


def _takes(house: House, batch: Batch, at: int) -> tuple[tuple[str, int], ...]:
    stage = batch.component.stages[at]
    found: list[tuple[str, int]] = []
    if stage.where is not None:
        found.append((f"place:{stage.where}", 1))
    if stage.vessel is not None:
        found.append((f"vessel:{stage.vessel}", max(1, vessels_at_least(house, batch, at))))
    return tuple(found)


def _climate(house: House, stage: Stage) -> Climate:
    places: Mapping[str, Climate] = {place.id: place.climate for place in house.file.places}
    return places.get(stage.where or "", Climate.ROOM)


def _slots(time: Duration | None) -> int:
    return slots_in(time.most) if time else 0


def _minutes(time: Duration | None) -> int:
    return -int(-Fraction(time.most) // 1) if time else 0
