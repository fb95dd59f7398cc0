"""The characters of a sheet: those its font lacks, and the few that are written another way.

Owns the respelling table and the fault. It must not know how text is set.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any, Final, TypeAlias, TypeVar, cast

from linebook.markup.blocks import (
    Block,
    Box,
    Facts,
    FigureRef,
    Heading,
    Inline,
    Mark,
    Paragraph,
    Points,
    Rule,
    Run,
    Second,
    SheetText,
    Split,
    Steps,
    Table,
)
from linebook.pdf.fonts import Faces
from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.spans import Span

T = TypeVar("T")

Places: TypeAlias = Callable[[str], tuple[Span, ...]]
"""Tells where in the specs a character was typed."""

RESPELT: Final = str.maketrans(
    {
        "\u2010": "-",  # the font has one hyphen
        "\u2011": "-",
        "\u2007": "\u00a0",  # spaces that may not part, in the one width there is
        "\u202f": "\u00a0",
        "\u2009": " ",
        "\u200a": " ",
        "\u2103": "°C",
        "\u2109": "°F",
        "\u00ad": None,  # says where a word may be cut; nothing is printed of it
        "\u200b": None,
        "\u2060": None,
    }
)
_COMPOSED: Final = "NFC"

_PLAIN: Final = bytes(range(128))
_PLAIN_LETTERS: Final = _PLAIN.decode("ascii")

_FIRST_ACCENT: Final = "\u0300"
_SIGNS: Final = (("\u2000", "\u20cf"), ("\u2100", "\u2bff"))
"""Unicode: the first letter that is written over another; dashes, arrows and other signs, none of which is."""


def respelt(text: SheetText) -> tuple[SheetText, set[str]]:
    """Return the sheet with letters composed and respelt, the same where there is nothing to do; and its letters."""
    words = "".join(texts_of(text))
    plain, others = _letters_of(words)
    composed = all(map(_stands_alone, others)) or unicodedata.is_normalized(_COMPOSED, words)
    if composed and RESPELT.keys().isdisjoint(map(ord, others)):
        return text, plain | others
    changed = _respelt(text)
    return changed, set("".join(texts_of(changed)))


def _letters_of(words: str) -> tuple[set[str], set[str]]:
    """Return the letters of a text, those of plain ASCII first: each of these is looked for, which is soon done."""
    written = words.encode("utf-8", "surrogatepass")
    plain = {letter for code, letter in zip(_PLAIN, _PLAIN_LETTERS, strict=True) if code in written}
    return plain, set(written.translate(None, _PLAIN).decode("utf-8", "surrogatepass"))


@cache
def _stands_alone(letter: str) -> bool:
    """Say whether a letter is composed whatever stands before it: no accent, and of no script that joins letters."""
    european = letter < _FIRST_ACCENT or any(first <= letter <= last for first, last in _SIGNS)
    return european and unicodedata.is_normalized(_COMPOSED, letter)


def spelt(words: str) -> str:
    """Return a piece of text composed and respelt."""
    return words if words.isascii() else unicodedata.normalize(_COMPOSED, words).translate(RESPELT)


def _respelt(value: T) -> T:
    if isinstance(value, Run):
        return cast(T, replace(value, text=spelt(value.text)))
    if isinstance(value, tuple):
        return cast(T, tuple(_respelt(one) for one in value))
    if is_dataclass(value) and not isinstance(value, Mark):
        whole: Any = value
        changed = {one.name: _respelt(getattr(whole, one.name)) for one in fields(whole)}
        return cast(T, replace(whole, **changed))
    return value


def texts_of(text: SheetText) -> list[str]:
    """Return every printed text of a sheet; of marks only the number in a ring."""
    contents: list[Inline] = [text.kicker, text.title, text.aside]
    _gather(text.blocks, contents)
    texts: list[str] = []
    for content in contents:
        for one in content:
            if isinstance(one, Run):
                texts.append(one.text)
            elif isinstance(one, Second):
                texts.extend(run.text for run in one.content)
            elif one.kind == "number":
                texts.append(one.word)
    return texts


def _gather(blocks: tuple[Block, ...], contents: list[Inline]) -> None:
    """Add the texts of blocks, in order; of a table those of its cells, then their notes."""
    for block in blocks:
        match block:
            case Heading():
                contents += (block.content, block.aside)
            case Facts():
                for fact in block.facts:
                    contents += (fact.term, fact.value)
            case Table():
                cells = [cell for row in (*block.head, *block.rows) for cell in row.cells]
                contents += [cell.content for cell in cells]
                contents += [cell.note for cell in cells if cell.note]
            case Paragraph():
                contents.append(block.content)
            case Steps():
                contents += [step.content for step in block.steps]
            case Points():
                contents += [point.content for point in block.points]
            case Split():
                _gather(block.left, contents)
                _gather(block.right, contents)
            case Box():
                _gather(block.blocks, contents)
            case FigureRef():
                contents.append(block.caption)
            case Rule():
                pass


def missing_characters(letters: set[str], faces: Faces, where: str, places: Places) -> tuple[Fault, ...]:
    """Return the faults LB801 of those of ``letters`` the font lacks; ``where`` names the sheet."""
    lacking = faces.lacks(letters - {"\n", "\t", "\r"})
    return tuple(one for letter in lacking for one in missing_character(letter, where, places))


def missing_character(letter: str, where: str, places: Places) -> tuple[Fault, ...]:
    """Return a fault for each place one character was typed at, or one that names the sheet where there is none."""
    code = f"U+{ord(letter):04X}"
    name = unicodedata.name(letter, "").lower()
    called = f"{code}, {name}" if name else code
    shown = f"`{letter}` ({called})" if letter.isprintable() else called
    hints = ("write it in another way", "or name a font that has it in `fonts` of theme.yaml")
    spans = places(letter)
    if spans:
        return tuple(fault("LB801", f"the font has no {shown}", span, hints=hints) for span in spans)
    return (fault("LB801", f"the font has no {shown}, which stands on {where}", None, hints=hints),)
