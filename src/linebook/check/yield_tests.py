"""Yield tests add up, agree with what the pantry declares, and name items that exist (LB201, LB304, LB330, LB331)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.index import Index, place
from linebook.check.words import meant, number_text
from linebook.model.amounts import Amount, Kind
from linebook.model.conversion import convert, facts_of
from linebook.model.pantry import PantryItem
from linebook.model.quantities import write_amount
from linebook.model.supply import PartWeighed, YieldTest
from linebook.model.units import from_base, to_base
from linebook.model.usable import item_yield
from linebook.read.house_folder import PANTRY_ID
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related, ValueMistake

SCALES_DIFFER: Final = Fraction(1, 100)
"""How far the parts may weigh more than what was bought: two scales, each part rounded (common practice, no source)."""

MOST_APART: Final = Fraction(5, 100)
"""How far a declared yield may be from the average of the tests, as a part of it, where the tests differ by less."""


def check_yield_tests(index: Index) -> Iterator[Fault]:
    """Yield the faults of every yield test, and of a declared yield that its tests do not bear out."""
    for item in index.pantry.values():
        for test in item.yield_tests:
            yield from _added_up(item, test)
            yield from _priced(item, test)
            yield from _parts_named(index, test)
        if not index.is_incomplete(item.id):
            yield from _declared(item)


def _added_up(item: PantryItem, test: YieldTest) -> Iterator[Fault]:
    bought, usable = to_base(test.bought), to_base(test.usable)
    parts = sum((to_base(part.weighs) for part in test.parts), Fraction(0))
    related = (Related(span=place(test, "bought"), label="what was bought"),)
    if usable > bought:
        yield fault(
            "LB330",
            f"`{write_amount(test.usable)}` of {item.name} is usable of `{write_amount(test.bought)}` bought",
            place(test, "usable"),
            hints=("weigh what was bought before anything is taken off; what it weighs later goes in `cooked`",),
            related=related,
        )
    elif usable + parts > bought * (1 + SCALES_DIFFER):
        yield fault(
            "LB330",
            f"the usable part and the parts of {item.name} weigh `{_total(usable + parts, test.bought)}`, and "
            f"`{write_amount(test.bought)}` was bought",
            place(test, "usable"),
            hints=("a part that is counted in `usable` is not listed again under `parts`",),
            related=related,
        )


def _priced(item: PantryItem, test: YieldTest) -> Iterator[Fault]:
    """Yield LB304 for a price or a value whose measure this item cannot be weighed in."""
    prices = [(test, "price", test.price), *((part, "value", part.value) for part in test.parts)]
    for record, field, price in prices:
        if price is None:
            continue
        try:
            convert(price[1], Kind.MASS, facts_of(item))
        except ValueMistake as mistake:
            yield fault("LB304", mistake.message, place(record, field), hints=mistake.hints)


def _parts_named(index: Index, test: YieldTest) -> Iterator[Fault]:
    if index.is_incomplete(PANTRY_ID):
        return
    for part in test.parts:
        if part.item is not None and not index.knows(part.item) and not index.is_broken(part.item):
            yield _unknown_part(index, part, part.item)


def _unknown_part(index: Index, part: PartWeighed, word: str) -> Fault:
    return fault(
        "LB201",
        f"no pantry item, component or by-product has the id `{word}`",
        place(part, "item"),
        hints=(meant(word, index.items, "list it under `also_makes` of its card, or leave `item` out"),),
    )


def _declared(item: PantryItem) -> Iterator[Fault]:
    found = item_yield(item)
    if found.tested is None or found.declared is None:
        return
    tested = found.tested
    apart = abs(found.declared - tested.average)
    if apart <= max(tested.most - tested.least, MOST_APART * tested.average):
        return
    tests = "its yield test gives" if found.tests == 1 else f"its {found.tests} yield tests give"
    yield fault(
        "LB331",
        f"{item.name} says `usable: {_per_cent(found.declared)}` and {tests} {_per_cent(tested.average)}",
        place(item, "usable"),
        hints=("the tests count; delete `usable`, or delete a test that was not like the rest",),
        related=tuple(Related(span=test.span, label="tested") for test in item.yield_tests[:3]),
    )


def _total(grams: Fraction, like: Amount) -> str:
    total = from_base(grams, like.unit)
    return f"{number_text(total.number)} {like.unit.symbol if total.number <= 1 else like.unit.plural}"


def _per_cent(part: Fraction) -> str:
    return f"{number_text(Fraction(round(part * 1000), 10))} %"
