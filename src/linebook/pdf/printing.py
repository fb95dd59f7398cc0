"""What is printed on and how: paper, sides, ink, size; and the theme that a way of printing makes of another.

Owns what large type, half a sheet and saved ink change in a theme. It must not know what is printed. Points.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any, Final

from linebook.model.house import Ink as PrintInk
from linebook.pdf.pieces import Stroke
from linebook.pdf.theme import Ink, Margins, Paper, Spaces, Strokes, Style, Styles, Theme
from linebook.source.frozen import frozen

_MM: Final = 72 / 25.4

LARGE: Final = 1.5
"""How much larger the type for the wall is: 14 points become 21. At 1 m the FAA's 1/200 of the distance asks for 19.8
(capitals of Lato, 0.717 of the size)."""

_LESS_LARGE: Final = 1.2
_WHERE_ROOM_IS_SHORT: Final = frozenset(
    {"figure", "column", "matrix_head", "matrix_name", "matrix_head_most", "mark_column", "mark_column_least"}
)
"""What grows less: the quiet figures beside what is weighed, and the columns of the allergen matrix with their heads.
More would leave no room for names, nor for dishes under those heads."""

CARD_MARGIN: Final = 11 * _MM
"""From each edge of a cut card to its text. 10 mm stay clear where the knife goes 1 mm astray."""

_MARK_FROM: Final = 3 * _MM
_MARK_TO: Final = 10 * _MM
_MARK_STROKE: Final = 0.5
"""A mark for the knife: from the edge of the paper it starts and ends, and its width."""

_CARD_FIGURE: Final = 46 * _MM
"""The tallest a small drawing is on a card, so that the steps under it stay in sight."""

_CARD_GAPS: Final = 0.55
"""How much of the gaps between columns is left on a card: its words need the room."""

_THINNER: Final = 0.6
_LEAST_STROKE: Final = 0.35
"""Points. Rules printed with little ink; a thinner one comes and goes on an office printer."""

_UNCHANGED: Final = frozenset(
    {"foot", "print", "band", "foot_gap", "foot_rule", "column_gap", "thin", "hair", "repeat_below"}
    | {"figure_large", "figure_small", "band_width", "band_inset", "band_length", "band_first", "band_step"}
)
"""What is as large on the wall: the paper's own, thin rules, gaps between columns, and the foot, read in the hand."""

_BLACK: Final = Ink(colour="#000000", grey=0.0)


@frozen
class Printing:
    """A way of printing. ``paper`` is a name of the theme.

    ``duplex`` prints both sides: each sheet starts on a right-hand page, and backs are mirrored. ``large`` is for the
    wall. ``half_sheet`` makes cards of half the paper, two on a sheet, to be cut apart.
    """

    paper: str
    duplex: bool = False
    ink: PrintInk = "colour"
    large: bool = False
    half_sheet: bool = False

    def file_name(self, stem: str) -> str:
        """Return the name of a PDF printed so: one of another size does not take an ordinary one's place."""
        size = "-large" if self.large else "-half-sheet" if self.half_sheet else ""
        return f"{stem}{size}.pdf"

    def sides(self, *, turned: bool) -> str:
        """Return what a viewer is told of the sides, as PDF names it; empty leaves it to who prints.

        Only of what has mirrored backs or none at all is anything said, and nothing where a sheet is ``turned``: a hint
        against what a printer makes of such a page has turned backs upside down elsewhere.
        """
        if self.duplex:
            return "" if turned else "DuplexFlipLongEdge"
        return "Simplex" if self.large or self.half_sheet else ""


def printed_theme(theme: Theme, printing: Printing) -> Theme:
    """Return a theme as it is for a way of printing: itself for ordinary sheets."""
    if printing.half_sheet:
        theme = _for_cards(theme)
    if printing.large:
        theme = _larger(theme)
    return _saving(theme) if printing.ink == "saving" else theme


def _for_cards(theme: Theme) -> Theme:
    """Return a theme whose papers are the halves of a turned sheet; a card has no holes and no band to be thumbed."""
    halves = {name: Paper(width=paper.height / 2, height=paper.width) for name, paper in theme.papers.items()}
    edge = CARD_MARGIN
    margins = Margins(binding=edge, outer=edge, top=edge, bottom=edge, side=edge)
    figure, gap = min(theme.spaces.figure_small, _CARD_FIGURE), theme.spaces.column_gap * _CARD_GAPS
    spaces = replace(theme.spaces, figure_small=figure, column_gap=gap)
    return replace(theme, papers=halves, margins=margins, spaces=spaces)


def _larger(theme: Theme) -> Theme:
    """Return a theme whose type, and all that goes with it, is larger on the same paper."""
    styles = {name: _larger_style(style, _growth(name)) for name, style in _parts(theme.styles)}
    spaces = {name: length * _growth(name) for name, length in _parts(theme.spaces)}
    strokes = {name: width * _growth(name) for name, width in _parts(theme.strokes)}
    return replace(
        theme,
        styles=Styles(**styles),
        paragraphs={role: _larger_style(style, LARGE) for role, style in theme.paragraphs.items()},
        spaces=Spaces(**spaces),
        strokes=Strokes(**strokes),
        enlarged=LARGE,
    )


def _growth(name: str) -> float:
    """Return how much larger a part of a theme is on the wall."""
    if name in _UNCHANGED:
        return 1.0
    return _LESS_LARGE if name in _WHERE_ROOM_IS_SHORT else LARGE


def _larger_style(style: Style, by: float) -> Style:
    return replace(style, size=style.size * by, least=style.least * by, before=style.before * by)


def _saving(theme: Theme) -> Theme:
    """Return a theme without filled areas and with thin rules; where things stand is unchanged."""
    thin = {name: min(width, max(_LEAST_STROKE, width * _THINNER)) for name, width in _parts(theme.strokes)}
    accents = tuple(replace(accent, ink=_BLACK, over="black") for accent in theme.accents)
    forms = replace(theme.forms, band="outlined")
    return replace(theme, strokes=Strokes(**thin), accents=accents, forms=forms, outlined=True)


def _parts(group: Spaces | Strokes | Styles) -> Iterator[tuple[str, Any]]:
    """Yield the fields of a part of a theme by name."""
    for one in fields(group):
        yield one.name, getattr(group, one.name)


def cut_marks(x: float, height: float) -> tuple[Stroke, ...]:
    """Return the marks that lead a knife down ``x``: from near the edge to where a card's text may begin."""
    ends = ((_MARK_FROM, _MARK_TO), (height - _MARK_TO, height - _MARK_FROM))
    return tuple(Stroke(x, start, x, end, _MARK_STROKE) for start, end in ends)
