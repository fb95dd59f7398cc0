"""The leaves of every view: text in one or two languages, with its emphasis. Knows nothing of markup or paper."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import Any, Final, TypeAlias, TypeVar, cast

from linebook.source.frozen import frozen

F = TypeVar("F", bound="Callable[..., Any]")

NO_BREAK: Final = "\u00a0"
BETWEEN_LANGUAGES: Final = " / "
"""What parts two languages where they stand in one line."""


@frozen(kw_only=False)
class Piece:
    """Words in one style."""

    words: str
    bold: bool = False
    italic: bool = False


@frozen(kw_only=False)
class Text:
    """Text as printed. ``second`` is the same in a second language, None where there is none."""

    first: tuple[Piece, ...]
    second: tuple[Piece, ...] | None = None

    def __bool__(self) -> bool:
        """Return whether there is anything to print."""
        for piece in self.first:  # noqa: SIM110 `any` takes three times as long, and this is asked of every text
            if piece.words:
                return True
        return False

    @property
    def plain(self) -> str:
        """Return the words without their emphasis."""
        return _plain(self.first)

    @property
    def in_second(self) -> tuple[Piece, ...]:
        """Return what stands in the second language: the first where there is no other."""
        return self.first if self.second is None else self.second

    @property
    def both(self) -> str:
        """Return the words without their emphasis, in both languages where there are two: *Keep / Conservar*."""
        if self.second is None:
            return self.plain
        return f"{self.plain}{BETWEEN_LANGUAGES}{_plain(self.second)}"


Sayable: TypeAlias = Text | str | int
EMPTY: Final = Text(())
_MOST_KEPT: Final = 1 << 12
"""Words made into text. Units, names and figures stand in a binder again and again."""


def _kept(make: F) -> F:
    """Return a function that gives again what it made, asked with what it was."""
    return cast("F", lru_cache(_MOST_KEPT)(make))


@_kept
def words(text: str, second: str = "", *, bold: bool = False, italic: bool = False) -> Text:
    """Return plain words as text, with the same in a second language where it is given and not the same word."""
    first = (Piece(text, bold, italic),) if text else ()
    if not second or second == text:
        return Text(first)
    return Text(first, (Piece(second, bold, italic),))


def in_two(first: tuple[Piece, ...], second: tuple[Piece, ...]) -> Text:
    """Return text in two languages; a second that says the same as the first is left out."""
    return Text(first) if second is first or _plain(second) == _plain(first) else Text(first, second)


def joined(parts: Iterable[Text], between: Text | str = "") -> Text:
    """Return the parts that are not empty in a row, ``between`` each two.

    Where any of it has a second language, all of it has: of what has none the first is taken.
    """
    kept: list[Text] = []
    for part in parts:
        if part.first and (part.first[0].words or part):  # most begin with words
            kept.append(part)
    if not kept:
        return EMPTY
    if len(kept) == 1 and kept[0].second is None:
        return kept[0]
    link = between if isinstance(between, Text) else words(between)
    pieces = [*kept[0].first]
    in_one = kept[0].second is None and link.second is None
    for part in kept[1:]:
        pieces += link.first
        pieces += part.first
        if part.second is not None:
            in_one = False
    first = tuple(pieces)
    return Text(first) if in_one else in_two(first, _in_second(kept, link))


def strong(text: Text) -> Text:
    """Return the text in bold."""
    if text.second is not None:
        return Text(emboldened(text.first), emboldened(text.second))
    if len(text.first) != 1:
        return Text(emboldened(text.first))
    (piece,) = text.first  # as of most
    return text if piece.bold else _strong(piece.words, piece.italic)


def slanted(text: Text) -> Text:
    """Return the text in italics."""
    return each_language(text, lambda pieces: tuple(Piece(piece.words, piece.bold, True) for piece in pieces))


def emboldened(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Return the pieces in bold; those that are so already as they are."""
    return tuple([piece if piece.bold else _bold(piece.words, piece.italic) for piece in pieces])


@_kept
def _bold(words: str, italic: bool) -> Piece:
    return Piece(words, True, italic)


@_kept
def _strong(words: str, italic: bool) -> Text:
    return Text((_bold(words, italic),))


def merged(parts: Sequence[Piece]) -> tuple[Piece, ...]:
    """Join neighbouring pieces of one style, so that the same words are the same text however they were typed."""
    if len(parts) == 1 and parts[0].words:  # as most are
        return (parts[0],)
    pieces: list[Piece] = []
    for piece in parts:
        last = pieces[-1] if pieces else None
        if last is not None and last.bold is piece.bold and last.italic is piece.italic:
            pieces[-1] = Piece(last.words + piece.words, piece.bold, piece.italic)
        elif piece.words:
            pieces.append(piece)
    return tuple(pieces)


def unparted(text: str) -> str:
    """Return text whose words never part at a line end."""
    return text.replace(" ", NO_BREAK)


def unbroken(text: Text) -> Text:
    """Return short text that never parts at a line end, in each language: *load 1 of 2*."""
    return each_language(text, _unbroken)


def each_language(text: Text, change: Callable[[tuple[Piece, ...]], tuple[Piece, ...]]) -> Text:
    """Return the text with its pieces changed, in each language it has."""
    first = change(text.first)
    return Text(first) if text.second is None else in_two(first, change(text.second))


def _unbroken(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    return tuple(Piece(unparted(piece.words), piece.bold, piece.italic) for piece in pieces)


def _in_second(parts: Iterable[Text], link: Text) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    for number, part in enumerate(parts):
        if number:
            pieces += link.in_second
        pieces += part.in_second
    return tuple(pieces)


def _plain(pieces: Sequence[Piece]) -> str:
    return pieces[0].words if len(pieces) == 1 else "".join([piece.words for piece in pieces])
