"""Amounts, temperatures and lengths of time as printed, for one house. Rounding itself is ``compute.rounding``'s.

Words for units come from the catalogue, in every language printed; numbers are written one way on a sheet, with a
decimal point, in whatever language they stand: a cook who meets 1.5 and 1,5 on one card may weigh the wrong one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field
from functools import lru_cache
from math import ceil, floor
from typing import Final

from linebook.compute.ladders import fit, is_metric, spoken_parts
from linebook.compute.numerals import decimal_text, is_measured, number_text
from linebook.compute.printed_lines import PrintedLine, print_base, print_line, print_load
from linebook.compute.results import BatchIngredient, Printed
from linebook.compute.rounding import moved_to, print_amount
from linebook.compute.systems import System, print_in, says, system_of_house
from linebook.documents.parts import Measured
from linebook.documents.text import (
    EMPTY,
    NO_BREAK,
    Text,
    each_language,
    joined,
    merged,
    strong,
    unbroken,
    unparted,
    words,
)
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount, Duration, Kind, Temperature, Unit
from linebook.model.house import HouseFile
from linebook.model.limits import Heat
from linebook.model.numbers import VULGAR
from linebook.model.quantities import parse_amount, write_duration, write_number
from linebook.model.units import GRAM, KILOGRAM, LITRE, MILLILITRE, from_base, to_base, to_fahrenheit
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen

_VULGAR_OF: Final = {value: sign for sign, value in VULGAR.items()}
_UNITS_OF_TIME: Final = ((86400, "d"), (3600, "h"), (60, "min"))
_SCOOP: Final = "scoop-"
_ABOUT: Final = "≈"
"""Stands before what rounding has moved, where there is no room to say from what."""
_KNOWN: Final = 4096
"""Figures kept: most stand in several places of a binder."""
_ROOM: Final = 21
"""°C. What is asked to be no warmer than a room must not be passed; what is hotter must be reached."""


@frozen
class Measures:
    """Writes amounts as this house can measure them."""

    house: HouseFile
    wording: Wording
    system: System = field(init=False, compare=False)
    """The system of units the house prints in."""
    in_fahrenheit: bool = field(init=False, compare=False)
    """Whether the first scale printed is Fahrenheit: that of the system asked for, else the house's own."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "system", system_of_house(self.house))
        scale = {"metric": False, "us": True}.get(self.house.units, self.house.fahrenheit)
        object.__setattr__(self, "in_fahrenheit", scale)

    def rounded(self, amount: Amount, *, exact: bool = False) -> Printed:
        """Return an amount rounded once to what an instrument of the house reads, in the system it prints."""
        if self.house.units == "as written":
            return print_amount(amount, self.house.instruments, self.house.tolerance, exact=exact)

        def rounded(asked: Amount) -> Printed:
            return print_amount(asked, self.house.instruments, self.house.tolerance, exact=exact)

        return print_in(self.system, amount, rounded, exact=exact)

    def line(self, line: BatchIngredient, loads: int, *, exact: bool = False) -> PrintedLine:
        """Return the figures of one ingredient line of a batch."""
        return print_line(line, loads, self.house.instruments, self.house.tolerance, exact=exact, system=self.system)

    def base(self, line: BatchIngredient, *, exact: bool = False) -> Printed | None:
        """Return the spec's own amount of an ingredient line alone, None where it is to taste."""
        if line.base is None:
            return None
        return print_base(line, self.house.instruments, self.house.tolerance, exact=exact, system=self.system)

    def load(self, line: BatchIngredient, *, exact: bool = False) -> Printed | None:
        """Return one load of an ingredient line alone, None where it is to taste."""
        if line.load is None or line.base is None:
            return None
        return print_load(line, self.house.instruments, self.house.tolerance, exact=exact, system=self.system)

    def measured(self, printed: Printed | None, unrounded: Amount | None = None) -> Measured:
        """Return a rounded amount as text; where rounding moved it, a note gives the amount before it.

        What is not in the system that the house prints is put into it; where it prints both, the other figure is part
        of the note.
        """
        if printed is None:
            to_taste = self.wording.say("amount.to-taste")
            return Measured(number=to_taste, unit=EMPTY, whole=to_taste)
        moved = unrounded if printed.moved else None
        if moved is None and self.house.units == "as written":  # as nearly always
            number = printed.amount.number
            return _figure(number.numerator, number.denominator, printed.amount.unit, self.wording)
        asked = printed.amount if printed.settled else self._in_system(printed.amount)
        beside = EMPTY if printed.exactly else self.beside(asked)
        figure = _figure_of(asked, self.wording)
        notes = [self.wording.say("amount.beside", amount=beside)] if beside else []
        if moved is not None:
            notes.append(self.wording.say("amount.moved", exact=self.exactly(moved)))
        if not notes:
            return figure
        note = joined(notes, self.wording.say("note.between"))
        return Measured(number=figure.number, unit=figure.unit, whole=figure.whole, note=note, beside=beside)

    def _in_system(self, amount: Amount) -> Amount:
        """Return a figure that is as the spec has it in the system that is printed, rounded to be read there."""
        return amount if self.system.asked(amount) is amount else self.rounded(amount).amount

    def beside(self, amount: Amount) -> Text:
        """Return a printed amount in the other system where the house prints both; nothing where it says too little."""
        other = self.system.other(amount)
        if other is None:
            return EMPTY
        printed = print_amount(other, self.house.instruments, self.house.tolerance)
        return typed_text(printed.amount, self.wording) if says(other, printed) else EMPTY

    def besides(self, figures: Iterable[Measured]) -> Text:
        """Return the other system's figures of several columns, in their order; nothing unless all have one."""
        if self.house.units != "both":
            return EMPTY
        found = [figure.beside for figure in figures]
        return self.wording.say("amount.beside", amount=joined(found, " · ")) if found and all(found) else EMPTY

    def exactly(self, amount: Amount) -> Text:
        """Return an amount near enough to say what rounding has moved, in the system the house prints."""
        return exactly(self.system.asked(amount), self.wording)

    def exact_figure(self, amount: Amount) -> Measured:
        """Return an amount no instrument reads as a figure of its own, to three digits."""
        return self.measured(print_in(self.system, amount, lambda asked: print_amount(asked, (), self.house.tolerance)))

    def is_moved(self, exact: Amount, printed: Amount) -> bool:
        """Return whether a printed amount is off by more than the house's tolerance."""
        return moved_to(exact, printed, self.house.tolerance).moved

    def typed(self, amount: Amount) -> Text:
        """Return an amount as the spec has it, or in the system the house prints; both where it prints both."""
        return self._with_beside(self.measured(Printed(amount=amount)), joint=" ")

    def fixed(self, text: str) -> Text:
        """Return an amount that a method keeps at any size, as typed: in another system only where one is asked for."""
        if self.house.units != "as written":
            try:
                return self.typed(parse_amount(text, self.house.measures))
            except ValueMistake:
                pass  # a length, or what is no amount: as typed
        return words(unparted(text))

    def _with_beside(self, measured: Measured, joint: str = NO_BREAK) -> Text:
        """Return number and unit, and the other system in brackets after them; ``joint`` stands before the bracket."""
        if not measured.beside:
            return measured.whole
        key = "amount.with-beside" if joint == " " else "amount.with-beside.unparted"
        beside = measured.beside if joint == " " else unbroken(measured.beside)
        return self.wording.say(key, amount=measured.whole, beside=beside)

    def amount(self, amount: Amount, *, exact: bool = False) -> Measured:
        """Return an amount rounded for print, as text."""
        return self.measured(self.rounded(amount, exact=exact), amount)

    def short(self, amount: Amount, *, exact: bool = False) -> Text:
        """Return an amount rounded for print, in one unparted word: *2.5 kg*; *≈ 5 g* where that moved it."""
        return self.told(self.rounded(amount, exact=exact))

    def told(self, printed: Printed) -> Text:
        """Return a rounded amount in one unparted word, as ``short`` does."""
        said = self._with_beside(self.measured(printed))
        return self.about(said) if printed.moved else said

    def in_column(self, amount: Amount) -> Text:
        """Return an amount rounded for a narrow column, in one system alone; *≈ 5 g* where that moved it."""
        printed = self.rounded(amount)
        said = self.measured(printed).whole
        return self.about(said) if printed.moved else said

    def about(self, said: Text) -> Text:
        """Return a figure that rounding has moved, marked as such."""
        return joined((words(f"{_ABOUT}{NO_BREAK}"), said))

    def temperature(self, temperature: Temperature, *, at_most: bool | None = None) -> Text:
        """Return a temperature in the scale the house prints, bold and unparted: whole °F, °C to a tenth.

        It is never looser than the spec: what must not be passed (``at_most``; by itself, all that is no warmer than a
        room) is rounded down, what must be reached is rounded up.
        """
        down = temperature.celsius <= _ROOM if at_most is None else at_most
        whole = floor if down else ceil
        tenths = whole(temperature.celsius * 10)
        if self.house.units != "both" and not self.in_fahrenheit:
            return _degrees(tenths, "°C")
        return self._in_scales(tenths, 10 * whole(to_fahrenheit(temperature.celsius)))

    def heat(self, heat: Heat) -> Text:
        """Return a rule's temperature in the scale the house prints, never looser than the rule."""
        return self._in_scales(10 * heat.celsius, 10 * heat.fahrenheit)

    def _in_scales(self, celsius: int, fahrenheit: int) -> Text:
        """Return tenths of degrees in the scale of the system that is printed, or in both, the house's own first."""
        both = (_degrees(celsius, "°C"), _degrees(fahrenheit, "°F"))
        own, other = reversed(both) if self.in_fahrenheit else both
        if self.house.units != "both":
            return own
        return self.wording.say("amount.with-beside.unparted", amount=own, beside=other)

    def scale(self) -> Text:
        """Return the sign of the scale the house prints."""
        return words("°F" if self.in_fahrenheit else "°C")


