"""The words of one block of a method: emphasis and braces found, every piece with its place in the file.

Owns what may stand inside a step. markdown-it gives no places inside a block, so its tokens are followed along the
typed text.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import field
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

from linebook.model.body import Piece, Words
from linebook.read.braces import read_brace
from linebook.read.markdown import parse_inline
from linebook.read.reading import Reading
from linebook.source.faults import ValueMistake
from linebook.source.frozen import changing
from linebook.source.spans import SourceFile, Span

if TYPE_CHECKING:
    from markdown_it.token import Token

# A house has tens of thousands of pieces, and this way a named tuple is made in half the time.
_tuple: Final = tuple.__new__
_STARS: Final = re.compile(r"\*+")
_SPACES: Final = ("", " ", "\n")
_MARKS: Final = tuple(".,;:!?()/-'\"{}")
_BRACE_OR_NOT: Final = r"[{}]|[^{}]+"
# Each of the two ways begins with a sign of its own, which is looked for sooner than a pattern.
_MARKED: Final = re.compile(r"(\*\**|\{[^{}*\n]*\})")
_END_TAG: Final = r"</([A-Za-z][A-Za-z0-9-]*)"
_BREAK: Final = re.compile(r"[ \t]*\\?\n[ \t]*")
# For each refused token: how it opens and closes ("" is told by the token), what is wrong, what to do.
_REFUSED: Final = {
    "html_inline": ("", "", "HTML cannot be printed", "write `**bold**` or `*italic*`, or delete it"),
    "code_inline": ("`", "", "backticks have no meaning in a method", "type the words without them"),
    "image": ("![", ")", "a picture cannot be printed", "delete it"),
    "link_open": ("[", ")", "a link cannot be printed", "type the words alone"),
    "autolink": ("<", ">", "a link cannot be printed", "type the words alone"),
}


_Part: TypeAlias = tuple[int, int, bool, bool]
"""Characters of one style: from where, up to where, whether they are strong, whether emphasised."""


class TypedText(NamedTuple):
    """The text of one block as Markdown sees it, and where each of its lines begins in the file."""

    source: SourceFile
    text: str
    starts: tuple[tuple[int, int], ...]
    """For each line, where it begins in ``text`` and where that is in the file."""

    def place(self, at: int) -> int:
        """Return the offset in the file of an offset in ``text``."""
        if len(self.starts) == 1:  # as nearly every text has
            return self.starts[0][1] + at
        line = len(self.starts) - 1
        while self.starts[line][0] > at:
            line -= 1
        begin, offset = self.starts[line]
        return offset + at - begin


@changing
class _Run:
    """Typed characters of one style. ``literal`` marks an escaped character, which opens no braces."""

    text: str
    start: int
    end: int
    strong: bool = False
    emphasis: bool = False
    literal: bool = False


def read_pieces(typed: TypedText, reading: Reading) -> tuple[Piece, ...]:
    """Return the pieces of a block: words, computed amounts and fixed amounts."""
    if not typed.text:
        return ()
    pieces = _plain_pieces(typed, reading)
    if pieces is not None:
        return tuple(pieces)
    parts = _parts(typed.text)
    runs = (
        _parsed_runs(typed, reading) if parts is None else (run for part in parts for run in _plain_runs(typed, *part))
    )
    return tuple(_Pieces(source=typed.source, reading=reading).read(runs))


def is_bare(text: str) -> bool:
    """Return whether a text is words alone, with no sign in it that could be a mark."""
    return not ("*" in text or "{" in text or "}" in text or "\t" in text or _has_special(text))


def _plain_pieces(typed: TypedText, reading: Reading) -> list[Piece] | None:
    """Return the pieces where all braces are closed on the line and in the style they are opened in; else None.

    What is read here could be read run by run as well; nearly all methods are this plain, and a house is long.
    """
    source, text, starts = typed
    first = starts[0][1] if len(starts) == 1 else -1  # as of nearly every text: then places need no looking up
    if is_bare(text):
        return [_words(typed, text, 0, first)]
    if _has_special(text) or "\t" in text:
        return None
    pieces: list[Piece] = []
    mistakes: list[tuple[ValueMistake, Span]] = []
    at = braces = stars = 0
    for number, part in enumerate(_MARKED.split(text)):
        end = at + len(part)
        if number % 2 == 0:
            if part:
                pieces.append(_words(typed, part, at, first, stars))
        elif part[0] == "{":
            start = typed.place(at) if first < 0 else first + at
            span = source.span(start, start + len(part))
            braces += 1
            try:
                pieces.append(read_brace(part[1:-1], span, strong=stars == 2))
            except ValueMistake as mistake:
                mistakes.append((mistake, span))
        elif stars == 0 and _opens(text, at, end):
            stars = end - at
        elif stars == end - at and _closes(text, at, end):
            stars = 0
        else:
            return None
        at = end
    if stars or text.count("{") != braces or text.count("}") != braces:
        return None
    for found, span in mistakes:
        reading.report_mistake(found, span)
    return pieces


def _parts(text: str) -> list[_Part] | None:
    """Return the parts of a text with no marks, or with plain `**bold**` and `*italic*` alone; else None."""
    if _has_special(text):
        return None
    parts: list[_Part] = []
    at = stars = 0
    for found in _STARS.finditer(text):
        start, end = found.span()
        parts.append((at, start, stars == 2, stars == 1))
        if stars == 0 and _opens(text, start, end):
            stars = end - start
        elif stars == end - start and _closes(text, start, end):
            stars = 0
        else:
            return None
        at = end
    return None if stars else [*parts, (at, len(text), False, False)]


def _has_special(text: str) -> bool:
    return "_" in text or "`" in text or "[" in text or "<" in text or "\\" in text


def _words(typed: TypedText, text: str, start: int, first: int, stars: int = 0) -> Words:
    """Return the part of a text that begins at ``start``, without marks and between so many stars, as words.

    Each line end is a space. ``first`` is where a text of one line begins in the file, -1 for others.
    """
    end = start + len(text)
    if first >= 0:
        span: Span = _tuple(Span, (typed.source, first + start, first + end))
    else:
        text = _BREAK.sub(" ", text)
        last = typed.place(end) if end < len(typed.text) else typed.place(end - 1) + 1
        span = typed.source.span(typed.place(start), last)
    if not stars:
        return Words(text=text, span=span)
    return Words(text=text, strong=stars == 2, emphasis=stars == 1, span=span)


def _opens(text: str, start: int, end: int) -> bool:
    """True where stars can only open, by the rules of CommonMark: with ``_closes``, they can only belong together."""
    before, first = text[start - 1 : start], text[end : end + 1]
    opens = (before in _SPACES and first not in _SPACES) or (before in _MARKS and first.isalnum())
    return end - start <= 2 and opens


def _closes(text: str, start: int, end: int) -> bool:
    """True where stars can only close."""
    last, after = text[start - 1], text[end : end + 1]
    return (after in _SPACES and last not in _SPACES) or (after in _MARKS and last.isalnum())


def _plain_runs(typed: TypedText, start: int, end: int, strong: bool, emphasis: bool) -> Iterator[_Run]:
    """Yield the lines of a text without marks, each line end as a space."""
    at = start
    while at < end:
        line_end = _BREAK.search(typed.text, at, end)
        stop = line_end.start() if line_end else end
        if stop > at:
            yield _run(typed, typed.text[at:stop], at, stop, strong=strong, emphasis=emphasis)
        if line_end:
            yield _run(typed, " ", stop, line_end.end(), strong=strong, emphasis=emphasis)
        at = line_end.end() if line_end else end


def _run(
    typed: TypedText, text: str, start: int, end: int, *, strong: bool, emphasis: bool, literal: bool = False
) -> _Run:
    first = typed.place(start)
    last = typed.place(end) if end < len(typed.text) else typed.place(end - 1) + 1
    return _Run(text=text.replace("\t", " "), start=first, end=last, strong=strong, emphasis=emphasis, literal=literal)


def _parsed_runs(typed: TypedText, reading: Reading) -> Iterator[_Run]:
    strong = emphasis = 0
    at = 0
    for token in parse_inline(typed.text):
        kind = token.type
        if kind in ("strong_open", "strong_close"):
            strong += token.nesting
            at += len(token.markup)
        elif kind in ("em_open", "em_close"):
            emphasis += token.nesting
            at += len(token.markup)
        elif kind in ("softbreak", "hardbreak"):
            found = _BREAK.search(typed.text, at)
            if found:
                yield _run(typed, " ", found.start(), found.end(), strong=strong > 0, emphasis=emphasis > 0)
                at = found.end()
        elif kind == "text":
            at = _find(typed, token.content, at)
            content = token.content.rstrip(" \t")
            if not _BREAK.match(typed.text, at + len(content)):
                content = token.content
            end = at + len(content)
            yield from _plain_runs(typed, at, end, strong > 0, emphasis > 0)
            at = end
        elif kind == "text_special":
            at = _find(typed, token.markup, at)
            end = at + len(token.markup)
            yield _run(typed, token.content, at, end, strong=strong > 0, emphasis=emphasis > 0, literal=True)
            at = end
        else:
            at = _refuse(token, typed, at, reading)


def _find(typed: TypedText, text: str, at: int) -> int:
    """Return where a text comes next; it is at ``at`` unless something refused stands before it."""
    found = typed.text.find(text, at)
    return found if found >= 0 else at


def _refuse(token: Token, typed: TypedText, at: int, reading: Reading) -> int:
    """Report what a method may not hold and return where the text goes on."""
    text = typed.text
    auto = token.info == "auto"
    if token.type == "link_close":
        return text.find(">" if auto else ")", at) + 1 or at
    opener, closer, what, hint = _REFUSED["autolink" if auto else token.type]
    opener = opener or token.content or token.markup
    start = _find(typed, opener, at)
    end = text.find(closer or token.markup, start + len(opener)) + len(closer or token.markup)
    if token.type == "html_inline" or end <= start:
        end = start + len(opener)
    if not _closes_a_reported_tag(text, start):
        run = _run(typed, "", start, end, strong=False, emphasis=False)
        reading.report("LB117", what, typed.source.span(run.start, run.end), hint)
    return start + 1 if token.type == "link_open" else end


def _closes_a_reported_tag(text: str, start: int) -> bool:
    """True for the end of a tag whose beginning stands before it and is reported: one slip, one report."""
    name = re.match(_END_TAG, text[start:])
    return name is not None and f"<{name[1]}".casefold() in text[:start].casefold()


@changing
class _Pieces:
    """Joins runs of one style into words and reads what stands in braces. ``opened`` is what an open brace holds."""

    source: SourceFile
    reading: Reading
    done: list[Piece] = field(default_factory=list)
    current: _Run | None = None
    opened: list[_Run] = field(default_factory=list)
    doubled_to: int = 0

    def read(self, runs: Iterable[_Run]) -> list[Piece]:
        for run in runs:
            if run.literal or not (self.opened or "{" in run.text or "}" in run.text):
                self._take(run)
            else:
                for match in re.finditer(_BRACE_OR_NOT, run.text):
                    self._take(_cut(run, match.start(), match.end()))
        if self.opened:
            self._report_unclosed()
        self._finish()
        return self.done

    def _report_unclosed(self) -> None:
        span = self.source.span(self.opened[0].start, self.opened[0].end)
        self.reading.report("LB214", "this brace is not closed", span, "close it with `}` after the ingredient's id")

    def _take(self, run: _Run) -> None:
        mark = "" if run.literal else run.text
        if self.opened and mark == "{" and len(self.opened) > 1:
            self._report_unclosed()
            self.opened = [run]
        elif self.opened:
            self.opened.append(run)
            if mark == "}":
                self._read_brace()
        elif mark == "}" and self.doubled_to == run.start:
            self.doubled_to = 0  # the second brace of `{{butter}}`, which has been reported
        elif mark == "{":
            self.opened.append(run)
        elif mark == "}":
            hint = "open it with `{` before the ingredient's id"
            self.reading.report("LB214", "this brace was not opened", self.source.span(run.start, run.end), hint)
        else:
            self._add(run)

    def _read_brace(self) -> None:
        runs, self.opened = self.opened, []
        span = self.source.span(runs[0].start, runs[-1].end)
        self.doubled_to = span.end if len(runs) > 1 and runs[1].text == "{" else 0
        try:
            piece = read_brace("".join(run.text for run in runs[1:-1]), span, strong=runs[0].strong)
        except ValueMistake as mistake:
            self.reading.report_mistake(mistake, span)
            return
        self._finish()
        self.done.append(piece)

    def _add(self, run: _Run) -> None:
        last = self.current
        if last and last.end == run.start and (last.strong, last.emphasis) == (run.strong, run.emphasis):
            last.text += run.text
            last.end = run.end
            return
        self._finish()
        self.current = run

    def _finish(self) -> None:
        run, self.current = self.current, None
        if run is not None:
            span = self.source.span(run.start, run.end)
            self.done.append(Words(text=run.text, strong=run.strong, emphasis=run.emphasis, span=span))


def _cut(run: _Run, start: int, end: int) -> _Run:
    """Return some characters of a run of typed text, which is as long in the file as here."""
    return _Run(
        text=run.text[start:end],
        start=run.start + start,
        end=run.start + end,
        strong=run.strong,
        emphasis=run.emphasis,
    )
