"""The square code in a sheet's foot: its fingerprint as a QR code (ISO/IEC 18004), version 1, level H. Points.

Owns its form and its room. What it says is nothing but the eight characters printed beside it: it leads nowhere. The
codes are segno's, taken apart into a table, since making each anew would take as long as laying its sheet out.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import Final

from linebook.pdf.pieces import Sketch

_MM: Final = 72 / 25.4
MODULE: Final = 0.42 * _MM
"""The side of a module. Phones read 0.25 mm and more from the hand; a greasy page asks for more."""

MODULES: Final = 21
QUIET: Final = 4
"""Modules left white on every side, as the standard asks."""

SIDE: Final = MODULES * MODULE
ROOM: Final = SIDE + 2 * QUIET * MODULE

_LETTERS: Final = {letter: at for at, letter in enumerate("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")}
_FINGERPRINT: Final = re.compile(r"[0-9A-Z]{8}")
_BITS: Final = 11


def square_code(fingerprint: str, x: float, y: float) -> Sketch | None:
    """Return the code with its top left module at (x, y); None for what is no fingerprint."""
    if not _FINGERPRINT.fullmatch(fingerprint):
        return None
    return Sketch(x, y, _code(fingerprint), MODULE)


@lru_cache(maxsize=8)
def _code(fingerprint: str) -> str:
    """Return what draws a code: once for all the densities that a sheet is tried at."""
    return _drawn(modules(fingerprint))


def modules(fingerprint: str) -> tuple[str, ...]:
    """Return the rows of a code, each module 1 where it is dark."""
    code, *flips = _table()
    for pair in range(4):
        said = _LETTERS[fingerprint[2 * pair]] * len(_LETTERS) + _LETTERS[fingerprint[2 * pair + 1]]
        for bit in range(_BITS):
            if said >> (_BITS - 1 - bit) & 1:
                code ^= flips[pair * _BITS + bit]
    bits = f"{code:0{MODULES * MODULES}b}"
    return tuple(bits[at : at + MODULES] for at in range(0, len(bits), MODULES))


def _drawn(rows: tuple[str, ...]) -> str:
    """Return path operators that fill each run of dark modules, a unit a module."""
    runs = [_RUNS[found.span()] for found in _DARK.finditer(" ".join(rows))]
    return f"0 g {' '.join(runs)} f"


class _Runs(dict[tuple[int, int], str]):
    """Runs as they are drawn, by their ends in the rows of a code set one after the other: most are in many codes."""

    def __missing__(self, ends: tuple[int, int]) -> str:
        down, across = divmod(ends[0], MODULES + 1)
        self[ends] = drawn = f"{across} {down} {ends[1] - ends[0]} 1 re"
        return drawn


_DARK: Final = re.compile("1+")
_RUNS: Final = _Runs()


@cache
def _table() -> tuple[int, ...]:
    from linebook.pdf.square_table import TABLE

    return tuple(int(line, 16) for line in TABLE.split())
