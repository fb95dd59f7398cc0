"""The PDF document being written: pages of ready code, names to jump to, an outline and page labels.

Owns the text of a face as a PDF string, and a canvas whose settings depend on nothing outside ``library``. It must not
know what is drawn.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from io import BytesIO
from typing import Any, Final

from linebook.figures.shapes import Picture
from linebook.pdf.fonts import Faces
from linebook.pdf.library import Canvas, Information, Label, Packed, Page, pdfdoc, registerFont

_POINTS_PER_MM: Final = 72 / 25.4


class _Written(dict[str, str]):
    """Texts of a face as one document shows them, by what they say: most are said again.

    ``table`` is how its characters are written in strings; ``beyond`` are those that do not fit its first 256 codes.
    """

    def __init__(self, table: Mapping[int, str], beyond: frozenset[str]) -> None:
        self.table = table
        self.beyond = beyond

    def __missing__(self, text: str) -> str:
        self[text] = shown = f"({text.translate(self.table)}) Tj"
        return shown


class Document:
    """One PDF being written: pages of ready code, names to jump to, an outline and page labels."""

    def __init__(self, faces: Faces, *, title: str, language: str, extra: Iterable[str] = (), sides: str = "") -> None:
        """Open a document. ``extra`` are the characters it needs beside the theme's ready ones.

        ``sides`` tells a viewer how many sides of the paper to print, in PDF's own word; empty tells it nothing.
        """
        self._faces = faces
        self._extra = "".join(sorted(set(extra)))
        self._buffer = BytesIO()
        first = faces["regular"].font
        registerFont(first)
        self._canvas = Canvas(
            self._buffer, pagesize=(1, 1), invariant=1, pageCompression=1, initialFontName=first.fontName, lang=language
        )
        self._canvas._doc.info = Information()
        self._canvas.setTitle(title)
        self._canvas.setViewerPreference("PrintScaling", "None")
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        if sides:
            self._canvas.setViewerPreference("Duplex", sides)
        self._labels: pdfdoc.PDFPageLabels | None = None
        self._written: dict[str, _Written] = {}
        self._pictures: dict[tuple[bytes, float, float, bool], str] = {}
        self._pages = 0

    def show(self, face: str, size: float, text: str) -> str:
        """Return the operators that show ``text`` in a face that is already set."""
        written = self._written[face] if face in self._written else self._begin(face)
        if written.beyond and not written.beyond.isdisjoint(text):
            return self._show_beyond(face, size, text)
        return written[text]

    def font(self, face: str, size: float) -> str:
        """Return the operator that sets a face."""
        if face not in self._written:
            self._begin(face)
        return f"/{_SHORT[face]}+0 {size:.5g} Tf"

    def picture(self, picture: Picture, width: float, height: float, *, grey: bool) -> str:
        """Return the name of a picture on the page about to be added, put into the document once at a size."""
        key = (picture.content, round(width, 2), round(height, 2), grey)
        name = self._pictures.get(key)
        if name is None:
            from linebook.pictures import for_print

            name = self._pictures[key] = f"P{len(self._pictures) + 1}"
            ready = for_print(picture, width / _POINTS_PER_MM, height / _POINTS_PER_MM, grey=grey)
            self._canvas._doc.addForm(name, _image(ready))
        self._canvas._formsinuse.append(name)
        return str(self._canvas._doc.getXObjectName(name))

    def page(self, width: float, height: float, code: list[str]) -> bytes:
        """Add a page of finished code; return it as it is written."""
        stream: bytes = pdfdoc.PDFZCompress.encode("\n".join((self._canvas._preamble, *code, " \n")))
        self._add(width, height, stream)
        return stream

    def page_again(self, width: float, height: float, stream: bytes, faces: Iterable[str]) -> None:
        """Add a page as it was written before, which sets these faces in their order."""
        for face in faces:
            if face not in self._written:
                self._begin(face)
        self._add(width, height, stream)

    def _add(self, width: float, height: float, stream: bytes) -> None:
        """Add a page as the canvas does, which would put together its code and much that no page of ours has."""
        canvas, page = self._canvas, Page()
        page.pagewidth, page.pageheight, page.Contents = width, height, Packed(stream)
        page.Annots, canvas._annotationrefs = canvas._annotationrefs, []
        page.XObjects = canvas._doc.xobjDict(canvas._formsinuse) if canvas._formsinuse else None
        canvas._formsinuse = []
        canvas._doc.addPage(page)
        self._pages += 1

    def place(self, key: str) -> None:
        """Name the page about to be added, so that links and the outline can lead to it."""
        self._canvas.bookmarkPage(key)

    def link(self, key: str, box: tuple[float, float, float, float]) -> None:
        """Lay a link over left, bottom, right, top of the page about to be added."""
        self._canvas.linkRect("", key, box, relative=0, thickness=0)

    def entry(self, title: str, key: str, level: int) -> None:
        """Add a line to the outline."""
        self._canvas.addOutlineEntry(title, key, level)

    def label(self, prefix: str, *, numbered: bool = True) -> None:
        """Count the pages from the one about to be added anew from 1, after ``prefix``; or call them that alone."""
        if self._labels is None:
            self._labels = self._canvas._doc.Catalog.PageLabels = pdfdoc.PDFPageLabels()
        self._labels.addPageLabel(self._pages, Label(prefix, numbered=numbered))

    def finish(self) -> bytes:
        """Close the document and return its bytes."""
        self._canvas.save()
        return self._buffer.getvalue()

    def _begin(self, face: str) -> _Written:
        """Give a face its place in the document, with every character it may need in a fixed order."""
        font, doc = self._faces[face].font, self._canvas._doc
        state = font._assignState(doc)
        state.internalName = _SHORT[face]
        doc.fontMapping[font.fontName] = f"/{_SHORT[face]}"
        doc.delayedFonts.append(font)
        glyphs = self._faces[face].glyphs
        font.splitString("".join(letter for letter in self._faces.ready + self._extra if ord(letter) in glyphs), doc)
        table = {code: _literal(at) for code, at in state.assignments.items() if code > 0 and at < 256}
        table[0xA0] = " "
        beyond = frozenset(chr(code) for code, at in state.assignments.items() if at >= 256)
        self._written[face] = written = _Written(table, beyond)
        return written

    def _show_beyond(self, face: str, size: float, text: str) -> str:
        """Show a text whose characters do not all fit the face's first 256 codes."""
        parts: list[str] = []
        for subset, codes in self._faces[face].font.splitString(text, self._canvas._doc):
            shown = "".join(map(_literal, codes))
            parts.append(f"/{_SHORT[face]}+{subset} {size:.5g} Tf ({shown}) Tj")
        return " ".join([*parts, self.font(face, size)])


def _image(picture: Picture) -> Any:
    """Return a JPEG file as an image of the document, its bytes as they are."""
    space = "DeviceGray" if picture.grey else "DeviceRGB"
    entries = {
        "Type": pdfdoc.PDFName("XObject"),
        "Subtype": pdfdoc.PDFName("Image"),
        "Width": picture.width_px,
        "Height": picture.height_px,
        "BitsPerComponent": 8,
        "ColorSpace": pdfdoc.PDFName(space),
        "Filter": pdfdoc.PDFName("DCTDecode"),
    }
    return pdfdoc.PDFStream(dictionary=pdfdoc.PDFDictionary(entries), content=picture.content)


_SHORT: Final[Mapping[str, str]] = {"regular": "R", "bold": "B", "italic": "I", "bold-italic": "J"}


def _literal(code: int) -> str:
    """Return one byte as it is written inside a PDF string."""
    letter = chr(code)
    if letter in "()\\":
        return "\\" + letter
    return letter if 32 <= code < 127 else f"\\{code:03o}"
