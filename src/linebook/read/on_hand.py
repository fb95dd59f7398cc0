"""A file of what is left, typed from a count sheet: owns its form. Whether its ids exist is ``check``'s business."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import Final

from linebook.model.record import Record
from linebook.model.supply import StockEntry
from linebook.model.units import Measures
from linebook.read.fields import is_empty
from linebook.read.groups import Group
from linebook.read.reading import Reading
from linebook.read.supply_fields import ON_HAND
from linebook.source.faults import Outcome, Severity
from linebook.source.files import read_source
from linebook.source.frozen import frozen
from linebook.source.nodes import MappingNode, SequenceNode
from linebook.source.spans import SourceFile, Span
from linebook.source.yaml_reader import read_yaml


@frozen
class StockFile(Record):
    """All that a file of stock holds."""

    on_hand: tuple[StockEntry, ...]


STOCK_FILE: Final = Group(
    name="a file of what is left",
    record=StockFile,
    fields=(replace(ON_HAND, required=True),),
)


def read_on_hand(path: Path, shown: str, measures: Measures) -> Outcome[tuple[StockEntry, ...]]:
    """Read the file ``path``, which people know as ``shown``; ``measures`` are the house's cups and vessels.

    Faults: those of any spec file, as LB101, LB106, LB108, LB115 (not there), LB301, LB302, LB310, LB313. The value is
    None where there is an error, so that what could not be read is never taken for nothing left.
    """
    folder, name = path.parent, path.name
    with suppress(OSError, RuntimeError):  # a link to a count sheet is no way out of a house
        folder, name = path.resolve().parent, path.resolve().name
    opened = read_source(folder, PurePosixPath(name), "")
    source = opened.value
    if source is None:
        return Outcome(
            value=None, faults=tuple(replace(one, span=_file_span(one.span, shown)) for one in opened.faults)
        )
    source = SourceFile(path=shown, text=source.text)
    reading = Reading(measures=measures)
    read = read_yaml(source, 0, len(source.text))
    reading.take(read.faults)
    entries = _entries(read.value, reading) if read.value is not None else ()
    sound = not reading.losses and not any(one.severity is Severity.ERROR for one in reading.faults)
    return Outcome(value=entries if sound else None, faults=tuple(reading.faults))


def _entries(node: object, reading: Reading) -> tuple[StockEntry, ...]:
    if not isinstance(node, MappingNode):
        found = "a list" if isinstance(node, SequenceNode) else "a text"
        span = node.span if hasattr(node, "span") else None
        assert isinstance(span, Span)
        first = span.source.span(span.start, min(span.end, _line_end(span)))
        message = f"this file holds {found} where `on_hand:` belongs"
        reading.report("LB108", message, first, "write `on_hand:` in the first line, and each entry below it")
        return ()
    empty = next((entry for entry in node.entries if entry.key.text == ON_HAND.name and is_empty(entry.value)), None)
    if empty is not None:
        mend = "take the `#` away before each line that is filled in"
        nothing = "or write `on_hand: []` where nothing is left"
        reading.report("LB109", "`on_hand` has no entry", empty.key.span, mend, nothing)
        return ()
    record = STOCK_FILE.read_record(node, reading)
    return record.on_hand if isinstance(record, StockFile) else ()


def _line_end(span: Span) -> int:
    end = span.source.text.find("\n", span.start)
    return len(span.source.text) if end < 0 else end


def _file_span(span: Span | None, shown: str) -> Span | None:
    if span is None:
        return None
    source = SourceFile(path=shown, text=span.source.text)
    return source.span(span.start, span.end)
