"""The containers that what is made on a day of a plan goes into: a label is stuck on each. Exact, whole containers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from linebook.compute.pans import vessels_for
from linebook.compute.plan_results import Making, PrepPlan
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.model.units import times
from linebook.source.frozen import frozen


@frozen
class Containers:
    """What one batch goes into: ``count`` of them, ``amount`` in each. ``menu`` is the one it is first served on.

    Where the vessel it is stored in, or how much of it that takes, is not known, each load has a container.
    """

    making: Making
    menu: str
    count: int
    amount: Amount


def containers_of(house: House, plan: PrepPlan, day: date, lines: Sequence[str]) -> tuple[Containers, ...]:
    """Return the containers of what these lines have ready on a day, line by line, in the order it is ready."""
    menus = {service.day: service.menu for service in (*plan.services, *plan.later)}
    ready = [one for one in plan.makings if one.ready.date() == day and one.batch.component.line in lines]
    ready.sort(key=lambda one: (lines.index(one.batch.component.line), one.ready, one.number))
    return tuple(_containers(house, making, menus[making.services[0]]) for making in ready)


def _containers(house: House, making: Making, menu: str) -> Containers:
    batch = making.batch
    store = batch.component.store.vessel if batch.component.store else None
    vessel = next((one for one in house.file.vessels if one.id == store), None)
    count = vessels_for(house, batch.component.id, batch.total, vessel) if vessel else None
    number = count or max(stage.loads for stage in making.stages)
    return Containers(making=making, menu=menu, count=number, amount=times(batch.total, Fraction(1, number)))
