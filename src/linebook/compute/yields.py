"""What of a bought item can be used: its declared part or its yield tests, and what follows for weight and money.

All exact. Knows one item at a time, no menus, and nothing of print.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from linebook.model.amounts import Amount, Kind
from linebook.model.conversion import convert, facts_of
from linebook.model.pantry import PantryItem
from linebook.model.supply import PartWeighed, YieldTest
from linebook.model.units import to_base
from linebook.model.usable import Range, item_yield, pooled
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen

_ALL: Final = Fraction(1)


@frozen
class WeighedTest:
    """What one yield test says, in grams and the house's money; the money is None where a price is missing.

    ``loss`` is what was bought and not found again, less than nothing where the parts weigh more. ``credit`` is what
    the other parts are worth, ``usable_value`` what the usable part has to bear, ``usable_price`` that for one gram.
    ``factor`` is how many times the bought price a usable weight costs. ``cooked_part`` is of the usable weight.
    """

    test: YieldTest
    bought: Fraction
    usable: Fraction
    part: Fraction
    loss: Fraction
    cooked: Fraction | None = None
    cooked_part: Fraction | None = None
    paid: Fraction | None = None
    credit: Fraction | None = None
    usable_value: Fraction | None = None
    usable_price: Fraction | None = None
    factor: Fraction | None = None


def usable_part(item: PantryItem) -> Fraction:
    """Return the part of the bought weight that can be used: of its tests, else as declared, else all of it."""
    return item_yield(item).part


def spread(item: PantryItem) -> tuple[Fraction, Fraction]:
    """Return the least and the most usable part that is known of an item; both are the same without tests."""
    found = item_yield(item)
    return (found.tested.least, found.tested.most) if found.tested else (found.part, found.part)


def as_purchased(item: PantryItem, grams: Fraction, weigh_before: bool = False) -> Fraction:
    """Return how much must be bought for so much usable; what is weighed before the prep is bought as it is.

    ``grams`` may be any measure of the item: the answer is in the same.
    """
    return grams if weigh_before else grams / usable_part(item)


def edible_portion(item: PantryItem, bought: Fraction) -> Fraction:
    """Return how much is usable of so much bought, in the same measure."""
    return bought * usable_part(item)


def cooked_part(item: PantryItem) -> Range | None:
    """Return what the usable part weighs cooked, as a part of it, over the tests that weighed it; None without any."""
    weighed = [(to_base(test.cooked), to_base(test.usable)) for test in item.yield_tests if test.cooked is not None]
    return pooled(weighed) if weighed else None


def cost_factor(item: PantryItem) -> Range | None:
    """Return how many times the bought price a usable weight costs, the other parts credited.

    Pooled over the tests whose money is known; without tests it is one through the usable part, which is all where
    nobody has said. None where no test has what it needs: parts that are worth money need the price of the whole.
    """
    found = item_yield(item)
    if found.tested is None:
        one = _ALL / found.part
        return Range(average=one, least=one, most=one)
    results = [result for test in item.yield_tests if (result := weigh_test(item, test)).factor is not None]
    if not results:
        return None
    factors = [result.factor for result in results if result.factor is not None]
    return Range(average=_pooled_factor(results), least=min(factors), most=max(factors))


def price_of_one(item: PantryItem) -> Fraction | None:
    """Return what a bought gram costs by the pantry's price, or None where there is none or it has no weight."""
    return None if item.price is None else _a_gram(item, item.price.money, item.price.per)


def usable_price(item: PantryItem) -> Fraction | None:
    """Return what a usable gram costs at today's price: the price times the cost factor; None where one is missing."""
    bought, factor = price_of_one(item), cost_factor(item)
    return None if bought is None or factor is None else bought * factor.average


def weigh_test(item: PantryItem, test: YieldTest) -> WeighedTest:
    """Return all that one test of an item says. A test without a price of its own takes the pantry's."""
    bought, usable = to_base(test.bought), to_base(test.usable)
    cooked = None if test.cooked is None else to_base(test.cooked)
    parts = sum((to_base(part.weighs) for part in test.parts), Fraction(0))
    price = _a_gram(item, *test.price) if test.price is not None else price_of_one(item)
    credit = _credit(item, test.parts)
    paid = None if price is None else bought * price
    value = None if paid is None or credit is None else paid - credit
    if value is not None and paid:
        factor: Fraction | None = value / usable / (paid / bought)
    else:  # without credits the price falls out of the sum
        factor = bought / usable if credit == 0 else None
    return WeighedTest(
        test=test,
        bought=bought,
        usable=usable,
        part=usable / bought,
        loss=bought - usable - parts,
        cooked=cooked,
        cooked_part=None if cooked is None else cooked / usable,
        paid=paid,
        credit=credit,
        usable_value=value,
        usable_price=None if value is None else value / usable,
        factor=factor,
    )


def _pooled_factor(results: Sequence[WeighedTest]) -> Fraction:
    """Return the cost factor of all tests together: each bears its own factor for what it made usable."""
    usable = sum((result.usable for result in results), Fraction(0))
    borne = sum((result.usable * (result.factor or 0) for result in results), Fraction(0))
    return borne / usable


def _credit(item: PantryItem, parts: Sequence[PartWeighed]) -> Fraction | None:
    """Return what the parts are worth together, or None where a value has no weight."""
    total = Fraction(0)
    for part in parts:
        if part.value is not None:
            one = _a_gram(item, *part.value)
            if one is None:
                return None
            total += to_base(part.weighs) * one
    return total


def _a_gram(item: PantryItem, money: Fraction, per: Amount) -> Fraction | None:
    try:
        grams = convert(per, Kind.MASS, facts_of(item))
    except ValueMistake:
        return None
    return money / grams if grams else None
