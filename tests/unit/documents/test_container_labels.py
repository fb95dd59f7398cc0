"""What stands on a label: name, dates, allergens as the findings have them, one label for each container."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from fractions import Fraction
from math import ceil

import pytest
from planned_house import small_house, week_plan

from linebook.compute.allergens import compute_allergens
from linebook.compute.containers import containers_of
from linebook.compute.prep_plan import compute_plan
from linebook.compute.results import Answer
from linebook.compute.services import CoversAsked, find_services
from linebook.documents.container_labels import label_run
from linebook.documents.plan_words import days_of
from linebook.documents.wording import english, wording_in
from linebook.model.amounts import Duration
from linebook.model.units import plus, times

LINES = ["stove", "cold"]


def said(text):
    return text.plain.replace("\u00a0", " ")


def all_containers(plan=None, lines=LINES):
    """The containers of what is made, by-products apart."""
    return [(day, one) for day, one in every_container(plan, lines) if one.left is None]


def every_container(plan=None, lines=LINES):
    plan = plan or week_plan()
    return [(day, one) for day in days_of(plan) for one in containers_of(small_house(), plan, day, lines)]


def labels_of(day, containers, house=None, wording=None):
    house = house or small_house()
    table = compute_allergens(house, containers.menu, on=day, also=(containers.item,))
    return label_run(house, day, [containers], {containers.menu: table}, wording or english()).labels


def test_all_that_is_ready_is_in_containers_once():
    plan = week_plan()
    found = [one.making.number for _, one in all_containers()]
    assert sorted(found) == [one.number for one in plan.makings if plan.first <= one.ready.date() <= plan.last]
    for _, one in all_containers():
        whole = times(one.amount, Fraction(one.count))
        assert whole == one.making.batch.total
        assert plus(whole, whole).number == 2 * one.making.batch.total.number
    assert {one.making.batch.component.line for _, one in all_containers(lines=["cold"])} <= {"cold"}


def test_as_many_as_the_vessel_it_is_stored_in_takes():
    # The puree waits in third pans of 3.5 L to the brim; 8 L of it by a density of 1 kg/L are three pans.
    day, one = next((day, one) for day, one in all_containers() if one.making.component == "celeriac-puree")
    part = replace(one.making.batch.component, density=Fraction(1))
    house = replace(small_house(), components={**small_house().components, part.id: part})
    kilograms = one.making.batch.total.number
    again = containers_of(house, week_plan(), day, LINES)
    puree = next(found for found in again if found.making.number == one.making.number)
    assert (
        puree.count == ceil(kilograms * 1000 / 3500) if one.making.batch.total.unit.key == "kilogram" else puree.count
    )


def test_without_a_known_volume_each_load_has_a_label():
    day, one = next((day, one) for day, one in all_containers() if one.making.component == "walnut-fritter")
    assert one.count == max(stage.loads for stage in one.making.stages)
    assert len(labels_of(day, one)) == one.count


def test_allergens_are_those_of_the_findings():
    seen = set()
    for day, one in all_containers():
        table = compute_allergens(small_house(), one.menu, on=day)
        component = one.making.component
        label = labels_of(day, one)[0]
        told = " | ".join(said(text) for text in label.allergens)
        for column in table.columns:
            finding = table.components[component][column.id]
            if finding.answer is not Answer.FREE:
                assert column.name in told, (component, column.name)
                seen.add(finding.answer)
            assert (finding.answer is Answer.CONTAINS) <= told.startswith("Contains ")
        for item in table.undeclared.get(component, ()):
            assert small_house().name_of(item) in told
    assert Answer.CONTAINS in seen


def test_what_nobody_has_declared_is_named_and_nothing_is_called_free():
    pantry = small_house().pantry
    house = replace(small_house(), pantry={**pantry, "celeriac": replace(pantry["celeriac"], allergens=None)})
    day, one = next((day, one) for day, one in all_containers() if one.making.component == "celeriac-puree")
    told = [said(text) for text in labels_of(day, one, house)[0].allergens]
    assert told[-1] == "Not declared, treat as containing anything: celeriac"
    assert not any("nothing on this house's lists" in text for text in told)


def test_the_use_by_is_that_of_the_plan():
    for day, one in all_containers():
        label = labels_of(day, one)[0]
        wanted = one.making.use_by
        assert label.use_by_open is (wanted is None)
        assert said(label.use_by) == (
            f"Use by {wanted:%a} {wanted.day} {wanted:%B}" if wanted else "Use by: write it down"
        )


def test_what_keeps_for_hours_says_the_hour():
    day, one = all_containers()[0]
    ready = datetime(2027, 3, 3, 15, 10)
    part = replace(one.making.batch.component, keeps=Duration(least=Fraction(240), most=Fraction(240)))
    making = replace(one.making, batch=replace(one.making.batch, component=part))
    label = labels_of(day, replace(one, making=making, ready=ready, made=ready.date(), use_by=ready.date()))[0]
    assert said(label.use_by) == "Use by Wed 3 March 19:10"
    assert said(label.made) == "Made Wed 3 March 15:10"


def test_day_one_is_told_where_it_is_not_the_day_it_is_ready():
    day, one = all_containers()[0]
    later = replace(one, ready=datetime(2027, 3, 4, 9, 30), made=date(2027, 3, 3))
    assert said(labels_of(day, later)[0].made) == "Made Wed 3 March (day 1), ready Thu 09:30"


def test_several_are_counted():
    day, one = all_containers()[0]
    labels = labels_of(day, replace(one, count=3))
    assert [said(label.which).rpartition(", ")[2] for label in labels] == ["1 of 3", "2 of 3", "3 of 3"]
    assert "of" not in said(labels_of(day, replace(one, count=1))[0].which).split(", ")[-1].split()


@pytest.mark.parametrize("languages", [("es",), ("en", "es")])
def test_in_other_languages_all_is_said(languages):
    day, one = all_containers()[0]
    label = labels_of(day, one, wording=wording_in(languages))[0]
    texts = (label.use_by, label.made, *label.allergens)
    if len(languages) == 2:
        assert all(text.second is not None for text in texts)
    else:
        assert not any("Contains" in text.plain or "Made" in text.plain for text in texts)


def test_days_beside_have_none_of_it():
    assert not containers_of(small_house(), week_plan(), week_plan().last + timedelta(days=60), LINES)


def with_trim(**changes):
    """The small house whose shin trim keeps, and is used."""
    shin = small_house().components["braised-shin"]
    (trim,) = shin.also_makes
    shin = replace(shin, also_makes=(replace(trim, **changes),))
    return replace(small_house(), components={**small_house().components, shin.id: shin})


def planned_trim(house):
    services = find_services(house, date(2027, 3, 3), 9, CoversAsked(every=60)).value
    return compute_plan(house, services.days, first=date(2027, 3, 3), last=date(2027, 3, 11))


def test_a_by_product_has_a_label_with_its_own_date_on_the_day_it_leaves():
    # The trim leaves when the brine stage is over, and keeps 2 days: that day and the next.
    house = with_trim(keeps=Duration(least=Fraction(2880), most=Fraction(2880), in_days=True))
    plan = planned_trim(house)
    seen = 0
    for making in plan.makings:
        if making.component != "braised-shin":
            continue
        brined = [stage for stage in making.stages if stage.number == 0]
        day = max(stage.over for stage in brined).date()
        left = [one for one in containers_of(house, plan, day, LINES) if one.left and one.making is making]
        assert sum(one.count for one in left) == sum(stage.over.date() == day for stage in brined)
        (label, *_) = labels_of(day, left[0], house)
        assert (said(label.name), label.component) == ("shin trim", "shin-trim")
        last = day + timedelta(days=1)
        assert said(label.use_by) == f"Use by {last:%a} {last.day} {last:%B}"
        assert said(label.made).startswith(f"Made {day:%a} {day.day} {day:%B}")
        assert said(label.which).startswith("Stove, ")
        whole = sum((times(one.amount, Fraction(one.count)).number for one in left), Fraction(0))
        today = Fraction(sum(stage.over.date() == day for stage in brined), len(brined))
        assert whole == 900 * making.batch.factor * today
        seen += 1
    assert seen


def test_a_by_product_is_bound_by_what_was_in_it():
    # The brine it lay in is strained out of the shin, but may be what leaves: no card says that it comes from the shin.
    house = with_trim(source=None, keeps=Duration(least=Fraction(14400), most=Fraction(14400), in_days=True))
    plan = planned_trim(house)
    for making in plan.makings:
        if making.component == "braised-shin":
            ends = [
                one.use_by
                for one in plan.makings
                if one.component == "brine" and any(share.taker == making.number for share in one.shares)
            ]
            day = max(stage.over for stage in making.stages if stage.number == 0).date()
            (left, *_) = (one for one in containers_of(house, plan, day, LINES) if one.left and one.making is making)
            assert left.use_by == min(*ends, day + timedelta(days=9))


def test_a_by_product_inherits_its_allergens_unless_its_card_names_where_it_comes_from():
    pantry = small_house().pantry
    shin = pantry["beef-shin"]
    house = replace(with_trim(), pantry={**pantry, shin.id: replace(shin, allergens=None)})
    plan = planned_trim(house)
    days = sorted({stage.over.date() for making in plan.makings for stage in making.stages})
    day, left = next((day, one) for day in days for one in containers_of(house, plan, day, LINES) if one.left)
    told = [said(text) for text in labels_of(day, left, house)[0].allergens]
    assert told[-1] == "Not declared, treat as containing anything: beef shin"
