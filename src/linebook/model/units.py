"""Units and their exact factors: which words a chef may write, and what each unit is in grams, millilitres or singles.

The only module that imports pint, and only when a unit outside the metric table is first converted. No pint value
leaves this module and no chef's text reaches pint.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final

from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.unit_words import REFUSED_WORDS, SYSTEM_WORDS, UNIT_WORDS, fold_word, read_scoop
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest


def _mass(key: str, symbol: str) -> Unit:
    return Unit(key=key, kind=Kind.MASS, symbol=symbol, plural=symbol)


def _volume(key: str, symbol: str, plural: str | None = None) -> Unit:
    return Unit(key=key, kind=Kind.VOLUME, symbol=symbol, plural=plural or symbol)


def _count(key: str, plural: str, counts: str | None = None) -> Unit:
    return Unit(key=key, kind=Kind.COUNT, symbol=key, plural=plural, counts=counts or key)


MILLIGRAM: Final = _mass("milligram", "mg")
GRAM: Final = _mass("gram", "g")
KILOGRAM: Final = _mass("kilogram", "kg")
OUNCE: Final = _mass("ounce", "oz")
POUND: Final = _mass("pound", "lb")
MILLILITRE: Final = _volume("millilitre", "ml")
CENTILITRE: Final = _volume("centilitre", "cl")
DECILITRE: Final = _volume("decilitre", "dl")
LITRE: Final = _volume("litre", "L")
EACH: Final = _count("each", "each")
PIECE: Final = _count("piece", "pieces", "each")
DOZEN: Final = _count("dozen", "dozen", "each")
BUNCH: Final = _count("bunch", "bunches")
SPRIG: Final = _count("sprig", "sprigs")
LEAF: Final = _count("leaf", "leaves")
HEAD: Final = _count("head", "heads")
CLOVE: Final = _count("clove", "cloves")
SLICE: Final = _count("slice", "slices")
SHEET: Final = _count("sheet", "sheets")
PORTION: Final = _count("portion", "portions")
STICK: Final = _count("stick", "sticks")

COUNT_WORDS: Final = ("each", "bunch", "sprig", "leaf", "head", "clove", "slice", "sheet", "portion", "stick")
"""The words a pantry item may give the weight of one for; *piece* and *dozen* count ``each``."""

SCOOP_NUMBERS: Final = (6, 8, 10, 12, 16, 20, 24, 30, 40, 50, 60, 70, 100)
"""Scoops of the trade; the number is how many level scoops fill a US quart."""

CUPS: Final = ("us", "metric", "label")
SPOONS: Final = ("us", "metric", "australian")
PINTS: Final = ("us", "imperial")

_ONE: Final = Fraction(1)
# What is a power of ten, a plain count, or defined as so many millilitres needs no outside source (a test equates
# each with pint or a published value). A house that measures only in these never waits for pint.
_PLAIN_FACTORS: Final[Mapping[str, Fraction]] = MappingProxyType(
    {
        "milligram": Fraction(1, 1000),
        "gram": _ONE,
        "kilogram": Fraction(1000),
        "millilitre": _ONE,
        "centilitre": Fraction(10),
        "decilitre": Fraction(100),
        "litre": Fraction(1000),
        "metric-cup": Fraction(250),
        "label-cup": Fraction(240),
        "metric-tablespoon": Fraction(15),
        "metric-teaspoon": Fraction(5),
        "australian-tablespoon": Fraction(20),
        "dozen": Fraction(12),
        "piece": _ONE,
        **dict.fromkeys(COUNT_WORDS, _ONE),
    }
)


# Those that are whole, and most of them one: what is in grams, millilitres or singles already stays the same number.
_WHOLE_FACTORS: Final[Mapping[str, int]] = {
    key: factor.numerator for key, factor in _PLAIN_FACTORS.items() if factor.denominator == 1
}


def _system_units() -> dict[str, Unit]:
    units = [_volume(f"{cup}-cup", "cup", "cups") for cup in CUPS]
    for system in ("us", "metric", "australian"):
        units.append(_volume(f"{system}-tablespoon", "tbsp"))
    for system in ("us", "metric"):
        units.append(_volume(f"{system}-teaspoon", "tsp"))
    for system in PINTS:
        for name, symbol in (("fluid-ounce", "fl oz"), ("pint", "pt"), ("quart", "qt"), ("gallon", "gal")):
            units.append(_volume(f"{system}-{name}", symbol))
    return {unit.key: unit for unit in units}


_PLAIN_UNITS: Final = (
    *(MILLIGRAM, GRAM, KILOGRAM, OUNCE, POUND, MILLILITRE, CENTILITRE, DECILITRE, LITRE, EACH, PIECE, DOZEN),
    *(BUNCH, SPRIG, LEAF, HEAD, CLOVE, SLICE, SHEET, PORTION, STICK),
)
_SCOOPS: Final = tuple(_volume(f"scoop-{n}", f"no. {n} scoop", f"no. {n} scoops") for n in SCOOP_NUMBERS)

UNITS: Final[Mapping[str, Unit]] = MappingProxyType(
    {unit.key: unit for unit in (*_PLAIN_UNITS, *_SCOOPS)} | _system_units()
)
"""Every unit by its key. Vessels of a house are not units: an amount in them is read as what they hold."""


@frozen
class Measures:
    """Which cup, spoon and pint a house means (None: it has not said), and what each of its vessels holds."""

    cup: str | None = None
    spoon: str | None = None
    pint: str | None = None
    vessels: Mapping[str, Amount] = field(default_factory=lambda: MappingProxyType({}))


METRIC_ONLY: Final = Measures()


def unit_for(word: str, measures: Measures | None) -> Unit:
    """Return the unit a chef's word names.

    Raises ValueMistake: LB302 where the word is no unit or could mean two; LB317 where the house has not named the
    measure. A vessel id is not a unit: ``parse_amount`` reads it.
    """
    folded = fold_word(word)
    if folded in UNIT_WORDS:
        return UNITS[UNIT_WORDS[folded]]
    scoop = read_scoop(folded)
    if scoop is not None:
        return _scoop(scoop, word)
    if folded in SYSTEM_WORDS:
        return _system_unit(word, *SYSTEM_WORDS[folded], measures or METRIC_ONLY)
    raise _unknown(word, folded, measures or METRIC_ONLY)


def to_base(amount: Amount) -> Fraction:
    """Return the exact amount in grams, millilitres or singles."""
    whole = _WHOLE_FACTORS.get(amount.unit.key)
    if whole is None:
        return amount.number * factor_of(amount.unit)
    return amount.number if whole == 1 else amount.number * whole


def from_base(number: Fraction, unit: Unit) -> Amount:
    """Return grams, millilitres or singles as an amount of ``unit``, exactly."""
    whole = _WHOLE_FACTORS.get(unit.key)
    if whole is None:
        return Amount(number / factor_of(unit), unit)
    return Amount(number if whole == 1 else number / whole, unit)


def factor_of(unit: Unit) -> Fraction:
    """Return how many grams, millilitres or singles one of ``unit`` is."""
    plain = _PLAIN_FACTORS.get(unit.key)
    if plain is not None:
        return plain
    if unit.key.startswith("scoop-"):
        return _pint_factors()["us-quart"] / int(unit.key.removeprefix("scoop-"))
    return _pint_factors()[unit.key]


def same_measure(first: Unit, second: Unit) -> bool:
    """Return whether amounts of the two units can be added: both weights, both volumes, or counts of one thing."""
    return first.kind is second.kind and first.counts == second.counts


def plus(first: Amount, second: Amount) -> Amount:
    """Return the sum in the unit of ``first``. Raises ValueMistake LB304 where the units cannot be added."""
    if first.unit is second.unit:
        return Amount(first.number + second.number, first.unit)
    _meet(first, second)
    return Amount(first.number + to_base(second) / factor_of(first.unit), first.unit)


def times(amount: Amount, factor: Fraction) -> Amount:
    """Return the amount ``factor`` times, in its own unit."""
    return Amount(amount.number * factor, amount.unit)


def ratio(first: Amount, second: Amount) -> Fraction:
    """Return how many times ``second`` goes into ``first``; ``second`` is not zero.

    Raises ValueMistake LB304 where the units cannot be compared.
    """
    if first.unit is second.unit:
        return first.number / second.number
    _meet(first, second)
    return to_base(first) / to_base(second)


def in_unit(amount: Amount, unit: Unit) -> Amount:
    """Return the same amount in another unit of its measure. Raises ValueMistake LB304 where it is another measure."""
    if amount.unit is unit:
        return amount
    _meet(amount, Amount(number=_ONE, unit=unit))
    return from_base(to_base(amount), unit)


def to_fahrenheit(celsius: Fraction) -> Fraction:
    """Return degrees Fahrenheit, exactly (NIST SP 811, B.8)."""
    return celsius * Fraction(9, 5) + 32


def to_celsius(fahrenheit: Fraction) -> Fraction:
    """Return degrees Celsius, exactly (NIST SP 811, B.8)."""
    return (fahrenheit - 32) * Fraction(5, 9)


def _meet(first: Amount, second: Amount) -> None:
    if not same_measure(first.unit, second.unit):
        one, other = (_measure(amount.unit) for amount in (first, second))
        raise ValueMistake(
            "LB304",
            f"{one} in `{first.unit.symbol}` and {other} in `{second.unit.symbol}` cannot be put together",
            ("type both by weight, both by volume, or both as a count of the same thing",),
        )


def _measure(unit: Unit) -> str:
    return f"a {unit.kind.value}"


def _scoop(number: int, word: str) -> Unit:
    unit = UNITS.get(f"scoop-{number}")
    if unit is None:
        numbers = ", ".join(str(known) for known in SCOOP_NUMBERS)
        raise ValueMistake("LB302", f"`{word.strip()}` is not a scoop of the trade", (f"scoop numbers are {numbers}",))
    return unit


def _system_unit(word: str, field_name: str, unit_name: str, measures: Measures) -> Unit:
    system = getattr(measures, field_name)
    if system is None:
        raise _measure_not_named(word, field_name)
    if unit_name == "teaspoon" and system == "australian":
        system = "metric"  # only the tablespoon is larger there
    return UNITS[f"{system}-{unit_name}"]


def _measure_not_named(word: str, field_name: str) -> ValueMistake:
    choices = {
        "cup": "`cup: us` is 236.6 ml, `cup: metric` 250 ml, `cup: label` 240 ml",
        "spoon": "`spoon: us` is a 14.8 ml tablespoon, `spoon: metric` 15 ml, `spoon: australian` 20 ml",
        "pint": "`pint: us` is 473 ml, `pint: imperial` 568 ml; it also settles fl oz, qt and gal",
    }
    return ValueMistake(
        "LB317",
        f"`{word.strip()}` has more than one size and house.yaml does not say which one this kitchen uses",
        (f"add it to `measures:` in house.yaml: {choices[field_name]}", "or type the amount in g or ml"),
    )


def _unknown(word: str, folded: str, measures: Measures) -> ValueMistake:
    shown = word.strip()
    for key in (shown, folded):
        if key in REFUSED_WORDS:
            message, hint = REFUSED_WORDS[key]
            return ValueMistake("LB302", message.format(word=shown), (hint,))
    meant = nearest(folded, [*UNIT_WORDS, *SYSTEM_WORDS, *measures.vessels])
    hints = (f"did you mean `{meant}`?",) if meant else ("for things that are counted, type `each`",)
    words = "units are g, kg, ml, L, oz, lb, fl oz, tsp, tbsp, cup, pt, qt, gal, each, piece, bunch, leaf and the like"
    return ValueMistake("LB302", f"`{_shorten(shown)}` is not a unit", (*hints, words))


def _shorten(text: str) -> str:
    return text if len(text) <= 40 else text[:39] + "…"


@cache
def _pint_factors() -> Mapping[str, Fraction]:
    import pint  # here, because importing it costs more than reading a house

    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(
        Path(__file__).with_name("kitchen_units.txt"), non_int_type=Fraction
    )
    bases = {Kind.MASS: registry.Unit("gram"), Kind.VOLUME: registry.Unit("millilitre")}
    factors = {}
    for unit in (*_system_units().values(), OUNCE, POUND):
        one = registry.Quantity(Fraction(1), registry.Unit(unit.key.replace("-", "_")))
        factors[unit.key] = Fraction(one.to(bases[unit.kind]).magnitude)
    return MappingProxyType(factors)
