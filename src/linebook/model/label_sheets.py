"""Sheets of labels: the papers they come on, what a house prints on unless it says otherwise, and what fits on paper.

Lengths in mm, exact.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from linebook.model.house import HouseFile, LabelSheet
from linebook.source.exact import Fraction

PAPERS: Final[Mapping[str, tuple[Fraction, Fraction]]] = {
    "a4": (Fraction(210), Fraction(297)),
    "letter": (Fraction(2159, 10), Fraction(2794, 10)),
}
"""Width and height: ISO 216, and ANSI/ASME Y14.1 size A (8.5 x 11 in)."""


def labels_of(file: HouseFile) -> LabelSheet:
    """Return the sheet a house prints labels on: 70 x 37 mm on A4 or 4 x 2 in on Letter where it names none.

    The measurements are those such sheets are commonly sold with, from memory; a house measures its own.
    """
    if file.labels is not None:
        return file.labels
    if file.paper == "letter":
        return LabelSheet(
            span=file.span,
            spans={},
            length=Fraction(1016, 10),
            width=Fraction(508, 10),
            columns=2,
            rows=5,
            left=Fraction(4),
            top=Fraction(127, 10),
            gap_beside=Fraction(47, 10),
            paper="letter",
        )
    return LabelSheet(
        span=file.span,
        spans={},
        length=Fraction(70),
        width=Fraction(37),
        columns=3,
        rows=8,
        left=Fraction(0),
        top=Fraction(1, 2),
    )


def off_paper(sheet: LabelSheet) -> Iterator[tuple[str, Fraction, Fraction]]:
    """Yield each way in which the labels run off their paper: *across* or *down*, where they end, and the paper."""
    wide, high = PAPERS[sheet.paper]
    across = sheet.left + sheet.columns * sheet.length + (sheet.columns - 1) * sheet.gap_beside
    down = sheet.top + sheet.rows * sheet.width + (sheet.rows - 1) * sheet.gap_below
    if across > wide:
        yield "across", across, wide
    if down > high:
        yield "down", down, high
