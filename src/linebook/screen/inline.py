"""The words inside a block as HTML: runs, links to other sheets, drawn marks with their words, a second language.

Owns what a mark looks like and how it is said aloud. It must not know the block it stands in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import Final

from linebook.documents.text import Piece, Text
from linebook.documents.wording import Wording
from linebook.markup.blocks import Inline, Mark, Run, Second
from linebook.screen.spelling import spelt
from linebook.source.frozen import frozen

SHEET: Final = "sheet:"
"""What a key begins with that leads to the sheet named after it."""

LETTERS: Final[Mapping[str, str]] = {"contains": "C", "may": "M", "undeclared": "?", "free": "no"}
"""What an allergen mark shows, as on paper."""


@frozen
class Inliner:
    """Writes the words of one house's sheets. ``files`` is the page of each sheet there is, by the sheet's id."""

    wording: Wording
    files: Mapping[str, str]

    def html(self, content: Inline, *, along: bool = False, legend: bool = False) -> str:
        """Return a line of text as HTML.

        A second language stands under the first, or ``along`` the same line. In a ``legend`` a mark is its letter.
        """
        parts: list[str] = []
        for key, pieces in groupby(content, key=_key_of):
            words = "".join(self._piece(piece, along=along, legend=legend) for piece in pieces)
            parts.append(self.linked(words, key))
        return "".join(parts)

    def linked(self, words: str, key: str) -> str:
        """Return HTML as a link, where its key leads to a sheet that there is a page of."""
        file = self.files.get(key.removeprefix(SHEET)) if key.startswith(SHEET) else None
        return f'<a href="{spelt(file)}">{words}</a>' if file and words else words

    def say(self, key: str, **values: Text | str | int) -> str:
        """Return words of the catalogue as HTML; a second language follows on the same line."""
        return self.text(self.wording.say(key, **values))

    def text(self, text: Text) -> str:
        """Return text as HTML on one line, without its emphasis."""
        first = spelt(text.plain)
        if text.second is None:
            return first
        second = spelt("".join(piece.words for piece in text.second))
        return f'{first} / <span lang="{spelt(self.wording.second_language)}">{second}</span>'

    def name(self, key: str, **values: Text | str | int) -> str:
        """Return words of the catalogue for an attribute, in the first language alone."""
        return spelt(self.wording.say(key, **values).plain)

    def _piece(self, piece: Run | Mark | Second, *, along: bool, legend: bool) -> str:
        match piece:
            case Run():
                return _run(piece)
            case Mark():
                return self._mark(piece, legend=legend)
            case Second():
                words = "".join(_run(run) for run in piece.content)
                if along:
                    return f' / <span lang="{spelt(piece.lang)}">{words}</span>'
                return f' <span class="second" lang="{spelt(piece.lang)}">{words}</span>'

    def _mark(self, mark: Mark, *, legend: bool) -> str:
        if mark.kind == "number":
            return f'<span class="ring">{spelt(mark.word)}</span>'
        if mark.kind == "tick":
            boxes = '<span class="tick" aria-hidden="true"></span>' * mark.count
            said = spelt(mark.word) or self.text(self.wording.say_count("screen.tick", mark.count))
            return f'<span class="ticks">{boxes}{_said(said)}</span>'
        if mark.kind == "blank":
            said = spelt(mark.word) or self.say("screen.blank")
            return f'<span class="blank" aria-hidden="true"></span>{_said(said)}'
        plain, _, leave = mark.kind.partition("-")
        shown = f'<span class="mark {mark.kind}"{{}}>{LETTERS[plain]}</span>'
        if legend and not leave:
            return shown.format("")
        return shown.format(' aria-hidden="true"') + _said(spelt(mark.word))


def plain(content: Inline) -> str:
    """Return the words of a line in its first language, marks left out."""
    return "".join(piece.text for piece in content if isinstance(piece, Run))


def in_two(content: Inline) -> Text:
    """Return a line as text of the catalogue's kind, in the languages it is in, without its emphasis."""
    second = next((piece.content for piece in content if isinstance(piece, Second)), None)
    return Text((Piece(words=plain(content)),), None if second is None else (Piece(words=plain(second)),))


def _key_of(piece: Run | Mark | Second) -> str:
    return piece.key if isinstance(piece, Run) else ""


def _said(words: str) -> str:
    """Return words that are read aloud and not seen."""
    return f'<span class="said">{words}</span>'


def _run(run: Run) -> str:
    words = spelt(run.text)
    if run.bold:
        words = f"<b>{words}</b>"
    if run.italic:
        words = f"<i>{words}</i>"
    styles = " ".join(_styles(run))
    language = f' lang="{spelt(run.lang)}"' if run.lang else ""
    kind = f' class="{styles}"' if styles else ""
    return f"<span{kind}{language}>{words}</span>" if kind or language else words


def _styles(run: Run) -> Iterator[str]:
    if run.quiet:
        yield "quiet"
    if run.small:
        yield "small"