def _figure_of(amount: Amount, wording: Wording) -> Measured:
    """Return an amount as number and unit, without a note."""
    return _figure(amount.number.numerator, amount.number.denominator, amount.unit, wording)


@lru_cache(_KNOWN)
def _figure(numerator: int, denominator: int, unit: Unit, wording: Wording) -> Measured:
    """Return the same for a number in whole numbers, which are looked up in a third of the time."""
    amount = Amount(number=Fraction(numerator, denominator), unit=unit)
    *before, last = spoken_parts(amount)
    parts = [*(_one_part(part, wording) for part in before), words(number_text(last.number, last.unit))]
    number, symbol = joined(parts, " "), unit_text(last, wording)
    return Measured(number=number, unit=symbol, whole=each_language(joined((number, symbol), NO_BREAK), merged))


def typed_text(amount: Amount, wording: Wording) -> Text:
    """Return an amount as the spec has it, unrounded; it can part only between two units."""
    return joined((_one_part(part, wording) for part in spoken_parts(amount)), " ")


def unit_text(amount: Amount, wording: Wording) -> Text:
    """Return the unit's symbol, or its word: the plural for more than one."""
    return _unit_text(amount.unit.key, amount.unit.symbol, 1 if amount.number <= 1 else 2, wording)


@lru_cache(_KNOWN)
def _unit_text(key: str, symbol: str, count: int, wording: Wording) -> Text:
    scoop = key.removeprefix(_SCOOP)
    name = "scoop" if scoop != key else symbol
    if f"unit.{name}.one" not in wording:
        return words(unparted(symbol))
    return wording.say_unparted(f"unit.{name}", count, number=scoop)


