"""Marks drawn as shapes: tick boxes, blanks to write on, numbers in a ring, and the allergen marks.

Owns their forms; allergen marks differ in outline, fill and letter before anything else, and the letter
is text so that the page can be read back. It must not know where on a page a mark stands. Points.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from operator import itemgetter
from typing import TYPE_CHECKING, Final, NamedTuple

from linebook.markup.blocks import Mark
from linebook.pdf.fonts import Faces
from linebook.pdf.pieces import Op, Setting, Sketch, Stroke, Words
from linebook.pdf.theme import LEAST_READING_SIZE, Density, Theme

if TYPE_CHECKING:
    from linebook.pdf.words import Line

LETTERS: Final[Mapping[str, str]] = {"contains": "C", "may": "M", "undeclared": "?", "free": "no"}
"""What an allergen mark says in letters; the legend of each sheet explains them."""

_CUT: Final = 0.36
_ASIDE: Final = 0.06
"""Of a mark's side: what its corner loses where the thing can be left off, and how far its letter keeps off it."""

_CIRCLE: Final = 0.5523
_BLANK_DROP: Final = 1.5
_HEAVY: Final = 2.6
"""Strokes: the frame of what is contained, where ink is saved; what may be contained has one of a single stroke."""


class _Allergen(NamedTuple):
    """An allergen mark as it is drawn: its square, '' for none, and its letter.

    ``half_wide`` is half its side, ``aside`` how far the letter keeps off a corner, ``half`` half the letter's width,
    ``rise`` half the height of a capital.
    """

    code: str
    pieces: tuple[tuple[Setting, str], ...]
    half_wide: float
    aside: float
    half: float
    rise: float


class MarkMaker:
    """Marks at one density of one theme."""

    def __init__(self, theme: Theme, faces: Faces, density: Density) -> None:
        self._spaces = theme.spaces
        self._strokes = theme.strokes
        self._faces = faces
        size = max(theme.styles.mark.least, theme.styles.mark.size * density.type, LEAST_READING_SIZE)
        self._outlined = theme.outlined
        self._known: dict[str, _Allergen] = {}
        self._filled = Setting("bold", size, "ink" if theme.outlined else "white")
        self._open = Setting("bold", size, "ink")
        self._word = Setting("regular", size, "ink")
        self._number = Setting("bold", max(theme.styles.number.least, theme.styles.number.size * density.type), "ink")

    @property
    def sizes(self) -> tuple[float, float]:
        """Return how large letters and numbers in marks are: nothing else of them hangs on the density."""
        return self._open.size, self._number.size

    def width(self, mark: Mark, setting: Setting) -> float:
        """Return how much of its line a mark takes."""
        spaces = self._spaces
        if mark.kind == "tick":
            return mark.count * spaces.tick + (mark.count - 1) * spaces.tick_gap
        if mark.kind == "blank":
            return mark.width * setting.size
        if mark.kind == "number":
            return 2 * self._radius(mark)
        if mark.kind == "free":
            return self._faces["regular"].width(LETTERS["free"]) * self._word.size
        return spaces.mark_size + spaces.mark_gap

    def fitted(self, mark: Mark, setting: Setting, width: float) -> tuple[Mark, ...]:
        """Return a mark as marks that a line of ``width`` takes: boxes on several lines, a shorter blank."""
        if self.width(mark, setting) <= width:
            return (mark,)
        if mark.kind == "blank":
            return (replace(mark, width=max(1, int(width / setting.size))),)
        if mark.kind == "tick":
            spaces = self._spaces
            most = max(1, int((width + spaces.tick_gap) / (spaces.tick + spaces.tick_gap)))
            return tuple(replace(mark, count=min(most, mark.count - at)) for at in range(0, mark.count, most))
        return (mark,)

    def height(self, mark: Mark) -> float:
        """Return the least height of a line the mark stands on."""
        if mark.kind == "tick":
            return self._spaces.tick + 2
        if mark.kind == "number":
            return 2 * self._radius(mark) + 2
        if mark.kind == "blank":
            return self._faces["regular"].ascent * LEAST_READING_SIZE * 1.5
        return self._spaces.mark_size + 2 if mark.kind != "free" else 0.0

    def set_out(self, line: Line, x: float, baseline: float) -> list[Op]:
        """Return the words and marks of a line from ``x`` on a baseline, in reading order."""
        if len(line.marks) == 1 and not line.runs:
            ((at, setting, mark),) = line.marks
            return self.draw(mark, setting, x + at, baseline)
        ops: list[tuple[float, list[Op]]] = [(at, [Words(x + at, baseline, pieces)]) for at, pieces in line.runs]
        ops += [(at, self.draw(mark, setting, x + at, baseline)) for at, setting, mark in line.marks]
        return [op for _, drawn in sorted(ops, key=itemgetter(0)) for op in drawn]

    def draw(self, mark: Mark, setting: Setting, x: float, baseline: float) -> list[Op]:
        """Draw a mark whose line has the given baseline, starting at ``x``, centred on the line's capitals."""
        middle = baseline - self._faces[setting.face].capital * setting.size / 2
        if mark.kind == "tick":
            return self._ticks(mark.count, x, middle)
        if mark.kind == "blank":
            drop = baseline + _BLANK_DROP
            return [Stroke(x, drop, x + mark.width * setting.size, drop, self._strokes.thin)]
        if mark.kind == "number":
            return self._ring(mark, x, middle)
        return self._allergen(mark.kind, x, middle)

    def _ticks(self, count: int, x: float, middle: float) -> list[Op]:
        side, step = self._spaces.tick, self._spaces.tick + self._spaces.tick_gap
        return [Sketch(x + step * at, middle - side / 2, _square(side, self._strokes.tick)) for at in range(count)]

    def _radius(self, mark: Mark) -> float:
        text = self._faces["bold"].width(mark.word) * self._number.size
        return max(self._spaces.number_circle, text / 2 + 3)

    def _ring(self, mark: Mark, x: float, middle: float) -> list[Op]:
        radius = self._radius(mark)
        ops: list[Op] = [Sketch(x, middle - radius, _ring(radius, self._strokes.tick))]
        return [*ops, self._centred(mark.word, self._number, x + radius, middle)]

    def _allergen(self, kind: str, x: float, middle: float) -> list[Op]:
        known = self._known.get(kind)
        if known is None:
            known = self._known[kind] = self._allergen_of(kind)
        code, pieces, half_wide, aside, half, rise = known
        if not code:
            return [Words(x + half_wide - half, middle + rise, pieces)]
        left = x + self._spaces.mark_gap / 2
        word = Words(left + half_wide - aside - half, middle - aside + rise, pieces)
        return [Sketch(left, middle - half_wide, code), word]

    def _allergen_of(self, kind: str) -> _Allergen:
        plain, _, leave = kind.partition("-")
        letter, code, setting = LETTERS[plain], "", self._word
        side = self._spaces.mark_size if plain != "free" else self.width(Mark(kind="free"), setting)
        if plain != "free":
            code = _allergen_square(plain, bool(leave), side, self._strokes.mark, outlined=self._outlined)
            setting = self._filled if plain == "contains" else self._open
        face = self._faces[setting.face]
        half, rise = face.width(letter) * setting.size / 2, face.capital * setting.size / 2
        return _Allergen(code, ((setting, letter),), side / 2, side * _ASIDE if leave else 0.0, half, rise)

    def _centred(self, text: str, setting: Setting, centre: float, middle: float) -> Words:
        face = self._faces[setting.face]
        start = centre - face.width(text) * setting.size / 2
        return Words(start, middle + face.capital * setting.size / 2, ((setting, text),))


