"""Font files: which may be used, and what the PDF library asks of one, read once for all documents of a run.

Owns the reading of a file. It must not know what is set in it.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from struct import error, unpack_from
from typing import Final

from linebook.pdf.library import ttfonts

_MOST_BYTES: Final = 20_000_000
_STATIC_TAGS: Final = (b"\x00\x01\x00\x00", b"true")
_EMBEDDING_AT: Final = 8
_RESTRICTED: Final = 2
"""OpenType, table OS/2, field fsType: 2 alone is restricted licence embedding."""

_ADVANCES_AT: Final = 34
_LOCATIONS_AT: Final = 50
_SEGMENTS: Final = 4
"""OpenType: where ``hhea`` tells the number of advances and ``head`` the form of locations and outlines; the form of
``cmap`` in which codes are told by segments, as nearly every font does."""


class _QuickFace(ttfonts.TTFontFace):  # type: ignore[misc]
    """A face whose long tables are read in one go each: the library reads them a number at a time.

    What is not in the usual form is left to the library; so is a damaged file, and what is said of it.
    """

    def extractInfo(self, charInfo: int = 1) -> None:  # noqa: N802, N803 - the library's names
        """Read the file, as the library calls it."""
        super().extractInfo(0)
        try:
            done = not charInfo or self._read_tables()
        except (error, KeyError):
            done = False
        if not done:
            super().extractInfo(charInfo)

    def _read_tables(self) -> bool:
        """Read characters, advances and places of the outlines; False where they are not in the usual form."""
        count, codes = self.numGlyphs, self._codes()
        (wide,) = self._numbers("H", "hhea", _ADVANCES_AT, 1)
        long, form = self._numbers("H", "head", _LOCATIONS_AT, 2)
        if codes is None or not wide == count > 0 or long > 1 or form:
            return False
        pairs = self._numbers("H", "hmtx", 0, 2 * count)
        places = self._numbers("L" if long else "H", "loca", 0, count + 1)
        widths = [self._pdfScale(advance) for advance in pairs[::2]]
        self.hmetrics = [*zip(pairs[::2], pairs[1::2], strict=True)]
        self.defaultWidth = widths[0]
        self.charToGlyph = codes
        self.charWidths = {code: widths[glyph] for code, glyph in codes.items() if glyph < count}
        self.glyphPos = [*places] if long else [place << 1 for place in places]
        for one, other in ((0xA0, 0x20), (0x20, 0xA0)):  # a space that may not part is as wide as any
            if other in codes:
                codes[one], self.charWidths[one] = codes[other], self.charWidths[other]
                break
        return True

    def _numbers(self, kind: str, table: str, at: int, count: int) -> tuple[int, ...]:
        return unpack_from(f">{count}{kind}", self._ttf_data, self.get_table_pos(table)[0] + at)

    def _codes(self) -> dict[int, int] | None:
        """Return the glyph of each character; None where they are not told by segments that follow each other."""
        start = self._place_of_codes()
        form, length, _, doubled = unpack_from(">4H", self._ttf_data, start)
        if form != _SEGMENTS:
            return None
        count = doubled // 2
        ends = unpack_from(f">{count}H", self._ttf_data, start + 14)
        firsts, deltas, offsets = (
            unpack_from(f">{count}H", self._ttf_data, start + 16 + 2 * count * part) for part in (1, 2, 3)
        )
        codes: dict[int, int] = {}
        told = 0
        for at, (first, end, delta, offset) in enumerate(zip(firsts, ends, deltas, offsets, strict=True)):
            many = max(0, end + 1 - first)
            glyphs: tuple[int, ...] | range = range(first, first + many)
            if offset:
                place = start + 16 + 6 * count + 2 * at + offset
                if place + 2 * many > start + length:
                    return None
                glyphs = unpack_from(f">{many}H", self._ttf_data, place)
            codes.update(zip(range(first, end + 1), _shifted(glyphs, delta, zero=not offset), strict=True))
            told += many
        return codes if len(codes) == told else None

    def _place_of_codes(self) -> int:
        """Return where the table of characters is that the library would take: Unicode's before any other."""
        start = self.get_table_pos("cmap")[0]
        place, taken = 0, 0
        for at in range(self._numbers("H", "cmap", 2, 1)[0]):
            platform, encoding, offset = unpack_from(">HHL", self._ttf_data, start + 4 + 8 * at)
            if platform == 3 or (platform == 1 and encoding == 1) or (platform == 0 and encoding != 5):
                place, taken = offset, 1
            elif platform == 1 and encoding == 0 and taken != 1:
                place = offset
        return int(start + place)


def _shifted(glyphs: tuple[int, ...] | range, delta: int, *, zero: bool) -> list[int]:
    """Return glyphs moved by ``delta``; a missing one, 0, stays so but where ``zero`` says that none is told."""
    return [(glyph + delta) & 0xFFFF if glyph or zero else 0 for glyph in glyphs]


ttfonts.TTFontFace = _QuickFace


@lru_cache(maxsize=8)
def load_font(name: str, path: Path, *_stamp: int) -> tuple[ttfonts.TTFont, dict[str, float]]:
    """Load a font file once for all documents of this run; with it go the widths of the words met so far.

    What is left of it with the characters of one document is kept too: another mostly has the same.
    """
    font = ttfonts.TTFont(f"linebook-{name}", str(path), shapable=False)
    cut = lru_cache(maxsize=8)(font.face.makeSubset)
    font.face.makeSubset = lambda characters: cut(tuple(characters))
    return font, {}


def stamped(path: Path) -> tuple[Path, int, int]:
    """Return a file with its size and its time of change: after that it is another one."""
    state = path.stat()
    return path, state.st_size, state.st_mtime_ns


def refusal_of(path: Path, *, trusted: bool) -> str:
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
        ttfonts.TTFont("linebook-trial", str(path), shapable=False)
    except Exception:
        return "is damaged"
    return ""