def exactly(amount: Amount, wording: Wording) -> Text:
    """Return an amount in one unparted word, near enough to say what rounding has moved: *1.37 g*, *2¾ tsp*."""
    if amount.unit.kind is Kind.COUNT:
        return joined((words(decimal_text(amount.number, 2)), unit_text(amount, wording)), NO_BREAK)
    parts = [_in_decimals(amount)] if is_metric(amount.unit) else list(spoken_parts(fit(to_base(amount), amount.unit)))
    last = parts[-1]
    if not is_measured(last.unit):
        places = 10 ** (3 if last.unit in (KILOGRAM, LITRE) else 2)
        parts[-1] = Amount(number=Fraction(round(last.number * places), places), unit=last.unit)
    return joined((_one_part(part, wording) for part in parts), NO_BREAK)


@lru_cache(_KNOWN)
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


@lru_cache(_KNOWN)
def part_text(part: Fraction) -> str:
    """Return a part of a whole as a cook says it: *⅓*, or *5/16* where there is no sign for it."""
    whole, rest = divmod(part, 1)
    if rest in _VULGAR_OF:
        return f"{whole or ''}{_VULGAR_OF[rest]}"
    return write_number(part, fractions=True)


def _in_decimals(amount: Amount) -> Amount:
    """Return a metric amount in g or ml, from 1000 on in kg or L."""
    small, large = (GRAM, KILOGRAM) if amount.unit.kind is Kind.MASS else (MILLILITRE, LITRE)
    base = to_base(amount)
    return from_base(base, large if base >= to_base(Amount(number=Fraction(1), unit=large)) else small)


def _one_part(amount: Amount, wording: Wording) -> Text:
    return joined((words(number_text(amount.number, amount.unit)), unit_text(amount, wording)), NO_BREAK)


@lru_cache(_KNOWN)
def _degrees(tenths: int, scale: str) -> Text:
    number = decimal_text(Fraction(tenths, 10), 1)
    return strong(words(f"{number.replace('-', '−')}{NO_BREAK}{scale}"))
