"""The four faces of a theme and the PDF document they go into: the only module that meets reportlab.

Owns loading, refusing and measuring fonts, the text of a face as a PDF string, and a canvas whose
settings depend on nothing outside this file. It must not know what is drawn.
"""

from __future__ import annotations

import os
import sys
import zlib
from collections.abc import Iterable, Mapping
from functools import lru_cache
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path
from types import ModuleType
from typing import Any, Final

from linebook.figures.shapes import Picture
from linebook.pdf.theme import FACES, Theme
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen

_SETTINGS: Final[Mapping[str, object]] = {
    "invariant": 1,
    "useA85": 0,
    "pageCompression": 1,
    "trustedHosts": None,
    "trustedSchemes": ["file"],
    "toColorCanUse": None,
    "pdfComments": 0,
    "pdfMultiLine": 0,
    "verbose": 0,
    "ttfAsciiReadable": 1,
    "documentLang": None,
    "errorOnDuplicatePageLabelPage": 0,
}
"""What the output depends on, whatever settings file or ``RL_`` variable this machine has."""


def _import_pinned() -> None:
    """Import reportlab's settings without running those of the machine, then set them all.

    When it is first imported, reportlab runs ``reportlab_mods`` and ``reportlab_settings`` or files of these names in
    the home folder, and reads ``RL_`` variables. Empty modules under those names are found first; the variables are
    put aside meanwhile.
    """
    for name in ("reportlab_mods", "reportlab_settings"):
        sys.modules.setdefault(name, ModuleType(name))
    aside = {name: os.environ.pop(name) for name in list(os.environ) if name.startswith("RL_")}
    try:
        from reportlab import rl_config, rl_settings  # type: ignore[import-untyped]
    finally:
        os.environ.update(aside)
    for name in rl_settings.__all__:
        if not name.endswith("SearchPath") and name != "defaultPageSize":
            setattr(rl_config, name, getattr(rl_settings, name))
    for name, value in _SETTINGS.items():
        setattr(rl_config, name, value)


_import_pinned()

from reportlab.pdfbase import pdfdoc  # type: ignore[import-untyped]  # noqa: E402
from reportlab.pdfbase.pdfmetrics import registerFont  # type: ignore[import-untyped]  # noqa: E402
from reportlab.pdfbase.ttfonts import TTFont  # type: ignore[import-untyped]  # noqa: E402
from reportlab.pdfgen.canvas import Canvas  # type: ignore[import-untyped]  # noqa: E402

_POINTS_PER_MM: Final = 72 / 25.4
_MOST_BYTES: Final = 20_000_000
_STATIC_TAGS: Final = (b"\x00\x01\x00\x00", b"true")
_EMBEDDING_AT: Final = 8
_RESTRICTED: Final = 2
"""OpenType, table OS/2, field fsType: 2 alone is restricted licence embedding."""


class _NoTime:
    """Stands for reportlab's clock, which would else follow ``SOURCE_DATE_EPOCH``."""

    def __init__(self, invariant: object = None) -> None:
        self.t = 946684800.0
        self.YMDhms = (2000, 1, 1, 0, 0, 0)
        self.dhh = self.dmm = 0
        self.tzname = "UTC"


class _Information(pdfdoc.PDFInfo):  # type: ignore[misc]
    """The document's title and maker; no date, since the foot of each sheet says when it was issued."""

    def format(self, document: Any) -> bytes:
        entries = {"Title": pdfdoc.PDFString(self.title), "Creator": pdfdoc.PDFString("linebook")}
        return bytes(pdfdoc.PDFDictionary(entries).format(document))


class _Compression(pdfdoc.PDFStreamFilterZCompress):  # type: ignore[misc]
    """Compresses as reportlab does, but what is bytes, which only a font file is here, once for all documents."""

    def encode(self, content: str | bytes) -> bytes:
        return _compressed(content) if isinstance(content, bytes) else bytes(super().encode(content))


_compressed = lru_cache(maxsize=32)(zlib.compress)

