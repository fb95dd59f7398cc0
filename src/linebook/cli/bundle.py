"""Says at the end what was made and how to print it: paper, sides, scale, holes, the knife, and what is missing."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

if TYPE_CHECKING:
    from linebook.pdf.printing import Printing
    from linebook.workshop import PdfFile

_PAPERS: Final = {"a4": "A4", "letter": "Letter"}
_HALVES: Final = {"a4": "A5", "letter": "half Letter"}
_INKS: Final = {"colour": "in colour", "grey": "in grey", "saving": "saving ink"}


def say_bundle(files: Sequence[PdfFile], folder: Path) -> None:
    """Say what each PDF holds, then in a line each what to print on, what to do with it, and what is missing."""
    _say_files(files, folder)
    printing = files[0].printing
    leaves = sum(-(-file.pages // 2) if printing.duplex else file.pages for file in files)
    click.echo("")
    _say("Paper", f"{_count(leaves, 'leaf', 'leaves')} of {_on(printing)}, {_INKS[printing.ink]}")
    _say("Print", "at 100 %; do not fit to page")
    _say(*_then(files, printing))
    _say_missing(files)


def say_one(file: PdfFile, folder: Path, *, punched: bool) -> None:
    """Say the same of one PDF in two lines; a sheet for one night is not ``punched``."""
    _say_files([file], folder)
    said = f"Print on {_on(file.printing)}, at 100 %; do not fit to page."
    if punched or file.printing.large or file.printing.half_sheet:
        said += " {} {}.".format(*_then([file], file.printing))
    click.echo(said)
    _say_missing([file])


def _say_files(files: Sequence[PdfFile], folder: Path) -> None:
    widest = max(len(str(folder / file.name)) for file in files)
    for file in files:
        held = (
            _count(file.sheets, "card", "cards") if file.printing.half_sheet else _count(file.sheets, "sheet", "sheets")
        )
        pages = _count(file.pages, "page", "pages")
        click.echo(f"{folder / file.name!s:{widest}}  {held}, {pages}, {_PAPERS[file.printing.paper]}")


def _say(label: str, words: str) -> None:
    click.echo(f"{label:8} {words}")


def _say_missing(files: Sequence[PdfFile]) -> None:
    for note in dict.fromkeys(note for file in files for note in file.notes):
        _say("Missing", note)


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _on(printing: Printing) -> str:
    sides = "both sides, turned on the long edge" if printing.duplex else "one side"
    return f"{_PAPERS[printing.paper]}, {sides}"


def _then(files: Sequence[PdfFile], printing: Printing) -> tuple[str, str]:
    """Return what to do with the printed paper: a word for it, and how."""
    if printing.half_sheet:
        return "Cut", f"between the marks: each half is a card, {_HALVES[printing.paper]}"
    if printing.large:
        return "Hang", "where it is read from a few steps away: the type is half as large again"
    upright, turned = ([file for file in files if file.turned is side] for side in (False, True))
    one = "the index" if all("index" in file.name for file in upright) else "the binder"
    binders = one if len(upright) == 1 else "the binders"
    edges = [f"{binders} on the left"] if upright else []
    edges += [f"{'the matrix ' if upright else ''}along the top"] if turned else []
    backs = ", on the backs too" if printing.duplex else ""
    return "Punch", f"{', '.join(edges)}: 22 mm there are clear of print{backs}"
