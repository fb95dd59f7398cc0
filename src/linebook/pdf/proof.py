"""Looks sheets over before they are laid out: characters, roles and drawings that would not print.

Owns the faults of that look and how a fault names a sheet. It must not know how anything is laid out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from linebook.markup.blocks import Block, Box, FigureRef, Paragraph, Split
from linebook.markup.sheet import Foot, Sheet
from linebook.markup.titles import plain_title
from linebook.pdf.characters import Places, missing_characters, respelt, spelt
from linebook.pdf.fonts import Faces
from linebook.pdf.theme import Theme
from linebook.source.codes import fault
from linebook.source.faults import Fault

_NO_DRAWING: Final = "leave the figure out of the template, or print it on the sheet that has it"


def called(sheet: Sheet) -> str:
    """Return how a fault names a sheet."""
    return f"the {sheet.text.kind.replace('-', ' ')} `{plain_title(sheet.text)}`"


def spelt_sheet(sheet: Sheet) -> tuple[Sheet, set[str]]:
    """Return the sheet with every text composed and respelt as the font has it, and every character it may print."""
    (text, letters), foot, band = respelt(sheet.text), _spelt_foot(sheet.foot), sheet.band
    if band and spelt(band.name) != band.name:
        band = replace(band, name=spelt(band.name))
    letters.update(*_said(foot), sheet.fingerprint, band.name if band else "")
    if text is sheet.text and foot is sheet.foot and band is sheet.band:
        return sheet, letters
    return replace(sheet, text=text, foot=foot, band=band), letters


def _spelt_foot(foot: Foot) -> Foot:
    if all(spelt(words) == words for words in _said(foot)):
        return foot
    lines = tuple(spelt(line) for line in foot.lines)
    foot = replace(foot, lines=lines, continues=spelt(foot.continues), pages=spelt(foot.pages), blank=spelt(foot.blank))
    return replace(foot, columns=spelt(foot.columns))


def _said(foot: Foot) -> tuple[str, ...]:
    """Return every text of a foot."""
    return (*foot.lines, foot.continues, foot.pages, foot.blank, foot.columns)


def proof(sheet: Sheet, letters: set[str], theme: Theme, faces: Faces, places: Places) -> Iterator[Fault]:
    """Yield what would keep a sheet from being printed whole: LB801, LB803, LB704. ``letters`` are the sheet's."""
    yield from missing_characters(letters, faces, called(sheet), places)
    for block in _blocks(sheet.text.blocks):
        if isinstance(block, FigureRef) and block.name not in sheet.figures:
            yield fault("LB704", f"{called(sheet)} has no drawing named `{block.name}`", None, hints=(_NO_DRAWING,))
        if isinstance(block, Paragraph) and block.role not in theme.paragraphs:
            yield fault("LB803", f"`{block.role}` on {called(sheet)} is not a role the theme has", None)


def _blocks(blocks: Sequence[Block]) -> Iterator[Block]:
    """Yield every block of a stack, those inside others too."""
    for block in blocks:
        yield block
        if isinstance(block, Box):
            yield from _blocks(block.blocks)
        elif isinstance(block, Split):
            yield from _blocks((*block.left, *block.right))
