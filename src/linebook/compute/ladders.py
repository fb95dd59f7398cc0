"""Which units an amount may be printed in: the steps from grams to kilograms, ounces to pounds, teaspoons to gallons.

An amount stays in the system it was typed in. Knows no instrument and no house.
"""

from __future__ import annotations

from typing import Final

from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.units import UNITS, factor_of, from_base, to_base
from linebook.source.exact import Fraction

_SI_MASS: Final = ("gram", "kilogram")
_SI_VOLUME: Final = ("millilitre", "litre")
_POUNDS: Final = ("ounce", "pound")
_US_MEASURES: Final = ("us-teaspoon", "us-tablespoon", "us-cup", "us-quart", "us-gallon")
_US_PINTS: Final = ("us-teaspoon", "us-tablespoon", "us-cup", "us-pint")
_IMPERIAL: Final = ("imperial-fluid-ounce", "imperial-pint", "imperial-quart", "imperial-gallon")
_METRIC_SPOONS: Final = ("metric-teaspoon", "metric-tablespoon")
_AUSTRALIAN_SPOONS: Final = ("metric-teaspoon", "australian-tablespoon")

_LADDERS: Final = {
    **dict.fromkeys(("milligram", *_SI_MASS), _SI_MASS),
    **dict.fromkeys((*_SI_VOLUME, "centilitre", "decilitre"), _SI_VOLUME),
    **dict.fromkeys(_POUNDS, _POUNDS),
    **dict.fromkeys(_US_MEASURES, _US_MEASURES),
    **dict.fromkeys(_METRIC_SPOONS, _METRIC_SPOONS),
    "australian-tablespoon": _AUSTRALIAN_SPOONS,
    "us-pint": _US_PINTS,
    **{key: _IMPERIAL[: at + 1] for at, key in enumerate(_IMPERIAL) if at},
    # A tablespoon is not the same in every house with such cups; a teaspoon is.
    **{f"{cup}-cup": ("metric-teaspoon", f"{cup}-cup") for cup in ("metric", "label")},
}

# The smallest part of a unit that is printed as a fraction of it; the rest goes down the ladder.
_GRAINS: Final = {
    **dict.fromkeys(("us-cup", "metric-cup", "label-cup"), Fraction(1, 4)),
    **dict.fromkeys(("us-pint", "imperial-pint"), Fraction(1, 2)),
}
MEASURED_PARTS: Final = (1, 2, 3, 4)
"""Halves, thirds and quarters of a cup, spoon or pound are measured as such; finer parts go to the next unit down."""

_THOUSAND: Final = 1000
_AT_MOST: Final = 2
_LARGE: Final = ("-gallon", "-quart", "-pint")
_QUARTERS: Final = (1, 2, 4)
"""Parts of a quart or a pint that a jug is marked in."""

_IN_SMALL_SPOONS: Final = 2
"""Tablespoons. What is less and no fraction of a spoon is measured in teaspoons alone: 4¼ tsp, not 1 tbsp 1¼ tsp."""
_METRIC: Final = frozenset(("milligram", *_SI_MASS, *_SI_VOLUME, "centilitre", "decilitre"))


def is_metric(unit: Unit) -> bool:
    """Return whether a unit is a gram, a litre or a decimal part of one (metric cups and spoons are not)."""
    return unit.key in _METRIC


def system_of(unit: Unit) -> str:
    """Return the name of the system whose instruments measure a unit."""
    if is_metric(unit):
        return "metric weights and litres"
    if unit.kind is Kind.MASS:
        return "pounds and ounces"
    system = unit.key.split("-", 1)[0]
    return "metric" if system == "australian" else system


def fit(base: Fraction, typed: Unit) -> Amount:
    """Return grams or millilitres in the unit of the typed unit's system that reads best.

    Metric: kg and L from 1000 on, where three decimals are enough. Others: the largest unit there is one of (a
    quarter, for a cup; a half, for a pint). A unit without a ladder (fluid ounce, scoop) stays as typed.
    """
    keys = _LADDERS.get(typed.key)
    if keys is None:
        return from_base(base, typed)
    if is_metric(typed):
        small, large = keys
        is_large = base.denominator == 1 and base.numerator >= _THOUSAND  # whole grams are three decimals of a kg
        return from_base(base, UNITS[large if is_large else small])
    for key in reversed(keys[1:]):
        grain = _GRAINS.get(key)
        least = factor_of(UNITS[key]) if grain is None else factor_of(UNITS[key]) * grain
        if base >= least:
            return from_base(base, UNITS[key])
    return from_base(base, UNITS[keys[0]])


def amount_parts(amount: Amount) -> tuple[Amount, ...]:
    """Return an amount as it is spoken: 2.25 lb as 2 lb and 4 oz. Metric amounts and counts are one part."""
    keys = _LADDERS.get(amount.unit.key, (amount.unit.key,))
    if is_metric(amount.unit) or amount.unit.key == keys[0]:
        return (amount,)
    left = to_base(amount)
    odd = amount.number.denominator not in MEASURED_PARTS
    if odd and amount.unit.key.endswith("-tablespoon") and amount.number < _IN_SMALL_SPOONS:
        return (from_base(left, UNITS[keys[0]]),)
    parts: list[Amount] = []
    for key in reversed(keys[: keys.index(amount.unit.key) + 1]):
        unit = UNITS[key]
        grain = factor_of(unit) * _GRAINS.get(key, Fraction(1))
        taken = left if key == keys[0] else left // grain * grain
        if taken:
            parts.append(from_base(taken, unit))
        left -= taken
    return _in_two(parts) or (amount,)


def _in_two(parts: list[Amount]) -> tuple[Amount, ...]:
    """Return gallons, quarts and cups in two units at the most: 1 gal 3½ qt, else 6 qt 1¼ cup.

    The USDA guide names *1 cup or ¼ qt* from a gallon on. Spoons are not put into cups, which do not measure them.
    """
    while len(parts) > _AT_MOST and parts[0].unit.key.endswith(_LARGE):
        top, second, *rest = parts
        tail = from_base(sum(map(to_base, rest), to_base(second)), second.unit)
        if tail.number.denominator in _QUARTERS and second.unit.key.endswith(_LARGE):
            return (top, tail)
        if not second.unit.key.endswith((*_LARGE, "-cup")):
            break
        parts = [from_base(to_base(top) + to_base(second), second.unit), *rest]
    return tuple(parts)


def spoken_parts(amount: Amount) -> tuple[Amount, ...]:
    """Return an amount in the parts a cook measures: 7⅝ lb as 7 lb and 10 oz, but 2¼ lb as it is."""
    return (amount,) if amount.number.denominator in MEASURED_PARTS else amount_parts(amount)
