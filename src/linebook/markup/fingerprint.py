"""A sheet's fingerprint: what it says, in eight characters. Knows nothing of its foot or of paper.

The block tree is written out field by field, each text with its length before it, so that no two trees share a
spelling. A field left at its default is not written: a field added to a block later re-issues no old sheet. Ids and
keys are not written either: they come from the names of files, which no page shows, so a file may be renamed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from hashlib import blake2b
from operator import attrgetter
from typing import Any, Final

from linebook.markup.blocks import Cell, Fact, Inline, Mark, Paragraph, Row, Run, SheetText

# Crockford's base 32 leaves out I, L, O and U, so that a fingerprint can be read aloud over a pass.
CROCKFORD: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH: Final = 8
_BITS: Final = 5
UNSEEN: Final = frozenset(("id", "line", "key"))
"""Fields of blocks by which two issues are compared, and which nobody reads on a page."""
_MOST_KEPT: Final = 1 << 13
_WRITTEN: Final[dict[int, tuple[object, str]]] = {}
"""Lines and cells by their identity, as written: the same one of another sheet is mostly the same value.

By identity, because to hash a line is as slow as to write it. Each is held, so that no other takes its place.
"""


def fingerprint_of(sheet: SheetText) -> str:
    """Return the fingerprint of everything a sheet says: eight characters of Crockford's base 32."""
    raw = _written(sheet).encode("utf-8", "surrogatepass")
    number = int.from_bytes(blake2b(raw, digest_size=LENGTH * _BITS // 8).digest(), "big")
    places = range(LENGTH * _BITS - _BITS, -1, -_BITS)
    return "".join([CROCKFORD[number >> place & 31] for place in places])


def _words(value: str) -> str:
    return f"{len(value)}:{value}"


def _list(value: tuple[Any, ...]) -> str:
    if value and type(value[0]) in _PIECES:
        return _line(value)
    return f"({len(value)} {''.join([_written(one) for one in value])})"


def _line(line: Inline) -> str:
    """Return a line of runs and marks as written, from what was written before where it was."""
    known = _WRITTEN.get(id(line))
    if known:
        return known[1]
    pieces = "".join([_run(piece) if type(piece) is Run else _written(piece) for piece in line])
    return _keep(line, f"({len(line)} {pieces})")


def _keep(value: object, written: str) -> str:
    if len(_WRITTEN) >= _MOST_KEPT:
        _WRITTEN.clear()
    _WRITTEN[id(value)] = (value, written)
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
    """Return a cell as written, from what was written before where it was."""
    known = _WRITTEN.get(id(cell))
    if known:
        return known[1]
    said = f"<Cell content={_list(cell.content)}"
    if cell.note:
        said += f"note={_list(cell.note)}"
    if cell.scope:
        said += f"scope={_words(cell.scope)}"
    return _keep(cell, f"{said}>" if cell.span == 1 else f"{said}span=#{cell.span!r} >")


def _row(row: Row) -> str:
    cells = "".join([_cell(cell) for cell in row.cells])
    return f"<Row cells=({len(row.cells)} {cells}){'heading=#True ' if row.heading else ''}>"


def _fact(fact: Fact) -> str:
    return f"<Fact term={_line(fact.term)}value={_line(fact.value)}>"


def _paragraph(paragraph: Paragraph) -> str:
    said = f"<Paragraph content={_line(paragraph.content)}"
    return f"{said}>" if paragraph.role == "body" else f"{said}role={_words(paragraph.role)}>"


def _other(value: object) -> str:
    return f"#{value!r} "


def _written(value: Any) -> str:
    kind = type(value)
    write = _WRITERS.get(kind)
    if write is None:
        write = _WRITERS[kind] = _block_writer(kind) if is_dataclass(kind) else _other
    return write(value)


def _block_writer(kind: type[Any]) -> Callable[[Any], str]:
    """Return what writes any block of a class, by its fields."""
    head = f"<{kind.__name__} "
    seen = [field for field in fields(kind) if field.name not in UNSEEN]
    steps = [(f"{one.name}=", attrgetter(one.name), one.default, _BY_FIELD.get(one.type, _written)) for one in seen]

    def block(one: Any) -> str:
        said = head
        for name, held_by, default, write in steps:
            held = held_by(one)
            if held is not default and held != default:
                said += name + write(held)
        return said + ">"

    return block


_PIECES: Final = frozenset((Run, Mark))
_WRITERS: Final[dict[type[Any], Callable[[Any], str]]] = {
    **{str: _words, tuple: _list},
    **{Run: _run, Cell: _cell, Row: _row, Fact: _fact, Paragraph: _paragraph},
}
"""What writes a value, by its class: the kinds of blocks of which there are most field by field, and so sooner."""
_BY_FIELD: Final[Mapping[object, Callable[[Any], str]]] = {
    **{"Inline": _line, "str": _words, "int": _other, "bool": _other},
    **{f"tuple[{kind}, ...]": _list for kind in ("Block", "Fact", "Paragraph", "Row", "Step", "str")},
}
"""What writes any value that stands in a field, by what the field is said to hold."""
