"""Reads how large a batch is to be: exactly one way of saying it, each a plain number or amount within reason."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

import click

from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.results import Night, Sized
    from linebook.model.amounts import Amount
    from linebook.model.house import House
    from linebook.model.occasion import Occasion

MOST_COUNTED: Final = 1_000_000
"""More pieces, portions or batches than any kitchen makes."""

MOST_GRAMS: Final = 100_000_000
"""A hundred tonnes, or as many litres: more than any kitchen makes at a time."""

_WAYS: Final = "--covers N, --makes AMOUNT, --pieces N, --portions N, --times X or --have AMOUNT-AND-INGREDIENT"


@frozen
class SizeAsked:
    """What the command line says of the size: one of these, and ``portion`` with ``portions``."""

    covers: int | None = None
    makes: str | None = None
    times: str | None = None
    pieces: str | None = None
    portions: str | None = None
    portion: str | None = None
    have: Sequence[str] = ()

    def refuse_at_odds(self, *, on_hand: bool) -> None:
        """Stop with 2 where no size is said, or more than one."""
        said = (self.covers, self.makes, self.times, self.pieces, self.portions, self.have or None)
        if sum(size is not None for size in said) != 1:
            raise click.UsageError(f"Say how much with one of {_WAYS}.")
        if self.portion is not None and self.portions is None:
            raise click.UsageError("--portion says how large each of --portions N is: give both.")
        if on_hand and self.covers is None:
            raise click.UsageError("--on-hand is taken off what a night needs: give it with --covers.")


def size_batch(house: House, component: str, asked: SizeAsked, occasion: Occasion) -> tuple[Sized, Night | None]:
    """Return the batch as asked for, and its night where it is made for one. Stops with 2 where that cannot be."""
    if asked.covers is not None:
        return _for_a_night(house, component, occasion)
    try:
        return _by_hand(house, component, asked, occasion.menu), None
    except ValueMistake as mistake:
        hint = f" {mistake.hints[0][:1].upper()}{mistake.hints[0][1:]}." if mistake.hints else ""
        raise click.UsageError(f"{mistake.message[:1].upper()}{mistake.message[1:]}.{hint}") from None


def refuse_odd_amount(amount: Amount, text: str, option: str) -> None:
    """Stop with 2 for an amount of nothing, or of more than any kitchen makes."""
    from linebook.model.amounts import Kind
    from linebook.model.units import to_base

    _refuse_odd(to_base(amount), text, option, MOST_COUNTED if amount.unit.kind is Kind.COUNT else MOST_GRAMS)


def _for_a_night(house: House, component: str, occasion: Occasion) -> tuple[Sized, Night]:
    from linebook.compute.demand import compute_night
    from linebook.compute.portions import portions_given
    from linebook.compute.results import Sized

    night = compute_night(house, occasion)
    batch = night.batches.get(component)
    if batch is not None:
        return Sized(batch=batch, portions=portions_given(house, occasion.menu, batch)), night
    if component in night.covered:
        from linebook.cli.batch_table import say_covered

        say_covered(house, night, component)
        raise SystemExit(0)
    served = house.menus[occasion.menu].name
    raise click.UsageError(f"Nothing on the menu `{served}` needs `{component}`; size it with --makes or --times.")


def _by_hand(house: House, component: str, asked: SizeAsked, menu: str) -> Sized:
    from linebook.compute import asked as sizes
    from linebook.compute.have import size_from_had

    sized: Sized
    if asked.have:
        from linebook.cli.having import read_had

        sized = size_from_had(house, component, read_had(house, house.components[component], asked.have), menu)
    elif asked.makes is not None:
        sized = sizes.size_by_yield(house, component, menu, makes=_read_amount(house, asked.makes, "--makes"))
    elif asked.times is not None:
        sized = sizes.size_by_yield(house, component, menu, times=_read_number(asked.times, "--times"))
    elif asked.pieces is not None:
        sized = sizes.size_by_pieces(house, component, menu, _read_whole(asked.pieces, "--pieces"))
    else:
        portions = _read_whole(asked.portions or "", "--portions")
        one = None if asked.portion is None else _read_amount(house, asked.portion, "--portion")
        sized = sizes.size_by_portions(house, component, menu, portions, one)
    _refuse_huge(sized)
    return sized


def _refuse_huge(sized: Sized) -> None:
    """Stop where what comes of a number within reason is beyond it: a million of a batch of 9 kg."""
    from linebook.model.amounts import Kind
    from linebook.model.quantities import write_amount
    from linebook.model.units import to_base

    total = sized.batch.total
    if to_base(total) > (MOST_COUNTED if total.unit.kind is Kind.COUNT else MOST_GRAMS):
        makes = write_amount(sized.batch.component.makes)
        raise click.UsageError(
            f"That is {float(sized.batch.factor):,.0f} times the card's `{makes}`: more than any kitchen makes."
        )


def _read_amount(house: House, text: str, option: str) -> Amount:
    from linebook.model.quantities import parse_amount

    amount = parse_amount(text, house.file.measures)
    refuse_odd_amount(amount, text, option)
    return amount


def _read_number(text: str, option: str) -> Fraction:
    from linebook.model.numbers import parse_number

    number = parse_number(text)
    _refuse_odd(number, text, option, MOST_COUNTED)
    return number


def _read_whole(text: str, option: str) -> Fraction:
    number = _read_number(text, option)
    if number.denominator != 1:
        raise click.UsageError(f"{option} `{text}` is not a whole number.")
    return number


def _refuse_odd(number: Fraction, text: str, option: str, most: int) -> None:
    if number <= 0:
        raise click.UsageError(f"{option} `{text}` must be more than 0.")
    if number > most:
        raise click.UsageError(f"{option} `{text}` is more than any kitchen makes.")
