"""Where a piece of text stands in a file: owns positions, knows nothing of what the text means."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import field
from itertools import accumulate
from typing import NamedTuple

from linebook.source.frozen import frozen


@frozen
class SourceFile:
    """One text file as read. ``path`` is the posix path shown to people, never used for opening."""

    path: str
    text: str = field(repr=False)
    line_starts: tuple[int, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        lines = self.text.split("\n")
        starts = accumulate([len(line) + 1 for line in lines[:-1]], initial=0)
        object.__setattr__(self, "line_starts", tuple(starts))

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
