"""The parts that several documents are made of. Frozen; every printed leaf is Text."""

from __future__ import annotations

from linebook.documents.text import EMPTY, Text
from linebook.source.frozen import frozen


@frozen
class Labelled:
    """A label and its value."""

    key: str
    """A word by which a later issue finds it again; for data-key."""
    label: Text
    """What the value is."""
    value: Text
    """The value."""


@frozen
class Member:
    """One member of a list, with a key by which a later issue finds it again."""

    key: str
    """A word by which a later issue finds it again; for data-key."""
    text: Text
    """The words."""


@frozen
class AllergenLine:
    """One of the three lines about allergens on every card; ``members`` is never empty. ``note`` follows them."""

    key: str
    """Contains, may-contain or undeclared."""
    label: Text
    """The same in words."""
    members: tuple[Member, ...]
    """What the line names; never empty."""
    note: Text = EMPTY
    """What follows them, as where to ask."""


@frozen
class Passage:
    """Blocks of one form in a row: ``step``, ``point`` or ``paragraph``. ``first`` is the number of the first step."""

    form: str
    """Step, point or paragraph."""
    first: int
    """The number of the first step; they run on through a card."""
    items: tuple[Member, ...]
    """The steps, points or paragraphs."""


@frozen
class LogCell:
    """A place to write in: words, a blank ``width`` em wide, words."""

    before: Text
    """The words before the blank."""
    width: int
    """The width of the blank in em."""
    after: Text
    """The words after it, as a unit."""


@frozen
class LogRow:
    """One row of a log: one load."""

    key: str
    """For data-key."""
    name: Text
    """Which load."""
    cells: tuple[LogCell, ...]
    """The places to write in."""


@frozen
class LimitBox:
    """A food-safety limit with room to log it. ``figure_open`` is true where the rule leaves its figure to the plan."""

    key: str
    """For data-key, with a point and a word after it."""
    title: Text
    """Which limit."""
    rule: Text
    """The rule in words."""
    figure_open: bool
    """Whether the rule leaves its figure to the food-safety plan, and needs a blank."""
    asked: Text
    """What this card asks for beyond the rule; may be empty."""
    missed: Text
    """What to do when it is missed."""
    source: Text
    """Where the rule stands, and who decides."""
    log: tuple[LogRow, ...]
    """A row to write in for each load."""

    @property
    def columns(self) -> tuple[LogCell, ...]:
        """Return the cells of one row, for as many columns."""
        return self.log[0].cells if self.log else ()


@frozen
class Section:
    """A heading of the method and what stands under it; ``aside`` stands beside the heading."""

    key: str
    """For data-key."""
    title: Text
    """The heading."""
    aside: Text
    """What stands beside it, as time and place; may be empty."""
    passages: tuple[Passage, ...]
    """What stands under it, in order."""
    limit: LimitBox | None = None
    """The food-safety limit of this stage, where it has one."""


@frozen
class PlateFigure:
    """The drawing of a plate, kept beside the sheet under ``name``."""

    name: str
    """The name of the drawing, for data-figure."""
    alternative: Text
    """What the drawing shows, in words, for aria-label."""
    caption: Text
    """The words under it; may be empty."""


@frozen
class Measured:
    """An amount as printed: number and unit apart and in one unparted word, and a note where rounding moved it.

    ``beside`` is the same in the other system where a house prints both; the note says it too.
    """

    number: Text
    unit: Text
    whole: Text
    note: Text = EMPTY
    beside: Text = EMPTY

    @property
    def exact_words(self) -> str:
        """Return number and unit as one unparted word."""
        return "\u00a0".join(part.plain for part in (self.number, self.unit) if part)
