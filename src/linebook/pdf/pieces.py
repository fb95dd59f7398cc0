"""What layout hands to the painter: strips of paper with words, rules and small drawings on them.

Owns the pieces alone. Points throughout; inside a piece y runs downwards from its top. These are named
tuples, not dataclasses, since a binder holds a hundred thousand of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

from linebook.figures.shapes import Picture

if TYPE_CHECKING:
    from linebook.pdf.marks import MarkMaker
    from linebook.pdf.words import Line


made: Final = tuple.__new__
"""Makes a named tuple of all its fields in half the time that its own name takes: for what a binder has most of."""


class Setting(NamedTuple):
    """How a stretch of text is set: face, size and the name of its ink."""

    face: str
    size: float
    ink: str


class Words(NamedTuple):
    """Text from a point on its baseline. It runs to the right, with ``turn`` 1 upwards, with -1 downwards."""

    x: float
    y: float
    pieces: tuple[tuple[Setting, str], ...]
    turn: int = 0


class Stroke(NamedTuple):
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float
    ink: str = "ink"


class Sketch(NamedTuple):
    """Path operators in a space of its own, y downwards from (x, y), ``scale`` points a unit."""

    x: float
    y: float
    code: str
    scale: float = 1.0


class Photo(NamedTuple):
    """A photograph, its top left corner at (x, y)."""

    x: float
    y: float
    width: float
    height: float
    picture: Picture


SetLine: TypeAlias = "tuple[float, float, Line, MarkMaker]"
"""A line of text where it is set: its start, its baseline, the line, and who draws the marks on it.

Most of what is drawn are these, and most are thrown away, since a sheet is tried tighter and tighter: so a plain tuple,
and only what is printed is taken apart into words and marks.
"""

Op: TypeAlias = "Words | Stroke | Sketch | Photo | SetLine"


class Link(NamedTuple):
    """A part of a strip that leads to a sheet."""

    key: str
    x: float
    y: float
    width: float
    height: float


class Strip(NamedTuple):
    """A slice of the page that is never cut.

    ``before`` is the space above it, dropped at the top of a page. ``keep`` ties it to the next strip. ``context``
    is what is said again when a page starts with it.
    """

    height: float
    ops: tuple[Op, ...]
    before: float = 0.0
    keep: bool = False
    context: Context | None = None
    links: tuple[Link, ...] = ()


class Context(NamedTuple):
    """The heads of a table: said at its start, again on each new page and, under many rows, again below."""

    head: tuple[Strip, ...]
    below: tuple[Strip, ...] = ()


class Frame(NamedTuple):
    """Items in a ruled box."""

    items: tuple[Item, ...]
    width: float
    padding: float
    stroke: float
    before: float = 0.0
    keep: bool = False


class Columns(NamedTuple):
    """Two stacks side by side; ``offset`` is where the right one starts."""

    left: tuple[Item, ...]
    right: tuple[Item, ...]
    offset: float
    before: float = 0.0
    keep: bool = False


Item: TypeAlias = Strip | Frame | Columns


class Placed(NamedTuple):
    """A strip with its place under the top left corner of the text."""

    x: float
    y: float
    strip: Strip


def lowered(op: Op, by: float) -> Op:
    """Return ``op`` moved down."""
    if type(op) is tuple:  # by far the most
        one: SetLine = op  # type: ignore[assignment]
        x, baseline, line, marks = one
        return (x, baseline + by, line, marks)
    if isinstance(op, Stroke):
        x1, y1, x2, y2, width, ink = op
        return made(Stroke, (x1, y1 + by, x2, y2 + by, width, ink))
    if isinstance(op, Words):
        x, y, pieces, turn = op
        return made(Words, (x, y + by, pieces, turn))
    if isinstance(op, Sketch):
        x, y, code, scale = op
        return made(Sketch, (x, y + by, code, scale))
    return op._replace(y=op.y + by)  # type: ignore[union-attr]


def joined(strips: Sequence[Strip]) -> Strip:
    """Return strips as one that is never cut, with the space above the first."""
    if len(strips) == 1:
        return strips[0]
    ops: list[Op] = []
    height = 0.0
    for number, strip in enumerate(strips):
        height += strip.before if number else 0.0
        ops += [lowered(op, height) for op in strip.ops] if number else strip.ops
        height += strip.height
    return Strip(height, tuple(ops), strips[0].before if strips else 0.0)
