"""How long each stage of a batch takes, where a card says that the time grows with the load. Minutes.

Knows stages and loads; whether a time is right is the cook's business, and no word of it is printed from here.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil
from typing import Final

from linebook.compute.results import Batch
from linebook.model.amounts import Duration
from linebook.model.component import Growth, Stage
from linebook.model.sums import sum_of
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_LONG: Final = 30
"""Minutes. A longer time is said in steps of 5, a shorter one to the minute."""

_STEP: Final = 5


@frozen
class StageTimes:
    """The times of one load of a stage. ``by_itself`` is what it was written as where the cook must judge it."""

    hands_on: Duration | None
    by_itself: Duration | None
    finish: Duration | None


def loads_of_stages(batch: Batch) -> tuple[int, ...]:
    """Return how many loads each stage takes; those of the whole batch where nothing else is known."""
    return batch.stage_loads or (batch.loads,) * len(batch.component.stages)


def loads_at(batch: Batch, stage: str | None) -> int:
    """Return how many loads a batch is made in at a stage, by its name; of no stage, those of the whole batch."""
    for known, loads in zip(batch.component.stages, loads_of_stages(batch), strict=True):
        if known.name == stage:
            return loads
    return batch.loads


def stage_times(batch: Batch, base: Batch) -> tuple[StageTimes, ...]:
    """Return the times of one load of every stage.

    What grows does so with the load: its size against one load of the batch as written, ``base``. Grown times are
    rounded up, over half an hour to 5 minutes. What is the same for every load, or left to the cook, stays as written.
    """
    return tuple(
        _times(stage, batch.factor, written, loads)
        for stage, loads, written in zip(
            batch.component.stages, loads_of_stages(batch), loads_of_stages(base), strict=True
        )
    )


def total_time(times: Iterable[StageTimes], *, by_hand: bool = False) -> Duration:
    """Return the times of all stages end to end, or of them only those by hand."""
    found = [
        time
        for one in times
        for time in (one.hands_on, None if by_hand else one.by_itself, one.finish)
        if time is not None
    ]
    return Duration(least=sum_of(time.least for time in found), most=sum_of(time.most for time in found))


def _times(stage: Stage, factor: Fraction, written: int, loads: int) -> StageTimes:
    if stage.work is not Growth.GROWS and stage.time is not Growth.GROWS:  # as of most
        return StageTimes(hands_on=stage.hands_on, by_itself=stage.unattended, finish=stage.finish)
    grown = factor * written / loads
    work = grown if stage.work is Growth.GROWS else Fraction(1)
    alone = grown if stage.time is Growth.GROWS else Fraction(1)
    return StageTimes(
        hands_on=_grown(stage.hands_on, work),
        by_itself=_grown(stage.unattended, alone),
        finish=_grown(stage.finish, work),
    )


def _grown(time: Duration | None, factor: Fraction) -> Duration | None:
    if time is None or factor == 1:
        return time
    return Duration(least=_rounded_up(time.least * factor), most=_rounded_up(time.most * factor))


def _rounded_up(minutes: Fraction) -> Fraction:
    step = _STEP if minutes > _LONG else 1
    return Fraction(ceil(minutes / step) * step)
