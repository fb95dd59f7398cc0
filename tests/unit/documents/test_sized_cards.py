"""What a batch card says of its loads by stage, of what is held back, and of times that grow."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil

import pytest
from card_reading import asides, facts_of, flat, paragraph, pieces, row, rows_of, steps, ticks
from sample_house import (
    amount,
    binder_view,
    night_view,
    sample_house,
    sheet,
    short_rib,
)
from sized_house import sized_house, sized_night, sized_rib

from linebook.markup.blocks import Mark, Table
from linebook.model.component import Growth, Scale
from linebook.model.quantities import parse_amount
from linebook.model.units import METRIC_ONLY

HOUSE = sized_house()


# loads by stage


def smoke_loads(covers: int) -> int:
    """Loads by hand: 14 kg of rib for 60 pieces, and no more than 14 kg in the smoker."""
    return ceil(Fraction(pieces(covers), 60))


def test_each_stage_heads_its_lines_with_its_own_loads():
    view, loads = sized_night(HOUSE), smoke_loads(140)
    assert (pieces(140), loads) == (248, 5)
    assert paragraph(view, "loads") == "Loads by stage: Brine and Chill one load; Smoke 5 even loads"
    assert row(view, "weigh.brine") == ["Brine | one load"]
    assert row(view, "weigh.smoke") == ["Smoke | 5 even loads of 11.6 kg beef short rib"]
    rib = Fraction(pieces(140), 60) * 14
    assert abs(Fraction("11.6") - rib / 5) < rib / 5 / 100


def test_each_line_has_a_box_a_load_of_its_stage_and_one_load_bold():
    view = sized_night(HOUSE)
    assert (ticks(view, "ingredient.brine.beef-short-rib"), ticks(view, "ingredient.smoke.chipotle-paste")) == (1, 5)
    _, number, unit, _, total, _ = row(view, "ingredient.smoke.chipotle-paste")
    exact = Fraction(pieces(140), 60) * 250 / 5
    assert unit == "g"
    assert abs(Fraction(number) - exact) <= exact / 100
    assert Fraction(total.split()[0]) * 1000 == 5 * Fraction(number)
    assert row(view, "ingredient.brine.brine-basic")[4] == "37 L"  # one load is all of it
    assert ticks(view, "keep.beef-trim") == 1  # it leaves at the brine


def test_boxes_that_are_too_many_to_stand_before_the_name_stand_under_it():
    brine, smoke, chill = sized_rib().stages
    for most, loads in (("10 kg", 6), ("9 kg", 7)):
        view = sized_night(sized_house(sized_rib(stages=(brine, replace(smoke, at_most=amount(most)), chill))))
        cells = next(one for one in rows_of(view) if one.key == "ingredient.smoke.chipotle-paste").cells
        before = [mark.count for mark in cells[0].content if isinstance(mark, Mark)]
        under = [mark.count for mark in cells[3].note if isinstance(mark, Mark)]
        assert (before, under) == (([6], []) if loads == 6 else ([], [7]))


def test_a_stage_s_heading_and_log_have_its_loads():
    view = sized_night(HOUSE)
    assert asides(view)["Brine"].startswith("one load, hands on ")
    assert asides(view)["Smoke"].startswith("5 even loads of 11.6 kg beef short rib, each: hands on ")
    logs = [b for b in flat(sheet(view).blocks) if isinstance(b, Table) and b.role == "log"]
    assert [len(log.rows) for log in logs] == [5, 1]  # smoke, chill


def test_where_all_stages_have_the_same_loads_nothing_more_is_said():
    view = night_view(sample_house())
    assert paragraph(view, "loads").endswith("each as below")
    assert row(view, "weigh.brine") == ["Brine"]
    assert "load" not in asides(view)["Brine"]


def test_a_binder_has_a_row_of_loads_a_stage():
    view = binder_view(HOUSE)
    keys = [one.key for one in rows_of(view) if one.key.startswith("yield.loads")]
    assert keys == ["yield.loads.1", "yield.loads.2"]
    assert row(view, "yield.loads.1")[:3] == ["1", "1", "loads, Brine and Chill"]
    assert row(view, "yield.loads.2")[:2] == [str(smoke_loads(80)), str(smoke_loads(150))]
    assert row(view, "yield.loads.2")[2] == "loads, Smoke | the figures below are for one load: make it this many times"
    logs = [b for b in flat(sheet(view).blocks) if isinstance(b, Table) and b.role == "log"]
    assert [len(log.rows) for log in logs] == [smoke_loads(150), 1]


def test_stages_of_the_same_loads_are_named_together():
    brine, smoke, chill = sized_rib().stages
    both = replace(chill, at_most=amount("14 kg"), of=("beef-short-rib",))
    view = binder_view(sized_house(sized_rib(stages=(brine, smoke, both))))
    assert row(view, "yield.loads.2")[2].startswith("loads, Smoke and Chill")


def test_a_binder_s_base_batch_says_its_loads_where_they_differ():
    smoke = replace(sized_rib().stages[1], at_most=amount("7 kg"))
    house = sized_house(sized_rib(stages=(sized_rib().stages[0], smoke, sized_rib().stages[2])))
    text = paragraph(binder_view(house), "loads")
    assert text == "Loads by stage: Brine and Chill one load; Smoke 2 even loads; the base batch is all of them"


def test_braces_follow_the_load_of_their_stage():
    body = short_rib().body
    smoke = replace(body.sections[1], blocks=body.sections[0].blocks[:1])
    view = sized_night(sized_house(sized_rib(body=replace(body, sections=(body.sections[0], smoke, body.sections[2])))))
    brined, *_, smoked, _ = steps(view)
    assert brined.startswith("Lay 58 kg rib bone side down, pour over 37 L brine")
    assert smoked.startswith("Lay 11.6 kg rib bone side down, pour over 7.4 L brine")  # a fifth of 58 kg and of 37 L


# held back


def test_what_is_held_back_is_parted_into_what_can_be_weighed():
    view = sized_night(HOUSE)
    _, number, unit, name, total, base = row(view, "ingredient.smoke.cider-vinegar")
    assert (number, unit, base) == ("248", "ml", "400 ml")
    assert name == "cider vinegar | hold back 82 ml: taste, then the rest"
    assert Fraction(total.split()[0]) * 1000 == 5 * (248 + 82)


def test_a_binder_tells_what_is_held_back_in_each_column():
    view = binder_view(HOUSE)
    figures = row(view, "ingredient.smoke.cider-vinegar")
    assert figures[:2] == ["240 ml", "260 ml"]
    assert figures[2] == "cider vinegar | hold back 80 ml (80 covers), 90 ml (150 covers): taste, then the rest"
    bare = binder_view(sized_house(nights=()))
    assert row(bare, "ingredient.smoke.cider-vinegar") == [
        "300",
        "ml",
        "cider vinegar | hold back 100 ml: taste, then the rest",
    ]


def with_vinegar(text: str, step: str, first: Fraction | None = None):
    from sample_house import section

    rib = sized_rib()
    lines = [
        replace(line, amount=parse_amount(text, METRIC_ONLY), first=first) if line.item == "cider-vinegar" else line
        for line in rib.ingredients
    ]
    sections = (rib.body.sections[0], section("Smoke", step), *rib.body.sections[2:])
    return sized_house(replace(rib, ingredients=tuple(lines), body=replace(rib.body, sections=sections)))


def test_a_brace_of_what_is_held_back_says_both_parts():
    view = sized_night(with_vinegar("400 ml", "Season with {cider-vinegar} vinegar."))
    assert steps(view)[2] == "Season with 248 ml, taste, then up to 82 ml more vinegar."
    part = sized_night(with_vinegar("400 ml", "Season with {1/2 of cider-vinegar} vinegar."))
    assert steps(part)[2] == "Season with 165 ml vinegar."


def test_the_first_part_is_the_card_s():
    view = sized_night(with_vinegar("400 ml", "Season.", first=Fraction(1, 2)), 30)
    _, number, unit, name, *_ = row(view, "ingredient.smoke.cider-vinegar")
    held = name.split("hold back ")[1].split(":")[0]
    assert f"{number} {unit}" == held


def test_what_cannot_be_parted_says_to_taste_before_the_last_of_it():
    lines = tuple(
        replace(line, amount=amount("1 leaf"), scale=Scale.HELD_BACK) if line.item == "gelatine-leaf" else line
        for line in sized_rib().ingredients
    )
    view = binder_view(sized_house(sized_rib(ingredients=lines), nights=()))
    assert row(view, "ingredient.smoke.gelatine-leaf")[2].endswith("add most of it, taste, then the rest")


# times


def test_times_fit_the_load_on_a_night_s_sheet_and_are_the_base_in_a_binder():
    made_of = Fraction(pieces(140), 60)
    view = asides(sized_night(HOUSE))
    # the brine is one load: 25 min and 20 min, grown and rounded up to five
    brine = [ceil(minutes_ * made_of / 5) * 5 for minutes_ in (25, 20)]
    assert brine == [105, 85]
    assert view["Brine"] == "one load, hands on 1 h 45 min, by itself 16 h to 20 h, finish 1 h 25 min, walk-in"
    # a fifth of it is smoked at a time: 20 min × 248/60/5 is 16.5
    assert "hands on 17 min, by itself, judge it: look from 7 h, may wait 2 h" in view["Smoke"]
    base = asides(binder_view(HOUSE))
    assert base["Brine"] == (
        "hands on 25 min, by itself 16 h to 20 h, finish 20 min, the work grows with the load, walk-in"
    )
    assert base["Smoke"].startswith(
        "hands on 20 min, by itself, judge it: look from 7 h, the work grows with the load, may wait 2 h"
    )


@pytest.mark.parametrize(
    ("work", "time", "says"),
    [
        (Growth.GROWS, Growth.GROWS, "all these times grow with the load"),
        (Growth.SAME, Growth.GROWS, "the time by itself grows with the load"),
        (Growth.SAME, Growth.SAME, ""),
    ],
)
def test_a_binder_says_what_grows(work, time, says):
    brine, *others = sized_rib().stages
    stages = (replace(brine, work=work, time=time), *others)
    aside = asides(binder_view(sized_house(sized_rib(stages=stages))))["Brine"]
    assert says in aside
    assert bool(says) == ("grow" in aside)


def test_what_it_takes_is_added_up_from_the_times_printed():
    # brine 105 + 960 to 1200 + 85, smoke 17 + 420 to 540 as written, chill 20: 1607 to 1967 minutes
    takes = facts_of(sized_night(HOUSE))["fact.takes"]
    assert takes == "one load of each stage 26 h 47 min to 32 h 47 min in all, 3 h 47 min of it by hand"
