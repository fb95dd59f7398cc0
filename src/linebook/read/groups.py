"""A group of fields: owns how a mapping becomes a record, with all its faults, and knows no particular field."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import field as column
from functools import lru_cache
from typing import Any, Final, TypeAlias

from linebook.read.commas import mend_commas, read_cut_value
from linebook.read.fields import (
    NO_VALUE,
    NOTHING_WRITTEN,
    Choice,
    Field,
    FieldType,
    Plain,
    Schema,
    Spans,
    either,
    first_line,
    is_empty,
    report_empty,
    split_text,
)
from linebook.read.reading import UNREAD, Reading
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.nodes import Entry, MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import PlacesByName, Span

Values: TypeAlias = dict[str, Any]
Settle: TypeAlias = Callable[[Values, Reading, Spans, Span], bool]

# A house has tens of thousands of texts, and this way a named tuple is made in half the time.
_tuple: Final = tuple.__new__


@frozen(eq=False)
class Group(FieldType):
    """A mapping of known fields that becomes one record.

    ``name`` and ``names`` call it in messages (*an ingredient*, *ingredients*). ``head`` is the field whose value
    stands for the whole record. ``settle`` turns the values typed into the values of the record; it reports what
    does not fit together and returns False where no record can be made. ``defines`` is set where ``head`` gives
    an id that other cards may name.
    """

    name: str
    fields: tuple[Field, ...]
    record: Callable[..., object]
    names: str = ""
    head: str = ""
    settle: Settle | None = None
    defines: bool = False
    words: str = column(init=False)
    by_name: dict[str, Field] = column(init=False)
    required: tuple[Field, ...] = column(init=False)
    needed: frozenset[str] = column(init=False)
    absent: Values = column(init=False)
    renamed: tuple[Field, ...] = column(init=False)

    def __post_init__(self) -> None:
        fields = self.fields
        object.__setattr__(self, "words", f"the fields of {self.name}")
        object.__setattr__(self, "by_name", {field.name: field for field in fields})
        object.__setattr__(self, "required", tuple(field for field in fields if field.required))
        object.__setattr__(self, "needed", frozenset(field.name for field in self.required))
        absent = {field.key: field.absent for field in fields if field.absent is not NO_VALUE}
        object.__setattr__(self, "absent", absent)
        object.__setattr__(self, "renamed", tuple(field for field in fields if field.attribute))

    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        if type(node) is not MappingNode:
            _report_not_a_group(self, node, reading, field)
            return UNREAD
        return self.read_record(node, reading)

    def read_record(self, node: MappingNode, reading: Reading, *, span: Span | None = None, **given: Any) -> object:
        """Return the record, or ``UNREAD``. ``given`` are values from elsewhere: the id, the body."""
        values: Values = {**self.absent, **given}
        spans: Spans = PlacesByName()
        if node.pairs.keys() <= self.by_name.keys():
            sound: bool | None = self._read_known(node, reading, values, spans)
        else:
            sound = self._read_any(node, reading, values, spans)
        if sound is None:
            return UNREAD
        head = spans.get(self.head) or span or _head_span(node)
        if not self.needed <= spans.keys():
            sound = self._report_missing(reading, spans, head)
        for field in self.renamed:
            if field.name in spans:
                _name_twice(spans, field)
        if not sound or (self.settle is not None and not self.settle(values, reading, spans, head)):
            return UNREAD
        return self.record(**values, span=span or head, spans=spans)

    def _read_known(self, node: MappingNode, reading: Reading, values: Values, spans: Spans) -> bool:
        """Read the fields of a mapping that has no others; return whether all that is required could be read."""
        sound = True
        by_name, known, source = self.by_name, reading.known, node.span.source
        for name, (_, typed, start) in node.pairs.items():
            field = by_name[name]
            value: object = UNREAD
            if isinstance(typed, str):
                spans[name] = span = _tuple(Span, (source, start, start + len(typed)))
                if typed not in NOTHING_WRITTEN:
                    value = known.get((field.parse, typed), UNREAD)
                    if value is UNREAD:
                        value = field.type.read(_tuple(Scalar, (typed, span, True)), reading, field, spans)
                else:
                    _report_empty_field(node, name, field, reading)
            else:
                spans[name] = typed.span
                if is_empty(typed):
                    _report_empty_field(node, name, field, reading)
                else:
                    value = field.type.read(typed, reading, field, spans)
            if value is not UNREAD:
                values[field.key] = value
            elif field.required:
                sound = False
        return sound

    def _read_any(self, node: MappingNode, reading: Reading, values: Values, spans: Spans) -> bool | None:
        """Read a mapping with names that are no fields; None where it has no others, which has been reported."""
        unknown: list[Entry] = []
        sound = True
        mended = mend_commas(node, self.by_name, reading)
        entries, cut = mended.entries, mended.cut
        for entry in entries:
            key, typed = entry
            field = self.by_name.get(key.text)
            if field is None:
                unknown.append(entry)
                continue
            spans[key.text] = typed.span
            if key.span.start in cut:
                value: object = read_cut_value(entry, cut[key.span.start], field, reading, spans)
            elif is_empty(typed):
                report_empty(reading, field, key.span, node=typed)
                value = UNREAD
            else:
                value = field.type.read(typed, reading, field, spans)
            if value is not UNREAD:
                values[field.key] = value
            elif field.required:
                sound = False
        if len(unknown) == len(entries) > 0:
            _report_nothing_known(self, node, reading)
            return None
        if unknown:
            sound = self._read_unknown(unknown, entries[0], reading, values, spans) and sound
        return sound

    def _read_unknown(self, entries: list[Entry], first: Entry, reading: Reading, values: Values, spans: Spans) -> bool:
        """Report fields that are not known; a plain slip of the pen is read as the field it was meant to be."""
        sound = True
        for entry in entries:
            name = entry.key.text
            if entry is first and is_empty(entry.value) and self._read_bare_head(entry, reading, values, spans):
                continue
            near = nearest(name, self.by_name.keys() - spans.keys()) or nearest(name, self.by_name)
            _report_unknown(self, name, near, reading, entry.key.span)
            if near is None or near in spans:
                continue
            field = self.by_name[near]
            spans[near] = entry.value.span
            value: object = UNREAD
            if not is_empty(entry.value):
                value = field.type.read(entry.value, reading.trial(), field, spans)
            if value is not UNREAD:
                values[field.key] = value
            elif field.required:
                sound = False
        return sound

    def _read_bare_head(self, entry: Entry, reading: Reading, values: Values, spans: Spans) -> bool:
        """Read ``{butter, amount: 2 kg}`` as if the name of the head field stood before its value."""
        head = self.by_name.get(self.head)
        if head is None or head.name in spans:
            return False
        value = head.type.read(entry.key, reading.trial(), head, spans)
        if value is UNREAD:
            return False
        message = f"`{_short(entry.key.text)}` stands here without a field's name"
        reading.report("LB106", message, entry.key.span, f"write `{head.name}: {_short(entry.key.text)}`")
        values[head.key], spans[head.name] = value, entry.key.span
        return True

    def _report_missing(self, reading: Reading, spans: Spans, head: Span) -> bool:
        for field in self.required:
            if field.name not in spans:
                message = f"{_the(self.name)} has no `{field.name}`"
                mend = f"add `{field.name}: {field.example}`"
                if type(field.type) is Choice:
                    mend = f"add `{field.name}:` and one of {either(tuple(field.type.values))}"
                reading.report(field.missing_code, message, head, mend)
        return False

    def schema(self) -> Schema:
        required = [field.name for field in self.fields if field.required]
        found: Schema = {
            "type": "object",
            "additionalProperties": False,
            "properties": {
                field.name: {"description": describe(field), **field.type.schema()} for field in self.fields
            },
        }
        if required:
            found["required"] = required
        return found

    def groups(self) -> tuple[Group, ...]:
        types = (field.type for field in self.fields)
        return tuple(inner for kind in types for inner in ((kind,) if isinstance(kind, Group) else kind.groups()))


def describe(field: Field) -> str:
    """Return a field's line for an editor: what it is, what holds without it, an example."""
    without = "Required." if field.required else f"Without it: {field.default}." if field.default else ""
    return " ".join(part for part in (f"{field.doc}.", without, f"Example: {field.example}") if part)


