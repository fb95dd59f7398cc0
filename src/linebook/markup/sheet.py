"""One sheet ready to be painted, on paper or on a screen: what it says, its drawings, its foot and its line's band.

It must not know how either is painted.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from linebook.figures.shapes import Drawing, Picture
from linebook.markup.blocks import SheetText
from linebook.source.frozen import frozen


@frozen
class Foot:
    """The words of a foot, finished. ``pages`` has ``{page}`` and ``{pages}`` for the numbers.

    ``continues`` stands in the running head; ``blank`` is all that an empty back says. ``columns`` says which columns a
    part of a table has that is too wide for its page, with ``{first}``, ``{last}`` and ``{count}`` for the numbers.
    """

    lines: tuple[str, ...]
    pages: str = "{page} of {pages}"
    continues: str = "continues"
    blank: str = ""
    columns: str = ""


@frozen
class Band:
    """The band of a line: its name, and its place among the lines of the house from 0."""

    name: str
    position: int
    count: int


@frozen
class Sheet:
    """One sheet to paint.

    ``figures`` are the drawings and pictures its text names. ``band`` is its line's, None for a sheet of no line.
    ``section`` heads it in the outline, where ``bookmark`` names it; without them its title does.
    """

    text: SheetText
    foot: Foot
    fingerprint: str
    figures: Mapping[str, Drawing | Picture] = field(default_factory=dict)
    band: Band | None = None
    section: str = ""
    bookmark: str = ""
