"""What a field is, and the type of a single value: owns emptiness and shape, knows no particular field.

A field is declared once; the reader, the JSON Schema and the format reference all come from that declaration.
A type reads a node into a value or, having reported why, into ``UNREAD``. It never raises.
"""

from __future__ import annotations

import re
from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field as column
from typing import TYPE_CHECKING, Any, Final, TypeAlias

from linebook.model.units import Measures
from linebook.read.reading import UNREAD, Reading, Unread
from linebook.source.faults import ValueMistake
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.nodes import MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import Span

if TYPE_CHECKING:
    from linebook.read.groups import Group

Schema: TypeAlias = dict[str, Any]
Spans: TypeAlias = dict[str, Span]
Parse: TypeAlias = Callable[[str, Measures | None], object]

MOST_CHARACTERS: Final = 2000
_REMARK: Final = re.compile(r" *#[^\s#!]")
_PART: Final = r"[^,\[\]\s](?:[^,\[\]]*[^,\[\]\s])?"
NOTHING_WRITTEN: Final = frozenset({"", "~", "null", "Null", "NULL"})


class FieldType(ABC):
    """What a field may hold. ``words`` says it in a message: *an amount*, *a list of ids*."""

    __slots__ = ()
    words: str

    @abstractmethod
    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        """Return the value, or ``UNREAD`` after reporting; put the spans of its parts into ``spans``."""

    @abstractmethod
    def schema(self) -> Schema:
        """Return the JSON Schema (draft-07) of the value as an editor's YAML reader sees it."""

    def groups(self) -> tuple[Group, ...]:
        """Return the groups of fields that stand directly inside."""
        return ()


class NoValue:
    """The type of ``NO_VALUE``."""


NO_VALUE: Final = NoValue()


@frozen
class Field:
    """One field. ``doc`` is one line in plain words; ``default`` is what holds without it, in words.

    ``attribute`` is its name in the record where that differs (``key`` is either); ``absent`` is the value given to a
    record that has no default of its own; ``missing_code`` is the fault where a required field is not there. ``parse``
    is what decides a single value, where the field holds one.
    """

    name: str
    type: FieldType
    doc: str
    example: str
    required: bool = False
    default: str = ""
    attribute: str = ""
    absent: object = NO_VALUE
    missing_code: str = "LB107"
    key: str = column(init=False)
    parse: Parse | None = column(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "key", self.attribute or self.name)
        object.__setattr__(self, "parse", self.type.parse if isinstance(self.type, Plain) else None)


@frozen
class Plain(FieldType):
    """A single value, decided by ``parse``, which raises ValueMistake. ``pattern`` is for editors and may be looser.

    ``numeric`` and ``boolean`` say that an editor's YAML reader may take such a text for a number or for true/false.
    """

    words: str
    parse: Parse
    pattern: str = ""
    choices: tuple[str, ...] = ()
    numeric: bool = False
    boolean: bool = False
    most: int = MOST_CHARACTERS

    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        if type(node) is not Scalar:
            return wrong_shape(self, node, reading, field)
        text = node.text
        known = reading.known.get((self.parse, text), UNREAD)
        if known is not UNREAD:
            return known
        if len(text) > self.most:
            message = f"`{field.name}` is {len(text):,} characters long and may have {self.most:,}"
            reading.report("LB110", message, node.span, "shorten it, or move the text into the method")
            return UNREAD
        try:
            value = self.parse(text, reading.measures)
        except ValueMistake as mistake:
            reading.report_mistake(mistake, node.span)
            return UNREAD
        reading.known[self.parse, text] = value
        return value

    def schema(self) -> Schema:
        text: Schema = {"type": "string", "minLength": 1, "maxLength": self.most}
        if self.choices:
            text = {"type": "string", "enum": list(self.choices)}
        elif self.pattern:
            text["pattern"] = self.pattern
        others = (["number"] if self.numeric else []) + (["boolean"] if self.boolean else [])
        return {"anyOf": [text, *({"type": other} for other in others)]} if others else text


