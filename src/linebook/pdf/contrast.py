"""How well one colour can be read on another: the contrast ratio of W3C's WCAG 2.2.

Knows colours as ``#rrggbb`` alone; must not know what is written in them.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final

WHITE: Final = "#ffffff"

LEAST_CONTRAST: Final = 4.5
"""WCAG 2.2, success criterion 1.4.3: the least for text under 14 pt bold or 18 pt."""

INK_CONTRAST: Final = 12.0
"""Our own choice: what safety hangs on is darker than quiet words. Black is 21; WCAG 2.2 asks 7 at most (1.4.6)."""


@lru_cache(maxsize=64)
def contrast(first: str, second: str) -> float:
    """Return the contrast of two colours, from 1 (the same) to 21 (black on white)."""
    dark, light = sorted((_luminance(first), _luminance(second)))
    return (light + 0.05) / (dark + 0.05)


def grey_of(grey: float) -> str:
    """Return the grey, 0 black to 1 white, as a colour."""
    level = round(grey * 255)
    return f"#{level:02x}{level:02x}{level:02x}"


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    """Return how much light a part of an sRGB colour gives: IEC 61966-2-1, as WCAG 2.2 defines relative luminance."""
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
