"""What has changed since a saved plan, in words: a mark for a row, and a list of what concerns a day.

Owns the words for changes alone; which they are is computed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from linebook.compute.plan_record import Change, ChangeKind, RecordedBatch, RecordedStage
from linebook.compute.plan_results import PrepPlan
from linebook.documents.measures import Measures
from linebook.documents.parts import Member
from linebook.documents.plan_acts import Go
from linebook.documents.plan_words import clock, clock_on, days_text
from linebook.documents.second import item_name
from linebook.documents.text import EMPTY, Text, strong
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.model.units import UNITS
from linebook.source.frozen import frozen


@frozen
class PlanMarks:
    """The changes of a plan, ready to be worded. Without any nothing is marked."""

    house: House
    plan: PrepPlan
    changes: Sequence[Change]
    wording: Wording

    def of_row(self, go: Go, day: date) -> Text:
        """Return how a row differs from the saved plan: *new*, *earlier: was 14:20*; empty where it does not."""
        change = next((one for one in self.changes if one.number == go.making.number), None)
        if change is None:
            return EMPTY
        if ChangeKind.NEW in change.kinds:
            return strong(self.wording.say("changed.new"))
        return strong(self.wording.separated((*self._time(change, go, day), *self._amount(change))))

    def of_day(self, line: str, day: date) -> Iterator[Member]:
        """Yield each change of a line's batches that have a stage on a day, or had."""
        for at, change in enumerate(self.changes):
            known = house_that_makes(self.house, change.component)
            if known is None or known.components[change.component].line != line:
                continue
            if any(self._concerns(stage, day) for stage in _stages(change)):
                item = strong(item_name(known, change.component))
                said = self.wording.say("changed.item", item=item, what=self._told(change, day))
                yield Member(key=f"changed.{change.component}.{at}", text=said)

    def _concerns(self, stage: RecordedStage, day: date) -> bool:
        """Return whether a stage is on a day; on the first day of the plan are all that are before it."""
        return stage.start.date() <= day <= stage.over.date() or stage.over.date() <= day == self.plan.first

    def _told(self, change: Change, day: date) -> Text:
        if change.before is None and change.after is not None:
            return self.wording.say("changed.is-new", **self._facts(change.after, day))
        if change.after is None and change.before is not None:
            return self.wording.say("changed.is-dropped", **self._facts(change.before, day))
        return self.wording.separated((*self._start(change, day), *self._amount(change)))

    def _facts(self, batch: RecordedBatch, day: date) -> dict[str, Text]:
        return {
            "amount": self._made(batch),
            "time": clock_on(batch.start, day, self.wording),
            "services": days_text(batch.services, self.plan, self.wording),
        }

    def _start(self, change: Change, day: date) -> Iterator[Text]:
        """Yield how the times of a batch have changed."""
        if ChangeKind.MOVED not in change.kinds or change.before is None or change.after is None:
            return
        before, after = change.before.start, change.after.start
        if before == after:
            yield self.wording.say("changed.other-times")
            return
        key = "changed.starts-earlier" if after < before else "changed.starts-later"
        now = clock_on(after, day, self.wording)
        yield self.wording.say(key, now=now, was=clock_on(before, day, self.wording))

    def _time(self, change: Change, go: Go, day: date) -> Iterator[Text]:
        """Yield how the time of a row has changed: that of its first stage and load."""
        if change.before is None:
            return
        act = go.acts[0]
        place = (act.stage.number, act.stage.load)
        stage = next((one for one in change.before.stages if (one.number, one.load) == place), None)
        if stage is None:
            return
        before, now = (stage.over, act.stage.over) if act.finish else (stage.start, act.at)
        if before == now:
            return
        key = "changed.earlier" if now < before else "changed.later"
        if act.finish:
            yield self.wording.say(f"{key}-alone")
        else:
            said = clock(before) if before.date() == day else clock_on(before, day, self.wording)
            yield self.wording.say(key, was=said)

    def _amount(self, change: Change) -> Iterator[Text]:
        """Yield how the amount has changed."""
        if change.before is None or change.after is None:
            return
        for kind, key in ((ChangeKind.MORE, "changed.more"), (ChangeKind.LESS, "changed.less")):
            if kind in change.kinds:
                yield self.wording.say(key, was=self._made(change.before), now=self._made(change.after))

    def _made(self, batch: RecordedBatch) -> Text:
        measures = Measures(house=self.house.file, wording=self.wording)
        unit = UNITS.get(batch.unit)
        return measures.short(Amount(number=batch.number, unit=unit)) if unit is not None else EMPTY


def house_that_makes(house: House, component: str) -> House | None:
    """Return the house that has a component: this one, or as it is with nothing missing; None where neither has."""
    before = house.tonight.before if house.tonight is not None else house
    return next((one for one in (house, before) if component in one.components), None)


def _stages(change: Change) -> Iterator[RecordedStage]:
    for batch in (change.before, change.after):
        if batch is not None:
            yield from batch.stages
