"""What whole steps make over at one service is taken off the next while it keeps, in cases worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest
from kitchen_factory import AT, amount, bought, by_product, component, dish, element, house, line, listed, menu, minutes

from linebook.compute.order import Order, compute_order
from linebook.compute.services import CoversAsked, find_services
from linebook.model.amounts import Duration
from linebook.model.house import House
from linebook.model.supply import Supplier

FIRST = date(2027, 3, 2)


def kept(count: int) -> Duration:
    return replace(minutes(count * 24 * 60), in_days=True)


def kitchen(keeps: Duration | None, **fields: object) -> House:
    """Bread in loaves of 1 kg, each of 1 kg flour; ten covers take 100 g each."""
    bread = component("bread", "1 kg", [line("flour", "1 kg")], batch_step=amount("1 kg"), keeps=keeps, **fields)
    return house(
        [bought("flour")], [bread], [dish("toast", [element("bread", "60 g")])], [menu("m", [listed("toast")])]
    )


def order_of(made: House, span: int, covers: int = 10) -> Order:
    services = find_services(made, FIRST, span, CoversAsked(every=covers)).value
    last = FIRST + timedelta(days=span - 1)
    return compute_order(made, services, first=FIRST, last=last, written=FIRST - timedelta(days=9))


def flour(order: Order) -> object:
    return sum(row.needed.number for one in order.deliveries for row in one.lines if row.item == "flour")


@pytest.mark.parametrize(
    ("keeps", "span", "kilograms"),
    [
        (kept(1), 3, 3),  # 600 g of a loaf each day, and the rest is past its life
        (kept(2), 2, 2),  # 400 g are left on the second, which needs 200 g more: a loaf
        (kept(2), 3, 2),  # 800 g are left on the third: none is baked
        (kept(5), 5, 3),  # 3 kg in all
        (minutes(300), 3, 3),  # kept for hours: for the day alone
        (None, 3, 3),  # nobody says how long
    ],
)
def test_what_a_step_leaves_is_taken_off_while_it_keeps(keeps, span, kilograms) -> None:
    assert flour(order_of(kitchen(keeps), span)) == kilograms


def test_what_is_made_new_each_day_goes_to_no_other() -> None:
    assert flour(order_of(kitchen(kept(5), make_daily=True), 3)) == 3
    assert flour(order_of(kitchen(kept(5), fresh_within=minutes(240)), 3)) == 3


def test_what_is_left_of_a_by_product_that_keeps_meets_the_next_need() -> None:
    """Ham leaves 1 kg of trim for 1 kg; a bowl takes 100 g of 10 on the first day and, with 30, 300 g on the second."""
    trim = replace(by_product("trim", "pork"), keeps=kept(3))
    ham = component("ham", "1 kg", [line("pork", "2 kg")], also_makes=(trim,), keeps=kept(3))
    bowl = component("bowl", "1 kg", [line("trim", "1500 g")], keeps=kept(1))
    plates = [dish("plate", [element("ham", "100 g")]), dish("soup", [element("bowl", "100 g")])]
    made = house([bought("pork")], [ham, bowl], plates, [menu("m", [listed("plate"), listed("soup")])])
    short = [one.amount for one in order_of(made, 2).short]
    assert [(one.number, one.unit.symbol) for one in short] == [(Fraction(1, 2), "kg")] * 2
    less = replace(bowl, ingredients=(line("trim", "500 g"),))
    spare = replace(made, components={"ham": ham, "bowl": less})
    assert not order_of(spare, 2).short


def test_a_van_that_is_missed_names_the_next_and_whom_it_serves() -> None:
    """Flour comes on Tuesdays and Fridays, a day after it is asked for; on Tuesday it is too late for that day's van."""
    made = kitchen(kept(1))
    mill = Supplier(name="Mill", delivers=("tue", "fri"), **AT)
    item = replace(made.pantry["flour"], supplier="Mill", lead=kept(1))
    made = replace(made, pantry={"flour": item}, file=replace(made.file, suppliers=(mill,)))
    services = find_services(made, FIRST, 5, CoversAsked(every=10)).value
    order = compute_order(made, services, first=FIRST, last=FIRST + timedelta(days=4), written=FIRST)
    (late,) = order.too_late
    assert (late.missed, late.order_by, late.comes) == (FIRST, FIRST - timedelta(days=1), date(2027, 3, 5))
    assert late.serves == date(2027, 3, 5)
    assert late.dishes == ("toast",)
    assert late.services == (FIRST, date(2027, 3, 3), date(2027, 3, 4))
    assert late.amount.number == 3
