"""The diner, worked out by hand from its spec files: pounds, cups, two sizes, one dressing for two lines.

Portions. Covers x share, plus the larger of spare and at_least; each size takes its part, the one line-up portion goes
to the first size, and only then is it rounded up.

                        60 covers                            90 covers
  fried mushrooms  25 % 15   + 1.5       + 1 = 17.5  -> 18   22.5 + 2.25        + 1 = 25.75 -> 26
  wedge salad      35 % 21   + 3 (>0.84) + 1 = 25            31.5 + 3 (>1.26)   + 1 = 35.5  -> 36
  meatloaf         40 % 24   + 2 (>1.2)      = 26            36   + 2 (>1.8)        = 38
     full 70 %          18.2 + 1         = 19.2      -> 20   26.6 + 1           = 27.6      -> 28
     half 30 %           7.8                         ->  8   11.4                           -> 12
  patty melt       60 % 36   + 1.8       + 1 = 38.8  -> 39   54   + 2.7         + 1 = 57.7  -> 58
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from house_prints import HOUSES, POUND, Prints, assert_figures, count_of, facts, holds, print_house, run_house

from linebook.compute.demand import compute_night
from linebook.compute.results import Night
from linebook.model.occasion import Occasion
from linebook.pipeline import load_house

NAME = "quarry-lamp"
DAY = ("--date", "2027-01-08")


@pytest.fixture(scope="module")
def bound(tmp_path_factory: pytest.TempPathFactory) -> Prints:
    return print_house(NAME, tmp_path_factory.mktemp("diner"), "bind", *DAY)


def night(covers: int) -> Night:
    house = load_house(HOUSES / NAME, NAME).value
    assert house is not None
    return compute_night(house, Occasion(menu="winter", covers=covers))


def test_check_finds_nothing(tmp_path: Path) -> None:
    assert run_house(NAME, tmp_path, "check", "--strict").exit_code == 0


@pytest.mark.parametrize(
    ("covers", "portions"),
    [
        (60, {"fried-mushrooms": 18, "wedge-salad": 25, "meatloaf-plate full": 20, "meatloaf-plate half": 8}),
        (90, {"fried-mushrooms": 26, "wedge-salad": 36, "meatloaf-plate full": 28, "meatloaf-plate half": 12}),
        # 102 covers: 40.8 + 2.04 = 42.84 meatloaf; full 29.988 + 1 -> 31, half 12.852 -> 13.
        # Rounded up before the mix it would be 43, and full 30.1 + 1 -> 32.
        (102, {"meatloaf-plate full": 31, "meatloaf-plate half": 13}),
    ],
)
def test_portions(covers: int, portions: dict[str, int]) -> None:
    found = {f"{demand.dish} {demand.size}": demand.portions for demand in night(covers).demands}
    assert {name: found.get(name) or found.get(f"{name} full") for name in portions} == portions


# What each component must make: the sum of its uses over 1 - loss, in whole pieces where it is counted, then over what
# the spec's batch makes.
#
#   meatloaf, 40 slices of 4 oz (10 lb), loss 5 %, at most 20 lb
#     60: 20 x 2 + 8 x 1 = 48 slices / 0.95 = 50.53 -> 51; factor 51/40         (12.75 lb, one load)
#     90: 28 x 2 + 12    = 68        / 0.95 = 71.58 -> 72; factor 9/5           (18 lb, one load)
#    200: 80 + 4 = 84; full 58.8 + 1 -> 60, half 25.2 -> 26: 146 / 0.95 = 153.68 -> 154; factor 77/20
#         = 38.5 lb, two loads of 77/40
#   mashed potato, 8 lb, loss 4 %, at most 10 lb
#     60: 20 x 6 oz + 8 x 3 oz = 144 oz / 0.96 = 150 oz   = 9.375 lb  ; factor 75/64, one load
#     90: 28 x 6    + 12 x 3   = 204    / 0.96 = 212.5 oz = 13.281 lb ; factor 425/256, two even loads
#   pan gravy, 3 qt = 12 cups; a half plate has its own 1/4 cup, not half of 1/3:
#     60: 20/3 + 8/4 = 26/3 cups, 13/18;  90: 28/3 + 12/4 = 37/3 cups, 37/36
#   dressing (cold table; also in two dishes of the grill), 2 qt = 128 tbsp, loss 6.25 %, at most 3 qt
#     60: 18 x 2 + 25 x 3 + 39 x 1 = 150 tbsp / 0.9375 = 160 tbsp; 5/4
#     90: 26 x 2 + 36 x 3 + 58 x 1 = 218      / 0.9375 = 232.53 ; 109/60 = 3.63 qt, two loads
#   beef patty, 32: 60: 39/32; 90: 58/32
#   breaded mushrooms, 6 lb = 96 oz: 60: 18 x 5 = 90 oz, 15/16; 90: 26 x 5 = 130 oz, 65/48
#   croutons, 2 lb = 32 oz, loss 10 %: 60: 25 oz / 0.9 = 27.78, 125/144; 90: 36 / 0.9 = 40, 5/4
@pytest.mark.parametrize(
    ("covers", "worked"),
    [
        (
            60,
            {
                "meatloaf": (Fraction(51, 40), 1),
                "mashed-potato": (Fraction(75, 64), 1),
                "pan-gravy": (Fraction(13, 18), 1),
                "buttermilk-dressing": (Fraction(5, 4), 1),
                "beef-patty": (Fraction(39, 32), 1),
                "breaded-mushrooms": (Fraction(15, 16), 1),
                "croutons": (Fraction(125, 144), 1),
            },
        ),
        (
            90,
            {
                "meatloaf": (Fraction(9, 5), 1),
                "mashed-potato": (Fraction(425, 256), 2),
                "pan-gravy": (Fraction(37, 36), 1),
                "buttermilk-dressing": (Fraction(109, 60), 2),
                "beef-patty": (Fraction(58, 32), 1),
                "breaded-mushrooms": (Fraction(65, 48), 1),
                "croutons": (Fraction(5, 4), 1),
            },
        ),
        (200, {"meatloaf": (Fraction(77, 20), 2)}),
    ],
)
def test_factors_and_loads(covers: int, worked: dict[str, tuple[Fraction, int]]) -> None:
    batches = night(covers).batches
    assert {name: (batches[name].factor, batches[name].loads) for name in worked} == worked


def test_what_is_bought_for_60() -> None:
    """Ground beef: 6 lb x 51/40 for the meatloaf and 12 lb x 39/32 for the patties. Eggs are whole: 9 and 4."""
    needs = night(60).needs
    beef = (6 * Fraction(51, 40) + 12 * Fraction(39, 32)) * POUND
    assert needs["ground-beef"].number == beef
    assert needs["eggs"].number == 9 + 4
    assert needs["rye-bread"].number == 39 * 2 + 32 * Fraction(125, 144)
    assert needs["iceberg"].number == 25 * Fraction(1, 4)
    assert needs["blue-cheese"].number == 25 * Fraction(3, 4) * POUND / 16


# One load of each night, then the spec's batch. For the meatloaf the factors are 51/40 = 1.275 and 9/5 = 1.8:
# beef 6 lb -> 7.65, 10.8; pork 2 lb 4 oz = 2.25 -> 2.869, 4.05; eggs 7 -> 8.925 and 12.6, whole 9 and 13;
# crumb 3 cups -> 3.825, 5.4; milk 1 1/2 -> 1.9125, 2.7; onions 1 lb 2 oz = 1.125 -> 1.434, 2.025;
# sauce 3 tbsp -> 3.825, 5.4; salt 1.5 % of beef and pork: of 8.25 lb 1.98 oz -> 2.5245, 3.564 oz.
MEATLOAF = {
    "ground-beef": ("lb", (Fraction("7.65"), Fraction("10.8"), 6)),
    "ground-pork": ("lb", (Fraction("2.86875"), Fraction("4.05"), Fraction("2.25"))),
    "eggs": ("each", (9, 13, 7)),
    "cracker-crumb": ("cup", (Fraction("3.825"), Fraction("5.4"), 3)),
    "milk": ("cup", (Fraction("1.9125"), Fraction("2.7"), Fraction("1.5"))),
    "onions": ("lb", (Fraction("1.434375"), Fraction("2.025"), Fraction("1.125"))),
    "anchovy-seasoning": ("tbsp", (Fraction("3.825"), Fraction("5.4"), 3)),
    "kosher-salt": ("oz", (Fraction("2.5245"), Fraction("3.564"), Fraction("1.98"))),
}
# Mashed potato, 75/64 in one load, and 425/512 in each of two:
# potatoes 6 lb -> 7.031, 4.980; butter 1 lb -> 18.75 oz, 13.281 oz; milk 2 cups -> 2.344, 1.660;
# pepper 1 tsp in every load; water to boil in, 6 qt -> 7.031, 4.980, is poured away and not of the batch.
# Salt 1 % of the rest: 96 oz + 16 oz + 2 cups x 8.6 oz = 129.2 oz, and 1 tsp x 4/48 oz:
# (129.2 x 75/64 + 0.0833)/100 = 1.5149 oz;  (129.2 x 425/512 + 0.0833)/100 = 1.0733 oz;  base 1.2928 oz.
MASH = {
    "potatoes": ("lb", (Fraction("7.0313"), Fraction("4.9805"), 6)),
    "butter": ("oz", (Fraction("18.75"), Fraction("13.281"), 16)),
    "milk": ("cup", (Fraction("2.3438"), Fraction("1.6602"), 2)),
    "kosher-salt": ("oz", (Fraction("1.5149"), Fraction("1.0733"), Fraction("1.2928"))),
    "black-pepper": ("tsp", (1, 1, 1)),
    "water": ("qt", (Fraction("7.0313"), Fraction("4.9805"), 6)),
}
# Dressing, 5/4, and 109/120 in each of two loads: mayonnaise 1 qt -> 1.25, 0.9083 qt;
# buttermilk 3 1/2 cups -> 4.375, 3.179; vinegar 1/2 cup -> 0.625, 0.4542; salt 1 tbsp -> 1.25, 0.9083 tbsp;
# pepper 2 tsp -> 2.5, 1.8167.
DRESSING = {
    "mayonnaise": ("qt", (Fraction("1.25"), Fraction("0.90833"), 1)),
    "buttermilk": ("cup", (Fraction("4.375"), Fraction("3.1792"), Fraction("3.5"))),
    "cider-vinegar": ("cup", (Fraction("0.625"), Fraction("0.45417"), Fraction("0.5"))),
    "kosher-salt": ("tbsp", (Fraction("1.25"), Fraction("0.90833"), 1)),
    "black-pepper": ("tsp", (Fraction("2.5"), Fraction("1.8167"), 2)),
}
# Gravy, 13/18 and 37/36: butter and flour 6 oz -> 4.333, 6.167; stock 3 qt -> 2.167, 3.083;
# soy sauce 2 tbsp -> 1.444, 2.056.
GRAVY = {
    "butter": ("oz", (Fraction("4.3333"), Fraction("6.1667"), 6)),
    "wheat-flour": ("oz", (Fraction("4.3333"), Fraction("6.1667"), 6)),
    "chicken-stock": ("qt", (Fraction("2.1667"), Fraction("3.0833"), 3)),
    "soy-sauce": ("tbsp", (Fraction("1.4444"), Fraction("2.0556"), 2)),
}
# Patties, 39/32 and 58/32: beef 12 lb -> 14.625, 21.75; salt 1.2 % of it: 2.808, 4.176, base 2.304 oz.
PATTY = {
    "ground-beef": ("lb", (Fraction("14.625"), Fraction("21.75"), 12)),
    "kosher-salt": ("oz", (Fraction("2.808"), Fraction("4.176"), Fraction("2.304"))),
}
# Croutons, 125/144 and 5/4: 32 slices -> 27.78, so 28, and 40; butter 6 oz -> 5.208, 7.5.
CROUTONS = {"rye-bread": ("slices", (28, 40, 32)), "butter": ("oz", (Fraction("5.2083"), Fraction("7.5"), 6))}


@pytest.mark.parametrize(
    ("component", "worked"),
    [
        ("meatloaf", MEATLOAF),
        ("mashed-potato", MASH),
        ("buttermilk-dressing", DRESSING),
        ("pan-gravy", GRAVY),
        ("beef-patty", PATTY),
        ("croutons", CROUTONS),
    ],
)
def test_the_cards_carry_the_amounts_worked_out(bound: Prints, component: str, worked: dict) -> None:
    assert_figures(bound, f"batch-card:{component}", worked, reads="0.1 oz")


def test_the_paper_says_the_same_as_the_sheets(bound: Prints) -> None:
    paper = bound.pages("grill-binder.pdf")
    for item, name in (("ground-beef", "ground beef"), ("ground-pork", "ground pork"), ("milk", "whole milk")):
        row = bound.row("batch-card:meatloaf", f"ingredient:{item}")
        assert f"{row.figures[0]} {row.figures[1]} {name} {row.figures[2]}" in paper


def test_yields_and_loads_are_printed(bound: Prints) -> None:
    made = bound.row("batch-card:mashed-potato", "yield.makes").figures
    assert [
        holds(*each) for each in zip(made, (Fraction("9.375"), Fraction("13.281"), 8), ("lb",) * 3, strict=True)
    ] == [True] * 3
    assert bound.row("batch-card:mashed-potato", "yield.loads").figures == ("1", "2", "1")
    assert bound.row("batch-card:buttermilk-dressing", "yield.loads").figures == ("1", "2", "1")
    assert bound.row("batch-card:meatloaf", "yield.pieces").figures == ("51", "72", "40")


def test_a_night_of_102_prints_79_slices(tmp_path: Path) -> None:
    """31 full and 13 half plates: 31 x 2 + 13 = 75 slices / 0.95 = 78.95."""
    prints = print_house(NAME, tmp_path, "bind", "--covers", "102", "--line", "grill", *DAY)
    assert prints.row("batch-card:meatloaf", "yield.pieces").figures == ("79", "40")
    assert prints.files() == ["allergen-matrix.pdf", "grill-binder.pdf"]


def test_200_covers_are_two_even_loads_of_meatloaf(tmp_path: Path) -> None:
    """154 slices, two loads of 77/40 = 1.925: beef 11.55 lb a load and 23.1 in all, eggs 13.475 -> 13 and 26."""
    prints = print_house(NAME, tmp_path, "batch", "meatloaf", "--covers", "200", *DAY)
    assert "2 even loads" in prints.result.stdout
    sheet = next(sheet.id for sheet in prints.sheets)
    beef = prints.row(sheet, "ingredient:ground-beef").figures
    assert holds(beef[0], Fraction("11.55"), "lb")
    assert holds(beef[1], Fraction("23.1"), "lb")
    eggs = prints.row(sheet, "ingredient:eggs").figures
    assert [count_of(figure) for figure in eggs] == [13, 26, 7]
    assert "Meatloaf" in prints.pages("meatloaf.pdf")


def test_25_pounds_of_mash_are_three_loads(tmp_path: Path) -> None:
    """25 / 8 = 3.125 batches; 25 lb over loads of 10 lb is three of 8.333 lb: butter 1.0417 lb = 16.67 oz in each."""
    prints = print_house(NAME, tmp_path, "batch", "mashed-potato", "--makes", "25 lb", *DAY)
    butter = prints.row(prints.sheets[0].id, "ingredient:butter").figures
    assert "3 even loads" in prints.result.stdout
    assert holds(butter[0], Fraction(50, 3), "oz")
    assert holds(butter[1], Fraction("50"), "oz")


# C contains, M may contain; a * stands where leaving elements off makes the dish free of it.
#   mushrooms  dressing (leave off) has milk, egg, soy; the breading has wheat, milk and egg: only soy can be left out
#   wedge      the cheese keeps its milk; egg and soy are in the dressing only, wheat and sesame in the croutons only
#   meatloaf   gravy (leave off) has milk, wheat, soy; the loaf itself has milk and wheat, and may contain soy;
#              sesame comes over the flat-top from the bread of the patty melt
#   patty melt dressing (leave off) has egg and soy, but the loaf on the same flat-top has egg and may have soy;
#              the loaf's fish comes over too
MATRIX = {
    "fried-mushrooms": "milk C, egg C, wheat C, soybeans C*",
    "wedge-salad": "milk C, egg C*, wheat C*, soybeans C*, sesame M*",
    "meatloaf-plate": "milk C, egg C, fish C, wheat C, soybeans C, sesame M",
    "patty-melt": "milk C, egg C, fish M, wheat C, soybeans C, sesame M",
}
COLUMNS = ("milk", "egg", "fish", "Crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans", "sesame")


@pytest.mark.parametrize("dish", list(MATRIX))
def test_the_matrix(bound: Prints, dish: str) -> None:
    kinds = {"C": "contains", "M": "may", "C*": "contains-leave", "M*": "may-leave"}
    worked = {part.rsplit(" ", 1)[0]: kinds[part.rsplit(" ", 1)[1]] for part in MATRIX[dish].split(", ")}
    found = bound.marks(dish)
    assert {column: found[column] for column in COLUMNS} == {column: worked.get(column, "free") for column in COLUMNS}
    assert found["sulfiting agents"] == "free"


def test_the_matrix_on_paper(bound: Prints) -> None:
    paper = bound.pages("allergen-matrix.pdf")
    assert "Meatloaf, mash, pan gravy C C C no no C no C M no" in paper
    assert "Patty melt on rye C C M no no C no C M no" in paper
    assert "Without Rye croutons: wheat, sesame can be left out" in paper


def test_which_binder_has_which_sheets(bound: Prints) -> None:
    assert bound.files() == ["allergen-matrix.pdf", "cold-binder.pdf", "grill-binder.pdf"]
    by_line: dict[str, set[str]] = {}
    for sheet in bound.sheets:
        if sheet.kind == "batch-card":
            by_line.setdefault(sheet.line, set()).add(sheet.id.removeprefix("batch-card:"))
    assert by_line == {
        "grill": {"meatloaf", "mashed-potato", "pan-gravy", "beef-patty", "breaded-mushrooms"},
        "cold": {"buttermilk-dressing", "croutons"},
    }
    dishes = {
        sheet.id.removeprefix("station-card:"): sheet.line for sheet in bound.sheets if "station-card" in sheet.id
    }
    assert dishes == {
        "fried-mushrooms": "grill",
        "meatloaf-plate": "grill",
        "patty-melt": "grill",
        "wedge-salad": "cold",
    }


def test_the_grill_is_told_where_its_dressing_comes_from(bound: Prints) -> None:
    cover = facts(bound.sheet("line-cover:grill"))
    assert cover["From the Cold table line"] == "Buttermilk dressing"
    assert "Buttermilk dressing can be left off, ask the pass; from the Cold table line" in bound.pages(
        "grill-binder.pdf"
    )
