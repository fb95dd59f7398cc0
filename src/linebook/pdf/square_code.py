"""The square code in a sheet's foot: its fingerprint as a QR code (ISO/IEC 18004), version 1, level H. Points.

Owns its form and its room. What it says is nothing but the eight characters printed beside it: it leads nowhere. The
codes are segno's, taken apart into a table, since making each anew would take as long as laying its sheet out.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache, reduce
from itertools import compress
from operator import xor
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
_TRUTHS: Final = bytes.maketrans(b"01", bytes((False, True)))

WIDE: Final = MODULES + 1
"""Modules of a row with the white one after it, so that no run of dark ones goes on in the next row."""

_PLACES: Final = tuple(range(WIDE * MODULES))


def square_code(fingerprint: str, x: float, y: float) -> Sketch | None:
    """Return the code with its top left module at (x, y); None for what is no fingerprint."""
    if not _FINGERPRINT.fullmatch(fingerprint):
        return None
    return Sketch(x, y, _code(fingerprint), MODULE)


@lru_cache(maxsize=8)
def _code(fingerprint: str) -> str:
    """Return what draws a code: once for all the densities that a sheet is tried at."""
    return _drawn(modules(fingerprint))


def modules(fingerprint: str) -> int:
    """Return the modules of a code row by row, ``WIDE`` in each, as one number: a bit is 1 where one is dark."""
    none, flips = _table()
    said = 0
    for first, second in zip(fingerprint[::2], fingerprint[1::2], strict=True):
        said = said << _BITS | _LETTERS[first] * len(_LETTERS) + _LETTERS[second]
    return reduce(xor, compress(flips, _truths(said, len(flips))), none)


def _drawn(code: int) -> str:
    """Return path operators that fill each run of dark modules, a unit a module."""
    ends = compress(_PLACES, _truths(code ^ code >> 1, len(_PLACES)))  # where dark follows light, or light dark
    return f"0 g {' '.join(map(_RUNS.__getitem__, zip(ends, ends, strict=True)))} f"


def _truths(number: int, count: int) -> bytes:
    """Return the bits of a number, the highest first."""
    return f"{number:0{count}b}".encode().translate(_TRUTHS)


class _Runs(dict[tuple[int, int], str]):
    """Runs as they are drawn, by their two ends in the rows of a code: most are in many codes."""

    def __missing__(self, ends: tuple[int, int]) -> str:
        down, across = divmod(ends[0], WIDE)
        self[ends] = drawn = f"{across} {down} {ends[1] - ends[0]} 1 re"
        return drawn


_RUNS: Final = _Runs()


@cache
def _table() -> tuple[int, tuple[int, ...]]:
    """Return the code of eight zeros, and what each bit of what is said turns over in it."""
    from linebook.pdf.square_table import TABLE

    none, *flips = [_parted(int(line, 16)) for line in TABLE.split()]
    return none, tuple(flips)


def _parted(code: int) -> int:
    """Return a code with a white module after each row."""
    bits = f"{code:0{MODULES * MODULES}b}"
    return int("".join(f"{bits[at : at + MODULES]}0" for at in range(0, len(bits), MODULES)), 2)
