"""Amounts, temperatures and lengths of time as printed, for one house. Rounding itself is ``compute.rounding``'s.

Words for units come from the catalogue, in every language printed; numbers are written one way on a sheet, with a
decimal point, in whatever language they stand: a cook who meets 1.5 and 1,5 on one card may weigh the wrong one.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor
from typing import Final

from linebook.compute.ladders import MEASURED_PARTS, amount_parts, fit, is_metric
from linebook.compute.numerals import decimal_text, is_measured, number_text
from linebook.compute.results import BatchIngredient, Printed
from linebook.compute.rounding import PrintedLine, print_amount, print_line
from linebook.documents.parts import Measured
from linebook.documents.text import EMPTY, NO_BREAK, Text, joined, strong, unparted, words
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount, Duration, Kind, Temperature
from linebook.model.house import HouseFile
from linebook.model.limits import Heat
from linebook.model.numbers import VULGAR
from linebook.model.quantities import write_duration, write_number
from linebook.model.units import GRAM, KILOGRAM, LITRE, MILLILITRE, from_base, to_base, to_fahrenheit
from linebook.source.frozen import frozen

_VULGAR_OF: Final = {value: sign for sign, value in VULGAR.items()}
_UNITS_OF_TIME: Final = ((86400, "d"), (3600, "h"), (60, "min"))
_SCOOP: Final = "scoop-"
_ROOM: Final = 21
"""°C. What is asked to be no warmer than a room must not be passed; what is hotter must be reached."""


@frozen
class Measures:
    """Writes amounts as this house can measure them."""

    house: HouseFile
    wording: Wording

    def rounded(self, amount: Amount, *, exact: bool = False) -> Printed:
        """Return an amount rounded once to what an instrument of the house reads."""
        return print_amount(amount, self.house.instruments, self.house.tolerance, exact=exact)

    def line(self, line: BatchIngredient, loads: int, *, exact: bool = False) -> PrintedLine:
        """Return the figures of one ingredient line of a batch."""
        return print_line(line, loads, self.house.instruments, self.house.tolerance, exact=exact)

    def measured(self, printed: Printed | None, unrounded: Amount | None = None) -> Measured:
        """Return a rounded amount as text; where rounding moved it, a note gives the amount before it."""
        if printed is None:
            return Measured(number=self.wording.say("amount.to-taste"), unit=EMPTY)
        note = EMPTY
        if printed.moved and unrounded is not None:
            note = self.wording.say("amount.moved", exact=exactly(unrounded, self.wording))
        *before, last = _spoken(printed.amount)
        parts = [*(_one_part(part, self.wording) for part in before), words(number_text(last.number, last.unit))]
        return Measured(number=joined(parts, " "), unit=unit_text(last, self.wording), note=note)

    def amount(self, amount: Amount, *, exact: bool = False) -> Measured:
        """Return an amount rounded for print, as text."""
        return self.measured(self.rounded(amount, exact=exact), amount)

    def short(self, amount: Amount, *, exact: bool = False) -> Text:
        """Return an amount rounded for print, in one unparted word such as *2.5 kg*."""
        return self.amount(amount, exact=exact).whole

    def temperature(self, temperature: Temperature, *, at_most: bool | None = None) -> Text:
        """Return a temperature in the scale the house prints, bold and unparted: whole °F, °C to a tenth.

        It is never looser than the spec: what must not be passed (``at_most``; by itself, all that is no warmer than a
        room) is rounded down, what must be reached is rounded up.
        """
        down = temperature.celsius <= _ROOM if at_most is None else at_most
        whole = floor if down else ceil
        if self.house.fahrenheit:
            return _degrees(Fraction(whole(to_fahrenheit(temperature.celsius))), "°F")
        return _degrees(Fraction(whole(temperature.celsius * 10), 10), "°C")

    def heat(self, heat: Heat) -> Text:
        """Return a rule's temperature in the scale the house prints, never looser than the rule."""
        if self.house.fahrenheit:
            return _degrees(Fraction(heat.fahrenheit), "°F")
        return _degrees(Fraction(heat.celsius), "°C")

    def scale(self) -> Text:
        """Return the sign of the scale the house prints."""
        return words("°F" if self.house.fahrenheit else "°C")


