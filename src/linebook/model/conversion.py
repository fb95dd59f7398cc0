"""Turning an item's amounts into weights, volumes and counts by what that item says of itself.

Nothing is assumed: without a density or the weight of one, the conversion is refused with both ways to mend it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from types import MappingProxyType
from typing import Final

from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.component import Component
from linebook.model.pantry import PantryItem
from linebook.model.quantities import write_amount
from linebook.model.units import EACH, from_base, in_unit, same_measure, times, to_base
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen

_NOTHING: Final[Mapping[str, Fraction]] = MappingProxyType({})


@frozen
class Facts:
    """What turns one item's amounts into one another, by name.

    ``density`` is grams a millilitre; ``weighs`` is grams of one and ``takes`` millilitres of one, by count word.
    ``counted`` is true where a piece is found from a component's yield, ``made_whole`` where that yield is itself a
    count, ``left_over`` for a by-product, of which nothing but its own amounts is known: there the mend is another.
    """

    name: str
    density: Fraction | None = None
    weighs: Mapping[str, Fraction] = field(default_factory=lambda: _NOTHING)
    takes: Mapping[str, Fraction] = field(default_factory=lambda: _NOTHING)
    counted: bool = False
    made_whole: bool = False
    left_over: bool = False


def facts_of(item: PantryItem | Component) -> Facts:
    """Return what a pantry item declares, or what a component's yield, pieces and density say."""
    if isinstance(item, PantryItem):
        return Facts(name=item.name, density=item.density, weighs=item.weighs)
    weighs: dict[str, Fraction] = {}
    takes: dict[str, Fraction] = {}
    made = to_base(item.makes)
    if item.pieces and item.makes.unit.kind is Kind.MASS:
        weighs["each"] = made / item.pieces
    elif item.pieces and item.makes.unit.kind is Kind.VOLUME:
        takes["each"] = made / item.pieces
    if "each" not in weighs and item.piece_weighs is not None and item.piece_weighs.unit.kind is Kind.MASS:
        weighs[item.makes.unit.counts or "each"] = to_base(item.piece_weighs)
    whole = item.makes.unit.kind is Kind.COUNT
    return Facts(name=item.name, density=item.density, weighs=weighs, takes=takes, counted=True, made_whole=whole)


def as_grams(
    amount: Amount,
    *,
    density: Fraction | None,
    weighs: Mapping[str, Fraction],
    takes: Mapping[str, Fraction] = _NOTHING,
    name: str = "this",
    counted: bool = False,
) -> Fraction:
    """Return an amount of an item in grams, exactly. Raises ValueMistake LB304 with both mends."""
    facts = Facts(name=name, density=density, weighs=weighs, takes=takes, counted=counted)
    return convert(amount, Kind.MASS, facts)


def convert(amount: Amount, kind: Kind, facts: Facts, *, counts: str = "each") -> Fraction:
    """Return an amount in grams, millilitres or singles of the count word ``counts``, exactly.

    Raises ValueMistake LB304 where the item's facts do not reach, with both ways to mend it.
    """
    unit = amount.unit
    if kind is Kind.COUNT:
        number = to_base(amount)
        return number if unit.counts == counts else _as_count(amount, number, facts, counts)
    found = weight_or_volume(amount, kind, facts)
    if found is None:
        raise (_no_weight_of_one if unit.kind is Kind.COUNT else _no_density)(amount, facts, kind)
    return found


def weight_or_volume(amount: Amount, kind: Kind, facts: Facts) -> Fraction | None:
    """Return an amount in grams or millilitres, exactly, or None where the item's facts do not reach."""
    unit = amount.unit
    number = to_base(amount)
    if unit.kind is kind:
        return number
    if unit.kind is Kind.COUNT:
        one = _one_of(unit.counts or "each", kind, facts)
        return None if one is None else number * one
    if not facts.density:
        return None
    return number * facts.density if kind is Kind.MASS else number / facts.density


