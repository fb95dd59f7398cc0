"""What turned out on the way and is asked of the batches that are planned anew: start earlier, serve less, or do not.

Knows which batch is asked what; where it then lands is not its business.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from linebook.compute.placing import Place
from linebook.compute.plan_demands import Demand
from linebook.compute.plan_results import Barrier, Unready

_MOST_PULLS = 10
"""How often a batch for a service may be asked to start earlier still."""
_MOST = 2000
"""After so many askings nothing more is asked; what then has no way cannot be ready."""


class Asks:
    """All that was asked so far. ``told`` is what cannot be ready, by component and service."""

    def __init__(self, until: Mapping[tuple[str, date], int] | None = None) -> None:
        """Begin with batches that are to start by a moment, by their component and first service."""
        self.told: dict[tuple[str, date], Unready] = {}
        self._failed: set[tuple[str, tuple[object, ...]]] = set()
        self._until: dict[tuple[str, date], dict[int, int]] = {key: {0: at} for key, at in (until or {}).items()}
        self._stuck: set[tuple[str, date]] = set()
        self._pulls: Counter[tuple[str, date]] = Counter()
        self._apart: dict[tuple[str, tuple[object, ...]], set[tuple[object, ...]]] = {}
        self._asked = 0

    def is_off(self, component: str, demand: Demand) -> bool:
        """Return whether a demand of the plates has no way."""
        return (component, demand.key) in self._failed

    def until(self, component: str, group: Iterable[Demand]) -> dict[int, int]:
        """Return the moments by which stages must start, so that what goes in there can be ready."""
        found: dict[int, int] = {}
        for day in {day for one in group for day in one.services}:
            for stage, moment in self._until.get((component, day), {}).items():
                found[stage] = min(moment, found.get(stage, moment))
        return found

    def may_join(self, component: str, first: Demand, demand: Demand) -> bool:
        """Return whether a batch for the one may serve the other too."""
        return demand.key not in self._apart.get((component, first.key), ())

    def may_pull(self, demand: Demand) -> bool:
        """Return whether the batch that makes a demand may be asked to start earlier."""
        key = (demand.user or "", min(demand.services))
        return self._asked < _MOST and key not in self._stuck and self._pulls[key] < _MOST_PULLS

    def pull(self, demand: Demand, stage: int, moment: int) -> None:
        """Ask the batch that makes a demand to start a stage by a moment.

        Only that for the first service is asked to; the others may find a batch of their own.
        """
        key = (demand.user or "", min(demand.services))
        known = self._until.setdefault(key, {})
        known[stage] = min(moment, known.get(stage, moment))
        self._pulls[key] += 1
        self._asked += 1

    def let_go(self, component: str, demand: Demand) -> None:
        """Ask it no more of a batch that has no way to start so early."""
        for day in demand.services:
            self._until.pop((component, day), None)
            self._stuck.add((component, day))

    def cut(self, place: Place) -> bool:
        """Ask for the last demand of a batch to be left to another batch; return whether it has more than one."""
        first = place.demands[0]
        others = [demand for demand in place.demands if demand.key != first.key]
        if not others or self._asked >= _MOST:
            return False
        last = max(others, key=lambda demand: (demand.served, demand.due))
        self._apart.setdefault((place.component.id, first.key), set()).add(last.key)
        self._asked += 1
        return True

    def fail(self, component: str, demand: Demand) -> None:
        """Ask no more for a demand of the plates."""
        self._failed.add((component, demand.key))

    def tell(
        self,
        component: str,
        days: Sequence[date],
        barrier: Barrier,
        part: str | None = None,
        *,
        closed: tuple[date, ...] = (),
    ) -> None:
        """Note that a component cannot be ready for services; what was found first stands."""
        for day in days:
            told = Unready(component=component, service=day, barrier=barrier, part=part, closed=closed)
            self.told.setdefault((component, day), told)
