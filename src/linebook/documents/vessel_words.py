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

_RECIPIENTES: Final = frozenset(
    (
        *(
            "recipiente",
            "cubeta",
            "olla",
            "cazo",
            "cazuela",
            "cacerola",
            "rondón",
            "marmita",
            "sartén",
            "bandeja",
            "bol",
        ),
        *("cuenco", "vaso", "jarra", "tarro", "bote", "botella", "biberón", "bolsa", "caja", "cajón", "cubo", "molde"),
        *("marco", "aro", "rejilla", "placa", "lata", "barreño", "tina", "tanque", "garrafa", "barril", "fuente"),
        *(
            "ramequín",
            "flanera",
            "manga",
            "cuba",
            "perol",
            "paellera",
            "balde",
            "barreña",
            "tupper",
            "frasco",
            "tambor",
        ),
    )
)
"""The vessels of a kitchen by their Spanish words."""

_BEFORE_MORE: Final = r"(?i)[^\W\d_]+(?: (?!(?:de|del|con|para|sobre|sin|a|al|en|por|y|o)\b)[^\W\d_]+)*"
"""A Spanish noun and the adjectives after it: up to a number or what it is of."""

_SHORTEST: Final = 3
"""Letters of a word that has a plural."""

_UNSTRESSED: Final = {"ó": "o", "é": "e", "í": "i", "á": "a", "ú": "u"}


def counted_vessels(house: House, vessel: str, count: int, wording: Wording) -> Text:
    """Return so many of a vessel by its name; where its plural is not known, as *3 × name*."""
    name = vessel_name(house, vessel)
    if count == 1 and not name.plain[:1].isdigit():
        return wording.say("store.one-pan", vessel=name)
    times = wording.say("store.pans-of", count=count, vessel=name)
    if count == 1:
        return times
    plural = _plural(name.plain, wording.language)
    first = _pieces(count, plural) if plural else times.first
    if name.second is None and times.second is None and not wording.second_language:
        return Text(first)
    second = _plural("".join(piece.words for piece in name.in_second), wording.second_language)
    return in_two(first, _pieces(count, second) if second else times.in_second)


def _pieces(count: int, plural: str) -> tuple[Piece, ...]:
    sign = f"×{NO_BREAK}" if plural[:1].isdigit() else ""
    return words(f"{count}{NO_BREAK}{sign}{plural}").first


def _plural(name: str, language: str) -> str | None:
    """Return several of what a name names, None where the name has no word that is known in the language."""
    return {"en": _english, "es": _spanish}.get(language, _unknown)(name)


def _english(name: str) -> str | None:
    found = _NAMED.search(name)
    if found is None:
        return None
    end = "es" if found[0][-1:].casefold() in ("x", "h") else "s"
    return f"{name[: found.end()]}{end}{name[found.end() :]}"


def _spanish(name: str) -> str | None:
    """Return a Spanish name with its noun, which stands first, and the adjectives after it in the plural."""
    head = re.match(_BEFORE_MORE, name)
    if head is None or head[0].split()[0].casefold() not in _RECIPIENTES:
        return None
    plural = " ".join(_several_in_spanish(word) for word in head[0].split())
    return f"{plural}{name[head.end() :]}"


def _several_in_spanish(word: str) -> str:
    if len(word) < _SHORTEST:
        return word
    if word[-1] in "aeiouáéó":
        return f"{word}s"
    if word[-1] == "z":
        return f"{word[:-1]}ces"
    if word[-1] in "sx":
        return word
    return f"{word[:-2]}{_UNSTRESSED.get(word[-2], word[-2])}{word[-1]}es"


def _unknown(name: str) -> None:
    del name
