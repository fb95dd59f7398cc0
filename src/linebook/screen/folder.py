"""All pages of a house as one folder: which file each sheet has, and what leads from one to another.

Owns file names. It must not know how files are written. The same sheets give the same bytes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from linebook.documents.wording import Wording
from linebook.markup.blocks import Block, Box, FigureRef, Split
from linebook.markup.sheet import Sheet
from linebook.screen.inline import Inliner, in_two, plain
from linebook.screen.page import INDEX, Frame, Leading, page_html
from linebook.source.characters import blank_refused_characters, name_character
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen

FIRST: Final = "index.html"
_ENDING: Final = ".html"
_MATRIX: Final = "allergen-matrix"
_TOGETHER: Final = (("station-card", "plating-guide"), ("batch-card", "cutting-plan"))
"""Sheets of one dish or component that lead to each other."""

_OTHER: Final = re.compile(r"[^a-z0-9]+")


@frozen
class ScreenFile:
    """A finished page: its file name and its bytes."""

    name: str
    content: bytes


def draw_screen(sheets: Sequence[Sheet], wording: Wording, frame: Frame) -> Outcome[tuple[ScreenFile, ...]]:
    """Return the page of each sheet, the index among them.

    Faults: LB704 for a drawing a sheet does not have, LB104 for a character that would hide or turn round the words.
    """
    files = _name_files(sheets)
    inliner = Inliner(wording=wording, files=files)
    faults = [one for sheet in sheets for one in _missing_figures(sheet)]
    if faults:
        return Outcome(value=None, faults=tuple(faults))
    made: list[ScreenFile] = []
    for sheet in sheets:
        own = files[sheet.text.id]
        page = page_html(sheet, inliner, frame, own, tuple(_others(sheet, sheets, inliner)))
        faults += _hidden(page, sheet)
        made.append(ScreenFile(name=own, content=page.encode("utf-8", "replace")))
    return Outcome(value=None if faults else tuple(made), faults=tuple(faults))


def _name_files(sheets: Sequence[Sheet]) -> dict[str, str]:
    """Return a file name for each sheet's id: plain letters, and no two alike."""
    names: dict[str, str] = {}
    for sheet in sheets:
        text = sheet.text
        stem = "index" if text.kind == INDEX else text.kind if text.kind == _MATRIX else _plain(text.id) or text.kind
        name, count = stem + _ENDING, 1
        while name in names.values():
            count += 1
            name = f"{stem}-{count}{_ENDING}"
        names[text.id] = name
    return names


def _plain(id_: str) -> str:
    return _OTHER.sub("-", id_.casefold()).strip("-")[:120]


def _others(sheet: Sheet, sheets: Sequence[Sheet], inliner: Inliner) -> Iterator[Leading]:
    """Yield what the head of a page leads to: the index, the matrix, its line, and the other sheet of its subject."""
    text = sheet.text
    _, _, subject = text.id.partition(":")
    for other in sheets:
        kind = other.text.kind
        together = any(kind in kinds and text.kind in kinds for kinds in _TOGETHER)
        same_subject = together and other.text.id.partition(":")[2] == subject
        same_line = kind == "line-cover" and other.text.line == text.line
        file = inliner.files[other.text.id]
        if kind in (INDEX, _MATRIX) or (same_subject and other is not sheet):
            yield Leading(file=file, words=inliner.say(f"document.{kind}"))
        elif same_line:
            yield Leading(file=file, words=inliner.say("screen.line-card", line=in_two(other.text.title)))


def _missing_figures(sheet: Sheet) -> Iterator[Fault]:
    for block in _blocks(sheet.text.blocks):
        if isinstance(block, FigureRef) and block.name not in sheet.figures:
            yield fault("LB704", f"{_called(sheet)} has no drawing named `{block.name}`", None)


def _hidden(page: str, sheet: Sheet) -> Iterator[Fault]:
    """Yield a fault for each kind of character that may stand nowhere: no page of ours has one of its own."""
    blanked = blank_refused_characters(page)
    if blanked == page:
        return
    for letter in sorted({one for one, shown in zip(page, blanked, strict=True) if one != shown}):
        message = f"{name_character(letter)} stands on {_called(sheet)}, where it would hide or turn round the words"
        yield fault("LB104", message, None, hints=("delete it in the template, or in the spec the words come from",))


def _called(sheet: Sheet) -> str:
    return f"the {sheet.text.kind.replace('-', ' ')} `{plain(sheet.text.title)}`"


def _blocks(blocks: Sequence[Block]) -> Iterator[Block]:
    """Yield every block of a stack, those inside others too."""
    for block in blocks:
        yield block
        if isinstance(block, Box):
            yield from _blocks(block.blocks)
        elif isinstance(block, Split):
            yield from _blocks((*block.left, *block.right))