def walk_groups(root: FieldType) -> Iterator[Group]:
    """Yield every group of fields under a type, outermost first, each once."""
    seen: set[int] = set()
    waiting = [root] if isinstance(root, Group) else list(root.groups())
    while waiting:
        group = waiting.pop(0)
        if isinstance(group, Group) and id(group) not in seen:
            seen.add(id(group))
            yield group
            waiting.extend(group.groups())


_WHOLE: Final = (Plain, Choice)
"""Types of fields that have no parts with spans of their own."""


def _report_empty_field(node: MappingNode, name: str, field: Field, reading: Reading) -> None:
    entry = next(entry for entry in node.entries if entry.key.text == name)
    report_empty(reading, field, entry.key.span, node=entry.value)


def _name_twice(spans: Spans, field: Field) -> None:
    """Let a span be found under the attribute's name as well as under the name the chef types."""
    name, attribute = field.name, field.attribute
    spans.setdefault(attribute, spans[name])
    if type(field.type) in _WHOLE:
        return
    inside = f"{name}."
    for key in [key for key in spans if key.startswith(inside)]:
        spans.setdefault(f"{attribute}{key[len(name) :]}", spans[key])


def _head_span(node: MappingNode) -> Span:
    """The first ``key: value`` of a mapping, which stands for a record without an id of its own."""
    if not node.pairs:
        return node.span
    return first_line(node.first_place)


