"""Sheets of labels lie on their paper (LB624): a label that runs off it would be printed in part."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.index import Index
from linebook.model.label_sheets import off_paper
from linebook.source.codes import fault
from linebook.source.faults import Fault

_FIELDS = {"across": ("columns", "left", "gap_beside", "wide"), "down": ("rows", "top", "gap_below", "high")}


def check_label_sheets(index: Index) -> Iterator[Fault]:
    """Yield a fault for each way in which the labels of the house file run off their paper."""
    sheet = index.file.labels if index.file is not None else None
    if sheet is None:
        return
    for way, ends, paper in off_paper(sheet):
        many, margin, gap, extent = _FIELDS[way]
        yield fault(
            "LB624",
            f"the labels end {float(ends):g} mm from the {'left' if way == 'across' else 'top'} edge, and the paper "
            f"`{sheet.paper}` is {float(paper):g} mm {extent}",
            sheet.at(many),
            hints=(f"measure a sheet again: `size`, `{many}`, `{margin}` and `{gap}`, or another `paper`",),
        )
