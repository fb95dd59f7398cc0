"""Times that grow with the load, and the loads of stages by their name."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType
from typing import Any

import pytest

from linebook.compute.results import Batch
from linebook.compute.stage_times import loads_at, stage_times, total_time
from linebook.model.amounts import Duration
from linebook.model.body import Body
from linebook.model.component import Component, Growth, Stage
from linebook.model.quantities import parse_amount
from linebook.model.units import METRIC_ONLY
from linebook.source.spans import SourceFile

SPAN = SourceFile(path="times", text="times").whole()


def minutes(least: int, most: int | None = None) -> Duration:
    return Duration(least=Fraction(least), most=Fraction(most or least))


def stage(name: str, **fields: Any) -> Stage:
    return Stage(span=SPAN, spans=MappingProxyType({}), name=name, **fields)


def batch(*stages: Stage, factor: Fraction = Fraction(1), loads: tuple[int, ...] = ()) -> Batch:
    makes = parse_amount("4 kg", METRIC_ONLY)
    component = Component(
        span=SPAN,
        spans=MappingProxyType({}),
        id="x",
        name="X",
        line="l",
        makes=makes,
        stages=stages,
        body=Body(sections=()),
    )
    return Batch(
        component=component,
        total=makes,
        pieces=None,
        factor=factor,
        loads=1,
        load=makes,
        ingredients=(),
        stage_loads=loads,
    )


@pytest.mark.parametrize(
    ("written", "factor", "loads", "grown"),
    [
        (minutes(20), Fraction(2), 1, minutes(40)),
        (minutes(20), Fraction(2), 2, minutes(20)),  # two loads of the size as written
        (minutes(20), Fraction(5, 4), 1, minutes(25)),
        (minutes(7), Fraction(3, 2), 1, minutes(11)),  # 10.5, to the next minute
        (minutes(25), Fraction(5, 4), 1, minutes(35)),  # 31.25, over half an hour: to the next five
        (minutes(420, 540), Fraction(11, 10), 1, minutes(465, 595)),  # 462 and 594
        (minutes(30), Fraction(1), 1, minutes(30)),
        (minutes(33), Fraction(1), 1, minutes(33)),  # as written, not rounded
    ],
)
def test_a_time_that_grows_does_so_with_the_load(written, factor, loads, grown):
    one = stage("cook", hands_on=written, unattended=written, finish=written, work=Growth.GROWS, time=Growth.GROWS)
    (times,) = stage_times(batch(one, factor=factor, loads=(loads,)), batch(one, loads=(1,)))
    assert (times.hands_on, times.by_itself, times.finish) == (grown, grown, grown)


def test_what_does_not_grow_stays_as_written():
    written = minutes(20, 33)
    one = stage("cook", hands_on=written, unattended=written, finish=written, time=Growth.JUDGE)
    (times,) = stage_times(batch(one, factor=Fraction(3), loads=(1,)), batch(one, loads=(1,)))
    assert (times.hands_on, times.by_itself, times.finish) == (written, written, written)


def test_it_is_one_load_of_the_batch_as_written_that_it_grows_from():
    one = stage("cook", hands_on=minutes(10), work=Growth.GROWS)
    # as written 4 kg in two loads of 2 kg; now 12 kg in three of 4 kg: twice the load
    (times,) = stage_times(batch(one, factor=Fraction(3), loads=(3,)), batch(one, loads=(2,)))
    assert times.hands_on == minutes(20)


def test_times_are_added_up_end_to_end():
    one = stage("mix", hands_on=minutes(10), finish=minutes(5))
    two = stage("cook", hands_on=minutes(5), unattended=minutes(60, 90))
    times = stage_times(batch(one, two, loads=(1, 1)), batch(one, two, loads=(1, 1)))
    assert total_time(times) == minutes(80, 110)
    assert total_time(times, by_hand=True) == minutes(20)


def test_the_loads_of_a_stage_are_found_by_its_name():
    made = batch(stage("mix"), stage("cook"), loads=(1, 3))
    assert [loads_at(made, name) for name in ("mix", "cook", None)] == [1, 3, 1]
    assert loads_at(replace(made, stage_loads=()), "cook") == 1
