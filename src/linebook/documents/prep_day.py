"""The prep plan of one line for one day: what to start by when, in the order the day runs, with a box to tick each.

Works from a computed plan alone. What went on overnight and what goes on tonight stand beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from typing import Final

from linebook.compute.plan_record import Change
from linebook.compute.plan_results import DayWork, Making, PlannedStage, PrepPlan, Strain
from linebook.documents.measures import Measures
from linebook.documents.naming import kicker, rules_text
from linebook.documents.parts import Labelled, Member
from linebook.documents.plan_acts import Go, goes_on, in_parts
from linebook.documents.plan_cautions import CautionBox, caution_box
from linebook.documents.plan_marks import PlanMarks, house_that_makes
from linebook.documents.plan_words import (
    clock,
    days_text,
    load_text,
    made_text,
    minutes_text,
    stage_text,
    strain_text,
    unready_runs,
    unready_text,
    weighed_text,
    window,
)
from linebook.documents.second import item_name, place_name, vessel_name
from linebook.documents.tasting_time import BEFORE_DOORS, tasting_on
from linebook.documents.text import EMPTY, Text, joined, strong, unbroken, words
from linebook.documents.wording import Wording
from linebook.model.component import Component
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT: Final = "prep-day"
_TITLES: Final = {"before": "plan.before-service", "during": "plan.during", "after": "plan.after"}


@frozen
class PlanRow:
    """One thing to do: a stage to start, one to finish, or the tasting before service."""

    key: str
    """For data-key."""
    start: Text
    """By when it is started, at the latest."""
    name: Text
    """The component and its stage."""
    note: Text
    """What has changed since a saved plan; for which services, which load, where, when it is done by itself; use-by."""
    amount: Text
    """How much, and which load."""
    minutes: Text
    """The work with the hands; empty where nobody knows."""


@frozen
class PlanGroup:
    """A part of the day."""

    key: str
    """For data-key."""
    title: Text
    """Which part."""
    rows: tuple[PlanRow, ...]
    """What is started in it, in order."""


@frozen
class PrepDay:
    """All a prep plan of a line for a day shows."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the line and what sheet this is."""
    title: Text
    """The day."""
    aside: Text
    """That it is for this day alone."""
    first: Text
    """The first task of the day; empty where there is none."""
    work: Text
    """The work with the hands against what the cooks have; that it is too much."""
    over: bool
    """Whether it is too much."""
    unready: tuple[Member, ...]
    """What cannot be ready, and why."""
    before: tuple[Member, ...]
    """What must have been started before the plan begins; on its first day alone."""
    changed: tuple[Member, ...]
    """What has changed on this day since a saved plan."""
    running: tuple[Labelled, ...]
    """What runs from before this day, and when it is done."""
    groups: tuple[PlanGroup, ...]
    """What to do, by part of the day."""
    overnight: tuple[Labelled, ...]
    """What runs on when the line goes home, and until when."""
    stock: tuple[Member, ...]
    """What is used of what was on hand, so that it is not made."""
    nothing: Text
    """That there is nothing to start; empty where there is."""
    cautions: CautionBox
    """What must be logged today for food safety, and what is binned."""
    caution: Text
    """What the times are, and who decides."""


def prep_day(
    house: House, plan: PrepPlan, line: str, day: date, wording: Wording, changes: Sequence[Change] = ()
) -> PrepDay:
    """Return the prep plan of a line for one day of a plan, with what has changed since a saved one."""
    marks = PlanMarks(house=house, plan=plan, changes=changes, wording=wording)
    writer = _PlanWriter(house=house, plan=plan, line=line, day=day, wording=wording, marks=marks)
    groups = tuple(writer.groups())
    work = next((one for one in plan.work if one.line == line and one.day == day), None)
    return PrepDay(
        id=f"{DOCUMENT}:{line}:{day.isoformat()}",
        line=line,
        kicker=kicker(house, line, DOCUMENT, wording),
        title=wording.day(day),
        aside=strong(wording.say("plan.aside")),
        first=writer.first(groups),
        changed=tuple(marks.of_day(line, day)),
        work=writer.work(work) if work else EMPTY,
        over=work is not None and work.is_over,
        unready=tuple(writer.unready()),
        before=tuple(writer.before()) if day == plan.first else (),
        running=tuple(writer.running()),
        groups=groups,
        overnight=tuple(writer.overnight()),
        stock=tuple(writer.stock()),
        nothing=EMPTY if groups else wording.say("plan.nothing"),
        cautions=caution_box(house, plan, line, day, wording),
        caution=wording.say("plan.caution", rules=rules_text(house.file.rules, wording)),
    )


