"""The method of a spec: ``##`` sections of numbered steps, points and paragraphs, and nothing else.

Markdown decides where a block begins. What a sheet cannot print is a fault with what to do instead, never dropped
without a word. Text stays as typed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import field, replace
from typing import TYPE_CHECKING, Final

from linebook.model.body import Block, Body, Form, Piece, Section, Words
from linebook.read.fields import first_line
from linebook.read.ids import kebab
from linebook.read.inline import TypedText, is_bare, read_pieces
from linebook.read.markdown import parse_blocks
from linebook.read.plain_blocks import PlainBlock, plain_blocks
from linebook.read.reading import Reading
from linebook.source.codes import fault
from linebook.source.faults import Related
from linebook.source.frozen import changing
from linebook.source.spans import SourceFile, Span

if TYPE_CHECKING:
    from markdown_it.token import Token

MOST_STEP_CHARACTERS: Final = 10_000
MOST_BODY_CHARACTERS: Final = 200_000
MOST_BLOCKS: Final = 500

_REFUSED: Final = {
    "hr": ("a rule has no meaning in a method", "delete it; a `##` heading begins a new section"),
    "fence": ("a block of code cannot be printed", "delete the lines of backticks around it"),
    "code_block": ("these lines are set in too far", "move them to the left, or under their step by three spaces"),
    "html_block": (
        "HTML cannot be printed",
        "delete it; a note for yourself goes behind a `#` between the `---` lines",
    ),
    "blockquote_open": ("a quotation has no meaning in a method", "delete the `>`"),
    "table_open": ("a table cannot be printed in a method", "write it as points that begin with `-`"),
}
# Compiled when first used, as a plain method needs none.
_HASHES: Final = r"#{1,6}(?=[^#\s])"
_NUMBER: Final = r"[0-9]{1,9}[.)](?=[^\W\d_])"
_DASH: Final = r"[-•–](?=[^\W\d_])|[•–—] "
_LATE_NUMBER: Final = r"\n[ \t]*[0-9]{1,3}[.)] "


def read_body(source: SourceFile, start: int, end: int, reading: Reading) -> Body:
    """Return the method between two offsets of a file; ``start`` is the beginning of a line.

    Faults: LB117 (what cannot be printed), LB110 (too long), LB212 (a heading twice), LB214 (braces that cannot be
    read), LB316, LB301 and LB303 (the part of an ingredient in braces). What is sound is returned all the same.
    """
    text = source.text[start:end]
    if len(text) > MOST_BODY_CHARACTERS:
        message = f"this method is {len(text):,} characters long and may have {MOST_BODY_CHARACTERS:,}"
        reading.report("LB110", message, source.span(start, start), "split the spec into several components")
        return Body(sections=())
    plain = plain_blocks(text, start)
    if plain is not None:
        return _Bodies(source=source, first_line=0, reading=reading).read_plain(plain)
    bodies = _Bodies(source=source, first_line=source.position(start)[0], reading=reading)
    return bodies.read(parse_blocks(text.replace("\r\n", "\n")))


@changing
class _Item:
    """A step or point whose end has not been met."""

    form: Form
    pieces: list[Piece] = field(default_factory=list)


@changing
class _Bodies:
    """Builds sections from Markdown's blocks."""

    source: SourceFile
    first_line: int
    reading: Reading
    sections: list[Section] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    heading: tuple[str, Span] | None = None
    forms: list[Form] = field(default_factory=list)
    items: list[_Item] = field(default_factory=list)
    homeless: bool = False

    def read_plain(self, blocks: Sequence[PlainBlock]) -> Body:
        for form, text, starts in blocks:
            typed = TypedText(self.source, text, starts)
            if form is None:
                self._open_section(typed)
            elif self._within_size(typed):
                if form is Form.PARAGRAPH:
                    self._warn_of_near_markup(typed)
                self._add_block(form, self._pieces(typed))
        self._close_section()
        return Body(sections=tuple(self.sections))

    def read(self, tokens: Sequence[Token]) -> Body:
        at = 0
        while at < len(tokens):
            token = tokens[at]
            if token.type in _REFUSED:
                at = self._refuse(tokens, at)
                continue
            if token.type == "heading_open":
                self._open_typed_section(token, self._typed(tokens[at + 1]))
                at += 2
            elif token.type == "inline":
                self._take_text(token)
            elif token.type in ("ordered_list_open", "bullet_list_open"):
                self._open_list(token)
            elif token.type in ("ordered_list_close", "bullet_list_close"):
                self.forms.pop()
            elif token.type == "list_item_open":
                self.items.append(_Item(form=self.forms[-1]))
            elif token.type == "list_item_close":
                self._close_item(tokens[at - 1])
            at += 1
        self._close_section()
        return Body(sections=tuple(self.sections))

    def _open_typed_section(self, opening: Token, typed: TypedText) -> None:
        span = self._span(typed)
        if opening.tag != "h2" or set(opening.markup) != {"#"}:
            words = typed.text or "…"
            self.reading.report("LB117", "a heading here begins with two `#`", span, f"write `## {words}`")
        if self.items:
            message = "this heading stands inside a list"
            self.reading.report("LB117", message, span, "begin it at the left edge of the line")
        self._open_section(typed)

    def _open_section(self, typed: TypedText) -> None:
        span = self._span(typed)
        bare = len(typed.starts) == 1 and is_bare(typed.text)  # as nearly every heading is
        pieces = () if bare else self._pieces(typed)
        words = [typed.text] if bare else [piece.text for piece in pieces if isinstance(piece, Words)]
        title = "".join(words).strip()
        if not title or len(title) > 200:
            what = "a heading has no words" if not title else "a heading is longer than 200 characters"
            self.reading.report("LB117", what, span, "name the stage or the section")
        elif any(not isinstance(piece, Words) for piece in pieces):
            message = "a heading cannot hold an amount in braces"
            self.reading.report("LB117", message, span, "move the braces into a step")
        self._close_section()
        self.heading = (title, span)

    def _close_section(self) -> None:
        if self.heading is not None:
            title, span = self.heading
            key = kebab(title)
            twin = next((section for section in self.sections if section.key == key), None)
            if twin and key:
                related = (Related(span=twin.span, label="the first one"),)
                message = f"the heading `{title}` is there twice"
                hint = "put the steps of both under one heading"
                self.reading.take((fault("LB212", message, span, hints=(hint,), related=related),))
            section = Section(title=title, key=key, blocks=tuple(self.blocks), span=span)
            self.sections.append(section)
        self.blocks = []

    def _open_list(self, token: Token) -> None:
        if self.items:
            message = "a list inside a step or a point cannot be printed"
            hint = "make each of its lines a step of its own, or write them as one sentence"
            self.reading.report("LB117", message, self._line(token), hint)
            self._close_item(token)
            self.items.append(_Item(form=self.forms[-1]))
        self.forms.append(Form.STEP if token.type == "ordered_list_open" else Form.POINT)

    def _close_item(self, before: Token) -> None:
        """End a step or point; ``before`` is the token it ends after, its own opening where it is empty."""
        item = self.items.pop()
        if item.pieces:
            self._add_block(item.form, item.pieces)
        elif before.type == "list_item_open":
            what = "a step has no words" if item.form is Form.STEP else "a point has no words"
            self.reading.report("LB117", what, self._line(before), "write it, or delete the line")

    def _take_text(self, token: Token) -> None:
        typed = self._typed(token)
        if not self._within_size(typed):
            return
        self._warn_of_near_markup(typed)
        if not self.items and (hashes := re.match(_HASHES, typed.text)):
            self._close_section()
            title = typed.text[hashes.end() :].partition("\n")[0].strip()
            self.heading = (title, first_line(self._span(typed)))
            return
        pieces = self._pieces(typed)
        if self.items and pieces:
            _join(self.items[-1].pieces, pieces, self.source)
        else:
            self._add_block(Form.PARAGRAPH, pieces)

    def _add_block(self, form: Form, pieces: Sequence[Piece]) -> None:
        if not pieces:
            return
        span = self.source.span(pieces[0].span.start, pieces[-1].span.end)
        if self.heading is None:
            if not self.homeless:
                message = "text stands before the first heading"
                hint = "put a `##` heading above it: `## Pick-up` in a dish, the name of its stage in a component"
                self.reading.report("LB117", message, first_line(span), hint)
            self.homeless = True
            return
        if len(self.blocks) == MOST_BLOCKS:
            message = f"`{self.heading[0]}` has more than {MOST_BLOCKS} steps"
            self.reading.report("LB110", message, self.heading[1], "split it into several sections")
        if len(self.blocks) < MOST_BLOCKS:
            self.blocks.append(Block(form=form, pieces=tuple(pieces), span=span))

    def _within_size(self, typed: TypedText) -> bool:
        if len(typed.text) <= MOST_STEP_CHARACTERS:
            return True
        message = f"this step is {len(typed.text):,} characters long and may have {MOST_STEP_CHARACTERS:,}"
        self.reading.report("LB110", message, first_line(self._span(typed)), "split it into several steps")
        return False

    def _warn_of_near_markup(self, typed: TypedText) -> None:
        """Report what was meant as a heading, step or point but is none for want of a space or an empty line."""
        if self.items:
            return
        marks = ((_HASHES, "a heading"), (_NUMBER, "a step's number"), (_DASH, "a point's dash"))
        for pattern, what in () if typed.text[:1].isalpha() else marks:  # no mark is a letter
            found = re.match(pattern, typed.text)
            if found:
                place = self.source.span(typed.place(0), typed.place(0) + len(found[0]))
                mend = (
                    "begin a point with `- `"
                    if found[0].strip() in "•–—"
                    else f"put one space after `{found[0].strip()}`"
                )
                self.reading.report("LB117", f"{what} is not read as one here", place, mend)
                return
        late = re.search(_LATE_NUMBER, typed.text)
        if late:
            at = typed.place(late.end() - 1)
            start = self.source.text.rfind("\n", 0, at) + 1
            message = "this step runs on from the line above it"
            self.reading.report("LB117", message, self.source.span(start, at), "leave an empty line above the steps")

    def _refuse(self, tokens: Sequence[Token], at: int) -> int:
        """Report a block that cannot be printed; return where the blocks go on."""
        token = tokens[at]
        what, hint = _REFUSED[token.type]
        self.reading.report("LB117", what, self._line(token), hint)
        if token.nesting == 0:
            return at + 1
        closing = token.type.replace("_open", "_close")
        depth = next(
            n for n in range(at + 1, len(tokens)) if tokens[n].type == closing and tokens[n].level == token.level
        )
        return depth + 1

    def _typed(self, inline: Token) -> TypedText:
        """Find each line of a block's text in the file: Markdown has taken indents and marks off its beginning."""
        first = self.first_line + (inline.map[0] if inline.map else 0)
        starts = []
        begin = 0
        for number, line in enumerate(inline.content.split("\n"), first):
            line_start = self.source.line_starts[number - 1]
            words = line.lstrip()
            at = self.source.line_text(number).rfind(words.rstrip())
            starts.append((begin, line_start + max(at - len(line) + len(words), 0)))
            begin += len(line) + 1
        return TypedText(source=self.source, text=inline.content, starts=tuple(starts))

    def _pieces(self, typed: TypedText) -> tuple[Piece, ...]:
        return read_pieces(typed, self.reading)

    def _span(self, typed: TypedText) -> Span:
        start = typed.place(0)
        return self.source.span(start, typed.place(len(typed.text) - 1) + 1 if typed.text else start)

    def _line(self, token: Token) -> Span:
        """The first line of a block, without its indent."""
        line = self.first_line + (token.map[0] if token.map else 0)
        text = self.source.line_text(line)
        start = self.source.line_starts[line - 1] + len(text) - len(text.lstrip())
        return self.source.span(start, self.source.line_starts[line - 1] + len(text))


def _join(before: list[Piece], after: Sequence[Piece], source: SourceFile) -> None:
    """Let the second paragraph of a step run on from the first."""
    if not before:
        before.extend(after)
        return
    last, first = before[-1], after[0]
    between = source.span(last.span.end, first.span.start)
    if between.text.strip():  # something refused stands there
        between = source.span(first.span.start, first.span.start)
    elif isinstance(last, Words) and isinstance(first, Words) and _style(last) == _style(first):
        span = source.span(last.span.start, first.span.end)
        before[-1] = replace(last, text=f"{last.text} {first.text}", span=span)
        before.extend(after[1:])
        return
    before.append(Words(text=" ", span=between))
    before.extend(after)


def _style(words: Words) -> tuple[bool, bool]:
    return words.strong, words.emphasis
