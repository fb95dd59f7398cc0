"""The blocks of a method written in the plain way nearly all are: headings, steps, points and paragraphs.

A Markdown parser costs more time than the rest of reading a house, so it is called only for a method that is not
as plain as this. Whatever could mean something else in Markdown is left to it; a test compares the two.
"""

from __future__ import annotations

import re
from itertools import accumulate
from typing import Final, TypeAlias

from linebook.model.body import Form

PlainBlock: TypeAlias = tuple[Form | None, str, tuple[tuple[int, int], ...]]
"""A form, None of a heading; the text; for each of its lines, where it begins in that and in what was read."""

# A line cannot begin a block of another kind where it starts with a letter, a quote, a bracket, an emphasised
# letter, or a number that is not followed by a point and a space.
_SAFE: Final = re.compile(
    r"[^\W\d_]|[{(\"'“‘½⅓⅔¼¾]|\*{1,2}[^\W_]|[0-9]+(?![0-9.)])|[0-9]+[.)](?=[^\s.)])",
)
_NUMBER: Final = re.compile(r"[0-9]{1,9}[.)]")


def plain_blocks(text: str, start: int = 0) -> list[PlainBlock] | None:
    """Return the blocks of a text of plain ones that begins at ``start``, or None where a Markdown parser must decide.

    No item of a list has more than one paragraph, and none has a list in it.
    """
    if "\t" in text:
        return None
    return _PlainBlocks().read(text.split("\n"), start)


class _PlainBlocks:
    """Reads line by line. ``lines`` and ``starts`` are those of the block that is open, of this form.

    ``mark`` tells the open list's kind.
    """

    __slots__ = ("blocks", "form", "lines", "mark", "starts")

    def __init__(self) -> None:
        self.blocks: list[PlainBlock] = []
        self.lines: list[str] = []
        self.starts: list[int] = []
        self.form = Form.PARAGRAPH
        self.mark = ""

    def read(self, lines: list[str], start: int) -> list[PlainBlock] | None:
        for typed in lines:
            line = typed[:-1] if typed.endswith("\r") else typed
            if not line or line.isspace():
                self._close_text()
            elif not self._take(line, start):
                return None
            start += len(typed) + 1
        self._close_text()
        return self.blocks

    def _take(self, line: str, start: int) -> bool:
        first = line[0]
        if first == "#":
            return self._heading(line, start)
        if first == "-" or "0" <= first <= "9":
            sign, _, text = line.partition(" ")
            mark = sign[-1]
            if text[:1] != " " and (sign == "-" or (mark in ".)" and _NUMBER.fullmatch(sign))) and sign != line:
                return self._item(mark, text, start + len(sign) + 1)
        if self.lines:
            rest = line.lstrip(" ")
            self.lines.append(rest)
            self.starts.append(start + len(line) - len(rest))
            return _is_safe(rest)
        if not _is_safe(line):
            return False
        self.mark, self.form = "", Form.PARAGRAPH
        self.lines, self.starts = [line], [start]
        return True

    def _heading(self, line: str, start: int) -> bool:
        title = line[3:].lstrip(" ")
        words = title.rstrip(" ")
        if not line.startswith("## ") or not words or words[0].isspace() or words[-1] == "#":
            return False
        self._close_text()
        self.mark = ""
        self.blocks.append((None, words, ((0, start + len(line) - len(title)),)))
        return True

    def _item(self, mark: str, text: str, start: int) -> bool:
        if self.lines and self.mark != mark:
            return False  # it may run on from the line above
        if not _is_safe(text):
            return False
        self._close_text()
        self.mark, self.form = mark, Form.POINT if mark == "-" else Form.STEP
        self.lines, self.starts = [text], [start]
        return True

    def _close_text(self) -> None:
        lines = self.lines
        if not lines:
            return
        if len(lines) == 1:  # as nearly all are
            self.blocks.append((self.form, lines[0].strip(" "), ((0, self.starts[0]),)))
        else:
            begins = accumulate([len(line) + 1 for line in lines[:-1]], initial=0)
            places = tuple(zip(begins, self.starts, strict=True))
            self.blocks.append((self.form, "\n".join(lines).strip(" "), places))
        self.lines = []


def _is_safe(text: str) -> bool:
    return text[:1].isalpha() or _SAFE.match(text) is not None
