"""The name of a sheet, as its title says it."""

from __future__ import annotations

from linebook.documents.text import Text, words
from linebook.markup.blocks import Run, Second, SheetText


def title_of_sheet(text: SheetText) -> Text:
    """Return the name of a sheet, in both languages where it has two."""
    seconds = (piece.content for piece in text.title if isinstance(piece, Second))
    return words(plain_title(text), "".join(run.text for content in seconds for run in content))


def plain_title(text: SheetText) -> str:
    """Return the name of a sheet in its first language."""
    return "".join(piece.text for piece in text.title if isinstance(piece, Run))
