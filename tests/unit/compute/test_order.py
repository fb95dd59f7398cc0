"""Orders in cases worked out by hand: units that cannot meet, stock of a menu, menus that change, trim that is bought."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from kitchen_factory import (
    AT,
    amount,
    bought,
    by_product,
    component,
    dish,
    element,
    house,
    line,
    listed,
    menu,
    minutes,
    stage,
)

from linebook.compute.deliveries import arrival_for, lead_days, purchases
from linebook.compute.order import Order, compute_order
from linebook.compute.results import Uncounted
from linebook.compute.services import CoversAsked, find_services
from linebook.model.amounts import Duration
from linebook.model.house import House
from linebook.model.pantry import Price, Season
from linebook.model.supply import StockEntry, Supplier


def march(day: int) -> date:
    return date(2027, 3, day)


def left(item: str, how_much: str, **own) -> StockEntry:
    return StockEntry(item=item, amount=amount(how_much), **AT, **own)


def order_of(kitchen: House, days: int = 1, *, covers: int = 10, on_hand=()) -> Order:
    services = find_services(kitchen, march(2), days, CoversAsked(every=covers)).value
    last = march(2) + timedelta(days=days - 1)
    return compute_order(kitchen, services, first=march(2), last=last, written=march(1), on_hand=on_hand)


def lines(order: Order) -> list[tuple[str, object, object, int | None]]:
    return [(row.item, row.needed, row.ordered, row.packs) for one in order.deliveries for row in one.lines]


def test_bunches_and_grams_of_one_thing_stay_apart():
    """Nobody knows what a bunch weighs: 30 g come in packs of 1 kg, 2.5 bunches less the 1 on hand in whole bunches."""
    thyme = replace(bought("thyme"), pack=amount("1 kg"))
    kitchen = house([thyme], [], [dish("d", [element("thyme", "3 g")]), dish("e", [element("thyme", "0.25 bunch")])])
    kitchen = replace(kitchen, menus={"m": menu("m", [listed("d"), listed("e")])})
    found = lines(order_of(kitchen, on_hand=[left("thyme", "1 bunch")]))
    assert found == [
        ("thyme", amount("0.03 kg"), amount("1 kg"), 1),
        ("thyme", amount("1.5 bunch"), amount("2 bunch"), None),
    ]


def test_a_weighed_bunch_is_bought_by_the_bunch():
    """A bunch weighs 40 g: 10 times 3 g and 10 quarters of a bunch are 0.75 and 2.5 bunches, in packs of 5."""
    thyme = replace(bought("thyme", weighs={"bunch": "40"}), pack=amount("5 bunch"))
    kitchen = house([thyme], [], [dish("d", [element("thyme", "3 g")]), dish("e", [element("thyme", "0.25 bunch")])])
    kitchen = replace(kitchen, menus={"m": menu("m", [listed("d"), listed("e")])})
    assert lines(order_of(kitchen)) == [("thyme", amount("3.25 bunch"), amount("5 bunch"), 1)]


def test_stock_in_a_unit_that_cannot_meet_is_told():
    kitchen = house([bought("thyme")], [], [dish("d", [element("thyme", "3 g")])], [menu("m", [listed("d")])])
    order = order_of(kitchen, on_hand=[left("thyme", "2 bunch"), left("thyme", "20 g", use_by=march(1))])
    assert lines(order) == [("thyme", amount("30 g"), amount("30 g"), None)]
    assert [(use.entry.amount, use.reason) for use in order.idle] == [
        (amount("2 bunch"), Uncounted.UNITS),
        (amount("20 g"), Uncounted.OVER),
    ]


def test_what_a_menu_has_on_hand_counts_once():
    """Two services of 100 g each; 120 g of sauce and 50 g of salt on hand are used up once, not once a service."""
    sauce = component(
        "sauce", "1 kg", [line("salt", "1 kg")], keeps=Duration(least=Fraction(7200), most=Fraction(7200), in_days=True)
    )
    served = replace(menu("m", [listed("d")]), on_hand=(left("sauce", "120 g", made=march(2)), left("salt", "50 g")))
    kitchen = house([bought("salt")], [sauce], [dish("d", [element("sauce", "10 g")])], [served])
    assert lines(order_of(kitchen, 2)) == [("salt", amount("0.03 kg"), amount("0.03 kg"), None)]  # 200 - 120 - 50


def test_stock_past_its_life_at_the_second_service_is_made_anew():
    sauce = component("sauce", "1 kg", [line("salt", "1 kg")])
    kitchen = house([bought("salt")], [sauce], [dish("d", [element("sauce", "10 g")])], [menu("m", [listed("d")])])
    stock = [left("sauce", "150 g", made=march(1), use_by=march(2))]
    assert lines(order_of(kitchen, 2, on_hand=stock)) == [("salt", amount("0.1 kg"), amount("0.1 kg"), None)]


def test_a_menu_that_changes_brings_its_own_stock_and_needs():
    early = replace(menu("early", [listed("d")], march(2)), on_hand=(left("salt", "30 g"),))
    late = replace(menu("late", [listed("e")], march(3)), on_hand=(left("salt", "1 g"),))
    plates = [dish("d", [element("salt", "10 g")]), dish("e", [element("salt", "1 g")])]
    kitchen = house([bought("salt")], [], plates, [early, late])
    assert lines(order_of(kitchen, 2)) == [("salt", amount("79 g"), amount("79 g"), None)]  # 100 - 30, and 10 - 1


def trimming(**pantry) -> House:
    """A portion takes 100 g of fillet and 30 g of filling; 1 kg of fillet leaves 200 g of trim, filling is all trim."""
    fillet = component(
        "fillet", "1 kg", [line("fish", "2 kg")], also_makes=[replace(by_product("trim"), amount=amount("200 g"))]
    )
    filling = component("filling", "1 kg", [line("trim", "1 kg")], stages=(stage("mix", hands_on=minutes(30)),))
    plate = dish("d", [element("fillet", "100 g"), element("filling", "30 g")])
    return house([bought("fish"), *pantry.values()], [fillet, filling], [plate], [menu("m", [listed("d")])])


def test_trim_that_is_short_is_bought_where_it_can_be():
    """10 portions make 1 kg of fillet and 200 g of trim; 300 g are needed. Bought trim is 80 % usable: 125 g."""
    trim = replace(bought("trim"), usable=Fraction(4, 5))
    order = order_of(trimming(trim=trim))
    assert ("trim", amount("0.125 kg"), amount("0.125 kg"), None) in lines(order)
    assert not order.short


def test_trim_that_is_short_and_not_sold_is_told():
    order = order_of(trimming())
    (short,) = order.short
    assert (short.item, short.amount, short.users, short.apart) == ("trim", amount("100 g"), ("filling",), False)
    assert "trim" not in [item for item, *_ in lines(order)]


def test_a_season_over_and_not_begun():
    """Needed on 2 and 3 March; the season is the 3rd alone, or ends on the 1st; the menu has no end."""
    for first, last, before, after in ((3, 3, "100 g", None), (1, 2, None, "100 g")):
        leek = replace(bought("leek"), season=Season(first=march(first), last=march(last), **AT))
        kitchen = house([leek], [], [dish("d", [element("leek", "10 g")])], [menu("m", [listed("d")])])
        (found,) = order_of(kitchen, 2).seasons
        assert found.ends is None
        assert found.here == found.in_all == amount("200 g")
        assert found.before == (amount(before) if before else replace(found.before, number=Fraction(0)))
        assert found.after == found.after_here == (amount(after) if after else replace(found.after, number=Fraction(0)))


def test_water_is_never_late():
    water = replace(bought("water"), price=Price(money=Fraction(0), per=amount("1 L"), **AT))
    broth = component(
        "broth",
        "1 kg",
        [line("water", "1 kg"), line("bone", "1 kg")],
        stages=(stage("simmer", unattended=minutes(4000)),),
    )
    kitchen = house(
        [water, bought("bone")], [broth], [dish("d", [element("broth", "10 g")])], [menu("m", [listed("d")])]
    )
    assert [one.item for one in order_of(kitchen).too_late] == [
        "bone"
    ]  # in the house by 27 February, written on 1 March


def test_arrivals():
    """1 March 2027 is a Monday. A lead of 50 h is three days."""
    supplier = Supplier(name="s", delivers=("tue", "fri"), **AT)
    hours = Duration(least=Fraction(0), most=Fraction(50 * 60))
    assert lead_days(hours) == 3
    in_time = arrival_for(supplier, hours, march(11), march(1))
    assert (in_time.day, in_time.order_by, in_time.in_time) == (march(9), march(6), True)
    late = arrival_for(supplier, hours, march(4), march(1))
    assert (late.day, late.order_by, late.in_time) == (march(5), march(2), False)
    same_day = arrival_for(None, None, march(1), march(1))
    assert (same_day.day, same_day.order_by, same_day.in_time) == (march(1), None, True)


def test_leftovers_of_a_pack_skip_a_delivery():
    wanted = {march(1): Fraction(3), march(3): Fraction(4), march(5): Fraction(5)}
    found = purchases(wanted, Fraction(10))
    assert [(one.day, one.needed, one.packs, one.over) for one in found] == [(march(1), 3, 1, 7), (march(5), 2, 1, 8)]
    assert [one.ordered for one in purchases({march(1): Fraction(9, 2)}, None, whole=True)] == [5]