def convert_to(amount: Amount, unit: Unit, facts: Facts) -> Amount:
    """Return an amount of an item in another unit, exactly. Raises ValueMistake LB304 with both ways to mend it."""
    return from_base(convert(amount, unit.kind, facts, counts=unit.counts or "each"), unit)


def in_makes(component: Component, amount: Amount) -> Amount:
    """Return an amount of a component in the unit of its yield. Raises ValueMistake LB304 where it says no way.

    Pieces are parts of the yield itself, so a yield in any unit can be counted in them.
    """
    unit = component.makes.unit
    if same_measure(amount.unit, unit):
        return in_unit(amount, unit)
    if component.pieces and amount.unit.counts == EACH.counts:
        return times(component.makes, to_base(amount) / component.pieces)
    return convert_to(amount, unit, facts_of(component))


def _as_count(amount: Amount, number: Fraction, facts: Facts, counts: str) -> Fraction:
    """Return ``amount`` as a count, going over grams or millilitres as the weight or the volume of one is known."""
    for kind in (amount.unit.kind, Kind.MASS, Kind.VOLUME):
        one = _one_of(counts, kind, facts) if kind is not Kind.COUNT else None
        if one:
            return (number if amount.unit.kind is kind else convert(amount, kind, facts)) / one
    raise _no_weight_of_one(amount, facts, Kind.COUNT, counts)


def _one_of(counts: str, kind: Kind, facts: Facts) -> Fraction | None:
    """Return the grams or millilitres of one, where known."""
    weight, volume = facts.weighs.get(counts), facts.takes.get(counts)
    if kind is Kind.MASS:
        return weight or (volume * facts.density if volume and facts.density else None)
    return volume or (weight / facts.density if weight and facts.density else None)


def _no_density(amount: Amount, facts: Facts, kind: Kind) -> ValueMistake:
    typed = "by weight, such as `g`" if kind is Kind.MASS else "by volume, such as `ml`"
    if facts.left_over:
        return _of_by_product(amount, facts, kind, f"type it {typed}")
    return ValueMistake(
        "LB304",
        f"`{write_amount(amount)}` of {facts.name} cannot be turned into a {kind.value} without its density",
        ("give it its density, such as `density: 1.03 kg/L`", f"or type the amount {typed}"),
    )


def _no_weight_of_one(amount: Amount, facts: Facts, kind: Kind, counts: str | None = None) -> ValueMistake:
    word = counts or amount.unit.counts or "each"
    if facts.left_over:
        typed = f"in {word}" if kind is Kind.COUNT else "by weight" if kind is Kind.MASS else "by volume"
        return _of_by_product(amount, facts, kind, f"type it {typed}")
    known = bool(facts.weighs.get(word) or facts.takes.get(word))
    if known and not facts.density:
        return _no_density(amount, facts, kind)
    if facts.made_whole:
        mend = "add `piece_weighs:` to its card"
    elif facts.counted and word == "each":
        mend = "give the component its `pieces:` beside `makes:`"
    elif facts.counted:
        mend = f"give the amount in pieces, with `pieces:` beside `makes:`, instead of in {word}"
    else:
        mend = f"give the weight of one in the pantry, such as `weighs: {{{word}: 45 g}}`"
    other = "or type the amount as a weight" if kind is not Kind.COUNT else f"or type the amount in {word}"
    return ValueMistake(
        "LB304",
        f"`{write_amount(amount)}` of {facts.name} cannot be turned into a {kind.value} without the weight of one",
        (mend, other),
    )


def _of_by_product(amount: Amount, facts: Facts, kind: Kind, typed: str) -> ValueMistake:
    return ValueMistake(
        "LB304",
        f"`{write_amount(amount)}` of {facts.name} cannot be turned into a {kind.value}: it is a by-product, and "
        "has only the measure it is typed in",
        (f"{typed}, here and in `also_makes` of the card it comes from",),
    )
