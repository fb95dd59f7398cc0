"""The barbecue hall, worked out by hand from its spec files: pounds, cups, gallons and scoops, metric beside them.

Portions. No line-up portion and no spare but five of the slaw.

                     50 covers (Wed)   100 covers (Fri, Sun)
  brisket plate 50 % 25                50
  chili         30 % 15                30
  cornbread     60 % 30                60
  slaw          60 % 30 + 5 = 35       65
  peach sundae  40 % 20                40

What each component makes:
                                        50                                  100
  smoked brisket, 6 oz, 4 % lost        150 oz / 0.96 = 9.765625 lb         19.53125 lb
       brisket 5/3 of it                16.276 lb, one load of 30 lb        32.552 lb: two
  chili base, a cup                     15 cups                             30 cups
       20 lb in the pot: 32 cups weigh 351.825 oz, 10.3 lb                  20.6 lb: two loads
  cornbread, pans of 24, two at a time  30 -> 48, one load                  60 -> 72, two loads of whole pans: 96
  slaw, 4 oz, 10 lb at the least        8.75 -> 10 lb                       16.25 lb
  slaw dressing, half a cup a pound     5 cups                              8 1/8 cups
  pickled cabbage, 2 oz                 3.125 lb                            6.25 lb
  buttermilk ice, 2 no. 16 scoops       40 of 2 fl oz = 0.625 gal           1.25 gal
  peach sauce, 2 tbsp                   40 tbsp = 2 1/2 cups                5 cups

Brisket ends, a sixth of the brisket made: 1.6276 and 3.2552 lb; the chili takes 3 lb for 32 cups: 1.40625 and 2.8125:
0.2214 and 0.4427 lb spare.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from house_prints import HOUSES, POUND, SIZES, Prints, assert_figures, print_house, run_house
from pypdf import PdfReader

from linebook.compute.demand import compute_night
from linebook.compute.results import Night
from linebook.model.occasion import Occasion
from linebook.pipeline import load_house

NAME = "copper-switch"
DAY = ("--date", "2027-06-04")
CUP = SIZES["cup"]


def night(covers: int) -> Night:
    house = load_house(HOUSES / NAME, NAME).value
    assert house is not None
    return compute_night(house, Occasion(menu="smoke", covers=covers))


def said(tmp_path: Path, *arguments: str) -> str:
    result = run_house(NAME, tmp_path, *arguments, "-o", str(tmp_path / "sheet.pdf"))
    assert result.exit_code == 0, result.output
    return result.output


def paper(tmp_path: Path) -> str:
    text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "sheet.pdf").pages)
    return " ".join(text.split())


def test_check_finds_nothing(tmp_path: Path) -> None:
    assert run_house(NAME, tmp_path, "check", "--strict").exit_code == 0


@pytest.mark.parametrize(("covers", "portions"), [(50, (25, 15, 30, 35, 20)), (100, (50, 30, 60, 65, 40))])
def test_portions(covers: int, portions: tuple[int, ...]) -> None:
    assert tuple(demand.portions for demand in night(covers).demands) == portions


# Grams or millilitres made, loads of the card, loads of each stage.
MADE = {
    50: {
        "smoked-brisket": (Fraction("9.765625") * POUND, 1, (1, 1)),
        "ends-chili-base": (15 * CUP, 1, (1,)),
        "cornbread": (12 * POUND, 1, (1, 1)),
        "slaw": (10 * POUND, 1, (1,)),
        "slaw-dressing": (5 * CUP, 1, (1,)),
        "pickled-cabbage": (Fraction("3.125") * POUND, 1, (1,)),
        "buttermilk-ice": (10 * CUP, 1, (1,)),
        "peach-sauce": (Fraction("2.5") * CUP, 1, (1,)),
    },
    100: {
        "smoked-brisket": (Fraction("19.53125") * POUND, 1, (1, 2)),
        "ends-chili-base": (30 * CUP, 1, (2,)),
        "cornbread": (24 * POUND, 2, (2, 2)),
        "slaw": (Fraction("16.25") * POUND, 1, (1,)),
        "slaw-dressing": (Fraction("8.125") * CUP, 1, (1,)),
        "pickled-cabbage": (Fraction("6.25") * POUND, 1, (1,)),
        "buttermilk-ice": (20 * CUP, 1, (1,)),
        "peach-sauce": (5 * CUP, 1, (1,)),
    },
}


@pytest.mark.parametrize("covers", list(MADE))
def test_what_is_made_and_in_which_loads(covers: int) -> None:
    found = {
        name: (batch.total.number * SIZES[batch.total.unit.symbol], batch.loads, batch.stage_loads)
        for name, batch in night(covers).batches.items()
    }
    assert found == MADE[covers]


@pytest.mark.parametrize(
    ("covers", "spare"),
    [
        (50, Fraction("9.765625") / 6 - Fraction("1.40625")),
        (100, Fraction("19.53125") / 6 - Fraction("2.8125")),
    ],
)
def test_the_ends_are_more_than_the_chili_takes(covers: int, spare: Fraction) -> None:
    balance = night(covers).balances["brisket-ends"]
    assert (balance.standing.value, balance.difference.number, balance.difference.unit.symbol) == ("spare", spare, "lb")


# One load of Friday, and the base.
#   brisket 19.53125 / 12 = 1.6276 times: salt 1.5 % of 32.552 lb = 520.83 oz: 7.8125 oz; pepper 1/2 cup: 13.02 tbsp
#   chili, 30/32 in two loads, 15/32 each: of chili powder half goes in, 3.75 tbsp, and as much is held back
#   cornbread, 4 times in two loads: twice the card
#   dressing, 8.125 cups of 4; pickle 6.25 of 5 lb, salt 2.5 % of 6.875 lb = 2.75 oz; ice 5/4; sauce 5/4
CARDS = {
    "smoked-brisket": {
        "brisket": ("lb", (Fraction("32.552"), 20)),
        "kosher-salt": ("oz", (Fraction("7.8125"), Fraction("4.8"))),
        "black-pepper": ("tbsp", (Fraction("13.02"), 8)),
    },
    "ends-chili-base": {
        "brisket-ends": ("lb", (Fraction("1.40625"), Fraction("2.8125"), 3)),
        "red-beans": ("lb", (Fraction("1.875"), Fraction("3.75"), 4)),
        "tomatoes": ("cup", (Fraction("3.75"), Fraction("7.5"), 8)),
        "water": ("cup", (Fraction("9.375"), Fraction("18.75"), 20)),
        "chili-powder": ("tbsp", (Fraction("3.75"), 15, 16)),
    },
    "cornbread": {
        "cornmeal": ("lb", (3, 6, Fraction("1.5"))),
        "wheat-flour": ("lb", (2, 4, 1)),
        "baking-powder": ("oz", (Fraction("3.2"), Fraction("6.4"), Fraction("1.6"))),
        "kosher-salt": ("oz", (Fraction("1.6"), Fraction("3.2"), Fraction("0.8"))),
        "buttermilk": ("qt", (3, 6, Fraction("1.5"))),
        "eggs": ("each", (14, 28, 7)),
        "pan-spray": ("tbsp", (2, 4, 2)),
    },
    "slaw-dressing": {
        "mayonnaise": ("cup", (Fraction("6.09375"), 3)),
        "buttermilk": ("cup", (Fraction("2.03125"), 1)),
        "cider-vinegar": ("cup", (Fraction("0.5078"), Fraction("0.25"))),
    },
    "pickled-cabbage": {
        "cabbage": ("lb", (Fraction("6.875"), Fraction("5.5"))),
        "cider-vinegar": ("qt", (Fraction("2.5"), 2)),
        "kosher-salt": ("oz", (Fraction("2.75"), Fraction("2.2"))),
    },
    "buttermilk-ice": {
        "buttermilk": ("qt", (Fraction("2.5"), 2)),
        "cream": ("qt", (Fraction("1.25"), 1)),
        "sugar": ("cup", (Fraction("3.75"), 3)),
    },
    "peach-sauce": {"peaches": ("lb", (Fraction("2.8125"), Fraction("2.25"))), "sugar": ("tbsp", (10, 8))},
}


@pytest.fixture(scope="module", params=list(CARDS))
def card(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Prints]:
    name = request.param
    return name, print_house(NAME, tmp_path_factory.mktemp(name), "batch", name, "--covers", "100", *DAY)


def test_the_cards_carry_the_amounts_worked_out(card: tuple[str, Prints]) -> None:
    name, prints = card
    assert_figures(prints, f"batch-card:{name}:2027-06-04", CARDS[name], reads="0.1 oz")


def test_both_systems_and_each_alone(tmp_path: Path) -> None:
    """3 lb is 1361 g, 1.36 kg; 6.09 cups are 1441.7 ml; 10 lb are 4.536 kg."""
    both = said(tmp_path, "batch", "cornbread", "--covers", "100", *DAY)
    assert "3 lb" in both
    assert "= 1.36 kg" in both
    assert "at 375 °F (190.6 °C)" in paper(tmp_path)
    metric = said(tmp_path, "batch", "slaw-dressing", "--covers", "100", "--units", "metric", *DAY)
    assert "1.44 L" in metric
    assert "cup" not in metric
    assert "makes 10 lb" in said(tmp_path, "batch", "slaw", "--covers", "50", "--units", "us", *DAY).splitlines()[0]


def test_from_what_there_is(tmp_path: Path) -> None:
    """30 lb of brisket is 18 lb made, 17.28 on the plate: 46 of 6 oz. 1 qt of buttermilk is four times the dressing, 3 qt of
    the gallon of mayonnaise. 20 eggs are two pans, 14 of them. A pan of 7 is not in 5 eggs.
    """
    brisket = said(tmp_path, "batch", "smoked-brisket", "--have", "30 lb brisket", *DAY)
    assert "gives: 46 portions of Brisket plate, 6 oz (170 g) each" in brisket
    assert "leaves: 3 lb (1.36 kg) brisket ends" in brisket
    two = ("--have", "1 gal mayonnaise", "--have", "1 qt buttermilk")
    dressing = said(tmp_path, "batch", "slaw-dressing", *two, *DAY)
    assert "makes 1 gal" in dressing
    assert "limited by: buttermilk" in dressing
    assert "left: 1 qt (946 ml) of 1 gal (3.79 L) mayonnaise" in dressing
    eggs = said(tmp_path, "batch", "cornbread", "--have", "20 eggs", *DAY)
    assert "48 pieces" in eggs
    assert "left: 6 each of 20 each eggs" in eggs
    few = run_house(NAME, tmp_path, "batch", "cornbread", "--have", "5 eggs", *DAY)
    assert few.exit_code == 2
    assert "not enough for one step" in few.output


def test_scoops_and_portions(tmp_path: Path) -> None:
    """A no. 16 scoop is a sixteenth of a quart: 30 twos are 3 3/4 qt, 30 singles 7 1/2 cups."""
    assert "makes 3¾ qt" in said(tmp_path, "batch", "buttermilk-ice", "--portions", "30", *DAY)
    single = ("--portions", "30", "--portion", "1 no. 16 scoop")
    assert "makes 1 qt 3½ cups" in said(tmp_path, "batch", "buttermilk-ice", *single, *DAY)


def test_soy_stands_in_for_egg(tmp_path: Path) -> None:
    """Kohlrabi takes 1 1/4 times the weight of the cabbage: 13 lb are 16 1/4. Soy mayonnaise brings soybeans."""
    assert (
        "16¼ lb" in said(tmp_path, "batch", "slaw", "--covers", "100", "--without", "cabbage", *DAY).split("\n", 3)[3]
    )
    without = ("--without", "mayonnaise", *DAY)
    assert "Now contains soybeans: Slaw." in said(tmp_path, "batch", "slaw-dressing", "--covers", "100", *without)
    assert "Do not serve  Slaw" in said(tmp_path, "guest", "soy", *without)
    assert "Do not serve  Slaw" not in said(tmp_path, "guest", "soy", *DAY)
    said(tmp_path, "matrix", *without)
    assert "Now contains soybeans: Slaw" in paper(tmp_path)
    fallen = run_house(NAME, tmp_path, "batch", "ends-chili-base", "--covers", "100", "--without", "brisket-ends", *DAY)
    assert fallen.exit_code == 2
    assert "Not served: Burnt-ends chili" in fallen.output


def test_set_up_sheet(tmp_path: Path) -> None:
    """7.5 qt of chili in sixth pans of 1.44 qt: six, one of them on the line. 50 + 30 plates, and 60 + 65 + 40."""
    said(tmp_path, "setup", *DAY)
    text = paper(tmp_path)
    assert "1 gal 3½ qt (7.1 L) 1 × sixth pan 4 in deep, 140 °F (60 °C), 8 oz ladle 5 sixth pan" in text
    assert "Brisket plate, Burnt-ends chili 80" in text
    assert "Cornbread, Slaw, Peach sundae 165" in text
    assert text.count("waits in") == 2  # also where nothing stands under it


def test_cutting_plan(tmp_path: Path) -> None:
    """430 x 300 mm once squared: 6 along and 4 across of 70 mm, 10 and 20 mm left: 81.7 % of 450 x 320 mm."""
    said(tmp_path, "batch", "cornbread", "--covers", "100", *DAY)
    text = paper(tmp_path)
    assert "24 pieces of 70 × 70 mm from each block" in text
    assert "Blocks 4 Pieces needed 60 Pieces over, where every block is full 36" in text
    assert "81.7 % is in the pieces, 10.4 % is squared off, 7.9 % is left over" in text


# Wednesday 50, Friday 80, Sunday 120 covers.
#   brisket, 75 % usable: 25, 40, 60 of 6 oz / 0.96, times 5/3, / 0.75: 21.7014, 34.7222, 52.0833 lb. On the day before,
#   but it comes on Mondays and Thursdays: Monday 31 May, 30 lb, 8.2986 over; Thursday 3 June the rest, 78.5069.
#   cabbage, 80 %: pickle (two days) 4.2969, 6.875, 10.3125; slaw 10, 13.25, 19.25 lb: 63.9844; the second bag of 50 for Sunday
#   peaches, 75 %: 1.875, 3, 4.5 lb: one box of 25. After the season ends on 18 June: 20 (Sun) 3.75, 23 (Wed) 1.875,
#   25 (Fri, 80 covers as asked for Fridays) 3, 27 (Sun) 3.75: 12.375 lb; with these and 9 (Wed), 11 (80), 13, 16, 18 (80):
#   9.375 + 1.875 + 3 + 3.75 + 1.875 + 3 + 12.375 = 35.25 lb until the end
#   eggs: 14 + 14 + 28 = 56, 4 2/3 dozen: three packs of two dozen. Mayonnaise 15.9375 cups: a gallon
ORDERED = {
    "brisket": [
        ("2027-05-30T10:00", "2027-05-31", "21.701389", "lb", "2", "8.298611"),
        ("2027-06-02T10:00", "2027-06-03", "78.506945", "lb", "6", "11.493055"),
    ],
    "cabbage": [
        ("2027-05-30T18:00", "2027-05-31", "4.296875", "lb", "1", "45.703125"),
        ("2027-06-04T18:00", "2027-06-05", "13.984375", "lb", "1", "36.015625"),
    ],
    "peaches": [("2027-05-31T18:00", "2027-06-01", "1.875", "lb", "1", "23.125")],
    "eggs": [("", "2027-05-31", "4.666667", "dozen", "3", "1.333333")],
    "mayonnaise": [("", "2027-05-31", "0.996094", "gal", "1", "0.003906")],
    "buttermilk": [("", "2027-05-31", "19.578125", "qt", "20", "0.421875")],  # 1.328125 + 12 + 6.25
    "water": [],
}


def test_what_is_ordered_for_a_week(tmp_path: Path) -> None:
    covers = ("--covers", "fri=80", "--covers", "2027-06-06=120")
    text = said(tmp_path, "order", "--from", "2027-06-02", "--days", "7", "--date", "2027-05-28", *covers)
    with (tmp_path / "sheet.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    keys = ("order_by", "delivery", "needed", "unit", "packs", "over")
    found = {item: [tuple(row[key] for key in keys) for row in rows if row["item"] == item] for item in ORDERED}
    assert found == ORDERED
    assert "peaches, 12 lb 6 oz" in text
    sheet = paper(tmp_path)
    assert "1 × 25 lb 1 lb 14 oz (850.5 g) 23 lb 2 oz" in sheet
    assert "not bought: water 3 gal" in sheet
    assert "peaches Fri 18 June 9 lb 6 oz (4.253 kg) 35¼ lb" in sheet


def test_what_it_costs(tmp_path: Path) -> None:
    """Brisket: 20 / 0.75 lb at 4.80 is 128.00, less a tenth of it in trim at 2.00, 5.33; salt 0.30, pepper 1.50: 124.47
    for 11.52 lb on the plate. Ice 9.79 a gallon of 64 scoops, sauce 4.63 a quart: 0.31 + 0.14 a sundae.
    """

    def cost(*of: str) -> str:
        result = run_house(NAME, tmp_path, "cost", *of, *DAY)
        assert result.exit_code == 0, result.output
        return " ".join(result.output.split())

    assert "$124.47" in cost("smoked-brisket")
    assert "$10.80 a lb on the plate" in cost("smoked-brisket")
    for line in (
        "$4.22 $24.00 17.6 %",
        "$0.36 $13.00 2.8 %",
        "$0.37 $4.00 9.2 %",
        "$0.22 $4.00 5.4 %",
        "$0.45 $8.00 5.6 %",
    ):
        assert line in cost()
    tests = run_house(NAME, tmp_path, "yields", "brisket", "--need", "20 lb", "--portion", "6 oz").output
    assert "cost factor 1.2778" in tests
    assert "a usable lb $6.1333" in tests
    assert "buy 26.667 lb" in tests
    assert "53 portions of 6 oz" in tests
