"""The words of a method as running text, with the way back from a match to its place in the file."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import accumulate, chain
from typing import Final

from linebook.model.body import Block, Body, Form, Words
from linebook.source.frozen import frozen
from linebook.source.spans import Span

_WORD: Final = re.compile(r"[^\W_]+(?:['’][^\W\d_]+)?")


@frozen(kw_only=False)
class Run:
    """Words that stand side by side in one block, as one text. ``starts`` is where each piece begins in it."""

    text: str
    pieces: tuple[Words, ...]
    starts: tuple[int, ...]

    def span(self, start: int, end: int) -> Span:
        """Return the place in the file of some characters of the run, cut at the end of the piece they start in."""
        number = max(n for n, begins in enumerate(self.starts) if begins <= start)
        piece, begins = self.pieces[number], self.starts[number]
        if piece.span.text != piece.text:
            return piece.span
        last = min(end, begins + len(piece.text))
        return piece.span.source.span(piece.span.start + start - begins, piece.span.start + last - begins)


@frozen(kw_only=False)
class Token:
    """One word of a run: its stem for comparing, and where it stands."""

    stem: str
    start: int
    end: int


def runs(block: Block) -> Iterator[Run]:
    """Yield the texts of a block between its computed and fixed amounts."""
    first = block.pieces[0]
    if len(block.pieces) == 1 and isinstance(first, Words):  # as most blocks are
        yield Run(first.text, (first,), (0,))
        return
    pieces: list[Words] = []
    for piece in (*block.pieces, None):
        if isinstance(piece, Words):
            pieces.append(piece)
        elif pieces:
            texts = [words.text for words in pieces]
            starts = tuple(accumulate(map(len, texts[:-1]), initial=0))
            yield Run("".join(texts), tuple(pieces), starts)
            pieces = []


def all_text(blocks: Iterable[Block]) -> str:
    """Return the texts of blocks in one, a space wherever the words of two do not stand side by side."""
    return " ".join(
        first.text
        if len(block.pieces) == 1 and isinstance(first := block.pieces[0], Words)
        else "".join([piece.text if isinstance(piece, Words) else " " for piece in block.pieces])
        for block in blocks
    )


def working_blocks(body: Body, quiet: Iterable[str]) -> Iterator[Block]:
    """Yield what tells the cook to do something: every step, and all of each section that is not ``quiet``."""
    silent = frozenset(quiet)
    for section in body.sections:
        yield from (block for block in section.blocks if block.form is Form.STEP or section.key not in silent)


def tokens(text: str) -> list[Token]:
    """Return the words of a text; a stem is without capitals, accents and the ending of a plural."""
    return [Token(_stem(match.group()), *match.span()) for match in _WORD.finditer(text)]


def stems(name: str) -> tuple[str, ...]:
    """Return the stems of a name's words."""
    return tuple(chain.from_iterable(map(_stems_between_spaces, name.split())))


def stem_set(text: str) -> frozenset[str]:
    """Return the stems of a text's words, in no order."""
    return frozenset(chain.from_iterable(map(_stems_between_spaces, set(text.split()))))


def contains(whole: tuple[str, ...], part: tuple[str, ...]) -> bool:
    """Return whether the words of ``part`` stand side by side in ``whole``."""
    if part and part[0] not in whole:
        return False  # as nearly always, and told in a tenth of the time
    return any(whole[at : at + len(part)] == part for at in range(len(whole) - len(part) + 1))


@lru_cache(maxsize=20_000)
def _stems_between_spaces(typed: str) -> tuple[str, ...]:
    """Return the stems of what stands between two spaces: the same is met again and again, and looked into once."""
    return tuple(map(_stem, _WORD.findall(typed)))


@lru_cache(maxsize=20_000)
def _stem(word: str) -> str:
    folded = word.casefold()
    if not folded.isascii():
        folded = "".join(c for c in unicodedata.normalize("NFKD", folded) if not unicodedata.combining(c))
    folded = folded.replace("’", "'").removesuffix("'s").rstrip("'")
    if len(folded) <= 3 or folded.endswith(("ss", "us", "is")) or not folded.endswith("s"):
        return {"leaf": "leave", "loaf": "loave", "half": "halve"}.get(folded, folded)
    if folded.endswith("ies") and len(folded) > 4:
        return folded[:-3] + "y"
    if folded.endswith(("oes", "ches", "shes", "sses", "xes", "zes")):
        return folded[:-2]
    return folded[:-1]
