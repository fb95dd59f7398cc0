"""Times and temperatures in a chef's words: found, set bold, and kept in one piece. Knows nothing of specs."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from linebook.documents.text import NO_BREAK, Piece, Text, each_language

_NUMBER: Final = r"(?:[0-9]+(?:[.,][0-9]+)?(?:[ \u00a0]?[½⅓⅔¼¾⅛⅜⅝⅞])?|[½⅓⅔¼¾⅛⅜⅝⅞]|[0-9]+/[0-9]+)"
_GAP: Final = r"[ \u00a0]?"
_DEGREES: Final = rf"{_GAP}(?:°|º)(?:{_GAP}[CF])?|{_GAP}(?:℃|℉)"
_TIME: Final = (
    rf"{_GAP}(?:seconds?|secs?|segundos?|s|minut(?:e|o)s?|mins?|min|hours?|hrs?|horas?|h|days?|d[ií]as?|d|weeks?|semanas?)"
    rf"(?:{_GAP}[0-9]+(?:{_GAP}(?:minutes?|mins?|min))?)?"
)
_WEIGHT: Final = rf"{_GAP}(?:kg|g|mg|ml|cl|dl|[lL]|litres?|oz|lb|fl oz|tsp|tbsp|cups?|cm|mm|%)"
_TO: Final = rf"(?:{_GAP}(?:to|a|–|—|-|and|y){_GAP})"
_SIGN: Final = r"[-−–]"

_HOT: Final = re.compile(
    rf"(?<![\w.,/])(?:{_SIGN})?{_NUMBER}(?:{_DEGREES}|{_TIME})?(?:{_TO}(?:{_SIGN})?{_NUMBER})?"
    rf"(?:{_DEGREES}|{_TIME})(?![\w])"
)
_DIGIT: Final = re.compile("[0-9½⅓⅔¼¾⅛⅜⅝⅞]")
_BOTH_ENDS: Final = re.compile(r"([A-Za-z°])\u00a0(to|a|and|y)\u00a0")
_MEASURED: Final = re.compile(rf"(?<![\w.,/]){_NUMBER}{_WEIGHT}(?![\w])")


def emphasised(text: Text) -> Text:
    """Return the text with times and temperatures bold, and no value parted from its unit."""
    return each_language(
        text, lambda pieces: tuple(part for one in pieces for part in emphasised_parts(one.words, one.bold, one.italic))
    )


def emphasised_parts(words: str, bold: bool = False, italic: bool = False) -> Sequence[Piece]:
    """Return words in one style with their times and temperatures bold, and no value parted from its unit."""
    number = _DIGIT.search(words)
    if number is None:  # then there is no value to look for, which takes long
        return (Piece(words, bold, italic),) if words else ()
    parts: list[Piece] = []
    at = 0
    for match in _HOT.finditer(words, max(0, number.start() - 1)):  # it may begin with the sign before the number
        start, end = match.span()
        if start > at:
            parts.append(Piece(_tied(words[at:start]), bold, italic))
        parts.append(Piece(_unparted(words[start:end]), True, italic))
        at = end
    if at < len(words):
        parts.append(Piece(_tied(words[at:]), bold, italic))
    return parts


def _unparted(value: str) -> str:
    """Tie a value to its unit; a range whose two ends have units of their own may part before its *to*."""
    tied = value.replace(" ", NO_BREAK)
    return _BOTH_ENDS.sub(r"\1 \2 ", tied) if _BOTH_ENDS.search(tied) else tied


def _tied(plain: str) -> str:
    if _DIGIT.search(plain) is None:
        return plain
    return _MEASURED.sub(lambda match: match[0].replace(" ", NO_BREAK), plain)
