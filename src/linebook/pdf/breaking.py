"""Breaks words into lines: as many as fit, with words cut where one is wider than the line.

Owns where a line ends. It must not know of styles, nor how words are made. Points.
"""

from __future__ import annotations

from collections.abc import Iterator

from linebook.markup.blocks import Mark
from linebook.pdf.fonts import Faces
from linebook.pdf.marks import MarkMaker
from linebook.pdf.words import JOINTS, Part, Span, Word, has_joint, without_runt


def filled(words: list[Word], limit: float, stay: frozenset[int]) -> list[Span]:
    """Return the words of each line, as many as fit; those of ``stay`` are on the line of the word before them."""
    if not words:
        return []
    lines: list[Span] = []
    start, used = 0, 0.0
    for at, (width, gap, _, _, _, _) in _together(words, limit, stay) if stay else enumerate(words):
        if not at:
            used = width
        elif used + gap + width > limit:
            lines.append((start, at, used))
            start, used = at, width
        else:
            used += gap + width
    lines.append((start, len(words), used))
    return without_runt(words, lines, limit)


def _together(words: list[Word], limit: float, stay: frozenset[int]) -> Iterator[tuple[int, Word]]:
    """Yield the number of each word, and it and those that stay with it as one, no wider than a line."""
    at, count = 0, len(words)
    while at < count:
        first, number = words[at], at
        at += 1
        if at in stay:
            needed = first.width
            while at in stay and needed + (more := words[at].gap + words[at].width) <= limit:
                needed += more
                at += 1
            first = first._replace(width=needed)
        yield number, first


class Cutter:
    """Cuts words that are wider than their line."""

    def __init__(self, faces: Faces, marks: MarkMaker) -> None:
        self._faces = faces
        self._marks = marks

    def loosened(self, words: list[Word], width: float) -> list[Word]:
        """Cut words at their joints, and those still wider than the line anywhere."""
        loose: list[Word] = []
        whole = True
        for word in words:
            pieces = self._at_joints(word) if has_joint(word) else None
            if pieces is None and word[0] <= width:
                loose.append(word)
                continue
            whole = False
            for piece in pieces or [word]:
                loose += self._cut(piece, width) if piece.width > width else [piece]
        return words if whole else loose

    def _at_joints(self, word: Word) -> list[Word]:
        ((setting, text, _),) = word.parts
        face = self._faces[setting.face]
        pieces = [piece for piece in JOINTS.split(str(text)) if piece]
        made = [(piece, face.width(piece) * setting.size) for piece in pieces]
        return [
            Word(wide, 0.0 if number else word.gap, word.gap_setting, ((setting, piece, wide),))
            for number, (piece, wide) in enumerate(made)
        ]

    def _cut(self, word: Word, width: float) -> list[Word]:
        """Cut a word between any two letters, and a long mark into shorter ones."""
        cut: list[Word] = []
        parts: list[Part] = []
        used = 0.0
        for atom in self._atoms(word, width):
            if parts and used + atom[2] > width:
                cut.append(Word(used, 0.0 if cut else word.gap, word.gap_setting, tuple(parts)))
                parts, used = [], 0.0
            used += atom[2]
            setting, content, wide = atom
            if parts and isinstance(content, str) and isinstance(parts[-1][1], str) and parts[-1][0] == setting:
                parts[-1] = (setting, parts[-1][1] + content, parts[-1][2] + wide)
            else:
                parts.append(atom)
        return [*cut, Word(used, 0.0 if cut else word.gap, word.gap_setting, tuple(parts))]

    def _atoms(self, word: Word, width: float) -> Iterator[Part]:
        for setting, content, _ in word.parts:
            if isinstance(content, Mark):
                for mark in self._marks.fitted(content, setting, width):
                    yield setting, mark, self._marks.width(mark, setting)
            else:
                face = self._faces[setting.face]
                for letter in content:
                    yield setting, letter, face.width(letter) * setting.size
