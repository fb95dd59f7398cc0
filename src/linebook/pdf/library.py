"""The PDF library, set so that nothing of this machine changes what it writes: the only module that imports it.

Owns its import, its settings, and the few of its parts that are replaced. It must not know what is written.
"""

from __future__ import annotations

import os
import sys
import zlib
from collections.abc import Mapping
from functools import lru_cache
from types import ModuleType
from typing import Any, Final

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
    put aside meanwhile. So is Pillow, which it would import for pictures that are put into documents without it here.
    """
    for name in ("reportlab_mods", "reportlab_settings"):
        sys.modules.setdefault(name, ModuleType(name))
    pillow = None if "PIL" in sys.modules else ModuleType("PIL")
    if pillow is not None:
        vars(pillow)["Image"] = None
        sys.modules["PIL"] = pillow
    aside = {name: os.environ.pop(name) for name in list(os.environ) if name.startswith("RL_")}
    try:
        from reportlab import rl_config, rl_settings  # type: ignore[import-untyped]
    finally:
        os.environ.update(aside)
        if pillow is not None:
            del sys.modules["PIL"]
    for name in rl_settings.__all__:
        if not name.endswith("SearchPath") and name != "defaultPageSize":
            setattr(rl_config, name, getattr(rl_settings, name))
    for name, value in _SETTINGS.items():
        setattr(rl_config, name, value)


_import_pinned()

from reportlab.pdfbase import pdfdoc, ttfonts  # type: ignore[import-untyped]  # noqa: E402
from reportlab.pdfbase.pdfmetrics import registerFont  # type: ignore[import-untyped]  # noqa: E402
from reportlab.pdfgen.canvas import Canvas  # type: ignore[import-untyped]  # noqa: E402

__all__ = ("Canvas", "Information", "Label", "Packed", "Page", "pdfdoc", "registerFont", "ttfonts")


class _NoTime:
    """Stands for reportlab's clock, which would else follow ``SOURCE_DATE_EPOCH``."""

    def __init__(self, invariant: object = None) -> None:
        self.t = 946684800.0
        self.YMDhms = (2000, 1, 1, 0, 0, 0)
        self.dhh = self.dmm = 0
        self.tzname = "UTC"


class Information(pdfdoc.PDFInfo):  # type: ignore[misc]
    """The document's title and maker; no date, since the foot of each sheet says when it was issued."""

    def format(self, document: Any) -> bytes:
        entries = {"Title": pdfdoc.PDFString(self.title), "Creator": pdfdoc.PDFString("linebook")}
        return bytes(pdfdoc.PDFDictionary(entries).format(document))


class Page(pdfdoc.PDFPage):  # type: ignore[misc]
    """A page that is written at once where it has neither links nor pictures, byte for byte as the library does."""

    Annots = XObjects = ExtGState = Resources = Parent = MediaBox = None
    Contents: Any = None

    def __init__(self) -> None:
        """Make a page; what it lacks is said of its class, once."""
        self.hasImages, self.Rotate, self.Trans, self._shadingUsed = 1, 0, _NO_TRANSITION, _NOTHING

    def format(self, document: Any) -> bytes:
        if self.Annots or self.XObjects:
            return bytes(super().format(document))
        parent, contents = document.Reference(document.Pages), document.Reference(self.Contents)
        fonts = pdfdoc.PDFObjectReference(pdfdoc.BasicFonts)
        wide, high = _number(self.pagewidth), _number(self.pageheight)
        said = [one.format(document) for one in (contents, parent, fonts)]
        return _PLAIN_PAGE % (said[0], wide, high, said[1], said[2])


class Label(pdfdoc.PDFPageLabel):  # type: ignore[misc]
    """What pages are called from one on, written at once: ``prefix`` and a number from 1, or that alone."""

    def __init__(self, prefix: str, *, numbered: bool) -> None:
        """Make a label."""
        self.prefix, self.numbered = prefix, numbered

    def format(self, document: Any) -> bytes:
        said = [b"/P %b" % pdfdoc.PDFString(self.prefix).format(document)] if self.prefix else []
        said += [b"/S /D /St 1"] if self.numbered else []
        return b"<<\n%b\n>>" % b" ".join(said)


