"""The pull list and the knife work: sums over all that starts on a day, each once, against sums taken by hand."""

from fractions import Fraction

from planned_house import small_house, week_plan
from sample_house import sheet
from test_view_mutations import mutations

from linebook.compute.day_needs import day_needs, knife_work, place_of
from linebook.documents.plan_words import days_of
from linebook.documents.pull_list import pull_list
from linebook.documents.wording import english
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.contents import stage_of
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
