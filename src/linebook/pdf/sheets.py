"""One sheet on its pages: the roomiest setting that needs the fewest pages, then the furniture round it.

Owns the choice of density, the parts a longer sheet is cut into, and the making up of a page. It must not know of
other sheets, nor of the file. Points.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import pairwise
from typing import Final, NamedTuple

from linebook.markup.blocks import Block, Heading
from linebook.markup.sheet import Sheet
from linebook.pdf.fonts import Faces
from linebook.pdf.furniture import foot, head, page_number, running_head
from linebook.pdf.geometry import Geometry, geometry
from linebook.pdf.layout import Layout
from linebook.pdf.pages import Filled, height_of, paginate
from linebook.pdf.pieces import Link, Op, Strip
from linebook.pdf.place import Place
from linebook.pdf.theme import Density, Paper, Theme
from linebook.source.frozen import frozen

_OF_TEXT: Final = 0.82
_HOPE: Final = 0.985
"""What part of a page is text rather than space, and how much more than that lines save by breaking better."""


@frozen
class Page:
    """A made-up page: where it starts, what is drawn on it, and what leads elsewhere."""

    entries: tuple[tuple[float, float, tuple[Op, ...]], ...]
    links: tuple[Link, ...]


@frozen
class LaidSheet:
    """A sheet's pages on one paper, and whether something was too tall for any page."""

    sheet: Sheet
    frame: Geometry
    pages: tuple[Page, ...]
    overflows: bool


class _Trial(NamedTuple):
    """A sheet or a part of it at one density: its pages, the room of a page with its head, and the furniture."""

    layout: Layout
    filled: list[Filled]
    room: float
    top: Strip
    running: Strip
    below: Strip


class Press:
    """The layouts of a theme, one a density, shared by all sheets printed with it."""

    def __init__(self, theme: Theme, faces: Faces) -> None:
        self.theme = theme
        self.faces = faces
        layouts: list[Layout] = []
        for density in theme.densities:
            layouts.append(Layout(theme, faces, density, tuple(layouts)))
        self.layouts = tuple(layouts)

    def lay_out(self, sheet: Sheet, paper: Paper) -> LaidSheet:
        """Lay out a sheet: on as few pages as any density needs, as roomy as those allow."""
        frame = geometry(self.theme, paper, landscape=sheet.text.landscape)
        trials = self._parted(sheet, frame)
        for layout in self.layouts:
            layout.forget()
        return LaidSheet(
            sheet=sheet,
            frame=frame,
            pages=tuple(_make_up(trials, sheet, frame)),
            overflows=any(page.overflows for trial in trials for page in trial.filled),
        )

    def _parted(self, sheet: Sheet, frame: Geometry) -> list[_Trial]:
        """Return the whole sheet; or its parts, each at its own density, where it is longer than a page.

        Not where the parts take more pages than the whole.
        """
        whole = self._best(sheet, sheet.text.blocks, frame)
        parts = _parts(sheet.text.blocks) if len(whole.filled) > 1 else []
        if len(parts) < 2:
            return [whole]
        trials = [self._best(sheet, part, frame, further=number > 0) for number, part in enumerate(parts)]
        return trials if sum(len(trial.filled) for trial in trials) <= len(whole.filled) else [whole]

    def _best(self, sheet: Sheet, blocks: Sequence[Block], frame: Geometry, *, further: bool = False) -> _Trial:
        """Return the roomiest trial; or, where a tighter setting saves pages, the first that saves the most."""
        best = self._try(self.layouts[0], sheet, blocks, frame, further=further)
        used = sum(page.used for page in best.filled)
        off = 1.0
        for layout in self.layouts[1:]:
            pages = len(best.filled)
            if pages == 1:
                break
            room = best.room * (pages - 1) - best.top.height - best.running.height * (pages - 2)
            hoped = used * _shrinks_to(layout.density)
            if hoped * off <= room:
                trial = self._try(layout, sheet, blocks, frame, further=further)
                if len(trial.filled) < pages:
                    best = trial
                off = max(1.0, sum(page.used for page in trial.filled) / hoped)
        return best

    def _try(self, layout: Layout, sheet: Sheet, blocks: Sequence[Block], frame: Geometry, *, further: bool) -> _Trial:
        """Lay out blocks at a density; those of a ``further`` part have the running head on all their pages."""
        text, measure = sheet.text, frame.measure
        below = foot(layout, sheet.foot, sheet.fingerprint, measure)
        room = frame.foot - frame.top - below.height - self.theme.spaces.foot_gap
        layout.place = partial(_place, layout, sheet, measure, room)
        items = layout.stack(blocks, measure, sheet.figures)
        if further:
            top = running_head(layout, text, sheet.foot.continues, measure)
        else:
            top = head(layout, text, sheet.band, measure)
        running = top
        if not further and height_of(items) > room - top.height:
            running = running_head(layout, text, sheet.foot.continues, measure)
        filled = paginate(items, room - top.height, room - running.height, self.theme.spaces.repeat_below)
        return _Trial(layout, filled, room, top, running, below)


def _place(layout: Layout, sheet: Sheet, measure: float, room: float) -> Place:
    """Return what a table has on the pages of a sheet, the same in all its parts."""
    top = head(layout, sheet.text, sheet.band, measure)
    running = running_head(layout, sheet.text, sheet.foot.continues, measure)
    return Place(room - max(top.height, running.height), room - running.height, sheet.foot.columns)


def _shrinks_to(density: Density) -> float:
    """Return to what part of its height a sheet may shrink at a density: a guess on the hopeful side."""
    return _HOPE * (_OF_TEXT * density.type * density.leading + (1 - _OF_TEXT) * density.space)


def _parts(blocks: Sequence[Block]) -> list[Sequence[Block]]:
    """Return the blocks cut before each heading that starts a page."""
    starts = [at for at, block in enumerate(blocks) if at and isinstance(block, Heading) and block.starts_page]
    return [blocks[start:end] for start, end in pairwise((0, *starts, len(blocks)))]


def _make_up(trials: Sequence[_Trial], sheet: Sheet, frame: Geometry) -> list[Page]:
    """Furnish the pages of a sheet, numbered through its parts."""
    count = sum(len(trial.filled) for trial in trials)
    pages: list[Page] = []
    for trial in trials:
        pages += _furnished(trial, sheet, frame, len(pages) + 1, count)
    return pages


def _furnished(trial: _Trial, sheet: Sheet, frame: Geometry, first: int, count: int) -> list[Page]:
    layout, filled, _, top, running, below = trial
    pages = []
    for number, page in enumerate(filled, first):
        above = top if number == first else running
        entries: list[tuple[float, float, tuple[Op, ...]]] = [(0.0, 0.0, above.ops)]
        entries += [(x, y + above.height, strip.ops) for x, y, strip in page.placed]
        links = [
            link._replace(x=link.x + x, y=link.y + y + above.height)
            for x, y, strip in page.placed
            for link in strip.links
        ]
        last = frame.foot - frame.top - below.height
        ending = (*below.ops, page_number(layout, sheet.foot, number, count, frame.measure))
        entries.append((0.0, last, ending))
        pages.append(Page(entries=tuple(entries), links=tuple(links)))
    return pages
