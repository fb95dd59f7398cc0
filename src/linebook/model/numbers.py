"""Numbers as cooks write them, read exactly and written again: ``3``, ``2.5``, ``1/2``, ``1 1/2``, ``1½``.

Knows nothing of units. Whatever can be read in two ways is refused with both readings.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final

from linebook.model.mends import mend_number
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

MOST_DIGITS: Final = 12
_MOST_SHOWN: Final = 40
_LARGEST_PART: Final = 16

VULGAR: Final = {
    **{"½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4), "¾": Fraction(3, 4)},
    **{"⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5), "⅘": Fraction(4, 5), "⅙": Fraction(1, 6)},
    **{"⅚": Fraction(5, 6), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8)},
}
_VULGAR_CLASS: Final = "".join(VULGAR)
NUMBER_START: Final = f"0-9{_VULGAR_CLASS}"

_DECIMAL: Final = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_SLASHED: Final = re.compile(r"(?:([0-9]+) +)?([0-9]+) *[/⁄] *([0-9]+)")
_WITH_VULGAR: Final = rf"([0-9]+)? *([{_VULGAR_CLASS}])"
_GROUPED: Final = r"[1-9][0-9]{0,2}(?:[ _'’][0-9]{3})+"
_POWER: Final = r"[0-9]+(?:\.[0-9]+)?[eE][+-]?[0-9]{1,3}"
_HYPHENED: Final = r"([0-9]+)[-–]([0-9]+/[0-9]+)"
_COMMA: Final = r"[0-9]+(?:,[0-9]+)+(?:\.[0-9]+)?"

# The fractions that measuring cups and spoons are made in.
_KITCHEN_FRACTIONS: Final = frozenset(Fraction(text) for text in ("1/8", "1/4", "1/3", "3/8", "1/2", "2/3", "3/4"))


def parse_number(text: str) -> Fraction:
    """Return the number a chef wrote, exactly; never negative.

    Raises ValueMistake LB301 (not a number), LB303 (a comma, so two readings), LB310 (below nothing), LB316 (too long).
    """
    plain = clean(text)
    if len(plain) > MOST_DIGITS and sum(letter.isdigit() for letter in plain) > MOST_DIGITS:
        raise ValueMistake(
            "LB316", f"{quote(plain)} has more than {MOST_DIGITS} digits", ("type a shorter number in a larger unit",)
        )
    if _DECIMAL.fullmatch(plain):
        return _decimal(plain)
    slashed = _SLASHED.fullmatch(plain)
    if slashed:
        _refuse_two_numbers(plain, *slashed.groups())
        return _fraction(plain, *slashed.groups())
    vulgar = re.fullmatch(_WITH_VULGAR, plain)
    if vulgar:
        return int(vulgar[1] or 0) + VULGAR[vulgar[2]]
    raise _not_a_number(plain)


def write_number(number: Fraction, *, fractions: bool = False) -> str:
    """Return the number as text that reads back to exactly the same.

    Decimals where four places or fewer say it all, else a whole number and a fraction; with ``fractions`` the
    kitchen fractions (1/8, 1/4, 1/3, 3/8, 1/2, 2/3, 3/4) are written as such.
    """
    top, bottom = number.as_integer_ratio()
    if top < 0:
        return "-" + write_number(-number, fractions=fractions)
    whole, over = divmod(top, bottom)
    if not over:
        return str(whole)
    part = Fraction(over, bottom)
    if 10**4 % bottom == 0 and not (fractions and part in _KITCHEN_FRACTIONS):
        return f"{whole}.{over * 10**4 // bottom:04d}".rstrip("0")
    return f"{whole} {part}" if whole else str(part)


def clean(text: str) -> str:
    """Return text without outer, doubled and typographic spaces."""
    return " ".join(text.split())


def quote(text: str) -> str:
    """Return a chef's text in backticks, shortened where it is long."""
    plain = clean(text)
    return f"`{plain}`" if len(plain) <= _MOST_SHOWN else f"`{plain[: _MOST_SHOWN - 1]}…`"


