"""Finding the words of a sheet by key. Owns placeholders and emphasis; the words are a catalogue's,
or those of two.

In a catalogue ``{name}`` stands for a value and ``**…**`` sets bold. A value is text and is never read for either.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import cache, lru_cache
from typing import Final, TypeAlias

from linebook.documents.catalogue import ENGLISH_CATALOGUE, Catalogue, catalogue_of
from linebook.documents.text import (
    EMPTY,
    Piece,
    Sayable,
    Text,
    emboldened,
    in_two,
    joined,
    unbroken,
    words,
)

_BOLD: Final = "**"
_PLACE: Final = re.compile(r"\{([a-z_]+)\}")
_DAYS_KEPT: Final = 64
"""The day of issue stands on every sheet."""

_Part: TypeAlias = tuple[Piece | None, bool, str]
"""A stretch of a sentence: its own words, whether in bold, and the name of the value after them."""


class Wording:
    """The sentences of one catalogue, or of two side by side. An unknown key or a missing value raises KeyError.

    Whatever is said has a second language where there is a second catalogue, or where a value brings one.
    """

    def __init__(self, catalogue: Catalogue, second: Catalogue | None = None) -> None:
        self.language = catalogue.language
        self.second_language = second.language if second else ""
        self._first = catalogue
        self._second = second
        self._split: dict[str, tuple[_Part, ...]] = {}
        self._said: dict[str, Text] = {}

    @property
    def catalogues(self) -> tuple[Catalogue, Catalogue | None]:
        """Return the catalogues of the first language and of the second, None where there is none."""
        return self._first, self._second

    def __contains__(self, key: str) -> bool:
        return key in self._first.sentences

    def say(self, key: str, **values: Sayable) -> Text:
        """Return the sentence of this key with its values put in."""
        if not values and key in self._said:
            return self._said[key]
        second = self._second.sentences[key] if self._second else ""
        said = self._filled(self._first.sentences[key], second, values)
        if not values:
            self._said[key] = said
        return said

    def told(self, text: str) -> Text:
        """Return what stands on a sheet as text; with the same in the second language where that is known here."""
        return words(text)

    def say_count(self, key: str, count: int, **values: Sayable) -> Text:
        """Return the sentence of ``key.one`` or ``key.many``, in which ``{count}`` is the number.

        Which of them, each language decides for itself.
        """
        second = self._second.counted(key, count) if self._second else ""
        return self._filled(self._first.counted(key, count), second, {"count": count, **values})

    def say_unparted(self, key: str, count: int, **values: Sayable) -> Text:
        """Return a counted sentence whose words never part at a line end."""
        return unbroken(self.say_count(key, count, **values))

    def listed(self, parts: Iterable[Text]) -> Text:
        """Return the parts as a list: commas between."""
        return joined(parts, self.say("list.comma"))

    def separated(self, parts: Iterable[Text]) -> Text:
        """Return parts that have commas of their own: with semicolons between."""
        return joined(parts, self.say("list.semicolon"))

    def named(self, names: Iterable[Text]) -> Text:
        """Return names as a list: with semicolons where a name has a comma of its own."""
        kept = [name for name in names if name]
        return joined(kept, self._between(kept)) if len(kept) > 1 else joined(kept)

    def listed_with_and(self, parts: Iterable[Text]) -> Text:
        """Return the parts as a list with *and* before the last, as it is before that word: Spanish *y*, *e*."""
        kept = [part for part in parts if part]
        if len(kept) < 2:
            return kept[0] if kept else EMPTY
        last = kept[-1]
        word = self._first.sentences[self._first.and_before(last.plain)]
        second = ""
        if self._second:
            second = self._second.sentences[self._second.and_before("".join(piece.words for piece in last.in_second))]
        return joined((self.named(kept[:-1]), last), words(word, second))

    def day(self, day: date) -> Text:
        """Return a day with its weekday, without the year: *Sat 6 March*."""
        return _whole(self, "date.day", day)

    def full_day(self, day: date) -> Text:
        """Return a day with its year: *2 March 2027*."""
        return _whole(self, "date.full", day)

    def _between(self, names: Iterable[Text]) -> Text:
        return self.say("list.semicolon" if any("," in name.both for name in names) else "list.comma")

    def _filled(self, sentence: str, second: str, values: Mapping[str, Sayable]) -> Text:
        pieces: list[Piece] = []
        in_one = not second
        for plain, bold, name in self._split.get(sentence) or self._parts(sentence):
            if plain is not None:
                pieces.append(plain)
            if name:
                value = values[name]
                text = value if isinstance(value, Text) else words(str(value))
                pieces += emboldened(text.first) if bold else text.first
                if text.second is not None:
                    in_one = False
        first = tuple(pieces)
        return Text(first) if in_one else in_two(first, self._in_second(second or sentence, values))

    def _in_second(self, sentence: str, values: Mapping[str, Sayable]) -> tuple[Piece, ...]:
        pieces: list[Piece] = []
        for plain, bold, name in self._parts(sentence):
            if plain is not None:
                pieces.append(plain)
            if name:
                value = values[name]
                said = value.in_second if isinstance(value, Text) else words(str(value)).first
                pieces += emboldened(said) if bold else said
        return tuple(pieces)

    def _parts(self, sentence: str) -> tuple[_Part, ...]:
        if sentence not in self._split:
            self._split[sentence] = tuple(_split(sentence))
        return self._split[sentence]


@lru_cache(_DAYS_KEPT)
def _whole(wording: Wording, key: str, day: date) -> Text:
    said = wording.say(
        key,
        weekday=wording.say(f"weekday.{day.weekday()}"),
        day=day.day,
        month=wording.say(f"month.{day.month}"),
        year=day.year,
    )
    return unbroken(said)


@cache
def english() -> Wording:
    """Return the English wording."""
    return Wording(ENGLISH_CATALOGUE)


def wording_in(languages: Sequence[str]) -> Wording:
    """Return the wording of a house that prints in one language or in two, the first of them first.

    It is the same one each time: what is remembered by it would else be remembered for each print that ``watch`` makes.
    """
    return _wording_in(tuple(languages))


@cache
def _wording_in(languages: tuple[str, ...]) -> Wording:
    first, *more = (catalogue_of(language) for language in languages)
    return Wording(first, more[0] if more else None)


def _split(sentence: str) -> Iterator[_Part]:
    for index, stretch in enumerate(sentence.split(_BOLD)):
        bold, at = index % 2 == 1, 0
        for match in _PLACE.finditer(stretch):
            plain = stretch[at : match.start()]
            yield Piece(plain, bold) if plain else None, bold, match[1]
            at = match.end()
        if at < len(stretch):
            yield Piece(stretch[at:], bold), bold, ""
