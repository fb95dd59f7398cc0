"""The words inside a block: elements → runs and marks. Owns which tag stands for which; ``woven`` makes lines of it."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Final, TypeAlias

from linebook.documents.text import BETWEEN_LANGUAGES
from linebook.markup.blocks import Inline, Mark, Run, Second
from linebook.markup.elements import Child, Element
from linebook.markup.vocabulary import MARKS, PAIR, SECOND, SLOTS
from linebook.markup.woven import (
    PLAIN,
    USUAL,
    Gathered,
    Pair,
    Style,
    in_bold,
    in_italics,
    in_two,
    mark_of,
    plain_line,
    plainly,
    spaced,
    tidy,
)
from linebook.source.frozen import frozen

_BLANK: Final = " \t\r\n"
MOST_COUNT: Final = 200

Complain: TypeAlias = Callable[[Element, str, str], None]


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
            return plain_line(children[0])
        pieces: list[Gathered] = []
        if not self._gather(children, PLAIN, pieces):
            return tidy(plainly(pieces))
        return in_two(pieces)

    def read_with_slot(self, element: Element, slot: str) -> tuple[Inline, Inline]:
        """Return an element's words and those of the ``span`` of class ``slot`` at its end."""
        if element.known is None:
            element.known = self._lines(element, slot)
        lines: tuple[Inline, Inline] = element.known
        return lines

    def _lines(self, element: Element, slot: str) -> tuple[Inline, Inline]:
        last = len(element.children) - 1
        if last == 0 and isinstance(element.children[0], str):
            return plain_line(element.children[0]), ()
        while last >= 0 and isinstance(child := element.children[last], str) and not child.strip(_BLANK):
            last -= 1
        end = element.children[last] if last >= 0 else ""
        if isinstance(end, Element) and end.tag == "span" and end.classes == (slot,):
            return self._line(element.children[:last]), self._line(end.children)
        return self._line(element.children), ()

    def number(self, element: Element, attribute: str, default: int, most: int = MOST_COUNT) -> int:
        """Return a whole number of 1 or more from an attribute, or complain and return the default."""
        text = element.attributes.get(attribute)
        if text is None:
            return default
        if re.fullmatch(r"[0-9]{1,4}", text) and 1 <= int(text) <= most:
            return int(text)
        message = f'`{attribute}="{text}"` is no whole number from 1 to {most}'
        self.complain(element, message, "write a number such as `2`")
        return default

    def _gather(self, children: Sequence[Child], style: Style, into: list[Gathered]) -> bool:
        """Add what the children say; return whether any of it is in two languages."""
        paired = False
        for child in children:
            if isinstance(child, str):
                into.append((spaced(child), style))
            elif child.tag == "span":
                paired |= self._read_span(child, style, into)
            elif child.tag in ("b", "i"):
                inner, changed = child.children, in_bold(style) if child.tag == "b" else in_italics(style)
                if len(inner) == 1 and isinstance(inner[0], str):  # nearly always
                    into.append((spaced(inner[0]), changed))
                else:
                    paired |= self._gather(inner, changed, into)
        return paired

    def _read_span(self, span: Element, style: Style, into: list[Gathered]) -> bool:
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

    def _read_pair(self, span: Element, style: Style, into: list[Gathered]) -> bool:
        *children, end = span.children or [""]
        if not isinstance(end, Element) or end.classes != (SECOND,) or not end.attributes.get("lang"):
            message = f'`<span class="{PAIR}">` does not end in a second language'
            self.complain(span, message, f'end it with `<span class="{SECOND}" lang="es">…</span>`')
            return False
        first: list[Gathered] = []
        second: list[Gathered] = []
        if self._gather(children, style, first) | self._gather(end.children, style, second):
            self.complain(span, "a pair of languages stands in another", "take one of them away")
        into.append(Pair(plainly(first), plainly(second), end.attributes["lang"]))
        return True

    def _read_mark(self, span: Element, kind: str) -> Mark:
        if len(span.classes) > 1:
            self.complain(span, f"a mark has one class, not `{' '.join(span.classes)}`", f"keep `{kind}`")
        said = self._line(span.children)
        word = "".join(piece.text for piece in said if isinstance(piece, Run))
        if said and isinstance(said[-1], Second):
            word += BETWEEN_LANGUAGES + "".join(run.text for run in said[-1].content)
        count, width = self.number(span, "data-count", USUAL.count), self.number(span, "data-width", USUAL.width)
        return mark_of(kind, word, count, width)
