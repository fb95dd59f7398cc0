"""What of a bought item can be used, and what that costs: published tables and worked sums, read as a chef types them."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
import yaml
from typed_house import AT, read

from linebook.compute.portioning import needed_for, portioned
from linebook.compute.yields import as_purchased, cost_factor, edible_portion, usable_part, usable_price, weigh_test
from linebook.model.amounts import Amount
from linebook.model.conversion import Facts
from linebook.model.pantry import PantryItem, Price
from linebook.model.quantities import parse_percent, parse_price
from linebook.model.supply import PartWeighed, YieldTest
from linebook.model.units import POUND, factor_of, to_base

TABLES = yaml.safe_load((Path(__file__).parent / "yields_published.yaml").read_text(encoding="utf-8"))
DAY = date(2027, 1, 14)


def bought(usable: str | None = None, *tests: YieldTest, price: str | None = None) -> PantryItem:
    return PantryItem(
        id="it",
        name="it",
        weighs={},
        usable=None if usable is None else parse_percent(usable),
        yield_tests=tests,
        price=None
        if price is None
        else Price(money=parse_price(price, None)[0], per=parse_price(price, None)[1], **AT),
        **AT,
    )


def weighed(ap: str, ep: str, *parts: PartWeighed, price: str | None = None) -> YieldTest:
    return YieldTest(
        tested=DAY,
        bought=read(ap),
        usable=read(ep),
        parts=parts,
        price=None if price is None else parse_price(price, None),
        **AT,
    )


def part(name: str, weighs: str, value: str | None = None) -> PartWeighed:
    worth = None if value is None else parse_price(value, None)
    return PartWeighed(part=name, weighs=read(weighs), value=worth, **AT)


def test_enough_foods_are_in_the_tables():
    assert len(TABLES["refuse"]) >= 60
    assert len({row["number"] for row in TABLES["refuse"]}) == len(TABLES["refuse"])
    assert len(TABLES["factors"]) >= 10


@pytest.mark.parametrize("row", TABLES["refuse"], ids=lambda row: row["number"])
def test_edible_part_is_what_refuse_leaves(row):
    """USDA SR28: 100 g bought leave 100 g less the refuse; declared, or weighed with the refuse beside it."""
    edible, refuse = 100 - row["refuse"], row["refuse"]
    declared = bought(f"{edible} %")
    tested = bought(None, weighed("100 lb", f"{edible} lb", part(row["removed"], f"{refuse} lb")))
    for item in (declared, tested):
        assert edible_portion(item, Fraction(100)) == edible
        assert as_purchased(item, Fraction(edible)) == 100
        assert float(as_purchased(item, Fraction(1000))) == pytest.approx(100_000 / edible)
    assert weigh_test(tested, tested.yield_tests[0]).loss == 0


@pytest.mark.parametrize("row", TABLES["factors"], ids=lambda row: row["product"])
def test_fish_by_its_factor_from_product_to_live_weight(row):
    """FAO: product weight times the factor is live weight, so a test of one fish gives the factor back."""
    factor = Fraction(str(row["factor"]))
    item = bought(None, weighed(f"{row['factor']} kg", "1 kg"))
    assert as_purchased(item, Fraction(250)) == 250 * factor
    found = cost_factor(item)
    assert found is not None
    assert found.average == factor  # without money for the rest, a usable weight costs as many times the price


SUMS = {
    # Foundations of Cost Control (Traster), chapter 4: 8 lb bought, 6 lb 7 oz usable
    "mixed units": ("8 lb", "6 lb 7 oz", "80.46875"),
    # Foundations of Cost Control (Traster), chapter 4: 17 lb of cauliflower, 10 lb usable
    "cauliflower": ("17 lb", "10 lb", "58.8235"),
    # Basic Kitchen and Food Service Management (BCcampus), Yield Testing: 7.75 kg of salmon, 2.75 kg of trim
    "salmon": ("7.75 kg", "5 kg", "64.5161"),
    # the same: 2.5 kg of tenderloin, 0.75 kg of trim
    "tenderloin": ("2.5 kg", "1.75 kg", "70"),
}


@pytest.mark.parametrize("name", SUMS)
def test_worked_yields(name):
    ap, ep, per_cent = SUMS[name]
    found = usable_part(bought(None, weighed(ap, ep))) * 100
    digits = len(per_cent.partition(".")[2])
    assert f"{float(found):.{digits}f}" == per_cent


def test_edible_portion_of_ten_pounds():  # Foundations of Cost Control (Traster): 10 lb at 68 % is 6.8 lb, 108.8 oz
    usable = Amount(number=edible_portion(bought("68 %"), Fraction(10)), unit=POUND)
    assert usable == read("6.8 lb")
    assert to_base(usable) == to_base(read("108.8 oz"))


def test_what_to_buy_for_forty_portions():  # Foundations of Cost Control (Traster), formula: 40 x 150 g at 70 %
    need = needed_for(40, read("150 g"))
    assert need == read("6000 g")
    assert f"{float(as_purchased(bought('70 %'), need.number)):.2f}" == "8571.43"


def test_price_as_bought_from_the_price_of_what_is_usable():  # Traster: 2.17 a lb usable at 96 % is 2.0832 as bought
    price = usable_price(bought("96 %", price="2.0832 per lb"))
    assert price is not None
    assert price * factor_of(POUND) == Fraction("2.17")


# Butcher's test of a standing rib, a hotel-school problem: 38.75 lb at 3.19; inputs and formulas as read, outputs computed.
RIB = weighed(
    "38.75 lb",
    "22 lb",
    part("fat", "6.5 lb", "0.00 per lb"),
    part("bones", "4.25 lb", "0.32 per lb"),
    part("short ribs", "3.25 lb", "1.49 per lb"),
    part("chopped beef", "2.5 lb", "1.59 per lb"),
    part("cutting loss", "0.25 lb"),
    price="3.19 per lb",
)


def test_butchers_test():
    found = weigh_test(bought(None, RIB), RIB)
    assert found.paid == Fraction("123.6125")
    assert found.credit == Fraction("10.1775")
    assert found.usable_value == Fraction("113.435")
    assert found.loss == 0
    assert f"{float(found.part * 100):.4f}" == "56.7742"
    assert found.usable_price is not None
    assert found.factor is not None
    assert f"{float(found.usable_price * factor_of(POUND)):.6f}" == "5.156136"
    assert f"{float(found.factor):.6f}" == "1.616344"
    assert f"{float(found.usable_price * to_base(read('10 oz'))):.6f}" == "3.222585"


def test_butchers_test_at_another_price():
    """New usable cost is the cost factor times the new price: 5.641039 a lb at 3.49, as the problem's formula gives."""
    price = usable_price(bought(None, RIB, price="3.49 per lb"))
    assert price is not None
    assert f"{float(price * factor_of(POUND)):.6f}" == "5.641039"


def test_portions_of_the_butchers_test():
    """22 lb in 10 oz portions: 352 oz give 35 and leave 2 oz."""
    found = portioned(RIB.usable, read("10 oz"), Facts(name="rib"))
    assert found.count == 35
    assert found.left * 10 == 2


def test_a_third_of_a_delivery():  # common practice, no source: a third of a 30 lb delivery is 10 lb
    assert edible_portion(bought(None, weighed("3 lb", "1 lb")), Fraction(30)) == 10
