"""Amounts, percentages, temperatures and prices read from a chef's text, and amounts written back.

Every parser raises ValueMistake with a code, a sentence and what to type instead; the reader adds the place. Lengths
are in ``lengths``, times and dates in ``times``; both are offered here too, so that a reader needs one import.
"""

from __future__ import annotations

import re
from typing import Final

from linebook.model import mends
from linebook.model.amounts import Amount, IngredientAmount, Kind, Percent, Temperature, ToTaste, Unit
from linebook.model.lengths import parse_length, parse_length_pair, parse_place
from linebook.model.numbers import NUMBER_START, clean, parse_number, quote, write_number
from linebook.model.times import parse_clock_range, parse_date, parse_duration, parse_time, write_duration
from linebook.model.unit_words import REFUSED_WORDS, UNIT_WORDS, fold_word, read_scoop
from linebook.model.units import Measures, factor_of, from_base, times, to_base, to_celsius, unit_for
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

__all__ = [
    "parse_amount",
    "parse_clock_range",
    "parse_date",
    "parse_density",
    "parse_duration",
    "parse_ingredient_amount",
    "parse_length",
    "parse_length_pair",
    "parse_number",
    "parse_percent",
    "parse_place",
    "parse_price",
    "parse_temperature",
    "parse_time",
    "write_amount",
    "write_compound",
    "write_duration",
    "write_number",
]

LONGEST_VALUE: Final = 120
_AMOUNT_HINT: Final = "type a number and a unit, such as `250 g`, `1.5 L` or `3 each`"
COLDEST: Final = Fraction(-200)
HOTTEST: Final = Fraction(1000)

_PART: Final = re.compile(
    rf"([{NUMBER_START}][{NUMBER_START}.,/⁄_'’ ]*(?:[eE][+-]?[0-9]+(?![0-9A-Za-z]))?)(.*)", re.DOTALL
)
_RANGE: Final = rf"\s*(?:-|–|—|to\b)\s*[{NUMBER_START}]"
_FIRST_OF_TWO: Final = rf"(?s)([^{NUMBER_START}]+)([{NUMBER_START}].*)"
_PERCENT: Final = re.compile(r"(.*?)\s*(?:%|per ?cent)", re.IGNORECASE | re.DOTALL)
_TEMPERATURE: Final = re.compile(
    r"([-−–+]?)\s*([^°º℃℉A-Za-z-]+?)\s*(?:(?:°|º|deg\.?|degrees?)\s*)?(C|F|℃|℉|celsius|fahrenheit)", re.I
)
_BARE_HEAT: Final = r"(?i)[-−–+]?\s*[0-9.]+\s*(?:°|º|deg\.?|degrees?)?"
_DENSITY: Final = re.compile(r"(.*?)\s*(?:/|\bper\b)\s*([A-Za-z. ]+)", re.DOTALL)

# Cups, spoons and counts are written in the fractions their tools are made in; scales and jugs in decimals.
_DECIMAL_UNITS: Final = frozenset(
    {"us-fluid-ounce", "imperial-fluid-ounce", "millilitre", "centilitre", "decilitre", "litre"}
)


def parse_amount(text: str, measures: Measures | None) -> Amount:
    """Return an amount: ``250 g``, ``1 1/2 cup``, ``2 lb 4 oz``, ``3 leaves``, ``2 no. 16 scoops``.

    A compound is in its first unit; an amount in vessels (``2 third-pan-100``) is what they hold.

    Raises ValueMistake LB301 (unreadable), LB302 (unit), LB303 (two readings), LB310 (not more than nothing), LB316
    (too long) or LB317 (measure not named).
    """
    plain = clean(text)
    try:
        return _read_amount(plain, measures)
    except ValueMistake as mistake:
        raise _with_guess(plain, mistake, measures) from None


def _read_amount(plain: str, measures: Measures | None) -> Amount:
    number, rest = _split(plain)
    if number == 0:
        raise ValueMistake("LB310", f"{quote(plain)} is nothing", ("type an amount, or leave the line out",))
    vessel = measures.vessels.get(rest.casefold()) if measures else None
    if vessel is not None:
        return times(vessel, number)
    two = None if _is_unit_word(rest) else re.fullmatch(_FIRST_OF_TWO, rest)
    if two is None:
        return Amount(number=number, unit=_unit(plain, rest, measures))
    try:
        return Amount(number=number, unit=unit_for(rest, measures))
    except ValueMistake as mistake:
        joint = re.sub(r"(,|\band)\s*$", "", two[1]).strip()
        if mistake.code != "LB302" or not (joint.isalpha() or _is_unit(joint, measures)):
            raise
        return _compound(plain, Amount(number=number, unit=_unit(plain, joint, measures)), two[2], measures)