pdfdoc.TimeStamp = _NoTime
pdfdoc.PDFZCompress = _Compression()


@lru_cache(maxsize=8)
def _load(name: str, path: Path, *_stamp: int) -> tuple[TTFont, dict[str, float]]:
    """Load a font file once for all documents of this run; with it go the widths of the words met so far.

    What is left of it with the characters of one document is kept too: another mostly has the same.
    """
    font = TTFont(f"linebook-{name}", str(path), shapable=False)
    cut = lru_cache(maxsize=8)(font.face.makeSubset)
    font.face.makeSubset = lambda characters: cut(tuple(characters))
    return font, {}


def _stamped(path: Path) -> tuple[Path, int, int]:
    """Return a file with its size and its time of change: after that it is another one."""
    state = path.stat()
    return path, state.st_size, state.st_mtime_ns


class Face:
    """One loaded face. Widths are in thousandths of the size."""

    def __init__(self, name: str, font: TTFont, known: dict[str, float]) -> None:
        self.name = name
        self.font = font
        self.glyphs: Mapping[int, int] = font.face.charToGlyph
        self.ascent: float = font.face.ascent / 1000
        self.descent: float = -font.face.descent / 1000
        self.capital: float = font.face.capHeight / 1000
        self.missing: set[str] = set()
        self._widths: Mapping[int, float] = font.face.charWidths
        self._known = known

    @property
    def x_height(self) -> float:
        """Return the height of a small x at size 1: its outline's own, since not every font states it."""
        face = self.font.face
        start = face.get_table_pos("glyf")[0] + face.glyphPos[self.glyphs[ord("x")]]
        top = int.from_bytes(face._ttf_data[start + 8 : start + 10], "big", signed=True)
        return top / float(face.unitsPerEm)

    def width(self, text: str) -> float:
        """Return the width of ``text`` at size 1; a character the face lacks is noted in ``missing``."""
        known = self._known.get(text)
        if known is None:
            widths = self._widths
            self.missing.update(letter for letter in text if ord(letter) not in widths)
            known = self._known[text] = sum([widths.get(ord(letter), 0.0) for letter in text]) / 1000
        return known


class Faces:
    """The four faces of a theme, each loaded when first needed."""

    def __init__(self, paths: Mapping[str, Path], ready: str) -> None:
        self._paths = paths
        self._loaded: dict[str, Face] = {}
        self.ready = ready

    def __getitem__(self, name: str) -> Face:
        face = self._loaded.get(name)
        if face is None:
            face = self._loaded[name] = Face(name, *_load(name, *_stamped(self._paths[name])))
        return face

    def load(self) -> None:
        """Load all four now, for whoever opens the same files later."""
        for name, path in self._paths.items():
            _load(name, *_stamped(path))

    def missing(self) -> tuple[str, ...]:
        """Return the characters measured so far that their face does not have, sorted."""
        return tuple(sorted(set().union(*(face.missing for face in self._loaded.values()))))

    def lacks(self, letters: Iterable[str]) -> tuple[str, ...]:
        """Return those of ``letters`` that the upright face does not have, sorted; a no-break space is a space."""
        glyphs = self["regular"].glyphs
        return tuple(sorted(letter for letter in set(letters) if ord(letter) not in glyphs and letter != "\xa0"))


def open_faces(theme: Theme, folder: Path | None = None) -> Outcome[Faces]:
    """Find and check the theme's font files; ``folder`` is where a theme's own files stand.

    Faults: LB805 for a file that is missing, is not static TrueType or may not be put into a PDF.
    """
    fonts = theme.fonts
    faults: list[Fault] = []
    paths: dict[str, Path] = {}
    for name in FACES:
        package, inner = ("", fonts.own_folder) if name in fonts.own else (fonts.package, fonts.folder)
        path = _path_of(package, inner, fonts.files[name], folder)
        refused = "is not there" if path is None else _refusal(path, trusted=bool(package))
        if refused or path is None:
            place = f"the package `{package}`" if package else "the folder of theme.yaml"
            hint = f"name a static TrueType file (.ttf) of {place} in the `fonts` of theme.yaml"
            message = f"the {name} font `{fonts.files[name]}` {refused}"
            faults.append(fault("LB805", message, fonts.spans.get(name), hints=(hint,)))
        else:
            paths[name] = path
    if faults:
        return Outcome(value=None, faults=tuple(faults))
    return Outcome(value=Faces(paths, fonts.ready))


