"""The block tree: what a sheet says, in order, with keys; knows nothing of paper, fonts or points.

Every block that may change has a ``key`` that is stable between issues, so that a difference can be told
without reading the text. Painters (paper, screen) and the fingerprint all read this one tree.
"""

from __future__ import annotations

from typing import TypeAlias

from linebook.source.frozen import frozen


@frozen(kw_only=False)
class Run:
    """Text in one style. ``lang`` is set where it differs from the sheet's.

    ``key`` names one member of a list inside running text (an allergen), so that a difference can be told.
    """

    text: str
    bold: bool = False
    italic: bool = False
    quiet: bool = False
    small: bool = False
    lang: str = ""
    key: str = ""


@frozen
class Mark:
    """Something drawn, not set: ``tick`` boxes (``count``), a ``blank`` to fill in (``width`` in em),

    a plating ``number``, or an allergen mark (``contains``, ``may``, ``undeclared``, ``free``, and
    ``contains-leave``, ``may-leave``, ``undeclared-leave`` with a cut corner). ``word`` says it aloud.
    """

    kind: str
    word: str = ""
    count: int = 1
    width: int = 4


@frozen
class Second:
    """What a line of text says, whole, in a second language: the last piece of that line. ``lang`` is which."""

    content: tuple[Run, ...]
    lang: str


Inline: TypeAlias = tuple[Run | Mark | Second, ...]


def both_in_two(one: Inline, other: Inline) -> tuple[Inline, Inline]:
    """Return two lines that are read as one: where either has a second language, the other has its own words for it."""
    languages = [line[-1].lang for line in (one, other) if line and isinstance(line[-1], Second)]
    return (_in_two(one, languages[0]), _in_two(other, languages[0])) if len(languages) == 1 else (one, other)


def _in_two(line: Inline, lang: str) -> Inline:
    words = tuple(piece for piece in line if isinstance(piece, Run))
    return line if not words or isinstance(line[-1], Second) else (*line, Second(content=words, lang=lang))


@frozen(kw_only=False)
class Heading:
    """A heading inside a sheet, level 2 or 3. ``aside`` stands beside it, quieter.

    ``starts_page`` begins a new page with it where the sheet is longer than one.
    """

    level: int
    content: Inline
    aside: Inline = ()
    key: str = ""
    starts_page: bool = False


@frozen(kw_only=False)
class Paragraph:
    """Running text. ``role`` is one of the paragraph roles of the vocabulary."""

    content: Inline
    role: str = "body"
    key: str = ""


@frozen(kw_only=False)
class Fact:
    """A label and its value."""

    term: Inline
    value: Inline
    key: str = ""


@frozen
class Facts:
    """Labelled lines, labels right-aligned to a common edge."""

    facts: tuple[Fact, ...]
    role: str = "plain"


@frozen(kw_only=False)
class Cell:
    """A table cell. ``scope`` is col, row or '' as in HTML. ``note`` stands under the content, quieter."""

    content: Inline
    note: Inline = ()
    scope: str = ""
    span: int = 1


@frozen(kw_only=False)
class Row:
    """A row, or with ``heading`` the head of a group (its cells span the table)."""

    cells: tuple[Cell, ...]
    heading: bool = False
    key: str = ""


@frozen
class Table:
    """A table. ``columns`` names each column's kind: tick, amount, unit, name, figure, mark, number, text.

    ``head`` rows repeat where the table runs on; a group's heading row never stands alone at a page foot.
    """

    columns: tuple[str, ...]
    head: tuple[Row, ...]
    rows: tuple[Row, ...]
    role: str = "ingredients"


@frozen(kw_only=False)
class Step:
    """A numbered step; its number hangs in the margin."""

    number: int
    content: Inline
    key: str = ""


@frozen
class Steps:
    """Steps under one heading, numbered on through the sheet."""

    steps: tuple[Step, ...]


@frozen
class Points:
    """An unnumbered list."""

    points: tuple[Paragraph, ...]


@frozen
class Rule:
    """A thin rule across the measure."""


@frozen
class FigureRef:
    """A drawing kept beside the sheet under ``name``. ``alternative`` says in words what it shows."""

    name: str
    alternative: str
    caption: Inline = ()
    role: str = "large"


@frozen
class Box:
    """Blocks in a frame that is never broken across pages unless it is taller than one."""

    blocks: tuple[Block, ...]
    role: str = "limit"
    key: str = ""


@frozen
class Split:
    """Two stacks side by side; ``left_share`` is the left one's part of the measure in per cent."""

    left: tuple[Block, ...]
    right: tuple[Block, ...]
    left_share: int = 60


Block: TypeAlias = Heading | Paragraph | Facts | Table | Steps | Points | Rule | FigureRef | Box | Split


@frozen
class SheetText:
    """One sheet: what stands at its head, then its blocks.

    ``kicker`` and ``aside`` stand over and beside the ``title``; ``landscape`` turns the page;
    ``level`` of the title is 1. ``line`` names the line whose band the sheet carries, '' for none.
    """

    id: str
    kind: str
    line: str
    landscape: bool
    kicker: Inline
    title: Inline
    aside: Inline
    blocks: tuple[Block, ...]
