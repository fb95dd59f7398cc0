"""Places every batch of a plan, component by component, and goes back to a user where a part of it finds no way.

Knows in which order things are tried; the objective they serve is told in ``prep_plan``.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import groupby
from typing import Final

from linebook.compute.placing import FREE, ORDER, Limits, Place, Placing
from linebook.compute.plan_asks import Asks
from linebook.compute.plan_board import Board, Kept
from linebook.compute.plan_demands import Demand, Life, days_parts_keep
from linebook.compute.plan_group import Group
from linebook.compute.plan_order import users_then_parts
from linebook.compute.plan_relief import relieve, shorten
from linebook.compute.plan_results import Barrier, Strain
from linebook.compute.plan_sizes import Sizes
from linebook.compute.plan_trims import Taking, moments, takings_of
from linebook.compute.plan_whole import Whole
from linebook.compute.services import ServiceDay
from linebook.compute.work_calendar import WorkCalendar
from linebook.model.contents import stage_of
from linebook.model.house import House
from linebook.model.supply import StockEntry
from linebook.source.exact import Fraction

_DAYS_PULLED: Final = 8
"""How many days earlier a batch may be asked to start for the sake of a part."""


class Run:
    """The planning of one span; after ``plan``, ``board`` holds the batches and ``asks`` what cannot be ready."""

    def __init__(
        self,
        house: House,
        calendar: WorkCalendar,
        services: Sequence[ServiceDay],
        on_hand: Sequence[StockEntry],
        arrives: Mapping[str, date],
        order: Sequence[str] = (),
        asks: Asks | None = None,
        *,
        gives_way: bool = False,
    ) -> None:
        self.house, self.calendar = house, calendar
        self.board = Board(house, calendar, services, on_hand, arrives)
        self.asks = asks or Asks()
        self._gives_way = gives_way
        self.order = tuple(order) or users_then_parts(house)
        self._place_of = {id_: at for at, id_ in enumerate(self.order)}
        self.sizes = Sizes(house)
        self.lives = {id_: Life.of(component) for id_, component in house.components.items()}
        self.parts_keep = days_parts_keep(house)
        self._arrivals: Mapping[int, int] = {}
        self._trims: tuple[Taking, ...] = ()
        self._back: int | None = None
        self.not_kept: list[Demand] = []

    def plan(self) -> None:
        """Place every batch; where something is asked of a batch, go back to it and plan on from there."""
        kept: list[Kept] = []
        at = 0
        while at < len(self.order):
            del kept[at:]
            kept.append(self.board.keep())
            self._back = None
            self._component(self.order[at])
            if self._back is None:
                at += 1
            else:
                at = self._back
                self.board.restore(kept[at])

    def put(self, whole: Whole) -> bool:
        """Put the batches of a plan found otherwise on the board; return whether all limits are kept there."""
        numbers: dict[Group, int] = {}
        for component, its in groupby(whole.groups, key=lambda group: group.component):
            self._arrivals = self.board.arrivals(component)
            found = [(self._demands_of(group, numbers), group) for group in its]
            for demands, group in sorted(found, key=lambda one: (one[0][0].due, one[0][0].served)):
                limits, placing = self._limits(component, demands), group.placing(whole.latest)
                if not placing.keeps(limits):
                    return False
                numbers[group] = len(self.board.placed)
                self._settle(demands, demands, placing, limits)
        if any(self.board.placer.is_over(place.placing) for place in self.board.placed):
            return False
        shorten(self.board)
        return True

    def _demands_of(self, group: Group, numbers: Mapping[Group, int]) -> list[Demand]:
        """Return the demands a batch found otherwise is for, those of batches as these stand on the board."""
        found = []
        for want in group.wants:
            if want.demand is not None:
                found.append(want.demand)
            elif want.user is not None:
                known, number = self.board.demands[group.component], numbers[want.user]
                its = next(one for one in known if one.batch == number and one.line == want.line)
                found.append(replace(its, amount=want.amount))
        return sorted(found, key=lambda one: (one.due, one.served))

    def _component(self, component: str) -> None:
        wanted = sorted(self.board.demands.get(component, ()), key=lambda one: (one.due, one.served))
        loss = self.house.components[component].loss
        demands = []
        for demand in wanted:
            if not self.asks.is_off(component, demand):
                short = self.board.stock.less(replace(demand, amount=demand.amount / (1 - loss)), component)
                demands += [short] if short.amount > 0 else []
        if demands:
            self._arrivals = self.board.arrivals(component)
            self._trims = takings_of(self.board, self.house.components[component])
        while demands:
            demands = self._batch(component, demands[0], demands[1:])

    def _batch(self, component: str, first: Demand, rest: list[Demand]) -> list[Demand]:
        """Place a batch for the first demand and all it keeps for; return the demands it does not serve."""
        placing = self._alone(component, first)
        if placing is None:
            self._without_life(component, first)
            return rest
        group, left, reach = [first], list[Demand](), self._reach(component, first)
        for at, demand in enumerate(rest):
            if demand.due > reach:
                left += rest[at:]
                break
            further = self._joined(component, group, demand, placing, relieved=self._gives_way)
            if further is None:
                left.append(demand)
            else:
                group, placing = [*group, demand], further
        group, left, placing = self._carried(component, group, left, placing, reach)
        self._settle(group, group, placing, self._limits(component, group))
        return left

    def _alone(self, component: str, demand: Demand) -> Placing | None:
        """Return how a batch is made for one demand, another having been moved out of its way where that helps.

        It is asked to start no earlier than it must where that has no way.
        """
        limits = self._limits(component, [demand])
        found = self._try(component, demand.amount, limits)
        sized = self.sizes.of(component, demand.amount)
        for loose in (FREE, ORDER[0]):
            if found is None or not loose.issuperset(found.strains):
                found = relieve(self.board, sized, limits, self._arrivals, loose) or found
        if found is None and limits.parts_until:
            found = self._try(component, demand.amount, replace(limits, parts_until={}))
            if found is not None:
                self.asks.let_go(component, demand)
        return found

    def _without_life(self, component: str, demand: Demand) -> None:
        """Ask for a way to keep its life; else have it keep until its use alone, marked; else it cannot be ready."""
        if demand.batch is not None and (self._pull(component, demand) or self._cut(demand.batch)):
            return
        shown = demand
        if demand.batch is not None:
            shown = replace(demand, served=self.calendar.day_of(demand.due), counted=None)
        limits = replace(self._limits(component, [shown], parted=False), parts_until={})
        placing = self._try(component, demand.amount, limits)
        if placing is not None:
            self.not_kept.append(demand)
            self._settle([demand], [shown], placing, limits)
        else:
            self._give_up(component, demand, limits)

    def _reach(self, component: str, first: Demand) -> int:
        """Return the moment after which nothing is due that a batch for the first demand could serve."""
        reach = self.lives[component].reach(first.due)
        return self.calendar.width if reach is None else reach

    def _joined(
        self, component: str, group: list[Demand], demand: Demand, placing: Placing, *, relieved: bool = False
    ) -> Placing | None:
        """Return how a batch is made for one demand more, None where that cannot be without a strain it has not.

        Where it is ``relieved``, another batch that has taken what it needs is moved out of its way. What does
        not say how long it keeps is made for one service at a time, and for the day on which it is wanted.
        """
        if not self.asks.may_join(component, group[0], demand):
            return None
        if not self.lives[component].is_known and self._day(demand) != self._day(group[0]):
            return None
        both = [*group, demand]
        limits = self._limits(component, both)
        if limits.ready_from > limits.due or (limits.life_from is not None and limits.life_from > limits.due):
            return None
        sized = self.sizes.of(component, sum((one.amount for one in both), Fraction(0)))
        if sized.chains == placing.sized.chains and placing.keeps(limits):
            return replace(placing, sized=sized)
        if self._would_have_trims(component, demand, placing.strains):
            return None
        loose = frozenset(placing.strains)
        found = self.board.placer.place(sized, limits, self._arrivals, loose)
        if found is None and relieved:
            found = relieve(self.board, sized, limits, self._arrivals, loose, partless=True)
        return found

    def _would_have_trims(self, component: str, demand: Demand, strains: Sequence[Strain]) -> bool:
        """Return whether by-products that a batch lacks would be there for one of its own, strained no more."""
        if Strain.EARLIER_TRIM not in strains:
            return False
        sized, limits = self.sizes.of(component, demand.amount), self._limits(component, [demand])
        loose = frozenset(strains) - {Strain.EARLIER_TRIM}
        return self.board.placer.place(sized, limits, self._arrivals, loose) is not None

    def _day(self, demand: Demand) -> tuple[date, date]:
        return demand.served, self.calendar.day_of(demand.due)

    def _carried(
        self, component: str, group: list[Demand], left: list[Demand], placing: Placing, reach: int
    ) -> tuple[list[Demand], list[Demand], Placing]:
        """Have what a batch is made beyond its needs serve later demands in its life, as far as it goes."""
        still: list[Demand] = []
        for at, demand in enumerate(left):
            spare = placing.sized.batch.surplus
            if spare is None or not spare.number or demand.due > reach:
                return group, [*still, *left[at:]], placing
            given = min(spare.number, demand.amount)
            part = replace(demand, amount=given)
            further = self._joined(component, group, part, placing)
            if further is None or further.legs != placing.legs:
                still.append(demand)
                continue
            group, placing = [*group, part], further
            if given < demand.amount:
                still.append(replace(demand, amount=demand.amount - given))
        return group, still, placing

    def _settle(self, group: list[Demand], shares: list[Demand], placing: Placing, limits: Limits) -> None:
        place = Place(placing=placing, demands=tuple(group), limits=limits, earliest=self._arrivals)
        self.board.put(place, shares)

    def _limits(self, component: str, group: Sequence[Demand], *, parted: bool = True) -> Limits:
        """Return the limits of a batch; without those of its parts' lives where they are not ``parted``."""
        parts = self.parts_keep[component] if parted else {}
        until = self.asks.until(component, group)
        trims = moments(self.board, self._trims, group) if self._trims else {}
        return Limits.of(self.lives[component], group, self.calendar, parts, until, trims)

    def _try(self, component: str, needed: Fraction, limits: Limits) -> Placing | None:
        sized = self.sizes.of(component, needed)
        for loose in (FREE, *ORDER):
            if self._trims or Strain.EARLIER_TRIM not in loose:
                found = self.board.placer.place(sized, limits, self._arrivals, loose)
                if found is not None:
                    return found
        return None

    def _pull(self, component: str, demand: Demand) -> bool:
        """Find the latest day on which a batch could be used, and have the one made from it start on that day."""
        if demand.user is None or demand.line is None or not self.asks.may_pull(demand):
            return False
        for back in range(1, _DAYS_PULLED):
            day = self.calendar.day_of(demand.due) - timedelta(days=back)
            end = self.calendar.at(day, None, end=True) - 1
            earlier = replace(demand, due=end, doors=end, served=demand.served if demand.dated else day)
            if end > 0 and self._try(component, demand.amount, self._limits(component, [earlier])) is not None:
                self.asks.pull(demand, stage_of(self.house.components[demand.user], demand.line) or 0, end)
                self._go_back(demand.user)
                return True
        return False

    def _cut(self, batch: int | None) -> bool:
        """Have the batch that wants it, or one made from that, serve less."""
        while batch is not None:
            place = self.board.placed[batch]
            if self.asks.cut(place):
                self._go_back(place.component.id)
                return True
            batch = place.demands[0].batch
        return False

    def _give_up(self, component: str, demand: Demand, limits: Limits) -> None:
        """Note that services cannot have it, nor anything made from it, and have all of that left out."""
        sized = self.sizes.of(component, demand.amount)
        barrier, closed = self.board.placer.barrier(sized, limits, self._arrivals)
        self.asks.tell(component, demand.services, barrier, closed=closed)
        self._leave_out(component, demand)

    def _leave_out(self, component: str, demand: Demand) -> None:
        if demand.batch is None:
            self.asks.fail(component, demand)
            return
        place = self.board.placed[demand.batch]
        self.asks.tell(place.component.id, demand.services, Barrier.PART, component)
        self._go_back(place.component.id)
        for share in place.demands:
            self._leave_out(place.component.id, share)

    def _go_back(self, component: str) -> None:
        at = self._place_of[component]
        self._back = at if self._back is None else min(at, self._back)
