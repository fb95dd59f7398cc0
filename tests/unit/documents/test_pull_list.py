"""The pull list and the knife work: sums over all that starts on a day, each once, against sums taken by hand."""

from fractions import Fraction

import pytest
from planned_house import small_house, week_plan
from sample_house import sheet
from test_view_mutations import mutations

from linebook.compute.day_needs import day_needs, knife_work, place_of
from linebook.compute.whole_pieces import in_whole_pieces
from linebook.documents.plan_words import days_of
from linebook.documents.pull_list import pull_list
from linebook.documents.wording import english
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.amounts import Kind
from linebook.model.contents import stage_of
from linebook.model.quantities import parse_amount
from linebook.model.units import to_base

LINES = ("stove", "cold")


def taken_by_hand(plan, item, prep=None):
    """All of an item in the batches that start on the plan, in its base measure, over all days and lines."""
    total = Fraction(0)
    for making in plan.makings:
        for at, line in enumerate(making.batch.ingredients):
            number = stage_of(making.batch.component, at) or 0
            loads = [one for one in making.stages if one.number == number]
            here = [one for one in loads if plan.first <= one.start.date() <= plan.last]
            if line.ingredient.item != item or line.total is None or (prep and line.ingredient.prep != prep):
                continue
            total += to_base(line.total) * Fraction(len(here), len(loads))
    return total


def test_over_all_days_and_lines_nothing_is_lost_or_doubled():
    plan = week_plan()
    summed = {}
    for day in days_of(plan):
        for line in LINES:
            for need in day_needs(small_house(), plan, line, day):
                for one in need.amounts:
                    summed[need.item] = summed.get(need.item, Fraction(0)) + to_base(one)
    plain = [item for item in summed if item in small_house().pantry]
    assert len(plain) > 5
    for item in plain:
        assert summed[item] == taken_by_hand(plan, item), item


def test_knife_work_is_each_way_of_cutting_once_a_day():
    plan = week_plan()
    summed = Fraction(0)
    for day in days_of(plan):
        for line in LINES:
            work = knife_work(small_house(), plan, line, day)
            assert len({(one.item, one.prep) for one in work}) == len(work)
            summed += sum(to_base(one.amounts[0]) for one in work if one.item == "celeriac")
    assert summed == taken_by_hand(plan, "celeriac", "peeled and diced") > 0


def test_a_thing_is_under_the_place_it_is_kept_in():
    assert place_of(small_house(), "braised-shin") == "walk-in"
    assert place_of(small_house(), "beef-shin") is None
    plan = week_plan()
    for day in days_of(plan):
        found = pull_list(small_house(), plan, "stove", day, english())
        for group in found.groups:
            for row in group.rows:
                item = row.key.removeprefix("pull.")
                left = item in small_house().by_products
                assert (place_of(small_house(), item) or (".left" if left else ".elsewhere")) == group.key
        keys = [group.key for group in found.groups]
        assert keys == sorted(keys, key=["walk-in", ".left", ".elsewhere"].index)


def test_each_text_is_on_the_sheet():
    plan = week_plan()
    found = max(
        (pull_list(small_house(), plan, "stove", day, english()) for day in days_of(plan)),
        key=lambda one: (bool(one.knife), len(one.groups)),
    )
    assert found.knife
    base = fingerprint_of(sheet(found))
    for path, changed in mutations(found):
        assert fingerprint_of(sheet(changed)) != base, path


@pytest.mark.parametrize(
    ("asked", "taken"),
    [("188.5 each", "189 each"), ("12 each", "12 each"), ("2/3 leaf", "1 leaf"), ("1.3 dozen", "16 each")],
)
def test_what_is_counted_is_taken_in_whole_ones_and_never_too_few(asked, taken):
    assert in_whole_pieces(parse_amount(asked, None)) == parse_amount(taken, None)


@pytest.mark.parametrize("weighed", ["188.5 g", "0.5 L", "2 dozen"])
def test_what_is_weighed_or_whole_already_stays_as_it_is(weighed):
    assert in_whole_pieces(parse_amount(weighed, None)) == parse_amount(weighed, None)


def test_no_half_thing_stands_on_a_pull_list():
    house = small_house()
    plan, halves = week_plan(), 0
    for day in days_of(plan):
        for line in LINES:
            needs = {f"pull.{need.item}": need for need in day_needs(house, plan, line, day)}
            rows = [row for group in pull_list(house, plan, line, day, english()).groups for row in group.rows]
            for row in rows:
                counted = [one for one in needs[row.key].amounts if one.unit.kind is Kind.COUNT]
                halves += sum(one.number.denominator > 1 for one in counted)
                assert not counted or not set("½¼¾⅓⅔≈.") & set(row.amount.plain), row
    assert halves, "one amount at least would have been printed as a part of a thing"
