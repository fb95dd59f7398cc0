"""The fish house, worked out by hand from its spec files: one shared fryer and one for potatoes, raw fish, two scales.

Portions. No line-up portion.

                        50 covers                  100 covers
  cured trout    40 %   20 + 1 (5 % is 1) -> 21    40 + 2 (> 1)  -> 42
  fried hake     50 %   25 + 1.5          -> 27    50 + 3        -> 53
  crisp prawns   30 %   15 + 3            -> 18    30 + 3        -> 33
  chips, aioli   60 %   30 + 3            -> 33    60 + 6        -> 66
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from house_prints import HOUSES, Prints, assert_figures, facts, holds, print_house, run_house

from linebook.compute.demand import compute_night
from linebook.compute.results import Night
from linebook.model.occasion import Occasion
from linebook.pipeline import load_house

NAME = "gannet-steps"
DAY = ("--date", "2027-02-05")


@pytest.fixture(scope="module")
def bound(tmp_path_factory: pytest.TempPathFactory) -> Prints:
    return print_house(NAME, tmp_path_factory.mktemp("fish"), "bind", *DAY)


def night(covers: int) -> Night:
    house = load_house(HOUSES / NAME, NAME).value
    assert house is not None
    return compute_night(house, Occasion(menu="february", covers=covers))


def test_check_finds_nothing(tmp_path: Path) -> None:
    assert run_house(NAME, tmp_path, "check", "--strict").exit_code == 0


@pytest.mark.parametrize(("covers", "portions"), [(50, (21, 27, 18, 33)), (100, (42, 53, 33, 66))])
def test_portions(covers: int, portions: tuple[int, ...]) -> None:
    assert tuple(demand.portions for demand in night(covers).demands) == portions


# What each component must make.
#   cured trout, 3 kg, loss 10 %:   50: 21 x 60 = 1260 / 0.9 = 1400 g, 7/15;     100: 2800 g, 14/15
#   horseradish cream, 1 kg:        50: 21 x 15 = 315 g, 0.315;                  100: 0.63
#   toast, 25 pieces:               50: 21/25;                                   100: 42/25
#   batter, 2.5 kg, loss 20 %:      50: 27 x 60 = 1620 / 0.8 = 2025 g, 0.81;     100: 3180 / 0.8 = 3975 g, 1.59
#   prawns, 2 kg:                   50: 18 x 120 = 2160 g, 1.08;                 100: 3960 g, 1.98
#   chips, 6 kg at a time:          50: 27 x 200 + 33 x 250 = 13650 g, 2.275, three loads;
#                                  100: 53 x 200 + 66 x 250 = 27100 g, 271/60, five loads
#   aioli (raw bar; in two dishes of the fry line), 1 kg, loss 10 %, 2 kg at most:
#                                   50: (18 + 33) x 30 = 1530 / 0.9 = 1700 g, 1.7, one load;
#                                  100: (33 + 66) x 30 = 2970 / 0.9 = 3300 g, 3.3, two loads
@pytest.mark.parametrize(
    ("covers", "worked"),
    [
        (
            50,
            {
                "cured-trout": (Fraction(7, 15), 1),
                "horseradish-cream": (Fraction("0.315"), 1),
                "buttered-toast": (Fraction(21, 25), 1),
                "beer-batter": (Fraction("0.81"), 1),
                "floured-prawns": (Fraction("1.08"), 1),
                "chips": (Fraction("2.275"), 3),
                "aioli": (Fraction("1.7"), 1),
            },
        ),
        (
            100,
            {
                "cured-trout": (Fraction(14, 15), 1),
                "horseradish-cream": (Fraction("0.63"), 1),
                "buttered-toast": (Fraction(42, 25), 1),
                "beer-batter": (Fraction("1.59"), 1),
                "floured-prawns": (Fraction("1.98"), 1),
                "chips": (Fraction(271, 60), 5),
                "aioli": (Fraction("3.3"), 2),
            },
        ),
    ],
)
def test_factors_and_loads(covers: int, worked: dict[str, tuple[Fraction, int]]) -> None:
    assert {name: (batch.factor, batch.loads) for name, batch in night(covers).batches.items()} == worked


def test_what_is_bought_for_50() -> None:
    """Sour cream: on the hake 27 x 40 g, in the horseradish cream 700 g x 0.315. Flour: batter 810 g, prawns 270 g."""
    needs = night(50).needs
    assert needs["sour-cream"].number == 27 * 40 + Fraction("220.5")
    assert needs["wheat-flour"].number == 810 + 270
    assert needs["hake-fillet"].number == 27 * 150
    assert needs["potatoes"].number == 7500 * Fraction("2.275")
    assert needs["fine-salt"].number == Fraction("74.6667").limit_denominator(3) + Fraction("21.132")


# One load of each night, then the spec's batch.
CARDS = {
    # 7/15 and 14/15 of 4 kg; salt 4 % and sugar 3 % of the fish.
    "cured-trout": {
        "trout-loin": ("kg", (Fraction("1.8667"), Fraction("3.7333"), 4)),
        "fine-salt": ("g", (Fraction("74.667"), Fraction("149.33"), 160)),
        "sugar": ("g", (56, 112, 120)),
        "dill": ("g", (Fraction("18.667"), Fraction("37.333"), 40)),
    },
    # 0.81 and 1.59: whites 8 -> 6.48 and 12.72.
    "beer-batter": {
        "wheat-flour": ("g", (810, 1590, 1000)),
        "beer": ("L", (Fraction("1.215"), Fraction("2.385"), Fraction("1.5"))),
        "egg-whites": ("each", (6, 13, 8)),
    },
    # 2.275/3 = 0.7583 in each of three loads, 4.5167/5 = 0.9033 in each of five.
    "chips": {
        "potatoes": ("kg", (Fraction("5.6875"), Fraction("6.775"), Fraction("7.5"))),
        "fry-oil": ("L", (Fraction("11.375"), Fraction("13.55"), 15)),
    },
    # 1.7, and 1.65 in each of two: yolks 10.2 and 9.9, both 10. Garlic 4 cloves -> 6.8 and 6.6, printed as 7.
    # Salt 1.2 % of yolks (18 g), garlic (5 g), oil and lemon: (180 + 34 + 1445 + 102) x 0.012 = 21.132;
    # (180 + 33 + 1402.5 + 99) x 0.012 = 20.574; base (108 + 20 + 850 + 60) x 0.012 = 12.456 g.
    "aioli": {
        "egg-yolks": ("each", (10, 10, 6)),
        "garlic-cloves": ("cloves", (7, 7, 4)),
        "plain-oil": ("g", (1445, Fraction("1402.5"), 850)),
        "lemon-juice": ("g", (102, 99, 60)),
        "fine-salt": ("g", (Fraction("21.132"), Fraction("20.574"), Fraction("12.456"))),
    },
    "floured-prawns": {"prawns": ("g", (1944, 3564, 1800)), "wheat-flour": ("g", (270, 495, 250))},
    "buttered-toast": {"dark-bread": ("slices", (21, 42, 25)), "butter": ("g", (84, 168, 100))},
    # 2 tbsp of lemon juice -> 0.63 and 1.26 tbsp.
    "horseradish-cream": {
        "sour-cream": ("g", (Fraction("220.5"), 441, 700)),
        "mayonnaise": ("g", (63, 126, 200)),
        "horseradish": ("g", (Fraction("31.5"), 63, 100)),
        "lemon-juice": ("tbsp", (Fraction("0.63"), Fraction("1.26"), 2)),
    },
}


@pytest.mark.parametrize("component", list(CARDS))
def test_the_cards_carry_the_amounts_worked_out(bound: Prints, component: str) -> None:
    assert_figures(bound, f"batch-card:{component}", CARDS[component])


def test_a_night_of_70_in_one_column(tmp_path: Path) -> None:
    """70 covers: hake 35 + 2.1 -> 38 of 200 g, chips 42 + 4.2 -> 47 of 250 g: 19.35 kg, four loads of 4.8375 kg."""
    prints = print_house(NAME, tmp_path, "bind", "--covers", "70", "--line", "fry", *DAY)
    assert prints.row("batch-card:chips", "yield.loads").figures == ("4", "1")
    assert holds(prints.row("batch-card:chips", "yield.makes").figures[0], Fraction("19.35"), "kg")


# C contains, M may contain; * stands where leaving elements off makes the dish free of it.
#   trout    milk: horseradish cream (leave off), but the toast is buttered too: not freed. egg: the mayonnaise in the
#            cream, and traces on the capers from the fryer: free without both. Shellfish and soy come with the capers
#            only: free without them. The toast may have sesame. Fish and wheat stay.
#   hake     milk is in the sour cream only: free without it. egg is in the batter. Prawns went through the same fryer.
#   prawns   egg: without the aioli the batter's traces are still in the fryer: not freed. garlic: the aioli only.
#   chips    the potato fryer meets potatoes alone: no fish, no shellfish, no wheat; its oil may have soy. egg and
#            garlic are in the aioli only.
MATRIX = {
    "cured-trout-plate": (
        "milk C, egg C*, fish C, Crustacean shellfish M*, tree nuts no, wheat C, peanuts no, soybeans M*, sesame M"
    ),
    "fried-hake": "milk C*, egg C, fish C, Crustacean shellfish M, tree nuts no, wheat C, peanuts no, soybeans M",
    "crisp-prawns": "egg C, fish M, Crustacean shellfish C, tree nuts no, wheat C, peanuts no, soybeans M, garlic (house) C*",
    "chips-aioli": "milk no, egg C*, fish no, Crustacean shellfish no, wheat no, soybeans M, garlic (house) C*",
}
KINDS = {"C": "contains", "M": "may", "C*": "contains-leave", "M*": "may-leave", "no": "free"}


@pytest.mark.parametrize("dish", list(MATRIX))
def test_the_matrix(bound: Prints, dish: str) -> None:
    worked = {part.rsplit(" ", 1)[0]: KINDS[part.rsplit(" ", 1)[1]] for part in MATRIX[dish].split(", ")}
    found = bound.marks(dish)
    assert found == dict.fromkeys(found, "free") | worked
    assert len(found) == 11  # nine of the US, sulphites above a limit, and the house's garlic


def test_the_matrix_on_paper(bound: Prints) -> None:
    paper = bound.pages("allergen-matrix.pdf")
    assert "Cured trout, crisp capers C C C M no C no M M no no" in paper
    assert "Fried hake and chips C C C M no C no M no no no" in paper
    assert "Crisp prawns, aioli no C M C no C no M no no C" in paper
    assert "Chips, aioli no C no no no no no M no no C" in paper
    assert "Without Horseradish cream and capers in salt: egg can be left out" in paper


def test_what_the_pass_is_told(bound: Prints) -> None:
    """The station card says for each thing whether leaving off helps."""
    trout = facts(bound.sheet("station-card:cured-trout-plate"))
    assert trout["Do not serve"] == "milk (cow's milk), fish (trout), wheat"
    assert trout["Serve without Horseradish cream and capers in salt"] == "egg (hen's egg)"
    assert trout["Serve without capers in salt"] == "Crustacean shellfish (shrimp), soybeans"
    prawns = facts(bound.sheet("station-card:crisp-prawns"))
    assert "egg" in prawns["Do not serve"]
    assert prawns["Serve without Aioli"] == "garlic"


def test_the_raw_trout_has_its_freezing_to_log(bound: Prints) -> None:
    """The rules' own figures, in the house's Fahrenheit; a stage typed in Celsius is turned: 130 °C is 266 °F."""
    raw = bound.pages("raw-bar-binder.pdf")
    assert "Freeze for raw" in raw
    assert "−4 °F or below for 7 d" in raw
    assert "−31 °F or below for 15 h" in raw
    assert "at 266 °F, through the potato fryer" in bound.pages("fry-binder.pdf")


def test_which_binder_has_which_sheets(bound: Prints) -> None:
    cards = [(sheet.line, sheet.id.removeprefix("batch-card:")) for sheet in bound.sheets if sheet.kind == "batch-card"]
    assert {id_ for line, id_ in cards if line == "raw-bar"} == {
        "cured-trout",
        "horseradish-cream",
        "buttered-toast",
        "aioli",
    }
    assert {id_ for line, id_ in cards if line == "fry"} == {"chips", "floured-prawns", "beer-batter"}
    assert facts(bound.sheet("line-cover:fry"))["From the Raw bar line"] == "Aioli"
    assert not any(term.startswith("From the") for term in facts(bound.sheet("line-cover:raw-bar")))