def _path_of(package: str, inner: str, name: str, folder: Path | None) -> Path | None:
    """Return where a font file is; neither names nor links lead out of a theme's folder, nor names out of a package."""
    place = _folder_of(package) if package else folder
    if place is None or not _is_plain(name) or (inner and not _is_plain(inner)):
        return None
    try:
        path = place / inner / name
        inside = bool(package) or path.resolve().is_relative_to(place.resolve())
        return path if inside and path.is_file() else None
    except (OSError, ValueError, RuntimeError):
        return None


def _is_plain(name: str) -> bool:
    return bool(name) and not name.startswith(".") and not {"/", "\\", ":", "\0"} & set(name)


def _folder_of(package: str) -> Path | None:
    """Return where an installed package lies. It is not imported: a theme must not say what code is run."""
    try:
        spec = find_spec(package) if package.isidentifier() else None
    except (ImportError, ValueError):
        return None
    places = list(spec.submodule_search_locations or ()) if spec else []
    return Path(places[0]) if places else None


def _refusal(path: Path, *, trusted: bool) -> str:
    """Return why a file cannot be used, or ''. A ``trusted`` one is not loaded for a trial."""
    if path.stat().st_size > _MOST_BYTES:
        return "is larger than any font for a page"
    with path.open("rb") as file:
        head = file.read(12)
        if head[:4] not in _STATIC_TAGS:
            return "is not a TrueType font"
        directory = file.read(16 * int.from_bytes(head[4:6], "big"))
        tables = {directory[at : at + 4]: directory[at + 8 : at + 12] for at in range(0, len(directory), 16)}
        if b"fvar" in tables:
            return "is a variable font, of which only one weight would print"
        if not {b"glyf", b"cmap", b"hmtx", b"head", b"OS/2"} <= tables.keys():
            return "has no TrueType outlines"
        file.seek(int.from_bytes(tables[b"OS/2"], "big") + _EMBEDDING_AT)
        if int.from_bytes(file.read(2), "big") & 0xF == _RESTRICTED:
            return "may not be put into a document: its licence bits say so"
    return "" if trusted else _trial(path)


def _trial(path: Path) -> str:
    """Load a house's own font for a trial; a damaged file fails in any way its reader can fail."""
    try:
        TTFont("linebook-trial", str(path), shapable=False)
    except Exception:
        return "is damaged"
    return ""


@frozen(kw_only=False)
class _Written:
    """How a face's characters are written in one document's strings."""

    table: Mapping[int, str]
    beyond: frozenset[str]


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
        self._canvas._doc.info = _Information()
        self._canvas.setTitle(title)
        self._canvas.setViewerPreference("PrintScaling", "None")
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        if sides:
            self._canvas.setViewerPreference("Duplex", sides)
        self._written: dict[str, _Written] = {}
        self._pictures: dict[tuple[bytes, float, float, bool], str] = {}
        self._pages = 0

    def show(self, face: str, size: float, text: str) -> str:
        """Return the operators that show ``text`` in a face that is already set."""
        written = self._written.get(face) or self._begin(face)
        if written.beyond and not written.beyond.isdisjoint(text):
            return self._show_beyond(face, size, text)
        return f"({text.translate(written.table)}) Tj"

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

    def page(self, width: float, height: float, code: list[str]) -> None:
        """Add a page of finished code."""
        canvas = self._canvas
        canvas.setPageSize((width, height))
        canvas._code[:] = code
        canvas.showPage()
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
        style, start = ("D", 1) if numbered else (None, None)
        self._canvas.addPageLabel(self._pages, style=style, start=start, prefix=prefix)

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
