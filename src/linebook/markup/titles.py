"""The name of a sheet, as its title says it, and what one of its facts says."""

from __future__ import annotations

from linebook.documents.text import EMPTY, Text, words
from linebook.markup.blocks import Run, Second, SheetText
from linebook.markup.said import SaidText, what_is_said
from linebook.markup.seconds import in_second_language, languages_of


def title_of_sheet(text: SheetText) -> Text:
    """Return the name of a sheet, in both languages where it has two."""
    seconds = (piece.content for piece in text.title if isinstance(piece, Second))
    return words(plain_title(text), "".join(run.text for content in seconds for run in content))


def plain_title(text: SheetText) -> str:
    """Return the name of a sheet in its first language."""
    return "".join(piece.text for piece in text.title if isinstance(piece, Run))


def fact_of_sheet(text: SheetText, key: str) -> Text:
    """Return a fact with what it is about before it, in both languages where the sheet has two; nothing without it."""
    sheets = (text, in_second_language(text)) if languages_of(text) else (text,)
    said = [what_is_said(sheet).get(key) for sheet in sheets]
    texts = [f"{fact.label} {fact.text}" for fact in said if isinstance(fact, SaidText)]
    return words(*texts) if texts else EMPTY
