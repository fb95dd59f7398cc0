"""Text as it is written into a page: composed, without what only hides, and escaped for words and attributes alike.

It must not know what is a heading and what a cell.
"""

from __future__ import annotations

import unicodedata
from html import escape
from typing import Final

_HIDDEN: Final = str.maketrans({"\u200b": None, "\u2060": None})
"""What paper prints nothing of either: it says only where a line may end."""


def spelt(text: str) -> str:
    """Return text as HTML has it, between tags and in quotes."""
    if not text.isascii():
        text = unicodedata.normalize("NFC", text).translate(_HIDDEN)
    return escape(text, quote=True)
