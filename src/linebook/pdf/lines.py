"""Breaks text into lines: styles of a run, words that may not part, and the widths of both.

Owns where a line may end. It must not know of pages, tables or how anything is painted. Points.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final, TypeAlias

from linebook.documents.text import BETWEEN_LANGUAGES
from linebook.markup.blocks import Inline, Mark, Run, Second
from linebook.pdf.breaking import Cutter, filled
from linebook.pdf.fonts import Face, Faces
from linebook.pdf.marks import MarkMaker
from linebook.pdf.pieces import Setting, made
from linebook.pdf.theme import LEAST_READING_SIZE, Density, Style, Theme
from linebook.pdf.words import (
    Line,
    Part,
    Passage,
    Word,
    alike,
    bound,
    line_of,
    parted,
)

_FACE: Final = {
    ("regular", False, False): "regular",
    ("regular", True, False): "bold",
    ("regular", False, True): "italic",
    ("regular", True, True): "bold-italic",
    ("bold", False, False): "bold",
    ("bold", True, False): "bold",
    ("bold", False, True): "bold-italic",
    ("bold", True, True): "bold-italic",
    ("italic", False, False): "italic",
    ("italic", True, False): "bold-italic",
    ("italic", False, True): "italic",
    ("italic", True, True): "bold-italic",
    **dict.fromkeys([("bold-italic", bold, slant) for bold in (False, True) for slant in (False, True)], "bold-italic"),
}
_PLAIN: Final = (False, False, False, False)
"""Neither bold nor slanted, quiet or small."""

_SPACES: Final = re.compile(r"[ \t\r\n\f\v]+")
_TIGHTEST: Final = 1.1
"""Of the size. No setting brings two baselines nearer."""

_SLACK: Final = 0.01

_ALONG: Final = frozenset({"kicker", "aside", "running", "column", "group", "foot", "print", "band"})
"""Styles of what has one line: there a second language follows the first, elsewhere it stands under it."""


Split: TypeAlias = dict[int, tuple[Inline, Passage]]
"""Contents by their address, each with its words."""


class _Known:
    """Words in one setting, measured once: each as it stands between two spaces."""

    def __init__(self, setting: Setting, face: Face) -> None:
        self.setting = setting
        self.gap = face.width(" ") * setting.size
        self.words: dict[str, Word] = {}
        self._face = face
        self._widths = face.known

    def word(self, text: str) -> Word:
        setting = self.setting
        width = (self._widths.get(text) or self._face.width(text)) * setting.size
        word = self.words[text] = made(Word, (width, self.gap, setting, ((setting, text, width),), False, 0.0))
        return word


class Kept:
    """What layouts of one theme lend each other: words once measured, and contents once split.

    Most styles are no smaller where a page is set tighter: what is split for one density serves at others too.
    """

    def __init__(self) -> None:
        self.words: dict[Setting, _Known] = {}
        self.passages: dict[tuple[object, ...], Split] = {}
        self.seconds: set[str] = set()


class LineMaker:
    """Words and lines at one density of one theme."""

    def __init__(self, theme: Theme, faces: Faces, density: Density, kept: Kept | None = None) -> None:
        """Make words at a density; ``kept`` is what the densities of a theme have in common."""
        self.theme = theme
        self.faces = faces
        self.density = density
        self.marks = MarkMaker(theme, faces, density)
        self._cutter = Cutter(faces, self.marks)
        self._sizes: dict[str, tuple[float, float, float]] = {}
        self._kept = kept or Kept()
        self._words = self._kept.words
        self.seconds = self._kept.seconds
        """The languages met so far that are said after another."""
        self._passages: dict[str, Split] = {}
        self._along: dict[str, Split] = {}
        self._shared: dict[tuple[str, bool], Split] = {}
        self._settings: dict[tuple[str, bool, bool, bool, bool], _Known] = {}
        self._plain: dict[str, Setting] = {}
        self._smaller: dict[tuple[str, bool], Style] = {}

    def size(self, style: Style) -> float:
        """Return the size of a style at this density, never under its least."""
        return self.measures(style)[0]

    def leading(self, style: Style) -> float:
        """Return the distance between two baselines of a style."""
        known = self._sizes.get(style.name)
        return (known or self.measures(style))[1]

    def baseline(self, style: Style, height: float) -> float:
        """Return how far under the top of a line of ``height`` its baseline stands."""
        known = self._sizes.get(style.name)
        return height / 2 + (known or self.measures(style))[2]

    def measures(self, style: Style) -> tuple[float, float, float]:
        """Return size, leading, and how far under the middle of a line its baseline stands."""
        known = self._sizes.get(style.name)
        if known is None:
            size = max(style.least, style.size * self.density.type)
            face = self.faces[style.face]
            leading = size * max(_TIGHTEST, style.leading * self.density.leading)
            known = self._sizes[style.name] = (size, leading, size * (face.ascent - face.descent) / 2)
        return known

    def before(self, style: Style) -> float:
        return style.before * self.density.space

    def setting(self, style: Style, run: Run | None = None) -> Setting:
        """Return how a run of a style is set. Where safety hangs on the words they are never grey nor small."""
        if run is not None:
            return self._in(style, run).setting
        known = self._plain.get(style.name)
        if known is None:
            known = self._plain[style.name] = self._in(style).setting
        return known

    def _in(self, style: Style, run: Run | None = None) -> _Known:
        """Return the words met so far in the setting of a run."""
        key = (style.name, run.bold, run.italic, run.quiet, run.small) if run else (style.name, *_PLAIN)
        known = self._settings.get(key)
        if known is None:
            _, bold, italic, quiet, small = key
            size = self.size(style)
            if small:
                note = self.size(self.theme.styles.note)
                size = min(size, max(note, LEAST_READING_SIZE if style.never_grey else note))
            ink = "quiet" if quiet and not style.never_grey else style.ink
            known = self._settings[key] = self._known(Setting(_FACE[style.face, bold, italic], size, ink))
        return known

    def words(self, content: Inline, style: Style, along: bool = False) -> Passage:
        """Split content at its spaces; what touches without a space stays one word.

        What it says in a second language begins a line of its own, smaller and never bold as a whole; where there is
        one line, or ``along`` asks for it, it follows after a stroke. The words are kept with their content, so that an
        address is never reused.
        """
        kept = (self._along if along else self._passages).get(style.name)
        words = (self.known(style, along) if kept is None else kept).get(id(content))
        return words[1] if words else self._found(content, style, along)

    def known(self, style: Style, along: bool = False) -> Split:
        """Return the words of the contents split so far in a style, to be looked up by who asks for very many."""
        passages = self._along if along else self._passages
        kept = passages.get(style.name)
        if kept is None:
            note = self.size(self.theme.styles.note)
            self._shared[style.name, along] = self._kept_in(style, along)
            kept = passages[style.name] = self._kept_in(style, along, note)
        return kept

    def _found(self, content: Inline, style: Style, along: bool) -> Passage:
        """Return the words of content that this density has not met: split already for another, or now."""
        kept, shared = self.known(style, along), self._shared[style.name, along]
        if len(content) == 1 and type(run := content[0]) is Run:
            small = run.small
        else:
            small = True in [one.small for one in content if type(one) is Run]
        words = None if small else shared.get(id(content))
        if words is None:
            words = (content, self._split(content, style, along or style.name in _ALONG))
            if not small:
                shared[id(content)] = words
        kept[id(content)] = words
        return words[1]

    def _kept_in(self, style: Style, along: bool, *also: float) -> Split:
        """Return the contents split in a style at any density where all of a line is as large."""
        key = (style.name, along, self.size(style), *self.marks.sizes, *also)
        return self._kept.passages.setdefault(key, {})

    def _split(self, content: Inline, style: Style, along: bool) -> Passage:
        plain = self._of_one_run(content, style)
        if plain is not None:
            return plain
        words = self._in_languages(content, style, along)
        if content and isinstance(content[-1], Second):
            return Passage(words)
        return Passage(words, 1, content)

    def _in_languages(self, content: Inline, style: Style, along: bool) -> list[Word]:
        if not content or not isinstance(second := content[-1], Second):
            return self._divide(content, style)
        self.seconds.add(second.lang)
        own = self._in_second(style, along)
        said = tuple(replace(run, small=False) if run.small else run for run in second.content)
        first, other = self._divide(content[:-1], style), self._divide(said, own)
        if not other:
            return first
        if along:
            stroke = self._divide((Run(text=BETWEEN_LANGUAGES.strip()),), own)
            return [*first, *self._spaced(stroke, own), *self._spaced(other[alike(first, other) :], own)]
        begins = other[0]
        begins = Word(*begins[:4], begins.apart, own.size / self.size(style))
        return [*first, begins, *other[1:]]

    def _spaced(self, words: list[Word], style: Style) -> list[Word]:
        """Return words that stand a space after what is set before them."""
        setting = self.setting(style)
        return [words[0]._replace(gap=self._known(setting).gap, gap_setting=setting), *words[1:]]

    def _in_second(self, style: Style, along: bool) -> Style:
        """Return how a second language is set in a style: no smaller than the least, regular, as dark as the first."""
        known = self._smaller.get((style.name, along))
        if known is None:
            size = self.size(style) if along else style.least
            face = "italic" if style.face == "italic" else "regular"
            known = replace(style, name=f"{style.name} second {along}", size=size, least=size, face=face)
            self._smaller[style.name, along] = known
        return known

    def _of_one_run(self, content: Inline, style: Style) -> Passage | None:
        """Return the words of content that is one run, as most is; None of any other, and where spaces are no words."""
        if len(content) != 1 or type(run := content[0]) is not Run or not run.text or run.text[0].isspace():
            return None
        known = self._in(style, run)
        measured, said = known.words, _pieces(run.text)
        if "" in said:
            said = [piece for piece in said if piece]
        words = [measured.get(piece) or known.word(piece) for piece in said]
        width, _, _, parts, _, _ = words[0]
        words[0] = made(Word, (width, 0.0, self._plain.get(style.name) or self.setting(style), parts, False, 0.0))
        return Passage(words, 1, content, said if known.gap > 0 else None)

    def _divide(self, content: Inline, style: Style) -> list[Word]:
        words: list[Word] = []
        parts: list[Part] = []
        gap: _Known | None = None
        for one in content:
            if isinstance(one, Second):
                continue
            if isinstance(one, Mark):
                setting = self.setting(style)
                parts.append((setting, one, self.marks.width(one, setting)))
                continue
            known = self._in(style, one)
            measured = known.words
            first, *pieces = _pieces(one.text)
            if first:
                parts.append((measured.get(first) or known.word(first)).parts[0])
            if not pieces:
                continue
            if parts:
                words.append(self._word(parts, gap if words else None, style))
            gap, last = known, pieces.pop()
            between = [measured.get(piece) or known.word(piece) for piece in pieces if piece]
            if between and not words:
                between[0] = Word(between[0].width, 0.0, known.setting, between[0].parts)
            words += between
            parts = [(measured.get(last) or known.word(last)).parts[0]] if last else []
        if parts:
            words.append(self._word(parts, gap if words else None, style))
        return words

    def _known(self, setting: Setting) -> _Known:
        known = self._words.get(setting)
        if known is None:
            known = self._words[setting] = _Known(setting, self.faces[setting.face])
        return known

    def natural(self, words: list[Word]) -> float:
        """Return the width the words take on one line, or on one for each language."""
        if type(words) is Passage:
            return words.natural
        if self.seconds:
            return max([sum([word.width + word.gap for word in one]) for one in parted(words)], default=0.0)
        return sum([word.width + word.gap for word in words])

    def least(self, words: list[Word]) -> float:
        """Return the width of the widest word."""
        if type(words) is Passage:
            return words.least
        return max([word.width for word in words], default=0.0)

    def lines(self, words: list[Word], width: float) -> list[Line]:
        """Break words into lines no wider than ``width``; a wider word is cut rather than clipped."""
        if type(words) is Passage:
            if words.languages == 1 and words.natural <= width + _SLACK:
                return words.joined or (words.join() if words else [])
            lines = words.broken.get(width)
            if lines is None:
                one = words.languages == 1
                lines = words.broken[width] = self._of_one(words, width) if one else self._lines(words, width)
            return lines
        return self._lines(words, width) if words else []

    def _lines(self, words: list[Word], width: float) -> list[Line]:
        if self.seconds and len(languages := parted(words)) > 1:
            return [line for one in languages for line in self._in_part(self._broken(one, width), one[0].begins)]
        return self._broken(words, width)

    def _in_part(self, lines: list[Line], part: float) -> list[Line]:
        """Return lines set in a part of their style's size, 0 for all of it."""
        return [Line(width, runs, marks, part) for width, runs, marks, _ in lines] if part else lines

    def _of_one(self, words: Passage, width: float) -> list[Line]:
        """Break words in one language that do not fit on one line."""
        limit = width + _SLACK
        if words.least <= width and not words.jointed:
            return [words.line(start, end, used) for start, end, used in filled(words, limit, words.bound)]
        loose = self._cutter.loosened(words, width)
        if loose is words:
            return [words.line(start, end, used) for start, end, used in filled(words, limit, words.bound)]
        return _filled_lines(loose, limit)

    def _broken(self, words: list[Word], width: float) -> list[Line]:
        limit = width + _SLACK
        natural = sum([word.width + word.gap for word in words])
        if natural <= limit:
            return [line_of(words, natural)]
        return _filled_lines(self._cutter.loosened(words, width), limit)

    def _word(self, parts: list[Part], gap: _Known | None, style: Style) -> Word:
        width = parts[0][2] if len(parts) == 1 else sum([part[2] for part in parts])
        if gap is None:
            return made(Word, (width, 0.0, self.setting(style), tuple(parts), False, 0.0))
        return made(Word, (width, gap.gap, gap.setting, tuple(parts), False, 0.0))

    def apart(self, words: list[Word], gap: float) -> list[Word]:
        """Return words that stand ``gap`` points after what is set before them."""
        if not words:
            return words
        first = words[0]
        return [made(Word, (first.width, gap, first.gap_setting, first.parts, True, first.begins)), *words[1:]]

    def fused(self, words: list[Word]) -> Word:
        """Return words as one that a line end never parts."""
        parts: list[Part] = []
        for word in words:
            if parts and word.gap:
                width = self.faces[word.gap_setting.face].width(" ") * word.gap_setting.size
                parts.append((word.gap_setting, " ", width))
            parts += word.parts
        return words[0]._replace(width=sum(part[2] for part in parts), parts=tuple(parts))


def _pieces(text: str) -> list[str]:
    """Return what a text has between its spaces, '' between two of them."""
    return _SPACES.split(text) if "\n" in text or "\t" in text else text.split(" ")


def _filled_lines(words: list[Word], limit: float) -> list[Line]:
    return [line_of(words[start:end], used) for start, end, used in filled(words, limit, bound(words))]
