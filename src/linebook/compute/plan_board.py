"""What is on the plan so far: batches with their places on the grid, what they want of others, what is left in stock.

Knows how to put a batch on, to move it and to come back to an earlier state; which there are is not its business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from linebook.compute.placing import Place, Placer, Placing
from linebook.compute.plan_demands import Demand, days_in_trims, plated, wanted_by
from linebook.compute.plan_stock import LeftStock, Stock
from linebook.compute.services import ServiceDay
from linebook.compute.slots import Slots
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.contents import stage_of
from linebook.model.house import House
from linebook.model.supply import StockEntry
from linebook.source.frozen import frozen


@frozen(eq=False)
class Kept:
    """A state of the board to come back to."""

    placed: tuple[Place, ...]
    demands: Mapping[str, Sequence[Demand]]
    taken: Mapping[str, Sequence[Slots]]
    stock: LeftStock


class Board:
    """The batches ``placed``, in order, and the ``demands`` on components that follow from them and from the plates.

    ``numbers`` are the places of the batches of each component in that order, ``in_trims`` see ``days_in_trims``.
    """

    def __init__(
        self,
        house: House,
        calendar: WorkCalendar,
        services: Sequence[ServiceDay],
        on_hand: Sequence[StockEntry],
        arrives: Mapping[str, date],
    ) -> None:
        self.house, self.calendar, self._arrives = house, calendar, arrives
        self.placer = Placer(house, calendar)
        self.stock = Stock(house, on_hand, services)
        self.demands: dict[str, list[Demand]] = plated(house, services, calendar)
        self.placed: list[Place] = []
        self.numbers: dict[str, list[int]] = {id_: [] for id_ in house.components}
        self.in_trims = days_in_trims(house)

    def put(self, place: Place, shares: Sequence[Demand]) -> None:
        """Put a batch on the plan. What it wants of others must keep for its ``shares``."""
        self.placer.take(place.placing)
        self.placed.append(place)
        self.numbers[place.component.id].append(len(self.placed) - 1)
        for part, demand in self._wants(len(self.placed) - 1, shares):
            self.demands.setdefault(part, []).append(demand)

    def move(self, number: int, placing: Placing) -> None:
        """Give a batch that was taken off its new place; what it wants of others is wanted for that."""
        self.placer.take(placing)
        self.placed[number] = replace(self.placed[number], placing=placing)
        moved = {(part, demand.line): demand for part, demand in self._wants(number, self.placed[number].demands)}
        for part, found in self.demands.items():
            self.demands[part] = [moved.get((part, one.line), one) if one.batch == number else one for one in found]
        for at, place in enumerate(self.placed):
            if any(demand.batch == number for demand in place.demands):
                self.placed[at] = replace(
                    place, demands=tuple(_at_new_place(one, number, moved, place) for one in place.demands)
                )

    def parts_ready(self, number: int) -> dict[int, int]:
        """Return the earliest start of each stage of a batch by when those of its parts that are planned are ready."""
        found: dict[int, int] = {}
        component = self.placed[number].component
        for part in self.placed:
            for demand in part.demands:
                if demand.batch == number and demand.line is not None:
                    stage = stage_of(component, demand.line) or 0
                    found[stage] = max(found.get(stage, 0), part.placing.ready)
        return found

    def keep(self) -> Kept:
        """Return the state it is in."""
        return Kept(
            placed=tuple(self.placed),
            demands={id_: tuple(found) for id_, found in self.demands.items()},
            taken=self.placer.taken.copy(),
            stock=self.stock.copy(),
        )

    def restore(self, known: Kept) -> None:
        """Come back to a state it was in."""
        self.placed = list(known.placed)
        for numbers in self.numbers.values():
            while numbers and numbers[-1] >= len(self.placed):
                numbers.pop()
        self.demands = {id_: list(found) for id_, found in known.demands.items()}
        self.placer.taken.restore(known.taken)
        self.stock.restore(known.stock)

    def arrivals(self, component: str) -> dict[int, int]:
        """Return the earliest start of each stage by when what goes in there is in the house."""
        there = {item: self.calendar.at(day, None) for item, day in self._arrives.items() if day}
        spec = self.house.components[component]
        found: dict[int, int] = {}
        for at, line in enumerate(spec.ingredients):
            if line.item in there:
                stage = stage_of(spec, at) or 0
                found[stage] = max(found.get(stage, 0), there[line.item])
        return found

    def _wants(self, number: int, shares: Sequence[Demand]) -> Iterator[tuple[str, Demand]]:
        place = self.placed[number]
        placing = place.placing
        return wanted_by(self.house, placing.sized.batch, number, place.starts, placing.ready, shares, self.calendar)


def _at_new_place(demand: Demand, number: int, moved: Mapping[tuple[str, int | None], Demand], place: Place) -> Demand:
    """Return a demand of a batch that was moved, as much as before, by when it is wanted now."""
    if demand.batch != number:
        return demand
    now = moved[place.component.id, demand.line]
    return replace(demand, due=now.due, doors=now.doors, served=now.served, counted=now.counted)
