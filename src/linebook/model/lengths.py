"""Lengths of plates and of what lies on them, and places on a plate, read from a chef's text. Lengths are in mm."""

from __future__ import annotations

import re
from typing import Final

from linebook.model.dish import Place
from linebook.model.mends import mend_length, mend_place, mend_two_lengths
from linebook.model.numbers import clean, parse_number, quote, write_number
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

LONGEST_LENGTH: Final = Fraction(3000)
_UNITS: Final = {"mm": Fraction(1), "cm": Fraction(10)}
_LENGTH: Final = re.compile(r"(.*?)\s*(mm|cm)\.?", re.IGNORECASE)
_INCHES: Final = r"(?i)([0-9]+(?:\.[0-9]+)?)\s*(?:in\.?|inch|inches|\"|″|”)"
_BY: Final = re.compile(r"\s*[x×X]\s*|\s+by\s+")
_HINT: Final = "type a length such as `30 cm` or `60 mm`"
_PAIR_HINT: Final = "type length and width such as `30 x 22 cm` or `60 x 20 mm`"

_CLOCK: Final = re.compile(r"(?:at )?([0-9]{1,2})(?::([0-9]{2}))?\s*(?:o['’]? ?clock)", re.IGNORECASE)
_PLACE_HINT: Final = "type `centre`, or an hour as on a clock face such as `5 o'clock`; 6 o'clock is nearest the guest"


def parse_length(text: str) -> Fraction:
    """Return ``30 cm`` or ``60 mm`` in mm. Raises ValueMistake LB318, LB303, LB310 or LB316 (over 3 m)."""
    plain = clean(text)
    match = _LENGTH.fullmatch(plain)
    if match is None:
        raise _not_a_length(plain, _HINT)
    return _measure(match[1], match[2], plain)


def parse_length_pair(text: str) -> tuple[Fraction, Fraction]:
    """Return ``30 x 22 cm`` as two lengths in mm. Raises ValueMistake LB318, LB303, LB310 or LB316 (over 3 m)."""
    plain = clean(text)
    ends = _BY.split(plain) if len(plain) <= 80 else []
    if len(ends) != 2:
        raise _not_a_length(plain, _PAIR_HINT)
    first, second = (_LENGTH.fullmatch(end) for end in ends)
    if second is None:
        raise _not_a_length(plain, _PAIR_HINT)
    one = _measure(first[1], first[2], plain) if first else _measure(ends[0], second[2], plain)
    return one, _measure(second[1], second[2], plain)


def parse_place(text: str) -> Place:
    """Return ``centre``, ``5 o'clock`` or ``4:30 o'clock``. Raises ValueMistake LB318."""
    plain = clean(text)
    if plain.casefold() in ("centre", "center", "the centre", "middle"):
        return Place(clock=None)
    match = _CLOCK.fullmatch(plain)
    if match is None:
        meant = mend_place(plain)
        hint = f"type `{meant}`; 6 o'clock is nearest the guest" if meant else _PLACE_HINT
        raise ValueMistake("LB318", f"{quote(plain)} is no place on a plate", (hint,))
    hour, minute = int(match[1]), int(match[2] or 0)
    if not 1 <= hour <= 12 or minute > 59:
        raise ValueMistake("LB318", f"{quote(plain)} is not on a clock face", ("type an hour from 1 to 12",))
    clock = hour + Fraction(minute, 60)
    return Place(clock=clock - 12 if clock > 12 else clock)


def _measure(number: str, unit: str, plain: str) -> Fraction:
    try:
        length = parse_number(number) * _UNITS[unit.casefold()]
    except ValueMistake as mistake:
        if mistake.code != "LB301":
            raise
        raise _not_a_length(plain, _HINT) from None
    if not length:
        raise ValueMistake("LB310", f"{quote(plain)} has no length", (_HINT,))
    if length > LONGEST_LENGTH:
        raise ValueMistake("LB316", f"{quote(plain)} is longer than 3 m", (_HINT,))
    return length


def _not_a_length(plain: str, hint: str) -> ValueMistake:
    inches = re.fullmatch(_INCHES, plain)
    meant = mend_two_lengths(plain) or mend_length(plain)
    if meant and len(plain) <= 24:
        hint = f"type `{meant}`"
    elif inches and len(plain) <= 12:
        hint = f"type `{write_number(Fraction(inches[1]) * 254 / 100)} cm`"
    return ValueMistake("LB318", f"{quote(plain)} is not a length in cm or mm", (hint,))
