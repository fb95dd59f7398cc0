"""Runs and marks put together into lines: white space joined, one style run together, two languages parted.

Owns how the words of two languages part: leaf by leaf in the markup, line by line in the block tree. Knows no element.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Final, NamedTuple, TypeAlias

from linebook.documents.text import BETWEEN_LANGUAGES
from linebook.markup.blocks import Inline, Mark, Run, Second

_SPACES: Final = re.compile(r"[ \t\r\n]+")
_ODD_SPACE: Final = re.compile(r"[\t\r\n]")
_MOST_KEPT: Final = 1 << 12
"""Lines and marks. A binder says the same again and again: units, heads, allergens, what is written down."""


class Style(NamedTuple):
    """How words are set, as a ``Run`` has it."""

    bold: bool = False
    italic: bool = False
    quiet: bool = False
    small: bool = False
    lang: str = ""
    key: str = ""


PLAIN: Final = Style()
USUAL: Final = Mark(kind="tick")


@lru_cache(maxsize=256)
def in_bold(style: Style) -> Style:
    """Return a style in bold."""
    return style._replace(bold=True)


@lru_cache(maxsize=256)
def in_regular(style: Style) -> Style:
    """Return a style in regular weight."""
    return style._replace(bold=False)


@lru_cache(maxsize=256)
def in_italics(style: Style) -> Style:
    """Return a style in italics."""
    return style._replace(italic=True)


Piece: TypeAlias = tuple[str, Style] | Mark


class Pair(NamedTuple):
    """The same words in two languages, where the first of them stood."""

    first: list[Piece]
    second: list[Piece]
    lang: str


Gathered: TypeAlias = "tuple[str, Style] | Mark | Pair"


def spaced(text: str) -> str:
    """Return words with their white space run together."""
    return _SPACES.sub(" ", text) if "  " in text or _has_odd_space(text) else text


def _has_odd_space(text: str) -> bool:
    return not text.isprintable() and _ODD_SPACE.search(text) is not None


@lru_cache(maxsize=_MOST_KEPT)
def plain_line(text: str) -> Inline:
    """Return words without a tag as a line."""
    return tidy([(spaced(text), PLAIN)])


@lru_cache(maxsize=_MOST_KEPT)
def mark_of(kind: str, word: str, count: int, width: int) -> Mark:
    """Return a mark: the same one for the same."""
    return Mark(kind=kind, word=word, count=count, width=width)


def plainly(pieces: Sequence[Gathered]) -> list[Piece]:
    """Return what stands in one language."""
    return [piece for piece in pieces if not isinstance(piece, Pair)]


def in_two(pieces: Sequence[Gathered]) -> Inline:
    """Return a line in the first language, and after it all of it in the second, without its marks.

    A line with a blank is written on once: there each language follows the other before the blank.
    """
    first, second, lang = list[Piece](), list[Piece](), ""
    for piece in pieces:
        if isinstance(piece, Pair):
            first += piece.first
            second += piece.second
            lang = lang or piece.lang
        elif isinstance(piece, Mark) and piece.kind == "blank":
            return tidy([one for piece in pieces for one in _along(piece)])
        else:
            first.append(piece)
            second.append(piece)
    line, other = tidy(first), tidy(_lightened(second))
    runs = tuple([run for run in other if isinstance(run, Run)])
    if not runs or _words(runs) == _words(line):
        return line
    return (*line, Second(content=runs, lang=lang))


def _lightened(pieces: Sequence[Piece]) -> list[Piece]:
    """Return words without marks; where all of them are bold, which marks none of them out, in regular weight."""
    words = [piece for piece in pieces if not isinstance(piece, Mark)]
    for text, style in words:
        if not style.bold and any(map(str.isalpha, text)):
            return [*words]
    return [(text, in_regular(style)) for text, style in words]


def _along(piece: Gathered) -> list[Piece]:
    if not isinstance(piece, Pair):
        return [piece]
    plain = piece.first[-1][1] if piece.first and isinstance(piece.first[-1], tuple) else Style()
    second = [(one[0], one[1]._replace(lang=piece.lang)) for one in piece.second if isinstance(one, tuple)]
    return [*piece.first, (BETWEEN_LANGUAGES, in_regular(plain)), *second]


def _words(line: Sequence[Run | Mark | Second]) -> str:
    return "".join([piece.text for piece in line if isinstance(piece, Run)])


def tidy(pieces: Sequence[Piece]) -> Inline:
    """Drop white space at both ends and doubled at joints, join runs of one style, leave out empty ones."""
    kept: list[Piece] = []
    words, set_in, after_space = "", PLAIN, True
    for piece in pieces:
        if not isinstance(piece, tuple):
            if words:
                kept.append((words, set_in))
                words = ""
            kept.append(piece)
            after_space = False
            continue
        text, style = piece
        if after_space and text[:1] == " ":
            text = text[1:]
        if not text:
            continue
        after_space = text[-1] == " "
        if words and (style is set_in or style == set_in):
            words += text
        else:
            if words:
                kept.append((words, set_in))
            words, set_in = text, style
    if words:
        kept.append((words, set_in))
    if after_space:
        _strip_end(kept)
    return one_line(tuple(kept))


@lru_cache(maxsize=_MOST_KEPT)
def one_line(pieces: tuple[Piece, ...]) -> Inline:
    """Return tidy pieces as a line; one that was read before is the same value again, so that it is measured once."""
    return tuple([Run(piece[0], *piece[1]) if isinstance(piece, tuple) else piece for piece in pieces])


def _strip_end(kept: list[Piece]) -> None:
    """Take white space off the end, and a run that was nothing else."""
    while kept and isinstance(last := kept[-1], tuple) and last[0].endswith(" "):
        kept.pop()
        shorter = last[0].rstrip(" ")
        if shorter:
            kept.append((shorter, last[1]))
            return
