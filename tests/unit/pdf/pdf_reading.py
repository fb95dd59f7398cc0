"""Reads a finished PDF back with two other programs' eyes: where each glyph stands, and the text in order."""

from io import BytesIO
from typing import NamedTuple

import pypdfium2
import pypdfium2.raw as pdfium
from pypdf import PdfReader

LINE_END_HYPHEN = {0x2: "-", 0xFFFE: "-"}
"""What this reader makes of a hyphen that ends a line."""


class Glyph(NamedTuple):
    text: str
    left: float
    bottom: float
    right: float
    top: float
    size: float


class ReadPage(NamedTuple):
    width: float
    height: float
    glyphs: tuple[Glyph, ...]


def read_pages(data):
    """Every drawn glyph with its tight box, page by page, in drawing order."""
    document = pypdfium2.PdfDocument(data)
    pages = []
    for page in document:
        text = page.get_textpage()
        glyphs = []
        for index in range(text.count_chars()):
            letter = chr(pdfium.FPDFText_GetUnicode(text, index)).translate(LINE_END_HYPHEN)
            if pdfium.FPDFText_IsGenerated(text, index) or letter in " \r\n\xa0":
                continue
            box = text.get_charbox(index)
            glyphs.append(Glyph(letter, *box, pdfium.FPDFText_GetFontSize(text, index)))
        pages.append(ReadPage(*page.get_size(), tuple(glyphs)))
    document.close()
    return pages


def letters(data):
    """All drawn letters without spaces, in drawing order, as a second reader finds them."""
    return ["".join(page.extract_text().split()) for page in PdfReader(BytesIO(data)).pages]


def collisions(page):
    """Pairs of glyphs whose ink boxes overlap by more than slanted letters side by side may."""
    found = []
    ordered = sorted(page.glyphs, key=lambda one: one.left)
    for at, one in enumerate(ordered):
        for other in ordered[at + 1 :]:
            if other.left > one.right - 0.3:
                break
            shared = min(_wide(one, other), min(one.top, other.top) - max(one.bottom, other.bottom))
            if shared > max(1.6, 0.08 * min(one.size, other.size)):
                found.append((one, other))
    return found


def _wide(one, other):
    return min(one.right, other.right) - max(one.left, other.left)


def picture(data, page=0, scale=2.0):
    """A page as a grey picture."""
    document = pypdfium2.PdfDocument(data)
    image = document[page].render(scale=scale, grayscale=True).to_pil().convert("L")
    document.close()
    return image


def colour_picture(data, page=0, scale=2.0):
    document = pypdfium2.PdfDocument(data)
    image = document[page].render(scale=scale).to_pil().convert("RGB")
    document.close()
    return image
