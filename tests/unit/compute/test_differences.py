"""A cook's own subtraction agrees: what is over, short or left is the difference of the figures that are printed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kitchen_factory import (
    AT,
    amount,
    bought,
    by_product,
    component,
    dish,
    element,
    house,
    instrument,
    line,
    listed,
    menu,
)

from linebook.compute.demand import compute_night
from linebook.compute.have import size_from_had
from linebook.documents.balances import balance_text
from linebook.documents.differences import balance_difference, left_text, size_figures
from linebook.documents.ingredients import total_text
from linebook.documents.measures import Measures
from linebook.documents.text import Text
from linebook.documents.wording import english
from linebook.model.house import House, InstrumentKind
from linebook.model.occasion import Occasion
from linebook.model.quantities import parse_amount
from linebook.model.supply import StockEntry
from linebook.model.units import Measures as Cups
from linebook.model.units import to_base

DAY = date(2027, 3, 6)
CUPS = Cups(cup="us", spoon="us", pint="us")
SCALES = [
    instrument(InstrumentKind.SCALE, "30 kg", "10 g"),
    instrument(InstrumentKind.SCALE, "2 kg", "1 g"),
    instrument(InstrumentKind.SCALE, "30 lb", "1/2 oz"),
    instrument(InstrumentKind.JUG, "5 L", "50 ml"),
]
tools = st.lists(st.sampled_from(SCALES), max_size=4, unique=True).map(tuple)
parts = st.fractions(min_value=Fraction(1, 20), max_value=30, max_denominator=60)


def read(said: Text) -> Fraction:
    """Grams, millilitres or singles of a printed figure."""
    return to_base(parse_amount(said.plain.replace("\u00a0", " ").removeprefix("≈ "), CUPS))


def kitchen(unit: str, *, instruments, smallest: Fraction | None = None, step: Fraction | None = None) -> House:
    density = {"density": "1"} if unit in ("L", "qt") else {}
    part = component("it", f"4 {unit}", [line("root", "5 kg")], also_makes=(by_product("peel", "root"),), **density)
    of = [replace(amount(f"1 {unit}"), number=one) if one else None for one in (smallest, step)]
    part = replace(part, smallest_batch=of[0], batch_step=of[1])
    plate = dish("plate", [element("it", f"1/10 {unit}"), element("peel", "7 g")])
    made = house([bought("root")], [part], [plate], [menu("m", [listed("plate")])])
    return replace(made, file=replace(made.file, instruments=instruments))


@settings(max_examples=150)
@given(st.sampled_from(["kg", "lb", "L"]), tools, parts, parts, st.integers(1, 90), parts, st.booleans())
def test_makes_and_on_hand_less_what_is_needed_is_over(unit, instruments, smallest, step, covers, held, by_step):
    made = kitchen(unit, instruments=instruments, **({"step": step} if by_step else {"smallest": smallest}))
    on_hand = replace(amount(f"1 {unit}"), number=Fraction(int(held * 4), 4))
    entries = (StockEntry(item="it", amount=on_hand, use_by=DAY, **AT),) if on_hand.number else ()
    night = compute_night(made, Occasion(menu="m", covers=covers, date=DAY, on_hand=entries))
    batch = night.batches.get("it")
    if batch is None:
        return
    measures = Measures(house=made.file, wording=english())
    tolerance = made.file.tolerance
    told = batch.surplus.number > tolerance * batch.total.number
    figures = size_figures(batch, measures, over=told)
    makes, there = read(total_text(batch, measures)), to_base(on_hand)
    needed = read(figures.needed)
    assert abs(needed - to_base(batch.needed)) <= max(Fraction(15), Fraction(1, 8) * to_base(batch.needed))
    if told and makes + there > needed:
        assert read(figures.over) == makes + there - needed
        if needed > there:
            assert read(figures.wanted) == needed - there
            assert makes - read(figures.wanted) == read(figures.over)
    elif (
        there
        and not batch.surplus.number
        and abs(makes + there - to_base(batch.needed)) <= tolerance * to_base(batch.needed)
    ):
        assert needed == makes + there


@settings(max_examples=100)
@given(tools, st.integers(1, 400))
def test_made_less_needed_is_spare_or_short(instruments, covers):
    made = kitchen("kg", instruments=instruments, smallest=Fraction(3))
    balance = compute_night(made, Occasion(menu="m", covers=covers, date=DAY)).balances["peel"]
    measures = Measures(house=made.file, wording=english())
    left, needed = read(measures.short(balance.made)), read(measures.short(balance.needed))
    if left != needed and (left > needed) == (balance.standing.value == "spare"):
        assert read(balance_difference(balance, measures)) == abs(left - needed)
        assert balance_difference(balance, measures).plain in balance_text(balance, measures).plain


@settings(max_examples=100)
@given(tools, st.fractions(min_value=1, max_value=40, max_denominator=40), st.sampled_from(["kg", "lb"]))
def test_there_less_weighed_is_left(instruments, there, unit):
    part = component("it", "4 kg", [line("root", "5 kg"), line("oil", "1.3 kg")])
    made = house([bought("root"), bought("oil")], [part], menus=[menu("m", [])])
    made = replace(made, file=replace(made.file, instruments=instruments))
    had = {"root": amount("7 kg"), "oil": replace(amount(f"1 {unit}"), number=there + 4)}
    sized = size_from_had(made, "it", had, "m")
    measures = Measures(house=made.file, wording=english())
    one = next(left for left in sized.left if left.item == "oil")
    oil = sized.batch.ingredients[1]
    weighed = read(measures.told(measures.line(oil, oil.loads).total))
    there = read(measures.typed(one.had))
    if there > weighed and one.left.number and unit == "kg":
        assert read(left_text(made, sized.batch, one, measures)) == there - weighed


@pytest.mark.parametrize(("smallest", "over"), [("9", "4.6 kg"), ("5", "600 g")])
def test_by_hand(smallest, over):
    # 44 covers of 100 g are 4.4 kg
    made = kitchen("kg", instruments=tuple(SCALES), smallest=Fraction(smallest))
    batch = compute_night(made, Occasion(menu="m", covers=44, date=DAY)).batches["it"]
    measures = Measures(house=made.file, wording=english())
    assert size_figures(batch, measures, over=True).over.plain.replace("\u00a0", " ") == over
