"""Where labels stand on their sheet: boxes in points from the top left corner of the paper. Knows no type."""

from __future__ import annotations

from typing import Final

from linebook.model.house import LabelSheet
from linebook.model.label_sheets import PAPERS
from linebook.pdf.theme import POINTS_PER_MM
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_INSET: Final = 2.5
"""mm inside a label that stay bare, since a sheet never feeds quite straight. Common practice, no source."""
_EDGE: Final = 5.0
"""mm along the edge of the paper that office printers leave bare. Common practice, no source."""
_RULE_HIGH: Final = 4.0
_RULE_WIDE: Final = 130.0
"""mm that the line to measure and its words need in a margin."""


@frozen
class Box:
    """A place on the paper, in points from its top left corner."""

    left: float
    top: float
    wide: float
    high: float


def label_places(sheet: LabelSheet) -> tuple[Box, ...]:
    """Return the labels of a sheet as they are cut, row by row."""
    along, down = sheet.length + sheet.gap_beside, sheet.width + sheet.gap_below
    return tuple(
        _box(sheet.left + column * along, sheet.top + row * down, sheet.length, sheet.width)
        for row in range(sheet.rows)
        for column in range(sheet.columns)
    )


def label_boxes(sheet: LabelSheet) -> tuple[Box, ...]:
    """Return where each label is printed: inside its cut and clear of the paper's edge, all of one size."""
    wide, high = inner_size(sheet)
    paper_wide, paper_high = (float(length) * POINTS_PER_MM for length in PAPERS[sheet.paper])
    inset, edge = _INSET * POINTS_PER_MM, _EDGE * POINTS_PER_MM
    boxes = []
    for place in label_places(sheet):
        left = max(place.left + inset, edge)
        top = max(place.top + inset, edge)
        left = min(left, paper_wide - edge - wide)
        top = min(top, paper_high - edge - high)
        boxes.append(Box(left=left, top=top, wide=wide, high=high))
    return tuple(boxes)


def inner_size(sheet: LabelSheet) -> tuple[float, float]:
    """Return how wide and high the print of a label may be on every place of the sheet, in points."""
    paper_wide, paper_high = (float(length) * POINTS_PER_MM for length in PAPERS[sheet.paper])
    inset, edge = _INSET * POINTS_PER_MM, _EDGE * POINTS_PER_MM
    places = label_places(sheet)
    wide = min(min(one.left + one.wide - inset, paper_wide - edge) - max(one.left + inset, edge) for one in places)
    high = min(min(one.top + one.high - inset, paper_high - edge) - max(one.top + inset, edge) for one in places)
    return max(wide, 0.0), max(high, 0.0)


def rule_box(sheet: LabelSheet) -> Box | None:
    """Return where the line to measure stands in the margin below the labels or above, None where neither has room."""
    paper_wide, paper_high = (float(length) * POINTS_PER_MM for length in PAPERS[sheet.paper])
    edge, high = _EDGE * POINTS_PER_MM, _RULE_HIGH * POINTS_PER_MM
    left = max(float(sheet.left) * POINTS_PER_MM, 2 * edge)
    wide = paper_wide - left - edge
    places = label_places(sheet)
    foot, head = places[-1].top + places[-1].high, places[0].top
    if wide < _RULE_WIDE * POINTS_PER_MM:
        return None
    if paper_high - edge - foot >= high:
        return Box(left=left, top=paper_high - edge - high, wide=wide, high=high)
    return Box(left=left, top=edge, wide=wide, high=high) if head - edge >= high else None


def _box(left: Fraction, top: Fraction, wide: Fraction, high: Fraction) -> Box:
    at_left, at_top, is_wide, is_high = (float(length) * POINTS_PER_MM for length in (left, top, wide, high))
    return Box(left=at_left, top=at_top, wide=is_wide, high=is_high)
