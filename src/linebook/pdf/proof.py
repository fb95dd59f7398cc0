"""Looks sheets over before they are laid out: characters, roles and drawings that would not print.

Owns the faults of that look and how a fault names a sheet. It must not know how anything is laid out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from linebook.markup.blocks import Block, Box, FigureRef, Paragraph, Run, Split
from linebook.markup.sheet import Sheet
from linebook.pdf.characters import Places, missing_characters, respelt, spelt, texts_of
from linebook.pdf.fonts import Faces
from linebook.pdf.theme import Theme
from linebook.source.codes import fault
from linebook.source.faults import Fault


def called(sheet: Sheet) -> str:
    """Return how a fault names a sheet."""
    return f"the {sheet.text.kind.replace('-', ' ')} `{title_of(sheet)}`"


def title_of(sheet: Sheet) -> str:
    """Return a sheet's title as plain text."""
    return "".join(run.text for run in sheet.text.title if isinstance(run, Run))


def spelt_sheet(sheet: Sheet) -> Sheet:
    """Return the sheet with every text composed and respelt as the font has it."""
    foot = sheet.foot
    lines = tuple(spelt(line) for line in foot.lines)
    foot = replace(foot, lines=lines, continues=spelt(foot.continues), pages=spelt(foot.pages), blank=spelt(foot.blank))
    foot = replace(foot, columns=spelt(foot.columns))
    band = replace(sheet.band, name=spelt(sheet.band.name)) if sheet.band else None
    return replace(sheet, text=respelt(sheet.text), foot=foot, band=band)


def letters_of(sheet: Sheet) -> set[str]:
    """Return every character that may be printed of a sheet."""
    foot = sheet.foot
    band = sheet.band.name if sheet.band else ""
    furniture = (*foot.lines, foot.pages, foot.continues, foot.blank, foot.columns, sheet.fingerprint, band)
    return set("".join((*texts_of(sheet.text), *furniture)))


def proof(sheet: Sheet, letters: set[str], theme: Theme, faces: Faces, places: Places) -> Iterator[Fault]:
    """Yield what would keep a sheet from being printed whole: LB801, LB803, LB704. ``letters`` are the sheet's."""
    yield from missing_characters(letters, faces, called(sheet), places)
    for block in _blocks(sheet.text.blocks):
        if isinstance(block, FigureRef) and block.name not in sheet.figures:
            yield fault("LB704", f"{called(sheet)} has no drawing named `{block.name}`", None)
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
