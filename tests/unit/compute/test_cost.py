"""Costs by sums worked out by hand, and that no view of a sheet can hold money."""

import dataclasses
import importlib
import pkgutil
import typing
from dataclasses import replace
from datetime import date
from fractions import Fraction
from random import Random

import pytest
from kitchen_factory import AT, amount, bought, by_product, component, dish, element, house, line, percent, size
from test_order_oracle import Kitchen

import linebook.documents
from linebook.compute import cost as cost_module
from linebook.compute.cost import Costs, priced_size
from linebook.compute.demand import compute_night
from linebook.compute.order_needs import wanted_for
from linebook.model.occasion import Occasion
from linebook.model.pantry import PantryItem, Price
from linebook.model.supply import PartWeighed, YieldTest
from linebook.model.units import to_base
from linebook.source.frozen import frozen


def priced(id_: str, money: str, per: str = "1 kg", **facts) -> PantryItem:
    usable = facts.pop("usable", None)
    price = Price(money=Fraction(money), per=amount(per), **AT)
    return replace(bought(id_, **facts), price=price, usable=None if usable is None else Fraction(usable))


def test_batch_portion_and_share():
    """2 kg of carrot at 80 % is 2.5 kg at 1.20: 3.00; 100 g butter at 9 is 0.90; salt 1 % of the carrot, 20 g at 1: 0.02.

    3.92 for 1.6 kg; a tenth is lost, so 1.44 kg reaches plates: 2.7222 a kg, 120 g of it 0.32667, and 10 g of butter 0.09.
    """
    pantry = [priced("carrot", "1.20", usable="0.8"), priced("butter", "9"), priced("salt", "1")]
    puree = component(
        "puree",
        "1.6 kg",
        [line("carrot", "2 kg"), line("butter", "100 g"), line("salt", percent("1", "carrot")), line("pepper")],
        loss="0.1",
    )
    plate = replace(dish("d", [element("puree", "120 g"), element("butter", "10 g")]), price=Fraction(5))
    costs = Costs(house([*pantry, bought("pepper")], [puree], [plate]))
    batch = costs.batch("puree")
    assert batch.total.money == Fraction("3.92")
    assert batch.total.uncounted == ("pepper",)
    assert batch.one.money == Fraction("3.92") / Fraction("1.44")
    (portion,) = costs.plates(plate)
    assert portion.total.money == Fraction("3.92") / Fraction("1.44") * Fraction("0.12") + Fraction("0.09")
    assert portion.share == portion.total.money / 5
    assert not portion.total.unpriced


def test_weighed_before_is_bought_as_it_is():
    pantry = [priced("leek", "2", usable="0.5")]
    before = component("before", "1 kg", [replace(line("leek", "3 kg"), weigh_before=True)])
    after = component("after", "1 kg", [line("leek", "3 kg")])
    costs = Costs(house(pantry, [before, after]))
    assert (costs.batch("before").total.money, costs.batch("after").total.money) == (6, 12)


def test_a_price_by_the_piece():
    pantry = [priced("egg", "3.60", "1 dozen", weighs={"each": "50"})]
    custard = component("custard", "1 L", [line("egg", "4 each"), line("egg", "100 g")])
    assert Costs(house(pantry, [custard])).batch("custard").total.money == Fraction("1.80")  # 4 + 2 eggs at 0.30


def test_without_a_price_it_is_at_least():
    pantry = [priced("milk", "1", "1 L"), bought("vanilla"), priced("thyme", "1.50", "1 bunch")]
    custard = component("custard", "1 L", [line("milk", "2 L"), line("vanilla", "2 g"), line("thyme", "5 g")])
    plate = dish("d", [element("custard", "100 ml")])
    (portion,) = Costs(house(pantry, [custard], [plate])).plates(plate)
    assert portion.total.money == Fraction(2, 10)
    assert portion.total.unpriced == ("vanilla", "thyme")  # nobody knows what a bunch of thyme weighs


def test_by_products_are_taken_off_once():
    """3 kg of fish at 10 leave 0.5 kg of bones, worth 0.40: what the pantry sells them for, 0.80 a kg."""
    fillet = component(
        "fillet", "1 kg", [line("fish", "3 kg")], also_makes=[replace(by_product("bones"), amount=amount("500 g"))]
    )
    stock = component("stock", "1 kg", [line("bones", "500 g")])
    sold = Costs(house([priced("fish", "10"), priced("bones", "0.80")], [fillet, stock]))
    assert sold.batch("fillet").total.money == Fraction("29.60")
    assert sold.batch("stock").total.money == Fraction("0.40")  # what one gains the other bears
    unsold = Costs(house([priced("fish", "10")], [fillet, stock]))
    assert unsold.batch("fillet").total.money == 30
    assert unsold.batch("fillet").total.unvalued == ("bones",)
    assert unsold.batch("stock").total.unvalued == ("bones",)


