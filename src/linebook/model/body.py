"""The Markdown part of a spec, read: sections of steps, points and paragraphs with computed amounts marked."""

from __future__ import annotations

import re
from dataclasses import field
from enum import Enum
from typing import Final, TypeAlias

from linebook.source.exact import Fraction
from linebook.source.frozen import frozen
from linebook.source.spans import Span

# What was typed for one character of a text: a line end with the spaces around it, an escaped mark, or itself.
_TYPED: Final = r"(?s)[ \t]*\\?\r?\n[ \t\r\n]*|\\[!-/:-@\[-`{-~]|."


@frozen
class Words:
    """Plain text with its emphasis. Never holds markup.

    A text typed over several lines is one text here, each line end a single space; ``span`` is all of it as typed.
    """

    text: str
    strong: bool = False
    emphasis: bool = False
    span: Span = field(compare=False, repr=False)

    def part(self, start: int, end: int) -> Span:
        """Return the place in the file of the characters ``start`` up to ``end`` of ``text``, exactly."""
        typed = self.span.text
        ends = [0] if not typed else [0, *(match.end() for match in re.finditer(_TYPED, typed))]
        if len(ends) != len(self.text) + 1 or not 0 <= start < end < len(ends):
            return self.span
        return self.span.source.span(self.span.start + ends[start], self.span.start + ends[end])


@frozen
class AmountOf:
    """``{beef-trim}`` or ``{1/3 of butter}``: the computed amount of a listed ingredient, or a part of it."""

    item: str
    part: Fraction = Fraction(1)
    strong: bool = False
    span: Span = field(compare=False, repr=False)


@frozen
class Fixed:
    """``{fixed 2 L}``: an amount that does not scale, printed as typed."""

    text: str
    span: Span = field(compare=False, repr=False)


Piece: TypeAlias = Words | AmountOf | Fixed


class Form(Enum):
    """What kind of block a text is: a numbered step, a point of a list, or a paragraph."""

    STEP = "step"
    POINT = "point"
    PARAGRAPH = "paragraph"


@frozen
class Block:
    """One step, point or paragraph."""

    form: Form
    pieces: tuple[Piece, ...]
    span: Span = field(compare=False, repr=False)


@frozen
class Section:
    """A ``##`` heading and what stands under it. ``title`` is as typed; ``key`` is it in kebab-case."""

    title: str
    key: str
    blocks: tuple[Block, ...]
    span: Span = field(compare=False, repr=False)


@frozen
class Body:
    """All sections of one spec, in file order."""

    sections: tuple[Section, ...]

    def find_section(self, key: str) -> Section | None:
        """Return the section with this kebab-case title, or None."""
        return next((section for section in self.sections if section.key == key), None)
