"""What is over, short or left, as the difference of the figures that are printed: a cook's own subtraction agrees.

Knows how amounts are printed; what is taken from what is the caller's business.
"""

from __future__ import annotations

from linebook.compute.ladders import fit
from linebook.compute.results import Balance, Batch, Leftover, Printed, Standing
from linebook.compute.rounding import as_shown
from linebook.documents.braces import weighed_exactly
from linebook.documents.ingredients import printed_total
from linebook.documents.measures import Measures
from linebook.documents.text import Text
from linebook.model.amounts import Amount, Kind
from linebook.model.house import House
from linebook.model.units import same_measure, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class SizeFigures:
    """What is said of a batch's size: ``makes`` + what is on hand - ``needed`` = ``over``, as printed.

    ``wanted`` is what would have to be made: needed less on hand.
    """

    needed: Text
    wanted: Text
    over: Text


def size_figures(batch: Batch, measures: Measures, *, over: bool) -> SizeFigures:
    """Return the figures of a batch that was sized for a need; ``over`` where what is over it is said."""
    assert batch.needed is not None
    assert batch.surplus is not None
    needed, surplus = batch.needed, batch.surplus
    makes = as_shown(printed_total(batch, measures))
    held = to_base(batch.on_hand) if batch.on_hand is not None else Fraction(0)
    said = _shown(needed, measures)
    near = abs(makes + held - to_base(needed)) <= measures.house.tolerance * to_base(needed)
    if held and not over and near:
        said = makes + held  # nothing is over: what is made and what is there come to what is needed
    wanted = Amount(number=batch.total.number - surplus.number, unit=surplus.unit)
    return SizeFigures(
        needed=_text(said, needed, measures),
        wanted=_text(said - held, wanted, measures),
        over=_text(makes + held - said, surplus, measures),
    )


def left_text(house: House, batch: Batch, one: Leftover, measures: Measures) -> Text:
    """Return what is left of what there was, after what the card says to weigh of it."""
    exact = weighed_exactly(house, one.item)
    lines = [line for line in batch.ingredients if line.ingredient.item == one.item]
    totals = [measures.line(line, line.loads, exact=exact).total for line in lines]
    weighed = [total.amount for total in totals if total is not None]
    if any(not same_measure(amount.unit, one.had.unit) for amount in weighed):
        return measures.short(one.left)
    return _text(as_shown(one.had) - sum(map(as_shown, weighed), Fraction(0)), one.left, measures)


def balance_difference(balance: Balance, measures: Measures) -> Text:
    """Return how much of a by-product is short or spare."""
    there = _shown(balance.made, measures) + _shown(balance.on_hand, measures)
    over = there - _shown(balance.needed, measures)
    return _text(-over if balance.standing is Standing.SHORT else over, balance.difference, measures)


def _shown(amount: Amount, measures: Measures) -> Fraction:
    return as_shown(measures.rounded(amount).amount) if amount.number else Fraction(0)


def _text(number: Fraction, exact: Amount, measures: Measures) -> Text:
    """Return a difference in grams, millilitres or singles; what cannot be said so is rounded by itself."""
    unit = measures.system.asked(exact).unit
    if number > 0:
        amount = Amount(number=number, unit=unit) if unit.kind is Kind.COUNT else fit(number, unit)
        if as_shown(amount) == number:
            return measures.told(Printed(amount=amount, settled=True))
    return measures.short(exact)
