"""Finding the words of a sheet by key. Owns placeholders and emphasis; the words are a catalogue's.

In a catalogue ``{name}`` stands for a value and ``**…**`` sets bold. A value is text and is never read for either.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Final, TypeAlias

from linebook.documents.english import ENGLISH
from linebook.documents.text import EMPTY, Piece, Sayable, Text, as_text, emboldened, joined, unparted

_BOLD: Final = "**"
_PLACE: Final = re.compile(r"\{([a-z_]+)\}")


_Part: TypeAlias = tuple[Piece | None, bool, str]
"""A stretch of a sentence: its own words, whether in bold, and the name of the value after them."""


class Wording:
    """A catalogue of sentences. An unknown key or a missing value is a mistake of ours and raises KeyError."""

    def __init__(self, catalogue: Mapping[str, str]) -> None:
        self._catalogue = catalogue
        self._split: dict[str, tuple[_Part, ...]] = {}

    def __contains__(self, key: str) -> bool:
        return key in self._catalogue

    def say(self, key: str, **values: Sayable) -> Text:
        """Return the sentence of this key with its values put in."""
        pieces: list[Piece] = []
        for plain, bold, name in self._parts_of(key):
            if plain is not None:
                pieces.append(plain)
            if name:
                value = as_text(values[name]).first
                pieces.extend(emboldened(value) if bold else value)
        return Text(tuple(pieces))

    def say_count(self, key: str, count: int, **values: Sayable) -> Text:
        """Return the sentence of ``key.one`` or ``key.many``, in which ``{count}`` is the number."""
        return self.say(f"{key}.one" if count == 1 else f"{key}.many", count=count, **values)

    def listed(self, parts: Iterable[Text]) -> Text:
        """Return the parts as a list: commas between."""
        return joined(parts, self.say("list.comma"))

    def named(self, names: Iterable[Text]) -> Text:
        """Return names as a list: with semicolons where a name has a comma of its own."""
        kept = [name for name in names if name]
        return joined(kept, self._between(kept))

    def listed_with_and(self, parts: Iterable[Text]) -> Text:
        """Return the parts as a list with *and* before the last."""
        kept = [part for part in parts if part]
        if len(kept) < 2:
            return kept[0] if kept else EMPTY
        return joined((self.named(kept[:-1]), kept[-1]), self.say("list.and"))

    def day(self, day: date) -> Text:
        """Return a day with its weekday, without the year: *Sat 6 March*."""
        return self._whole("date.day", day)

    def full_day(self, day: date) -> Text:
        """Return a day with its year: *2 March 2027*."""
        return self._whole("date.full", day)

    def _between(self, names: Iterable[Text]) -> Text:
        return self.say("list.semicolon" if any("," in name.plain for name in names) else "list.comma")

    def _whole(self, key: str, day: date) -> Text:
        said = self.say(
            key,
            weekday=self.say(f"weekday.{day.weekday()}"),
            day=day.day,
            month=self.say(f"month.{day.month}"),
            year=day.year,
        )
        return replace(said, first=tuple(replace(piece, words=unparted(piece.words)) for piece in said.first))

    def _parts_of(self, key: str) -> tuple[_Part, ...]:
        if key not in self._split:
            self._split[key] = tuple(_split(self._catalogue[key]))
        return self._split[key]


def english() -> Wording:
    """Return the English wording."""
    return Wording(ENGLISH)


def _split(sentence: str) -> Iterator[_Part]:
    for index, stretch in enumerate(sentence.split(_BOLD)):
        bold, at = index % 2 == 1, 0
        for match in _PLACE.finditer(stretch):
            plain = stretch[at : match.start()]
            yield Piece(words=plain, bold=bold) if plain else None, bold, match[1]
            at = match.end()
        if at < len(stretch):
            yield Piece(words=stretch[at:], bold=bold), bold, ""
