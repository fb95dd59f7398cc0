"""A sheet's fingerprint: what it says, in eight characters. Knows nothing of its foot or of paper.

The block tree is written out field by field, each text with its length before it, so that no two trees share a
spelling. A field left at its default is not written: a field added to a block later re-issues no old sheet. Ids and
keys are not written either: they come from the names of files, which no page shows, so a file may be renamed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from hashlib import blake2b
from operator import attrgetter
from typing import Any, Final, TypeAlias

from linebook.markup.blocks import Cell, Fact, Inline, Paragraph, Row, Run, SheetText

# Crockford's base 32 leaves out I, L, O and U, so that a fingerprint can be read aloud over a pass.
CROCKFORD: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH: Final = 8
_BITS: Final = 5
UNSEEN: Final = frozenset(("id", "line", "key"))
"""Fields of blocks by which two issues are compared, and which nobody reads on a page."""
_MOST_KEPT: Final = 1 << 13
_WRITTEN: Final[dict[int, bytes]] = {}
"""Lines and cells by their identity, as written: the same one of another sheet is mostly the same value.

By identity, because to hash a line is as slow as to write it.
"""
_HELD: Final[list[object]] = []
"""The same lines and cells, so that no others take their place."""

Parts: TypeAlias = list[bytes]
"""What was written, in order: as bytes, so that a line which is said again is not made bytes again."""


def fingerprint_of(sheet: SheetText) -> str:
    """Return the fingerprint of everything a sheet says: eight characters of Crockford's base 32."""
    number = int.from_bytes(blake2b(_written(sheet), digest_size=LENGTH * _BITS // 8).digest(), "big")
    places = range(LENGTH * _BITS - _BITS, -1, -_BITS)
    return "".join([CROCKFORD[number >> place & 31] for place in places])


def _written(value: object) -> bytes:
    into: Parts = []
    _WRITERS[type(value)](value, into)
    return b"".join(into)


def _words(value: str, into: Parts) -> None:
    into.append(f"{len(value)}:{value}".encode("utf-8", "surrogatepass"))


def _list(value: tuple[Any, ...], into: Parts) -> None:
    into.append(b"(%d " % len(value))
    for one in value:
        _WRITERS[type(one)](one, into)
    into.append(b")")


def _line(line: Inline, into: Parts) -> None:
    """Write a line of runs and marks, as it was written before where it was."""
    into.append(_WRITTEN.get(id(line)) or _new_line(line))


def _new_line(line: Inline) -> bytes:
    into: Parts = []
    _list(line, into)
    return _keep(line, into)


def _keep(value: object, into: Parts) -> bytes:
    if len(_WRITTEN) >= _MOST_KEPT:
        _WRITTEN.clear()
        _HELD.clear()
    _HELD.append(value)
    written = _WRITTEN[id(value)] = b"".join(into)
    return written


def _run(run: Run, into: Parts) -> None:
    said = f"<Run text={len(run.text)}:{run.text}"
    if run.bold:
        said += "bold=#True "
    if run.italic:
        said += "italic=#True "
    if run.quiet:
        said += "quiet=#True "
    if run.small:
        said += "small=#True "
    said += f"lang={len(run.lang)}:{run.lang}>" if run.lang else ">"
    into.append(said.encode("utf-8", "surrogatepass"))


def _new_cell(cell: Cell) -> bytes:
    into = [b"<Cell content="]
    _line(cell.content, into)
    if cell.note:
        into.append(b"note=")
        _line(cell.note, into)
    if cell.scope:
        into.append(b"scope=")
        _words(cell.scope, into)
    into.append(b">" if cell.span == 1 else f"span=#{cell.span!r} >".encode())
    return _keep(cell, into)


def _cell(cell: Cell, into: Parts) -> None:
    into.append(_WRITTEN.get(id(cell)) or _new_cell(cell))


def _row(row: Row, into: Parts) -> None:
    known, add = _WRITTEN.get, into.append
    add(b"<Row cells=(%d " % len(row.cells))
    for cell in row.cells:
        add(known(id(cell)) or _new_cell(cell))
    add(b")heading=#True >" if row.heading else b")>")


def _fact(fact: Fact, into: Parts) -> None:
    known = _WRITTEN.get
    term, value = known(id(fact.term)) or _new_line(fact.term), known(id(fact.value)) or _new_line(fact.value)
    into += (b"<Fact term=", term, b"value=", value, b">")


def _paragraph(paragraph: Paragraph, into: Parts) -> None:
    into.append(b"<Paragraph content=")
    _line(paragraph.content, into)
    if paragraph.role != "body":
        into.append(b"role=")
        _words(paragraph.role, into)
    into.append(b">")


def _other(value: object, into: Parts) -> None:
    into.append(f"#{value!r} ".encode("utf-8", "surrogatepass"))


def _block_writer(kind: type[Any]) -> Writer:
    """Return what writes any block of a class, by its fields."""
    head = f"<{kind.__name__} ".encode()
    seen = [field for field in fields(kind) if field.name not in UNSEEN]
    steps = [
        (f"{one.name}=".encode(), attrgetter(one.name), one.default, _BY_FIELD.get(one.type, _any)) for one in seen
    ]

    def block(one: Any, into: Parts) -> None:
        into.append(head)
        for name, held_by, default, write in steps:
            held = held_by(one)
            if held is not default and (default is MISSING or held != default):
                into.append(name)
                write(held, into)
        into.append(b">")

    return block


class _Writers(dict[type[Any], "Writer"]):
    """What writes a value, by its class."""

    def __missing__(self, kind: type[Any]) -> Writer:
        write = self[kind] = _block_writer(kind) if is_dataclass(kind) else _other
        return write


def _any(value: object, into: Parts) -> None:
    _WRITERS[type(value)](value, into)


Writer: TypeAlias = Callable[[Any, Parts], None]
_WRITERS: Final = _Writers(
    {str: _words, tuple: _list, Run: _run, Cell: _cell, Row: _row, Fact: _fact, Paragraph: _paragraph}
)
"""What writes a value, by its class: the kinds of blocks of which there are most field by field, and so sooner."""
_BY_FIELD: Final[Mapping[object, Writer]] = {
    **{"Inline": _line, "str": _words, "int": _other, "bool": _other},
    **{f"tuple[{kind}, ...]": _list for kind in ("Block", "Fact", "Paragraph", "Row", "Step", "str")},
}
"""What writes any value that stands in a field, by what the field is said to hold."""
