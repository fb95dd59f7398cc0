"""What stands in braces in a method: an ingredient, a part of one, or an amount that never scales."""

from __future__ import annotations

import re
from typing import Final

from linebook.model.body import AmountOf, Fixed
from linebook.model.quantities import parse_number, parse_percent
from linebook.read.ids import is_id, kebab
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.spans import Span

_ALL: Final = Fraction(1)
_WORDED: Final = {
    "half": Fraction(1, 2),
    "a half": Fraction(1, 2),
    "one half": Fraction(1, 2),
    "a third": Fraction(1, 3),
    "one third": Fraction(1, 3),
    "two thirds": Fraction(2, 3),
    "a quarter": Fraction(1, 4),
    "one quarter": Fraction(1, 4),
    "three quarters": Fraction(3, 4),
}
# Compiled when braces are wrong, which in most houses none are.
_PART_OF: Final = r"(?P<part>[0-9]+ ?/ ?[0-9]+|[½⅓⅔¼¾]|[0-9]+ ?%) *(?:(?:of|de|del) )?(?P<item>[^\W\d_].*)"
_AMOUNT: Final = r"(?i)[0-9½⅓⅔¼¾][0-9./ ½⅓⅔¼¾]*(?:g|kg|mg|ml|cl|dl|l|oz|lb|tsp|tbsp|cups?|pieces?|each)"
_FORMS: Final = "write `{butter}`, `{1/3 of butter}` or `{fixed 2 L}`"


def read_brace(inside: str, span: Span, *, strong: bool) -> AmountOf | Fixed:
    """Return what braces mean; ``span`` covers the braces too.

    Raises ValueMistake LB214 (no ingredient can be named so), LB316 (more than all of it), LB301 or LB303 (the part).
    """
    plain = " ".join(inside.split())
    if plain == "fixed" or plain.startswith("fixed "):
        if plain == "fixed":
            raise ValueMistake("LB214", "`{fixed}` has no amount", ("write the amount inside: `{fixed 2 L}`",))
        return Fixed(text=plain.removeprefix("fixed "), span=span)
    before, of, after = plain.rpartition(" of ")
    item = after if of else plain
    if not is_id(item):
        raise _no_item(plain, item)
    return AmountOf(item=item, part=_part(before, item) if of else _ALL, strong=strong, span=span)


def _part(text: str, item: str) -> Fraction:
    if text.casefold() in _WORDED:
        return _WORDED[text.casefold()]
    part = parse_percent(text) if text.endswith("%") else parse_number(text)
    if not 0 < part <= 1:
        hint = f"write `{{{item}}}` for all of it, or a part such as `{{1/3 of {item}}}`"
        raise ValueMistake("LB316", f"`{text} of {item}` is not a part of it", (hint,))
    return part


def _meant(plain: str, item: str) -> str:
    """Return what the braces were most likely to hold: an amount that never scales, a part, or an id."""
    part, amount = re.fullmatch(_PART_OF, plain), re.fullmatch(_AMOUNT, plain)
    if part and (near := kebab(part["item"])):
        return f"{part['part'].strip()} of {near}"
    if amount:
        return f"fixed {plain}"
    words = item.strip("{}").split()
    return f"{plain.removesuffix(item)}{kebab(item)}" if words and len(words) <= 3 else ""


def _no_item(plain: str, item: str) -> ValueMistake:
    if not plain:
        return ValueMistake("LB214", "these braces are empty", (_FORMS,))
    shown = plain if len(plain) <= 60 else plain[:59] + "…"
    meant = _meant(plain, item) if len(plain) <= 60 else ""
    hints = (f"write `{{{meant}}}`",) if meant else ()
    if not meant:
        hints = ("if the `}` is missing, type it after the ingredient's id",) if len(plain.split()) > 3 else ()
    return ValueMistake("LB214", f"`{{{shown}}}` does not name an ingredient by its id", (*hints, _FORMS))
