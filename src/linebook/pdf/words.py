"""Words and lines as values: what may not part, where a word may be cut, how words become a line.

Owns the rules of a line end that need no widths but those the words bring. It must not know how a word is measured.
"""

from __future__ import annotations

import re
from itertools import pairwise
from operator import add, itemgetter
from typing import Final, NamedTuple, TypeAlias

from linebook.markup.blocks import Inline, Mark, Run
from linebook.pdf.pieces import Setting, made

NUMBER_ENDS: Final = frozenset("0123456789½¼¾⅓⅔⅛")
_NUMBER_END: Final = re.compile(r"(?:^|[^A-Za-z])[0-9½¼¾⅓⅔⅛⅜⅝⅞]+$")
_LETTER_START: Final = re.compile(r"[^\W\d_]|°|%")
_MAY_TIE: Final = re.compile(r"[0-9½¼¾⅓⅔⅛](?:[ \t\r\n\f\v]|$)")
JOINTS: Final = re.compile(r"(?<=[^\W\d_]-)(?=[^\W\d_])|(?<=/)(?=[^\W\d_])|(?<=[—])")

_RUNT: Final = 4
_FEW: Final = 4
"""Letters of a last word that does not stand alone; words a line must have to give one away."""

_LONGEST_TIED: Final = 14
_LONGEST_UNIT: Final = 4
"""Letters. A number keeps the word after it on its line up to the first length, a blank up to the second."""


_WIDTH: Final = itemgetter(0)
_GAP: Final = itemgetter(1)
"""Of a word: read for each of very many."""

_NONE: Final = frozenset[int]()

Part: TypeAlias = tuple[Setting, str | Mark, float]

Span: TypeAlias = tuple[int, int, float]
"""The words of a line: the first, the one after the last, and the width they take."""


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
    ``broken`` are the lines they were broken into, by the width of these. ``said`` is what each word says where all are
    of one run, each measured between two spaces: a line of them is one stretch of text. ``content`` is what they are
    the words of, where that is in one language and nothing else.
    """

    __slots__ = ("broken", "content", "joined", "languages", "least", "natural", "said")

    def __init__(
        self,
        words: list[Word],
        languages: int | None = None,
        content: Inline | None = None,
        said: list[str] | None = None,
    ) -> None:
        """Keep words; ``languages`` is how many there are where that is known."""
        self.extend(words)
        self.content = content
        self.said = said
        if len(words) == 1:  # most cells of tables
            width, gap, _, _, _, _ = words[0]
            self.languages, self.natural, self.least = 1, width + gap, width
        elif languages == 1:
            self.languages = 1
            self.natural = sum(map(add, map(_WIDTH, words), map(_GAP, words)))
            self.least = max(map(_WIDTH, words), default=0.0)
        else:
            each = parted(words)
            self.languages = len(each)
            self.natural = max([sum([word.width + word.gap for word in one]) for one in each], default=0.0)
            self.least = max([word.width for word in words], default=0.0)
        self.broken: dict[float, list[Line]] = {}
        self.joined: list[Line] | None = None

    def join(self) -> list[Line]:
        """Return all of them as one line, ``joined`` from then on: a list of it alone, never changed."""
        self.joined = [self.line(0, len(self), self.natural)]
        return self.joined

    def line(self, start: int, end: int, width: float) -> Line:
        """Return some of them as a line."""
        if self.said is None:
            return line_of(self[start:end], width)
        setting = self[start].parts[0][0]
        return made(Line, (width, ((0.0, ((setting, " ".join(self.said[start:end])),)),), (), 1.0))

    @property
    def jointed(self) -> bool:
        """Whether a line may end inside a word: asked once for a passage that is broken, not for each word."""
        return self.content is None or any(type(one) is Run and _may_have_joint(one.text) for one in self.content)

    @property
    def bound(self) -> frozenset[int]:
        """The words that stay on the line of the one before them."""
        content = self.content or ()
        texts = [one.text for one in content if isinstance(one, Run)]
        marked = len(texts) < len(content) or not texts
        return bound(self) if marked or any(map(_MAY_TIE.search, texts)) else _NONE


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
    if not max([word.begins for word in (*words, *more)], default=0.0):
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


def bound(words: list[Word]) -> frozenset[int]:
    """Return which words share a line with the one before them."""
    return frozenset(
        [
            at
            for at, (first, second) in enumerate(pairwise(words), 1)
            if (type(last := first[3][-1][1]) is not str or last[-1] in NUMBER_ENDS) and tied(first, second)
        ]
    )


def without_runt(words: list[Word], lines: list[Span], limit: float) -> list[Span]:
    """Give a last line of one very short word the word before it too."""
    if len(lines) < 2:
        return lines
    (start, end, used), (_, count, _) = lines[-2:]
    if count - end > 1 or end - start < _FEW:
        return lines
    before, word, last = words[end - 2 : count]
    text = last.parts[-1][1]
    whole = isinstance(text, Mark) or len(last.parts) > 1 or len(text) > _RUNT
    if whole or not last.gap or not word.gap or tied(before, word):
        return lines
    together = word.width + last.gap + last.width
    if together > limit:
        return lines
    return [*lines[:-2], (start, end - 1, used - word.gap - word.width), (end - 1, count, together)]


def tied(first: Word, second: Word) -> bool:
    """Say whether a number, or a blank to write one on, and the unit after it must share a line."""
    text, after = first.parts[-1][1], second.parts[0][1]
    if isinstance(after, Mark) or not second.gap:
        return False
    if isinstance(text, Mark):
        return text.kind == "blank" and len(after) <= _LONGEST_UNIT
    if text[-1] not in NUMBER_ENDS:
        return False
    return len(after) <= _LONGEST_TIED and bool(_NUMBER_END.search(text)) and bool(_LETTER_START.match(after))


def has_joint(word: Word) -> bool:
    """Say whether a word of one part may end a line inside, after a hyphen or a stroke between letters."""
    if len(word.parts) != 1:
        return False
    text = word.parts[0][1]
    return isinstance(text, str) and _may_have_joint(text) and JOINTS.search(text) is not None


def _may_have_joint(text: str) -> bool:
    return "-" in text or "/" in text or "—" in text


def line_of(words: list[Word], width: float) -> Line:
    """Join words into as few stretches as their settings allow."""
    runs: list[tuple[float, tuple[tuple[Setting, str], ...]]] = []
    marks: list[tuple[float, Setting, Mark]] = []
    pieces: list[tuple[Setting, str]] = []
    current, said = None, ""  # the last piece, which may still grow
    start = x = 0.0
    for number, (_, gap, gap_setting, parts, apart, _) in enumerate(words):
        if number and gap:
            if gap_setting is current or gap_setting == current:
                said += " "
            elif current is not None or not apart:
                if current is not None:
                    pieces.append((current, said))
                current, said = gap_setting, " "
            x += gap
            if apart:
                if current is not None:
                    runs.append((start, (*pieces, (current, said))))
                    pieces, current = [], None
                start = x
        for setting, content, wide in parts:
            if isinstance(content, str):
                if setting is current or setting == current:
                    said += content
                else:
                    if current is not None:
                        pieces.append((current, said))
                    current, said = setting, content
                x += wide
                continue
            if current is not None:
                runs.append((start, (*pieces, (current, said))))
                pieces, current = [], None
            marks.append((x, setting, content))
            x += wide
            start = x
    if current is not None:
        runs.append((start, (*pieces, (current, said))))
    return made(Line, (width, tuple(runs), tuple(marks), 1.0))
