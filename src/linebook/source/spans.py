"""Where a piece of text stands in a file: owns positions, knows nothing of what the text means."""

from __future__ import annotations

import copyreg
from bisect import bisect_right
from dataclasses import field
from itertools import accumulate, repeat
from typing import Any, Final, NamedTuple

from linebook.source.frozen import frozen


@frozen
class SourceFile:
    """One text file as read. ``path`` is the posix path shown to people, never used for opening.

    ``is_ordinary`` is true where none of its characters can be at fault, as far as that has been looked at.
    """

    path: str
    text: str = field(repr=False)
    is_ordinary: bool = field(default=False, repr=False, compare=False)
    _starts: tuple[int, ...] = field(default=(), init=False, repr=False, compare=False)

    @property
    def line_starts(self) -> tuple[int, ...]:
        """Return where each line begins; worked out when first asked for, as a sound file's are not."""
        if not self._starts:
            lines = self.text.split("\n")
            starts = accumulate([len(line) + 1 for line in lines[:-1]], initial=0)
            object.__setattr__(self, "_starts", tuple(starts))
        return self._starts

    def position(self, offset: int) -> tuple[int, int]:
        """Return line and column of a character offset; both start at 1 and count characters."""
        line = bisect_right(self.line_starts, offset)
        return line, offset - self.line_starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """Return the text of a line (from 1) without its line end."""
        start = self.line_starts[line - 1]
        end = self.line_starts[line] if line < len(self.line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")

    def span(self, start: int, end: int) -> Span:
        """Return the span of the characters from ``start`` up to ``end``."""
        return tuple.__new__(Span, (self, start, end))  # a house has tens of thousands: in half the time

    def whole(self) -> Span:
        """Return a span at the very start, for faults about the file as a whole."""
        return Span(self, 0, 0)


class Span(NamedTuple):
    """Characters ``start`` up to ``end`` of a source file, in characters from 0.

    A named tuple, because every value of a house has one, and a tuple is made in a third of a dataclass's time.
    """

    source: SourceFile
    start: int
    end: int

    @property
    def line(self) -> int:
        return self.source.position(self.start)[0]

    @property
    def column(self) -> int:
        return self.source.position(self.start)[1]

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    @property
    def place(self) -> str:
        """Return ``path:line:column``."""
        line, column = self.source.position(self.start)
        return f"{self.source.path}:{line}:{column}"


class PlacesByName(dict[str, Span]):
    """The spans of what has a name in one file: of the fields of a record."""

    __slots__ = ()

    def __reduce__(self) -> tuple[Any, ...]:
        """Be written out by columns: most of a house is these, and to write each span takes five times as long."""
        names = tuple(self)
        sources, starts, ends = zip(*self.values(), strict=True) if self else ((None,), (), ())
        return _remake_places, (_NAMES.setdefault(names, names), sources[0], starts, ends)


_NAMES: Final[dict[tuple[str, ...], tuple[str, ...]]] = {}
"""The names that records have, each time the same, so that they are written out once."""


def _remake_places(names: tuple[str, ...], source: SourceFile, *bounds: tuple[int, ...]) -> PlacesByName:
    places = map(tuple.__new__, repeat(Span), zip(repeat(source), *bounds))
    return PlacesByName(zip(names, places, strict=True))


def _remake(source: SourceFile, start: int, end: int) -> Span:
    return tuple.__new__(Span, (source, start, end))


copyreg.dispatch_table[Span] = lambda span: (_remake, tuple(span))  # sooner than what every named tuple has
copyreg.dispatch_table[PlacesByName] = PlacesByName.__reduce__