class _Numbered(pdfdoc.PDFIndirectObject):  # type: ignore[misc]
    """An object under its number; none of ours is encrypted, so that the library need not be told which it is."""

    def format(self, document: Any) -> bytes:
        said: bytes = self.content.format(document)
        number, version = document.idToObjectNumberAndVersion[self.name]
        return b"%d %d obj\n%b%bendobj\n" % (number, version, said, b"" if said.endswith(b"\n") else b"\n")


class Packed(pdfdoc.PDFStream):  # type: ignore[misc]
    """A page's code, packed already and written at once, byte for byte as the library does."""

    def __init__(self, stream: bytes) -> None:
        """Make the stream; what of it is the same in all is written, and not kept."""
        self.content = stream

    def format(self, document: Any) -> bytes:
        return b"<<\n/Filter [ /FlateDecode ] /Length %d\n>>\nstream\n%bendstream\n" % (len(self.content), self.content)


_NOTHING: Final[Mapping[str, str]] = {}
_NO_TRANSITION: Final = pdfdoc.PDFDictionary({})
_PLAIN_PAGE: Final = (
    b"<<\n/Contents %b /MediaBox [ 0 0 %b %b ] /Parent %b /Resources <<\n/Font %b "
    b"/ProcSet [ /PDF /Text /ImageB /ImageC /ImageI ]\n>> /Rotate 0 /Trans <<\n\n>> \n  /Type /Page\n>>"
)

_LEVEL: Final = 1
"""How hard a page is packed. At reportlab's own level it takes over twice the time, and is an eighth smaller."""


class _Compression(pdfdoc.PDFStreamFilterZCompress):  # type: ignore[misc]
    """Compresses pages fast; bytes, which only a font file is here, as reportlab does, but once for all documents."""

    def encode(self, content: str | bytes) -> bytes:
        return _compressed(content) if isinstance(content, bytes) else zlib.compress(content.encode(), _LEVEL)


_compressed = lru_cache(maxsize=32)(zlib.compress)


def _encoded(text: str | bytes) -> bytes:
    """Return text in the encoding of the file's own words: mostly plain letters, which need no table."""
    if isinstance(text, bytes):
        return text
    return text.encode("ascii" if text.isascii() else "extpdfdoc")


def _formatted(element: Any, document: Any, toplevel: int = 0) -> bytes:
    """Return an element as it is written, as the library does; what most are is looked for first."""
    kind = type(element)
    if kind is str:
        return _encoded(element)
    if kind is float or kind is int:
        return _number(element)
    if kind is pdfdoc.PDFObjectReference:
        return b"%d %d R" % document.idToObjectNumberAndVersion[element.name]
    said: bytes = _format(element, document, toplevel)
    return said


def _entries(self: Any, document: Any, IND: bytes = b"\n ") -> bytes:  # noqa: N803 - the library's name
    """Return a dictionary as it is written, as the library does: by name, six entries to a line."""
    held = self.dict
    if self.multiline == "forced":  # the last of a file
        return bytes(_dictionary(self, document, IND))
    said = [_name(key) + _formatted(held[key], document) for key in sorted(held)]
    lines = [b" ".join(said[at : at + _A_LINE]) for at in range(0, len(said), _A_LINE)]
    return b"<<\n%b\n>>" % b" \n  ".join(lines)


@lru_cache(maxsize=512)
def _name(name: str) -> bytes:
    """Return the name of an entry as it is written, with the space after it: a binder has thousands of few names."""
    return _encoded(f"{pdfdoc.PDFName(name)} ")


@lru_cache(maxsize=2048)
def _number(number: float) -> bytes:
    """Return a number as it is written: mostly the width of a letter, which is said again in each document."""
    return _encoded(pdfdoc.fp_str(number))


_A_LINE: Final = 6
"""Entries."""

_format, _dictionary = pdfdoc.format, pdfdoc.PDFDictionary.format
pdfdoc.format = _formatted
pdfdoc.PDFDictionary.format = _entries
pdfdoc.PDFIndirectObject = _Numbered
pdfdoc.TimeStamp = _NoTime
pdfdoc.PDFZCompress = _Compression()
pdfdoc.pdfdocEnc = _encoded
pdfdoc.PDFName = lru_cache(maxsize=512)(pdfdoc.PDFName)  # a binder writes thousands, and few different ones