def typed_text(amount: Amount, wording: Wording) -> Text:
    """Return an amount as the spec has it, unrounded; it can part only between two units."""
    return joined((_one_part(part, wording) for part in _spoken(amount)), " ")


def unit_text(amount: Amount, wording: Wording) -> Text:
    """Return the unit's symbol, or its word: the plural for more than one."""
    unit = amount.unit
    scoop = unit.key.removeprefix(_SCOOP)
    name = "scoop" if scoop != unit.key else unit.symbol
    if f"unit.{name}.one" not in wording:
        return words(unparted(unit.symbol))
    return wording.say_unparted(f"unit.{name}", 1 if amount.number <= 1 else 2, number=scoop)


def exactly(amount: Amount, wording: Wording) -> Text:
    """Return an amount in one unparted word, near enough to say what rounding has moved: *1.37 g*, *2¾ tsp*."""
    if amount.unit.kind is Kind.COUNT:
        return joined((words(decimal_text(amount.number, 2)), unit_text(amount, wording)), NO_BREAK)
    parts = [_in_decimals(amount)] if is_metric(amount.unit) else list(_spoken(fit(to_base(amount), amount.unit)))
    last = parts[-1]
    if not is_measured(last.unit):
        places = 10 ** (3 if last.unit in (KILOGRAM, LITRE) else 2)
        parts[-1] = Amount(number=Fraction(round(last.number * places), places), unit=last.unit)
    return joined((_one_part(part, wording) for part in parts), NO_BREAK)


def duration_text(duration: Duration, wording: Wording) -> Text:
    """Return a length of time, bold; only between the two ends of a range can it part."""
    least, *most = (words(unparted(end)) for end in write_duration(duration).split(" to "))
    return strong(wording.say("duration.range", least=least, most=most[0]) if most else least)


def seconds_text(seconds: int) -> Text:
    """Return seconds in the largest unit that says them whole; a day alone stays *24 h*."""
    for size, unit in _UNITS_OF_TIME:
        if seconds % size == 0 and (unit != "d" or seconds > size):
            return words(f"{seconds // size}{NO_BREAK}{unit}")
    return words(f"{seconds}{NO_BREAK}s")


def per_cent(part: Fraction) -> Text:
    """Return a part of one in per cent: 0.04 is *4 %*, 0.0625 is *6.25 %*."""
    return words(f"{decimal_text(part * 100, 2)}{NO_BREAK}%")


def share_text(part: Fraction) -> Text:
    """Return a part of an ingredient as a cook weighs it: *⅓* where there is a sign for it, else *90 %*."""
    return words(_VULGAR_OF[part]) if part in _VULGAR_OF else per_cent(part)


def part_text(part: Fraction) -> str:
    """Return a part of a whole as a cook says it: *⅓*, or *5/16* where there is no sign for it."""
    whole, rest = divmod(part, 1)
    if rest in _VULGAR_OF:
        return f"{whole or ''}{_VULGAR_OF[rest]}"
    return write_number(part, fractions=True)


def _spoken(amount: Amount) -> tuple[Amount, ...]:
    """Return an amount in the parts a cook measures: 7⅝ lb as 7 lb and 10 oz, but 2¼ lb as it is."""
    return (amount,) if amount.number.denominator in MEASURED_PARTS else amount_parts(amount)


def _in_decimals(amount: Amount) -> Amount:
    """Return a metric amount in g or ml, from 1000 on in kg or L."""
    small, large = (GRAM, KILOGRAM) if amount.unit.kind is Kind.MASS else (MILLILITRE, LITRE)
    base = to_base(amount)
    return from_base(base, large if base >= to_base(Amount(number=Fraction(1), unit=large)) else small)


def _one_part(amount: Amount, wording: Wording) -> Text:
    return joined((words(number_text(amount.number, amount.unit)), unit_text(amount, wording)), NO_BREAK)


def _degrees(number: Fraction, scale: str) -> Text:
    return strong(words(f"{decimal_text(number, 1).replace('-', '−')}{NO_BREAK}{scale}"))
