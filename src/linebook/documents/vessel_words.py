"""How many of a vessel, in words: *3 sixth pans 100 deep*. Owns which words of a vessel's name take the plural."""

from __future__ import annotations

import re
from typing import Final

from linebook.documents.second import vessel_name
from linebook.documents.text import NO_BREAK, Piece, Text, in_two, words
from linebook.documents.wording import Wording
from linebook.model.house import House

_KINDS: Final = (
    *("pan", "tray", "tub", "jar", "bag", "bottle", "pot", "bowl", "tin", "frame", "rack", "jug", "bucket", "sheet"),
    *("mould", "mold", "crate", "barrel", "tank", "kettle", "container", "insert", "bin", "cup", "can", "ramekin"),
    *("box", "dish"),
)
_KIND: Final = rf"[a-z]*(?:{'|'.join(_KINDS)})"
_NAMED: Final = re.compile(rf"\b{_KIND}(?:[ -]{_KIND})*\b", re.IGNORECASE)
"""The first run of such words in a name; its last is what there is one or more of: *bain pot*, *stockpot*."""


def counted_vessels(house: House, vessel: str, count: int, wording: Wording) -> Text:
    """Return so many of a vessel by its name; where its plural is not known, as *3 × name*."""
    name = vessel_name(house, vessel)
    times = wording.say("store.pans-of", count=count, vessel=name)
    if count == 1 and not name.plain[:1].isdigit():
        return wording.say("store.one-pan", vessel=name)
    if count == 1:
        return times
    plural = _plural(name.plain) if wording.language == "en" else None
    second = _plural("".join(piece.words for piece in name.in_second)) if wording.second_language == "en" else None
    first = _pieces(count, plural) if plural else times.first
    if name.second is None and times.second is None and not wording.second_language:
        return Text(first)
    return in_two(first, _pieces(count, second) if second else times.in_second)


def _pieces(count: int, plural: str) -> tuple[Piece, ...]:
    sign = f"×{NO_BREAK}" if plural[:1].isdigit() else ""
    return words(f"{count}{NO_BREAK}{sign}{plural}").first


def _plural(name: str) -> str | None:
    found = _NAMED.search(name)
    if found is None:
        return None
    end = "es" if found[0][-1:].casefold() in ("x", "h") else "s"
    return f"{name[: found.end()]}{end}{name[found.end() :]}"
