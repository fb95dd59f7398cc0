"""The bakery, worked out by hand from its spec files: percentages of several flours, a leaven, whole eggs, two lists.

Portions. No line-up portion; at_least is the fewest spare ones.

                      40 covers                       80 covers
  bread board    75 % 30 + 3            -> 33         60 + 6            -> 66
  ink crackers   50 % 20 + 2 (> 1)      -> 22         40 + 2 (5 % is 2) -> 42
  pear tart      50 % 20 + 1.6 (> 1)    -> 22 (21.6)  40 + 3.2          -> 44 (43.2)
  cream pot      25 % 10 + 2            -> 12         20 + 2            -> 22
  wine cream     15 %  6 + 2            ->  8         12 + 2            -> 14
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from house_prints import HOUSES, Prints, assert_figures, count_of, facts, holds, print_house, run_house

from linebook.compute.demand import compute_night
from linebook.compute.results import Night
from linebook.model.occasion import Occasion
from linebook.pipeline import load_house

NAME = "tansy-row"
DAY = ("--date", "2027-03-05")


@pytest.fixture(scope="module")
def bound(tmp_path_factory: pytest.TempPathFactory) -> Prints:
    return print_house(NAME, tmp_path_factory.mktemp("bakery"), "bind", *DAY)


def night(covers: int) -> Night:
    house = load_house(HOUSES / NAME, NAME).value
    assert house is not None
    return compute_night(house, Occasion(menu="spring", covers=covers))


def test_check_tells_of_the_undeclared_syrup_and_of_nothing_else(tmp_path: Path) -> None:
    told = run_house(NAME, tmp_path, "check", "--form", "short")
    assert told.exit_code == 0
    assert told.output.count("LB401") == 1
    assert "LB3" not in told.output
    assert run_house(NAME, tmp_path, "check", "--strict").exit_code == 1


@pytest.mark.parametrize(("covers", "portions"), [(40, (33, 22, 22, 12, 8)), (80, (66, 42, 44, 22, 14))])
def test_portions(covers: int, portions: tuple[int, ...]) -> None:
    assert tuple(demand.portions for demand in night(covers).demands) == portions


# What each component must make; what is counted in whole pieces.
#   field loaf, 24 loaves of 6 portions: 40: 33/6 = 5.5 loaves -> 6, 1/4;  80: 11 loaves, 11/24
#   ink cracker, 100, loss 12 %:         40: 22 x 4 = 88 / 0.88 = 100, 1;  80: 168 / 0.88 = 190.91 -> 191, 1.91
#   pear tart, 12 slices, 1.8 kg at most: 40: 22/12 = 11/6 -> 3.3 kg, two loads;  80: 11/3 -> 6.6 kg, four loads;
#                                         11/12 of the spec's batch in every load of both nights
#   nut cream, 2 kg:      40: 600 g x 11/6 = 1100 g, 0.55;   80: 2200 g, 1.1
#   brittle, 1 kg:        40: 600 g x 0.55 = 330 g, 0.33;    80: 0.66
#   caramel, 1 kg:        40: 700 g x 0.33 = 231 g, 0.231;   80: 0.462
#   poached pears, 4 kg:  40: 500 g x 11/6 = 916.7 g, 11/48; 80: 11/24
#   cordial, 2 L:         40: 12 x 15 ml = 180 ml, 0.09;     80: 22 x 15 = 330 ml, 0.165
#   set cream, 20 pots, 2.4 kg at most: 40: 12 + 8 = 20, 1;  80: 22 + 14 = 36, 1.8 -> 4.32 kg, two loads
#   leaven, 2 kg, loss 5 %, 20 % of both flours and 300 g in the crackers:
#     40: 2000 g x 1/4   = 500 g;    + 300 g          =  800    / 0.95 =  842.11 g, 8/19
#     80: 2000 g x 11/24 = 916.67 g; + 300 g x 1.91   = 1489.67 / 0.95 = 1568.07 g, 4469/5700
@pytest.mark.parametrize(
    ("covers", "worked"),
    [
        (
            40,
            {
                "field-loaf": (Fraction(1, 4), 1),
                "ink-cracker": (Fraction(1), 1),
                "rye-leaven": (Fraction(8, 19), 1),
                "pear-tart": (Fraction(11, 6), 2),
                "nut-cream": (Fraction("0.55"), 1),
                "pine-nut-brittle": (Fraction("0.33"), 1),
                "house-caramel": (Fraction("0.231"), 1),
                "poached-pears": (Fraction(11, 48), 1),
                "peel-cordial": (Fraction("0.09"), 1),
                "set-cream": (Fraction(1), 1),
            },
        ),
        (
            80,
            {
                "field-loaf": (Fraction(11, 24), 1),
                "ink-cracker": (Fraction("1.91"), 1),
                "rye-leaven": (Fraction(4469, 5700), 1),
                "pear-tart": (Fraction(11, 3), 4),
                "nut-cream": (Fraction("1.1"), 1),
                "pine-nut-brittle": (Fraction("0.66"), 1),
                "house-caramel": (Fraction("0.462"), 1),
                "poached-pears": (Fraction(11, 24), 1),
                "peel-cordial": (Fraction("0.165"), 1),
                "set-cream": (Fraction("1.8"), 2),
            },
        ),
    ],
)
def test_factors_and_loads(covers: int, worked: dict[str, tuple[Fraction, int]]) -> None:
    assert {name: (batch.factor, batch.loads) for name, batch in night(covers).batches.items()} == worked


def test_what_is_bought_for_40() -> None:
    """Butter: boards 33 x 20 g, crackers 22 x 15 g and 150 g, tart 250 g x 11/6, nut cream 500 g x 0.55.

    Sugar: 70 % of three eggs of 50 g in each of two loads of tart, nut cream 253 g, caramel 184.8 g, pears 137.5 g,
    cordial 27 g, set cream 220 g. Eggs: crackers 2, tart 3 in each of two loads (2.75), nut cream 5 (4.95).
    """
    needs = night(40).needs
    assert needs["butter"].number == 660 + 330 + 150 + 250 * Fraction(11, 6) + 275
    assert needs["sugar"].number == 2 * 105 + 253 + Fraction("184.8") + Fraction("137.5") + 27 + 220
    assert needs["eggs"].number == 2 + 2 * 3 + 5
    assert needs["lemon"].number == 1
    assert "pear-peel" not in needs


# One load of each night, then the spec's batch.
CARDS = {
    # 1/4 and 11/24 of: 8 kg and 2 kg of flour; leaven 20 %, water 68 %, salt 2 % of both flours together (10 kg);
    # malt 0.5 % of both flours and the leaven (12 kg).
    "field-loaf": {
        "wheat-flour": ("kg", (2, Fraction("3.6667"), 8)),
        "wholemeal-flour": ("g", (500, Fraction("916.67"), 2000)),
        "rye-leaven": ("g", (500, Fraction("916.67"), 2000)),
        "water": ("kg", (Fraction("1.7"), Fraction("3.1167"), Fraction("6.8"))),
        "sea-salt": ("g", (50, Fraction("91.667"), 200)),
        "malt-flour": ("g", (15, Fraction("27.5"), 60)),
    },
    # 8/19 and 4469/5700 of 900 g rye; water 100 % and mother 24 % of it.
    "rye-leaven": {
        "rye-flour": ("g", (Fraction("378.95"), Fraction("705.63"), 900)),
        "water": ("g", (Fraction("378.95"), Fraction("705.63"), 900)),
        "mother": ("g", (Fraction("90.947"), Fraction("169.35"), 216)),
    },
    # 1 and 1.91. Eggs 2 -> 3.82, whole 4. Salt 1 % of what is weighed, eggs counted as the whole ones:
    # (500 + 300 + 150 + 25 + 2 x 50) / 100 = 10.75;  (975 x 1.91 + 4 x 50) / 100 = 20.6225 g.
    "ink-cracker": {
        "wheat-flour": ("g", (500, 955, 500)),
        "rye-leaven": ("g", (300, 573, 300)),
        "butter": ("g", (150, Fraction("286.5"), 150)),
        "squid-ink": ("g", (25, Fraction("47.75"), 25)),
        "eggs": ("each", (2, 4, 2)),
        "sea-salt": ("g", (Fraction("10.75"), Fraction("20.6225"), Fraction("10.75"))),
    },
    # 11/12 in each load of both nights. Eggs 2.75, whole 3; sugar 70 % of three eggs of 50 g, so 105 g (not 96 g).
    "pear-tart": {
        "wheat-flour": ("g", (Fraction("458.33"), Fraction("458.33"), 500)),
        "butter": ("g", (Fraction("229.17"), Fraction("229.17"), 250)),
        "sugar": ("g", (105, 105, 105)),
        "eggs": ("each", (3, 3, 3)),
        "nut-cream": ("g", (550, 550, 600)),
        "poached-pears": ("g", (Fraction("458.33"), Fraction("458.33"), 500)),
        "vanilla-pod": ("each", (1, 1, 1)),
    },
    # 0.55 and 1.1: eggs 9 -> 4.95 and 9.9.
    "nut-cream": {
        "pine-nut-brittle": ("g", (330, 660, 600)),
        "butter": ("g", (275, 550, 500)),
        "sugar": ("g", (253, 506, 460)),
        "eggs": ("each", (5, 10, 9)),
    },
    "pine-nut-brittle": {"house-caramel": ("g", (231, 462, 700)), "pine-nuts": ("g", (Fraction("115.5"), 231, 350))},
    "house-caramel": {
        "sugar": ("g", (Fraction("184.8"), Fraction("369.6"), 800)),
        "malt-syrup": ("g", (Fraction("57.75"), Fraction("115.5"), 250)),
    },
    # 11/48 and 11/24 of 5 kg pears, 2 L wine, 600 g sugar.
    "poached-pears": {
        "pears": ("kg", (Fraction("1.1458"), Fraction("2.2917"), 5)),
        "sugar": ("g", (Fraction("137.5"), 275, 600)),
    },
    # 1, and 0.9 in each of two loads: gelatine 6 sheets -> 5.4, so 5; a lemon's peel in every load.
    "set-cream": {
        "cream": ("kg", (Fraction("1.5"), Fraction("1.35"), Fraction("1.5"))),
        "milk": ("g", (700, 630, 700)),
        "sugar": ("g", (220, 198, 220)),
        "gelatine": ("sheets", (6, 5, 6)),
        "lemon": ("each", (1, 1, 1)),
    },
}


@pytest.mark.parametrize("component", list(CARDS))
def test_the_cards_carry_the_amounts_worked_out(bound: Prints, component: str) -> None:
    assert_figures(bound, f"batch-card:{component}", CARDS[component])


def test_wine_and_water_are_measured_in_a_jug_that_reads_10_ml(bound: Prints) -> None:
    """Wine 2 L x 11/48 = 458.3, x 11/24 = 916.7 ml; water 1.8 L x 0.09 = 162, x 0.165 = 297 ml."""
    wine = {"white-wine": ("ml", (Fraction("458.33"), Fraction("916.67"), 2000))}
    water = {"water": ("ml", (162, 297, 1800))}
    assert_figures(bound, "batch-card:poached-pears", wine, reads="10 ml")
    assert_figures(bound, "batch-card:peel-cordial", water, reads="10 ml")


def test_by_products_are_to_be_kept(bound: Prints) -> None:
    """Peel 700 g x 11/48 = 160.4, x 11/24 = 320.8 g; liquor 1.8 L -> 412.5, 825 ml."""
    peel = bound.row("batch-card:poached-pears", "keep.pear-peel")
    assert [
        holds(*each) for each in zip(peel.figures, (Fraction("160.42"), Fraction("320.83"), 700), "ggg", strict=True)
    ] == [True] * 3
    assert "Pear peel cordial" in peel.note
    liquor = bound.row("batch-card:poached-pears", "keep.pear-liquor")
    assert holds(liquor.figures[0], Fraction("412.5"), "ml", reads="10 ml")
    assert "Set cream, poaching liquor" in liquor.note


def test_two_and_a_half_times_the_set_cream(tmp_path: Path) -> None:
    """2.5 x 2.4 kg = 6 kg, so three loads of 5/6: cream 1.25 kg, gelatine 5, a lemon; in all 3.75 kg, 15 and 3."""
    prints = print_house(NAME, tmp_path, "batch", "set-cream", "--times", "2.5", *DAY)
    sheet = prints.sheets[0].id
    cream = prints.row(sheet, "ingredient:cream").figures
    assert holds(cream[0], Fraction("1.25"), "kg")
    assert holds(cream[1], Fraction("3.75"), "kg")
    assert [count_of(figure) for figure in prints.row(sheet, "ingredient:gelatine").figures] == [5, 15, 6]
    assert [count_of(figure) for figure in prints.row(sheet, "ingredient:lemon").figures] == [1, 3, 1]
    assert "3 even loads" in prints.result.stdout


def test_48_pots_of_cream(tmp_path: Path) -> None:
    """48/20 = 2.4 batches, three loads of 0.8: 4.8 sheets of gelatine, so 5; milk 560 g."""
    prints = print_house(NAME, tmp_path, "batch", "set-cream", "--makes", "48 pieces", *DAY)
    sheet = prints.sheets[0].id
    assert count_of(prints.row(sheet, "ingredient:gelatine").figures[0]) == 5
    assert holds(prints.row(sheet, "ingredient:milk").figures[0], 560, "g")


# The two lists do not agree, and a column that is not on both says whose it is: pine nuts are on the US one only, molluscs on the EU one only.
#   bread board   gluten and wheat (both flours), milk: butter only, so it can be left out
#   ink crackers  milk is in the butter (leave off) and in the cracker
#   pear tart     the syrup is undeclared five cards down: everything not contained is undeclared, nuts of the EU too
#   cream pot     the cordial is of the peel, which leaves before the wine goes in: no sulphites
#   wine cream    the liquor is everything on the card: sulphites
GLUTEN, WHEAT = "cereals containing gluten (EU)", "wheat (US)"
SULPHITES, SULFITES = "sulphur dioxide and sulphites (EU)", "sulfiting agents (US)"  # above 10 mg/kg, from 10 mg/kg on
FREE_BUT = {
    "bread-board": {GLUTEN: "contains", WHEAT: "contains", "milk": "contains-leave"},
    "ink-crackers": {
        GLUTEN: "contains",
        WHEAT: "contains",
        "milk": "contains",
        "eggs": "contains",
        "molluscs (EU)": "contains",
    },
    "cream-pot": {"milk": "contains"},
    "wine-cream": {"milk": "contains", SULPHITES: "contains", SULFITES: "contains"},
}
TART = {GLUTEN, WHEAT, "eggs", "milk", SULPHITES, SULFITES, "tree nuts (US)"}


@pytest.mark.parametrize("dish", list(FREE_BUT))
def test_the_matrix(bound: Prints, dish: str) -> None:
    found = bound.marks(dish)
    assert len(found) == 17  # fourteen of the EU; wheat, tree nuts and sulphites as the US counts them
    assert found == dict.fromkeys(found, "free") | FREE_BUT[dish]


def test_what_is_undeclared_four_components_down_is_undeclared_in_the_dish(bound: Prints) -> None:
    found = bound.marks("pear-tart-slice")
    assert {column for column, mark in found.items() if mark == "contains"} == TART
    assert {mark for column, mark in found.items() if column not in TART} == {"undeclared"}
    assert found["nuts (EU)"] == "undeclared"
    for name in ("allergen-matrix.pdf", "pastry-binder.pdf"):
        assert "dark malt syrup" in bound.pages(name)


@pytest.mark.parametrize("component", ["house-caramel", "pine-nut-brittle", "nut-cream", "pear-tart"])
def test_every_card_on_the_way_says_so(bound: Prints, component: str) -> None:
    assert facts(bound.sheet(f"batch-card:{component}"))["Undeclared"].startswith("dark malt syrup")


def test_the_matrix_on_paper(bound: Prints) -> None:
    paper = bound.pages("allergen-matrix.pdf")
    assert "Bread board C no no no no no C no no no no no no no no C no" in paper
    assert "Pear and pine nut tart C ? C ? ? ? C ? ? ? ? C ? ? C C C" in paper


def test_which_binder_has_which_sheets(bound: Prints) -> None:
    assert bound.files() == ["allergen-matrix.pdf", "bench-binder.pdf", "pastry-binder.pdf"]
    cards = [(sheet.line, sheet.id.removeprefix("batch-card:")) for sheet in bound.sheets if sheet.kind == "batch-card"]
    assert {id_ for line, id_ in cards if line == "bench"} == {"rye-leaven", "field-loaf", "ink-cracker"}
    assert len(cards) == 10
    pastry = [id_ for line, id_ in cards if line == "pastry"]
    order = ("house-caramel", "pine-nut-brittle", "nut-cream", "pear-tart")
    assert [id_ for id_ in pastry if id_ in order] == list(order), "a component comes after what goes into it"
