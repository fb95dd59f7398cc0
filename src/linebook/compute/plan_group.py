"""A batch for some demands as moments with limits between them: all of its own, its users' and its parts' times.

Knows the limits that ``placing`` and ``plan_demands`` know, as limits between moments whose users may still move; in
whose way it stands is not its business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import timedelta
from typing import NamedTuple

from linebook.compute.chains import Leg, Placed, can_finish
from linebook.compute.placing import Placer, Placing
from linebook.compute.plan_bounds import Bounds, Rule
from linebook.compute.plan_demands import Demand, Life
from linebook.compute.plan_legs import LegPlan
from linebook.compute.plan_sizes import Sized, Sizes
from linebook.compute.slots import A_DAY, Slots, between, earliest, free_for
from linebook.model.contents import stage_of
from linebook.model.conversion import in_makes
from linebook.model.dating import Counting, counting
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen(eq=False)
class Want:
    """What is wanted of a component, its loss counted in: by a ``demand`` of the plates, or by a group for a ``line``.

    ``stage`` is where it goes in there; ``dated`` as in ``Demand``.
    """

    component: str
    amount: Fraction
    demand: Demand | None = None
    user: Group | None = None
    line: int = 0
    stage: int = 0
    dated: bool = True


class Span(NamedTuple):
    """Something taken from one moment to another, each a number with so much after it."""

    key: str
    wanted: int
    first: int
    first_plus: int
    last: int
    last_plus: int


@frozen(eq=False)
class Group:
    """One batch and the numbers of its moments: of the ``starts`` of its legs, and when they are ``dones``.

    It must keep until the day ``served`` and until those of the moments ``until``. ``ends`` are the last legs of its
    chains, whose end makes it ready.
    """

    component: str
    wants: tuple[Want, ...]
    sized: Sized
    legs: tuple[LegPlan, ...]
    starts: tuple[int, ...]
    dones: tuple[int, ...]
    ends: tuple[int, ...]
    served: int
    until: tuple[int, ...]
    spans: tuple[Span, ...]

    def of_stage(self, stage: int) -> list[int]:
        """Return the numbers of the moments at which the loads of a stage start."""
        return [start for start, leg in zip(self.starts, self.legs, strict=True) if leg.stage == stage]

    def ready(self, latest: Sequence[int]) -> int:
        """Return when it is ready where its moments are so."""
        return max(latest[self.dones[end]] + self.legs[end].finish for end in self.ends)

    def placing(self, latest: Sequence[int]) -> Placing:
        """Return it as it is placed where its moments are so."""
        legs = tuple(
            Placed(
                start=latest[start],
                alone=latest[start] + leg.hands,
                done=latest[done],
                over=latest[done] + leg.finish,
            )
            for leg, start, done in zip(self.legs, self.starts, self.dones, strict=True)
        )
        first, lives = 0, []
        for chain, life in zip(self.sized.chains, self.sized.lives, strict=True):
            lives.append(legs[first + life].over)
            first += len(chain)
        return Placing(sized=self.sized, plans=self.legs, legs=legs, life=min(lives), strains=())


class Groups:
    """Makes groups of one house, and takes them off again."""

    def __init__(
        self,
        house: House,
        placer: Placer,
        sizes: Sizes,
        lives: Mapping[str, Life],
        parts_keep: Mapping[str, Mapping[int, int]],
        arrivals: Mapping[str, Mapping[int, int]],
    ) -> None:
        self.house, self.bounds = house, Bounds()
        self._placer, self._calendar, self._sizes = placer, placer.calendar, sizes
        self._lives, self._parts_keep, self._arrivals = lives, parts_keep, arrivals
        self._masks: dict[tuple[str, LegPlan], tuple[Slots, Slots, Slots | None]] = {}
        self._places = {place.id: place for place in house.file.places}

    def wants_of(self, group: Group) -> Iterator[Want]:
        """Yield what a batch takes of other components."""
        batch = group.sized.batch
        for at, line in enumerate(batch.ingredients):
            part = self.house.components.get(line.ingredient.item)
            if part is None or line.total is None or not line.total.number:
                continue
            yield Want(
                component=part.id,
                amount=in_makes(part, line.total).number / (1 - part.loss),
                user=group,
                line=at,
                stage=stage_of(batch.component, at) or 0,
                dated=counting(batch.component, at, part, self._places) is Counting.ON,
            )

    def parts_of(self, component: str) -> set[str]:
        """Return the components that some of is taken of for one base batch."""
        spec = self.house.components[component]
        lines = self._sizes.of(component, spec.makes.number).batch.ingredients
        items = {line.ingredient.item for line in lines if line.total is not None and line.total.number}
        return items & self.house.components.keys()

    def not_before(self, want: Want) -> int:
        """Return a moment before which no batch for it can be ready, wherever its user stands."""
        life, found = self._lives[want.component], 0
        served = want.user.served if want.user is not None and want.dated else -1
        if want.demand is not None:
            served = (want.demand.served - self._calendar.first).days
            found = life.ready_from(want.demand, self._calendar)
        return found if life.days is None else max(found, (served - life.days + 1) * A_DAY + 1)

    def make(self, component: str, wants: Sequence[Want]) -> Group | None:
        """Return a batch for these, its moments and limits added; None where no way keeps them all."""
        sized = self._sizes.of(component, sum((want.amount for want in wants), Fraction(0)))
        line, starts, dones, ends, spans = sized.batch.component.line, list[int](), list[int](), [], list[Span]()
        for chain in sized.chains:
            self._chain(line, chain, starts, dones, spans)
            ends.append(len(starts) - 1)
        if all(chain == sized.chains[0] for chain in sized.chains):
            size = len(sized.chains[0])
            for at in range(0, len(starts) - size, size):
                self.bounds.limit(starts[at], starts[at + size])
        days = [(want.demand.served - self._calendar.first).days for want in wants if want.demand is not None]
        days += [want.user.served for want in wants if want.user is not None and want.dated]
        until = [at for want in wants if want.user is not None for at in _until(want, want.user)]
        group = Group(
            component=component,
            wants=tuple(wants),
            sized=sized,
            legs=tuple(leg for chain in sized.chains for leg in chain),
            starts=tuple(starts),
            dones=tuple(dones),
            ends=tuple(ends),
            served=max(days, default=-1),
            until=tuple(dict.fromkeys(until)),
            spans=tuple(spans),
        )
        self._bind(group)
        return group if self.bounds.settle() else None

    def _mask(self, line: str, plan: LegPlan) -> tuple[Slots, Slots, Slots | None]:
        """Return when a leg may start, when it may be done, and when it may not be by itself, None where always."""
        key = (line, plan)
        if key not in self._masks:
            leg, width = self._placer.leg(line, plan), self._calendar.width
            starts = leg.start & free_for(leg.work & leg.room, leg.hands, width)
            self._masks[key] = (starts, can_finish(leg, width), _never(leg, width))
        return self._masks[key]

    def _chain(
        self, line: str, chain: Sequence[LegPlan], starts: list[int], dones: list[int], spans: list[Span]
    ) -> None:
        """Add the moments of a chain: each leg as long as it takes, the next no earlier and no later than it may."""
        bounds, before = self.bounds, None
        for plan in chain:
            may_start, may_be_done, never = self._mask(line, plan)
            start, done = bounds.add(may_start), bounds.add(may_be_done)
            bounds.limit(start, done, -plan.hands - (plan.most if plan.judged else plan.least))
            bounds.limit(done, start, plan.hands + plan.most)
            if never is not None and plan.most:
                bounds.limit(done, start, 0, _until_never(never, plan.hands))
            if before is not None:
                bounds.limit(dones[-1], start, -before.finish)
                if before.wait is not None:
                    bounds.limit(start, dones[-1], before.finish + before.wait)
            spans += _spans(line, plan, start, done)
            starts.append(start)
            dones.append(done)
            before = plan

    def _bind(self, group: Group) -> None:
        """Add all limits from and to what a batch is for."""
        life, calendar = self._lives[group.component], self._calendar
        lasts = [at for at, leg in enumerate(group.legs) if leg.stage == group.legs[-1].stage]
        for want in group.wants:
            if want.demand is not None:
                self._by(group, group.ends, 0, want.demand.due)
                self._by(group, lasts, life.ready_from(want.demand, calendar), calendar.width)
                continue
            for start in want.user.of_stage(want.stage) if want.user is not None else ():
                for end in group.ends:
                    self.bounds.limit(group.dones[end], start, -group.legs[end].finish)
                for at in lasts:
                    self._fresh(life, start, group.dones[at], group.legs[at].finish)
        if life.days is not None:
            first = 0
            for chain, leg in zip(group.sized.chains, group.sized.lives, strict=True):
                made = group.legs[first + leg].finish - 1  # what is over at midnight was made on the day that ends then
                self._keeps(group, [group.dones[first + leg]], made, life.days)
                first += len(chain)
        if not life.is_known:
            self._one_day(group)
        for stage, days in self._parts_keep[group.component].items():
            self._keeps(group, group.of_stage(stage), 0, days)
        for stage, moment in self._arrivals[group.component].items():
            for start in group.of_stage(stage):
                self.bounds.narrow(start, between(moment, calendar.width))

    def _by(self, group: Group, legs: Sequence[int], first: int, last: int) -> None:
        """Have legs be over from one moment to another."""
        for at in legs:
            finish = group.legs[at].finish
            self.bounds.narrow(group.dones[at], between(max(0, first - finish), last - finish + 1))

    def _fresh(self, life: Life, start: int, done: int, finish: int) -> None:
        """Have what uses a batch start while that is fresh, and on its day where it is made daily."""
        for slots in (life.hours, life.fresh):
            if slots is not None:
                self.bounds.limit(start, done, finish + slots)
        if life.daily:
            self.bounds.limit(start, done, 0, _days_after(finish, 1))

    def _keeps(self, group: Group, moments: Sequence[int], plus: int, days: int) -> None:
        """Have what begins to count so much after moments keep until the last day of a batch."""
        first = max(0, (group.served - days + 1) * A_DAY - plus)
        for moment in moments:
            self.bounds.narrow(moment, between(first, self._calendar.width))
            for until in group.until:
                self.bounds.limit(until, moment, 0, _days_after(plus, days))

    def _one_day(self, group: Group) -> None:
        """Have all that a batch is for be used and served on one day, since nobody says how long it keeps."""
        if len(group.wants) == 1:
            return
        calendar, due_on, starts = self._calendar, set[int](), list[int]()
        served, until = set[int](), list[int]()
        for want in group.wants:
            if want.demand is not None:
                due_on.add((calendar.day_of(want.demand.due) - calendar.first) // timedelta(days=1))
                served.add((want.demand.served - calendar.first).days)
            elif want.user is not None:
                starts += want.user.of_stage(want.stage)
                until += _until(want, want.user)
                served |= {want.user.served} if want.dated and want.user.served >= 0 else set()
        self._same_day(due_on, starts)
        self._same_day(served, until)

    def _same_day(self, days: set[int], moments: Sequence[int]) -> None:
        """Have moments be on one day, on that day where one is given; on none where it is several."""
        if len(days) > 1:
            self.bounds.add(0)
        for day in days:
            for moment in moments:
                self.bounds.narrow(moment, between(day * A_DAY, (day + 1) * A_DAY))
        for one, other in zip(moments, [*moments[1:], *moments[:1]], strict=True) if not days else ():
            self.bounds.limit(one, other, 0, _days_after(0, 1))


def _until(want: Want, user: Group) -> Sequence[int]:
    """Return the moments until which what a group wants must keep, beside its own last day where it is dated."""
    return user.until if want.dated else user.of_stage(want.stage)


def _never(leg: Leg, width: int) -> Slots | None:
    """Return the moments at which a leg may not be by itself, and the end of the grid; None where it always may."""
    whole = between(0, width)
    never = whole & ~(leg.near & leg.room)
    return never | 1 << width if never else None


def _until_never(never: Slots, hands: int) -> Rule:
    """Return the rule that what is by itself must be done by the first moment at which it may not be."""

    def rule(start: int) -> int:
        alone = start + hands
        return alone + earliest(never >> alone)

    return rule


def _days_after(plus: int, days: int) -> Rule:
    """Return the rule that a moment is within so many days, the day so much after another moment counted in."""

    def rule(moment: int) -> int:
        return ((moment + plus) // A_DAY + days) * A_DAY - 1

    return rule


def _spans(line: str, plan: LegPlan, start: int, done: int) -> Iterator[Span]:
    """Yield what a leg takes of the kitchen: hands before and after, its place and vessels all the while."""
    if plan.hands:
        yield Span(f"cooks:{line}", 1, start, 0, start, plan.hands)
    if plan.finish:
        yield Span(f"cooks:{line}", 1, done, 0, done, plan.finish)
    for key, wanted in plan.takes:
        yield Span(key, wanted, start, 0, done, plan.finish)