@frozen
class Choice(FieldType):
    """One of a few words, each standing for a value. ``also`` are words understood but not advertised."""

    words: str
    values: Mapping[str, object]
    also: Mapping[str, object] = column(default_factory=dict)
    code: str = "LB118"
    boolean: bool = False

    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        if type(node) is not Scalar:
            return wrong_shape(self, node, reading, field)
        text = node.text
        if text in self.values:
            return self.values[text]
        if text in self.also:
            return self.also[text]
        self._report(text, node.span, reading, field)
        return UNREAD

    def _report(self, text: str, span: Span, reading: Reading, field: Field) -> None:
        shown = text if len(text) <= 60 else text[:59] + "…"
        near = nearest(text, self.values)
        meant = f"did you mean `{near}`?" if near else ""
        message = f"`{field.name}` cannot be `{shown}`"
        reading.report(self.code, message, span, meant, f"write {either(tuple(self.values))}")

    def schema(self) -> Schema:
        enum: Schema = {"type": "string", "enum": [*self.values]}
        return {"anyOf": [enum, {"type": "boolean"}]} if self.boolean else enum


def either(words: Sequence[str], joint: str = "or") -> str:
    """Return ``a``, ``a or b``, ``a, b or c`` with each word in backticks."""
    ticked = [f"`{word}`" for word in words]
    return ticked[0] if len(ticked) == 1 else f"{', '.join(ticked[:-1])} {joint} {ticked[-1]}"


def is_empty(node: Node) -> bool:
    """True where nothing was written after the colon or dash (or a word YAML reads as nothing)."""
    if type(node) is not Scalar:
        return False
    return node.text in NOTHING_WRITTEN if node.plain else not node.text.strip()


def report_empty(reading: Reading, field: Field, span: Span, *, what: str = "", node: Node | None = None) -> None:
    """Report a field, or one entry of it, without a value; not where something was typed and refused already."""
    if node is not None and type(node) is Scalar and not node.text and node.span.end > node.span.start and node.plain:
        reading.losses += 1
        return
    if node is not None and _begins_remark(node):
        hint = "put the value between double quotes, because a `#` after a space begins a remark"
    elif what:
        hint = "type it or delete the line"
    else:
        hint = f"write `{field.name}: {field.example}`" + ("" if field.required else ", or delete the line")
    reading.report("LB109", f"{what or f'`{field.name}`'} is empty", span, hint)


def _begins_remark(node: Node) -> bool:
    """True where nothing is left of a value because it begins with ``#``, as in ``name: #1 sauce``."""
    return _REMARK.match(node.span.source.text, node.span.end) is not None


def split_text(node: Scalar) -> list[Scalar]:
    """Return the parts of a text between its commas, each at its own place; brackets at its ends are left out."""
    found: list[Scalar] = []
    for part in re.finditer(_PART, node.span.text):
        start = node.span.start + part.start()
        span = node.span.source.span(start, start + len(part[0]))
        found.append(Scalar(text=part[0], span=span, plain=node.plain))
    return found


def wrong_shape(wanted: FieldType, node: Node, reading: Reading, field: Field) -> Unread:
    """Report a list or group of fields where a single value belongs, narrowed to what was most likely meant."""
    hint = f"write `{field.name}: {field.example}`"
    found = "a list" if type(node) is SequenceNode else "a group of fields"
    if type(node) is SequenceNode and len(node.items) == 1 and type(node.items[0]) is Scalar:
        hint = f"write `{field.name}: {node.items[0].text}`, without a dash or brackets"
    elif type(node) is MappingNode and len(node.entries) == 1 and is_empty(node.entries[0].value):
        found = "braces"
        hint = f"write `{field.name}: {node.entries[0].key.text}`, without braces"
    elif type(node) is MappingNode and len(node.entries) == 1 and type(node.entries[0].value) is Scalar:
        hint = f"write `{field.name}: {node.entries[0].value.text}`"
    reading.report("LB108", f"`{field.name}` takes {wanted.words}, not {found}", first_line(node.span), hint)
    return UNREAD


def first_line(span: Span) -> Span:
    """Return the part of a span on its first line, so that a fault points at a line, not at half a file."""
    end = span.source.text.find("\n", span.start, span.end)
    return span if end < 0 else span.source.span(span.start, max(span.start, end))
