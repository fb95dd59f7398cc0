"""What a prep plan holds: which batch is made when, for which services, and what cannot be ready. Exact values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import date, datetime
from enum import Enum

from linebook.compute.results import Batch, StockUse
from linebook.compute.services import ServiceDay
from linebook.model.amounts import Amount
from linebook.source.frozen import frozen


@frozen
class PlannedStage:
    """One load of one stage of a batch, at the latest time that every limit allows.

    ``number`` counts the stages of the component, ``load`` the ``loads`` of that stage, both from 0. Hands are on it
    from ``start`` to ``alone`` and from ``done`` to ``over``; between it works by itself, and can be done from
    ``may_be_done`` on. ``minutes`` is the work with the hands, not rounded up to the grid as the times are.
    """

    number: int
    load: int
    loads: int
    start: datetime
    alone: datetime
    may_be_done: datetime
    done: datetime
    over: datetime
    minutes: int


@frozen
class Share:
    """How much of a batch, loss included, goes where: ``user`` is the component made from it, None where it is plated.

    ``services`` are the days for whose services that is, in order. ``line`` is the line whose dishes plate it,
    ``taker`` the number of the batch that takes it, None where that is not on the plan.
    """

    amount: Amount
    services: tuple[date, ...]
    user: str | None = None
    line: str | None = None
    taker: int | None = None


class Strain(Enum):
    """What a batch had to be planned against, because no way keeps it: marked, never hidden.

    ``PART_OVER`` marks the batch whose life ends before a service that is made from it; ``EARLIER_TRIM`` one that takes
    a by-product before any batch on the plan has left it, or when what was left last is over: it must be there already.
    """

    IN_SERVICE = "worked during service"
    SHORT_OF_COOKS = "more hands than the line has"
    PART_OVER = "the life of a part ends before the service"
    EARLIER_TRIM = "made from what an earlier batch left"


@frozen
class Making:
    """One batch of a component on the plan. ``number`` is its place in the plan, by which others name it.

    ``ready`` is when its last stage is over, ``due`` when the first that needs it takes it. ``use_by`` is the last day
    it may be served, by its own keeping time and that of all it is made from whose date counts on, None where nobody
    has said how long it keeps. ``life_from`` is the day that counts as day 1.
    """

    number: int
    batch: Batch
    stages: tuple[PlannedStage, ...]
    shares: tuple[Share, ...]
    ready: datetime
    due: datetime
    life_from: date
    use_by: date | None
    strains: tuple[Strain, ...] = ()

    @property
    def component(self) -> str:
        """Return the id of what is made."""
        return self.batch.component.id

    @property
    def start(self) -> datetime:
        """Return when its first stage starts."""
        return min(stage.start for stage in self.stages)

    @property
    def services(self) -> tuple[date, ...]:
        """Return the days of the services it is for, in order."""
        return tuple(sorted({day for share in self.shares for day in share.services}))


class Barrier(Enum):
    """Which limit keeps something from being ready: without it, it could be.

    ``CLOSED`` are days on which the house would be open but for once. ``HANDS`` are the hours in which somebody works,
    ``ALONE`` those in which somebody must be near, ``KEEPING`` how long it or a part of it keeps, ``WAITING`` how long
    it may stand between stages, ``ROOM`` places and vessels, ``ARRIVAL`` the day a bought item comes, ``PART`` a
    component it is made from. ``SEVERAL`` is more than one of them.
    """

    CLOSED = "closed"
    HANDS = "hands"
    ALONE = "alone"
    KEEPING = "keeping"
    WAITING = "waiting"
    ROOM = "room"
    ARRIVAL = "arrival"
    PART = "part"
    SEVERAL = "several"


@frozen
class Unready:
    """A component that cannot be ready for a service, and why. ``part`` is what it waits for, where that is the reason.

    Where it is wanted for several dishes, it is told as soon as one of them cannot have it. ``first`` is the first
    service after it that can have it, None where none of those planned for can. ``closed`` are the days on which it
    would be worked if the house were not closed on them, where that is the reason.
    """

    component: str
    service: date
    barrier: Barrier
    part: str | None = None
    first: date | None = None
    closed: tuple[date, ...] = ()


@frozen
class DayWork:
    """The work with the hands on a line on one day, rounded up to the grid, against what its cooks have. Minutes.

    ``available`` is what they have outside service.

    Where it is too much, ``movable`` are the numbers of batches of which each could be done with on an earlier day,
    no limit broken and all else left as it is.
    """

    line: str
    day: date
    minutes: int
    cooks: int
    available: int
    movable: tuple[int, ...] = ()

    @property
    def is_over(self) -> bool:
        """Return whether it is more than the cooks have."""
        return self.minutes > self.available


@frozen
class PrepPlan:
    """All that is made for the services of a span, and what is started within it for those after it.

    ``services`` are those of the span, ``later`` those after it. ``makings`` are in order of their start; some start
    before the span. ``unready`` are of the services of the span. ``stock`` is what was taken of what is on hand, by the
    first service it is for. ``arrives`` are bought items that come late, and from which day they are there.
    """

    first: date
    last: date
    services: tuple[ServiceDay, ...]
    later: tuple[ServiceDay, ...]
    makings: tuple[Making, ...]
    unready: tuple[Unready, ...]
    work: tuple[DayWork, ...]
    stock: Mapping[date, tuple[StockUse, ...]] = field(default_factory=dict)
    arrives: Mapping[str, date] = field(default_factory=dict)
