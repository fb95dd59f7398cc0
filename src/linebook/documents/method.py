"""A spec's body as printed: steps numbered through the card, computed amounts put in, times and temperatures bold."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import field, replace
from typing import Final, TypeAlias

from linebook.documents.emphasis import emphasised
from linebook.documents.parts import Member, Passage
from linebook.documents.text import EMPTY, Piece, Text, joined, unparted
from linebook.model.body import AmountOf, Block, Fixed, Form, Section, Words
from linebook.source.frozen import changing

_ENDS: Final = (".", "?", "!", ".)", ".”")
"""What a sentence ends with: what follows begins with a capital letter."""

SayAmount: TypeAlias = Callable[[AmountOf, str, str], Text]
"""Words an amount in braces: takes the brace, the key of its section, and the words that follow it."""


@changing
class MethodWriter:
    """Writes the sections of one card in order; ``number`` is that of the next step."""

    say_amount: SayAmount
    number: int = 1
    _seen: dict[str, int] = field(default_factory=dict)

    def passages(self, section: Section, *, before: Sequence[Text] = (), bold: str = "") -> tuple[Passage, ...]:
        """Return a section's blocks, those of one form in a row together.

        ``before`` are steps set first; a block that begins with the sentence ``bold`` has it bold.
        """
        found: list[Passage] = []
        for text in before:
            self._add(found, Form.STEP, section.key, text)
        for block in section.blocks:
            self._add(found, block.form, section.key, _begin_bold(self.text(block, section.key), bold))
        return tuple(found)

    def text(self, block: Block, section: str) -> Text:
        """Return one step, point or paragraph as printed."""
        texts: list[Text] = []
        for index, piece in enumerate(block.pieces):
            if isinstance(piece, Words):
                words = Text((Piece(words=piece.text, bold=piece.strong, italic=piece.emphasis),))
                texts.append(emphasised(words))
            elif isinstance(piece, Fixed):
                texts.append(Text((Piece(words=unparted(piece.text), bold=True),)))
            else:
                following = "".join(
                    after.text for after in block.pieces[index + 1 : index + 2] if isinstance(after, Words)
                )
                said = self.say_amount(piece, section, following)
                texts.append(_capitalised(said) if _begins_sentence(texts) else said)
        return _merged(joined(texts))

    def _add(self, found: list[Passage], form: Form, section: str, text: Text) -> None:
        count = self._seen[section] = self._seen.get(section, 0) + 1
        member = Member(key=f"{section}.{count}", text=text)
        if found and found[-1].form == form.value:
            found[-1] = replace(found[-1], items=(*found[-1].items, member))
        else:
            found.append(Passage(form=form.value, first=self.number, items=(member,)))
        if form is Form.STEP:
            self.number += 1


def begins_with(text: str, sentence: str) -> bool:
    """Return whether a text begins with a sentence, or with its words and goes on: *… and say back what you read.*"""
    said, begin = text.casefold(), sentence.casefold()
    bare = begin.rstrip(".")
    return said.startswith(begin) or (said.startswith(bare) and said[len(bare) : len(bare) + 1] in ("", " ", ",", ";"))


def _begin_bold(text: Text, sentence: str) -> Text:
    if not sentence or not text or not begins_with(text.first[0].words, sentence):
        return text
    first = text.first[0]
    end = len(sentence) if first.words.casefold().startswith(sentence.casefold()) else len(sentence.rstrip("."))
    begin = replace(first, words=first.words[:end], bold=True)
    return Text((begin, replace(first, words=first.words[end:]), *text.first[1:]))


def _begins_sentence(before: Sequence[Text]) -> bool:
    plain = "".join(text.plain for text in before).rstrip()
    return not plain or plain.endswith(_ENDS)


def _capitalised(text: Text) -> Text:
    if not text:
        return text
    first = text.first[0]
    return Text((replace(first, words=first.words[:1].upper() + first.words[1:]), *text.first[1:]))


def _merged(text: Text) -> Text:
    """Join neighbouring pieces of one style, so that the same words are the same text however they were typed."""
    pieces: list[Piece] = []
    for piece in text.first:
        if pieces and (pieces[-1].bold, pieces[-1].italic) == (piece.bold, piece.italic):
            pieces[-1] = replace(pieces[-1], words=pieces[-1].words + piece.words)
        elif piece.words:
            pieces.append(piece)
    return Text(tuple(pieces)) if pieces else EMPTY
