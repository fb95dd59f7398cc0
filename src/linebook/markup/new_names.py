"""An old issue of a sheet in which everything has the name it has now, so that what is called otherwise is told once.

*A portion: no longer Beetroot, now also Beets* is no news to a cook who reads that Beetroot is now called Beets. Knows
no wording.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from functools import lru_cache
from typing import Any, Final, TypeVar, cast

from linebook.documents.text import Text
from linebook.markup.blocks import Second, SheetText

T = TypeVar("T")
_WORDS: Final = ("text", "alternative", "word")
"""The fields of a block that hold what is read: a run's, a drawing's and a mark's."""
Renamed = tuple[Text, Text]
"""What something was called and is called, each in the first language and in the second."""


def under_new_names(sheet: SheetText, renames: Sequence[Renamed]) -> tuple[SheetText, tuple[Renamed, ...]]:
    """Return a sheet, but for its head, with names replaced by those of now, and which of them stood on it."""
    found = []
    for old, new in sorted(renames, key=lambda pair: -len(pair[0].plain)):
        first = (old.plain, new.plain)
        second = (_second(old), _second(new))
        blocks = _replaced(sheet.blocks, first, second)
        if blocks != sheet.blocks:
            sheet = replace(sheet, blocks=blocks)
            found.append((old, new))
    return sheet, tuple(found)


@lru_cache(64)
def _whole(name: str) -> re.Pattern[str]:
    """Return what finds a name that is no part of another: *Pressed hock* is none in *Pressed hock terrine*."""
    return re.compile(
        rf"(?:(?<=^)|(?<=[(])|(?<=[^\WA-Z_] )|(?<=[,;:] )){re.escape(name)}(?=[,;:.)]| \(|$)", re.MULTILINE
    )


def _second(text: Text) -> str:
    return "".join(piece.words for piece in text.in_second)


def _replaced(value: T, names: tuple[str, str], seconds: tuple[str, str]) -> T:
    if isinstance(value, tuple):
        return cast(T, tuple(_replaced(one, names, seconds) for one in value))
    if not is_dataclass(value) or isinstance(value, type):
        return value
    whole: Any = value
    if isinstance(value, Second):
        names = seconds
    changed: dict[str, Any] = {}
    for one in fields(whole):
        own = getattr(whole, one.name)
        if isinstance(own, tuple):
            changed[one.name] = _replaced(own, names, seconds)
        elif one.name in _WORDS and isinstance(own, str):
            changed[one.name] = _whole(names[0]).sub(names[1].replace("\\", r"\\"), own)
        elif is_dataclass(own) and not isinstance(own, type):
            changed[one.name] = _replaced(own, names, seconds)
    return cast(T, replace(whole, **changed))