def parse_ingredient_amount(text: str, measures: Measures | None, of: tuple[str, ...] = ()) -> IngredientAmount:
    """Return an amount, a percentage of ``of``, or to taste. Raises as ``parse_amount`` and ``parse_percent`` do."""
    plain = clean(text)
    if plain.casefold() in ("to taste", "totaste", "to-taste"):
        return ToTaste()
    if ("%" in plain or "cent" in plain.casefold()) and _PERCENT.fullmatch(plain):
        return Percent(number=_per_cent(plain), of=of)
    if not plain[:1].isdigit() and mends.is_up_to_the_cook(plain):
        hints = ("type `to taste`, or an amount such as `5 g`",)
        raise ValueMistake("LB301", f"{quote(plain)} does not say how much", hints)
    two_fields = mends.mend_percent_of(plain) if "%" in plain else ""
    if two_fields:
        raise ValueMistake("LB301", f"{quote(plain)} is two fields in one", (f"write `{two_fields}`",))
    return parse_amount(plain, measures)


def parse_percent(text: str) -> Fraction:
    """Return ``1.8 %`` as the part of one it is, 18/1000. Raises ValueMistake LB301, LB303, LB310 or LB316."""
    return _per_cent(clean(text)) / 100


def parse_temperature(text: str) -> Temperature:
    """Return ``93 °C``, ``200 °F`` or ``-18 °C``. Raises ValueMistake LB311, LB303 or LB316 (-200 to 1000 °C)."""
    plain = clean(text)
    match = _TEMPERATURE.fullmatch(plain)
    if match is None:
        raise _not_a_temperature(plain)
    try:
        degrees = parse_number(match[2])
    except ValueMistake as mistake:
        if mistake.code == "LB301":
            raise _not_a_temperature(plain) from None
        raise
    degrees = -degrees if match[1] in ("-", "−", "–") else degrees
    fahrenheit = match[3][0] in "Ff℉"
    celsius = to_celsius(degrees) if fahrenheit else degrees
    if not COLDEST <= celsius <= HOTTEST:
        raise ValueMistake("LB316", f"{quote(plain)} is outside what a kitchen reaches", ("type -200 °C to 1000 °C",))
    return Temperature(celsius=celsius, fahrenheit=fahrenheit)


def parse_density(text: str, measures: Measures | None) -> Fraction:
    """Return ``1.03 kg/L`` or ``125 g/cup`` as grams a millilitre. Raises ValueMistake LB301 or as ``parse_amount``."""
    plain = clean(text)
    match = _DENSITY.fullmatch(plain)
    mend = ("type a weight for a volume, such as `1.03 kg/L` or `0.92 g/ml`",)
    if match is None:
        raise ValueMistake("LB301", f"{quote(plain)} is not a density", mend)
    weight, volume = parse_amount(match[1], measures), unit_for(match[2], measures)
    if weight.unit.kind is not Kind.MASS or volume.kind is not Kind.VOLUME:
        raise ValueMistake("LB301", f"{quote(plain)} is not a weight for a volume", mend)
    return to_base(weight) / factor_of(volume)


def parse_price(text: str, measures: Measures | None) -> tuple[Fraction, Amount]:
    """Return ``14.50 per kg`` as money and the amount it buys. Raises ValueMistake LB301 or as ``parse_amount``."""
    plain = clean(text)
    money, per, amount = plain.partition(" per ")
    if not per or not re.match(f"[{NUMBER_START}]", money):
        raise ValueMistake("LB301", f"{quote(plain)} is not a price", (_price_hint(plain, measures),))
    counted = amount if re.match(f"[{NUMBER_START}]", amount) else f"1 {amount}"
    return parse_number(money), parse_amount(counted, measures)


def write_amount(amount: Amount) -> str:
    """Return an amount as text that reads back to the same, where the house's measures are the same."""
    fractions = amount.unit.kind is not Kind.MASS and amount.unit.key not in _DECIMAL_UNITS
    unit = amount.unit.symbol if amount.number <= 1 else amount.unit.plural
    return f"{write_number(amount.number, fractions=fractions)} {unit}"


def write_compound(amount: Amount, smaller: Unit) -> str:
    """Return whole units and the rest in a smaller one: ``46 lb 8 oz``. It reads back to the same amount."""
    whole = amount.number // 1
    rest = from_base(to_base(amount) - whole * factor_of(amount.unit), smaller)
    if not whole:
        return write_amount(rest)
    first = write_amount(Amount(number=Fraction(whole), unit=amount.unit))
    return f"{first} {write_amount(rest)}" if rest.number else first


def _split(plain: str) -> tuple[Fraction, str]:
    if len(plain) > LONGEST_VALUE:
        raise ValueMistake("LB301", f"{quote(plain)} is too long to be an amount", (_AMOUNT_HINT,))
    first, _, word = plain.partition(" ")
    if _is_unit_word(word) and first.isascii() and first[:1] != "." and first.replace(".", "", 1).isdigit():
        return parse_number(first), word  # as in `250 g`, and in most amounts
    match = _PART.fullmatch(plain)
    if match is None:
        raise _no_number(plain)
    number_text, rest = match[1], match[2].strip()
    if re.match(_RANGE, rest) and "/" not in rest:
        raise ValueMistake("LB301", f"{quote(plain)} is a range and one amount is needed", ("type one amount",))
    if rest[:1] in ("-", "–") and rest[1:2].isdigit():
        parse_number(number_text.strip() + rest.split(" ")[0])
    number = parse_number(number_text)
    if not rest:
        hint = "type `g`, `ml` or another unit after it, or `each` for things that are counted"
        raise ValueMistake("LB301", f"{quote(plain)} has no unit", (hint,))
    return number, rest


