"""The smokehouse, worked out by hand from its spec files: cures, a brine, a block cut to pieces, trays, loads by stage.

Portions. No line-up portion; the spare of the trout is 10 %, the set cream has two at the least.

                     40 covers (Thu)       60 covers (Fri)       80 covers (Sat)
  cured trout   50 % 20 + 2     = 22       30 + 3    = 33        40 + 4    = 44
  pressed hock  30 %              12                   18                    24
  smoked belly  40 %              16                   24                    32
  belly hash    30 %              12                   18                    24
  set cream     50 % 20 + 2     = 22       30 + 2    = 32        40 + 2    = 42

What each component makes, in grams (ml for the sauce), and in how many loads:

  cured trout, 60 g, 5 % lost          1389.474          2084.211              2778.947; the cure takes 3 kg of trout,
       trout 1.1 times that            1528.421          2292.632              3056.842: two loads on Saturday alone
  horseradish cream, 15 g              330 -> 500 least  495 -> 500            660
  rye cracker, 2 of 10 g, trays of 30  44 -> 60          66 -> 90, two loads   88 -> 90, two loads of whole trays:
       at most 60 in a load                              of 60                 four trays, 120
  pressed hock, moulds of 20           12 -> 20          18 -> 20              24 -> 40
  brined hock, 80 g a piece            1600              1600                  3200
       hock and brine in the tub       4267 + 5067       4267 + 5067           8533 + 10133 = 18667: two loads of 12 kg
  bacon brine, 19/6 of the hock        5066.667          5066.667              10133.333
  smoked belly, 150 g                  2400 -> 3000      3600                  4800; 5 kg of belly in the smoker:
       belly 1.5 times that            4500: one load    5400: two             7200: two
  belly hash, 140 g                    1680              2520                  3360
  celeriac puree, 80 g                 1280              1920                  2560
  belly sauce, 40 ml                   640               960                   1280
  set cream, moulds of 10 of 100 g     22 -> 30          32 -> 40              42 -> 50; 4 kg at most: two loads, each of
                                                                               whole moulds: 3 and 3, 60

By-products, made less needed:
  belly trim, 1/8 of the belly made    375 - 336 = 39    450 - 504 = -54       600 - 672 = -72
  hock stock, 7/6 of the hock made     1866.667 - (850 + 768)   - (850 + 1152)        3733.333 - (1700 + 1536)
                                       = 248.667         = -135.333            = 497.333
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from house_prints import HOUSES, SIZES, Prints, assert_figures, facts, print_house, run_house
from pypdf import PdfReader

from linebook.compute.demand import compute_night
from linebook.compute.results import Night
from linebook.model.occasion import Occasion
from linebook.pipeline import load_house

NAME = "teasel-quay"
DAY = ("--date", "2027-10-02")

# 1 kg of Thursday's trout lives until Monday, 4 October; Friday's puree until Saturday; the terrine of Tuesday until
# Friday, too short; the cream has no day; 8 set creams of Saturday are 800 g, and carry almonds by their label.
LEFT = """on_hand:
  - {item: celeriac-puree, amount: 500 g, made: 2027-10-01, contains: [cows-milk, celery]}
  - {item: hock-terrine, amount: 6 pieces, made: 2027-09-28}
  - {item: cured-trout, amount: 1 kg, made: 2027-09-30, contains: [trout]}
  - {item: horseradish-cream, amount: 200 g}
  - {item: belly-trim, amount: 80 g, use_by: 2027-10-03, contains: none}
  - {item: set-cream, amount: 8 pieces, made: 2027-10-02, contains: [cows-milk, almond]}