@cache
def _square(side: float, stroke: float) -> str:
    inner = stroke / 2
    return f"{stroke:.4g} w 0 G {inner:.4g} {inner:.4g} {side - stroke:.4g} {side - stroke:.4g} re S"


@cache
def circle_path(centre: float, middle: float, radius: float) -> str:
    """Return a closed circle as path operators."""
    k = radius * _CIRCLE
    x, y = centre, middle
    return (
        f"{x + radius:.4g} {y:.4g} m "
        f"{x + radius:.4g} {y + k:.4g} {x + k:.4g} {y + radius:.4g} {x:.4g} {y + radius:.4g} c "
        f"{x - k:.4g} {y + radius:.4g} {x - radius:.4g} {y + k:.4g} {x - radius:.4g} {y:.4g} c "
        f"{x - radius:.4g} {y - k:.4g} {x - k:.4g} {y - radius:.4g} {x:.4g} {y - radius:.4g} c "
        f"{x + k:.4g} {y - radius:.4g} {x + radius:.4g} {y - k:.4g} {x + radius:.4g} {y:.4g} c h"
    )


@cache
def _ring(radius: float, stroke: float) -> str:
    return f"{stroke:.4g} w 0 G {circle_path(radius, radius, radius - stroke / 2)} S"


@cache
def _allergen_square(kind: str, leave: bool, side: float, stroke: float, *, outlined: bool) -> str:
    """Return a square, its lower right corner cut where the thing can be left off: filled, open or dashed.

    Where ink is saved a filled one is ``outlined``: a heavy frame.
    """
    width = stroke * _HEAVY if kind == "contains" and outlined else stroke
    path = _square_path(width / 2, side - width / 2, side * _CUT if leave else 0.0)
    if kind == "contains" and not outlined:
        return f"{width:.4g} w 0 G 0 g {path} B"
    dash = f"[{width * 1.6:.4g} {width * 1.5:.4g}] 0 d " if kind == "undeclared" else ""
    return f"{width:.4g} w 0 G {dash}{path} S"


def _square_path(low: float, high: float, cut: float) -> str:
    corner = f"{high:.4g} {high - cut:.4g} l {high - cut:.4g} {high:.4g} l" if cut else f"{high:.4g} {high:.4g} l"
    return f"{low:.4g} {low:.4g} m {high:.4g} {low:.4g} l {corner} {low:.4g} {high:.4g} l h"
