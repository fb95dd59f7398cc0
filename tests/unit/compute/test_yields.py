"""The usable part of bought items, pooled over tests, and the money that follows. The published sums are in tests/published."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from linebook.compute.yields import (
    as_purchased,
    cooked_part,
    cost_factor,
    edible_portion,
    price_of_one,
    spread,
    usable_part,
    usable_price,
    weigh_test,
)
from linebook.model.pantry import PantryItem, Price
from linebook.model.quantities import parse_amount, parse_price
from linebook.model.supply import PartWeighed, YieldTest
from linebook.model.units import METRIC_ONLY
from linebook.model.usable import item_yield
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="pantry", text="").whole(), "spans": {}}


def weigh(bought, usable, *, parts=(), cooked=None, price=None, day=14):
    read = {name: parse_amount(text, METRIC_ONLY) for name, text in (("bought", bought), ("usable", usable))}
    return YieldTest(
        tested=date(2027, 1, day),
        parts=tuple(
            PartWeighed(
                part="part",
                weighs=parse_amount(weighs, METRIC_ONLY),
                value=None if value is None else parse_price(value, METRIC_ONLY),
                **AT,
            )
            for weighs, value in parts
        ),
        cooked=None if cooked is None else parse_amount(cooked, METRIC_ONLY),
        price=None if price is None else parse_price(price, METRIC_ONLY),
        **read,
        **AT,
    )


def item(*tests, usable=None, price=None, weighs=None):
    paid = None if price is None else parse_price(price, METRIC_ONLY)
    return PantryItem(
        id="it",
        name="it",
        weighs=weighs or {},
        usable=usable,
        yield_tests=tests,
        price=None if paid is None else Price(money=paid[0], per=paid[1], **AT),
        **AT,
    )


def test_tests_are_pooled_by_weight():
    """9 of 10 kg and 10 of 20 kg are 19 of 30 kg, not the 70 % in the middle."""
    found = item_yield(item(weigh("10 kg", "9 kg", day=20), weigh("20 kg", "10 kg", day=3)))
    assert found.part == Fraction(19, 30)
    assert found.tested is not None
    assert (found.tested.least, found.tested.most) == (Fraction(1, 2), Fraction(9, 10))
    assert (found.tests, found.last) == (2, date(2027, 1, 20))


def test_tests_stand_before_what_is_declared():
    both = item(weigh("10 kg", "9 kg"), usable=Fraction(1, 2))
    assert usable_part(both) == Fraction(9, 10)
    assert item_yield(both).declared == Fraction(1, 2)
    assert spread(both) == (Fraction(9, 10), Fraction(9, 10))


def test_what_nobody_has_said():
    found = item_yield(item())
    assert (found.part, found.known) == (1, False)
    assert usable_price(item(price="3 per kg")) == Fraction("0.003")  # all that is bought counts
    assert item_yield(item(usable=Fraction(1))).known


def test_weighed_before_the_prep_is_bought_as_it_is():
    half = item(usable=Fraction(1, 2))
    assert as_purchased(half, Fraction(300)) == 600
    assert as_purchased(half, Fraction(300), weigh_before=True) == 300


@given(
    st.lists(st.tuples(st.integers(1, 10_000), st.integers(1, 10_000)), min_size=1, max_size=5),
    st.fractions(min_value=Fraction(1, 1000), max_value=100_000),
)
def test_there_and_back_is_exact(pairs, grams):
    tests = [weigh(f"{max(pair)} g", f"{min(pair)} g") for pair in pairs]
    one = item(*tests)
    assert edible_portion(one, as_purchased(one, grams)) == grams
    least, most = spread(one)
    assert least <= usable_part(one) <= most <= 1


def test_money_of_a_test():
    """12 kg at 10 is 120; 2 kg of trim at 3 is 6, so 114 for 8 kg: 14.25 a kg, 1.425 times the price; 1 kg is not found."""
    test = weigh("12 kg", "8 kg", parts=[("2 kg", "3 per kg"), ("1 kg", None)], price="10 per kg", cooked="6 kg")
    found = weigh_test(item(test), test)
    assert (found.paid, found.credit, found.usable_value, found.loss) == (120, 6, 114, 1000)
    assert found.usable_price == Fraction("0.01425")
    assert found.factor == Fraction("1.425")
    assert (found.part, found.cooked_part) == (Fraction(2, 3), Fraction(3, 4))


def test_a_test_without_its_own_price_takes_the_pantrys():
    test = weigh("12 kg", "8 kg", parts=[("2 kg", "3 per kg")])
    assert weigh_test(item(test, price="10 per kg"), test).usable_value == 114
    without = weigh_test(item(test), test)
    assert (without.paid, without.factor) == (None, None)


def test_without_credits_the_factor_needs_no_price():
    test = weigh("12 kg", "8 kg", parts=[("2 kg", None)])
    assert weigh_test(item(test), test).factor == Fraction(3, 2)


def test_a_price_by_the_piece_needs_its_weight():
    assert price_of_one(item(price="2.60 per each")) is None
    assert price_of_one(item(price="2.60 per each", weighs={"each": Fraction(200)})) == Fraction("0.013")
    test = weigh("2 kg", "1 kg", price="2.60 per each")
    assert weigh_test(item(test), test).paid is None
    assert weigh_test(item(test, weighs={"each": Fraction(200)}), test).paid == 26


def test_what_is_worth_more_than_it_cost_is_not_hidden():
    test = weigh("10 kg", "5 kg", parts=[("5 kg", "3 per kg")], price="1 per kg")
    found = weigh_test(item(test), test)
    assert found.usable_value == -5
    assert found.factor == -1


def test_what_costs_nothing():
    test = weigh("10 kg", "5 kg", price="0 per kg")
    assert weigh_test(item(test), test).usable_value == 0
    assert weigh_test(item(test), test).factor == 2


def test_factors_are_pooled_by_what_is_usable():
    """Two tests at one price: 10 kg with 5 usable and 10 kg with 8 usable cost as 20 kg with 13 usable would."""
    found = cost_factor(item(weigh("10 kg", "5 kg", price="4 per kg"), weigh("10 kg", "8 kg", price="4 per kg")))
    assert found is not None
    assert (found.average, found.least, found.most) == (Fraction(20, 13), Fraction(5, 4), 2)


def test_cooked_parts_are_pooled_over_the_tests_that_weighed_them():
    found = cooked_part(
        item(weigh("10 kg", "8 kg", cooked="6 kg"), weigh("10 kg", "9 kg"), weigh("4 kg", "2 kg", cooked="1 kg"))
    )
    assert found is not None
    assert (found.average, found.least, found.most) == (Fraction(7, 10), Fraction(1, 2), Fraction(3, 4))
    assert cooked_part(item(weigh("10 kg", "9 kg"))) is None