def _is_unit_word(text: str) -> bool:
    return text.casefold() in UNIT_WORDS


def _with_guess(plain: str, mistake: ValueMistake, measures: Measures | None) -> ValueMistake:
    """Return the mistake with what was most likely meant, where the text is no amount or its unit no unit."""
    if mistake.code not in ("LB301", "LB302"):
        return mistake
    for guess in mends.mend_amount(plain):
        try:
            _read_amount(clean(guess), measures)
        except ValueMistake as other:
            if mistake.code == "LB301" and fold_word(guess.partition(" ")[2]) in REFUSED_WORDS:
                mistake = other  # in `a pinch` the unit is amiss, not the number
            continue
        return ValueMistake("LB301", f"{quote(plain)} is not an amount", (f"type `{guess}`",))
    return mistake


def _price_hint(plain: str, measures: Measures | None) -> str:
    meant = mends.mend_price(plain)
    try:
        if meant:
            parse_price(meant, measures)
            return f"type `{meant}`"
    except ValueMistake:
        pass
    return "type the money without its sign and what it buys, such as `14.50 per kg` or `6 per 10 pieces`"


def _no_number(plain: str) -> ValueMistake:
    if not plain:
        return ValueMistake("LB301", "an amount is missing", (_AMOUNT_HINT,))
    if re.match(f"[-−–] ?[{NUMBER_START}]", plain):
        return ValueMistake("LB310", f"{quote(plain)} is less than nothing", (f"type `{plain[1:].strip()}`",))
    if plain[0] in ".+~≈<>" and plain[1:2].isdigit():
        mended = f"0{plain}" if plain[0] == "." else plain[1:]
        return ValueMistake("LB301", f"{quote(plain)} does not start with a figure", (f"type {quote(mended)}",))
    if read_scoop(fold_word(plain)) is not None:
        return ValueMistake("LB301", f"{quote(plain)} does not say how many", (f"type `1 {plain}`",))
    return ValueMistake("LB301", f"{quote(plain)} is not an amount", (_AMOUNT_HINT,))


def _unit(plain: str, word: str, measures: Measures | None) -> Unit:
    try:
        return unit_for(word, measures)
    except ValueMistake as mistake:
        first, _, after = word.replace(",", " ", 1).partition(" ")
        if mistake.code == "LB302" and after and _is_unit(first, measures):
            raise ValueMistake(
                "LB301",
                f"{quote(plain)} has {quote(after)} after the amount",
                ("write the amount alone; how it is cut goes in `prep`, anything else in `note`",),
            ) from None
        raise


def _is_unit(word: str, measures: Measures | None) -> bool:
    try:
        unit_for(word, measures)
    except ValueMistake as mistake:
        return mistake.code == "LB317"
    return True


def _compound(plain: str, first: Amount, rest: str, measures: Measures | None) -> Amount:
    second = parse_amount(rest, measures)
    if first.unit.kind is Kind.COUNT or first.unit.kind is not second.unit.kind:
        raise ValueMistake("LB301", f"{quote(plain)} is two amounts and one is needed", (_AMOUNT_HINT,))
    large, small = factor_of(first.unit), to_base(second)
    if first.number.denominator != 1 or small >= large or factor_of(second.unit) >= large:
        total = write_amount(from_base(to_base(first) + small, first.unit))
        hint = f"type `{total}` if that is what is meant" if len(total) <= 12 else "type it in one unit"
        raise ValueMistake(
            "LB301", f"{quote(plain)} is not larger units first with less than one of them in the smaller", (hint,)
        )
    return Amount(number=first.number + small / large, unit=first.unit)


def _per_cent(plain: str) -> Fraction:
    match = _PERCENT.fullmatch(plain)
    if match is None:
        meant = mends.mend_percent(plain)
        hint = f"type `{meant}`" if meant else "type a number and %, such as `1.8 %`"
        raise ValueMistake("LB301", f"{quote(plain)} is not a percentage", (hint,))
    return parse_number(match[1])


def _not_a_temperature(plain: str) -> ValueMistake:
    if re.fullmatch(_BARE_HEAT, plain):
        number = plain.rstrip("°ºdegrs. ").lstrip("+") or plain
        hints = (f"type `{number} °C` or `{number} °F`",)
        return ValueMistake("LB311", f"{quote(plain)} does not say °C or °F", hints)
    if not plain:
        return ValueMistake("LB311", "a temperature is missing", ("type a number and °C or °F, such as `93 °C`",))
    hints = ("type one temperature such as `93 °C`, `200 °F` or `-18 °C`",)
    return ValueMistake("LB311", f"{quote(plain)} is not a temperature", hints)
