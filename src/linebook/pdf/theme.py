"""How a page looks, as one frozen value: papers, margins, fonts, inks, sizes, spaces and how tight a page may get.

Owns the names a theme must give and the floors no theme may go under. It must not know how a theme is
read, nor how anything is drawn. All lengths are points.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, fields
from typing import Final

from linebook.source.frozen import frozen

FACES: Final = ("regular", "bold", "italic", "bold-italic")

LEAST_SIZE: Final = 9.0
"""Points. Captions and the foot are read in the hand: ISO 9241-3, preferred 20 arc minutes at 400 mm."""

LEAST_READING_SIZE: Final = 12.0
"""Points. What is read on the bench, and all a guest's safety hangs on: the same, least at 600 mm; clear print."""

ROLE: Final = "role "
"""What the name of a style of running text starts with; its paragraph role follows."""

_READ_ON_THE_BENCH: Final = frozenset(
    {"step", "point", "term", "fact", "strong-fact", "verdict", "amount", "name", "cell", "figure"}
    | {"matrix-head", "mark", "number", "group", "heading", "subheading", "title", "cover", "running"}
    | {ROLE + "body", ROLE + "lead", ROLE + "safety", ROLE + "caution"}
)
_NEVER_GREY: Final = frozenset(
    {"fact", "strong-fact", "verdict", "matrix-head", "mark", "amount", "step", ROLE + "safety", ROLE + "caution"}
)


def floor_of(style: str) -> float:
    """Return the least size in points that the style named ``style`` may have."""
    return LEAST_READING_SIZE if style in _READ_ON_THE_BENCH else LEAST_SIZE


@frozen
class Paper:
    """One sheet size, upright."""

    width: float
    height: float


@frozen
class Margins:
    """Edges text keeps clear of. On a turned sheet ``binding`` is the top edge: its long side is punched."""

    binding: float
    outer: float
    top: float
    bottom: float
    side: float


@frozen
class Fonts:
    """Where the four faces are. Without a ``package`` the files stand beside the theme."""

    files: Mapping[str, str]
    ready: str
    package: str = ""
    folder: str = ""


@frozen
class Ink:
    """A colour as ``#rrggbb`` and the grey it prints as, 0 black to 1 white."""

    colour: str
    grey: float


@frozen
class Accent:
    """A line's band: its ink, and whether the name on it is ``white`` or ``black``."""

    ink: Ink
    over: str


@frozen
class Style:
    """One way to set text. ``leading`` is a part of the size; ``least`` what a full page may bring the size down to.

    No two styles of a theme have one ``name``.
    """

    name: str
    size: float
    least: float
    leading: float
    face: str = "regular"
    ink: str = "ink"
    before: float = 0.0

    @property
    def never_grey(self) -> bool:
        """Whether its words are black, whatever a template asks for: a guest's safety hangs on them."""
        return self.name in _NEVER_GREY


@frozen
class Styles:
    """Every style but those of running text, which go by role."""

    title: Style
    cover: Style
    running: Style
    kicker: Style
    aside: Style
    heading: Style
    subheading: Style
    beside: Style
    step: Style
    point: Style
    term: Style
    fact: Style
    strong_fact: Style
    verdict: Style
    amount: Style
    name: Style
    figure: Style
    cell: Style
    column: Style
    matrix_head: Style
    group: Style
    note: Style
    caption: Style
    number: Style
    mark: Style
    foot: Style
    print: Style
    band: Style


@frozen
class Spaces:
    """Distances that are not the leading of a text."""

    under_title: float
    under_rule: float
    hang: float
    hang_gap: float
    bullet: float
    bullet_size: float
    term_gap: float
    column_gap: float
    unit_gap: float
    facts_before: float
    table_before: float
    row: float
    log_row: float
    group_before: float
    matrix_row: float
    mark_column: float
    mark_column_least: float
    mark_size: float
    mark_gap: float
    matrix_name: float
    matrix_head_most: float
    repeat_below: float
    tick: float
    tick_gap: float
    number_circle: float
    box: float
    box_before: float
    split_gap: float
    rule_before: float
    figure_before: float
    figure_large: float
    figure_small: float
    caption_gap: float
    foot_gap: float
    foot_rule: float
    band_width: float
    band_inset: float
    band_length: float
    band_first: float
    band_step: float


@frozen
class Strokes:
    """Widths of drawn lines."""

    strong: float
    frame: float
    thin: float
    hair: float
    tick: float
    mark: float


@frozen
class Density:
    """How tight a page is set: what its type, leading and spaces are multiplied by."""

    type: float
    leading: float
    space: float


@frozen
class Theme:
    """Everything the painter is told about looks."""

    papers: Mapping[str, Paper]
    margins: Margins
    fonts: Fonts
    inks: Mapping[str, Ink]
    accents: tuple[Accent, ...]
    styles: Styles
    paragraphs: Mapping[str, Style]
    spaces: Spaces
    strokes: Strokes
    densities: tuple[Density, ...] = field(default=())


INKS: Final = ("ink", "quiet", "hairline", "ground")


def names_of(group: type) -> tuple[str, ...]:
    """Return the names a theme writes for the fields of one of the classes above, in order."""
    return tuple(one.name.replace("_", "-") for one in fields(group))
