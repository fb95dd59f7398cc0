"""A prep plan as it is saved, and what has changed since: which batch is new, dropped, moved, more or less.

Owns the saved form, plain values that any text format can hold; where it is saved is not its business. Amounts are
exact.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from enum import Enum
from typing import Final

from linebook.compute.plan_results import PrepPlan
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_FORM: Final = 1
"""The number of the saved form; a plan saved in another cannot be compared."""


@frozen
class RecordedStage:
    """When one load of one stage is worked. ``number`` counts the stages of the component, from 0."""

    number: int
    load: int
    start: datetime
    over: datetime


@frozen
class RecordedBatch:
    """One batch of a saved plan: how much of what, in the unit of its yield by its key, when and for which services."""

    component: str
    number: Fraction
    unit: str
    loads: int
    stages: tuple[RecordedStage, ...]
    services: tuple[date, ...]

    @property
    def start(self) -> datetime:
        """Return when its first stage starts."""
        return min(stage.start for stage in self.stages)

    @property
    def ready(self) -> datetime:
        """Return when its last stage is over."""
        return max(stage.over for stage in self.stages)


@frozen
class PlanRecord:
    """What is saved of a plan: its span and its batches, in their order there."""

    first: date
    last: date
    batches: tuple[RecordedBatch, ...]


class ChangeKind(Enum):
    """How a batch differs from the one that was on the earlier plan in its place."""

    NEW = "new"
    DROPPED = "dropped"
    MOVED = "moved"
    MORE = "more"
    LESS = "less"


@frozen
class Change:
    """One batch that changed. ``number`` is its number on the new plan, None where it was dropped.

    ``before`` is None where it is new, ``after`` where it was dropped. It may be both moved and more, or less.
    """

    component: str
    kinds: tuple[ChangeKind, ...]
    number: int | None
    before: RecordedBatch | None
    after: RecordedBatch | None


def record_of(plan: PrepPlan) -> PlanRecord:
    """Return what is saved of a plan."""
    batches = tuple(
        RecordedBatch(
            component=making.component,
            number=making.batch.total.number,
            unit=making.batch.total.unit.key,
            loads=making.batch.loads,
            stages=tuple(
                RecordedStage(number=one.number, load=one.load, start=one.start, over=one.over) for one in making.stages
            ),
            services=making.services,
        )
        for making in plan.makings
    )
    return PlanRecord(first=plan.first, last=plan.last, batches=batches)


def to_plain(record: PlanRecord) -> dict[str, object]:
    """Return a record as plain values: words, whole numbers, lists and mappings."""
    return {
        "form": _FORM,
        "first": record.first.isoformat(),
        "last": record.last.isoformat(),
        "batches": [
            {
                "component": batch.component,
                "amount": str(batch.number),
                "unit": batch.unit,
                "loads": batch.loads,
                "services": [day.isoformat() for day in batch.services],
                "stages": [
                    [
                        one.number,
                        one.load,
                        one.start.isoformat(timespec="minutes"),
                        one.over.isoformat(timespec="minutes"),
                    ]
                    for one in batch.stages
                ],
            }
            for batch in record.batches
        ],
    }


def from_plain(value: object) -> PlanRecord | None:
    """Return the record that plain values are, None where they are none of this form."""
    if not isinstance(value, Mapping) or value.get("form") != _FORM:
        return None
    try:
        return PlanRecord(
            first=date.fromisoformat(value["first"]),
            last=date.fromisoformat(value["last"]),
            batches=tuple(_batch(one) for one in value["batches"]),
        )
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        return None


def plan_changes(old: PlanRecord, new: PlanRecord) -> tuple[Change, ...]:
    """Return what has changed since an earlier plan, in the order of the new one, what was dropped last.

    Only what both plans could hold is compared: batches that start by the end of both spans, for services from when
    both have begun. Of the batches of a component those are taken for the same that have the most services in common,
    then those that start the closest to each other.
    """
    begin, end = max(old.first, new.first), min(old.last, new.last)

    def compared(batch: RecordedBatch) -> bool:
        return batch.start.date() <= end and batch.services[-1:] >= (begin,)

    before = [batch for batch in old.batches if compared(batch)]
    after = [(number, batch) for number, batch in enumerate(new.batches) if compared(batch)]
    pairs = _pairs(before, [batch for _, batch in after])
    found = [
        change
        for at, (number, batch) in enumerate(after)
        if (change := _change(before[pairs[at]] if at in pairs else None, number, batch)) is not None
    ]
    gone = [batch for at, batch in enumerate(before) if at not in pairs.values()]
    return (*found, *(_dropped(batch) for batch in gone))


def _batch(value: Mapping[str, object]) -> RecordedBatch:
    component, unit, loads = value["component"], value["unit"], value["loads"]
    services, stages = value["services"], value["stages"]
    if not isinstance(component, str) or not isinstance(unit, str) or not isinstance(loads, int):
        raise TypeError
    if not isinstance(services, list) or not isinstance(stages, list) or not stages:
        raise TypeError
    return RecordedBatch(
        component=component,
        number=Fraction(str(value["amount"])),
        unit=unit,
        loads=loads,
        stages=tuple(
            RecordedStage(
                number=int(number),
                load=int(load),
                start=datetime.fromisoformat(start),
                over=datetime.fromisoformat(over),
            )
            for number, load, start, over in stages
        ),
        services=tuple(date.fromisoformat(day) for day in services),
    )


def _pairs(before: Sequence[RecordedBatch], after: Sequence[RecordedBatch]) -> dict[int, int]:
    """Return for each later batch the earlier one that it is, by their places."""
    found: dict[int, int] = {}
    for _, _, was, now in sorted(_alike(before, after)):
        if now not in found and was not in found.values():
            found[now] = was
    return found


def _alike(before: Sequence[RecordedBatch], after: Sequence[RecordedBatch]) -> Iterator[tuple[int, float, int, int]]:
    """Yield the pairs that have services in common: how many, as less than nothing, and how far apart they start."""
    places: dict[str, list[int]] = {}
    for at, batch in enumerate(before):
        places.setdefault(batch.component, []).append(at)
    for now, batch in enumerate(after):
        for was in places.get(batch.component, ()):
            common = len({*before[was].services} & {*batch.services})
            if common:
                yield -common, abs((before[was].start - batch.start).total_seconds()), was, now


def _change(before: RecordedBatch | None, number: int, after: RecordedBatch) -> Change | None:
    if before is None:
        return Change(component=after.component, kinds=(ChangeKind.NEW,), number=number, before=None, after=after)
    kinds: list[ChangeKind] = []
    if before.stages != after.stages:
        kinds.append(ChangeKind.MOVED)
    if before.unit == after.unit and before.number != after.number:
        kinds.append(ChangeKind.MORE if after.number > before.number else ChangeKind.LESS)
    if not kinds:
        return None
    return Change(component=after.component, kinds=tuple(kinds), number=number, before=before, after=after)


def _dropped(batch: RecordedBatch) -> Change:
    return Change(component=batch.component, kinds=(ChangeKind.DROPPED,), number=None, before=batch, after=None)
