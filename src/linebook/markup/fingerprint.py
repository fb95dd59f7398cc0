"""A sheet's fingerprint: what it says, in eight characters. Knows nothing of its foot or of paper.

The block tree is written out field by field, each text with its length before it, so that no two trees share a
spelling. A field left at its default is not written: a field added to a block later re-issues no old sheet. Ids and
keys are not written either: they come from the names of files, which no page shows, so a file may be renamed.
"""

from __future__ import annotations

from dataclasses import MISSING, Field, fields, is_dataclass
from functools import cache
from hashlib import blake2b
from typing import Any, Final

from linebook.markup.blocks import Inline, Mark, Run, SheetText

# Crockford's base 32 leaves out I, L, O and U, so that a fingerprint can be read aloud over a pass.
CROCKFORD: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH: Final = 8
_BITS: Final = 5
UNSEEN: Final = frozenset(("id", "line", "key"))
"""Fields of blocks by which two issues are compared, and which nobody reads on a page."""
_MOST_KEPT: Final = 1 << 12
_LINES: Final[dict[int, tuple[Inline, str]]] = {}
"""Lines by their identity, as written: the reader of markup gives one that was read before as the same value again.

By identity, because to hash a line is as slow as to write it. Each is held, so that no other takes its place.
"""


def fingerprint_of(sheet: SheetText) -> str:
    """Return the fingerprint of everything a sheet says: eight characters of Crockford's base 32."""
    written: list[str] = []
    _write(sheet, written)
    raw = "".join(written).encode("utf-8", "surrogatepass")
    number = int.from_bytes(blake2b(raw, digest_size=LENGTH * _BITS // 8).digest(), "big")
    places = range(LENGTH * _BITS - _BITS, -1, -_BITS)
    return "".join(CROCKFORD[number >> place & 31] for place in places)


@cache
def _fields_of(kind: type[Any]) -> tuple[tuple[str, object], ...] | None:
    """Return the fields of a block's class with their defaults, or None for what is no block."""
    if not is_dataclass(kind):
        return None
    return tuple((field.name, _default_of(field)) for field in fields(kind) if field.name not in UNSEEN)


def _default_of(field: Field[object]) -> object:
    return MISSING if field.default is MISSING else field.default


def _write(value: Any, into: list[str]) -> None:
    kind: Any = type(value)
    if kind is str:
        into.append(f"{len(value)}:{value}")
    elif kind is tuple and value and type(value[0]) in (Run, Mark):
        into.append(_line(value))
    elif kind is tuple:
        into.append(f"({len(value)} ")
        for item in value:
            _write(item, into)
        into.append(")")
    elif (known := _fields_of(kind)) is not None:
        into.append(f"<{kind.__name__} ")
        for name, default in known:
            held = getattr(value, name)
            if held is default or held == default:
                continue
            if type(held) is str:
                into.append(f"{name}={len(held)}:{held}")
            else:
                into.append(f"{name}=")
                _write(held, into)
        into.append(">")
    else:
        into.append(f"#{value!r} ")


def _line(line: Inline) -> str:
    """Return a line of runs and marks as written, from what was written before where it was."""
    known = _LINES.get(id(line))
    if known is None:
        pieces: list[str] = []
        for piece in line:
            _write(piece, pieces)
        if len(_LINES) >= _MOST_KEPT:
            _LINES.clear()
        known = _LINES[id(line)] = (line, f"({len(line)} {''.join(pieces)})")
    return known[1]
