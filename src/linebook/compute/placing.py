"""Where on the grid one batch lands: the limits it must keep, what of the kitchen is free, and what keeps it out.

Knows one batch at a time and what was taken before it; which batches there are is ``prep_plan``'s business.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from linebook.compute.chains import Leg, Placed, place_chain
from linebook.compute.plan_demands import Demand, Life
from linebook.compute.plan_legs import LegPlan, Taken
from linebook.compute.plan_results import Barrier, Strain
from linebook.compute.plan_sizes import Sized
from linebook.compute.slots import A_DAY, Slots, between
from linebook.compute.slots import earliest as earliest_of
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.component import Component
from linebook.model.house import House
from linebook.source.frozen import frozen

FREE: Final[frozenset[Strain]] = frozenset()
ORDER: Final = (
    frozenset({Strain.IN_SERVICE}),
    frozenset({Strain.EARLIER_TRIM}),
    frozenset({Strain.IN_SERVICE, Strain.EARLIER_TRIM}),
    frozenset({Strain.IN_SERVICE, Strain.SHORT_OF_COOKS}),
    frozenset({Strain.IN_SERVICE, Strain.SHORT_OF_COOKS, Strain.EARLIER_TRIM}),
)
"""What is let go, in turn, where nothing else will do."""

_SLACK: Final = 8
"""Staffed days beyond its own time that a batch may be spread over by what is taken."""
_BARRIERS: Final = (
    Barrier.CLOSED,
    Barrier.ARRIVAL,
    Barrier.KEEPING,
    Barrier.ROOM,
    Barrier.WAITING,
    Barrier.ALONE,
    Barrier.HANDS,
)
_Legs = Sequence[tuple[LegPlan, Placed]]


@frozen
class Limits:
    """When a batch must be ready: by ``due``, not before ``ready_from``, its life not begun before ``life_from``.

    ``parts_from`` are the moments before which a stage must not start, so that what goes in there keeps until the last
    service; ``parts_until`` those after which it must not, so that what goes in there can be ready for it; ``trims``
    those at which it may, so that a by-product is there and keeps.
    """

    due: int
    ready_from: int
    life_from: int | None
    parts_from: Mapping[int, int]
    parts_until: Mapping[int, int]
    trims: Mapping[int, Slots]

    @classmethod
    def of(
        cls,
        life: Life,
        group: Sequence[Demand],
        calendar: WorkCalendar,
        parts: Mapping[int, int],
        until: Mapping[int, int],
        trims: Mapping[int, Slots],
    ) -> Limits:
        """Return the limits for all demands of one batch; ``parts`` are the days that what goes in at a stage keeps."""
        last = max(one.served for one in group)
        lives = [day for one in group if (day := life.begins_from(one)) is not None]
        return cls(
            due=min(one.due for one in group),
            ready_from=max(life.ready_from(one, calendar) for one in group),
            life_from=calendar.at(max(lives), None) + 1 if lives else None,
            parts_from={stage: calendar.at(last - timedelta(days=days - 1), None) for stage, days in parts.items()},
            parts_until=until,
            trims=trims,
        )

    def has_trims(self, stage: int, moment: int) -> bool:
        """Return whether, at a moment, the by-products that go in at a stage are there, in their life."""
        return bool(self.trims.get(stage, -1) >> moment & 1)


def later_of(one: Mapping[int, int], other: Mapping[int, int]) -> Mapping[int, int]:
    """Return the later of two earliest starts of each stage."""
    if not one or not other:
        return one or other
    return {stage: max(one.get(stage, 0), other.get(stage, 0)) for stage in {*one, *other}}


@frozen
class Placing:
    """A way to make a batch, by moments of the grid. ``life`` is the first moment at which some of its life begins."""

    sized: Sized
    plans: tuple[LegPlan, ...]
    legs: tuple[Placed, ...]
    life: int
    strains: tuple[Strain, ...]

    @property
    def start(self) -> int:
        """Return the moment at which the first of its legs starts."""
        return min(leg.start for leg in self.legs)

    @property
    def ready(self) -> int:
        """Return the moment at which the last of its legs is over."""
        return max(leg.over for leg in self.legs)

    def keeps(self, limits: Limits) -> bool:
        """Return whether it would do under other limits."""
        last = self.plans[-1].stage
        if limits.life_from is not None and self.life < limits.life_from:
            return False
        return all(
            leg.over <= limits.due
            and (plan.stage != last or leg.over >= limits.ready_from)
            and leg.start >= limits.parts_from.get(plan.stage, leg.start)
            and leg.start <= limits.parts_until.get(plan.stage, leg.start)
            and (Strain.EARLIER_TRIM in self.strains or limits.has_trims(plan.stage, leg.start))
            for plan, leg in zip(self.plans, self.legs, strict=True)
        )


@frozen
class Place:
    """A batch on the plan and what it is for. ``limits`` and ``earliest`` (see ``Placer.place``) bound its stages."""

    placing: Placing
    demands: tuple[Demand, ...]
    limits: Limits
    earliest: Mapping[int, int]

    @property
    def component(self) -> Component:
        """Return what is made."""
        return self.placing.sized.batch.component

    @property
    def legs(self) -> tuple[tuple[LegPlan, Placed], ...]:
        """Return each load of each stage and when it is worked."""
        return tuple(zip(self.placing.plans, self.placing.legs, strict=True))

    @property
    def starts(self) -> dict[int, list[int]]:
        """Return the moments at which the loads of each stage start."""
        found: dict[int, list[int]] = {}
        for plan, leg in self.legs:
            found.setdefault(plan.stage, []).append(leg.start)
        return found

    def left_at(self, item: str) -> int:
        """Return the moment at which it leaves a by-product: the end of the stage it leaves at, else of the last."""
        after = next((made.after for made in self.component.also_makes if made.item == item), None)
        stage = next((at for at, one in enumerate(self.component.stages) if one.name == after), None)
        return max(leg.over for plan, leg in self.legs if stage in (None, plan.stage))


class Placer:
    """Places batches one after another on the grid of one span."""

    def __init__(self, house: House, calendar: WorkCalendar) -> None:
        self.calendar = calendar
        self.taken = Taken(house)

    def place(
        self,
        sized: Sized,
        limits: Limits,
        earliest: Mapping[int, int],
        loose: frozenset[Strain] = FREE,
        *,
        lifted: Barrier | None = None,
    ) -> Placing | None:
        """Return the latest way to make a batch, or None; ``loose`` is what is let go, ``lifted`` a limit left out.

        ``earliest`` are the moments before which what goes in at a stage is not there. Its chains are placed one after
        another, each by what the others have left free.
        """
        found: list[tuple[LegPlan, Placed]] = []
        lives: list[int] = []
        line = sized.batch.component.line
        for plans, life in zip(sized.chains, sized.lives, strict=True):
            placed = self._place_chain(line, plans, life, limits, earliest, loose, lifted)
            if placed is None:
                break
            legs = list(zip(plans, placed, strict=True))
            lives.append(placed[life].over)
            found += legs
            if len(sized.chains) > 1:
                self._use(line, legs)
        if len(sized.chains) > 1:
            self._use(line, found, back=True)
        if len(lives) < len(sized.chains):
            return None
        return Placing(
            sized=sized,
            plans=tuple(plan for plan, _ in found),
            legs=tuple(leg for _, leg in found),
            life=min(lives),
            strains=self._strains(found, limits, loose),
        )

    def take(self, placing: Placing) -> None:
        """Put a batch on the plan: its hands, places and vessels are taken."""
        self._use(placing.sized.batch.component.line, list(zip(placing.plans, placing.legs, strict=True)))

    def give_back(self, placing: Placing) -> None:
        """Take a batch off the plan."""
        self._use(placing.sized.batch.component.line, list(zip(placing.plans, placing.legs, strict=True)), back=True)

    def leg(self, line: str, plan: LegPlan) -> Leg:
        """Return a leg with all moments of the grid at which it can be worked, nothing let go."""
        return _Window(self, 0, self.calendar.width, line, FREE, None).leg(plan)

    def is_over(self, placing: Placing) -> bool:
        """Return whether more of a thing is taken than there is while a batch on the plan takes of it."""
        line = placing.sized.batch.component.line
        return any(
            self.taken.is_over(f"cooks:{line}", leg.start, leg.alone)
            or self.taken.is_over(f"cooks:{line}", leg.done, leg.over)
            or any(self.taken.is_over(key, leg.start, leg.over) for key, _ in plan.takes)
            for plan, leg in zip(placing.plans, placing.legs, strict=True)
        )

    def barrier(self, sized: Sized, limits: Limits, earliest: Mapping[int, int]) -> tuple[Barrier, tuple[date, ...]]:
        """Return the one limit without which a batch could be made, SEVERAL where it takes more than one.

        With it, the closed days on which it would be worked, where these are the limit.
        """
        for barrier in _BARRIERS:
            if barrier is Barrier.CLOSED and not self.calendar.shut:
                continue
            found = self.place(sized, limits, earliest, ORDER[-1], lifted=barrier)
            if found is not None:
                return barrier, self._shut_days(found) if barrier is Barrier.CLOSED else ()
        return Barrier.SEVERAL, ()

    def _shut_days(self, placing: Placing) -> tuple[date, ...]:
        """Return the closed days in whose hours a batch is worked, or somebody is near it."""
        spans = [
            between(leg.start, leg.over + 1)
            if plan.near
            else between(leg.start, leg.alone + 1) | between(leg.done, leg.over + 1)
            for plan, leg in zip(placing.plans, placing.legs, strict=True)
        ]
        days = set[date]()
        for span in spans:
            left = span & self.calendar.shut
            while left:
                at = earliest_of(left)
                days.add(self.calendar.day_of(at))
                left &= ~between(0, (at // A_DAY + 1) * A_DAY)
        return tuple(sorted(days))

    def _place_chain(
        self,
        line: str,
        plans: Sequence[LegPlan],
        life: int,
        limits: Limits,
        earliest: Mapping[int, int],
        loose: frozenset[Strain],
        lifted: Barrier | None,
    ) -> tuple[Placed, ...] | None:
        longest = sum(leg.hands + leg.most + leg.finish for leg in plans)
        first = self.calendar.staffed_days_before(max(0, limits.due - longest), _SLACK)
        if limits.due < first:
            return None
        window = _Window(self, first, limits.due - first + 1, line, loose, lifted)
        legs = window.bounded([window.leg(plan) for plan in plans], plans, limits, life, earliest)
        placed = place_chain(legs, window.width)
        if placed is None:
            return None
        return tuple(
            Placed(start=one.start + first, alone=one.alone + first, done=one.done + first, over=one.over + first)
            for one in placed
        )

    def _use(self, line: str, legs: _Legs, *, back: bool = False) -> None:
        """Take hands, places and vessels for these legs, or give them back."""
        act = self.taken.give_back if back else self.taken.take
        for plan, leg in legs:
            act(f"cooks:{line}", leg.start, leg.alone)
            act(f"cooks:{line}", leg.done, leg.over)
            for key, wanted in plan.takes:
                act(key, leg.start, leg.over, wanted)

    def _strains(self, legs: _Legs, limits: Limits, loose: frozenset[Strain]) -> tuple[Strain, ...]:
        """Return what of the loosened is really strained."""
        found: list[Strain] = []
        busy = [span for _, leg in legs for span in ((leg.start, leg.alone), (leg.done, leg.over))]
        if Strain.IN_SERVICE in loose and any(self.calendar.serving & between(*span) for span in busy):
            found.append(Strain.IN_SERVICE)
        if Strain.SHORT_OF_COOKS in loose:
            found.append(Strain.SHORT_OF_COOKS)
        if not all(limits.has_trims(plan.stage, leg.start) for plan, leg in legs):
            found.append(Strain.EARLIER_TRIM)
        return tuple(found)


class _Window:
    """The stretch of the grid on which one batch is tried: every set of moments cut to it."""

    def __init__(
        self,
        placer: Placer,
        first: int,
        width: int,
        line: str,
        loose: frozenset[Strain],
        lifted: Barrier | None,
    ) -> None:
        self.first, self.width = first, width
        self._placer, self._lifted, self._loose = placer, lifted, loose
        self.whole = between(0, width)
        calendar, taken = placer.calendar, placer.taken
        self.present = self.whole if lifted is Barrier.HANDS else self.cut(calendar.staffed)
        if lifted is Barrier.CLOSED:
            self.present |= self.cut(calendar.shut)
        self.work = self.present
        if Strain.IN_SERVICE not in loose and lifted is not Barrier.HANDS:
            self.work &= ~self.cut(calendar.serving)
        if Strain.SHORT_OF_COOKS not in loose and lifted is not Barrier.HANDS:
            self.work &= taken.free(f"cooks:{line}", first, width)

    def cut(self, moments: Slots) -> Slots:
        """Return the moments of the grid that are in the window, counted from its beginning."""
        return (moments >> self.first) & self.whole

    def leg(self, plan: LegPlan) -> Leg:
        """Return a leg with the moments at which the kitchen has room for it."""
        room = self.whole
        if self._lifted is not Barrier.ROOM:
            for key, wanted in plan.takes:
                room &= self._placer.taken.free(key, self.first, self.width, wanted)
        near = self.present if plan.near and self._lifted is not Barrier.ALONE else self.whole
        return Leg(
            hands=plan.hands,
            least=plan.least,
            most=plan.most,
            finish=plan.finish,
            judged=plan.judged,
            wait=None if self._lifted is Barrier.WAITING else plan.wait,
            work=self.work,
            near=near,
            present=self.present,
            room=room,
            start=self.whole if plan.hands else self.present,
            end=self.whole,
        )

    def bounded(
        self,
        legs: Sequence[Leg],
        plans: Sequence[LegPlan],
        limits: Limits,
        life: int,
        earliest: Mapping[int, int],
    ) -> list[Leg]:
        """Return the legs with when they may start and end: by what arrives, what keeps, and when it is wanted."""
        keeps = self._lifted is not Barrier.KEEPING
        found = []
        for at, (leg, plan) in enumerate(zip(legs, plans, strict=True)):
            start, end = leg.start, leg.end
            if self._lifted is not Barrier.ARRIVAL and plan.stage in earliest:
                start &= self._from(earliest[plan.stage])
            if plan.stage in limits.parts_until:
                start &= between(0, max(0, limits.parts_until[plan.stage] - self.first + 1))
            if plan.stage in limits.trims and Strain.EARLIER_TRIM not in self._loose:
                start &= self.cut(limits.trims[plan.stage])
            if plan.stage in limits.parts_from and keeps:
                start &= self._from(limits.parts_from[plan.stage])
            if plan.stage == plans[-1].stage and keeps:
                end &= self._from(limits.ready_from)
            if at == life and keeps and limits.life_from is not None:
                end &= self._from(limits.life_from)
            found.append(replace(leg, start=start, end=end))
        return found

    def _from(self, moment: int) -> Slots:
        return between(max(0, moment - self.first), self.width)
