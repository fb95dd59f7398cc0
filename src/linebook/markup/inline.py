"""The words inside a block: elements → runs and marks, white space run together as in HTML."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Final, NamedTuple, TypeAlias

from linebook.markup.blocks import Inline, Mark, Run
from linebook.markup.elements import Child, Element
from linebook.markup.vocabulary import MARKS, SLOTS
from linebook.source.frozen import frozen

_SPACES: Final = re.compile(r"[ \t\r\n]+")
_ODD_SPACE: Final = re.compile(r"[\t\r\n]|  ")
_BLANK: Final = " \t\r\n"
_MOST_COUNT: Final = 200
Complain: TypeAlias = Callable[[Element, str, str], None]


class _Style(NamedTuple):
    bold: bool = False
    italic: bool = False
    quiet: bool = False
    small: bool = False
    lang: str = ""
    key: str = ""


@lru_cache(maxsize=256)
def _bold(style: _Style) -> _Style:
    return style._replace(bold=True)


@lru_cache(maxsize=256)
def _italic(style: _Style) -> _Style:
    return style._replace(italic=True)


_Piece: TypeAlias = tuple[str, _Style] | Mark


@frozen
class InlineReader:
    """Reads the words of blocks. ``complain`` takes the element, what is wrong with it, and what to do."""

    complain: Complain

    def read(self, children: Sequence[Child]) -> Inline:
        """Return these children as one line of runs and marks; slots (an aside, a note) are the caller's."""
        pieces: list[_Piece] = []
        self._gather(children, _Style(), pieces)
        return _tidy(pieces)

    def read_with_slot(self, element: Element, slot: str) -> tuple[Inline, Inline]:
        """Return an element's words and those of the ``span`` of class ``slot`` at its end."""
        last = len(element.children) - 1
        while last >= 0 and isinstance(child := element.children[last], str) and not child.strip(_BLANK):
            last -= 1
        end = element.children[last] if last >= 0 else ""
        if isinstance(end, Element) and end.tag == "span" and end.classes == (slot,):
            return self.read(element.children[:last]), self.read(end.children)
        return self.read(element.children), ()

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

    def _gather(self, children: Sequence[Child], style: _Style, into: list[_Piece]) -> None:
        for child in children:
            if isinstance(child, str):
                into.append((_SPACES.sub(" ", child) if _ODD_SPACE.search(child) else child, style))
            elif child.tag == "b":
                self._gather(child.children, _bold(style), into)
            elif child.tag == "i":
                self._gather(child.children, _italic(style), into)
            elif child.tag == "span":
                self._read_span(child, style, into)

    def _read_span(self, span: Element, style: _Style, into: list[_Piece]) -> None:
        kinds = [word for word in span.classes if word in MARKS]
        if any(word in SLOTS for word in span.classes):
            message = f'`<span class="{span.classes[0]}">` stands at the end of a heading or a cell only'
            self.complain(span, message, "move it there")
        elif kinds:
            into.append(self._read_mark(span, kinds[0]))
        else:
            changed = style._replace(
                quiet=style.quiet or "quiet" in span.classes,
                small=style.small or "small" in span.classes,
                lang=span.attributes.get("lang", style.lang),
                key=span.key or style.key,
            )
            self._gather(span.children, changed, into)

    def _read_mark(self, span: Element, kind: str) -> Mark:
        if len(span.classes) > 1:
            self.complain(span, f"a mark has one class, not `{' '.join(span.classes)}`", f"keep `{kind}`")
        word = "".join(piece.text for piece in self.read(span.children) if isinstance(piece, Run))
        default = Mark(kind=kind)
        return Mark(
            kind=kind,
            word=word,
            count=self.number(span, "data-count", default.count),
            width=self.number(span, "data-width", default.width),
        )


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
        last = tidy[-1] if tidy else None
        if isinstance(last, tuple) and last[1] == style:
            tidy[-1] = (last[0] + text, style)
        else:
            tidy.append((text, style))
    _strip_end(tidy)
    return tuple(piece if isinstance(piece, Mark) else _run(*piece) for piece in tidy)


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
