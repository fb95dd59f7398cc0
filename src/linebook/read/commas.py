"""A comma inside braces that ends a value too early, as in ``{prep: peeled, in dice}`` or ``{amount: 1,5 kg}``.

Owns finding such values, reading them as they were meant, and the mend. It knows no particular field.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from linebook.read.fields import Field, Spans, is_empty
from linebook.read.reading import Reading
from linebook.source.frozen import frozen
from linebook.source.nodes import Entry, MappingNode, Scalar
from linebook.source.spans import Span

_LONGEST_SHOWN: Final = 80
_NO_COLON: Final = r"(?P<name>[a-z][a-z_]*)(?P<joint>:| +)(?P<value>.+)"


@frozen
class Mended:
    """The entries of a mapping as they were meant. ``cut`` holds, by the offset of a name, what its value has lost."""

    entries: tuple[Entry, ...]
    cut: Mapping[int, tuple[Entry, ...]]


def mend_commas(node: MappingNode, known: Mapping[str, Field], reading: Reading) -> Mended:
    """Return the entries of a mapping without the pieces that a comma has cut off a value.

    A piece that is a field without its colon is reported (LB106) and becomes the entry it was meant to be.
    """
    entries: list[Entry] = []
    cut: dict[int, tuple[Entry, ...]] = {}
    typed = {entry.key.text for entry in node.entries}
    for entry in node.entries:
        if not entries or not _is_piece(entry, node):
            entries.append(entry)
            continue
        field = re.fullmatch(_NO_COLON, entry.key.text)
        if field and field["name"] in known and field["name"] not in typed:
            entries.append(_report_no_colon(entry, field, reading))
        else:
            start = entries[-1].key.span.start
            cut[start] = (*cut.get(start, ()), entry)
    return Mended(entries=tuple(entries), cut=cut)


def read_cut_value(entry: Entry, pieces: tuple[Entry, ...], field: Field, reading: Reading, spans: Spans) -> object:
    """Return the value that ``entry`` and the pieces cut off it make together, or ``UNREAD``; one fault in any case."""
    value, source = entry.value, entry.value.span.source
    whole = source.span(value.span.start, pieces[-1].key.span.end)
    before = len(reading.faults)
    if type(value) is not Scalar or not value.plain or is_empty(value):
        read = field.type.read(value, reading, field, spans)
    else:
        joined = Scalar(text=whole.text, span=whole, plain=True)
        read = field.type.read(joined, reading, field, spans)
        spans[field.name] = whole
    if len(reading.faults) == before:
        _report_cut(field, whole, pieces[0].key.span, reading)
    return read


def _is_piece(entry: Entry, node: MappingNode) -> bool:
    if not is_empty(entry.value):
        return False
    text = node.span.source.text
    return text[node.span.start] == "{" and text[entry.key.span.end :].lstrip()[:1] in (",", "}")


def _report_no_colon(entry: Entry, field: re.Match[str], reading: Reading) -> Entry:
    span = entry.key.span
    what = "no space after its `:`" if field["joint"] == ":" else "no `:` after its name"
    message = f"`{field['name']}` has {what}"
    reading.report("LB106", message, span, f"write `{field['name']}: {field['value'].strip()}`")
    name = span.source.span(span.start, span.start + len(field["name"]))
    value = span.source.span(span.start + field.start("value"), span.end)
    return Entry(
        key=Scalar(text=field["name"], span=name, plain=True),
        value=Scalar(text=field["value"].strip(), span=value, plain=True),
    )


def _report_cut(field: Field, whole: Span, piece: Span, reading: Reading) -> None:
    if reading.is_refused(whole):
        reading.losses += 1
        return
    text = " ".join(whole.text.split())
    mark = "'" if '"' in text else '"'
    if len(text) > _LONGEST_SHOWN or mark in text:
        mend = f"put the whole text of `{field.name}` between double quotes"
    else:
        mend = f"put it between double quotes: `{field.name}: {mark}{text}{mark}`"
    message = f"the comma before `{piece.text[:_LONGEST_SHOWN]}` ends `{field.name}`"
    other = f"or, if it is a list, between brackets: `[{text}]`" if field.example.startswith("[") else ""
    reading.report("LB108", message, piece, mend, other)
