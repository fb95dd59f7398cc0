"""The characters of a sheet: those its font lacks, and the few that are written another way.

Owns the respelling table and the fault. It must not know how text is set.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
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


def respelt(text: SheetText) -> tuple[SheetText, set[str]]:
    """Return the sheet with letters composed and respelt, the same where there is nothing to do; and its letters."""
    words = "".join(texts_of(text))
    letters = set(words)
    composed = words.isascii() or unicodedata.is_normalized(_COMPOSED, words)
    if composed and RESPELT.keys().isdisjoint(map(ord, letters)):
        return text, letters
    changed = _respelt(text)
    return changed, set("".join(texts_of(changed)))


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
    """Return every printed text of a sheet, in order; of marks only the number in a ring."""
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
    """Add the texts of blocks, in order."""
    for block in blocks:
        match block:
            case Table():
                for row in (*block.head, *block.rows):
                    for cell in row.cells:
                        contents.append(cell.content)
                        if cell.note:
                            contents.append(cell.note)
            case Box():
                _gather(block.blocks, contents)
            case Split():
                _gather(block.left, contents)
                _gather(block.right, contents)
            case Rule():
                pass
            case _:
                contents += _contents(block)


def _contents(block: Block) -> tuple[Inline, ...]:
    """Return the texts of a block that holds no others."""
    match block:
        case Paragraph():
            return (block.content,)
        case Heading():
            return (block.content, block.aside)
        case Steps():
            return tuple(step.content for step in block.steps)
        case Points():
            return tuple(point.content for point in block.points)
        case Facts():
            return tuple(one for fact in block.facts for one in (fact.term, fact.value))
        case FigureRef():
            return (block.caption,)
        case _:
            return ()


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
