"""The batch card: what a cook on prep must find, in its binder form and for one night."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from math import ceil

import pytest
from sample_house import (
    SATURDAY,
    amount,
    binder_view,
    hake_dish,
    leek_dish,
    made,
    minutes,
    night_view,
    pantry_item,
    sample_components,
    sample_house,
    sample_house_file,
    section,
    sheet,
    short_rib,
    short_rib_dish,
    simple,
)

from linebook.compute.allergens import compute_allergens
from linebook.compute.base import base_batch
from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night
from linebook.documents.batch_card import night_batch_card
from linebook.documents.wording import english
from linebook.markup.blocks import Box, Facts, Heading, Mark, Paragraph, Row, Split, Steps, Table
from linebook.markup.said import plain
from linebook.model.amounts import Percent
from linebook.model.body import Body
from linebook.model.component import Ingredient, Limit, Stage
from linebook.model.house import Medium
from linebook.model.occasion import Occasion

HOUSE = sample_house()


def flat(blocks):
    for block in blocks:
        if isinstance(block, Split):
            yield from flat((*block.left, *block.right))
        elif isinstance(block, Box):
            yield block
            yield from flat(block.blocks)
        else:
            yield block


def text_of(content) -> str:
    return plain(content).replace("\u00a0", " ")


def facts_of(view) -> dict[str, str]:
    return {
        fact.key: text_of(fact.value)
        for block in flat(sheet(view).blocks)
        if isinstance(block, Facts)
        for fact in block.facts
    }


def table_of(view) -> Table:
    return next(block for block in flat(sheet(view).blocks) if isinstance(block, Table) and block.role == "ingredients")


def row_of(view, key: str) -> Row:
    return next(row for row in table_of(view).rows if row.key == key)


def row_text(view, key: str) -> list[str]:
    return [" | ".join(filter(None, (text_of(cell.content), text_of(cell.note)))) for cell in row_of(view, key).cells]


def steps_of(view) -> list[str]:
    return [
        text_of(step.content) for block in flat(sheet(view).blocks) if isinstance(block, Steps) for step in block.steps
    ]


def paragraph(view, key: str) -> str:
    return next(text_of(b.content) for b in flat(sheet(view).blocks) if isinstance(b, Paragraph) and b.key == key)


def house_with(**changes):
    return sample_house(components=sample_components() | {"short-rib-glazed": replace(short_rib(), **changes)})


# What a standardized recipe must state: Washington OSPI standardized recipe form (2012, 2015), Minnesota Department of
# Education, standardized recipes page.


@pytest.mark.parametrize("view", [binder_view(HOUSE), night_view(HOUSE)], ids=["binder", "night"])
def test_every_field_of_a_standardized_recipe_is_on_the_card(view):
    whole, facts, steps = sheet(view), facts_of(view), steps_of(view)
    assert text_of(whole.title) == "Smoked short rib, glazed"  # title
    assert facts["fact.category"] == "smoke"  # category
    names = [text_of(cell.content) for row in table_of(view).rows for cell in row.cells if cell.scope == "row"]
    assert "beef short rib, bone in trimmed of silverskin" in names  # ingredients with their form, in order of use
    assert names.index("Basic brine") < names.index("chipotle paste")
    for row in table_of(view).rows:  # weight or measure of each
        if row.key.startswith("ingredient."):
            assert any(any(sign.isdigit() for sign in text_of(cell.content)) for cell in row.cells) or "to taste" in [
                text_of(cell.content) for cell in row.cells
            ]
    assert len(steps) == 5  # directions
    headings = [text_of(block.aside) for block in flat(whole.blocks) if isinstance(block, Heading)]
    assert any(
        "at 105 °C" in aside and "until 93 °C" in aside and "7 h to 9 h" in aside for aside in headings
    )  # heat, time
    assert (
        facts["fact.portion"] == "Short rib, celeriac, walnut: 2 pieces (full), 4 pieces (to share)"
    )  # portion size, with the tool where there is one
    assert "kg, " in paragraph(view, "makes")  # yield by weight and by number
    assert "pieces" in paragraph(view, "makes")
    assert facts["fact.equipment"] == "smoker rack (6 in the house)"  # equipment and pans, number and size
    assert facts["fact.store"] == "3 °C, walk-in, third pan 100 deep"
    titles = [text_of(b.blocks[0].content) for b in flat(whole.blocks) if isinstance(b, Box)]
    assert titles == ["Cook", "Cool"]  # critical control points
    assert {"allergens.contains", "allergens.may-contain", "allergens.undeclared"} <= facts.keys()  # allergens


def test_a_portion_names_its_tool():
    assert (
        facts_of(binder_view(HOUSE, "celeriac-puree"))["fact.portion"]
        == "Short rib, celeriac, walnut: 70 g (full), 126 g (to share), no. 16 scoop"
    )


def test_a_yield_says_how_many_or_for_what_it_is():
    assert paragraph(binder_view(HOUSE), "makes") == "Base batch makes 9 kg, 60 pieces"
    brine = paragraph(binder_view(HOUSE, "brine-basic"), "makes")
    assert brine == "Base batch makes 10 L, for Smoked short rib, glazed"


def test_a_yield_says_for_how_many_portions_where_one_dish_in_one_size_is_all_it_is_for():
    # two sizes of one dish: the portions stand by dish and size, and no number of them is promised
    assert paragraph(binder_view(HOUSE, "celeriac-puree"), "makes") == "Base batch makes 4.5 kg"
    dishes = {dish.id: dish for dish in (replace(short_rib_dish(), sizes=()), hake_dish(), leek_dish())}
    # 4.5 kg over 70 g a portion is 64.28…
    one = binder_view(sample_house(dishes=dishes), "celeriac-puree")
    assert paragraph(one, "makes") == "Base batch makes 4.5 kg, enough for 64 portions of 70 g"
    assert facts_of(one)["fact.portion"] == "Short rib, celeriac, walnut: 70 g, no. 16 scoop"
    also = simple("puree-cake", "Purée cake", "hearth", "1 kg", ("celeriac-puree", "300 g"))
    components = sample_components() | {
        "puree-cake": also,
        "walnut-crumb": replace(sample_components()["walnut-crumb"], ingredients=also.ingredients),
    }
    both = sample_house(dishes=dishes, components=components)
    assert paragraph(binder_view(both, "celeriac-puree"), "makes") == "Base batch makes 4.5 kg"
    # the cake is on no menu
    assert facts_of(binder_view(both, "celeriac-puree"))["fact.goes-into"] == "Walnut crumb"


def test_a_card_without_a_sort_leaves_it_out():
    assert "fact.category" not in facts_of(binder_view(house_with(sort=None)))


def portions(covers: int) -> dict[str, int]:
    """Portions by hand: share 0.7, four fifths full and one fifth to share, rounded up."""
    return {"full": ceil(Fraction("0.56") * covers), "to-share": ceil(Fraction("0.14") * covers)}


def pieces_made(covers: int) -> int:
    """Whole pieces by hand: two a portion, four to share, and 4 % that is lost."""
    found = portions(covers)
    return ceil(Fraction(2 * found["full"] + 4 * found["to-share"]) / Fraction(96, 100))


@pytest.mark.parametrize(("at", "covers"), [(0, 80), (1, 150)])
def test_a_night_s_column_is_one_load(at, covers):
    view = binder_view(HOUSE)
    kilograms = pieces_made(covers) * Fraction(9, 60)
    loads = ceil(kilograms / 18)
    assert row_text(view, "yield.loads")[at] == str(loads)
    assert row_text(view, "yield.pieces")[at] == str(pieces_made(covers))
    shown = row_text(view, "ingredient.brine.beef-short-rib")[at]
    number, unit = shown.split(" ")
    exact = kilograms / 9 * 14 / loads
    assert unit == "kg"
    assert abs(Fraction(number) - exact) <= exact / 100


def test_a_binder_s_columns_and_what_is_bold():
    view = binder_view(HOUSE)
    assert table_of(view).columns == ("figure", "figure", "name", "figure")
    assert [text_of(cell.content) for cell in table_of(view).head[0].cells] == [
        "80 covers",
        "150 covers",
        "ingredient",
        "base batch",
    ]
    for row in table_of(view).rows:
        if row.key.startswith("ingredient.brine"):
            first, second, _, base = row.cells
            assert all(run.bold for cell in (first, second) for run in cell.content)
            assert all(run.quiet and not run.bold for run in base.content)


def test_without_standard_nights_the_base_batch_is_bold():
    view = binder_view(sample_house(file=sample_house_file(nights=())))
    assert table_of(view).columns == ("amount", "unit", "name")
    number, unit, _ = row_of(view, "ingredient.brine.beef-short-rib").cells
    assert [(run.text, run.bold) for cell in (number, unit) for run in cell.content] == [("14", True), ("kg", True)]


def test_no_date_of_service_is_in_a_binder():
    text = repr(sheet(binder_view(HOUSE)))
    assert "March" not in text
    assert "2027" not in text


def test_a_night_s_sheet_has_a_box_a_load_and_its_own_head():
    view = night_view(HOUSE)
    assert text_of(sheet(view).aside) == "for Sat 6 March only, bin this sheet after service"
    assert table_of(view).columns == ("tick", "amount", "unit", "name", "figure", "figure")
    kilograms = pieces_made(140) * Fraction(9, 60)
    loads = ceil(kilograms / 18)
    tick, number, unit, _, total, base = row_of(view, "ingredient.brine.beef-short-rib").cells
    assert tick.content == (Mark(kind="tick", count=loads),)
    assert all(run.bold for cell in (number, unit) for run in cell.content)
    assert all(run.quiet and not run.bold for cell in (total, base) for run in cell.content)
    each = Fraction(text_of(number.content))
    assert text_of(total.content) == f"{float(each * loads):g} kg"
    assert text_of(base.content) == "14 kg"


def test_one_load_has_no_total():
    view = night_view(HOUSE, covers=20)
    assert table_of(view).columns == ("tick", "amount", "unit", "name", "figure")
    assert text_of(table_of(view).head[0].cells[1].content) == "weigh"


def test_a_batch_not_sized_by_covers_says_none():
    night = compute_night(HOUSE, Occasion(menu="early-spring", covers=140, date=SATURDAY))
    table = compute_allergens(HOUSE, "early-spring")

    def card(occasion):
        sized = replace(night, occasion=occasion)
        return night_batch_card(HOUSE, base_batch(HOUSE, "walnut-crumb"), sized, "walnut-crumb", table, english())

    assert facts_of(card(night.occasion))["fact.for"] == "140 covers"
    sized = card(Occasion(menu="early-spring", covers=0, date=SATURDAY))
    assert "fact.for" not in facts_of(sized)
    assert text_of(sheet(sized).aside) == "for Sat 6 March only, bin this sheet after service"
    assert (
        text_of(sheet(card(Occasion(menu="early-spring", covers=140))).aside)
        == "for 140 covers only, bin this sheet after service"
    )
    assert (
        text_of(sheet(card(Occasion(menu="early-spring", covers=0))).aside)
        == "for one batch only, bin this sheet after use"
    )


def test_what_a_cook_must_know_of_a_line():
    view = binder_view(HOUSE)
    assert row_text(view, "ingredient.brine.beef-short-rib")[2].endswith("| weigh this before its prep")
    assert row_text(view, "ingredient.brine.brine-basic")[2] == (
        "Basic brine | strained out or binned, not in the yield; from the Stove line"
    )
    assert "weigh exactly" in row_text(view, "ingredient.brine.curing-salt")[2]
    assert "1.8 % of beef short rib: 18 g a kg of what you weighed" in row_text(view, "ingredient.smoke.fine-salt")[2]
    assert "whole ones only" in row_text(view, "ingredient.smoke.gelatine-leaf")[2]
    assert "the same for every load" in row_text(view, "ingredient.smoke.mustard-seed")[2]
    assert "stir the jar first" in row_text(view, "ingredient.smoke.chipotle-paste")[2]
    assert row_text(view, "ingredient.smoke.cider-vinegar")[:2] == ["to taste", "to taste"]
    keep = row_text(view, "keep.beef-trim")
    assert keep[2] == "beef trim | from beef short rib, bone in; after Brine; for Short rib jus"
    assert keep[3] == "900 g"


def dough(*lines, makes="4 kg", **fields):
    """A house whose short rib is a dough of these (item, amount or percent, of …) lines."""
    ingredients = tuple(
        made(
            Ingredient,
            item=item,
            amount=Percent(number=Fraction(how_much), of=of) if of else amount(how_much),
            stage="mix",
        )
        for item, how_much, *of in ((item, how_much, *of) for item, how_much, *of in lines)
        for of in (tuple(of),)
    )
    names = {"white": "strong white flour", "rye": "rye flour, dark", "malt": "malt flour", "nut": "walnut halves"}
    pantry = {id_: pantry_item(id_, name) for id_, name in names.items()}
    stages = (made(Stage, name="mix", hands_on=minutes(20)),)
    changes = {"ingredients": ingredients, "also_makes": (), "stages": stages, "makes": amount(makes), **fields}
    house = house_with(**changes)
    return replace(house, pantry=house.pantry | pantry)


@pytest.mark.parametrize(
    ("lines", "note"),
    [
        ((("white", "2 kg"), ("rye", "1 kg"), ("butter", "68", "white", "rye")), "68 % of the two flours: 680 g a kg"),
        (
            (("white", "2 kg"), ("rye", "1 kg"), ("malt", "30 g"), ("butter", "68", "white", "rye")),
            "68 % of the first two flours: 680 g a kg",
        ),
        (
            (("malt", "30 g"), ("white", "2 kg"), ("rye", "1 kg"), ("butter", "68", "white", "rye")),
            "68 % of strong white flour and rye flour: 680 g a kg",
        ),
        (
            (("white", "2 kg"), ("nut", "1 kg"), ("butter", "2.5", "white", "nut")),
            "2.5 % of strong white flour and walnut halves: 25 g a kg",
        ),
        ((("white", "2 kg"), ("butter", "2", "white")), "2 % of strong white flour: 20 g a kg of what you weighed"),
        ((("white", "2 kg"), ("butter", "0.035", "batch")), "0.035 % of all that is weighed here: 0.35 g a kg"),
        ((("white", "2 lb"), ("butter", "2", "white")), "2 % of strong white flour: 0.32 oz a lb of what you weighed"),
    ],
)
def test_a_percentage_is_said_as_a_baker_says_it(lines, note):
    name = row_text(binder_view(dough(*lines)), "ingredient.mix.butter")[2]
    assert name.split(" | ")[1].split(";")[0] == note


def test_where_no_night_needs_several_loads_nothing_is_said_of_them():
    rows = {row.key for row in table_of(binder_view(HOUSE, "celeriac-puree")).rows}
    assert "yield.makes" in rows
    assert "yield.loads" not in rows
    assert row_text(binder_view(HOUSE, "celeriac-puree"), "yield.makes")[2] == "makes"


def test_several_loads_are_told_with_what_to_do():
    view = binder_view(house_with(largest_batch=amount("8 kg")))
    assert row_text(view, "yield.makes")[2] == "makes, all loads together"
    assert row_text(view, "yield.loads")[2] == ("loads | the figures below are for one load: make it this many times")
    assert paragraph(view, "loads") == "in 2 even loads of 4.5 kg; the base batch is all of them"
    assert paragraph(night_view(HOUSE), "loads").endswith("each as below")


def test_a_sentence_that_begins_with_a_brace_begins_with_a_capital():
    steps = ("{celeriac} goes in. {butter} too, then {butter} butter.", "Stir. {1/2 of butter} butter.")
    view = binder_view(
        sample_house(
            components=sample_components()
            | {
                "celeriac-puree": replace(
                    sample_components()["celeriac-puree"], body=Body(sections=(section("Make", *steps),))
                )
            }
        ),
        "celeriac-puree",
    )
    assert steps_of(view) == [
        "The celeriac goes in. The unsalted butter too, then the butter.",
        "Stir. ½ of the butter.",
    ]


def test_what_rounding_moved_is_said_once_for_all_columns():
    note = row_text(binder_view(house_with(largest_batch=None)), "ingredient.smoke.gelatine-leaf")[2]
    assert note.endswith("; rounded from 9.6 leaves (80 covers), 17.53 leaves (150 covers)")


def test_a_night_s_sheet_counts_whole_pieces_only():
    night = compute_night(HOUSE, Occasion(menu="early-spring", covers=140, date=SATURDAY))
    table = compute_allergens(HOUSE, "early-spring")
    for times, said in (("1/8", "7 whole pieces"), ("1", "60 pieces"), ("1/40", "1 whole piece")):
        batch = compute_batch(HOUSE, "short-rib-glazed", times=Fraction(times))
        sized = replace(night, batches={"short-rib-glazed": batch})
        view = night_batch_card(
            HOUSE, base_batch(HOUSE, "short-rib-glazed"), sized, "short-rib-glazed", table, english()
        )
        assert paragraph(view, "makes").endswith(f", {said}")


def test_an_article_before_a_medium_s_name_is_said_once():
    file = sample_house_file(media=(made(Medium, id="fryer", name="the fryer", carries=("frying-oil",)),))
    stages = (*short_rib().stages[:2], replace(short_rib().stages[2], through=("fryer",)))
    components = sample_components() | {"short-rib-glazed": replace(short_rib(), stages=stages)}
    house = sample_house(file=file, components=components)
    asides = [text_of(b.aside) for b in flat(sheet(binder_view(house)).blocks) if isinstance(b, Heading)]
    assert any("through the fryer" in aside for aside in asides)


def test_what_is_weighed_after_its_prep_is_said_over_the_names():
    ingredients = tuple(replace(line, weigh_before=False) for line in short_rib().ingredients)
    head = table_of(binder_view(house_with(ingredients=ingredients))).head[0]
    assert text_of(head.cells[2].content) == "ingredient, weighed after its prep"


def test_what_else_it_touches_and_how_it_is_adjusted():
    facts = facts_of(binder_view(HOUSE))
    assert facts["fact.also-touches"] == "frying oil"
    assert facts["fact.adjust-with"] == "cider vinegar"


def test_braces_in_a_binder_hold_for_every_column():
    first, _, third, fourth, _ = steps_of(binder_view(HOUSE))
    assert first == "Lay the rib bone side down, pour over the brine at 3 °C."
    assert third == "Rub with ½ of the salt. Smoke over beech at 105 °C until the core reads 93 °C."
    assert fourth == "Stir the paste into 2 L of water, then the other ½ of the fine salt."


def test_braces_on_a_night_s_sheet_are_the_load_s():
    view = night_view(HOUSE)
    load = text_of(row_of(view, "ingredient.smoke.chipotle-paste").cells[1].content)
    assert steps_of(view)[3].startswith(f"Stir {load} g paste into 2 L of water, then the other ")


def test_times_and_temperatures_are_bold_and_unparted():
    step = next(block for block in flat(sheet(binder_view(HOUSE)).blocks) if isinstance(block, Steps)).steps[1]
    assert [run.text for run in step.content if run.bold] == ["16\u00a0to\u00a020\u00a0h", "30\u00a0min"]


def test_step_numbers_run_through_the_card_in_the_order_of_the_stages():
    body = short_rib().body
    turned = replace(body, sections=(body.sections[3], body.sections[2], body.sections[1], body.sections[0]))
    for view in (binder_view(HOUSE), binder_view(house_with(body=turned))):
        numbers = [s.number for b in flat(sheet(view).blocks) if isinstance(b, Steps) for s in b.steps]
        assert numbers == [1, 2, 3, 4, 5]
        assert steps_of(view)[0].startswith("Lay the rib")


def test_a_card_nobody_has_tested_says_so():
    assert text_of(sheet(binder_view(house_with(tested=None))).aside) == "draft: not yet tested"
    night = night_view(house_with(tested=None))
    assert text_of(sheet(night).aside) == "for Sat 6 March only, bin this sheet after service, draft: not yet tested"
    assert sheet(binder_view(HOUSE)).aside == ()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, "4 d: day 1 is the day its last hot stage ends; never past the use-by of what is in it"),
        (
            {"stages": (made(Stage, name="brine", where="walk-in"),)},
            "4 d: day 1 is the day it is made; never past the use-by of what is in it",
        ),
        (
            {"keeps": minutes(360)},
            "6 h from when it leaves the cold or the heat; never past the use-by of what is in it",
        ),
        ({"keeps": None}, "not stated: ask the chef before you store it"),
    ],
)
def test_how_long_it_keeps_is_a_rule_in_a_binder(changes, words):
    if "stages" in changes:
        changes = changes | {"ingredients": (), "also_makes": ()}
    assert facts_of(binder_view(house_with(**changes)))["fact.keeps"] == words


def test_use_by_on_a_night_s_sheet_is_a_date():
    # FDA Food Code 2022, 3-501.17(A): the day of preparation is day 1; four days from 4 March end on 7 March
    assert facts_of(night_view(HOUSE, made=date(2027, 3, 4)))["fact.use-by"].startswith("Sun 7 March; keeps 4 d")
    # made when nobody knows: the earliest day from which Saturday 6 March is day 4
    assert facts_of(night_view(HOUSE))["fact.use-by"].startswith("make it no earlier than Wed 3 March; keeps 4 d")
    # what is not plated itself is used before service, so that no day is counted back from it
    assert facts_of(night_view(HOUSE, "brine-basic"))["fact.use-by"].startswith("2 d: day 1")


def boxes_of(view) -> list[Box]:
    return [block for block in flat(sheet(view).blocks) if isinstance(block, Box)]


@pytest.mark.parametrize("rules", ["FDA Food Code 2022", "UK", "EU"])
@pytest.mark.parametrize("limit", list(Limit))
@pytest.mark.parametrize("fahrenheit", [False, True])
def test_every_limit_has_its_box_under_every_rule_set(rules, limit, fahrenheit):
    file = sample_house_file(rules=rules, fahrenheit=fahrenheit)
    stages = tuple(replace(stage, limit=limit if stage.name == "chill" else None) for stage in short_rib().stages)
    components = sample_components() | {"short-rib-glazed": replace(short_rib(), stages=stages)}
    view = night_view(sample_house(file=file, components=components))
    (box,) = boxes_of(view)
    log = next(block for block in box.blocks if isinstance(block, Table))
    loads = row_of(view, "ingredient.smoke.mustard-seed").cells[0].content[0].count
    assert len(log.rows) == loads
    blanks = [mark for cell in log.rows[0].cells for mark in cell.content if isinstance(mark, Mark)]
    assert all(mark.kind == "blank" for mark in blanks)
    assert len(blanks) >= 3
    words = [text_of(cell.content) for cell in log.rows[0].cells]
    assert words[-1].startswith("initials")
    texts = [text_of(block.content) for block in box.blocks if isinstance(block, Paragraph)]
    assert any(text.startswith("Missed? ") for text in texts)
    assert texts[-1].endswith("Local code and your food-safety plan decide.")
    assert (" °F" in "".join((*texts, *words))) == fahrenheit or limit is Limit.ACIDIFY or "gives no" in texts[0]
    assert "°C" not in "".join((*texts, *words)) or not fahrenheit


def test_the_cooling_box_reads_as_the_food_code_does():
    cool = boxes_of(binder_view(HOUSE))[1]
    texts = [text_of(block.content) for block in cool.blocks if isinstance(block, Paragraph)]
    assert texts[0] == "57 °C to 21 °C within 2 h, then to 5 °C within 6 h in all"
    log = next(block for block in cool.blocks if isinstance(block, Table))
    assert [text_of(cell.content).rstrip("_ ") for cell in log.rows[0].cells][:2] == ["load 1", "at 57 °C"]
    assert texts[-1] == "FDA Food Code 2022, 3-501.14(A). Local code and your food-safety plan decide."


def test_the_same_card_twice_is_the_same():
    assert sheet(binder_view(sample_house())) == sheet(binder_view(sample_house()))
    assert sheet(night_view(sample_house())) == sheet(night_view(sample_house()))


def test_hostile_text_is_text():
    nasty = '</p><script>{{ 7*7 }}&amp; "x" \u2028 <b>'
    view = binder_view(house_with(name=nasty))
    assert text_of(sheet(view).title) == nasty.replace("\u00a0", " ")
