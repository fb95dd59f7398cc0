"""A week at a glance: every stage has its bars at the right hours, and a line that makes much has more drawings."""

from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from planned_house import WEDNESDAY, small_house, week_plan

from linebook.documents.prep_week import prep_week, weeks_of
from linebook.documents.wording import english, wording_in
from linebook.figures.shapes import Label, Polygon

WIDTH, NAMES = 250.0, 58.0


def drawn(plan, days=None, wording=None):
    found = prep_week(small_house(), plan, "stove", days or weeks_of(plan)[0], wording or english())
    assert found is not None
    return found


def bars_of(drawings, dark):
    """Left and right of all bars, black ones or light ones, in mm."""
    return sorted(
        (round(shape.points[0][0], 2), round(shape.points[1][0], 2))
        for drawing in drawings.values()
        for shape in drawing.shapes
        if isinstance(shape, Polygon) and shape.ink.fill == (0.0 if dark else 0.85)
    )


@pytest.mark.parametrize("dark", [True, False])
def test_bars_are_where_the_stages_are(dark):
    plan = week_plan()
    _, drawings = drawn(plan)
    scale = (WIDTH - NAMES) / (7 * 24)
    start = datetime.combine(WEDNESDAY, datetime.min.time())
    expected = []
    for making in plan.makings:
        if making.batch.component.line != "stove":
            continue
        for stage in making.stages:
            hands = [(stage.start, stage.alone), (stage.done, stage.over)]
            for first, last in hands if dark else [(stage.alone, stage.done)]:
                begin = max(0.0, (first - start).total_seconds() / 3600)
                end = min(168.0, (last - start).total_seconds() / 3600)
                if end > begin and last > first:
                    left = NAMES + begin * scale
                    expected.append((round(left, 2), round(left + max(0.6, (end - begin) * scale), 2)))
    assert len(expected) > 5
    found = bars_of(drawings, dark)
    assert len(found) == len(expected)
    assert [end for bar in found for end in bar] == pytest.approx(
        [end for bar in sorted(expected) for end in bar], abs=0.011
    )


def test_more_rows_than_a_page_holds_make_more_drawings():
    plan = week_plan()
    base = next(one for one in plan.makings if one.batch.component.line == "stove" and one.start.date() >= WEDNESDAY)
    many, components = [], dict(small_house().components)
    for at in range(30):
        component = replace(base.batch.component, id=f"part-{at}", name=f"Part number {at}")
        components[component.id] = component
        many.append(replace(base, number=at, batch=replace(base.batch, component=component)))
    house = replace(small_house(), components=components)
    found = prep_week(house, replace(plan, makings=tuple(many)), "stove", weeks_of(plan)[0], english())
    assert found is not None
    view, drawings = found
    assert [figure.name for figure in view.figures] == ["week-1", "week-2"] == list(drawings)
    names = [
        shape.text
        for drawing in drawings.values()
        for shape in drawing.shapes
        if isinstance(shape, Label) and shape.align == "end"
    ]
    assert sorted(names) == sorted(f"Part number {at}" for at in range(30))
    assert all(drawing.height < 125 for drawing in drawings.values())


def test_a_long_plan_has_a_sheet_a_week():
    plan = week_plan(days=18)
    weeks = weeks_of(plan)
    assert [len(week) for week in weeks] == [7, 7, 4]
    assert [day for week in weeks for day in week] == [WEDNESDAY + timedelta(days=at) for at in range(18)]
    assert weeks_of(week_plan(days=10)) == (tuple(WEDNESDAY + timedelta(days=at) for at in range(10)),)
    view, _ = drawn(plan, weeks[1])
    assert view.title.plain.replace("\u00a0", " ") == "Wed 10 March to Tue 16 March"


def test_days_without_people_are_shaded_and_doors_are_lines():
    plan = week_plan()
    _, drawings = drawn(plan)
    shapes = drawings["week-1"].shapes
    shaded = [shape for shape in shapes if isinstance(shape, Polygon) and shape.ink.fill == 0.93]
    doors = [shape for shape in shapes if isinstance(shape, Polygon) and shape.ink.dash]
    assert len(shaded) == 3  # Sunday, Monday, Tuesday
    assert len(doors) == len(plan.services) == 4
    day = (WIDTH - NAMES) / 7
    assert doors[0].points[0][0] == pytest.approx(NAMES + day * 17.5 / 24, abs=0.01)


def test_nothing_made_has_no_sheet():
    plan = replace(week_plan(), makings=())
    assert prep_week(small_house(), plan, "stove", weeks_of(plan)[0], english()) is None


def test_in_two_languages_the_drawing_is_told_in_both():
    view, drawings = drawn(week_plan(), wording=wording_in(("en", "es")))
    assert view.figures[0].alternative.second is None
    assert " / " in drawings["week-1"].alternative
