"""The leaves of every view: text in one or two languages, with its emphasis. Knows nothing of markup or paper."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Final, TypeAlias

from linebook.source.frozen import frozen

NO_BREAK: Final = "\u00a0"


@frozen
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
        return any(piece.words for piece in self.first)

    @property
    def plain(self) -> str:
        """Return the words without their emphasis."""
        return "".join(piece.words for piece in self.first)


Sayable: TypeAlias = Text | str | int
EMPTY: Final = Text(())


def words(text: str, *, bold: bool = False, italic: bool = False) -> Text:
    """Return plain words as text."""
    return Text((Piece(words=text, bold=bold, italic=italic),) if text else ())


def joined(parts: Iterable[Text], between: Text | str = "") -> Text:
    """Return the parts that are not empty in a row, ``between`` each two."""
    link = between if isinstance(between, Text) else words(between)
    pieces: list[Piece] = []
    for part in parts:
        if part:
            pieces.extend((*(link.first if pieces else ()), *part.first))
    return Text(tuple(pieces))


def strong(text: Text) -> Text:
    """Return the text in bold."""
    return replace(text, first=emboldened(text.first))


def emboldened(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Return the pieces in bold; those that are so already as they are."""
    return tuple(piece if piece.bold else Piece(words=piece.words, bold=True, italic=piece.italic) for piece in pieces)


def unparted(text: str) -> str:
    """Return text whose words never part at a line end."""
    return text.replace(" ", NO_BREAK)


def as_text(value: Sayable) -> Text:
    """Return a number or words as text; text as it is."""
    return value if isinstance(value, Text) else words(str(value))
