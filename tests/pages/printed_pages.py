"""Reads a finished PDF back: where each stretch of text stands, how it is set, and what lies behind it.

Knows nothing of linebook: any PDF without form objects can be read. Points; y runs downwards from the top of the page.
"""

from __future__ import annotations

import ctypes
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any, NamedTuple

import pypdfium2
import pypdfium2.raw as pdfium
from PIL import Image, ImageChops

SCALE = 1.25
"""Pixels a point: 90 dpi, enough to see a letter that is cut."""

_LINE_END_HYPHEN = {0x2: "-", 0xFFFE: "-"}
"""What the reader makes of a hyphen that ends a line."""

_THIN = 3.2
"""Points. A filled or stroked path no thicker than this one way is a line."""


class Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def shares(self, other: Box) -> tuple[float, float]:
        """Return how wide and how high the part is that two boxes share; negative where they are apart."""
        return (
            min(self.right, other.right) - max(self.left, other.left),
            min(self.bottom, other.bottom) - max(self.top, other.top),
        )

    def holds(self, other: Box, slack: float = 0.0) -> bool:
        return (
            other.left >= self.left - slack
            and other.top >= self.top - slack
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )

    def __str__(self) -> str:
        return f"{self.left:.0f},{self.top:.0f} to {self.right:.0f},{self.bottom:.0f}"


class Text(NamedTuple):
    """One stretch of text in one setting. ``box`` is the ink of its letters."""

    text: str
    box: Box
    baseline: float
    size: float
    colour: tuple[int, int, int]
    embedded: bool
    turned: bool


@dataclass(frozen=True)
class PrintedPage:
    """One page: its texts in drawing order, its thin lines, and the page as a picture with and without its text."""

    number: int
    width: float
    height: float
    texts: tuple[Text, ...]
    lines: tuple[Box, ...]
    _page: Any = field(repr=False)
    _text_objects: tuple[Any, ...] = field(repr=False)

    @cached_property
    def _pictures(self) -> tuple[Image.Image, Image.Image]:
        """The page in grey, and without its text in colour: the second can only be drawn after the first."""
        whole = self._page.render(scale=SCALE, grayscale=True).to_pil().convert("L")
        for one in self._text_objects:
            self._page.remove_obj(one)
        return whole, self._page.render(scale=SCALE).to_pil().convert("RGB")

    @cached_property
    def picture(self) -> Image.Image:
        """The page in grey."""
        return self._pictures[0]

    @cached_property
    def behind(self) -> Image.Image:
        """The page without its text, in colour."""
        return self._pictures[1]

    @cached_property
    def showing(self) -> Image.Image:
        """What the text alone adds to the picture: 0 where nothing of it is seen."""
        without = self.behind.convert("L")
        return ImageChops.difference(self.picture, without).point(lambda value: 255 if value > 6 else 0)

    def pixels(self, box: Box) -> tuple[int, int, int, int]:
        return (
            max(0, int(box.left * SCALE)),
            max(0, int(box.top * SCALE)),
            min(self.picture.width, int(box.right * SCALE + 0.999)),
            min(self.picture.height, int(box.bottom * SCALE + 0.999)),
        )


@lru_cache(maxsize=1)
def read_pages(content: bytes) -> tuple[PrintedPage, ...]:
    """Return the pages of a PDF, read once. The document stays open as long as its pages are kept."""
    document = pypdfium2.PdfDocument(content)
    return tuple(_read(page, number) for number, page in enumerate(document, 1))


def _read(page: Any, number: int) -> PrintedPage:
    width, height = page.get_size()
    reader = page.get_textpage()
    texts, lines, objects = [], [], []
    for one in page.get_objects():
        if one.type == pdfium.FPDF_PAGEOBJ_FORM:
            raise AssertionError(f"page {number} has a form object, whose inside is not measured")
        left, bottom, right, top = one.get_bounds()
        box = Box(left, height - top, right, height - bottom)
        if one.type == pdfium.FPDF_PAGEOBJ_TEXT:
            objects.append(one)
            texts.append(_text(one, reader, box, height))
        elif one.type == pdfium.FPDF_PAGEOBJ_PATH and min(box.width, box.height) <= _THIN:
            lines.append(box)
    return PrintedPage(number, width, height, tuple(texts), tuple(lines), page, tuple(objects))


def _text(one: Any, reader: Any, box: Box, height: float) -> Text:
    length = pdfium.FPDFTextObj_GetText(one, reader, None, 0)
    buffer = ctypes.create_string_buffer(length)
    pdfium.FPDFTextObj_GetText(one, reader, ctypes.cast(buffer, ctypes.POINTER(ctypes.c_ushort)), length)
    text = buffer.raw[: max(0, length - 2)].decode("utf-16le", "replace").translate(_LINE_END_HYPHEN)
    matrix = one.get_matrix()
    size = ctypes.c_float()
    pdfium.FPDFTextObj_GetFontSize(one, size)
    stretched = abs(matrix.a * matrix.d - matrix.b * matrix.c) ** 0.5
    red, green, blue, over = (ctypes.c_uint() for _ in range(4))
    pdfium.FPDFPageObj_GetFillColor(one, red, green, blue, over)
    embedded = pdfium.FPDFFont_GetIsEmbedded(pdfium.FPDFTextObj_GetFont(one)) == 1
    turned = abs(matrix.b) > abs(matrix.a)
    return Text(
        text,
        box,
        matrix.e if turned else height - matrix.f,
        size.value * stretched,
        (red.value, green.value, blue.value),
        embedded,
        turned,
    )
