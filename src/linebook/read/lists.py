"""Many of something: lists, mappings of values, and mappings from an id to a group of fields."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from linebook.read.fields import (
    Choice,
    Field,
    FieldType,
    Plain,
    Schema,
    Spans,
    first_line,
    is_empty,
    report_empty,
    split_text,
)
from linebook.read.groups import Group
from linebook.read.ids import ID, ID_PATTERN, kebab
from linebook.read.reading import UNREAD, Reading, Unread
from linebook.source.frozen import frozen
from linebook.source.nodes import Entry, MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import Span

MOST_ITEMS: Final = 500


@frozen
class ListOf(FieldType):
    """A list. ``single`` lets one value stand without brackets; ``none`` is a word for the empty list.

    ``least`` 1 refuses an empty list. Values that cannot be read are left out of the tuple.
    """

    item: Plain | Choice | Group
    words: str = "a list"
    single: bool = False
    none: str = ""
    least: int = 0

    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        if type(node) is SequenceNode:
            return self._read_items(node.items, reading, field, spans, node.span)
        if type(node) is MappingNode and self.single and type(self.item) is Group:
            return self._read_items((node,), reading, field, spans, node.span)
        if type(node) is Scalar and self.none and node.text == self.none:
            return ()
        if type(node) is Scalar and self.single:
            parts = self._unbracketed(node, reading, field)
            if parts:
                typed = ", ".join(part.text for part in parts)
                message = f"`{field.name}` holds a comma, and its list has no brackets around it"
                reading.report("LB108", message, node.span, f"write `{field.name}: [{typed}]`")
            return self._read_items(parts or (node,), reading, field, spans, node.span)
        return self._read_wrong_shape(node, reading, field, spans)

    def _unbracketed(self, node: Scalar, reading: Reading, field: Field) -> tuple[Scalar, ...]:
        """Return the entries of a list typed without its brackets, or with one of them; none where it is one value."""
        if not node.plain or not ("," in node.text or node.text.endswith("]")):
            return ()
        trial = reading.trial()
        if self.item.read(node, trial, field, {}) is not UNREAD:
            return ()
        parts = split_text(node)
        sound = all(self.item.read(part, trial, field, {}) is not UNREAD for part in parts)
        return tuple(parts) if sound else ()

    def _read_items(
        self, items: Sequence[Node], reading: Reading, field: Field, spans: Spans, span: Span
    ) -> tuple[object, ...] | object:
        if not within_size(len(items), reading, field, span):
            return UNREAD
        if len(items) < self.least:
            report_empty(reading, field, span)
            return UNREAD
        values: list[object] = []
        name, read = field.name, self.item.read
        for item in items:
            value: object = UNREAD
            if type(item) is Scalar and is_empty(item):
                report_empty(reading, field, item.span, what=f"an entry of `{name}`", node=item)
            else:
                value = read(item, reading, field, spans)
            if value is not UNREAD:
                spans[f"{name}.{len(values)}"] = item.span
                values.append(value)
            elif type(self.item) is Group:
                _mark_broken(self.item, item, reading)
        return tuple(values) if values or not items else UNREAD

    def _read_wrong_shape(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        hint = f"write `{field.name}: {field.example}`"
        if type(self.item) is Group:
            hint = f"start each of the {self.item.names} with a dash: `- {field.example}`"
        elif type(node) is Scalar and "," in node.text:
            hint = f"put brackets around it: `{field.name}: [{node.text}]`"
        elif type(node) is Scalar:
            hint = f"write `{field.name}: [{node.text}]`"
        found = "a single value" if type(node) is Scalar else "a group of fields"
        reading.report("LB108", f"`{field.name}` takes {self.words}, not {found}", first_line(node.span), hint)
        if type(self.item) is Group and type(node) is MappingNode:
            return self._read_without_dashes(self.item, node, reading, field, spans)
        return UNREAD

    def _read_without_dashes(
        self, group: Group, node: MappingNode, reading: Reading, field: Field, spans: Spans
    ) -> object:
        """One record written without its dash is read all the same, so that what is in it is checked too."""
        if not any(entry.key.text in group.by_name for entry in node.entries):
            return UNREAD
        value = group.read(node, reading, field, spans)
        return UNREAD if value is UNREAD else (value,)

    def schema(self) -> Schema:
        item = self.item.schema()
        found: Schema = {"type": "array", "items": item, "maxItems": MOST_ITEMS}
        if self.least:
            found["minItems"] = self.least
        if self.none:
            return {"anyOf": [{"type": "string", "enum": [self.none]}, *([item] if self.single else []), found]}
        return {"anyOf": [item, found]} if self.single else found

    def groups(self) -> tuple[Group, ...]:
        return (self.item,) if type(self.item) is Group else ()


@frozen
class MapOf(FieldType):
    """Words and a value for each: covers by weekday, weights by count word, amounts by item."""

    key: Plain | Choice
    value: Plain | Choice
    words: str
    least: int = 0

    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        if type(node) is not MappingNode:
            return not_a_mapping(self, node, reading, field, f"write `{field.name}: {field.example}`")
        if not _is_long_enough(node, self.least, reading, field):
            return UNREAD
        values: dict[object, object] = {}
        for entry in node.entries:
            self._read_entry(entry, values, reading, field, spans)
        return MappingProxyType(values) if values or not node.entries else UNREAD

    def _read_entry(
        self, entry: Entry, values: dict[object, object], reading: Reading, field: Field, spans: Spans
    ) -> None:
        key = self.key.read(entry.key, reading, field, {})
        if is_empty(entry.value):
            what = f"`{entry.key.text}` in `{field.name}`"
            report_empty(reading, field, entry.key.span, what=what, node=entry.value)
            return
        value = self.value.read(entry.value, reading, field, {})
        if key is UNREAD or value is UNREAD:
            return
        if key in values:
            message = f"`{entry.key.text}` in `{field.name}` is there already under another spelling"
            reading.report("LB102", message, entry.key.span, "keep one of the two")
            return
        spans[f"{field.name}.{key}"] = entry.key.span
        values[key] = value

    def schema(self) -> Schema:
        found: Schema = {"type": "object", "additionalProperties": self.value.schema(), "maxProperties": MOST_ITEMS}
        names = self.key.schema()
        found["propertyNames"] = {key: names[key] for key in ("enum", "pattern") if key in names}
        if self.least:
            found["minProperties"] = self.least
        return found


@frozen
class ById(FieldType):
    """Ids and a group of fields for each; read as a tuple of records in file order."""

    group: Group
    words: str
    least: int = 0
    defines: bool = True

    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        if type(node) is not MappingNode:
            hint = f"write each as its id, a colon and its fields: `{field.example}`"
            return not_a_mapping(self, node, reading, field, hint)
        if not _is_long_enough(node, self.least, reading, field):
            return UNREAD
        records = [self.read_entry(entry, reading, field) for entry in node.entries]
        kept = tuple(record for record in records if record is not UNREAD)
        return kept if kept or not node.entries else UNREAD

    def read_entry(self, entry: Entry, reading: Reading, field: Field) -> object:
        """Return the record of one id; an id whose record cannot be read is remembered."""
        name = ID.read(entry.key, reading, field, {})
        record: object = UNREAD
        if is_empty(entry.value):
            report_empty(reading, field, entry.key.span, what=f"`{entry.key.text}`", node=entry.value)
        elif type(entry.value) is not MappingNode:
            self.group.read(entry.value, reading, _named(entry.key.text, field), {})
        else:
            record = self.group.read_record(entry.value, reading, span=entry.key.span, id=entry.key.text)
        if name is not UNREAD and record is not UNREAD:
            return record
        if self.defines:
            reading.broken.update((entry.key.text, kebab(entry.key.text)))
        return UNREAD

    def schema(self) -> Schema:
        found: Schema = {
            "type": "object",
            "propertyNames": {"pattern": ID_PATTERN},
            "additionalProperties": self.group.schema(),
            "maxProperties": MOST_ITEMS,
        }
        if self.least:
            found["minProperties"] = self.least
        return found

    def groups(self) -> tuple[Group, ...]:
        return (self.group,)


def within_size(count: int, reading: Reading, field: Field, span: Span) -> bool:
    """Report a list or a mapping that is longer than a spec can need."""
    if count <= MOST_ITEMS:
        return True
    message = f"`{field.name}` has {count:,} entries and may have {MOST_ITEMS}"
    reading.report("LB110", message, first_line(span), "split it over several files, or shorten it")
    return False


def not_a_mapping(wanted: FieldType, node: Node, reading: Reading, field: Field, hint: str) -> Unread:
    """Report a list or a single value where words and a value for each belong."""
    found = "a list" if type(node) is SequenceNode else "a single value"
    message = f"`{field.name}` takes {wanted.words}, not {found}"
    reading.report("LB108", message, first_line(node.span), hint)
    return UNREAD


def _is_long_enough(node: MappingNode, least: int, reading: Reading, field: Field) -> bool:
    """Report a mapping with too many entries or too few."""
    if not within_size(len(node.entries), reading, field, node.span):
        return False
    if len(node.entries) < least:
        report_empty(reading, field, node.span)
        return False
    return True


def _named(name: str, field: Field) -> Field:
    """The declaration of one entry of a mapping, called by its id in messages."""
    return replace(field, name=name, example="")


def _mark_broken(group: Group, node: Node, reading: Reading) -> None:
    """Remember the id of a record that could not be read, so that naming it elsewhere is no second fault."""
    if group.defines and type(node) is MappingNode:
        names = (entry.value for entry in node.entries if entry.key.text == group.head)
        reading.broken.update("-".join(name.text.split()) for name in names if type(name) is Scalar and name.text)
