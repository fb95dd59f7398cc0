"""The parts that several documents are made of. Frozen; every printed leaf is Text."""

from __future__ import annotations

from linebook.documents.text import EMPTY, Text
from linebook.source.frozen import frozen


@frozen
class Labelled:
    """A label and its value."""

    key: str
    label: Text
    value: Text


@frozen
class Member:
    """One member of a list, with a key by which a later issue finds it again."""

    key: str
    text: Text


@frozen
class AllergenLine:
    """One of the three lines about allergens on every card; ``members`` is never empty. ``note`` follows them."""

    key: str
    label: Text
    members: tuple[Member, ...]
    note: Text = EMPTY


@frozen
class Passage:
    """Blocks of one form in a row: ``step``, ``point`` or ``paragraph``. ``first`` is the number of the first step."""

    form: str
    first: int
    items: tuple[Member, ...]


@frozen
class LogCell:
    """A place to write in: words, a blank ``width`` em wide, words."""

    before: Text
    width: int
    after: Text


@frozen
class LogRow:
    """One row of a log: one load."""

    key: str
    name: Text
    cells: tuple[LogCell, ...]


@frozen
class LimitBox:
    """A food-safety limit with room to log it. ``figure_open`` is true where the rule leaves its figure to the plan."""

    key: str
    title: Text
    rule: Text
    figure_open: bool
    asked: Text
    missed: Text
    source: Text
    log: tuple[LogRow, ...]

    @property
    def columns(self) -> tuple[LogCell, ...]:
        """Return the cells of one row, for as many columns."""
        return self.log[0].cells if self.log else ()


@frozen
class Section:
    """A heading of the method and what stands under it; ``aside`` stands beside the heading."""

    key: str
    title: Text
    aside: Text
    passages: tuple[Passage, ...]
    limit: LimitBox | None = None


@frozen
class PlateFigure:
    """The drawing of a plate, kept beside the sheet under ``name``."""

    name: str
    alternative: Text
    caption: Text


@frozen
class Measured:
    """An amount as printed: number and unit apart, and a note where rounding moved it."""

    number: Text
    unit: Text
    note: Text = EMPTY

    @property
    def exact_words(self) -> str:
        """Return number and unit as one unparted word."""
        return "\u00a0".join(part.plain for part in (self.number, self.unit) if part)
