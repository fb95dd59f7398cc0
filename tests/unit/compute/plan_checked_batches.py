"""The checks of a prep plan that look at one batch at a time: times, staff, order, size, uses, life, sources."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from math import ceil, gcd

from plan_checked_house import DAY, FIVE, ZERO, HouseFacts, grid, meets, within

from linebook.compute.batches import compute_batch
from linebook.compute.plan_results import Making, Strain
from linebook.model.component import Component, Growth, Stage
from linebook.model.conversion import in_makes
from linebook.model.house import Climate


class BatchChecks(HouseFacts):
    """What is wrong with single batches."""

    def of_batch(self, making: Making) -> Iterator[str]:
        yield from self.shape(making)
        for one in making.stages:
            component = making.batch.component
            if component.stages:
                yield from self.times(making, one)
            yield from self.staff(making, one, component.stages[one.number] if component.stages else None)
        yield from self.order(making)
        yield from self.size(making)
        yield from self.uses(making)
        yield from self.life(making)
        yield from self.sources(making)

    def shape(self, making: Making) -> Iterator[str]:
        wanted = [(at, load, loads) for at, loads in enumerate(self.loads(making)) for load in range(loads)]
        if not making.batch.component.stages:
            wanted = [(0, 0, 1)]
        if sorted((one.number, one.load, one.loads) for one in making.stages) != wanted:
            yield "stages or loads are missing"
        begun = [one.start for one in sorted(making.stages, key=lambda one: one.load) if one.number == 0]
        if begun != sorted(begun):
            yield "loads are not numbered as they are begun"
        if making.ready != max(one.over for one in making.stages):
            yield "ready is not when its last stage is over"

    def times(self, making: Making, one) -> Iterator[str]:
        component = making.batch.component
        stage = component.stages[one.number]
        base = compute_batch(self.house, component.id)
        base_loads = (base.stage_loads or (base.loads,) * len(component.stages))[one.number]
        grown = making.batch.total.number / component.makes.number * base_loads / one.loads

        def minutes(duration, part: str, growth: Growth) -> Fraction:
            if duration is None:
                return ZERO
            value = getattr(duration, part)
            if growth is Growth.GROWS and grown != 1:
                value *= grown
                value = Fraction(ceil(value / 5) * 5) if value > 30 else Fraction(ceil(value))
            return value

        least, most = (grid(minutes(stage.unattended, part, stage.time)) for part in ("least", "most"))
        hands, finish = (minutes(part, "most", stage.work) for part in (stage.hands_on, stage.finish))
        judged = stage.until is not None and stage.unattended is not None and self.watched(stage)
        by_itself = one.done - one.alone
        if one.alone - one.start != grid(hands) or one.over - one.done != grid(finish):
            yield f"{stage.name}: wrong time with the hands"
        if not (most if judged else least) <= by_itself <= most:
            yield f"{stage.name}: {by_itself} by itself"
        if one.may_be_done != one.alone + least or one.minutes != ceil(hands) + ceil(finish):
            yield f"{stage.name}: said wrongly"
        if judged and not within(self.staffed, one.done - (most - least), one.over):
            yield f"{stage.name}: nobody there to judge it"
        if (one.start - datetime(2000, 1, 1)) % FIVE:
            yield f"{stage.name}: off the grid"

    def staff(self, making: Making, one, stage: Stage | None) -> Iterator[str]:
        there = within(self.staffed, one.start, max(one.alone, one.start + FIVE))
        if not there or not within(self.staffed, one.done, one.over):
            yield f"stage {one.number}: hands outside staffed hours"
        if stage is not None and self.watched(stage) and not within(self.staffed, one.alone, one.done):
            yield f"{stage.name}: left alone"
        for item, day in self.arrives.items():
            for at, line in enumerate(making.batch.component.ingredients):
                lands = self.stage_of(making.batch.component, at) == one.number
                if line.item == item and lands and one.start < datetime.combine(day, time(0)):
                    yield f"{item} is not there yet"

    def order(self, making: Making) -> Iterator[str]:
        """Stages one after another, in chains that can go apart, and no longer between them than they may stand."""
        loads = self.loads(making)
        stages = making.batch.component.stages
        chains = gcd(*loads) if loads else 1
        legs = {(one.number, one.load): one for one in making.stages}
        for chain in range(chains if stages else 0):
            before, standing = None, None
            for at, stage in enumerate(stages):
                each = loads[at] // chains
                for load in range(each * chain, each * (chain + 1)):
                    leg = legs.get((at, load))
                    if leg is None:
                        return
                    if before is not None and leg.start < before:
                        yield f"{stage.name} starts before the one before it is over"
                    if before is not None and standing is not None and leg.start - before > standing:
                        yield f"{stage.name}: what it takes up has stood {leg.start - before}"
                    before = leg.over
                standing = self.wait(stage)
                # From load to load of the next stage, what this one leaves may stand as long again.

    def size(self, making: Making) -> Iterator[str]:
        component, batch = making.batch.component, making.batch
        shared = sum((share.amount.number for share in making.shares), ZERO)
        if batch.needed is None or batch.needed.number != shared or shared <= 0:
            yield "its shares are not what it is needed for"
        if batch.total.number < shared:
            yield "less is made than shared out"
        smallest, step = component.smallest_batch, component.batch_step
        if smallest is not None and batch.total.number < in_makes(component, smallest).number:
            yield "less than its smallest batch"
        if step is not None and (batch.total.number / in_makes(component, step).number).denominator != 1:
            yield "not in whole steps"

    # Who takes it, and by when.

    def takers(self, making: Making, share) -> list[tuple[Making, int]]:
        """The batches made from a share, each with the line of its card; none where they are not on the plan."""
        user = None if share.taker is None else self.plan.makings[share.taker]
        if user is None or user.component != share.user or user.services != share.services:
            return []
        return [(user, at) for at, line in enumerate(user.batch.component.ingredients) if line.item == making.component]

    def uses(self, making: Making) -> Iterator[str]:
        """Ready by the first that takes it, and by each of them no older than hours, freshness and its day allow."""
        component = making.batch.component
        dues: list[datetime] = []
        last = max((one.number for one in making.stages), default=0)
        ends = [one.over for one in making.stages if one.number == last]
        for share in making.shares:
            moments: list[tuple[datetime, datetime]] = []
            if share.user is None:
                day = share.services[0]
                moments = [(self.due_of(share.line, day), self.doors_of(share.line, day))]
            else:
                for user, at in self.takers(making, share):
                    starts = self.starts(user, self.stage_of(user.batch.component, at))
                    moments.append((min(starts), max(starts)))
                if not moments and self.shown.intersection(share.services):
                    yield f"nobody takes the share of {share.user}"
                moments = moments[:1] if len(moments) < 2 else [min(moments)]
            dues += [due for due, _ in moments]
            for due, doors in moments:
                day = share.services[0] if share.user is None else due.date()
                yield from self.fresh(component, ends, day, doors)
        if dues and making.ready > min(dues):
            yield f"ready {making.ready}, wanted {min(dues)}"
        if len(dues) == len(making.shares) and making.due != min(dues):
            yield f"due is {making.due}, not {min(dues)}"

    def fresh(self, component: Component, ends: list[datetime], day: date, doors: datetime) -> Iterator[str]:
        limits = [component.fresh_within]
        limits += [component.keeps] if component.keeps and not component.keeps.in_days else []
        for limit in limits:
            if limit is not None and min(ends) < doors - grid(limit.least):
                yield f"ready more than {limit.least} minutes before {doors}"
        if component.make_daily and min(ends) < datetime.combine(day, time(0)):
            yield "not made on its day"

    # How long it keeps.

    def served(self, making: Making, share) -> date:
        """The last day a share must keep until."""
        if share.user is None:
            return max(share.services)
        found = []
        for user, at in self.takers(making, share):
            if self.dated(user.batch.component, at):
                found.append(self.counted(user))
            else:
                found.append(max(self.starts(user, self.stage_of(user.batch.component, at))).date())
        return max(found, default=date.min)

    def counted(self, making: Making) -> date:
        """The last day a batch's parts must keep until, days in its freezer not counted."""
        found = [self.served(making, share) for share in making.shares]
        if not self.in_freezer(making.batch.component):
            return max(found)
        days = []
        for share, served in zip(making.shares, found, strict=True):
            out, last = self.out(making, share), served
            for user, at in self.takers(making, share):
                if self.counts(user.batch.component, at):
                    last = self.counted(user)
            # What takes it after the span is not on the plan, and has no days in the freezer that anybody could count.
            days.append(last if last == date.min else last - self.stood_still(making, out))
        return max(days)

    def out(self, making: Making, share) -> date:
        """The day on which a share is taken."""
        for user, at in self.takers(making, share):
            return min(self.starts(user, self.stage_of(user.batch.component, at))).date()
        return share.services[0]

    def days(self, component: Component) -> int | None:
        if component.keeps is None:
            return None
        return max(1, int(component.keeps.least // 1440)) if component.keeps.in_days else 1

    def use_by(self, making: Making) -> date | None:
        """The last day of a batch by its own life and those of its parts; stock taken is left out."""
        component = making.batch.component
        days = self.days(component)
        ends = []
        if days is not None:
            end = making.life_from + (days - 1) * DAY
            if component.keeps is not None and not component.keeps.in_days:
                for share in making.shares:
                    for user, at in self.takers(making, share):
                        end = max(end, max(self.starts(user, self.stage_of(user.batch.component, at))).date())
                    if share.user is None:
                        end = max(end, share.services[0])
            ends.append(end)
        if not self.in_freezer(component):
            ends += self.inside(making)
        return min(ends, default=None)

    def inside(self, making: Making) -> list[date]:
        """The last days of the parts of a batch whose dates count on, days in a freezer on the way not counted."""
        component, found = making.batch.component, []
        for at, line in enumerate(component.ingredients):
            if not self.counts(component, at):
                continue
            if line.item in self.house.by_products and line.item not in self.house.components:
                for start in self.starts(making, self.stage_of(component, at)):
                    end = self.trim(line.item, start)
                    bought = line.item in self.house.pantry and end and end < self.asked(making)
                    found += [] if end is None or end < start.date() or bought else [end]
                continue
            for part in self.plan.makings:
                shares = [one for one in part.shares if one.taker == making.number]
                if part.component != line.item or not shares:
                    continue
                if self.in_freezer(part.batch.component):
                    out = min(self.starts(making, self.stage_of(component, at))).date()
                    found += [end + self.stood_still(part, out) for end in self.inside(part)]
                else:
                    end = self.use_by(part)
                    found += [] if end is None else [end]
        return found

    def asked(self, making: Making) -> date:
        """The last day a batch must keep until."""
        return max(self.served(making, share) for share in making.shares)

    def trim(self, item: str, start: datetime) -> date | None:
        """The last day of a by-product, of what was left last by a moment; None where nobody says, or nothing is."""
        left = [(end, one) for one in self.plan.makings for end in self.leaves(one, item) if end <= start]
        moment = max((end for end, _ in left), default=None)
        ends = [self.left_until(one, item, (end - timedelta(minutes=1)).date()) for end, one in left if end == moment]
        return min((end for end in ends if end is not None), default=None)

    def left_until(self, maker: Making, item: str, day: date) -> date | None:
        """The last day of what a batch leaves on a day: by its own life, and by those of the parts in it."""
        component, ends = maker.batch.component, []
        made = next(one for one in component.also_makes if one.item == item)
        if made.keeps is not None:
            ends.append(day + (max(1, int(made.keeps.least // 1440)) - 1 if made.keeps.in_days else 0) * DAY)
        names = [stage.name for stage in component.stages]
        last = names.index(made.after) if made.after in names else len(names) - 1
        for part in self.plan.makings:
            if part.batch.component.kept_by is not None or all(one.taker != maker.number for one in part.shares):
                continue
            for at, line in enumerate(component.ingredients):
                first, mine = self.stage_of(component, at), made.source in (None, line.item)
                inside = component.stages[first : last + 1]
                if (
                    line.item == part.component
                    and mine
                    and first <= max(last, 0)
                    and not any(s.sets_date for s in inside)
                ):
                    end = self.use_by(part)
                    ends += [] if end is None else [end]
        return min(ends, default=None)

    def life(self, making: Making) -> Iterator[str]:
        component = making.batch.component
        hot = [at for at, stage in enumerate(component.stages) if self.climate(stage) is Climate.HOT]
        begins = hot[-1] if hot else max(0, len(component.stages) - 1)
        over = min(one.over for one in making.stages if one.number == begins)
        if making.life_from != (over - timedelta(minutes=1)).date():  # midnight ends the day before it
            yield f"its life counts from {making.life_from}"
        use_by = self.use_by(making)
        # What it takes of the stock, and parts that are only made after the span, are not on the plan.
        unseen = any(self.plan.stock.values()) or bool(self.plan.later)
        hours = component.keeps is not None and not component.keeps.in_days
        if self.plan.later and any(line.item in self.house.by_products for line in component.ingredients):
            use_by = making.use_by  # what leaves the trim may be made after the span too
        if hours and not all(share.user is None or self.takers(making, share) for share in making.shares):
            use_by = making.use_by
        if use_by != making.use_by and not (unseen and making.use_by and (use_by is None or making.use_by < use_by)):
            yield f"use by {making.use_by}, not {use_by}"
        over = making.use_by is not None and any(making.use_by < self.served(making, one) for one in making.shares)
        if over != (Strain.PART_OVER in making.strains) and all(self.is_whole(making, one) for one in making.shares):
            yield f"its life {'ends' if over else 'does not end'} before a service, and that is not what is marked"
        served = {self.served(making, one) for one in making.shares}
        # What keeps only until its use, marked, asks no more of its parts.
        over = any(self.is_over(user) for one in making.shares for user, _ in self.takers(making, one))
        whole = all(self.is_whole(making, one) for one in making.shares)
        # A user moved earlier over midnight, out of another's way, has its part a day sooner than it was made for.
        if component.keeps is None and max(served) - min(served) > DAY and whole and not over:
            yield "nobody says how long it keeps, and it is for several days"

    def is_over(self, making: Making) -> bool:
        """Whether a batch, or one made from it, keeps only until its use, marked."""
        users = (user for one in making.shares for user, _ in self.takers(making, one))
        return Strain.PART_OVER in making.strains or any(self.is_over(user) for user in users)

    def is_whole(self, making: Making, share) -> bool:
        """Whether all that is made from a share is on the plan."""
        if share.user is None:
            return True
        takers = self.takers(making, share)
        return bool(takers) and all(self.is_whole(user, one) for user, _ in takers for one in user.shares)

    def sources(self, making: Making) -> Iterator[str]:
        """Parts are ready before the stage that uses them; trim has been left by then and keeps, or it is marked."""
        component, early = making.batch.component, False
        for at, line in enumerate(component.ingredients):
            start = min(self.starts(making, self.stage_of(component, at)))
            if line.item in self.house.components:
                for part in self.plan.makings:
                    mine = any(one.taker == making.number for one in part.shares)
                    if part.component == line.item and mine and part.ready > start:
                        yield f"{line.item} is ready {part.ready}, after it is used at {start}"
            elif line.item in self.house.by_products and line.item not in self.house.pantry:
                left = [end for part in self.plan.makings for end in self.leaves(part, line.item)]
                for begun in self.starts(making, self.stage_of(component, at)):
                    over = self.trim(line.item, begun)
                    early |= not any(end <= begun for end in left) or (over is not None and over < begun.date())
        if early != (Strain.EARLIER_TRIM in making.strains) and not self.plan.later:
            yield "trim of an earlier batch is not marked as it is"
        hands = [span for one in making.stages for span in ((one.start, one.alone), (one.done, one.over))]
        busy = any(begin < end and meets(self.serving, begin, end) for begin, end in hands)
        if busy != (Strain.IN_SERVICE in making.strains):
            yield "work during service is not marked as it is"

    def leaves(self, making: Making, item: str) -> list[datetime]:
        component = making.batch.component
        for made in component.also_makes:
            if made.item == item:
                ends = [
                    one.over
                    for one in making.stages
                    if made.after is None or component.stages[one.number].name == made.after
                ]
                return [max(ends)]
        return []
