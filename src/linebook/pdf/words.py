"""Words and lines as values: what may not part, where a word may be cut, how words become a line.

Owns the rules of a line end that need no widths but those the words bring. It must not know how a word is measured.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Final, NamedTuple, TypeAlias

from linebook.markup.blocks import Mark
from linebook.pdf.pieces import Setting

_NUMBER_END: Final = re.compile(r"(?:^|[^A-Za-z])[0-9½¼¾⅓⅔⅛⅜⅝⅞]+$")
_LETTER_START: Final = re.compile(r"[^\W\d_]|°|%")
JOINTS: Final = re.compile(r"(?<=[^\W\d_]-)(?=[^\W\d_])|(?<=/)(?=[^\W\d_])|(?<=[—])")

_RUNT: Final = 4
_FEW: Final = 4
"""Letters of a last word that does not stand alone; words a line must have to give one away."""

_LONGEST_TIED: Final = 14
_LONGEST_UNIT: Final = 4
"""Letters. A number keeps the word after it on its line up to the first length, a blank up to the second."""


Part: TypeAlias = tuple[Setting, str | Mark, float]


class Word(NamedTuple):
    """What may not part at a line end; parts are (setting, text or mark, width).

    ``gap`` is the space before it; ``apart`` where that is not as wide as a space is. ``begins`` is not 0 for the
    word that begins a line of its own, where a second language does: how large it is, as a part of its style's size.
    """

    width: float
    gap: float
    gap_setting: Setting
    parts: tuple[Part, ...]
    apart: bool = False
    begins: float = 0.0


class Line(NamedTuple):
    """One line, its width, and what stands on it, each with its distance from the line's start.

    ``part`` is how large it is set, as a part of its style's size.
    """

    width: float
    runs: tuple[tuple[float, tuple[tuple[Setting, str], ...]], ...]
    marks: tuple[tuple[float, Setting, Mark], ...]
    part: float = 1.0


class Passage(list[Word]):
    """The words of a content, never changed, with what is asked of them again and again; points.

    ``natural`` is their width on one line, or on one for each of ``languages``; ``least`` that of the widest word.
    ``broken`` are the lines they were broken into, by the width of these.
    """

    __slots__ = ("_line", "broken", "languages", "least", "natural")

    def __init__(self, words: list[Word]) -> None:
        super().__init__(words)
        if len(words) == 1:  # most cells of tables
            word = words[0]
            self.languages, self.natural, self.least = 1, word.width + word.gap, word.width
        else:
            languages = parted(words)
            self.languages = len(languages)
            self.natural = max([sum([word.width + word.gap for word in one]) for one in languages], default=0.0)
            self.least = max([word.width for word in words], default=0.0)
        self.broken: dict[float, list[Line]] = {}
        self._line: Line | None = None

    @property
    def line(self) -> Line:
        """Return all of them as one line, joined when it is first asked for."""
        if self._line is None:
            self._line = line_of(self, self.natural)
        return self._line


def parted(words: list[Word]) -> list[list[Word]]:
    """Return words cut before each that begins a line of its own: one list for each language, none empty."""
    starts = [at for at, word in enumerate(words) if at and word.begins]
    return [words[start:end] for start, end in pairwise((0, *starts, len(words)))] if words else []


def alike(words: list[Word], others: list[Word]) -> int:
    """Return how many words two lists begin with alike, neither of them ending there: *80* of *80 covers*."""
    most = min(len(words), len(others)) - 1
    return next((at for at in range(most) if _said(words[at]) != _said(others[at])), max(0, most))


def _said(word: Word) -> list[str | Mark]:
    return [content for _, content, _ in word.parts]


def run_on(words: list[Word], more: list[Word]) -> list[Word]:
    """Return words with others after them on the same line; what is in a second language follows what is in a first."""
    if not any(word.begins for word in (*words, *more)):
        return [*words, *more]
    first = [word for one in (words, more) for word in _in_first(one)]
    second = [word for one in (words, more) for word in one[len(_in_first(one)) :]]
    after = more[0] if words and more else None
    size = next(word.begins for word in second if word.begins)
    joints = [
        word._replace(begins=0.0, gap=after.gap, apart=after.apart) if word.begins and after else word
        for word in second
    ]
    return [*first, joints[0]._replace(begins=size, gap=0.0, apart=False), *joints[1:]]


def _in_first(words: list[Word]) -> list[Word]:
    return next((words[:at] for at, word in enumerate(words) if word.begins), words)


def without_runt(lines: list[tuple[list[Word], float]], limit: float) -> list[tuple[list[Word], float]]:
    """Give a last line of one very short word the word before it too."""
    if len(lines) < 2 or len(lines[-1][0]) > 1 or len(lines[-2][0]) < _FEW:
        return lines
    (line, used), ((last,), _) = lines[-2:]
    word = line[-1]
    text = last.parts[-1][1]
    whole = isinstance(text, Mark) or len(last.parts) > 1 or len(text) > _RUNT
    if whole or not last.gap or not word.gap or tied(line[-2], word):
        return lines
    together = word.width + last.gap + last.width
    if together > limit:
        return lines
    return [*lines[:-2], (line[:-1], used - word.gap - word.width), ([word, last], together)]


def tied(first: Word, second: Word) -> bool:
    """Say whether a number, or a blank to write one on, and the unit after it must share a line."""
    text, after = first.parts[-1][1], second.parts[0][1]
    if isinstance(after, Mark) or not second.gap:
        return False
    if isinstance(text, Mark):
        return text.kind == "blank" and len(after) <= _LONGEST_UNIT
    if not text[-1].isdigit() and text[-1] not in "½¼¾⅓⅔⅛":
        return False
    return len(after) <= _LONGEST_TIED and bool(_NUMBER_END.search(text)) and bool(_LETTER_START.match(after))


def has_joint(word: Word) -> bool:
    """Say whether a word of one part may end a line inside, after a hyphen or a stroke between letters."""
    if len(word.parts) != 1:
        return False
    text = word.parts[0][1]
    return isinstance(text, str) and ("-" in text or "/" in text or "—" in text) and JOINTS.search(text) is not None


def line_of(words: list[Word], width: float) -> Line:
    """Join words into as few stretches as their settings allow."""
    plain = _plain(words)
    if plain is not None:
        return Line(width, ((0.0, ((words[0].parts[0][0], plain),)),), ())
    runs: list[tuple[float, tuple[tuple[Setting, str], ...]]] = []
    marks: list[tuple[float, Setting, Mark]] = []
    pieces: list[tuple[Setting, str]] = []
    start = x = 0.0
    for number, word in enumerate(words):
        if number and word.gap:
            if pieces or not word.apart:
                _append(pieces, word.gap_setting, " ")
            x += word.gap
            if word.apart:
                if pieces:
                    runs.append((start, tuple(pieces)))
                    pieces = []
                start = x
        for setting, content, wide in word.parts:
            if isinstance(content, Mark):
                if pieces:
                    runs.append((start, tuple(pieces)))
                    pieces = []
                marks.append((x, setting, content))
                x += wide
                start = x
            else:
                _append(pieces, setting, content)
                x += wide
    if pieces:
        runs.append((start, tuple(pieces)))
    return Line(width, tuple(runs), tuple(marks))


def _plain(words: list[Word]) -> str | None:
    """Return the text of words that are all set alike, with one space between any two; else None."""
    setting = words[0].parts[0][0]
    texts: list[str] = []
    for word in words:
        if len(word.parts) > 1:
            return None
        own, content, _ = word.parts[0]
        if own is not setting or not isinstance(content, str):
            return None
        if texts and (word.apart or not word.gap or word.gap_setting is not setting):
            return None
        texts.append(content)
    return " ".join(texts)


def _append(pieces: list[tuple[Setting, str]], setting: Setting, text: str) -> None:
    if pieces and pieces[-1][0] == setting:
        pieces[-1] = (setting, pieces[-1][1] + text)
    else:
        pieces.append((setting, text))