def test_a_yield_test_values_what_no_one_sells():
    test = YieldTest(
        tested=date(2027, 1, 4),
        bought=amount("10 kg"),
        usable=amount("8 kg"),
        parts=(
            PartWeighed(part="bones", weighs=amount("2 kg"), item="bones", value=(Fraction(2), amount("1 kg")), **AT),
        ),
        **AT,
    )
    fish = replace(priced("fish", "10"), yield_tests=(test,))
    alone = component("alone", "1 kg", [line("fish", "8 kg")])
    parted = component(
        "parted", "1 kg", [line("fish", "8 kg")], also_makes=[replace(by_product("bones"), amount=amount("500 g"))]
    )
    costs = Costs(house([fish], [alone, parted]))
    assert costs.batch("alone").total.money == 96  # 10 kg at 10, less 2 kg of bones at 2
    assert costs.batch("parted").total.money == 99  # the card's own 500 g are taken off instead, never both


def test_sizes_and_the_size_that_the_price_is_for():
    plate = replace(
        dish("d", [element("ham", "100 g")], sizes=[size("taste", "0.4"), size("full"), size("large", ham="250 g")]),
        price=Fraction(10),
    )
    found = Costs(house([priced("ham", "20")], [], [plate])).plates(plate)
    assert [(one.size, one.total.money, one.share) for one in found] == [
        ("taste", Fraction("0.8"), None),
        ("full", 2, Fraction(1, 5)),
        ("large", 5, None),
    ]
    assert priced_size(plate) == "full"


def _views():
    for found in pkgutil.iter_modules(linebook.documents.__path__):
        module = importlib.import_module(f"linebook.documents.{found.name}")
        for value in vars(module).values():
            if (
                isinstance(value, type)
                and hasattr(value, "__dataclass_fields__")
                and value.__module__ == module.__name__
            ):
                yield value, module


def _reached(hint, seen: set) -> set:
    """Every class that a type can hold, through tuples, mappings and the fields of value classes."""
    if isinstance(hint, type) and hint not in seen:
        seen.add(hint)
        for field in getattr(hint, "__dataclass_fields__", {}).values():
            _reached(_resolved(field.type, hint), seen)
    for part in typing.get_args(hint):
        _reached(part, seen)
    return seen


def _resolved(hint, owner):
    if not isinstance(hint, str):
        return hint
    names = {**vars(importlib.import_module(owner.__module__))}
    try:
        return eval(hint, names)
    except NameError:  # a name that is imported for type checking alone
        return object


MONEY = {value for value in vars(cost_module).values() if dataclasses.is_dataclass(value)} | {Price, PantryItem}


def test_no_sheet_can_hold_money():
    """Walks the types of every view that a template is given: none leads to a cost, a price or what bears one."""
    given = [(view, module) for view, module in _views() if {"id", "title"} <= set(view.__dataclass_fields__)]
    assert len(given) > 8
    planted = frozen(type("Planted", (), {"__annotations__": {"cost": cost_module.Cost}}))
    assert _reached(planted, set()) & MONEY
    for view, _ in given:
        assert not (_reached(view, set()) & MONEY), view


@pytest.mark.parametrize("name", ["documents", "templating", "markup", "pdf", "screen"])
def test_no_part_that_draws_knows_costs(name):
    package = importlib.import_module(f"linebook.{name}")
    for found in pkgutil.iter_modules(package.__path__):
        text = importlib.import_module(f"linebook.{name}.{found.name}").__loader__.get_source(
            f"linebook.{name}.{found.name}"
        )
        assert "compute.cost" not in text, found.name
        assert ".price.money" not in text, found.name


@pytest.mark.parametrize("seed", range(200))
def test_plates_of_a_night_cost_what_is_bought_for_it(seed):
    """On houses where all grows evenly, all plates together cost all that is wanted, at what each item costs as bought."""
    plan = Kitchen(seed)
    random = Random(seed)
    money = {item: Fraction(random.randint(1, 400), 100) for item in plan.house.pantry}
    pantry = {
        id_: replace(item, price=Price(money=money[id_], per=amount("1 kg"), **AT))
        for id_, item in plan.house.pantry.items()
    }
    lossy = {id_: replace(part, loss=Fraction(random.randint(0, 3), 10)) for id_, part in plan.house.components.items()}
    kitchen = replace(plan.house, pantry=pantry, components=lossy)
    night = compute_night(kitchen, Occasion(menu="m", covers=plan.covers, date=date(2027, 3, 2)))
    bought_for = sum(
        (to_base(one.amount) * money[one.item] / 1000 for one in wanted_for(kitchen, night, date(2027, 3, 2))),
        Fraction(0),
    )
    (plate,) = kitchen.dishes.values()
    (portion,) = Costs(kitchen).plates(plate)
    assert portion.total.money * sum(one.portions for one in night.demands) == bought_for
