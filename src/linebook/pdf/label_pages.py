"""Draws container labels at exact places on sheets of labels, outside the usual page: their sheet is given in mm.

Owns where a label stands, how small it is set, and the line to measure the print by. It must not know what is made.

Small type is set in steps until all of a label stands in its place, down to an x-height of 1.2 mm: the legal floor for
what is said on food labels (Regulation (EU) No 1169/2011, article 13(2)), and no size to read by. Where that is not
enough, the allergens have labels of their own, and the first says so. What does not fit there is refused, since what is
cut off a label may be an allergen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Final, TypeAlias

from linebook.documents.container_labels import ContainerLabel, LabelRun
from linebook.documents.text import BETWEEN_LANGUAGES, EMPTY, NO_BREAK, Piece, Text
from linebook.model.house import LabelSheet
from linebook.pdf.binder import Bound
from linebook.pdf.characters import Places, missing_character
from linebook.pdf.document import Document
from linebook.pdf.fonts import Faces, open_faces
from linebook.pdf.label_places import Box, inner_size, label_boxes, rule_box
from linebook.pdf.paint import Painter
from linebook.pdf.pieces import Op, Setting, Stroke, Words
from linebook.pdf.theme import POINTS_PER_MM, Theme
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen

LEAST_X_HEIGHT: Final = 1.2
"""mm (Regulation (EU) No 1169/2011, article 13(2))."""

_NAME: Final = 12.0
_USE_BY: Final = 11.0
_SMALL: Final = 8.5
"""Points of the three sizes of a label, before it grows or shrinks."""

_LARGEST: Final = 1.6
_STEP: Final = 0.05
_LEADING: Final = 1.16
_BLANK: Final = 15.0
"""mm to write initials, or a date, on."""
_RULE: Final = 0.5
_INK: Final = "ink"


_Row: TypeAlias = tuple[Text, float, Text | None]
"""Words, their usual size, and what stands before a place to write at their end; None where there is no such place."""


@frozen
class _Set:
    """A label set at its size: what is drawn from the top left corner of its box, and how high that is."""

    ops: tuple[Op, ...]
    height: float


def draw_labels(
    run: LabelRun,
    sheet: LabelSheet,
    theme: Theme,
    *,
    start: int,
    title: str,
    language: str,
    folder: Path | None = None,
    places: Places = lambda _: (),
) -> Outcome[Bound]:
    """Return the PDF of labels on sheets of labels, from the ``start``-th place of the first, counted from 1.

    A line to measure stands in the margin, or in the first place where the sheet has no margin.
    Faults: LB623 for a label whose words do not fit, LB801 for a character the font lacks, LB805 for a font.
    """
    opened = open_faces(theme, folder)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    setter = _Setter(opened.value, sheet)
    measure = rule_box(sheet)
    check = setter.measure(run, measure) if measure else setter.measure_label(run)
    fitted = [setter.fit(label, run) for label in run.labels]
    too_long = {label.component: label for label, found in zip(run.labels, fitted, strict=True) if not found}
    refused = [_too_long(label, sheet) for label in too_long.values()]
    for letter in opened.value.missing():
        refused += missing_character(letter, "a label", places)
    if refused:
        return Outcome(value=None, faults=tuple(refused))
    contents = [] if measure else [check]
    contents += [one.ops for found in fitted for one in found]
    pages = _Pages(opened.value, theme, sheet, title=title, language=language)
    pages.letters(run)
    return pages.draw(contents, start, (measure, check) if measure else None)


def _too_long(label: ContainerLabel, sheet: LabelSheet) -> Fault:
    size = f"{float(sheet.length):g} x {float(sheet.width):g} mm"
    return fault(
        "LB623",
        f"the label of `{label.name.plain}` does not fit on {size} at the least size that is allowed",
        None,
        hints=(
            "print on sheets with larger labels: give their measurements under `labels` in house.yaml",
            "nothing is left off a label: what would be missing may be an allergen",
        ),
    )


class _Setter:
    """Sets the words of labels."""

    def __init__(self, faces: Faces, sheet: LabelSheet) -> None:
        self._faces = faces
        self._wide, self._high = inner_size(sheet)
        self._floor = LEAST_X_HEIGHT * POINTS_PER_MM / faces["regular"].x_height

    def fit(self, label: ContainerLabel, run: LabelRun) -> tuple[_Set, ...]:
        """Return a label as large as it fits; several where its allergens need some of their own; else none."""
        last = (label.which, _SMALL, label.initials)
        head = [(label.name, _NAME, None), (label.use_by, _USE_BY, EMPTY if label.use_by_open else None)]
        made: list[_Row] = [(label.made, _SMALL, None)]
        allergens: list[_Row] = [(text, _SMALL, None) for text in label.allergens]
        whole = self._largest([*head, *made, *allergens, last])
        if whole is not None:
            return (whole,)
        heads: list[_Row] = [(label.name, _NAME, None), (run.parts[2][1], _SMALL, None)]
        parts = self._parted(heads, allergens)
        said = run.parts.get(len(parts) + 1)
        if not parts or said is None:
            return ()
        sets = [self._largest([*head, *made, (said[0], _USE_BY, None), last])]
        for part, which in zip(parts, said[1:], strict=True):
            sets.append(self._largest([(label.name, _NAME, None), (which, _SMALL, None), *part]))
        found = tuple(one for one in sets if one is not None)
        return found if len(found) == len(sets) else ()

    def _parted(self, heads: Sequence[_Row], rows: Sequence[_Row]) -> list[list[_Row]]:
        """Return rows parted over as few labels as hold them at the floor, in order; none where one does not fit."""
        parts: list[list[_Row]] = []
        for row in rows:
            if parts and self._fits([*heads, *parts[-1], row]):
                parts[-1].append(row)
            elif self._fits([*heads, row]):
                parts.append([row])
            else:
                return []
        return parts

    def _fits(self, rows: Sequence[_Row]) -> bool:
        """Return whether rows fit at the floor."""
        found = self._set(rows, 0.0)
        return found is not None and found.height <= self._high

    def _largest(self, rows: Sequence[_Row]) -> _Set | None:
        """Return rows as large as they fit, None where they do not fit at the floor."""
        growth = _LARGEST
        while True:
            found = self._set(rows, growth)
            if found is not None and found.height <= self._high:
                return found
            if _NAME * growth <= self._floor:
                return None
            growth -= _STEP

    def measure(self, run: LabelRun, box: Box) -> tuple[Op, ...]:
        """Return the line to measure for a margin, with its words beside it."""
        length = 50 * POINTS_PER_MM
        said = " · ".join((run.measure[50].both, run.hint.both, run.title.both))
        size = max(self._floor, 7.0)
        setting = Setting("regular", size, _INK)
        beside = Words(length + 6, box.high / 2 + size * 0.35, ((setting, said),))
        return (*_ruler(0, box.high / 2, length), beside)

    def measure_label(self, run: LabelRun) -> tuple[Op, ...]:
        """Return the first label of a sheet without margins: a line to measure, what was printed and what to do."""
        longest = max(length for length in run.measure if length * POINTS_PER_MM <= self._wide or length == 10)
        ops: list[Op] = [*_ruler(0, 6, longest * POINTS_PER_MM)]
        top = 14.0
        for text, bold in ((run.measure[longest], True), (run.hint, False), (run.title, False)):
            size = max(self._floor, _SMALL)
            for line in self._lines(_pieces(text, bold=bold), size) or ():
                top += size * _LEADING
                ops.append(Words(0, top, self._settings(line, size)))
        return tuple(ops)

    def _set(self, rows: Sequence[_Row], growth: float) -> _Set | None:
        """Return rows at a size; None where a word is wider than its place."""
        ops: list[Op] = []
        top = 0.0
        for text, usual, before in rows:
            size = max(self._floor, usual * growth)
            lines = self._lines(_pieces(text), size)
            if lines is None:
                return None
            for line in lines:
                top += size * _LEADING
                ops.append(Words(0, round(top - size * 0.2, 3), self._settings(line, size)))
            if before is not None:
                top = self._tail(ops, lines[-1] if lines else (), before, size, _BLANK * POINTS_PER_MM, top)
        return _Set(ops=tuple(ops), height=top)

    def _tail(self, ops: list[Op], line: Sequence[Piece], before: Text, size: float, room: float, top: float) -> float:
        """Add a place to write on at the right end of a line, on the next one where it has no room; return its foot."""
        said = before.both
        word = self._width(said, size, bold=False) if said else 0.0
        used = sum(self._width(piece.words, size, bold=piece.bold) for piece in line)
        if used + word + room + size > self._wide:
            top += size * _LEADING * 1.3
        base = round(top - size * 0.2, 3)
        start = self._wide - room
        if said:
            setting = Setting("regular", size, _INK)
            ops.append(Words(round(start - word - size * 0.3, 3), base, ((setting, said),)))
        ops.append(Stroke(round(start, 3), base + 1, round(self._wide, 3), base + 1, _RULE))
        return top

    def _lines(self, pieces: Sequence[Piece], size: float) -> list[tuple[Piece, ...]] | None:
        """Return pieces broken into lines; None where a word is wider than the label."""
        lines: list[list[Piece]] = [[]]
        used = 0.0
        for group in _words_of(pieces):
            wide = sum(self._width(piece.words, size, bold=piece.bold) for piece in group)
            if wide > self._wide:
                return None
            gap = self._width(" ", size, bold=False) if lines[-1] else 0.0
            if lines[-1] and used + gap + wide > self._wide:
                lines.append([])
                used = gap = 0.0
            if gap:
                lines[-1].append(Piece(words=" "))
            lines[-1] += group
            used += gap + wide
        return [tuple(line) for line in lines]

    def _width(self, text: str, size: float, *, bold: bool) -> float:
        return self._faces["bold" if bold else "regular"].width(text.replace(NO_BREAK, " ")) * size

    def _settings(self, line: Sequence[Piece], size: float) -> tuple[tuple[Setting, str], ...]:
        return tuple(
            (Setting("bold" if piece.bold else "regular", round(size, 3), _INK), piece.words) for piece in line
        )


class _Pages:
    """The sheets of labels of one print."""

    def __init__(self, faces: Faces, theme: Theme, sheet: LabelSheet, *, title: str, language: str) -> None:
        self._faces, self._theme, self._sheet = faces, theme, sheet
        self._title, self._language = title, language
        self._extra: set[str] = set()

    def letters(self, run: LabelRun) -> None:
        """Note every character that is printed."""
        texts = [run.title, run.hint, *run.measure.values()]
        texts += [text for said in run.parts.values() for text in said]
        for label in run.labels:
            texts += [label.name, label.use_by, label.made, label.which, label.initials, *label.allergens]
        self._extra = {letter for text in texts for letter in text.both if ord(letter) > 126}

    def draw(
        self, contents: Sequence[tuple[Op, ...]], start: int, margin: tuple[Box, tuple[Op, ...]] | None
    ) -> Outcome[Bound]:
        """Return the PDF of labels in their places."""
        paper = self._theme.papers[self._sheet.paper]
        extra = sorted(letter for letter in self._extra if letter not in self._faces.ready)
        document = Document(self._faces, title=self._title, language=self._language, extra=extra, sides="Simplex")
        painter = Painter(document, self._theme, grey=True)
        boxes = label_boxes(self._sheet)
        waiting = list(contents)
        pages = 0
        at = start - 1
        while waiting:
            placed: list[tuple[float, float, tuple[Op, ...]]] = []
            if margin is not None:
                placed.append((margin[0].left, margin[0].top, margin[1]))
            for box in boxes[at:]:
                if waiting:
                    placed.append((box.left, box.top, waiting.pop(0)))
            document.page(paper.width, paper.height, painter.page(placed, paper.height))
            pages, at = pages + 1, 0
        return Outcome(value=Bound(content=document.finish(), pages=pages))


def _ruler(left: float, top: float, length: float) -> Iterator[Op]:
    """Yield a line of an exact length, with ends and a mark every 10 mm."""
    yield Stroke(left, top, left + length, top, _RULE)
    step = 10 * POINTS_PER_MM
    for at in range(round(length / step) + 1):
        x = left + at * step
        half = 5.0 if at in (0, round(length / step)) else 2.5
        yield Stroke(x, top - half, x, top + half, _RULE)


def _pieces(text: Text, *, bold: bool = False) -> tuple[Piece, ...]:
    """Return the pieces of a text, in both languages one after the other where it has two."""
    pieces = text.first if text.second is None else (*text.first, Piece(words=BETWEEN_LANGUAGES), *text.second)
    return tuple(replace(piece, bold=True) for piece in pieces) if bold else pieces


def _words_of(pieces: Sequence[Piece]) -> Iterator[list[Piece]]:
    """Yield what may not be parted at a line end: words of one or several styles."""
    group: list[Piece] = []
    for piece in pieces:
        for number, word in enumerate(piece.words.split(" ")):
            if number and group:
                yield group
                group = []
            if word:
                group.append(replace(piece, words=word))
    if group:
        yield group
