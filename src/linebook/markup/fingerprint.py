"""A sheet's fingerprint: what it says, in eight characters. Knows nothing of its foot or of paper.

The block tree is written out field by field, each text with its length before it, so that no two trees share a
spelling. A field left at its default is not written: a field added to a block later re-issues no old sheet. Ids and
keys are not written either: they come from the names of files, which no page shows, so a file may be renamed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import blake2b
from typing import Any, Final

from linebook.markup.blocks import Cell, Inline, Mark, Run, SheetText

# Crockford's base 32 leaves out I, L, O and U, so that a fingerprint can be read aloud over a pass.
CROCKFORD: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH: Final = 8
_BITS: Final = 5
UNSEEN: Final = frozenset(("id", "line", "key"))
"""Fields of blocks by which two issues are compared, and which nobody reads on a page."""
_MOST_KEPT: Final = 1 << 12
_LINES: Final[dict[int, tuple[Inline, str]]] = {}
"""Lines by their identity, as written: the same line of another sheet is mostly the same value.

By identity, because to hash a line is as slow as to write it. Each is held, so that no other takes its place.
"""


def fingerprint_of(sheet: SheetText) -> str:
    """Return the fingerprint of everything a sheet says: eight characters of Crockford's base 32."""
    raw = _block(sheet).encode("utf-8", "surrogatepass")
    number = int.from_bytes(blake2b(raw, digest_size=LENGTH * _BITS // 8).digest(), "big")
    places = range(LENGTH * _BITS - _BITS, -1, -_BITS)
    return "".join(CROCKFORD[number >> place & 31] for place in places)


def _words(value: str) -> str:
    return f"{len(value)}:{value}"


def _list(value: tuple[Any, ...]) -> str:
    if value and type(value[0]) in _PIECES:
        return _line(value)
    return f"({len(value)} {''.join([_written(one) for one in value])})"


def _line(line: Inline) -> str:
    """Return a line of runs and marks as written, from what was written before where it was."""
    if (known := _LINES.get(id(line))) is not None:
        return known[1]
    if len(_LINES) >= _MOST_KEPT:
        _LINES.clear()
    written = f"({len(line)} {''.join([_run(piece) if type(piece) is Run else _written(piece) for piece in line])})"
    _LINES[id(line)] = (line, written)
    return written


def _run(run: Run) -> str:
    said = f"<Run text={len(run.text)}:{run.text}"
    if run.bold:
        said += "bold=#True "
    if run.italic:
        said += "italic=#True "
    if run.quiet:
        said += "quiet=#True "
    if run.small:
        said += "small=#True "
    return f"{said}lang={_words(run.lang)}>" if run.lang else f"{said}>"


def _cell(cell: Cell) -> str:
    said = f"<Cell content={_list(cell.content)}"
    if cell.note:
        said += f"note={_list(cell.note)}"
    if cell.scope:
        said += f"scope={_words(cell.scope)}"
    return f"{said}>" if cell.span == 1 else f"{said}span=#{cell.span!r} >"


def _block(block: Any) -> str:
    """Return any block as written, by the fields of its class."""
    kind: Any = type(block)
    said = f"<{kind.__name__} "
    for name, default in _fields_of(kind):
        held = getattr(block, name)
        if held is not default and held != default:
            said += f"{name}={_written(held)}"
    return f"{said}>"


@cache
def _fields_of(kind: type[Any]) -> tuple[tuple[str, object], ...]:
    """Return the fields of a block's class that are written, with their defaults."""
    return tuple((field.name, field.default) for field in fields(kind) if field.name not in UNSEEN)


def _other(value: object) -> str:
    return f"#{value!r} "


def _written(value: Any) -> str:
    kind = type(value)
    write = _WRITERS.get(kind)
    if write is None:
        write = _WRITERS[kind] = _block if is_dataclass(kind) else _other
    return write(value)


_PIECES: Final = frozenset((Run, Mark))
_WRITERS: Final[dict[type[Any], Callable[[Any], str]]] = {str: _words, tuple: _list, Run: _run, Cell: _cell}
"""What writes a value, by its class: two kinds of blocks, of which there are most, field by field, and so sooner."""
