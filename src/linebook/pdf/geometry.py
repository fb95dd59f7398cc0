"""Where things stand on a paper: margins, the text's corner and measure, the line's band.

Owns upright and turned sheets and the two sides of a leaf. It must not know what is printed. Points, y downwards.
"""

from __future__ import annotations

from linebook.pdf.theme import Paper, Theme
from linebook.source.frozen import frozen


@frozen
class Geometry:
    """One page's frame. ``band_side`` is where the outer edge is: right, left or bottom."""

    width: float
    height: float
    left: float
    top: float
    measure: float
    bottom: float
    band_side: str

    @property
    def foot(self) -> float:
        """The lowest point of the foot."""
        return self.height - self.bottom


def geometry(theme: Theme, paper: Paper, *, landscape: bool, back: bool = False) -> Geometry:
    """Return the frame of a page. A turned sheet is bound by its top; ``back`` is the left page of an open binder."""
    margins = theme.margins
    if landscape:
        return Geometry(
            width=paper.height,
            height=paper.width,
            left=margins.side,
            top=margins.outer if back else margins.binding,
            measure=paper.height - 2 * margins.side,
            bottom=margins.binding if back else margins.outer,
            band_side="top" if back else "bottom",
        )
    left, right = (margins.outer, margins.binding) if back else (margins.binding, margins.outer)
    return Geometry(
        width=paper.width,
        height=paper.height,
        left=left,
        top=margins.top,
        measure=paper.width - left - right,
        bottom=margins.bottom,
        band_side="left" if back else "right",
    )


def band_place(
    theme: Theme, page: Geometry, position: int, count: int, least: float
) -> tuple[float, float, float, float]:
    """Return left, top, width and height of the band of the line at ``position`` of ``count``.

    It is at least ``least`` long, for the name on it. Seen in the binder, each line's band has its own height on
    the outer edge, the first at the top.
    """
    spaces = theme.spaces
    along = page.height if page.band_side in ("left", "right") else page.width
    length = max(spaces.band_length, least)
    room = along - 2 * spaces.band_first - length
    step = min(spaces.band_step, room / max(1, count - 1))
    start = spaces.band_first + step * (position % max(1, count))
    if page.band_side == "right":
        left = page.width - spaces.band_inset - spaces.band_width
        return left, start, spaces.band_width, length
    if page.band_side == "left":
        return spaces.band_inset, start, spaces.band_width, length
    across = page.width - start - length
    top = spaces.band_inset if page.band_side == "top" else page.height - spaces.band_inset - spaces.band_width
    return across, top, length, spaces.band_width
