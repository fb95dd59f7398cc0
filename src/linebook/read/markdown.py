"""The Markdown parser, set up for methods: owns which of its rules are on. Imported, and costly, only when needed."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token


def parse_blocks(text: str) -> list[Token]:
    """Return the block tokens of a text; the text of each block is not looked into."""
    tokens: list[Token] = []
    _parser().block.parse(text, _parser(), {}, tokens)
    return tokens


def parse_inline(text: str) -> list[Token]:
    """Return the tokens inside one block; escaped characters stay tokens of their own."""
    tokens: list[Token] = []
    _parser().inline.parse(text, _parser(), {}, tokens)
    return tokens


@cache
def _parser() -> MarkdownIt:
    from markdown_it import MarkdownIt

    # Entities and link references stay as typed; tables are switched on so that they can be refused.
    return MarkdownIt("commonmark", {"maxNesting": 10}).enable("table").disable(["entity", "reference"])
