"""A spec's body as printed: steps numbered through the card, computed amounts put in, times and temperatures bold."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import field, replace
from itertools import groupby
from operator import itemgetter
from typing import Final, TypeAlias

from linebook.documents.braces import FIRST, NAMED_WITH_ARTICLE, SECOND
from linebook.documents.emphasis import emphasised_parts
from linebook.documents.measures import Measures
from linebook.documents.parts import Member, Passage, Section
from linebook.documents.second import SaidSection, section_title
from linebook.documents.text import EMPTY, Piece, Text, emboldened, in_two, merged, unparted, words
from linebook.model.body import AmountOf, Block, Fixed, Form, Words
from linebook.model.house import House
from linebook.source.frozen import changing

_ENDS: Final = (".", "?", "!", ".)", ".”")
"""What a sentence ends with: what follows begins with a capital letter."""

SayAmount: TypeAlias = Callable[[AmountOf, str, str, int], Text]
"""Words an amount in braces: takes the brace, the key of its section, the words that follow it, and their language."""


@changing
class MethodWriter:
    """Writes the sections of one card in order; ``number`` is that of the next step.

    ``measures`` write the fixed amounts in the system the house prints; without them they are as typed.
    """

    say_amount: SayAmount
    number: int = 1
    measures: Measures | None = None
    _seen: dict[str, int] = field(default_factory=dict)

    def passages(self, said: SaidSection, *, before: Sequence[Text] = (), bold: Text = EMPTY) -> tuple[Passage, ...]:
        """Return a section's blocks, those of one form in a row together, in the languages printed.

        ``before`` are steps set first; a block that begins with the sentence ``bold`` has it bold.
        """
        key = said.own.key
        told = [(Form.STEP, text) for text in before]
        seconds = said.second.blocks if said.second else ()
        for at, block in enumerate(said.first.blocks):
            second = seconds[at] if at < len(seconds) else None
            told.append((block.form, self.text(block, key, second, bold=bold)))
        return self._passages(key, told)

    def section(self, house: House, said: SaidSection, *, before: Sequence[Text] = (), bold: Text = EMPTY) -> Section:
        """Return a section that has no stage: its heading and its blocks."""
        passages = self.passages(said, before=before, bold=bold)
        return Section(key=said.own.key, title=section_title(house, said), aside=EMPTY, passages=passages)

    def text(self, block: Block, section: str, second: Block | None = None, *, bold: Text = EMPTY) -> Text:
        """Return one step, point or paragraph as printed, with what says the same in the second language."""
        first = self._pieces(block, section, FIRST)
        if bold:
            first = _begin_bold(first, bold.plain)
        if second is None:
            return Text(first)
        sentence = "".join(piece.words for piece in bold.in_second)
        return in_two(first, _begin_bold(self._pieces(second, section, SECOND), sentence))

    def _pieces(self, block: Block, section: str, language: int) -> tuple[Piece, ...]:
        found: list[Piece] = []
        unsaid = False  # whether the amount before these words is printed as the article of its name
        for index, piece in enumerate(block.pieces):
            if isinstance(piece, Words):
                text = _with_article(piece.text, begins=_begins_sentence(found)) if unsaid else piece.text
                unsaid = False
                found.extend(emphasised_parts(text, piece.strong, piece.emphasis))
            elif isinstance(piece, Fixed):
                fixed = self.measures.fixed(piece.text) if self.measures else words(unparted(piece.text))
                found.extend(emboldened(fixed.first if language == FIRST else fixed.in_second))
            else:
                after = block.pieces[index + 1] if index + 1 < len(block.pieces) else None
                following = after.text if isinstance(after, Words) else ""
                said = self.say_amount(piece, section, following, language)
                unsaid = not said
                amount = said.first if language == FIRST else said.in_second
                found.extend(_capitalised(amount) if _begins_sentence(found) else amount)
        return merged(found)

    def _passages(self, section: str, told: Sequence[tuple[Form, Text]]) -> tuple[Passage, ...]:
        count = self._seen.get(section, 0)
        passages: list[Passage] = []
        for form, alike in groupby(told, itemgetter(0)):
            items = [Member(key=f"{section}.{at}", text=text) for at, (_, text) in enumerate(alike, count + 1)]
            passages.append(Passage(form=form.value, first=self.number, items=tuple(items)))
            count += len(items)
            if form is Form.STEP:
                self.number += len(items)
        self._seen[section] = count
        return tuple(passages)


def _with_article(text: str, *, begins: bool) -> str:
    """Return words that follow an amount which is not printed, without their *de*: *la mantequilla*, *el apio*."""

    def article(match: re.Match[str]) -> str:
        found = match[1].strip()
        said = "el" if found == "l" else found
        return said.capitalize() if begins else said

    return NAMED_WITH_ARTICLE.sub(article, text, count=1)


def begins_with(text: str, sentence: str) -> bool:
    """Return whether a text begins with a sentence, or with its words and goes on: *… and say back what you read.*"""
    said, begin = text.casefold(), sentence.casefold()
    bare = begin.rstrip(".")
    return said.startswith(begin) or (said.startswith(bare) and said[len(bare) : len(bare) + 1] in ("", " ", ",", ";"))


def _begin_bold(pieces: tuple[Piece, ...], sentence: str) -> tuple[Piece, ...]:
    if not sentence or not pieces or not begins_with(pieces[0].words, sentence):
        return pieces
    first = pieces[0]
    end = len(sentence) if first.words.casefold().startswith(sentence.casefold()) else len(sentence.rstrip("."))
    begin = replace(first, words=first.words[:end], bold=True)
    return (begin, replace(first, words=first.words[end:]), *pieces[1:])


def _begins_sentence(before: Sequence[Piece]) -> bool:
    plain = "".join([piece.words for piece in before]).rstrip()
    return not plain or plain.endswith(_ENDS)


def _capitalised(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    if not any(piece.words for piece in pieces):
        return pieces
    first = pieces[0]
    capitalised = first.words[:1].upper() + first.words[1:]
    return (Piece(capitalised, first.bold, first.italic), *pieces[1:])
