"""The words inside a block: elements → runs and marks, white space run together as in HTML.

Owns how the words of two languages part: leaf by leaf in the markup, line by line in the block tree.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Final, NamedTuple, TypeAlias

from linebook.documents.text import BETWEEN_LANGUAGES
from linebook.markup.blocks import Inline, Mark, Run, Second
from linebook.markup.elements import Child, Element
from linebook.markup.vocabulary import MARKS, PAIR, SECOND, SLOTS
from linebook.source.frozen import frozen

_SPACES: Final = re.compile(r"[ \t\r\n]+")
_ODD_SPACE: Final = re.compile(r"[\t\r\n]|  ")
_BLANK: Final = " \t\r\n"
_MOST_COUNT: Final = 200
_MOST_KEPT: Final = 1 << 12
"""Lines and marks. A binder says the same again and again: units, heads, allergens, what is written down."""

Complain: TypeAlias = Callable[[Element, str, str], None]


class _Style(NamedTuple):
    bold: bool = False
    italic: bool = False
    quiet: bool = False
    small: bool = False
    lang: str = ""
    key: str = ""


_PLAIN: Final = _Style()
_USUAL: Final = Mark(kind="tick")


@lru_cache(maxsize=256)
def _bold(style: _Style) -> _Style:
    return style._replace(bold=True)


@lru_cache(maxsize=256)
def _italic(style: _Style) -> _Style:
    return style._replace(italic=True)


_Piece: TypeAlias = tuple[str, _Style] | Mark


class _Pair(NamedTuple):
    """The same words in two languages, where the first of them stood."""

    first: list[_Piece]
    second: list[_Piece]
    lang: str


_Gathered: TypeAlias = "tuple[str, _Style] | Mark | _Pair"


@frozen
class InlineReader:
    """Reads the words of blocks. ``complain`` takes the element, what is wrong with it, and what to do."""

    complain: Complain

    def read(self, element: Element) -> Inline:
        """Return what an element says as one line of runs and marks; slots (an aside, a note) are the caller's.

        Where words have a second language, the line in that language follows as its last piece.
        """
        if element.known is None:
            element.known = self._line(element.children)
        line: Inline = element.known
        return line

    def _line(self, children: Sequence[Child]) -> Inline:
        if not children:
            return ()
        if len(children) == 1 and isinstance(children[0], str):  # by far the most
            return _plain_line(children[0])
        pieces: list[_Gathered] = []
        if not self._gather(children, _PLAIN, pieces):
            return _tidy(_plainly(pieces))
        return _in_two(pieces)

    def read_with_slot(self, element: Element, slot: str) -> tuple[Inline, Inline]:
        """Return an element's words and those of the ``span`` of class ``slot`` at its end."""
        if element.known is None:
            element.known = self._lines(element, slot)
        lines: tuple[Inline, Inline] = element.known
        return lines

    def _lines(self, element: Element, slot: str) -> tuple[Inline, Inline]:
        last = len(element.children) - 1
        if last == 0 and isinstance(element.children[0], str):
            return _plain_line(element.children[0]), ()
        while last >= 0 and isinstance(child := element.children[last], str) and not child.strip(_BLANK):
            last -= 1
        end = element.children[last] if last >= 0 else ""
        if isinstance(end, Element) and end.tag == "span" and end.classes == (slot,):
            return self._line(element.children[:last]), self._line(end.children)
        return self._line(element.children), ()

    def number(self, element: Element, attribute: str, default: int, most: int = _MOST_COUNT) -> int:
        """Return a whole number of 1 or more from an attribute, or complain and return the default."""
        text = element.attributes.get(attribute)
        if text is None:
            return default
        if re.fullmatch(r"[0-9]{1,4}", text) and 1 <= int(text) <= most:
            return int(text)
        message = f'`{attribute}="{text}"` is no whole number from 1 to {most}'
        self.complain(element, message, "write a number such as `2`")
        return default

    def _gather(self, children: Sequence[Child], style: _Style, into: list[_Gathered]) -> bool:
        """Add what the children say; return whether any of it is in two languages."""
        paired = False
        for child in children:
            if isinstance(child, str):
                into.append((_spaced(child), style))
            elif child.tag == "span":
                paired |= self._read_span(child, style, into)
            elif child.tag in ("b", "i"):
                inner, changed = child.children, _bold(style) if child.tag == "b" else _italic(style)
                if len(inner) == 1 and isinstance(inner[0], str):  # nearly always
                    into.append((_spaced(inner[0]), changed))
                else:
                    paired |= self._gather(inner, changed, into)
        return paired

    def _read_span(self, span: Element, style: _Style, into: list[_Gathered]) -> bool:
        kinds = [word for word in span.classes if word in MARKS]
        if any(word in SLOTS for word in span.classes):
            message = f'`<span class="{span.classes[0]}">` stands at the end of a heading or a cell only'
            self.complain(span, message, "move it there")
        elif kinds:
            into.append(self._read_mark(span, kinds[0]))
        elif PAIR in span.classes:
            return self._read_pair(span, style, into)
        elif SECOND in span.classes:
            self.complain(
                span, f'`<span class="{SECOND}">` has no words before it', f'put it in `<span class="{PAIR}">`'
            )
        else:
            changed = style._replace(
                quiet=style.quiet or "quiet" in span.classes,
                small=style.small or "small" in span.classes,
                lang=span.attributes.get("lang", style.lang),
                key=span.key or style.key,
            )
            return self._gather(span.children, changed, into)
        return False

    def _read_pair(self, span: Element, style: _Style, into: list[_Gathered]) -> bool:
        *children, end = span.children or [""]
        if not isinstance(end, Element) or end.classes != (SECOND,) or not end.attributes.get("lang"):
            message = f'`<span class="{PAIR}">` does not end in a second language'
            self.complain(span, message, f'end it with `<span class="{SECOND}" lang="es">…</span>`')
            return False
        first: list[_Gathered] = []
        second: list[_Gathered] = []
        if self._gather(children, style, first) | self._gather(end.children, style, second):
            self.complain(span, "a pair of languages stands in another", "take one of them away")
        into.append(_Pair(_plainly(first), _plainly(second), end.attributes["lang"]))
        return True

    def _read_mark(self, span: Element, kind: str) -> Mark:
        if len(span.classes) > 1:
            self.complain(span, f"a mark has one class, not `{' '.join(span.classes)}`", f"keep `{kind}`")
        said = self._line(span.children)
        word = "".join(piece.text for piece in said if isinstance(piece, Run))
        if said and isinstance(said[-1], Second):
            word += BETWEEN_LANGUAGES + "".join(run.text for run in said[-1].content)
        count, width = self.number(span, "data-count", _USUAL.count), self.number(span, "data-width", _USUAL.width)
        return _mark(kind, word, count, width)


