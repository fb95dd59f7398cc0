"""Verifies a prep plan against its house, without any of the planner's code: clock times, lists, Fractions.

What a batch is made of is taken as the sizing says it; when, where, for whom and how long it keeps is worked out anew.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, datetime
from fractions import Fraction

from plan_checked_batches import BatchChecks
from plan_checked_house import FIVE, ZERO, Want

from linebook.compute.plan_results import Barrier, Strain
from linebook.compute.portions import compute_portions, portion_amounts
from linebook.compute.stage_contents import vessels_at_least
from linebook.model.conversion import in_makes
from linebook.model.occasion import Occasion
from linebook.model.units import times


class Checker(BatchChecks):
    """One plan and its house; ``faults`` says in words all that is wrong with it."""

    def faults(self) -> list[str]:
        found = list(self.numbering())
        for making in self.plan.makings:
            found += [f"{making.number} {making.component}: {text}" for text in self.of_batch(making)]
        checks = (self.capacity, self.cooks, self.amounts, self.unready_told, self.work)
        return found + [text for check in checks for text in check()]

    def numbering(self) -> Iterator[str]:
        if [one.number for one in self.plan.makings] != list(range(len(self.plan.makings))):
            yield "numbers are not in order"
        starts = [one.start for one in self.plan.makings]
        if starts != sorted(starts):
            yield "not in order of start"

    # The whole kitchen.

    def capacity(self) -> Iterator[str]:
        counts = {("place", one.id): one.count for one in self.house.file.places}
        counts |= {("vessel", one.id): one.count for one in self.house.file.vessels}
        changes: defaultdict[tuple[str, str], list[tuple[datetime, int]]] = defaultdict(list)
        for making in self.plan.makings:
            for one in making.stages if making.batch.component.stages else ():
                stage = making.batch.component.stages[one.number]
                takes = [("place", stage.where, 1)] if stage.where else []
                if stage.vessel:
                    takes.append(("vessel", stage.vessel, vessels_at_least(self.house, making.batch, one.number)))
                for kind, id_, wanted in takes:
                    count = counts.get((kind, id_))
                    if count is not None and one.start < one.over:
                        number = min(count, max(1, wanted))
                        changes[kind, id_] += [(one.start, number), (one.over, -number)]
        for key, found in changes.items():
            used = 0
            for moment, change in sorted(found):
                used += change
                if used > counts[key]:
                    yield f"{used} of {key} at {moment}"

    def cooks(self) -> Iterator[str]:
        for line in self.house.file.lines:
            spans = [
                (begin, end, Strain.SHORT_OF_COOKS in making.strains)
                for making in self.plan.makings
                if making.batch.component.line == line.id
                for one in making.stages
                for begin, end in ((one.start, one.alone), (one.done, one.over))
                if begin < end
            ]
            for moment in sorted({begin for begin, _, _ in spans}):
                busy = [short for begin, end, short in spans if begin <= moment < end]
                if busy.count(False) > line.cooks:
                    yield f"{line.id}: {len(busy)} hands at {moment}"

    def amounts(self) -> Iterator[str]:
        """All that the plates and the batches take is made, is in stock, or is told as unready."""
        stock: defaultdict[str, Fraction] = defaultdict(Fraction)
        for uses in self.plan.stock.values():
            for use in uses:
                stock[use.entry.item] += use.used.number if use.used else ZERO
        missing: defaultdict[str, Fraction] = defaultdict(Fraction)
        shares: defaultdict[Want, Fraction] = defaultdict(Fraction)
        for making in self.plan.makings:
            for share in making.shares:
                shares[making.component, share.line or share.taker, share.services] += share.amount.number
        for (component, taker, services), wanted in self.wanted().items():
            given = shares[component, taker, services]
            if given < wanted and not any((component, day) in self.unready for day in services):
                missing[component] += wanted - given
            if given > wanted:
                yield f"{component}: {given} for {taker} on {services}, {wanted} is wanted"
        for component, amount in missing.items():
            if amount > stock[component]:
                yield f"{component}: {amount - stock[component]} is missing"

    def wanted(self) -> dict[Want, Fraction]:
        """What is wanted of each component by plates and batches, what is lost counted in."""
        found: defaultdict[Want, Fraction] = defaultdict(Fraction)
        for service in (*self.plan.services, *self.plan.later):
            if service.day not in self.shown and self.plan.later:
                continue
            occasion = Occasion(menu=service.menu, covers=service.covers, date=service.day)
            for one in compute_portions(self.house, occasion):
                for item, amount in portion_amounts(self.house.dishes[one.dish], one.size):
                    part = self.house.components.get(item)
                    if part is not None:
                        number = in_makes(part, times(amount, Fraction(one.portions))).number
                        found[item, self.house.dishes[one.dish].line, (service.day,)] += number / (1 - part.loss)
        for making in self.plan.makings:
            for line in making.batch.ingredients:
                part = self.house.components.get(line.ingredient.item)
                if part is not None and line.total is not None:
                    number = in_makes(part, line.total).number
                    found[part.id, making.number, making.services] += number / (1 - part.loss)
        return {key: number for key, number in found.items() if self.shown.intersection(key[2])}

    def unready_told(self) -> Iterator[str]:
        plated = {
            (item, service.day)
            for service in self.plan.services
            for entry in self.house.menus[service.menu].dishes
            for item in (one.item for one in self.house.dishes[entry.dish].elements)
        }
        for one in self.plan.unready:
            users = [
                other
                for other in self.plan.unready
                if other.service == one.service
                and other.component != one.component
                and any(line.item == one.component for line in self.house.components[other.component].ingredients)
            ]
            if (one.component, one.service) not in plated and not users:
                yield f"{one.component} cannot be ready on {one.service}, and nothing made from it is told"
            if (one.barrier is Barrier.PART) != (one.part is not None):
                yield f"{one.component} on {one.service}: which part?"
            if one.part is not None and (one.part, one.service) not in self.unready:
                yield f"{one.component} waits for {one.part} on {one.service}, which is not told"
            later = [
                day
                for making in self.plan.makings
                if making.component == one.component
                for day in making.services
                if day > one.service and (one.component, day) not in self.unready
            ]
            if not self.plan.later and one.first != min(later, default=None):
                yield f"{one.component}: the first service that can have it is not {one.first}"

    def work(self) -> Iterator[str]:
        minutes: defaultdict[tuple[str, date], int] = defaultdict(int)
        for making in self.plan.makings:
            for one in making.stages:
                for begin, end in ((one.start, one.alone), (one.done, one.over)):
                    at = begin
                    while at < end:
                        minutes[making.batch.component.line, at.date()] += 5
                        at += FIVE
        told = {(one.line, one.day): one for one in self.plan.work}
        for key, spent in minutes.items():
            if self.plan.first <= key[1] <= self.plan.last and not self.plan.later and told[key].minutes != spent:
                yield f"{key}: {spent} minutes, not {told[key].minutes}"
        for one in self.plan.work:
            if one.movable and not one.is_over:
                yield f"{one.line} on {one.day} is not too much"
