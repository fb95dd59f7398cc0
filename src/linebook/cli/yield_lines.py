"""What ``linebook yields`` prints: lines of text for the chef's terminal, money among them. Prints nothing itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from linebook.compute.ladders import is_metric
from linebook.compute.numerals import decimal_text
from linebook.compute.portioning import needed_for, portioned
from linebook.compute.yields import (
    WeighedTest,
    as_purchased,
    cooked_part,
    cost_factor,
    edible_portion,
    price_of_one,
    usable_price,
    weigh_test,
)
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.conversion import convert, facts_of
from linebook.model.house import House
from linebook.model.pantry import PantryItem
from linebook.model.units import KILOGRAM, POUND, factor_of, from_base, to_base
from linebook.model.usable import Range, item_yield
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_FIGURES: Final = 4
"""Decimals of money for one kilogram or pound, and of a cost factor: what is multiplied on must not be rounded off."""


@frozen
class Asked:
    """What is asked of one item: an amount usable or bought, a portion, how many of these."""

    need: Amount | None = None
    bought: Amount | None = None
    portion: Amount | None = None
    portions: int | None = None


def table_lines(house: House) -> Iterator[str]:
    """Yield a table of all items whose yield is known, then how many there are of which nobody has said."""
    rows = [("usable", "tests", "least", "most", "declared", "last test", "item")]
    unsaid = 0
    for item in sorted(house.pantry.values(), key=lambda one: one.id):
        found = item_yield(item)
        unsaid += not found.known
        if not found.known:
            continue
        tested = found.tested
        rows.append(
            (
                _per_cent(found.part),
                str(found.tests) if tested else "declared",
                _per_cent(tested.least) if tested else "",
                _per_cent(tested.most) if tested else "",
                _per_cent(found.declared) if tested and found.declared is not None else "",
                found.last.isoformat() if found.last else "",
                item.id,
            )
        )
    yield from _in_columns(rows)
    if unsaid:
        items = "1 item says" if unsaid == 1 else f"{unsaid} items say"
        yield f"{items} neither `usable` nor `yield_tests`: all that is bought counts as usable."


def item_lines(house: House, item: PantryItem) -> Iterator[str]:
    """Yield what is known of one item: its yield, every test, and what a usable weight costs."""
    found = item_yield(item)
    tested = found.tested
    if tested is not None:
        yield f"{item.name}: {_per_cent(found.part)} usable"
        several = f"{found.tests} tests{_several(tested)}, the last on {found.last}"
        yield f"1 test, on {found.last}" if found.tests == 1 else f"average of {several}"
        if found.declared is not None:
            yield f"declared {_per_cent(found.declared)}: the tests count"
    elif found.known:
        yield f"{item.name}: {_per_cent(found.part)} usable, declared, not tested"
    else:
        yield f"{item.name}: nobody has said what of it is usable, so all that is bought counts"
    for test in item.yield_tests:
        yield ""
        yield from _test_lines(house, weigh_test(item, test))
    if item.yield_tests:
        yield ""
    cooked = cooked_part(item)
    if cooked is not None:
        yield f"cooked: {_per_cent(cooked.average)} of what is usable{_several(cooked)}"
    yield from _cost_lines(house, item)


def answer_lines(house: House, item: PantryItem, asked: Asked) -> list[str]:
    """Return what is asked: what to buy, what is usable, how many portions. Raises ValueMistake LB304."""
    found: list[str] = []
    if asked.need is not None:
        found.append(f"{_said(asked.need)} usable: buy {_said(_bought_for(item, asked.need))}")
        found += _portion_lines(item, asked.need, asked.portion)
    if asked.portion is not None and asked.portions is not None:
        need = needed_for(asked.portions, asked.portion)
        found.append(
            f"{asked.portions} portions of {_said(asked.portion)}: {_said(need)} usable, "
            f"buy {_said(_bought_for(item, need))}"
        )
    if asked.bought is not None:
        usable = Amount(number=edible_portion(item, asked.bought.number), unit=asked.bought.unit)
        found.append(f"{_said(asked.bought)} bought: {_said(usable)} usable")
        found += _portion_lines(item, usable, asked.portion)
    if asked.portion is not None:
        found += _portions_of_one(house, item, asked)
    return found


def _test_lines(house: House, weighed: WeighedTest) -> Iterator[str]:
    test = weighed.test
    by = f", by {test.by}" if test.by else ""
    yield f"{test.tested}{by}: {_said(test.bought)} bought, {_said(test.usable)} usable, {_per_cent(weighed.part)}"
    unit = test.bought.unit
    rows = []
    for part in test.parts:
        worth = f"worth {_money(house, part.value[0], places=2)} a {_per(part.value[1])}" if part.value else ""
        names = f"{part.part} ({part.item})" if part.item else part.part
        rows.append((_said(part.weighs), _per_cent(to_base(part.weighs) / weighed.bought), names, worth))
    if weighed.loss:
        what = "not found again" if weighed.loss > 0 else "more than was bought"
        rows.append((_grams(abs(weighed.loss), unit), _per_cent(abs(weighed.loss) / weighed.bought), what, ""))
    for row in rows:
        yield f"  {row[0]:>10}  {row[1]:>8}  {row[2]}{', ' if row[3] else ''}{row[3]}"
    if test.cooked is not None and weighed.cooked_part is not None:
        whole = _per_cent(weighed.cooked_part * weighed.part)
        yield f"  {_said(test.cooked)} cooked: {_per_cent(weighed.cooked_part)} of the usable, {whole} of the bought"
    yield from _test_money(house, weighed, unit)
    if test.note:
        yield f"  {test.note}"


def _test_money(house: House, weighed: WeighedTest, unit: Unit) -> Iterator[str]:
    if weighed.paid is None or weighed.usable_value is None or weighed.usable_price is None or weighed.credit is None:
        return
    large = _large(unit)
    parts = f", {_money(house, weighed.credit, places=2)} of it in the other parts" if weighed.credit else ""
    price = _money(house, weighed.usable_price * factor_of(large))
    factor = f", cost factor {decimal_text(weighed.factor, _FIGURES)}" if weighed.factor is not None else ""
    yield f"  cost {_money(house, weighed.paid, places=2)}{parts}"
    yield f"  a usable {large.symbol} {price}{factor}"


def _cost_lines(house: House, item: PantryItem) -> Iterator[str]:
    factor = cost_factor(item)
    if factor is not None:
        yield f"cost factor: {decimal_text(factor.average, _FIGURES)}{_several(factor, part=False)}"
    bought, usable = price_of_one(item), usable_price(item)
    if bought is None or item.price is None:
        return
    unit = _large(item.price.per.unit if item.price.per.unit.kind is Kind.MASS else KILOGRAM)
    line = f"price: a bought {unit.symbol} {_money(house, bought * factor_of(unit))}"
    yield line if usable is None else f"{line}, a usable {unit.symbol} {_money(house, usable * factor_of(unit))}"


def _portion_lines(item: PantryItem, amount: Amount, portion: Amount | None) -> list[str]:
    if portion is None:
        return []
    found = portioned(amount, portion, facts_of(item))
    left = Amount(number=portion.number * found.left, unit=portion.unit)
    over = f", {_said(left)} left" if found.left else ""
    return [f"  {_counted(found.count)} of {_said(portion)}{over}"]


def _portions_of_one(house: House, item: PantryItem, asked: Asked) -> list[str]:
    """Return what one portion costs, and how many each test gave where no amount was asked about."""
    assert asked.portion is not None
    found = []
    if asked.need is None and asked.bought is None and asked.portions is None:
        for test in item.yield_tests:
            found.append(f"{test.tested}: {_said(test.usable)} usable")
            found += _portion_lines(item, test.usable, asked.portion)
    price = usable_price(item)
    if price is not None:
        grams = convert(asked.portion, Kind.MASS, facts_of(item))
        found.append(f"a portion of {_said(asked.portion)} costs {_money(house, price * grams)}")
    return found


def _bought_for(item: PantryItem, need: Amount) -> Amount:
    return Amount(number=as_purchased(item, need.number), unit=need.unit)


def _counted(count: int) -> str:
    return "1 portion" if count == 1 else f"{count} portions"


def _spread(tested: Range) -> str:
    return f"{_per_cent(tested.least)} to {_per_cent(tested.most)}"


def _several(found: Range, *, part: bool = True) -> str:
    """Return the least and the most of several tests in brackets, nothing where they are one."""
    if found.least == found.most:
        return ""
    if part:
        return f" ({_spread(found)})"
    return f" ({decimal_text(found.least, _FIGURES)} to {decimal_text(found.most, _FIGURES)})"


def _large(unit: Unit) -> Unit:
    """Return the unit that money is told for: the pound where that or the ounce was weighed in, else the kilogram."""
    return KILOGRAM if is_metric(unit) else POUND


def _grams(grams: Fraction, like: Unit) -> str:
    return _said(from_base(grams, like))


def _said(amount: Amount) -> str:
    """Return an amount in its own unit, in decimals: what is bought is weighed on a scale that reads these."""
    places = 2 if amount.unit.key in ("gram", "millilitre", "ounce", "us-fluid-ounce") else 3
    symbol = amount.unit.symbol if amount.number <= 1 else amount.unit.plural
    return f"{decimal_text(amount.number, places)} {symbol}"


def _per(amount: Amount) -> str:
    return amount.unit.symbol if amount.number == 1 else _said(amount)


def _per_cent(part: Fraction | None) -> str:
    return "" if part is None else f"{decimal_text(part * 100, 2)} %"


def _money(house: House, money: Fraction, *, places: int = _FIGURES) -> str:
    """Return money with its sign and at least two decimals."""
    whole, _, cents = decimal_text(money, places).partition(".")
    return f"{house.file.currency}{whole}.{cents:0<2}"


def _in_columns(rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]) - 1)]
    for row in rows:
        cells = (cell.rjust(width) for cell, width in zip(row, widths, strict=False))
        yield f"{'  '.join(cells)}  {row[-1]}".rstrip()
