"""A rendered sheet, as templates write them → its tree of elements, quicker than expat alone would give it.

Sheets say the same again and again: a line of words with its tags, and a tag with its attributes, is given to expat
when it is first met, and is the same element from then on. Owns the finding of such pieces and their order. What is
unusual or wrong in any way is not read here: ``elements`` reads the whole sheet then, and tells what is wrong.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final

from linebook.markup.elements import MOST_DEPTH, Element, is_sound, parse_piece
from linebook.markup.unusual import UNUSUAL, NotPlain

_WORDS: Final = r"<(td|th|dt|dd|p|li|h[123]|figcaption)\b(?:[^<>]*[^<>/])?>[^<]*(?:<(?!/\3>)[^<]*)*</\3>"
_PIECES: Final = re.compile(rf"(({_WORDS}|<[^<>]*>)[ \t\n]*|[^<]+)")
"""A tag that holds words, with all that is in it, or any other tag, with the space after it; or other text."""

_PLAIN: Final = re.compile(r'<([a-z][a-z0-9]*)((?: [a-z-]+="[^"<>&\t\n]*")*)(/?)>(?:([^<&\]]*)</\1>)?')
_ATTRIBUTE: Final = re.compile(r' ([a-z-]+)="([^"]*)"')
"""A tag with its attributes, and its words where there is nothing but words in it."""

_NAME: Final = re.compile(r"<([a-z][a-z0-9]*)")
_SPACE: Final = " \t\n"
_DEEPEST: Final = MOST_DEPTH // 2
_MOST_KEPT: Final = 1 << 13


def plain_elements(text: str) -> Element:
    """Return the root element of a sheet. Raises NotPlain where there is anything unusual about the sheet."""
    root: Element | None = None
    opened: list[Element] = []
    read = 0
    if UNUSUAL.search(text):
        raise NotPlain
    for found in _PIECES.finditer(text):  # one by one: the first that is unusual ends it, however long the text is
        whole, piece, holds_words = found.groups()
        read += len(whole)
        if holds_words and opened:
            opened[-1].children.append(_known(opened[-1].tag, piece))
        elif not piece:
            if whole.strip(_SPACE):
                raise NotPlain
        elif piece[1] == "/":
            if not opened or opened.pop().tag != piece[2:-1]:
                raise NotPlain
        elif opened:
            element = _opened(opened, piece)
            opened[-1].children.append(element)
            if piece[-2] != "/":
                opened.append(element)
        elif root is None:
            root = _opened(opened, piece)
            opened.append(root)
        else:
            raise NotPlain
    if root is None or opened or read != len(text):
        raise NotPlain
    return root


def _opened(opened: list[Element], tag: str) -> Element:
    """Return a new element for a tag that has others in it, or nothing."""
    if len(opened) >= _DEEPEST:
        raise NotPlain
    like = _known(opened[-1].tag if opened else "", tag)
    return Element(like.tag, like.attributes, like.start)


@lru_cache(maxsize=_MOST_KEPT)
def _known(within: str, piece: str) -> Element:
    """Return the element of a piece that stands in a tag: the same one each time."""
    plain = _PLAIN.fullmatch(piece)
    if plain is not None and (element := _sound(within, *plain.groups())) is not None:
        return element
    if piece[-2] != "/" and "</" not in piece:
        name = _NAME.match(piece)
        if name is None:
            raise NotPlain
        piece = f"{piece}</{name[1]}>"
    element = parse_piece(piece, within, MOST_DEPTH - _DEEPEST)
    if element is None:
        raise NotPlain
    return element


def _sound(within: str, name: str, attributes: str, _: str, words: str | None) -> Element | None:
    """Return the element of a tag like one that was found to be right; None of any other."""
    pairs = _ATTRIBUTE.findall(attributes)
    given = dict(pairs)
    if len(given) < len(pairs) or not is_sound(within, name, given):
        return None
    element = Element(name, given, 0)
    if words and not element.holds_text:
        return None
    element.children += [words] if words else []
    return element
