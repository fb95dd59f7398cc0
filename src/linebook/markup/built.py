"""What the code of a shipped template builds its sheet with: texts of a view → lines, cells and rows, without markup.

It gives what ``reader`` gives of the same template's text. What that would complain of, and anything unusual, raises
``NotPlain``: the template is run for its text then, which is read with care. Knows no template and no document.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any, Final, TypeAlias, TypeVar

from linebook.documents.text import BETWEEN_LANGUAGES, Text
from linebook.documents.text import Piece as TextPiece
from linebook.documents.wording import Wording
from linebook.markup.blocks import Cell, Inline, Mark, Row, Run, Second
from linebook.markup.unusual import UNUSUAL, NotPlain
from linebook.markup.vocabulary import MARKS, MOST_COLUMNS
from linebook.markup.woven import (
    PLAIN,
    USUAL,
    Gathered,
    Pair,
    Piece,
    Style,
    in_bold,
    in_italics,
    in_two,
    mark_of,
    one_line,
    spaced,
    tidy,
)

V = TypeVar("V")

_MOST_KEPT: Final = 1 << 13
_MOST_TURNS: Final = 20_000
"""Turns of the loops of one sheet; of a longer one the text is written, and its length looked at."""
_LONGEST: Final = 10_000
"""Characters of one text, for the same reason."""
_Shown: TypeAlias = tuple[str, bool, bool]
"""The words of a piece, whether they are bold, and in italics."""
_AROUND: Final = " \t\r\n"


class Built:
    """Makes the lines of sheets in one language or two, and their cells.

    A line is found again by what it says, and is the same value each time. So a cell is found by the identity of its
    lines, which costs less than their value: it holds them, so that no others take their place. What a cell
    or a mark is made of alone is mostly the same value, too, and is held so.
    """

    def __init__(self, wording: Wording) -> None:
        self.wording = wording
        self._cells: dict[int, tuple[object, Cell]] = {}
        self._full: dict[object, Cell] = {}
        self._signs: dict[tuple[str, int], tuple[object, Inline]] = {}
        self._turns = 0

    def begin(self) -> None:
        """Count the turns of loops from nothing: one sheet is about to be built."""
        self._turns = 0

    def turns(self, value: Any) -> tuple[Any, ...]:
        """Return what a loop goes over: a list of the view."""
        if type(value) is not tuple:
            raise NotPlain("a loop over no list")
        self._turns += len(value)
        if self._turns > _MOST_TURNS:
            raise NotPlain("a long sheet")
        return value

    def line(self, value: object) -> Inline:
        """Return a text, word or number as a line of its own."""
        if isinstance(value, Text) and value.second is None and len(value.first) == 1:
            piece = value.first[0]  # as most texts are
            return _short(piece.words, piece.bold, piece.italic)
        return self.styled(value, PLAIN)

    def styled(self, value: object, style: Style) -> Inline:
        """Return the same in a style."""
        if not isinstance(value, Text):
            return _short(_word(value), False, False, style)
        first = _shown(value.first)
        if value.second is None:
            return _said(first, style)
        return _said_in_two(first, _shown(value.second), style, self._second_language())

    def cell(self, value: object) -> Cell:
        """Return a cell with a text, word or number and nothing else."""
        known = self._cells.get(id(value)) or _keep(self._cells, id(value), (value, self.cell_of(self.line(value))))
        return known[1]

    def cell_of(self, content: Inline, note: Inline = (), scope: str = "", span: int = 1) -> Cell:
        """Return a cell; one with the same lines is the same one each time."""
        place: object = (id(content), id(note), scope, span) if note or scope or span != 1 else id(content)
        known = self._full.get(place)
        if known is None:
            known = _keep(self._full, place, Cell(content, note, scope, span))
        return known

    def sign(self, kind: str, value: object) -> Inline:
        """Return a line of one mark that is said aloud as a text is."""
        place = (kind, id(value))
        known = self._signs.get(place) or _keep(self._signs, place, (value, alone(mark(kind, self.line(value)))))
        return known[1]

    def put(self, into: list[Gathered], value: object, style: Style) -> None:
        """Add a text, word or number to what becomes a line."""
        if not isinstance(value, Text):
            into.append((sound(_word(value)), style))
            return
        if value.second is None:
            _add(into, _shown(value.first), style)
        else:
            first, second = _pieces(_shown(value.first), style), _pieces(_shown(value.second), style)
            into.append(Pair(first, second, self._second_language()))

    def _second_language(self) -> str:
        if lang := self.wording.second_language:
            return lang
        raise NotPlain("a second language without its name")


def _keep(kept: dict[Any, V], place: object, made: V) -> V:
    if len(kept) >= _MOST_KEPT:
        kept.clear()
    kept[place] = made
    return made


def woven(pieces: Sequence[Gathered]) -> Inline:
    """Return gathered pieces as a line."""
    for piece in pieces:
        if type(piece) is Pair:
            return in_two(pieces)
    plain: Any = pieces
    return tidy(plain)


@lru_cache(maxsize=_MOST_KEPT)
def _short(words: str, bold: bool, italic: bool, style: Style = PLAIN) -> Inline:
    """Return the line that one piece is in one language: many texts say the same."""
    kept = sound(words).strip(" ")
    return one_line(((kept, _set_in(style, bold, italic)),)) if kept else ()


@lru_cache(maxsize=_MOST_KEPT)
def _said(pieces: tuple[_Shown, ...], style: Style) -> Inline:
    return tidy(_pieces(pieces, style))


@lru_cache(maxsize=_MOST_KEPT)
def _said_in_two(first: tuple[_Shown, ...], second: tuple[_Shown, ...], style: Style, lang: str) -> Inline:
    return in_two([Pair(_pieces(first, style), _pieces(second, style), lang)])


def _shown(pieces: Iterable[TextPiece]) -> tuple[_Shown, ...]:
    return tuple([(piece.words, piece.bold, piece.italic) for piece in pieces])


def _pieces(pieces: Iterable[_Shown], style: Style) -> list[Piece]:
    made: list[Piece] = []
    _add(made, pieces, style)
    return made


def _add(into: list[Any], pieces: Iterable[_Shown], style: Style) -> None:
    for words, bold, italic in pieces:
        if kept := sound(words):
            into.append((kept, _set_in(style, bold, italic) if bold or italic else style))


def _set_in(style: Style, bold: bool, italic: bool) -> Style:
    own = in_bold(style) if bold else style
    return in_italics(own) if italic else own


@lru_cache(maxsize=_MOST_KEPT)
def sound(words: str) -> str:
    """Return words with their white space run together; NotPlain for characters no sheet may hold."""
    if len(words) > _LONGEST or (not words.isprintable() and UNUSUAL.search(words)):
        raise NotPlain("unusual characters, or very many")
    return spaced(words)


def _word(value: object) -> str:
    if type(value) is str:
        return value
    if type(value) is int:
        return str(value)
    raise NotPlain("something is printed that is no text")


class _Keys(dict[object, str]):
    """What attributes say of values, of words by themselves: they are asked for one by one, and are few."""

    def __missing__(self, value: object) -> str:
        words = _sound_key(value.plain if isinstance(value, Text) and _is_bare(value) else _word(value))
        if type(value) is str:  # a number is equal to others that are written otherwise
            _keep(self, value, words)
        return words


def _is_bare(text: Text) -> bool:
    return text.second is None and not any(piece.bold or piece.italic for piece in text.first)


def _sound_key(words: str) -> str:
    if not words.isprintable() and (UNUSUAL.search(words) or "\t" in words or "\n" in words):
        raise NotPlain("unusual characters in an attribute")
    return words


key: Final = _Keys().__getitem__
"""Returns what an attribute says of a value, as it would be read again."""


def plain(value: object) -> str:
    """Return the words of a text without its marks: the filter of that name."""
    if isinstance(value, Text):
        return value.plain
    if type(value) is str:
        return value
    raise NotPlain("`plain` is given something that is no text")


def needed(words: str) -> str:
    """Return what an attribute says that may not be empty."""
    if not words.strip(_AROUND):
        raise NotPlain("an attribute that says nothing")
    return words


@lru_cache(maxsize=1024)
def number(words: str, most: int) -> int:
    """Return the whole number of an attribute."""
    if re.fullmatch(r"[0-9]{1,4}", words) and 1 <= int(words) <= most:
        return int(words)
    raise NotPlain("no such number")


@lru_cache(maxsize=1024)
def keyed(style: Style, name: str) -> Style:
    """Return a style with the key of a member of a list."""
    return style._replace(key=name or style.key)


def mark(kind: str, said: Inline = (), count: int = USUAL.count, width: int = USUAL.width) -> Mark:
    """Return a mark that is said aloud as a line is."""
    if kind not in MARKS:
        raise NotPlain("no such mark")
    return mark_of(kind, _aloud(said) if said else "", count, width)


def _aloud(said: Inline) -> str:
    word = "".join(piece.text for piece in said if isinstance(piece, Run))
    if isinstance(said[-1], Second):
        word += BETWEEN_LANGUAGES + "".join(run.text for run in said[-1].content)
    return word


def alone(one: Mark) -> Inline:
    """Return a line of one mark."""
    return tidy([one])


@lru_cache(maxsize=1024)
def drawn(kind: str, count: int = USUAL.count, width: int = USUAL.width) -> Inline:
    """Return a line of one mark that says nothing."""
    return alone(mark(kind, (), count, width))


def row(cells: Sequence[Cell], columns: int, name: str, *, heading: bool = False) -> Row:
    """Return a row whose cells all fill one column."""
    if len(cells) != columns:
        raise NotPlain("a row that does not fill its columns")
    return Row(tuple(cells), heading, name)


def wide_row(cells: Sequence[Cell], columns: int, name: str, *, heading: bool = False) -> Row:
    """Return a row of which cells may fill several columns."""
    if sum([cell.span for cell in cells]) != columns:
        raise NotPlain("a row that does not fill its columns")
    return Row(tuple(cells), heading, name)


def columns(kinds: Sequence[str]) -> tuple[str, ...]:
    """Return the columns of a table."""
    if not 0 < len(kinds) <= MOST_COLUMNS:
        raise NotPlain("no columns, or too many")
    return tuple(kinds)


def plain_to_see(value: Inline) -> Inline:
    """Return a line about allergens: never missing, grey or small."""
    runs = [run for run in value if isinstance(run, Run)]
    if value and isinstance(value[-1], Second):
        runs += value[-1].content
    if not runs or [run for run in runs if run.quiet or run.small]:
        raise NotPlain("words about allergens that may be missed")
    return value


def title(words: Inline) -> Inline:
    """Return the name of a sheet."""
    if not words:
        raise NotPlain("a sheet without a name")
    return words
