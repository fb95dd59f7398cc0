"""What a night leaves over of each by-product against what it needs of it: covered, short or spare.

A by-product is used as it comes: needing it makes nothing. Knows the batches of a night; orders and logs nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from linebook.compute.results import Balance, Batch, Standing, Use
from linebook.compute.weights import facts_for
from linebook.model.amounts import Amount
from linebook.model.conversion import convert_to
from linebook.model.house import House
from linebook.model.sums import sum_of
from linebook.model.units import in_unit, same_measure, times
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake


def compute_balances(
    house: House, batches: Mapping[str, Batch], uses: Mapping[str, Sequence[Use]], on_hand: Mapping[str, Fraction]
) -> dict[str, Balance]:
    """Return the balance of every by-product that is made, needed or on hand, by its id.

    ``on_hand`` is what counts of each, in the unit of the first card that leaves it over; it is used first.
    """
    found: dict[str, Balance] = {}
    for item, makers in house.by_products.items():
        made = tuple(
            Use(user=maker.id, amount=times(entry.amount, batches[maker.id].factor))
            for maker, entry in makers
            if maker.id in batches
        )
        used = tuple(uses.get(item, ()))
        if made or used or item in on_hand:
            unit_of = makers[0][1].amount
            held = Amount(number=on_hand.get(item, Fraction(0)), unit=unit_of.unit)
            found[item] = _balance(house, item, made=made, used=used, held=held)
    return found


def _balance(house: House, item: str, *, made: tuple[Use, ...], used: tuple[Use, ...], held: Amount) -> Balance:
    nothing = Amount(number=Fraction(0), unit=held.unit)
    try:
        in_all, needed = (_sum(house, item, part, nothing) for part in (made, used))
    except ValueMistake:
        return _apart(item, made=made, used=used, held=held)
    over = in_all.number + held.number - needed.number
    standing = Standing.COVERED if not over else Standing.SPARE if over > 0 else Standing.SHORT
    return Balance(
        item=item,
        standing=standing,
        made=in_all,
        on_hand=held,
        needed=needed,
        difference=Amount(number=abs(over), unit=held.unit),
        makers=made,
        uses=used,
    )


def _apart(item: str, *, made: tuple[Use, ...], used: tuple[Use, ...], held: Amount) -> Balance:
    """Return what cannot be compared; what is made and needed stands in ``makers`` and ``uses``, as it is typed."""
    nothing = Amount(number=Fraction(0), unit=held.unit)
    return Balance(
        item=item,
        standing=Standing.APART,
        made=_first_sum(made, nothing),
        on_hand=held,
        needed=_first_sum(used, nothing),
        difference=nothing,
        makers=made,
        uses=used,
    )


def _sum(house: House, item: str, parts: Iterable[Use], nothing: Amount) -> Amount:
    number = Fraction(0)
    for part in parts:
        if same_measure(part.amount.unit, nothing.unit):
            number += in_unit(part.amount, nothing.unit).number
        else:
            number += convert_to(part.amount, nothing.unit, facts_for(house, item)).number
    return Amount(number=number, unit=nothing.unit)


def _first_sum(parts: Sequence[Use], nothing: Amount) -> Amount:
    """Return the sum of the parts that can be added to the first of them."""
    if not parts:
        return nothing
    unit = parts[0].amount.unit
    alike = (in_unit(part.amount, unit).number for part in parts if same_measure(part.amount.unit, unit))
    return Amount(number=sum_of(alike), unit=unit)
