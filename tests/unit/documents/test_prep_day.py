"""The prep plan of a day: all of it is printed, in the order of the day, with what is new, unready and over marked."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from pathlib import Path

import pytest
from planned_house import WEDNESDAY, small_house, week_plan
from sample_house import sheet
from test_view_mutations import mutations

from linebook.compute.plan_record import plan_changes, record_of
from linebook.compute.plan_results import Barrier, DayWork, Strain, Unready
from linebook.compute.prep_plan import compute_plan
from linebook.compute.services import find_services
from linebook.documents.plan_acts import goes_on
from linebook.documents.plan_words import days_of
from linebook.documents.prep_day import lines_with_work, prep_day
from linebook.documents.tasting_time import tasting_on
from linebook.documents.wording import english, wording_in
from linebook.markup.blocks import Table
from linebook.markup.fingerprint import fingerprint_of
from linebook.pipeline import load_house

THURSDAY = WEDNESDAY + timedelta(days=1)


def view(plan=None, line="stove", day=WEDNESDAY, changes=(), wording=None):
    return prep_day(small_house(), plan or week_plan(), line, day, wording or english(), changes)


def rows_of(found):
    return [row for group in found.groups for row in group.rows]


def work_of(found):
    return [row for row in rows_of(found) if row.key != "tasting"]


def said(text):
    return text.plain.replace("\u00a0", " ")


def test_a_row_for_each_go_in_order():
    for day in days_of(week_plan()):
        found, goes = work_of(view(day=day)), goes_on(week_plan(), "stove", day)
        assert [said(row.start) for row in found] == [f"{go.at:%H:%M}" for go in goes]
        assert [row.minutes.plain for row in found] == [str(go.minutes) if go.minutes else "" for go in goes]
        names = [small_house().components[go.making.component].name for go in goes]
        assert all(said(row.name).startswith(name) for row, name in zip(found, names, strict=True))


def test_what_is_counted_is_told_by_its_weight_too():
    """Until it is cut or shaped there are no pieces: who brines it goes by the weight."""
    plan = week_plan()
    counted = [replace(one, batch=replace(one.batch, pieces=Fraction(60 * one.batch.loads))) for one in plan.makings]
    weighed, found = (work_of(view(one)) for one in (plan, replace(plan, makings=tuple(counted))))
    assert found
    for was, row in zip(weighed, found, strict=True):
        assert said(row.amount).endswith("pieces")
        assert f"; {said(was.amount)}" in said(row.note)
        assert said(was.amount) not in said(was.note)


def test_the_first_task_stands_over_all():
    found = view()
    first = rows_of(found)[0]
    assert said(found.first) == f"First, {said(first.start)}: {said(first.name)}"
    assert any(piece.bold for piece in found.first.first)


def test_the_line_tastes_a_quarter_of_an_hour_before_the_doors():
    # Issue 6, common practice, no source: tasting a quarter of an hour before a 17:30 opening
    assert small_house().file.service.doors == time(17, 30)
    served = {one.day for one in week_plan().services}
    for day in days_of(week_plan()):
        rows = [row for row in rows_of(view(day=day)) if row.key == "tasting"]
        assert [said(row.start) for row in rows] == (["17:15"] if day in served and work_of(view(day=day)) else [])
        for row in rows:
            assert said(row.name) == "Tasting"
            assert said(row.note) == "every dish of the line, before the doors open at 17:30"
        for group in view(day=day).groups:
            starts = [said(row.start) for row in group.rows]
            assert starts == sorted(starts)


def test_the_tasting_is_never_the_first_task_and_only_where_the_line_has_a_dish():
    plan, house = week_plan(), small_house()
    night = datetime.combine(WEDNESDAY, time(21, 0))
    left = [replace(one, stages=tuple(stage for stage in one.stages if stage.start >= night)) for one in plan.makings]
    found = view(replace(plan, makings=tuple(one for one in left if one.stages)))
    assert [group.key for group in found.groups] == ["before", "after"]
    assert "Tasting" not in said(found.first)
    dishes = {id_: replace(dish, line="cold") for id_, dish in house.dishes.items()}
    moved = replace(house, dishes=dishes)
    found = prep_day(moved, plan, "stove", WEDNESDAY, english(), ())
    assert not [row for row in rows_of(found) if row.key == "tasting"]
    assert tasting_on(moved, plan, "cold", WEDNESDAY) == datetime(2027, 3, 3, 17, 15)


def test_a_day_without_work_says_so():
    plan = replace(week_plan(), makings=())
    found = view(plan)
    assert not found.groups
    assert not found.first
    assert said(found.nothing) == "Nothing to start on this line today."
    assert lines_with_work(small_house(), plan, WEDNESDAY) == []


def test_what_began_before_the_plan_is_first_on_its_first_day_alone():
    plan = week_plan()
    begun = [one for one in plan.makings if one.start.date() < WEDNESDAY]
    assert any(one.ready.date() < WEDNESDAY for one in begun), "one is ready by then, and is listed all the same"
    own = [one for one in begun if one.batch.component.line == "stove"]
    assert own
    assert len(view().before) == len(own)
    assert not view(day=THURSDAY).before


def test_overnight_is_what_is_alone_at_midnight():
    plan = week_plan()
    for day in days_of(plan):
        midnight = day + timedelta(days=1)
        alone = {
            (making.number, stage.number)
            for making in plan.makings
            for stage in making.stages
            if making.batch.component.line == "stove"
            and stage.alone.date() < midnight <= stage.done.date()
            and stage.done > stage.alone
        }
        assert len(view(day=day).overnight) == len(alone)


def test_unready_is_told_with_its_limit_and_its_first_service():
    unready = (
        Unready(component="braised-shin", service=THURSDAY, barrier=Barrier.ROOM, first=date(2027, 3, 6)),
        Unready(component="shin-sauce", service=THURSDAY, barrier=Barrier.PART, part="braised-shin"),
    )
    found = view(replace(week_plan(), unready=unready))
    assert [said(one.text) for one in found.unready] == [
        "Braised shin for Thu 4 March: its place or vessel is taken. It can be ready for Sat 6 March.",
        "Shin sauce for Thu 4 March: Braised shin cannot be ready.",
    ]
    assert not view(replace(week_plan(), unready=unready), day=date(2027, 3, 6)).unready


@pytest.mark.parametrize(("minutes", "over"), [(600, False), (1000, True)])
def test_the_work_of_the_day_against_the_cooks(minutes, over):
    work = (
        DayWork(line="stove", day=WEDNESDAY, minutes=minutes, cooks=2, available=900, movable=(0,) if over else ()),
    )
    found = view(replace(week_plan(), work=work))
    assert found.over is over
    assert said(found.work).startswith("Too much for the hands: 16 h 40" if over else "Work with the hands 10 h")
    assert "15 h for 2 cooks" in said(found.work)
    assert ("Could be done on an earlier day" in said(found.work)) is over


WORDS = {
    Strain.SHORT_OF_COOKS: "more hands than the line has: find one, or start earlier",
    Strain.PART_OVER: ": use it by then, and make it anew for ",
    Strain.EARLIER_TRIM: " must be there already, in date: else make or buy it first",
}


def test_what_ends_too_early_says_until_when_and_for_which_services_it_is_made_anew():
    plan = week_plan()
    own = [one for one in plan.makings if one.batch.component.line == "stove" and plan.first <= one.start.date()]
    making = next(one for one in own if len(one.services) > 1)
    first, *late = making.services
    ended = replace(making, strains=(Strain.PART_OVER,), use_by=first)
    makings = tuple(ended if one.number == making.number else one for one in plan.makings)
    rows = [row for day in days_of(plan) for row in rows_of(view(replace(plan, makings=makings), day=day))]
    told = [said(row.note) for row in rows if WORDS[Strain.PART_OVER] in said(row.note)]
    assert len(told) == 1
    assert f"a part of it ends {first:%a} {first.day} {first:%B}: use it by then, and make it anew for " in told[0]
    assert f"{late[-1]:%a}" in told[0].split("anew for ")[1]


def test_trim_that_nothing_on_the_plan_leaves_is_named():
    demo = load_house(Path(__file__).parents[3] / "specs", "specs", ()).value
    days = (date(2027, 3, 9), date(2027, 3, 10))
    services = find_services(demo, days[0], len(days)).value
    plan = compute_plan(demo, services.days, first=days[0], last=days[-1])
    early = [one for one in plan.makings if Strain.EARLIER_TRIM in one.strains and one.component == "leek-oil"]
    assert early
    rows = [row for day in days for row in rows_of(prep_day(demo, plan, "hearth", day, english()))]
    told = [said(row.note) for row in rows if WORDS[Strain.EARLIER_TRIM] in said(row.note)]
    assert any("leek tops must be there already" in note for note in told)


@pytest.mark.parametrize("strain", [one for one in Strain if one is not Strain.IN_SERVICE])
def test_a_strain_is_marked_where_the_batch_begins(strain):
    plan = week_plan()
    makings = tuple(replace(one, strains=(strain,)) for one in plan.makings)
    marked = [row for day in days_of(plan) for row in rows_of(view(replace(plan, makings=makings), day=day))]
    words = WORDS[strain]
    begins = sum(
        one.batch.component.line == "stove" and one.start.date() >= plan.first and one.start.date() <= plan.last
        for one in plan.makings
    )
    assert 0 < sum(words in said(row.note) for row in marked) <= begins


def test_changes_are_marked_on_their_rows_and_told_at_the_top():
    plan = week_plan()
    moved = next(one for one in plan.makings if one.batch.component.line == "stove" and one.start.date() == WEDNESDAY)
    earlier = timedelta(minutes=45)

    def shifted(stage):
        times = ("start", "alone", "may_be_done", "done", "over")
        return replace(stage, **{name: getattr(stage, name) - earlier for name in times})

    old = tuple(
        replace(one, stages=tuple(map(shifted, one.stages)), ready=one.ready - earlier) if one is moved else one
        for one in plan.makings
    )
    changes = plan_changes(record_of(replace(plan, makings=old)), record_of(plan))
    assert [one.number for one in changes] == [moved.number]
    found = view(changes=changes)
    was = f"{moved.start - earlier:%H:%M}"
    assert [said(one.text) for one in found.changed] == [
        f"{small_house().components[moved.component].name}: later, starts {moved.start:%H:%M}, was {was}"
    ]
    notes = [said(row.note) for row in rows_of(found) if said(row.start) == f"{moved.start:%H:%M}"]
    assert any(f"later, was {was}" in note for note in notes)
    assert not view().changed


def test_new_dropped_more_and_less_are_told():
    plan = week_plan()
    new, more, less = [one for one in plan.makings if one.batch.component.line == "stove"][:3]

    def of(making, factor):
        total = replace(making.batch.total, number=making.batch.total.number * factor)
        return replace(making, batch=replace(making.batch, total=total))

    factors = {less.number: Fraction(2), more.number: Fraction(1, 2)}
    old = [of(one, factors.get(one.number, Fraction(1))) for one in plan.makings if one is not new]
    changes = plan_changes(record_of(replace(plan, makings=tuple(old))), record_of(plan))
    told = [said(one.text) for day in days_of(plan) for one in view(day=day, changes=changes).changed]
    back = plan_changes(record_of(plan), record_of(replace(plan, makings=tuple(old))))
    gone = [said(one.text) for day in days_of(plan) for one in view(day=day, changes=back).changed]
    kinds = {kind.value for one in (*changes, *back) for kind in one.kinds}
    assert {"new", "more", "less", "dropped"} <= kinds
    assert any("new, " in text and " for " in text for text in told)
    assert any("more, " in text for text in told)
    assert any("less, " in text for text in told)
    assert any("dropped, " in text and "was to start" in text for text in gone)


def test_each_text_is_on_the_sheet():
    unready = (Unready(component="braised-shin", service=THURSDAY, barrier=Barrier.ROOM, first=None),)
    plan = replace(week_plan(), unready=unready)
    found = view(plan, changes=plan_changes(record_of(week_plan(covers=40)), record_of(plan)))
    assert found.changed
    base = fingerprint_of(sheet(found))
    seen = 0
    for path, changed in mutations(found):
        assert fingerprint_of(sheet(changed)) != base, path
        seen += 1
    assert seen > 60


def test_the_table_says_what_its_columns_are():
    table = next(one for one in sheet(view()).blocks if isinstance(one, Table) and len(one.columns) == 6)
    assert table.columns[0] == "tick"


def test_in_two_languages_nothing_is_left_out():
    found = view(wording=wording_in(("en", "es")))
    assert all(row.note.second is not None for row in rows_of(found))
    assert found.first.second is not None
