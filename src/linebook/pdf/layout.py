"""Measures blocks: turns each into strips of a given width at one density, once.

Owns the dispatch over block kinds, running text, headings, steps, points and labelled lines. Tables, figures
and pages have modules of their own. Pure: the same block, width and density give the same strips. Points.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache
from itertools import zip_longest
from typing import Final, TypeAlias

from linebook.figures.shapes import Drawing, Picture
from linebook.markup.blocks import (
    Block,
    Box,
    Cell,
    Facts,
    FigureRef,
    Heading,
    Inline,
    Paragraph,
    Points,
    Rule,
    Run,
    Split,
    Step,
    Steps,
    Table,
    both_in_two,
)
from linebook.pdf.columns import Needs, cell_words
from linebook.pdf.drawings import Sketched, figure_items
from linebook.pdf.fonts import Faces
from linebook.pdf.lines import Kept, LineMaker
from linebook.pdf.matrix import matrix_items
from linebook.pdf.pages import height_of, item_height
from linebook.pdf.pieces import Columns, Frame, Item, Op, Sketch, Strip, Stroke, joined, lowered, made
from linebook.pdf.place import Place
from linebook.pdf.tables import table_items
from linebook.pdf.theme import Density, Style, Theme
from linebook.pdf.words import Line, Passage, Word, parted, run_on

_WHOLE_UP_TO: Final = 3
"""Lines. A shorter text is never cut; of a longer one at least two lines stand on either page."""

_WHOLE_STEP_UP_TO: Final = 12
"""Lines. A step or a point no longer than this stands on one page: nobody turns a page in the middle of it."""

_WHOLE_FACT_UP_TO: Final = 12
"""Lines. A labelled line no longer than this stands on one page, its label read before its value; so does a warning."""

_BOLD: Final = Run(text="", bold=True)
"""How the number of a step is set."""

_EMPTY: Final = Line(0.0, (), ())

_BETWEEN_PAIRS: Final = 2.5
"""Of the space between labelled lines: what parts them where each is said twice, one language under the other."""

_WIDEST_TERM: Final = 0.4
_COMMON_TERM: Final = 0.155
"""Of the measure: the most that labels of labelled lines take, and the least, so that most blocks share an edge."""

_SIDE_BY_SIDE: Final = 28
"""In the size of a name: on a narrower measure two stacks do not stand side by side."""

_WIDEST_LEFT: Final = 76
_WIDER: Final = 14
_WORTH_WIDENING: Final = 0.97
"""Per cent: how far a long left stack may push back a small drawing, and by how much; of its height, when it pays."""

_Noted: TypeAlias = dict[int, tuple[Cell, Passage]]
"""Cells with a note by their address, each with its words."""


class Layout:
    """Blocks measured at one density; remembers what it has measured."""

    def __init__(self, theme: Theme, faces: Faces, density: Density, earlier: Sequence[Layout] = ()) -> None:
        """Lay out at a density. ``earlier`` layouts of the same theme lend what does not depend on it."""
        self.theme = theme
        self.faces = faces
        self.density = density
        self.kept: Kept = earlier[0].kept if earlier else Kept()
        self.lines: LineMaker = LineMaker(theme, faces, density, self.kept)
        self.sketches: dict[int, tuple[Drawing, Sketched]] = earlier[0].sketches if earlier else {}
        self.place: Callable[[], Place] = Place
        self.needs: dict[int, tuple[Table, Needs]] = {}
        self.kickers: dict[tuple[Inline, str], Passage] = {}
        self._cells: dict[tuple[object, ...], _Noted] = earlier[0]._cells if earlier else {}
        self._noted: dict[tuple[str, str], _Noted] = {}
        self._numbers: dict[int, tuple[float, tuple[Op]]] = {}
        self._bullet: tuple[Op, ...] = ()
        self._measured: dict[float, dict[int, tuple[Block, Sequence[Item]]]] = {}

    def forget(self) -> None:
        """Drop what was measured: a sheet is measured again and again, but no two sheets share a block."""
        self._cells.clear()
        self._noted.clear()
        self.needs.clear()
        self._measured.clear()
        self.sketches.clear()

    def space(self, length: float) -> float:
        return length * self.density.space

    def stack(
        self, blocks: Sequence[Block], width: float, figures: Mapping[str, Drawing | Picture]
    ) -> tuple[Item, ...]:
        """Measure blocks one under the other; what was measured is kept with its block, whose address is not reused."""
        items: list[Item] = []
        known = self._measured.setdefault(width, {})
        for block in blocks:
            one = known.get(id(block))
            if one is None:
                one = known[id(block)] = (block, self._items(block, width, figures))
            items += one[1]
        return tuple(items)

    def measure(self, block: Block, width: float, figures: Mapping[str, Drawing | Picture]) -> tuple[Item, ...]:
        """Measure one block."""
        return self.stack((block,), width, figures)

    def _items(self, block: Block, width: float, figures: Mapping[str, Drawing | Picture]) -> Sequence[Item]:
        match block:  # the most frequent first
            case Heading():
                return [self._heading(block, width)]
            case Facts():
                return self._facts(block, width)
            case Paragraph():
                return self._paragraph(block, width)
            case Steps():
                return [strip for step in block.steps for strip in self._step(step, width)]
            case Table():
                return matrix_items(self, block, width) if block.role == "matrix" else table_items(self, block, width)
            case Points():
                return [strip for point in block.points for strip in self._point(point, width)]
            case Split():
                if width < _SIDE_BY_SIDE * self.theme.styles.name.size:
                    return self.stack((*block.left, *block.right), width, figures)
                return [self._split(block, width, figures)]
            case Rule():
                rule = Stroke(0, 0, width, 0, self.theme.strokes.thin)
                return [Strip(self.theme.strokes.thin, (rule,), self.space(self.theme.spaces.rule_before))]
            case Box():
                return [self._box(block, width, figures)]
            case FigureRef():
                return figure_items(self, block, figures, width)

    def cell_words(self, cell: Cell, style: Style, role: str) -> Passage:
        """Return the words of a table's cell with a note, split once for its width and its drawing."""
        split = self._noted.get((style.name, role))  # the same cell may stand in columns of two kinds
        if split is None:
            lines, note = self.lines, self.theme.styles.note
            key = (style.name, role, lines.size(style), lines.size(note), lines.marks.sizes)  # as large at others
            split = self._noted[style.name, role] = self._cells.setdefault(key, {})
        known = split.get(id(cell))
        if known is None:
            words = Passage(cell_words(self, cell, style, role), languages=None if self.lines.seconds else 1)
            known = split[id(cell)] = (cell, words)
        return known[1]

    # -- running text

    def line_height(self, line: Line, leading: float) -> float:
        """Return the height a line needs: its leading, or more where a mark stands taller."""
        if not line.marks:
            return leading * line.part
        return max(leading, *[self.lines.marks.height(mark) for _, _, mark in line.marks])

    def flow(
        self,
        words: list[Word],
        style: Style,
        width: float,
        before: float,
        indent: float = 0.0,
        first: Sequence[Op] = (),
        whole: int = _WHOLE_UP_TO,
        centred: bool = False,
    ) -> list[Strip]:
        """Set running text, uncut up to ``whole`` lines.

        ``first`` is drawn beside its first line, also of an empty text, on a baseline at 0.
        """
        set_lines = self.lines.lines(words, width - indent) or ([_EMPTY] if first else [])
        if not set_lines:
            return []
        if len(set_lines) <= whole:
            return [self._uncut(set_lines, style, width, before, indent, first, centred)]
        one_by_one = [
            self._uncut([line], style, width, 0.0, indent, () if number else first, centred)
            for number, line in enumerate(set_lines)
        ]
        return guarded(one_by_one, before, whole)

    def _uncut(
        self,
        set_lines: Sequence[Line],
        style: Style,
        width: float,
        before: float,
        indent: float,
        first: Sequence[Op],
        centred: bool,
    ) -> Strip:
        """Set lines as one strip that is never cut."""
        marks = self.lines.marks
        _, leading, middle = self.lines.measures(style)
        ops: list[Op] = []
        below = 0.0
        for line in set_lines:
            wide, _, marked, part = line
            height = self.line_height(line, leading) if marked else leading * part
            start = indent + (width - indent - wide) / 2 if centred else indent
            ops.append((start, height / 2 + middle + below, line, marks))
            below += height
        if first:
            ops[:0] = [lowered(op, ops[0][1]) for op in first]
        return made(Strip, (below, tuple(ops), before, False, None, ()))

    def _paragraph(self, block: Paragraph, width: float) -> list[Strip]:
        style = self.theme.paragraphs[block.role]
        before, whole = self.lines.before(style), _WHOLE_FACT_UP_TO if style.never_grey else _WHOLE_UP_TO
        return self.flow(self.lines.words(block.content, style), style, width, before, 0.0, (), whole)

    def _heading(self, block: Heading, width: float) -> Strip:
        styles = self.theme.styles
        style = styles.heading if block.level <= 2 else styles.subheading
        words: list[Word] = self.lines.words(block.content, style)
        aside: list[Word] = self.lines.words(block.aside, styles.beside) if block.aside else []
        gap = self.theme.spaces.term_gap
        start = self.lines.natural(words) + gap if aside else 0.0
        if aside and self.lines.seconds:
            together = run_on(words, self.lines.apart(aside, gap))
            if len(parted(together)) > 1 and self.lines.natural(together) <= width:
                words, aside = together, []
        strips = self.flow(words, style, width, 0.0)
        if aside and start + self.lines.natural(aside) <= width:
            (aside_line,) = self.lines.lines(aside, width)
            baseline = self.lines.baseline(style, strips[0].height)
            ops = (*strips[0].ops, (start, baseline, aside_line, self.lines.marks))
            strips[0] = Strip(strips[0].height, ops)
        elif aside:
            strips += self.flow(aside, styles.beside, width, 0.0)
        height, ops, *_ = joined(strips)
        return made(Strip, (height, ops, self.lines.before(style), True, None, ()))

    # -- lists

    def _step(self, step: Step, width: float) -> list[Strip]:
        style = self.theme.styles.step
        hang, number = self._numbers.get(step.number) or self._number(step.number, style)
        words = self.lines.words(step.content, style)
        return self.flow(words, style, width, self.lines.before(style), hang, number, _WHOLE_STEP_UP_TO)

    def _number(self, number: int, style: Style) -> tuple[float, tuple[Op]]:
        """Return how far a step is indented and what stands before it, the same for all steps of a number."""
        spaces, setting, text = self.theme.spaces, self.lines.setting(style, _BOLD), str(number)
        wide = self.faces[setting.face].width(text) * setting.size
        hang = max(spaces.hang, wide + spaces.hang_gap)
        line = Line(wide, ((0.0, ((setting, text),)),), ())
        self._numbers[number] = known = (hang, ((hang - spaces.hang_gap - wide, 0.0, line, self.lines.marks),))
        return known

    def _point(self, point: Paragraph, width: float) -> list[Strip]:
        spaces, style = self.theme.spaces, self.theme.styles.point
        if not self._bullet:
            side = spaces.bullet_size
            high = self.lines.size(style) * 0.5 * self.faces[style.face].capital + side / 2
            self._bullet = (Sketch(2, -high, _bullet(side, self.theme.forms.bullet)),)
        words = self.lines.words(point.content, style)
        before = self.lines.before(style)
        return self.flow(words, style, width, before, spaces.bullet, self._bullet, _WHOLE_STEP_UP_TO)

    def _facts(self, block: Facts, width: float) -> list[Strip]:
        if block.role == "legend":
            return self._legend(block, width)
        if block.role == "verdicts":
            return self._verdicts(block, width)
        styles, lines = self.theme.styles, self.lines
        style = styles.strong_fact if block.role == "allergens" else styles.fact
        terms = [lines.words(fact.term, styles.term) for fact in block.facts]
        widest = max([term.natural for term in terms], default=0.0)
        labels = min(max(widest, width * _COMMON_TERM), width * _WIDEST_TERM)
        indent = labels + self.theme.spaces.term_gap
        before, between = self.space(self.theme.spaces.facts_before), lines.before(style)
        strips: list[Strip] = []
        for fact, term in zip(block.facts, terms, strict=True):
            if strips:
                before = between * (_BETWEEN_PAIRS if term.languages > 1 else 1)
            values = lines.lines(lines.words(fact.value, style), width - indent)
            strips += self._fact(lines.lines(term, labels), values, style, labels, indent, before)
        return strips

    def _fact(
        self, term: list[Line], values: list[Line], style: Style, labels: float, indent: float, before: float
    ) -> list[Strip]:
        """Set a label beside its value, line by line; only a very long one is cut where a page ends."""
        own_leading, (_, leading, middle) = self.lines.leading(self.theme.styles.term), self.lines.measures(style)
        at_left, marks = self.theme.forms.labels == "left", self.lines.marks
        whole = len(term) <= _WHOLE_FACT_UP_TO and len(values) <= _WHOLE_FACT_UP_TO
        strips: list[Strip] = []
        label, value = list[Op](), list[Op]()
        below = 0.0
        for own, other in zip_longest(term, values, fillvalue=_EMPTY):
            _, _, marked, part = other
            height = self.line_height(other, leading) if marked else leading * part
            wide, _, marked, part = own
            least = self.line_height(own, own_leading) if marked else own_leading * part
            height = least if least > height else height
            baseline = height / 2 + middle + below
            label.append((0.0 if at_left else labels - wide, baseline, own, marks))
            value.append((indent, baseline, other, marks))
            if whole:
                below += height
            else:
                strips.append(Strip(height, (*label, *value)))
                label, value = [], []
        if not whole:
            return guarded(strips, before)
        return [made(Strip, (below, (*label, *value), before, False, None, ()))] if label else []

    def _verdicts(self, block: Facts, width: float) -> list[Strip]:
        """Set each label at the head of its own paragraph: what to do comes first, however long it is."""
        style = self.theme.styles.verdict
        strips: list[Strip] = []
        for fact in block.facts:
            term, said = both_in_two(fact.term, fact.value)
            value = self.lines.apart(self.lines.words(said, style), self.theme.spaces.term_gap)
            words = run_on(self.lines.words(term, style), value)
            before = self.space(self.theme.spaces.facts_before) if not strips else self.lines.before(style)
            strips += self.flow(words, style, width, before=before, whole=_WHOLE_FACT_UP_TO)
        return strips

    def _legend(self, block: Facts, width: float) -> list[Strip]:
        """Set labels and values one after the other on a line; none is parted from its value."""
        style, gap = self.theme.styles.fact, self.theme.spaces.term_gap
        words: list[Word] = []
        for fact in block.facts:
            term = self.lines.words(fact.term, style, along=True)
            value = self.lines.apart(self.lines.words(fact.value, style, along=True), gap * 0.7)
            one = [*term, *value]
            whole = bool(one) and self.lines.natural(one) <= width
            words += self.lines.apart([self.lines.fused(one)] if whole else one, gap * 2.2)
        before = self.space(self.theme.spaces.facts_before)
        uncut = _WHOLE_FACT_UP_TO if self.theme.enlarged > 1 else _WHOLE_UP_TO  # one entry may be several lines there
        return self.flow(words, style, width, before=before, whole=uncut)

    # -- containers

    def _box(self, block: Box, width: float, figures: Mapping[str, Drawing | Picture]) -> Frame:
        spaces = self.theme.spaces
        stroke = self.theme.strokes.frame if block.role == "limit" else self.theme.strokes.thin
        items = self.stack(block.blocks, width - 2 * spaces.box, figures)
        return Frame(items, width, spaces.box, stroke, self.space(spaces.box_before))

    def _split(self, block: Split, width: float, figures: Mapping[str, Drawing | Picture]) -> Columns:
        columns = self._columns(block, block.left_share, width, figures)
        wider = min(block.left_share + _WIDER, _WIDEST_LEFT)
        if wider <= block.left_share or not _only_a_small_drawing(block.right):
            return columns
        most = item_height(columns) * _WORTH_WIDENING
        beside = self.stack(block.right, self._widths(wider, width)[1], figures)
        if height_of(beside) >= most:
            return columns
        trial = self._columns(block, wider, width, figures)
        return trial if item_height(trial) < most else columns

    def _columns(self, block: Split, share: int, width: float, figures: Mapping[str, Drawing | Picture]) -> Columns:
        left, right = self._widths(share, width)
        first = self.stack(block.left, left, figures)
        second = self.stack(block.right, right, figures)
        before = max((items[0].before for items in (first, second) if items), default=0.0)
        return Columns(first, second, left + self.theme.spaces.split_gap, before)

    def _widths(self, share: int, width: float) -> tuple[float, float]:
        room = width - self.theme.spaces.split_gap
        left = room * share / 100
        return left, room - left


@cache
def _bullet(side: float, form: str) -> str:
    if form == "dash":
        return f"0 g 0 {side / 3:.4g} {side * 2:.4g} {side / 3:.4g} re f"
    return f"0 g 0 0 {side:.4g} {side:.4g} re f"


def _only_a_small_drawing(blocks: Sequence[Block]) -> bool:
    return len(blocks) == 1 and isinstance(blocks[0], FigureRef) and blocks[0].role == "small"


def guarded(strips: list[Strip], before: float, whole: int = _WHOLE_UP_TO) -> list[Strip]:
    """Join lines so that no page starts or ends with one line of a longer text; set the space above."""
    if len(strips) <= whole:
        return [joined(strips)._replace(before=before)] if strips else []
    return [joined(strips[:2])._replace(before=before), *strips[2:-2], joined(strips[-2:])]
