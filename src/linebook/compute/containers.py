"""The containers that what is made on a day of a plan goes into, and what it leaves: a label is stuck on each.

Exact amounts, whole containers. A by-product has labels where another card or a plate uses it, or its card says how
long it keeps; what nobody uses goes where trim goes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta

from linebook.compute.pans import vessels_for
from linebook.compute.plan_results import Making, PrepPlan
from linebook.model.amounts import Amount, Duration
from linebook.model.component import ByProduct
from linebook.model.dating import counts_in_trim, days_kept
from linebook.model.house import House
from linebook.model.units import times
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class Containers:
    """What one batch, or a by-product ``left`` by it, goes into: ``count`` of them, ``amount`` in each.

    ``menu`` is the one it is first served on. ``ready`` is when it is there to be put away, ``made`` the day that
    counts as day 1, ``use_by`` the last day, None where nobody has said. Where the vessel it is stored in, or how much
    of it that takes, is not known, each load has a container.
    """

    making: Making
    menu: str
    count: int
    amount: Amount
    ready: datetime
    made: date
    use_by: date | None
    left: ByProduct | None = None

    @property
    def item(self) -> str:
        """Return the id of what is inside."""
        return self.making.component if self.left is None else self.left.item

    @property
    def day(self) -> date:
        """Return the day on which it is put away."""
        return _day_ending(self.ready)

    @property
    def keeps(self) -> Duration | None:
        """Return how long it keeps by itself."""
        return self.making.batch.component.keeps if self.left is None else self.left.keeps


def containers_of(house: House, plan: PrepPlan, day: date, lines: Sequence[str]) -> tuple[Containers, ...]:
    """Return the containers of what these lines have ready on a day, line by line, in the order it is ready."""
    menus = {service.day: service.menu for service in (*plan.services, *plan.later)}
    used = _used(house)
    found = []
    for making in plan.makings:
        if making.batch.component.line in lines:
            menu = menus[making.services[0]]
            found += [_containers(house, making, menu)] if _day_ending(making.ready) == day else []
            found += [one for left in _kept(making, used) for one in _left(plan, making, left, menu, day)]
    found.sort(key=lambda one: (lines.index(one.making.batch.component.line), one.ready, one.making.number, one.item))
    return tuple(found)


def _day_ending(moment: datetime) -> date:
    """Return the day on which what is over at a moment was made: at midnight that is the day that ends then."""
    return (moment - timedelta(minutes=1)).date()


def _containers(house: House, making: Making, menu: str) -> Containers:
    batch = making.batch
    store = batch.component.store.vessel if batch.component.store else None
    vessel = next((one for one in house.file.vessels if one.id == store), None)
    count = vessels_for(house, batch.component.id, batch.total, vessel) if vessel else None
    number = count or max(stage.loads for stage in making.stages)
    return Containers(
        making=making,
        menu=menu,
        count=number,
        amount=times(batch.total, Fraction(1, number)),
        ready=making.ready,
        made=making.life_from,
        use_by=making.use_by,
    )


def _used(house: House) -> frozenset[str]:
    """Return all that a card or a plate of the house takes."""
    lines = (line.item for component in house.components.values() for line in component.ingredients)
    plates = (element.item for dish in house.dishes.values() for element in dish.elements)
    return frozenset((*lines, *plates))


def _kept(making: Making, used: frozenset[str]) -> Iterator[ByProduct]:
    yield from (one for one in making.batch.component.also_makes if one.item in used or one.keeps is not None)


def _left(plan: PrepPlan, making: Making, left: ByProduct, menu: str, day: date) -> Iterator[Containers]:
    """Yield what the loads of a batch leave of a by-product on a day, as one entry for each moment."""
    component = making.batch.component
    stage = next((at for at, one in enumerate(component.stages) if one.name == left.after), None)
    last = max(one.number for one in making.stages)
    loads = [one for one in making.stages if one.number == (last if stage is None else stage)]
    moments = Counter(one.over for one in loads)
    for moment, count in sorted(moments.items()):
        if _day_ending(moment) == day:
            yield Containers(
                making=making,
                menu=menu,
                count=count,
                amount=times(left.amount, making.batch.factor / len(loads)),
                ready=moment,
                made=day,
                use_by=_use_by(plan, making, left, day),
                left=left,
            )


def _use_by(plan: PrepPlan, making: Making, left: ByProduct, day: date) -> date | None:
    """Return the last day of a by-product: of its own life, and of those of the parts in it that set its date."""
    component, days = making.batch.component, days_kept(left)
    ends = [] if days is None else [day + timedelta(days=days - 1)]
    for at, line in enumerate(component.ingredients):
        if counts_in_trim(component, at, left):
            for part in plan.makings:
                mine = part.component == line.item and any(share.taker == making.number for share in part.shares)
                ends += [part.use_by] if mine and part.use_by and part.batch.component.kept_by is None else []
    return min(ends, default=None)
