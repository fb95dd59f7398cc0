"""What two issues of a sheet say in their second language, so that a difference is told in it too.

A difference is found in the first language. What it names of a sheet has its other words there: *now contains sesame
seeds* is no use to whoever reads the sheet in Spanish. Owns which words belong together.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from linebook.documents.text import Sayable, Text, words
from linebook.documents.wording import Wording
from linebook.markup.blocks import SheetText
from linebook.markup.said import Said, SaidList, SaidRow, SaidText, plain, what_is_said
from linebook.markup.seconds import in_second_language, languages_of
from linebook.markup.turned import LONG, SENTENCE, SHORT, parts_of, shortened

_BETWEEN: Final = (" \u00b7 ", "; ", ": ", ", ")
_FIGURE: Final = re.compile(r"\d+")
_TURNED: Final = ("old", "new")
_WORD: Final = re.compile(r"[^\W\d_]{3}")
"""What is in no language: a number and its unit."""


def spoken_of(wording: Wording, sheets: Iterable[SheetText], names: Mapping[str, str] | None = None) -> Wording:
    """Return a wording that says what stands on these sheets in its second language too, where they do.

    ``names`` are those of the house there, by the first language: a sheet may have them in a list alone.
    """
    if not wording.second_language:
        return wording
    phrases: dict[str, str] = {}
    for sheet in sheets:
        if languages_of(sheet) == (wording.second_language,):
            phrases |= _phrases(sheet)
    phrases = {**(names or {}), **phrases} if phrases else {}
    return _SpokenWording(wording, phrases) if phrases else wording


class _SpokenWording(Wording):
    def __init__(self, wording: Wording, phrases: Mapping[str, str]) -> None:
        super().__init__(*wording.catalogues)
        self._phrases = phrases

    def told(self, text: str) -> Text:
        return words(text, self._other(text))

    def _filled(self, sentence: str, second: str, values: Mapping[str, Sayable]) -> Text:
        said = {name: self.told(value) if isinstance(value, str) else value for name, value in values.items()}
        if self._is_turned_in_first_alone(values, said):
            said |= {name: words(str(values[name])) for name in _TURNED}
        return super()._filled(sentence, second, said)

    def _is_turned_in_first_alone(self, values: Mapping[str, Sayable], said: Mapping[str, Sayable]) -> bool:
        """Return whether what was and is are the same words in the second language, which would then say nothing."""
        if not all(isinstance(values.get(name), str) for name in _TURNED) or values["old"] == values["new"]:
            return False
        was, now = (said[name] for name in _TURNED)
        return isinstance(was, Text) and isinstance(now, Text) and was.in_second == now.in_second

    def _other(self, text: str) -> str:
        """Return a text in the second language, '' where not all of it is known there."""
        if text in self._phrases or not _WORD.search(text):
            return self._phrases.get(text, text)
        for between in _BETWEEN:
            parts = parts_of(text, between)
            if len(parts) > 1:
                others = [self._other(part) for part in parts]
                return between.join(others) if all(others) else ""
        return ""


def _phrases(sheet: SheetText) -> dict[str, str]:
    """Return what a sheet says in its second language by what it says in its first, whole and as it is shortened."""
    whole = [*_heads(sheet), *_pairs(sheet)]
    found: dict[str, str] = {}
    parts = [pair for texts in whole for pair in _parts(*texts)]
    for one, other in (*whole, *parts, *(pair for texts in (*whole, *parts) for pair in _figures(*texts))):
        found.setdefault(one, other)
        for most in (SHORT, LONG):
            found.setdefault(shortened(one, most), shortened(other, most))
    return {one: other for one, other in found.items() if one and other}


def _parts(one: str, other: str) -> Iterator[tuple[str, str]]:
    """Yield the parts of two texts, where they have as many; at no comma, since a sentence may turn round there."""
    firsts, seconds = SENTENCE.split(one), SENTENCE.split(other)
    if len(firsts) == len(seconds) > 1:
        for first, second in zip(firsts, seconds, strict=True):
            yield first, second
            yield from _parts(first, second)
    for between in _BETWEEN[:-1]:
        firsts, seconds = parts_of(one.rstrip("."), between), parts_of(other.rstrip("."), between)
        if len(firsts) == len(seconds) > 1:
            yield from zip(firsts, seconds, strict=True)


def _figures(one: str, other: str) -> Iterator[tuple[str, str]]:
    """Yield the parts between commas that hold the same figures in both languages, by which they are known."""
    firsts, seconds = parts_of(one.rstrip("."), ", "), parts_of(other.rstrip("."), ", ")
    for first, second in zip(firsts, seconds, strict=False) if len(firsts) == len(seconds) > 1 else ():
        if (figures := _FIGURE.findall(first)) and figures == _FIGURE.findall(second):
            yield first, second


def _heads(sheet: SheetText) -> Iterator[tuple[str, str]]:
    other = in_second_language(sheet)
    for part in ("title", "aside", "kicker"):
        yield plain(getattr(sheet, part)), plain(getattr(other, part))


def _pairs(sheet: SheetText) -> Iterator[tuple[str, str]]:
    first, second = what_is_said(sheet), what_is_said(in_second_language(sheet))
    for key, said in first.items():
        if key in second:
            ours, theirs = _texts(said), _texts(second[key])
            yield from ((text, theirs[place]) for place, text in ours.items() if place in theirs)


def _texts(said: Said) -> dict[str, str]:
    """Return all that an item says by where it stands in it."""
    match said:
        case SaidText():
            return {**said.members, "its label": said.label, "its text": said.text}
        case SaidRow():
            cells = enumerate(said.cells)
            places = {
                f"{what} {at}": text for at, one in cells for what, text in (("in", one.text), ("of", one.column))
            }
            return {"its name": said.name, "its prep": said.prep, "its note": said.note, **places}
        case SaidList():
            return {"its label": said.label, **{str(at): text for at, text in enumerate(said.texts)}}