"""


def night(covers: int) -> Night:
    house = load_house(HOUSES / NAME, NAME).value
    assert house is not None
    return compute_night(house, Occasion(menu="october", covers=covers))


def said(tmp_path: Path, *arguments: str) -> str:
    result = run_house(NAME, tmp_path, *arguments, "-o", str(tmp_path / "sheet.pdf"))
    assert result.exit_code == 0, result.output
    return result.output


def paper(tmp_path: Path) -> str:
    text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "sheet.pdf").pages)
    return " ".join(text.split())


def test_check_finds_nothing(tmp_path: Path) -> None:
    assert run_house(NAME, tmp_path, "check", "--strict").exit_code == 0


@pytest.mark.parametrize(
    ("covers", "portions"), [(40, (22, 12, 16, 12, 22)), (60, (33, 18, 24, 18, 32)), (80, (44, 24, 32, 24, 42))]
)
def test_portions(covers: int, portions: tuple[int, ...]) -> None:
    assert tuple(demand.portions for demand in night(covers).demands) == portions


# Of each component what is made in its own unit, the loads of the card, and of each stage.
MADE = {
    40: {
        "cured-trout": (Fraction(22 * 60, 950), 1, (1, 1)),
        "horseradish-cream": (Fraction("0.5"), 1, (1,)),
        "rye-cracker": (600, 1, (1, 1)),
        "hock-terrine": (Fraction("2.4"), 1, (1, 1)),
        "brined-hock": (Fraction("1.6"), 1, (1, 1, 1)),
        "bacon-brine": (Fraction(1600 * 19, 6000), 1, (1,)),
        "smoked-belly": (3, 1, (1, 1, 1)),
        "belly-hash": (Fraction("1.68"), 1, (1,)),
        "celeriac-puree": (Fraction("1.28"), 1, (1, 1)),
        "belly-sauce": (Fraction("0.64"), 1, (1, 1)),
        "set-cream": (3, 1, (1, 1)),
    },
    60: {
        "cured-trout": (Fraction(33 * 60, 950), 1, (1, 1)),
        "rye-cracker": (1200, 2, (2, 2)),
        "hock-terrine": (Fraction("2.4"), 1, (1, 1)),
        "smoked-belly": (Fraction("3.6"), 1, (1, 2, 1)),
        "set-cream": (4, 1, (1, 1)),
    },
    80: {
        "cured-trout": (Fraction(44 * 60, 950), 1, (2, 1)),
        "horseradish-cream": (Fraction("0.66"), 1, (1,)),
        "rye-cracker": (1200, 2, (2, 2)),
        "hock-terrine": (Fraction("4.8"), 1, (1, 1)),
        "brined-hock": (Fraction("3.2"), 1, (2, 1, 1)),
        "bacon-brine": (Fraction(3200 * 19, 6000), 1, (1,)),
        "smoked-belly": (Fraction("4.8"), 1, (1, 2, 1)),
        "set-cream": (6, 2, (2, 2)),
    },
}


@pytest.mark.parametrize("covers", list(MADE))
def test_what_is_made_and_in_which_loads(covers: int) -> None:
    batches = night(covers).batches
    found = {
        name: (batches[name].total.number, batches[name].loads, batches[name].stage_loads) for name in MADE[covers]
    }
    assert found == MADE[covers]


@pytest.mark.parametrize(
    ("covers", "trim", "stock"),
    [
        (40, ("spare", 39), ("spare", Fraction(746, 3))),
        (60, ("short", 54), ("short", Fraction(406, 3))),
        (80, ("short", 72), ("spare", Fraction(1492, 3))),
    ],
)
def test_trim_feeds_the_hash_and_stock_the_sauce(
    covers: int, trim: tuple[str, Fraction], stock: tuple[str, Fraction]
) -> None:
    balances = night(covers).balances
    found = {item: (one.standing.value, one.difference) for item, one in balances.items()}
    assert {item: (how, one.number * SIZES[one.unit.symbol]) for item, (how, one) in found.items()} == {
        "belly-trim": trim,
        "hock-stock": stock,
    }


def test_whole_leaves_and_a_pod_a_load() -> None:
    """7 leaves for 20 creams: 30 take 10.5, a leaf too much in each load; a pod goes into each, not with the amount."""
    needs = {covers: night(covers).needs for covers in (40, 60, 80)}
    assert [needs[covers]["gelatine"].number for covers in needs] == [7 + 11, 7 + 14, 14 + 2 * 11]
    assert [needs[covers]["vanilla"].number for covers in needs] == [1, 1, 2]
    assert [needs[covers]["oil"].number for covers in needs] == [10, 20, 20]
    assert [needs[covers]["eggs"].number for covers in needs] == [3, 4, 5]  # 2.52, 3.78, 5.04


# Saturday's cards: each load (the belly and the brine are one load of these stages), then the base.
CARDS = {
    "cured-trout": {
        "trout": ("g", (Fraction("1528.421"), Fraction("3056.842"), 2200)),
        "fine-salt": ("g", (Fraction("61.137"), Fraction("122.274"), 88)),
        "sugar": ("g", (Fraction("45.853"), Fraction("91.705"), 66)),
        "curing-salt": ("g", (Fraction("3.0568"), Fraction("6.1137"), Fraction("4.4"))),
    },
    "rye-cracker": {
        "rye-flour": ("g", (500, 1000, 500)),
        "water": ("g", (275, 550, 275)),
        "fine-salt": ("g", (10, 20, 10)),
        "sesame": ("g", (30, 60, 30)),
        "oil": ("g", (10, 20, 10)),
    },
    "bacon-brine": {
        "water": ("g", (Fraction("9813.33"), 9200)),
        "fine-salt": ("g", (Fraction("588.8"), 552)),
        "sugar": ("g", (Fraction("196.27"), 184)),
        "curing-salt": ("g", (Fraction("39.253"), Fraction("36.8"))),
    },
    "smoked-belly": {
        "pork-belly": ("g", (7200, 6000)),
        "fine-salt": ("g", (144, 120)),
        "curing-salt": ("g", (Fraction("14.4"), 12)),
    },
    "celeriac-puree": {
        "celeriac": ("g", (2048, 1600)),
        "butter": ("g", (256, 200)),
        "milk": ("ml", (384, 300)),
        "fine-salt": ("g", (Fraction("26.995"), Fraction("21.09"))),  # 1 % of all but itself; milk weighs 1.03
    },
}


@pytest.fixture(scope="module", params=list(CARDS))
def card(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Prints]:
    name = request.param
    return name, print_house(NAME, tmp_path_factory.mktemp(name), "batch", name, "--covers", "80", *DAY)


def test_the_cards_carry_the_amounts_worked_out(card: tuple[str, Prints]) -> None:
    name, prints = card
    assert_figures(prints, f"batch-card:{name}:2027-10-02", CARDS[name])


def test_the_nitrite_of_the_cures(tmp_path: Path) -> None:
    """0.2 % of a salt with 6 % nitrite is 120 ppm of trout or belly. In the tub 9.5 kg of brine hold 36.8 g of it,

    2.208 g of nitrite in brine and hock together, 17.5 kg: 126 ppm.
    """
    said(tmp_path, "batch", "cured-trout", "--covers", "80", *DAY)
    assert "120 ppm of the weight of trout, whole; the house's ceiling is 150 ppm" in paper(tmp_path)
    said(tmp_path, "batch", "smoked-belly", "--covers", "80", *DAY)
    assert "120 ppm of the weight of pork belly" in paper(tmp_path)
    said(tmp_path, "batch", "brined-hock", "--covers", "80", *DAY)
    assert "126 ppm" in paper(tmp_path)


def test_from_what_there_is(tmp_path: Path) -> None:
    """9.3 of 2.2 kg of trout is 8.4545 kg: four cures of 2.325, two loads of 6 kg at most; 133.9 portions.

    With 10 g of dill of 20 g it is half a batch, though 3.3 kg of trout would be one and a half: 1.1 kg taken, 2.2 left;
    950 g on the plate, 15.8 portions.
    """
    whole = said(tmp_path, "batch", "cured-trout", "--have", "9.3 kg trout", *DAY)
    assert "cure 4, slice 2" in whole
    assert "limited by: trout, whole" in whole
    assert "gives: 133 portions of Cured trout, rye cracker, 60 g each" in whole
    assert "2.325 kg  9.3 kg" in whole
    dill = said(tmp_path, "batch", "cured-trout", "--have", "3.3 kg trout", "--have", "10 g dill", *DAY)
    assert "limited by: dill" in dill
    assert "left: 2.2 kg of 3.3 kg trout, whole" in dill
    assert "gives: 15 portions" in dill


def test_by_pieces_portions_and_times(tmp_path: Path) -> None:
    """48 pieces take 16.8 leaves; 100 portions of 60 g are 6 kg on the plate, 6.3158 made, 6.947 kg of trout, 3 cures."""
    pieces = said(tmp_path, "batch", "hock-terrine", "--pieces", "48", *DAY)
    assert "makes 5.8 kg, 48 pieces" in pieces
    assert "17 leaves" in pieces
    assert "16.8 leaves" in pieces
    assert "not in whole ones of 2.4 kg" in pieces
    portions = said(tmp_path, "batch", "cured-trout", "--portions", "100", *DAY)
    assert "cure 3, slice 2" in portions
    assert "under the smallest batch, 3 kg" in said(tmp_path, "batch", "smoked-belly", "--makes", "1.5 kg", *DAY)
    assert (
        "`2.5` is not a whole number"
        in run_house(NAME, tmp_path, "batch", "hock-terrine", "--pieces", "2.5", *DAY).output
    )
    # 5 moulds are whole, but two even loads of two and a half are not
    uneven = said(tmp_path, "batch", "set-cream", "--times", "2.5", *DAY)
    assert "2 even loads of 2.5 kg" in uneven
    assert "a load is not in whole ones of 10 pieces" in uneven


def test_stock_in_its_life_is_taken_off(tmp_path: Path) -> None:
    (tmp_path / "left.yaml").write_text(LEFT, encoding="utf-8")
    have = ("--covers", "80", "--on-hand", str(tmp_path / "left.yaml"), *DAY)
    trout = said(tmp_path, "batch", "cured-trout", *have)
    assert "use by 2027-10-04" in trout  # day 1 is 30 September
    assert "1.957 kg" in trout  # 2778.947 - 1000 = 1778.947, times 1.1 = 1956.8, exactly as its cure needs it
    assert "2.06 kg" in said(tmp_path, "batch", "celeriac-puree", *have)
    assert "past its life" in said(tmp_path, "batch", "hock-terrine", *have)
    assert "no day it was made" in said(tmp_path, "batch", "horseradish-cream", *have)
    # 4200 - 800 = 3400 g: four moulds of 1 kg, one load, 14 leaves
    cream = said(tmp_path, "batch", "set-cream", *have)
    assert "makes 4 kg, 40 pieces" in cream
    assert "14 leaves" in cream
    # 600 + 80 - 672 = 8 g; 672 g is printed as 670 g, and what is spare is the difference of what is printed
    assert "670 g needed tonight, 80 g on hand: 10 g spare" in said(tmp_path, "batch", "belly-hash", *have)
    guest = said(tmp_path, "guest", "nuts", "--on-hand", str(tmp_path / "left.yaml"), *DAY)
    assert "Do not serve  Set cream" in guest


def test_mustard_stands_in_for_horseradish(tmp_path: Path) -> None:
    """Half the weight: 60 g in 1 kg, 39.6 g in 660 g. What it adds stands at the top;"""
    text = said(tmp_path, "batch", "horseradish-cream", "--covers", "80", "--without", "horseradish", *DAY)
    assert "Now contains mustard: Cured trout, rye cracker." in text
    assert "39.6 g" in text
    assert "Now contains mustard." in paper(tmp_path)
    assert "Do not serve  Cured trout" in said(tmp_path, "guest", "mustard", "--without", "horseradish", *DAY)
    fallen = said(tmp_path, "matrix", "--without", "horseradish", "--without", "english-mustard", *DAY)
    assert "Not served: Cured trout, rye cracker" in fallen
    assert "Not served tonight: Cured trout" in paper(tmp_path)


def test_held_back_lemon(tmp_path: Path) -> None:
    """40 g a kilo, 26.4 g in 660 g: three quarters, 19.8 g, then at most 6.6 g."""
    said(tmp_path, "batch", "horseradish-cream", "--covers", "80", *DAY)
    assert "19.8 g, taste, then up to 6.6 g more" in paper(tmp_path)


def test_cutting_plan(tmp_path: Path) -> None:
    """290 x 90 mm once squared. Strips of 20 with 2 mm a cut: four take 86 and the cut after them 2, 2 are left;
    pieces of 55: five take 283 and 2, 5 are left: 20 a block. 22000 of 30000 mm² are in the pieces.
    """
    said(tmp_path, "batch", "hock-terrine", "--covers", "80", *DAY)
    text = paper(tmp_path)
    assert "20 pieces of 55 × 20 mm from each block" in text
    assert "Blocks 2 Pieces needed 24 Pieces over, where every block is full 16" in text
    assert "1 of 290 × 2 mm, 4 of 20 × 5 mm" in text
    assert "73.3 % is in the pieces, 13 % is squared off, 10.4 % goes with the cuts, 3.3 % is left over" in text


def test_set_up_sheet(tmp_path: Path) -> None:
    """2560 g of puree at 1.02 kg/L is 2.51 L, in sixth pans of 1.6 L filled to 90 %: one on the line, one behind."""
    said(tmp_path, "setup", *DAY)
    text = paper(tmp_path)
    assert "2.56 kg 1 × sixth pan 100 deep, 65 °C 1 sixth pan 100 deep, walk-in" in text
    assert "Cured trout, rye cracker; Pressed hock; Set cream 110" in text  # 44 + 24 + 42 plates
    assert "Smoked belly, celeriac; Belly hash 56" in text


def test_what_is_counted_comes_back(tmp_path: Path) -> None:
    """The file beside the sheet, filled in: of the card as it is, it brings no allergen of its own."""
    folder = tmp_path / "counted"
    result = run_house(NAME, tmp_path, "count", *DAY, "-o", str(folder))
    assert result.exit_code == 0, result.output
    file = folder / "on-hand-cold.yaml"
    text = file.read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if "item: cured-trout" in line)
    filled = line.replace("#-", " -", 1).replace("... kg", "1 kg").replace("....-..-..", "2027-10-02")
    file.write_text(text.replace(line, filled), encoding="utf-8")
    # On Friday 8 it is past its life: made on the 2nd, its last day is the 6th; on the 2nd itself it counts.
    late = ("--covers", "60", "--date", "2027-10-08")
    assert "past its life" in said(tmp_path, "batch", "cured-trout", *late, "--on-hand", str(file))
    same = said(tmp_path, "batch", "cured-trout", "--covers", "80", *DAY, "--on-hand", str(file))
    assert "1.957 kg" in same
    assert "LB413" not in same


def test_the_card_says_what_is_over(tmp_path: Path) -> None:
    prints = print_house(NAME, tmp_path, "batch", "smoked-belly", "--covers", "40", *DAY)
    said_by = facts(prints.sheet("batch-card:smoked-belly:2027-10-02"))
    assert said_by["Needed"] == "2.4 kg for this service"
    assert said_by["Over"].startswith("600 g: 2.4 kg would do, and 3 kg is the smallest batch")


def test_what_is_lost_on_the_way(tmp_path: Path) -> None:
    """Two moulds: 3200 + 1700 + 35 + 80 = 5015 g for 4800, 215 g lost, said to the 2 g within 1 % of that.

    Mustard for horseradish: 561 + 39.6 + 26.4 = 627 g cannot be 660 g of cream; that is said, not passed over.
    """
    terrine = said(tmp_path, "batch", "hock-terrine", "--covers", "80", *DAY)
    assert "weight: 5.016 kg goes in, 4.8 kg is made, 216 g (4 %) is lost on the way" in terrine
    cream = said(tmp_path, "batch", "horseradish-cream", "--covers", "80", "--without", "horseradish", *DAY)
    assert "33 g more than goes in: weigh what comes out" in cream


def test_a_closed_day_is_said(tmp_path: Path) -> None:
    """Thursday 7 October is closed: a set-up sheet is refused, and a night asked for by its covers is made with a note."""
    assert "expects nobody on Thursday 2027-10-07" in run_house(NAME, tmp_path, "setup", "--date", "2027-10-07").output
    asked = said(tmp_path, "batch", "cured-trout", "--covers", "40", "--date", "2027-10-07")
    assert "no service on Thursday 2027-10-07" in asked
