"""Turns placed strips into the code of a PDF page.

Owns the operators for words, lines, small drawings and inks. It must not know why anything stands where it does.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from linebook.pdf.document import Document
from linebook.pdf.pieces import Op, Photo, Placed, Setting, Sketch, Stroke, Words
from linebook.pdf.theme import Accent, Ink, Theme

_TURNS: Mapping[int, str] = {0: "1 0 0 1", 1: "0 1 -1 0", -1: "0 -1 1 0"}


class Painter:
    """Paints pages of one document; ``grey`` replaces every colour by its grey."""

    def __init__(self, document: Document, theme: Theme, *, grey: bool) -> None:
        self._document = document
        self._grey = grey
        inks = {**theme.inks, "white": Ink(colour="#ffffff", grey=1.0), "black": Ink(colour="#000000", grey=0.0)}
        inks |= {accent_name(at): accent.ink for at, accent in enumerate(theme.accents)}
        self._inks = {name: self._numbers(ink) for name, ink in inks.items()}
        self._settings: dict[Setting, str] = {}
        self.faces: tuple[str, ...] = ()
        """Those that the last page sets, in their order."""

    def page(self, placed: Iterable[tuple[float, float, Iterable[Op]]], height: float) -> list[str]:
        """Return the code of a page of ``height``; each entry is a left and top edge and what is drawn from there."""
        code: list[str] = []
        add = code.append
        state: Setting | None = None
        faces: dict[str, None] = {}
        show = self._document.show
        for left, top, ops in placed:
            level = height - top
            for op in ops:
                if type(op) is Words:
                    x, y, pieces, turn = op
                    add(f"BT {_TURNS[turn]} {left + x:.2f} {level - y:.2f} Tm")
                    for setting, text in pieces:
                        if setting is not state and setting != state:
                            add(self._set(setting))
                            state = setting
                            faces[setting.face] = None
                        add(show(setting.face, setting.size, text))
                    add("ET")
                elif type(op) is Stroke:
                    ends = f"{left + op.x1:.2f} {level - op.y1:.2f} m {left + op.x2:.2f} {level - op.y2:.2f} l S"
                    add(f"{self._inks[op.ink].upper()} {op.width:.4g} w {ends}")
                elif type(op) is Sketch:
                    scale = f"{op.scale:.5g}"
                    add(f"q {scale} 0 0 -{scale} {left + op.x:.2f} {level - op.y:.2f} cm {op.code} Q")
                elif type(op) is Photo:
                    name = self._document.picture(op.picture, op.width, op.height, grey=self._grey)
                    corner = f"{left + op.x:.2f} {level - op.y - op.height:.2f}"
                    add(f"q {op.width:.2f} 0 0 {op.height:.2f} {corner} cm /{name} Do Q")
        self.faces = tuple(faces)
        return code

    def fill(self, ink: str) -> str:
        """Return the operator that fills with an ink."""
        return self._inks[ink]

    def _set(self, setting: Setting) -> str:
        known = self._settings.get(setting)
        if known is None:
            font = self._document.font(setting.face, setting.size)
            known = self._settings[setting] = f"{font} {self._inks[setting.ink]}"
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
