"""The form of an id: owns the pattern and what to say about an id that does not have it."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import Final

from linebook.model.units import Measures
from linebook.read.fields import Plain
from linebook.source.faults import ValueMistake

ID_PATTERN: Final = "^[a-z0-9]+(-[a-z0-9]+)*$"
MOST_ID_CHARACTERS: Final = 80
_ID: Final = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_OTHER: Final = re.compile(r"[^a-z0-9]+")


@lru_cache(maxsize=2000)  # a house names each of its few hundred ids many times
def is_id(text: str) -> bool:
    """True for lower-case letters, digits and single hyphens between them."""
    return len(text) <= MOST_ID_CHARACTERS and _ID.fullmatch(text) is not None


@lru_cache(maxsize=2000)  # methods have the same few headings
def kebab(text: str) -> str:
    """Return a text as an id: lower case, accents dropped, everything else a hyphen. May be empty."""
    letters = text.casefold()
    if not letters.isascii():
        apart = unicodedata.normalize("NFKD", letters)
        letters = "".join(letter for letter in apart if not unicodedata.combining(letter))
    return _OTHER.sub("-", letters).strip("-")


def parse_id(text: str, measures: Measures | None = None) -> str:  # noqa: ARG001
    """Return an id as typed. Raises ValueMistake LB203."""
    if is_id(text):
        return text
    raise bad_id(text)


def parse_spaced_id(text: str, measures: Measures | None = None) -> str:  # noqa: ARG001
    """Return an id that may be typed with spaces: ``blast chiller`` is ``blast-chiller``. Raises ValueMistake LB203."""
    joined = "-".join(text.split())
    if is_id(joined):
        return joined
    raise bad_id(text)


def bad_id(text: str) -> ValueMistake:
    """Return the mistake of a text that is no id, with the id it is nearest to."""
    shown = text if len(text) <= 60 else text[:59] + "…"
    if len(text) > MOST_ID_CHARACTERS:
        return ValueMistake(
            "LB203", f"`{shown}` is too long for an id", (f"use {MOST_ID_CHARACTERS} characters or fewer",)
        )
    meant = kebab(text)
    hints = (f"write `{meant}`",) if meant else ()
    rule = "an id has only the letters a to z in lower case, digits, and single hyphens between them"
    return ValueMistake("LB203", f"`{shown}` is not an id", (*hints, rule))


ID: Final = Plain(words="an id", parse=parse_id, pattern=ID_PATTERN, numeric=True)
SPACED_ID: Final = Plain(words="an id", parse=parse_spaced_id, pattern="^[a-z0-9]+([- ]+[a-z0-9]+)*$", numeric=True)