@lru_cache(maxsize=2000)  # a house has the same few hundred numbers over and over
def _decimal(plain: str) -> Fraction:
    if len(plain) > 1 and plain[0] == "0" and plain[1] != ".":
        bare = plain.lstrip("0") or "0"
        bare = f"0{bare}" if bare.startswith(".") else bare
        hints = (
            (f"type `{bare}`, or `0.{plain[1:]}` if a point is missing",) if "." not in plain else (f"type `{bare}`",)
        )
        raise ValueMistake("LB301", f"{quote(plain)} starts with a nought that does not belong there", hints)
    whole, _, part = plain.partition(".")
    return Fraction(int(whole + part), 10 ** len(part)) if part else Fraction(int(whole))


def _refuse_two_numbers(plain: str, whole: str | None, top: str, bottom: str) -> None:
    """A stroke with spaces round it is also how cooks write *this or that*: ``35 / 45 min`` is hardly 7/9 of one."""
    if whole is None and " " in plain and int(bottom) > _LARGEST_PART:
        hints = (f"type `{top}/{bottom}` without spaces if it is a fraction, or one number",)
        raise ValueMistake("LB303", f"{quote(plain)} can be a fraction or two numbers", hints)


def _fraction(plain: str, whole: str | None, top: str, bottom: str) -> Fraction:
    if not int(bottom):
        raise ValueMistake("LB301", f"{quote(plain)} divides by nothing", ("type a fraction such as `1/2`",))
    part = Fraction(int(top), int(bottom))
    if whole is None:
        return part
    if part >= 1:
        hint = f"type `{write_number(int(whole) + part, fractions=True)}` if that is what is meant"
        raise ValueMistake("LB301", f"the fraction in {quote(plain)} is not less than one", (hint,))
    return int(whole) + part


def _not_a_number(plain: str) -> ValueMistake:
    shown = quote(plain)
    if plain[:1] in ("-", "−", "–") and plain[1:2].isdigit():
        return ValueMistake("LB310", f"{shown} is less than nothing", (f"type `{plain[1:]}`",))
    if re.fullmatch(_COMMA, plain):
        return _two_readings(plain)
    if re.fullmatch(_GROUPED, plain):
        return ValueMistake("LB301", f"{shown} is written in groups", (f"type `{re.sub('[^0-9]', '', plain)}`",))
    if re.fullmatch(_POWER, plain):
        return ValueMistake("LB301", f"{shown} is not a number a cook can weigh", ("write the number out in full",))
    hyphened = re.fullmatch(_HYPHENED, plain)
    if hyphened:
        hint = f"type `{hyphened[1]} {hyphened[2]}` with a space"
        return ValueMistake("LB303", f"{shown} can be one number or a range", (hint,))
    if plain.startswith(".") and plain[1:].isdigit():
        return ValueMistake("LB301", f"{shown} has nothing before its point", (f"type `0{plain}`",))
    if plain.endswith(".") and plain[:-1].isdigit():
        return ValueMistake("LB301", f"{shown} has nothing after its point", (f"type `{plain[:-1]}`",))
    if not plain:
        return ValueMistake("LB301", "a number is missing", ("type a number such as `3`, `2.5` or `1 1/2`",))
    meant = mend_number(plain)
    hint = f"type `{meant}`" if meant else "type a number such as `3`, `2.5`, `1/2` or `1 1/2`"
    return ValueMistake("LB301", f"{shown} is not a number", (hint,))


def _two_readings(plain: str) -> ValueMistake:
    joined = plain.replace(",", "")
    whole, _, part = plain.partition(",")
    pointed = f"{whole}.{part.rstrip('0')}".rstrip(".")
    if "," in part or "." in plain:
        return ValueMistake("LB303", f"{quote(plain)} has a comma in it", (f"type `{joined}` without the comma",))
    return ValueMistake(
        "LB303",
        f"{quote(plain)} can be read as {pointed} or as {joined}",
        (f"type `{pointed}` with a point, or `{joined}` without the comma",),
    )
