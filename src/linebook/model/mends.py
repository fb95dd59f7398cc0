"""What a chef most likely meant by a text that cannot be read: guesses for hints, never used to read a value.

Each function returns the text to type instead, or "" where nothing is likely. It knows no units: who reads an amount
tries a guess out before it is shown. Patterns are compiled when first used, as a sound house never needs them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from linebook.source.exact import Fraction

_NUMBER: Final = r"[0-9]+(?:\.[0-9]+)?"
_DRESSED: Final = r"(?i)[£$€x×+~]? ?([0-9]+(?:\.[0-9]+)?) ?(?:[£$€x×°%]|-|deg(?:rees)?\.?)?"
_LONGEST: Final = 12

_COUNTED: Final[dict[str, str]] = {
    **{"a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7"},
    **{"eight": "8", "nine": "9", "ten": "10", "eleven": "11", "twelve": "12", "half": "1/2", "a half": "1/2"},
    **{"half a": "1/2", "half an": "1/2", "a quarter": "1/4", "quarter": "1/4", "a third": "1/3", "a dozen": "12"},
}
_WORDED: Final = rf"(?i)({'|'.join(sorted(_COUNTED, key=len, reverse=True))})(?: of)?(?: (?:a|an))? +(.+)"
_ABOUT: Final = r"(?i)(?:about|approx\.?|approximately|ca\.?|circa|around|roughly|up to|max\.?|min\.?) +(.+)"
_OTHER_AMOUNT: Final = r"(.+?) *(?:\(.*\)?|[/=] *[0-9].*[A-Za-z].*)"
_NOUGHT: Final = r"(?<=[0-9])[oO](?![a-zA-Z])|(?<![a-zA-Z0-9])[oO](?=[0-9.])|(?<=[0-9])[oO](?=[oO0-9])"
_UP_TO_THE_COOK: Final = (
    r"(?i)some|a little|a bit|as (?:needed|required|necessary)|q\.? ?s\.?|t\.? ?t\.?|(?:to |for )?season(?:ing)?|enough"
)
_OF: Final = r"(?P<percent>[0-9.]+ ?%) +of +(?:the +)?(?P<item>[A-Za-z][A-Za-z0-9 -]*)"
_PRICE: Final = r"[^0-9]{0,4}(?P<money>[0-9]+(?:\.[0-9]+)?)[^0-9/a-z]*(?:/|per|an?|each|the)? *(?P<what>.*)"

_LENGTHS: Final[dict[str, str]] = {
    **{"half an hour": "30 min", "a half hour": "30 min", "half hour": "30 min", "a quarter of an hour": "15 min"},
    **{"an hour": "1 h", "one hour": "1 h", "a day": "1 d", "one day": "1 d", "two days": "2 d", "three days": "3 d"},
    **{"a week": "7 d", "one week": "7 d", "two weeks": "14 d", "a fortnight": "14 d", "two hours": "2 h"},
    **{"an hour and a half": "1 h 30 min", "a minute": "1 min", "one minute": "1 min"},
}
_CLOCK: Final = r"(?i)([0-9]{1,2})(?:[:.h]?([0-9]{2}))? ?(?:([ap])\.?m\.?|h|o'clock)?"

_HOURS: Final = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_HALF_PAST: Final = r"(?i)half(?: past)? ([a-z0-9]+)(?: ?o'?clock)?"
_QUARTER: Final = r"(?i)(?:a )?quarter (past|to) ([a-z0-9]+)(?: ?o'?clock)?"
_ON_THE_FACE: Final = r"(?i)(?:at )?([a-z]+|[0-9]{1,2})(?:[.:h]([0-9]{2}))? ?(?:o'?clock|[ap]\.?m\.?|h)?"
_SIDES: Final[dict[str, int]] = {
    **{"bottom": 6, "front": 6, "near": 6, "south": 6, "top": 12, "back": 12, "far": 12, "north": 12},
    **{"left": 9, "west": 9, "right": 3, "east": 3},
}
_FACE: Final[dict[tuple[int, ...], str]] = {
    (6,): "6",
    (12,): "12",
    (3,): "3",
    (9,): "9",
    (6, 9): "7:30",
    (3, 6): "4:30",
    (9, 12): "10:30",
    (3, 12): "1:30",
}
_TWO_LENGTHS: Final = r"(?i)([0-9.]+) ?(mm|cm)? ?[x×*] ?([0-9.]+) ?(mm|cm)?"


def mend_number(plain: str) -> str:
    """Return the one number in a text such as ``£26``, ``12°`` or ``x1.8``; of a percentage, the part of one it is."""
    found = re.fullmatch(_DRESSED, plain)
    if found is None or len(plain) > _LONGEST:
        return ""
    return _decimal(Fraction(found[1]) / 100) if plain.endswith("%") else found[1]


def mend_percent(plain: str) -> str:
    """Return ``5 %`` for ``5`` and for ``0.05``: below one it was typed as a part of one."""
    if not re.fullmatch(_NUMBER, plain) or len(plain) > _LONGEST:
        return ""
    number = Fraction(plain)
    return f"{_decimal(number * 100 if 0 < number < 1 else number)} %"


def mend_amount(plain: str) -> Iterator[str]:
    """Yield what may have been meant by a text that is no amount, likeliest first; the reader must try each out."""
    if len(plain) > _LONGEST * 4:
        return
    worded, about, other = re.fullmatch(_WORDED, plain), re.fullmatch(_ABOUT, plain), re.fullmatch(_OTHER_AMOUNT, plain)
    if worded:
        yield f"{_COUNTED[worded[1].casefold()]} {worded[2]}"
    if about:
        yield about[1]
    if re.search(_NOUGHT, plain):
        yield re.sub(_NOUGHT, "0", plain)
    if other:
        yield other[1]
    if plain.casefold() in _COUNTED:
        yield f"{_COUNTED[plain.casefold()]} each"


def is_up_to_the_cook(plain: str) -> bool:
    """Return whether a text such as ``as needed`` leaves an amount to the cook, which is written ``to taste``."""
    return re.fullmatch(_UP_TO_THE_COOK, plain) is not None


def mend_percent_of(plain: str) -> str:
    """Return the two fields that ``1.1 % of celeriac`` is."""
    found = re.fullmatch(_OF, plain)
    return f"amount: {found['percent']}, of: {'-'.join(found['item'].lower().split())}" if found else ""


def mend_price(plain: str) -> str:
    """Return ``14.50 per kg`` for ``£14.50/kg``; the reader must try it out."""
    found = re.fullmatch(_PRICE, plain)
    return f"{found['money']} per {found['what'].strip() or 'each'}" if found else ""


def mend_duration(plain: str) -> str:
    """Return figures for a length of time in words."""
    return _LENGTHS.get(plain.casefold(), "")


def mend_time(plain: str) -> str:
    """Return a time of day in 24 hours for ``5.30pm``, ``9`` or ``0930``."""
    found = re.fullmatch(_CLOCK, plain)
    if found is None:
        return ""
    hour, minute = int(found[1]), int(found[2] or 0)
    if found[3] and not 1 <= hour <= 12:
        return ""
    if found[3]:
        hour = hour % 12 + (12 if found[3] in "pP" else 0)
    return f"{hour:02d}:{minute:02d}" if hour < 24 and minute < 60 else ""


def mend_place(plain: str) -> str:
    """Return ``5:30 o'clock`` for ``half past 5``, and the hour of a side such as ``bottom left``."""
    text = plain.replace("’", "'").casefold()
    half, quarter, face = re.fullmatch(_HALF_PAST, text), re.fullmatch(_QUARTER, text), re.fullmatch(_ON_THE_FACE, text)
    if half and (hour := _hour(half[1])):
        return f"{hour}:30 o'clock"
    if quarter and (hour := _hour(quarter[2])):
        return f"{hour}:15 o'clock" if quarter[1] == "past" else f"{(hour - 2) % 12 + 1}:45 o'clock"
    if face and (hour := _hour(face[1])) and int(face[2] or 0) < 60:
        return f"{hour}:{face[2]} o'clock" if face[2] and int(face[2]) else f"{hour} o'clock"
    sides = tuple(sorted({_SIDES[word] for word in re.split(r"[ -]+", text) if word in _SIDES}))
    return f"{_FACE[sides]} o'clock" if sides in _FACE else ""


def mend_length(plain: str) -> str:
    """Return ``28 cm`` for ``28``: a plate is given in cm."""
    return f"{plain} cm` or `{plain} mm" if re.fullmatch(_NUMBER, plain) else ""


def mend_two_lengths(plain: str) -> str:
    """Return ``78 x 26 mm`` for ``78 x 26`` or ``78 * 26 mm``."""
    found = re.fullmatch(_TWO_LENGTHS, plain)
    if found is None:
        return ""
    unit = found[4] or found[2]
    if unit:
        return f"{found[1]} x {found[3]} {unit}"
    return f"{found[1]} x {found[3]} mm` or `{found[1]} x {found[3]} cm"


def _hour(word: str) -> int:
    """Return an hour from 1 to 12, or 0."""
    if word in _HOURS:
        return _HOURS.index(word) + 1
    return int(word) if word.isdigit() and 1 <= int(word) <= 12 else 0


def _decimal(number: Fraction) -> str:
    return f"{float(number):.6g}"
