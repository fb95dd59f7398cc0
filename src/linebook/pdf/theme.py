"""How a page looks, as one frozen value: papers, margins, fonts, inks, sizes, spaces and how tight a page may get.

Owns the names a theme must give and the bounds no theme may leave. It must not know how a theme is
read, nor how anything is drawn. All lengths are points.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, fields
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from linebook.pdf.contrast import LEAST_CONTRAST, WHITE, contrast, grey_of
from linebook.source.frozen import frozen
from linebook.source.spans import Span

POINTS_PER_MM: Final = 72 / 25.4

FACES: Final = ("regular", "bold", "italic", "bold-italic")

LEAST_SIZE: Final = 9.0
"""Points. Captions and the foot are read in the hand: ISO 9241-3, preferred 20 arc minutes at 400 mm."""

LEAST_READING_SIZE: Final = 12.0
"""Points. What is read on the bench, and all a guest's safety hangs on: the same, least at 600 mm; clear print."""

LEAST_CALLED_SIZE: Final = 24.0
"""Points. What is read across the pass, at 1 m: ISO 9241-3, preferred 20 arc minutes, a capital of 5.8 mm."""

LARGEST_SIZE: Final = 96.0
"""Points. A longer word than a few letters would not fit a page above it."""

ROLE: Final = "role "
"""What the name of a style of running text starts with; its paragraph role follows."""

_READ_ON_THE_BENCH: Final = frozenset(
    {"step", "point", "term", "fact", "strong-fact", "verdict", "amount", "name", "cell", "figure"}
    | {"matrix-head", "mark", "number", "group", "heading", "subheading", "title", "cover", "running"}
    | {ROLE + "body", ROLE + "lead", ROLE + "safety", ROLE + "caution"}
)
_NEVER_GREY: Final = frozenset(
    {"fact", "strong-fact", "verdict", "matrix-head", "mark", "amount", "step", ROLE + "safety", ROLE + "caution"}
    | {"call"}
)


def floor_of(style: str) -> float:
    """Return the least size in points that the style named ``style`` may have."""
    if style == "call":
        return LEAST_CALLED_SIZE
    return LEAST_READING_SIZE if style in _READ_ON_THE_BENCH else LEAST_SIZE


@frozen
class Paper:
    """One sheet size, upright."""

    width: float
    height: float


PAPERS: Final[Mapping[str, Paper]] = MappingProxyType(
    {"a4": Paper(width=210 * POINTS_PER_MM, height=297 * POINTS_PER_MM), "letter": Paper(width=612.0, height=792.0)}
)
"""The papers a kitchen's printer takes. ISO 216 (210 x 297 mm); ANSI/ASME Y14.1, size A (8.5 x 11 in)."""

PAPER_TOLERANCE: Final = 2 * POINTS_PER_MM
"""Points. ISO 216, clause on tolerances: 2 mm for a side of 150 to 600 mm."""

LEAST_BINDING: Final = 22 * POINTS_PER_MM
"""Points. Both hole standards stay clear: ISO 838 (holes 6 mm, 12 mm from the edge, each with its tolerance)."""

LEAST_EDGE: Final = 10 * POINTS_PER_MM
"""Points. What a printer leaves blank at an edge and a thumb covers. Common practice."""

LEAST_MEASURE: Final = 100 * POINTS_PER_MM
"""Points. Below this an amount, its unit and a name of a few words no longer stand on one line. Our own choice."""


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
    """Where the four faces are. Without a ``package`` the files stand beside the theme.

    Those named in ``own`` do so in any case, in ``own_folder``: a house has put a face of its own in a theme whose
    other faces come from a package. ``spans`` is where each file is named.
    """

    files: Mapping[str, str]
    ready: str
    package: str = ""
    folder: str = ""
    own: frozenset[str] = frozenset()
    own_folder: str = ""
    spans: Mapping[str, Span] = field(default_factory=dict, compare=False, repr=False)


@frozen
class Ink:
    """A colour as ``#rrggbb`` and the grey it prints as, 0 black to 1 white."""

    colour: str
    grey: float

    def contrast(self, other: str) -> float:
        """Return the less of the contrasts that the colour and its grey have to another colour, 1 to 21."""
        return _least_contrast(self.colour, self.grey, other)


@lru_cache(maxsize=64)
def _least_contrast(colour: str, grey: float, other: str) -> float:
    return min(contrast(colour, other), contrast(grey_of(grey), other))


@frozen
class Accent:
    """A line's band: its ink, and whether the name on it is ``white`` or ``black``."""

    ink: Ink
    over: str

    @property
    def can_be_read(self) -> bool:
        """Whether words in this ink can be read on white paper."""
        return self.ink.contrast(WHITE) >= LEAST_CONTRAST


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
    call: Style
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
    band: float


FORMS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "band": ("filled", "outlined"),
        "rule": ("under", "around"),
        "head": ("left", "centred"),
        "labels": ("right", "left"),
        "bullet": ("square", "dash"),
    }
)
"""What a theme may choose the form of, and the forms; the first is the usual one."""


@frozen
class Forms:
    """How the parts of a page are drawn, by the words of ``FORMS``.

    ``rule``: a strong rule under the name, or one over it and a thin one under it. ``head``: where the name stands.
    ``labels``: to which side labels stand.
    """

    band: str
    rule: str
    head: str
    labels: str
    bullet: str


@frozen
class Density:
    """How tight a page is set: what its type, leading and spaces are multiplied by."""

    type: float
    leading: float
    space: float


@frozen
class Theme:
    """Everything the painter is told about looks.

    ``outlined`` prints no filled areas; drawings grow by ``enlarged``. No theme file says so: printing does.
    """

    papers: Mapping[str, Paper]
    margins: Margins
    fonts: Fonts
    inks: Mapping[str, Ink]
    accents: tuple[Accent, ...]
    styles: Styles
    paragraphs: Mapping[str, Style]
    spaces: Spaces
    strokes: Strokes
    forms: Forms
    densities: tuple[Density, ...] = field(default=())
    outlined: bool = False
    enlarged: float = 1.0


INKS: Final = ("ink", "quiet", "hairline", "ground")
TEXT_INKS: Final = ("ink", "quiet")


def names_of(group: type) -> tuple[str, ...]:
    """Return the names a theme writes for the fields of one of the classes above, in order."""
    return tuple(one.name.replace("_", "-") for one in fields(group))
