"""The blocks of a method written in the plain way nearly all are: headings, steps, points and paragraphs.

A Markdown parser costs more time than the rest of reading a house, so it is called only for a method that is not
as plain as this. Whatever could mean something else in Markdown is left to it; a test compares the two.
"""

from __future__ import annotations

import re
from typing import Final, NamedTuple


class BlockToken(NamedTuple):
    """One token of the block structure, with the names and meaning of markdown-it's. ``map`` is first and last line."""

    type: str
    nesting: int
    map: tuple[int, int]
    tag: str = ""
    markup: str = ""
    content: str = ""
    level: int = 0


# A line cannot begin a block of another kind where it starts with a letter, a quote, a bracket, an emphasised
# letter, or a number that is not followed by a point and a space.
_SAFE: Final = re.compile(
    r"[^\W\d_]|[{(\"'“‘½⅓⅔¼¾]|\*{1,2}[^\W_]|[0-9]+(?![0-9.)])|[0-9]+[.)](?=[^\s.)])",
)
_HEADING: Final = re.compile(r"## +(\S.*?) *")
_ITEM: Final = re.compile(r"(?:[0-9]{1,9}([.)])|-) (?! )(.*)")


def plain_blocks(text: str) -> list[BlockToken] | None:
    """Return the tokens of a text of plain blocks, or None where a Markdown parser must decide."""
    if "\t" in text:
        return None
    return _PlainBlocks().read(text.split("\n"))


class _PlainBlocks:
    """Reads line by line. ``lines`` is the text of the block that is open, ``mark`` tells the open list's kind."""

    __slots__ = ("first", "lines", "mark", "tokens")

    def __init__(self) -> None:
        self.tokens: list[BlockToken] = []
        self.lines: list[str] = []
        self.first = 0
        self.mark = ""

    def read(self, lines: list[str]) -> list[BlockToken] | None:
        for number, line in enumerate(lines):
            if not line or line.isspace():
                self._close_text(number)
            elif not self._take(line, number):
                return None
        self._close_text(len(lines))
        self._close_list(len(lines))
        return self.tokens

    def _take(self, line: str, number: int) -> bool:
        first = line[0]
        if first == "#":
            return self._heading(line, number)
        if first == "-" or "0" <= first <= "9":
            item = _ITEM.fullmatch(line)
            if item:
                return self._item(item[1] or "-", item[2], number)
        if self.lines:
            rest = line.lstrip(" ")
            self.lines.append(rest)
            return _SAFE.match(rest) is not None
        if _SAFE.match(line) is None:
            return False
        self._close_list(number)
        self.first = number
        self.lines = [line]
        return True

    def _heading(self, line: str, number: int) -> bool:
        heading = _HEADING.fullmatch(line)
        if heading is None or heading[1].endswith("#"):
            return False
        self._close_text(number)
        self._close_list(number)
        place = (number, number + 1)
        self.tokens += (
            BlockToken("heading_open", 1, place, "h2", "##"),
            BlockToken("inline", 0, place, "", "", heading[1]),
            BlockToken("heading_close", -1, place, "h2", "##"),
        )
        return True

    def _item(self, mark: str, text: str, number: int) -> bool:
        if self.lines and self.mark != mark:
            return False  # it may run on from the line above
        if _SAFE.match(text) is None:
            return False
        self._close_text(number)
        if self.mark != mark:
            self._close_list(number)
            self.mark = mark
            self.tokens.append(BlockToken(f"{self._kind}_open", 1, (number, number)))
        self.tokens.append(BlockToken("list_item_open", 1, (number, number + 1)))
        self.first = number
        self.lines = [text]
        return True

    @property
    def _kind(self) -> str:
        return "bullet_list" if self.mark == "-" else "ordered_list"

    def _close_text(self, number: int) -> None:
        if not self.lines:
            return
        content = ("\n".join(self.lines) if len(self.lines) > 1 else self.lines[0]).strip(" ")
        self.tokens.append(BlockToken("inline", 0, (self.first, number), "", "", content))
        self.lines = []
        if self.mark:
            self.tokens.append(BlockToken("list_item_close", -1, (self.first, number)))

    def _close_list(self, number: int) -> None:
        if self.mark:
            self.tokens.append(BlockToken(f"{self._kind}_close", -1, (number, number)))
        self.mark = ""
