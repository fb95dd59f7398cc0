"""The figures in a text, so that a translation can be held against what it translates.

A figure is a number as typed with the unit after it, if it is one both languages have. Words are not looked at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple

from linebook.model.numbers import VULGAR
from linebook.source.exact import Fraction

_UNITS: Final[Mapping[str, str]] = {
    word: unit
    for unit, words in {
        "°C": "°C ºC ℃",
        "°F": "°F ºF ℉",
        "°": "° º grado grados degree degrees",
        "s": "s sec secs second seconds seg segs segundo segundos",
        "min": "min mins minute minutes minuto minutos",
        "h": "h hr hrs hour hours hora horas",
        "d": "d day days día días dia dias",
        "week": "week weeks semana semanas",
        "month": "month months mes meses",
        "%": "%",
        "mg": "mg",
        "g": "g gram grams gramme grammes gramo gramos",
        "kg": "kg kilo kilos",
        "ml": "ml",
        "cl": "cl",
        "dl": "dl",
        "L": "L l litre litres liter liters litro litros",
        "mm": "mm",
        "cm": "cm",
        "oz": "oz ounce ounces onza onzas",
        "lb": "lb lbs pound pounds libra libras",
    }.items()
    for word in words.split()
}
"""Every word for a unit that means the same in the languages of sheets."""

_SIGNS: Final = "".join(VULGAR)
_NUMBER: Final = rf"\d+:\d\d|\d+[ \u00a0]\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*(?:[ \u00a0]?[{_SIGNS}])?|[{_SIGNS}]"
_ANY_CASE: Final = frozenset(word.casefold() for word in _UNITS)
# Any word is taken, and asked after whether it is a unit: a pattern of all units takes long to compile and to try.
_UNIT: Final = "[°º][ \u00a0]?[CFcf]|[°º℃℉%]|[A-Za-zÍí]+"
_FIGURE: Final = re.compile(
    rf"(?P<sign>(?<![\w\d)])[-−–](?=\d))?(?P<number>{_NUMBER})"
    rf"(?:[ \u00a0-]?(?P<unit>{_UNIT})(?!\w))?"
)
_DIGIT: Final = re.compile(rf"[0-9{_SIGNS}]")
_ANY_DIGIT: Final = re.compile(rf"[\d{_SIGNS}]")
_RANGE: Final = re.compile(r"[ \u00a0]?(?:to|a|–|—|-|and|y|e|or|o|u|x|×|by|por|hasta)[ \u00a0]?", re.IGNORECASE)
_THOUSANDS: Final = re.compile(r"\d{1,3}[.,]\d{3}")


class Figure(NamedTuple):
    """A number and its unit in one form for both languages, and where it stands in the text."""

    number: str
    unit: str
    start: int
    end: int

    @property
    def value(self) -> tuple[str, str]:
        """Return what is compared."""
        return self.number, self.unit


def figures_in(text: str) -> tuple[Figure, ...]:
    """Return the figures of a text in order. The first number of a range has the unit of the second."""
    if _DIGIT.search(text) is None:  # as in most steps
        return ()
    found = list(_found(text))
    for at in range(len(found) - 2, -1, -1):
        one, after = found[at], found[at + 1]
        if one.unit == "h" and not after.unit and not text[one.end : after.start].strip():
            found[at + 1] = after._replace(unit="min")  # as in *1 h 30*
        if not one.unit and after.unit and _RANGE.fullmatch(text[one.end : after.start]):
            found[at] = one._replace(unit=after.unit)
    return tuple(found)


def _found(text: str) -> Iterator[Figure]:
    for match in _matches(text):
        sign, number, unit = match.groups(default="")
        unit = unit.replace(" ", "").replace("\u00a0", "")
        is_unit = unit.casefold() in _ANY_CASE
        known = (_UNITS.get(unit) or _UNITS.get(unit.casefold()) or _UNITS.get(unit.upper(), "")) if is_unit else ""
        number = "-" + _plain(number) if sign else _plain(number)
        yield Figure(number, known, match.start(), match.end() if is_unit else match.end("number"))


def _matches(text: str) -> Iterator[re.Match[str]]:
    """Yield what the pattern of a figure finds; it is tried where there is a digit, as most of a text is letters."""
    end = 0
    for digit in _ANY_DIGIT.finditer(text):
        at = digit.start()
        if at < end:
            continue
        signed = _FIGURE.match(text, at - 1) if at > end and text[at - 1] in "-−–" else None
        match = signed or _FIGURE.match(text, at)
        assert match is not None  # a digit is a number by itself
        end = match.end()
        yield match


def _plain(number: str) -> str:
    """Return a number as typed in one form: *1,5* and *1.50* are one, *½* is *1/2*, *1,500* stays as long as it is."""
    if ":" in number or number.isdecimal():
        return number
    for sign, value in VULGAR.items():
        if sign in number:
            whole = number.replace(sign, "").strip(" \u00a0").replace(",", ".")
            return number if whole.count(".") > 1 else str(value + (Fraction(whole) if whole else 0))
    if "/" in number:
        parts = number.replace("\u00a0", " ").split(" ")
        return number if parts[-1].rstrip("0").endswith("/") else str(sum(map(Fraction, parts)))
    plain = number.replace(",", ".")
    if plain.count(".") != 1 or _THOUSANDS.fullmatch(number):
        return plain
    return str(Fraction(plain))
