"""What a cook does in one go on a day of a plan: hands put to the stages of a batch one after the other.

Knows the plan alone; how it is worded is the sheets' business.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from typing import Final

from linebook.compute.plan_results import Making, PlannedStage, PrepPlan
from linebook.source.frozen import frozen

_PAUSE: Final = timedelta(minutes=10)
"""Hands that come back to a batch after no longer than this never left it."""
_LONGEST: Final = timedelta(hours=2)
"""A go is no longer, so that the start of what follows is not lost in it."""


@frozen
class Act:
    """Hands put to one load of a stage: to start it, or to finish it."""

    at: datetime
    end: datetime
    stage: PlannedStage
    finish: bool

    @property
    def minutes(self) -> int:
        """Return the minutes of work."""
        return int((self.end - self.at).total_seconds()) // 60


@frozen
class Go:
    """Acts on one batch that follow each other without a pause, in order."""

    making: Making
    acts: tuple[Act, ...]

    @property
    def at(self) -> datetime:
        """Return when it is started."""
        return self.acts[0].at

    @property
    def end(self) -> datetime:
        """Return when the hands leave it."""
        return max(act.end for act in self.acts)

    @property
    def minutes(self) -> int:
        """Return the minutes of work of all its acts."""
        return sum(act.minutes for act in self.acts)

    @property
    def first_stages(self) -> tuple[PlannedStage, ...]:
        """Return the loads of the stage it begins with, each once."""
        number = self.acts[0].stage.number
        found = {act.stage.load: act.stage for act in self.acts if act.stage.number == number}
        return tuple(found.values())

    @property
    def steps(self) -> tuple[tuple[int, bool], ...]:
        """Return which stages it starts or finishes, each once, in order: the stage and whether it is its finish."""
        return tuple(dict.fromkeys((act.stage.number, act.finish) for act in self.acts))

    @property
    def left(self) -> tuple[PlannedStage, ...]:
        """Return the loads that work by themselves when the hands leave."""
        end = self.end
        return tuple(act.stage for act in self.acts if not act.finish and act.stage.done > max(end, act.stage.alone))

    @property
    def is_last(self) -> bool:
        """Return whether the batch is ready with it, or by itself after it."""
        return any(
            act.stage.over >= self.making.ready and (act.finish or act.stage.over == act.stage.done)
            for act in self.acts
        )


def goes_on(plan: PrepPlan, line: str, day: date) -> tuple[Go, ...]:
    """Return what a line does on a day, in the order in which it is started."""
    goes: list[Go] = []
    for making in plan.makings:
        if making.batch.component.line == line:
            goes += _goes(making, day)
    return tuple(sorted(goes, key=lambda go: (go.at, go.making.number)))


def _goes(making: Making, day: date) -> list[Go]:
    goes: list[Go] = []
    for act in sorted(_acts(making, day), key=lambda act: (act.at, act.stage.number, act.stage.load)):
        last = goes[-1] if goes else None
        if last is not None and act.at <= last.end + _PAUSE and act.end <= last.at + _LONGEST:
            goes[-1] = Go(making=making, acts=(*last.acts, act))
        else:
            goes.append(Go(making=making, acts=(act,)))
    return goes


def _acts(making: Making, day: date) -> Iterator[Act]:
    for stage in making.stages:
        begun = stage.done > stage.start or stage.over == stage.start
        if begun and stage.start.date() == day:
            yield Act(at=stage.start, end=stage.alone, stage=stage, finish=False)
        if stage.over > stage.done and stage.done.date() == day:
            yield Act(at=stage.done, end=stage.over, stage=stage, finish=True)


def in_parts(
    goes: Sequence[Go], doors: datetime | None, last_seating: datetime | None
) -> tuple[tuple[str, tuple[Go, ...]], ...]:
    """Return what is done ``before``, ``during`` and ``after`` service, without the empty parts; all before if none."""
    parts: dict[str, list[Go]] = {"before": [], "during": [], "after": []}
    for go in goes:
        if doors is None or go.at < doors:
            parts["before"].append(go)
        else:
            parts["after" if last_seating is None or go.at >= last_seating else "during"].append(go)
    return tuple((part, tuple(found)) for part, found in parts.items() if found)
