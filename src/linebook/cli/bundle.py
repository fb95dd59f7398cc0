"""Says at the end what was made and how to print it: paper, sides, scale, holes, the knife, and what is missing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

if TYPE_CHECKING:
    from linebook.pdf.printing import Printing
    from linebook.workshop import PdfFile

_PAPERS: Final = {"a4": "A4", "letter": "Letter"}
_HALVES: Final = {"a4": "A5", "letter": "half Letter"}
_FOR_DAYS: Final = ("Hang", "each day's sheets where the line works that day; bin them after it")
_INKS: Final = {"colour": "in colour", "grey": "in grey", "saving": "saving ink"}


def say_bundle(files: Sequence[PdfFile], folder: Path, *, for_days: bool = False) -> None:
    """Say what each PDF holds, then in a line each what to print on, what to do with it, and what is missing.

    Sheets ``for_days`` are for one day each: they go on the wall and not into a binder.
    """
    for line in bundle_lines(files, folder, for_days=for_days):
        click.echo(line)


def bundle_lines(files: Sequence[PdfFile], folder: Path, *, for_days: bool = False) -> list[str]:
    """Return the lines that ``say_bundle`` says."""
    printing = files[0].printing
    leaves = sum(-(-file.pages // 2) if printing.duplex else file.pages for file in files)
    return [
        *_files(files, folder),
        "",
        _line("Paper", f"{_count(leaves, 'leaf', 'leaves')} of {_on(printing)}, {_INKS[printing.ink]}"),
        _line("Print", "at 100 %; do not fit to page"),
        _line(*(_FOR_DAYS if for_days and not printing.large else _then(files, printing))),
        *_missing(files),
    ]


def say_one(file: PdfFile, folder: Path, *, punched: bool) -> None:
    """Say the same of one PDF in two lines; a sheet for one night is not ``punched``."""
    said = f"Print on {_on(file.printing)}, at 100 %; do not fit to page."
    if punched or file.printing.large or file.printing.half_sheet:
        said += " {} {}.".format(*_then([file], file.printing))
    for line in (*_files([file], folder), said, *_missing([file])):
        click.echo(line)


def _files(files: Sequence[PdfFile], folder: Path) -> Iterator[str]:
    widest = max(len(str(folder / file.name)) for file in files)
    for file in files:
        held = (
            _count(file.sheets, "card", "cards") if file.printing.half_sheet else _count(file.sheets, "sheet", "sheets")
        )
        pages = _count(file.pages, "page", "pages")
        yield f"{folder / file.name!s:{widest}}  {held}, {pages}, {_PAPERS[file.printing.paper]}"


def _line(label: str, words: str) -> str:
    return f"{label:8} {words}"


def _missing(files: Sequence[PdfFile]) -> Iterator[str]:
    for note in dict.fromkeys(note for file in files for note in file.notes):
        yield _line("Missing", note)


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