def _spaced(text: str) -> str:
    """Return words with their white space run together."""
    return _SPACES.sub(" ", text) if _ODD_SPACE.search(text) else text


@lru_cache(maxsize=_MOST_KEPT)
def _plain_line(text: str) -> Inline:
    """Return words without a tag as a line."""
    return _tidy([(_spaced(text), _PLAIN)])


@lru_cache(maxsize=_MOST_KEPT)
def _mark(kind: str, word: str, count: int, width: int) -> Mark:
    return Mark(kind=kind, word=word, count=count, width=width)


def _plainly(pieces: Sequence[_Gathered]) -> list[_Piece]:
    return [piece for piece in pieces if not isinstance(piece, _Pair)]


def _in_two(pieces: Sequence[_Gathered]) -> Inline:
    """Return a line in the first language, and after it all of it in the second, without its marks.

    A line with a blank is written on once: there each language follows the other before the blank.
    """
    if any(isinstance(piece, Mark) and piece.kind == "blank" for piece in pieces):
        return _tidy([one for piece in pieces for one in _along(piece)])
    lang = next(piece.lang for piece in pieces if isinstance(piece, _Pair))
    first = _tidy([one for piece in pieces for one in (piece.first if isinstance(piece, _Pair) else [piece])])
    second = [one for piece in pieces for one in (piece.second if isinstance(piece, _Pair) else [piece])]
    runs = [one for one in _tidy(_lightened(second)) if isinstance(one, Run)]
    if not runs or _words(runs) == _words(first):
        return first
    return (*first, Second(content=tuple(runs), lang=lang))


def _lightened(pieces: Sequence[_Piece]) -> list[_Piece]:
    """Return words without marks; where all of them are bold, which marks none of them out, in regular weight."""
    words = [piece for piece in pieces if not isinstance(piece, Mark)]
    if any(letter.isalpha() for text, style in words if not style.bold for letter in text):
        return [*words]
    return [(text, style._replace(bold=False)) for text, style in words]


def _along(piece: _Gathered) -> list[_Piece]:
    if not isinstance(piece, _Pair):
        return [piece]
    plain = piece.first[-1][1] if piece.first and isinstance(piece.first[-1], tuple) else _Style()
    second = [(one[0], one[1]._replace(lang=piece.lang)) for one in piece.second if isinstance(one, tuple)]
    return [*piece.first, (BETWEEN_LANGUAGES, plain._replace(bold=False)), *second]


def _words(line: Sequence[Run | Mark | Second]) -> str:
    return "".join(piece.text for piece in line if isinstance(piece, Run))


def _tidy(pieces: Sequence[_Piece]) -> Inline:
    """Drop white space at both ends and doubled at joints, join runs of one style, leave out empty ones."""
    tidy: list[_Piece] = []
    after_space = True
    for piece in pieces:
        if isinstance(piece, Mark):
            tidy.append(piece)
            after_space = False
            continue
        text, style = piece
        if after_space and text.startswith(" "):
            text = text[1:]
        if not text:
            continue
        after_space = text.endswith(" ")
        if tidy and isinstance(last := tidy[-1], tuple) and (last[1] is style or last[1] == style):
            tidy[-1] = (last[0] + text, style)
        else:
            tidy.append((text, style))
    _strip_end(tidy)
    return _line(tuple(tidy))


@lru_cache(maxsize=_MOST_KEPT)
def _line(pieces: tuple[_Piece, ...]) -> Inline:
    """Return a line; one that was read before is the same value again, so that it is measured once."""
    return tuple(piece if isinstance(piece, Mark) else _run(*piece) for piece in pieces)


def _run(text: str, style: _Style) -> Run:
    bold, italic, quiet, small, lang, key = style
    return Run(text=text, bold=bold, italic=italic, quiet=quiet, small=small, lang=lang, key=key)


def _strip_end(tidy: list[_Piece]) -> None:
    """Take white space off the end, and a run that was nothing else."""
    while tidy and isinstance(last := tidy[-1], tuple) and last[0].endswith(" "):
        tidy.pop()
        shorter = last[0].rstrip(" ")
        if shorter:
            tidy.append((shorter, last[1]))
            return