def _the(name: str) -> str:
    for article in ("a ", "an "):
        if name.startswith(article):
            return f"the {name[len(article) :]}"
    return name


def _report_unknown(group: Group, name: str, near: str | None, reading: Reading, span: Span) -> None:
    meant = f"did you mean `{near}`?" if near else ""
    elsewhere = [owner for owner in _owners(name) if owner != group.name]
    if elsewhere and near and not near.startswith(name):
        meant = ""  # a field in the wrong place is likelier than two slips in its name
    if not elsewhere:
        known = "" if near else f"{group.name} has {either(tuple(group.by_name), 'and')}"
        reading.report("LB106", f"`{_short(name)}` is not a field of {group.name}", span, meant, known)
    else:
        message = f"`{name}` is a field of {' and of '.join(elsewhere[:2])}, not of {group.name}"
        reading.report("LB106", message, span, meant, f"move it to {elsewhere[0]}, or delete it")


@lru_cache(maxsize=256)
def _owners(name: str) -> tuple[str, ...]:
    """The groups, over all kinds of file, that have a field of this name; looked up only for a message."""
    from linebook.read.kinds import KINDS  # here, because the kinds are made of groups

    # What is in another language has names of other fields by the dozen, and is not what a spec's field was meant for.
    kinds = (kind for kind in KINDS.values() if not kind.name.endswith("words"))
    groups = (group for kind in kinds for group in walk_groups(kind.root))
    return tuple(dict.fromkeys(group.name for group in groups if name in group.by_name))


def _short(text: str) -> str:
    return text if len(text) <= 60 else text[:59] + "…"


def _report_nothing_known(group: Group, node: MappingNode, reading: Reading) -> None:
    """Not one field is known: one fault that shows the right form, instead of one for each and the missing ones."""
    first = node.entries[0]
    name = first.key.text
    form = _form_of_pair(group, first, reading) if len(node.entries) == 1 else ""
    if all(is_empty(entry.value) for entry in node.entries):
        form = _form_of_texts(group, [entry.key for entry in node.entries], reading)
    near = nearest(name, group.by_name)
    if near and not form:
        _report_unknown(group, name, near, reading, first.key.span)
        return
    message = f"`{_short(name)}` is not a field of {group.name}"
    reading.report("LB106", message, first.key.span, f"write `{form or _form(group)}`")


def _form_of_pair(group: Group, entry: Entry, reading: Reading) -> str:
    """The right form of ``butter: 200 g``, where the head field's value was typed as a field's name."""
    for field in group.required:
        if field.name == group.head or not group.head or type(entry.value) is not Scalar or is_empty(entry.value):
            continue
        if field.type.read(entry.value, reading.trial(), field, {}) is not UNREAD:
            return f"{{{group.head}: {_short(entry.key.text)}, {field.name}: {_short(entry.value.text)}}}"
    return ""


def _form_of_texts(group: Group, texts: list[Scalar], reading: Reading) -> str:
    """The right form of ``butter, 200 g``: each needed field takes the first text that it can read."""
    parts: list[str] = []
    left = list(texts)
    for field in group.required:
        trial = reading.trial()
        found = next((text for text in left if field.type.read(text, trial, field, {}) is not UNREAD), None)
        if found is None:
            return ""
        left.remove(found)
        parts.append(f"{field.name}: {_short(found.text)}")
    return "{" + ", ".join(parts) + "}" if parts else ""


def _form(group: Group) -> str:
    shown = [field for field in group.fields if field.required] or list(group.fields[:2])
    return "{" + ", ".join(f"{field.name}: {field.example}" for field in shown) + "}"


def _report_not_a_group(group: Group, node: Node, reading: Reading, field: Field) -> None:
    found = "a list" if type(node) is SequenceNode else "a single value"
    form = _form_around(group, node, reading)
    if type(node) is Scalar and "," in node.text:
        form = _form_of_texts(group, split_text(node), reading)
    form = form or (field.example if field.example.startswith("{") else _form(group))
    message = f"`{field.name}` takes {group.words}, not {found}"
    reading.report("LB108", message, first_line(node.span), f"write `{form}`")


def _form_around(group: Group, node: Node, reading: Reading) -> str:
    """The right form with this lone value in the field it was most likely meant for, or nothing."""
    typed = " ".join(node.span.text.split())
    fields = [field for field in group.fields if type(field.type) is not Group and len(typed) <= 60]
    fitting = [field for field in fields if field.type.read(node, reading.trial(), field, {}) is not UNREAD]
    plain = [field for field in fitting if type(field.type) is Plain and field.type.words == "a text"]
    fitting = [field for field in fitting if field not in plain] or plain
    needed = [field for field in fitting if field.required]
    if not needed and len(fitting) != 1:
        return ""
    meant = (needed or fitting)[0]
    others = (f"{field.name}: {field.example}" for field in group.required if field is not meant)
    return "{" + ", ".join((f"{meant.name}: {typed}", *others)) + "}"
