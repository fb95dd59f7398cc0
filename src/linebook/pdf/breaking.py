"""Breaks words into lines: as many as fit, with words cut where one is wider than the line.

Owns where a line ends. It must not know of styles, nor how words are made. Points.
"""

from __future__ import annotations

from collections.abc import Iterator

from linebook.markup.blocks import Mark
from linebook.pdf.fonts import Faces
from linebook.pdf.marks import MarkMaker
from linebook.pdf.words import JOINTS, NUMBER_ENDS, Part, Word, has_joint, tied, without_runt


def filled(words: list[Word], limit: float) -> list[tuple[list[Word], float]]:
    """Return the words of each line, as many as fit, and the width they take."""
    lines: list[tuple[list[Word], float]] = []
    used = 0.0
    start = at = 0
    count = len(words)
    while at < count:
        word = words[at]
        end, needed = at + 1, word.width
        while end < count:
            last = word.parts[-1][1]
            if (type(last) is str and last[-1] not in NUMBER_ENDS) or not tied(word, words[end]):
                break
            word = words[end]
            more = word.gap + word.width
            if needed + more > limit:
                break
            needed += more
            end += 1
        gap = words[at].gap if at > start else 0.0
        if at > start and used + gap + needed > limit:
            lines.append((words[start:at], used))
            start, used, gap = at, 0.0, 0.0
        used += gap + needed
        at = end
    if words:
        lines.append((words[start:], used))
    return without_runt(lines, limit)


class Cutter:
    """Cuts words that are wider than their line."""

    def __init__(self, faces: Faces, marks: MarkMaker) -> None:
        self._faces = faces
        self._marks = marks

    def loosened(self, words: list[Word], width: float) -> list[Word]:
        """Cut words at their joints, and those still wider than the line anywhere."""
        for word in words:
            if word.width > width or has_joint(word):
                break
        else:
            return words
        loose: list[Word] = []
        for word in words:
            pieces = self._at_joints(word) if has_joint(word) else [word]
            for piece in pieces:
                loose.extend(self._cut(piece, width) if piece.width > width else [piece])
        return loose

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
