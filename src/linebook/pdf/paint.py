"""Turns placed strips into the code of a PDF page.

Owns the operators for words, lines, small drawings and inks. It must not know why anything stands where it does.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from linebook.pdf.document import Document
from linebook.pdf.pieces import Op, Photo, Placed, SetLine, Setting, Sketch, Stroke, Words
from linebook.pdf.theme import Accent, Ink, Theme

_TURNS: Mapping[int, str] = {0: "1 0 0 1", 1: "0 1 -1 0", -1: "0 -1 1 0"}


class _Across(dict[float, str]):
    """Distances from the left edge as they are written: a page has few, and each many times."""

    def __missing__(self, x: float) -> str:
        self[x] = written = f"{x:.2f}"
        return written


class Painter:
    """Paints pages of one document; ``grey`` replaces every colour by its grey."""

    def __init__(self, document: Document, theme: Theme, *, grey: bool) -> None:
        self._document = document
        self._grey = grey
        inks = {**theme.inks, "white": Ink(colour="#ffffff", grey=1.0), "black": Ink(colour="#000000", grey=0.0)}
        inks |= {accent_name(at): accent.ink for at, accent in enumerate(theme.accents)}
        self._inks = {name: self._numbers(ink) for name, ink in inks.items()}
        self._across = _Across()
        self._pens: dict[tuple[float, str], str] = {}
        self._scales: dict[float, str] = {}
        self._settings: dict[int, tuple[Setting, str]] = {}
        self.faces: tuple[str, ...] = ()
        """Those that the last page sets, in their order."""

    def page(self, placed: Iterable[tuple[float, float, Iterable[Op]]], height: float) -> list[str]:
        """Return the code of a page of ``height``; each entry is a left and top edge and what is drawn from there."""
        self._code: list[str] = []
        self._state: Setting | None = None
        self._seen: dict[str, None] = {}
        across, write = self._across, self._write
        before, told = 0.0, ""
        for left, top, ops in placed:
            level = height - top
            for op in ops:
                if type(op) is not tuple:
                    self._paint(op, left, level)
                    continue
                one: SetLine = op  # type: ignore[assignment]
                x, y, line, marks = one
                if line.marks:
                    for part in marks.set_out(line, x, y):
                        self._paint(part, left, level)
                    continue
                if (up := level - y) != before or not told:
                    before, told = up, f"{up:.2f}"  # the same for what else stands on the line
                for offset, pieces in line.runs:
                    write(across[left + (x + offset)], told, pieces)
        self.faces = tuple(self._seen)
        return self._code

    def _paint(self, op: Op, left: float, level: float) -> None:
        """Paint anything but a line, ``left`` and under ``level``."""
        if isinstance(op, Words):
            x, y, pieces, turn = op
            self._write(self._across[left + x], f"{level - y:.2f}", pieces, _TURNS[turn])
        elif isinstance(op, Stroke):
            x1, y1, x2, y2, width, ink = op
            start = f"{level - y1:.2f}"
            end = start if y1 == y2 else f"{level - y2:.2f}"
            pen = self._pens.get((width, ink)) or self._pen(width, ink)
            self._code.append(f"{pen} {self._across[left + x1]} {start} m {self._across[left + x2]} {end} l S")
        elif isinstance(op, Sketch):
            x, y, code, size = op
            scale = self._scales.get(size) or self._scale(size)
            self._code.append(f"q {scale} {self._across[left + x]} {level - y:.2f} cm {code} Q")
        elif isinstance(op, Photo):
            name = self._document.picture(op.picture, op.width, op.height, grey=self._grey)
            corner = f"{left + op.x:.2f} {level - op.y - op.height:.2f}"
            self._code.append(f"q {op.width:.2f} 0 0 {op.height:.2f} {corner} cm /{name} Do Q")

    def _write(self, x: str, y: str, pieces: tuple[tuple[Setting, str], ...], turn: str = _TURNS[0]) -> None:
        """Paint text from a point on."""
        said = ""
        for setting, text in pieces:
            if setting is not self._state and setting != self._state:
                said += (self._settings.get(id(setting)) or self._known(setting))[1]
                self._state = setting
                self._seen[setting.face] = None
            if text.isascii() and "(" not in text and ")" not in text and "\\" not in text:
                said += f"({text}) Tj\n"  # as it is, as most are
            else:
                said += f"{self._document.show(setting.face, setting.size, text)}\n"
        self._code.append(f"BT {turn} {x} {y} Tm\n{said}ET")

    def fill(self, ink: str) -> str:
        """Return the operator that fills with an ink."""
        return self._inks[ink]

    def _pen(self, width: float, ink: str) -> str:
        """Return the operators for straight lines of a width and an ink."""
        pen = self._pens[width, ink] = f"{self._inks[ink].upper()} {width:.4g} w"
        return pen

    def _scale(self, size: float) -> str:
        """Return the part of a drawing's space that tells how large it is, y downwards."""
        scale = self._scales[size] = f"{size:.5g} 0 0 -{size:.5g}"
        return scale

    def _known(self, setting: Setting) -> tuple[Setting, str]:
        """Return a setting, kept so that its address is never reused, and its operators."""
        font = self._document.font(setting.face, setting.size)
        known = self._settings[id(setting)] = (setting, f"{font} {self._inks[setting.ink]}\n")
        return known

    def _numbers(self, ink: Ink) -> str:
        red, green, blue = (int(ink.colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
        if red == green == blue:
            return f"{red:.3g} g"
        return f"{ink.grey:.3g} g" if self._grey else f"{red:.3g} {green:.3g} {blue:.3g} rg"


def accent_name(position: int) -> str:
    """Return the name of a line's ink."""
    return f"accent-{position}"


def entries(placed: Iterable[Placed], left: float, top: float) -> list[tuple[float, float, tuple[Op, ...]]]:
    """Return placed strips as a page's entries, with the text's corner at ``left``, ``top``."""
    return [(left + x, top + y, strip.ops) for x, y, strip in placed]


def accent_of(theme: Theme, position: int) -> tuple[Accent, str]:
    """Return the accent of the house's line at ``position``, and its ink's name; after the last they start over."""
    at = position % len(theme.accents)
    return theme.accents[at], accent_name(at)