@frozen
class _PlanWriter:
    house: House
    plan: PrepPlan
    line: str
    day: date
    wording: Wording
    marks: PlanMarks

    @property
    def measures(self) -> Measures:
        return Measures(house=self.house.file, wording=self.wording)

    def work(self, work: DayWork) -> Text:
        """Return the minutes of the day against those of the cooks."""
        key = "plan.work-over" if work.is_over else "plan.work"
        said = self.wording.say(
            key,
            minutes=minutes_text(work.minutes, self.wording),
            available=minutes_text(work.available, self.wording),
            cooks=self.wording.say_count("plan.cooks", work.cooks),
        )
        movable = [self._name(self.plan.makings[number]) for number in work.movable]
        if not movable:
            return said
        could = self.wording.say("plan.movable", items=self.wording.named(movable))
        return joined((said, could), self.wording.say("sentence.between"))

    def unready(self) -> Iterator[Member]:
        """Yield what of this line cannot be ready for a service of this day or later, once a component."""
        told: set[str] = set()
        own = (one for one in self.plan.unready if self.house.components[one.component].line == self.line)
        for one, days in unready_runs(one for one in own if one.service >= self.day):
            if one.component not in told:
                told.add(one.component)
                text = unready_text(self.house, self.plan, one, days, self.wording)
                yield Member(key=f"unready.{one.component}", text=text)

    def before(self) -> Iterator[Member]:
        """Yield what must have been started before the first day of the plan, ready by then or not.

        With what runs by itself when that day begins, so that nobody has to look for it twice.
        """
        start = datetime.combine(self.plan.first, datetime.min.time())
        running: dict[int, list[Text]] = {}
        for making, stages in self._past(start):
            running.setdefault(making.number, []).append(self._alone(making, stages))
        for making in self._own():
            first = making.start
            if first < start:  # also what is ready by then: nobody may find out on the day that it was never made
                said = self.wording.say(
                    "plan.before",
                    item=self._name(making),
                    day=self.wording.day(first.date()),
                    time=clock(first),
                    services=days_text(making.services, self.plan, self.wording),
                )
                said = self.wording.separated((said, *running.get(making.number, ())))
                yield Member(key=f"before.{making.number}", text=said)

    def running(self) -> Iterator[Labelled]:
        """Yield what works by itself since an earlier day and is done on this one or later.

        On the first day of the plan it stands with what was started before it.
        """
        if self.day > self.plan.first:
            yield from self._labelled(datetime.combine(self.day, datetime.min.time()), "running")

    def overnight(self) -> Iterator[Labelled]:
        """Yield what works by itself past the end of this day."""
        yield from self._labelled(datetime.combine(self.day, datetime.min.time()) + timedelta(days=1), "overnight")

    def _labelled(self, moment: datetime, key: str) -> Iterator[Labelled]:
        """Yield what works by itself at a moment, by the name of what it is."""
        for making, stages in self._past(moment):
            first = stages[0]
            key_of = f"{key}.{making.number}.{first.number}.{first.load}"
            yield Labelled(key=key_of, label=self._name(making), value=self._alone(making, stages))

    def _past(self, moment: datetime) -> Iterator[tuple[Making, Sequence[PlannedStage]]]:
        """Yield what works by itself at a moment, the loads of a stage in one line."""
        found: dict[tuple[int, int], list[PlannedStage]] = {}
        for making, stage in self._stages():
            if stage.alone < moment <= stage.done and stage.done > stage.alone:
                found.setdefault((making.number, stage.number), []).append(stage)
        for (number, _), stages in found.items():
            yield self.plan.makings[number], stages

    def stock(self) -> Iterator[Member]:
        """Yield what of the stock on hand this line's services of this day take."""
        for use in self.plan.stock.get(self.day, ()):
            component = self.house.components.get(use.entry.item)
            if use.used is not None and component is not None and component.line == self.line:
                said = self.wording.say(
                    "plan.stock", item=item_name(self.house, component.id), amount=self.measures.short(use.used)
                )
                yield Member(key=f"stock.{component.id}", text=said)

    def first(self, groups: Sequence[PlanGroup]) -> Text:
        """Return the first task of the day, for whoever comes in."""
        if not groups:
            return EMPTY
        row = next(row for group in groups for row in group.rows if row.key != "tasting")
        return self.wording.say("plan.first-task", start=row.start, what=row.name)

    def groups(self) -> Iterator[PlanGroup]:
        """Yield the day before, during and after service, or as a whole where there is none."""
        service = self.house.file.service
        served = any(one.day == self.day for one in (*self.plan.services, *self.plan.later))
        doors, last = (service.doors, service.last_seating) if service and served else (None, None)
        parts = in_parts(
            goes_on(self.plan, self.line, self.day),
            datetime.combine(self.day, doors) if doors else None,
            datetime.combine(self.day, last) if last else None,
        )
        tasting = self._tasting()
        if tasting is not None and parts and parts[0][0] != "before":
            parts = (("before", ()), *parts)
        for part, goes in parts:
            title = self.wording.say(_TITLES[part] if doors else "plan.day")
            rows = [(go.at, self._row(go)) for go in goes]
            if tasting is not None and part == "before":
                rows.append(tasting)
            in_order = sorted(rows, key=lambda row: row[0])
            yield PlanGroup(key=part, title=title, rows=tuple(row for _, row in in_order))

    def _tasting(self) -> tuple[datetime, PlanRow] | None:
        """Return when the line tastes before service, and the row that says so."""
        at = tasting_on(self.house, self.plan, self.line, self.day)
        if at is None:
            return None
        name = strong(self.wording.say("plan.tasting"))
        note = self.wording.say("plan.tasting-note", doors=clock(at + BEFORE_DOORS))
        return at, PlanRow(key="tasting", start=strong(clock(at)), name=name, note=note, amount=EMPTY, minutes=EMPTY)

    def _row(self, go: Go) -> PlanRow:
        making, act = go.making, go.acts[0]
        kind = "finish" if act.finish else "start"
        steps = [self._what(making, number, finish=finish) for number, finish in go.steps]
        name = joined(
            (strong(self._name(making)), joined(steps, self.wording.say("plan.then"))), self.wording.say("list.comma")
        )
        return PlanRow(
            key=f"{kind}.{making.number}.{act.stage.number}.{act.stage.load}",
            start=strong(clock(go.at)),
            name=name,
            note=joined(self._notes(go), self.wording.say("note.between")),
            amount=made_text(making, go.first_stages, self.measures),
            minutes=words(str(go.minutes)) if go.minutes else EMPTY,
        )

    def _what(self, making: Making, number: int, *, finish: bool) -> Text:
        name = stage_text(self.house, making.batch.component, number)
        return self.wording.say("plan.finish", stage=name) if finish and name else name

    def _notes(self, go: Go) -> Iterator[Text]:
        making = go.making
        yield self.marks.of_row(go, self.day)
        yield self.wording.say("calendar.for", services=days_text(making.services, self.plan, self.wording))
        yield load_text(go.first_stages, self.wording)
        yield weighed_text(making, go.first_stages, self.measures)
        yield self.wording.listed(self._where(go))
        if go.left:
            until = window(
                min(one.may_be_done for one in go.left),
                max(self._latest(one) for one in go.left),
                self.day,
                self.wording,
            )
            yield self.wording.say("plan.alone", until=until)
        if go.is_last:
            yield self._use_by(making)
        for strain in making.strains:
            if _concerns(strain, go):
                yield strain_text(self.house, self.plan, making, strain, self.wording)

    def _where(self, go: Go) -> list[Text]:
        """Return where what is started happens, each place once; vessels stand on the card."""
        component = go.making.batch.component
        started = [number for number, finish in go.steps if not finish and component.stages]
        places = dict.fromkeys(component.stages[number].where for number in started)
        return [place_name(self.house, place) for place in places if place]

    def _use_by(self, making: Making) -> Text:
        if making.use_by is None:
            return EMPTY
        if making.use_by == self.day:
            return self.wording.say("plan.use-today")
        return unbroken(self.wording.say("plan.use-by", day=self.wording.day(making.use_by)))

    def _places(self, component: Component, number: int) -> Iterator[Text]:
        stage = component.stages[number] if component.stages else None
        if stage is not None and stage.where:
            yield place_name(self.house, stage.where)
        if stage is not None and stage.vessel:
            yield vessel_name(self.house, stage.vessel)

    def _alone(self, making: Making, stages: Sequence[PlannedStage]) -> Text:
        """Return what works by itself, where, and when it is done."""
        stage = stages[0]
        first, last = min(one.may_be_done for one in stages), max(self._latest(one) for one in stages)
        until = window(first, last, self.day, self.wording)
        name = self._what(making, stage.number, finish=False)
        places = self._places(making.batch.component, stage.number)
        made = (made_text(making, stages, self.measures), weighed_text(making, stages, self.measures))
        value = self.wording.listed((name, *made, *places))
        return self.wording.say("plan.done", what=value, until=strong(until))

    def _latest(self, stage: PlannedStage) -> datetime:
        """Return when it is done at the latest: as planned; what is left to itself is lifted out then."""
        return max(stage.done, stage.may_be_done)

    def _name(self, making: Making) -> Text:
        return item_name(self.house, making.component)

    def _own(self) -> Iterator[Making]:
        return (making for making in self.plan.makings if making.batch.component.line == self.line)

    def _stages(self) -> Iterator[tuple[Making, PlannedStage]]:
        for making in self._own():
            for stage in making.stages:
                yield making, stage


def _concerns(strain: Strain, go: Go) -> bool:
    """Return whether a strain is said here: what is true of the whole batch stands where it begins."""
    act = go.acts[0]
    return act.stage.number == 0 and not act.finish and act.stage.load == 0 and strain is not Strain.IN_SERVICE


def lines_with_work(house: House, plan: PrepPlan, day: date, changes: Sequence[Change] = ()) -> Sequence[str]:
    """Return the lines that have something to do, or running, on a day, or had by a saved plan."""
    busy = {
        making.batch.component.line
        for making in plan.makings
        for stage in making.stages
        if stage.start.date() <= day <= stage.over.date()
    }
    for change in changes:
        known = house_that_makes(house, change.component)
        if known is not None and change.before is not None:
            line = known.components[change.component].line
            busy |= {line for stage in change.before.stages if stage.start.date() <= day <= stage.over.date()}
    return [line.id for line in house.file.lines if line.id in busy]
