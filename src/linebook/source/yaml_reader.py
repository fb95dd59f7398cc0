"""YAML read as typed text with positions, from the parser's events: no type is guessed and nothing is raised.

A text that is not plain goes to a parser: the C one where it is installed, else the Python one, with the same result.
Shortcuts that hide text from the reader (anchors, aliases, tags, merges, several documents) are refused, and so is a
field written twice.
"""

from __future__ import annotations

import re
from dataclasses import field
from typing import Any, Final

from linebook.source.characters import (
    blank_refused_characters,
    find_characters_in_structure,
    find_refused_characters,
    has_odd_edge,
    has_odd_space,
    has_refused_character,
    is_smart_quoted,
)
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome, Related
from linebook.source.frozen import changing
from linebook.source.nodes import Entry, MappingNode, Node, Scalar, SequenceNode
from linebook.source.plain_yaml import read_plain_yaml
from linebook.source.spans import SourceFile, Span

DEEPEST: Final = 40
LONGEST_TEXT: Final = 20_000

_QUOTE_HINT: Final = "write the value out here, or put it between double quotes if the sign belongs to it"
_ODD_KEYS: Final = ("", "<<")
# A house has tens of thousands of nodes, and this way a named tuple is made in half the time.
_tuple: Final = tuple.__new__
_CUT: Final = re.compile(r" +(#[^\s#!][^\r\n]*)")


def read_yaml(source: SourceFile, start: int, end: int) -> Outcome[Node]:
    """Return the node of the YAML between two offsets of a file; an empty text is an empty mapping.

    The value is None only where the text cannot be read at all (LB101, LB104, LB110). Other faults found here, LB102,
    LB103, LB104 in a value and LB112, leave the sound parts readable; of a field written twice the first is kept.
    """
    plain = read_plain_yaml(source, start, end)
    if plain is not None:
        return Outcome(value=plain)
    faults = find_refused_characters(source, start, end) or find_characters_in_structure(source, start, end)
    if faults:
        return Outcome(value=None, faults=faults)
    text = source.text[start:end]
    fast = _fast_loader()
    if fast is not None:
        outcome = _Builder(source=source, start=start).build(text, fast)
        if outcome is not None:
            return outcome
    slow = _Builder(source=source, start=start).build(text, None)
    return slow if slow is not None else Outcome(value=None, faults=(_unreadable(source, start),))


@changing
class _Open:
    """A mapping or list whose end has not been met. ``key`` waits for its value."""

    is_mapping: bool
    start: int
    flow: bool
    entries: list[Entry] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)
    seen: dict[str, Scalar] = field(default_factory=dict)
    key: Scalar | None = None
    skipping: bool = False


@changing
class _Builder:
    source: SourceFile
    start: int
    faults: list[Fault] = field(default_factory=list)
    opened: list[_Open] = field(default_factory=list)
    root: Node | None = None
    documents: int = 0
    has_cuts: bool = False

    def build(self, text: str, loader: Any) -> Outcome[Node] | None:
        """Return what the parser finds; None where it stops with a complaint and is not the one whose words are known.

        ``loader`` is the C parser, or None for the Python parser, which words all complaints.
        """
        import yaml

        self.has_cuts = " #" in text
        takers = {
            yaml.ScalarEvent: self._scalar,
            yaml.MappingStartEvent: self._open_mapping,
            yaml.MappingEndEvent: self._close,
            yaml.SequenceStartEvent: self._open_sequence,
            yaml.SequenceEndEvent: self._close,
            yaml.AliasEvent: self._alias,
            yaml.DocumentStartEvent: self._document,
        }
        try:
            for event in yaml.parse(text, Loader=loader or yaml.SafeLoader):
                take = takers.get(type(event))
                if take is not None and not take(event):
                    return Outcome(value=None, faults=tuple(self.faults))
        except yaml.MarkedYAMLError as error:
            return None if loader else Outcome(value=None, faults=(*self.faults, self._syntax(error)))
        except (yaml.YAMLError, ValueError, RecursionError, OverflowError):
            return None
        if self.root is None:
            self.root = MappingNode(entries=(), span=self.source.span(self.start, self.start))
        return Outcome(value=self.root, faults=tuple(self.faults))

    # Each of these takes one event in and returns False where the rest must not be read.

    def _alias(self, event: Any) -> bool:
        self._refuse(event, f"`*{event.anchor}` stands for a text written elsewhere", _QUOTE_HINT)
        self._place(Scalar(text="", span=self._span(event)), event)
        return True

    def _document(self, event: Any) -> bool:
        self.documents += 1
        if self.documents > 1:
            self._refuse(event, "a second text begins here", "keep one text in a file: delete this line")
            return False
        if event.version is not None or event.tags:
            self._refuse(event, "a line that begins with `%` gives orders to the reader", "delete that line")
            return False
        return True

    def _scalar(self, event: Any) -> bool:
        start, end = event.start_mark.index + self.start, event.end_mark.index + self.start
        text, style = event.value, event.style
        if event.anchor is not None or event.tag is not None:
            self._refuse_properties(event)
        plain = not style
        if plain and start == end:
            start = end = self._after_last_mark(start)  # the two parsers put an empty value at different places
        elif style in ("|", ">"):
            end = start + len(self.source.text[start:end].rstrip())
        node: Scalar = _tuple(Scalar, (text, _tuple(Span, (self.source, start, end)), plain))
        if not (text.isascii() and text.isprintable()) or len(text) > LONGEST_TEXT:
            node = self._check_text(node)
        parent = self.opened[-1] if self.opened else None
        if parent is not None and parent.is_mapping and parent.key is None:
            if text in parent.seen or text in _ODD_KEYS or not text.isascii():
                self._place_key(parent, node, event)
            else:
                parent.key = parent.seen[text] = node
            return True
        if self.has_cuts and plain and text:  # where nothing is left of a value, its reader says that it is empty
            self._check_cut(end)
        self._place(node, event)
        return True

    def _after_last_mark(self, at: int) -> int:
        return max(self.start, len(self.source.text[self.start : at].rstrip()) + self.start) if at else at

    def _check_text(self, node: Scalar) -> Scalar:
        text = node.text
        if len(text) > LONGEST_TEXT:
            hint = f"keep a text under {LONGEST_TEXT} characters"
            self.faults.append(fault("LB110", "this text is too long", node.span, hints=(hint,)))
        if has_refused_character(text):
            message = "this text holds a character that cannot be printed"
            self.faults.append(fault("LB104", message, node.span, hints=("delete what begins with a backslash",)))
            return node._replace(text=blank_refused_characters(text))
        if node.plain and is_smart_quoted(text):
            hints = (
                'type straight quotes `"` around the text',
                "curly quotes that should print go inside straight ones",
            )
            self.faults.append(fault("LB104", "curly quotes do not quote a text here", node.span, hints=hints))
        elif node.plain and has_odd_edge(text):
            message = "a space that is not the plain one stands at the edge of this text"
            self.faults.append(fault("LB104", message, node.span, hints=("delete it and type a plain space",)))
        return node

    def _check_cut(self, end: int) -> None:
        match = _CUT.match(self.source.text, end)
        if match:
            cut = match[1].rstrip()
            shown = cut if len(cut) <= 40 else cut[:39] + "…"
            self.faults.append(
                fault(
                    "LB112",
                    f"`{shown}` is left out, because a `#` after a space begins a remark",
                    self.source.span(match.start(1), match.start(1) + len(cut)),
                    hints=("put the value between double quotes, or type a space after the `#` of a remark",),
                )
            )

    def _place(self, node: Node, event: Any) -> None:
        if not self.opened:
            self.root = node
            return
        parent = self.opened[-1]
        if not parent.is_mapping:
            parent.items.append(node)
        elif parent.key is None:
            self._place_key(parent, node, event)
        else:
            if not parent.skipping:
                parent.entries.append(_tuple(Entry, (parent.key, node)))
            parent.key, parent.skipping = None, False

    def _place_key(self, parent: _Open, node: Node, event: Any) -> None:
        if not isinstance(node, Scalar):
            self._refuse(event, "a field's name cannot be a list or a group", "type a plain name before the `:`")
            parent.key, parent.skipping = Scalar(text="", span=node.span), True
            return
        parent.key = node
        first = parent.seen.setdefault(node.text, node)
        if first is not node:
            parent.skipping = True
            related = (Related(span=first.span, label="first written here"),)
            message = f"`{_shorten(node.text)}` is written twice"
            self.faults.append(fault("LB102", message, node.span, hints=("keep one of the two",), related=related))
        elif not node.text:
            parent.skipping = True
            self.faults.append(fault("LB101", "a field has no name", node.span, hints=("type a name before the `:`",)))
        elif node.plain and node.text == "<<":
            parent.skipping = True
            self._refuse(event, "`<<` takes in fields written elsewhere", "write the fields out here")
        elif has_odd_space(node.text) and not (node.plain and has_odd_edge(node.text)):
            message = "a space that is not the plain one stands in a field's name"
            self.faults.append(fault("LB104", message, node.span, hints=("delete it and type a plain space",)))

    def _open_mapping(self, event: Any) -> bool:
        return self._open(event, is_mapping=True)

    def _open_sequence(self, event: Any) -> bool:
        return self._open(event, is_mapping=False)

    def _open(self, event: Any, *, is_mapping: bool) -> bool:
        if event.anchor is not None or event.tag is not None:
            self._refuse_properties(event)
        start = event.start_mark.index + self.start
        if len(self.opened) >= DEEPEST:
            hint = f"write it flatter: groups and lists go {DEEPEST} deep at most"
            self.faults.append(
                fault("LB110", "too many groups lie inside one another", self._span(event), hints=(hint,))
            )
            return False
        self.opened.append(_Open(is_mapping=is_mapping, start=start, flow=bool(event.flow_style)))
        return True

    def _close(self, event: Any) -> bool:
        done = self.opened.pop()
        span = self.source.span(done.start, self._end_of(done, event))
        if done.is_mapping:
            self._place(MappingNode(tuple(done.entries), span), event)
        else:
            self._place(SequenceNode(tuple(done.items), span), event)
        return True

    def _end_of(self, done: _Open, event: Any) -> int:
        if done.flow:
            return int(event.end_mark.index) + self.start
        if done.is_mapping and done.entries:
            last: Node = done.entries[-1].value
        elif done.items:
            last = done.items[-1]
        else:
            return done.start
        return max(last.span.end, done.start)

    def _refuse_properties(self, event: Any) -> None:
        if event.anchor is not None:
            self._refuse(event, f"`&{event.anchor}` gives a name to a text for use elsewhere", _QUOTE_HINT)
        if event.tag is not None:
            self._refuse(event, "a word with `!` before the value gives it a type", _QUOTE_HINT)

    def _refuse(self, event: Any, message: str, hint: str) -> None:
        self.faults.append(fault("LB103", message, self._span(event), hints=(hint,)))

    def _span(self, event: Any) -> Any:
        start = event.start_mark.index + self.start
        end = self.source.text.find("\n", start)
        line_end = len(self.source.text) if end < 0 else end
        return self.source.span(start, max(start, min(event.end_mark.index + self.start, line_end)))

    def _syntax(self, error: Any) -> Fault:
        from linebook.source.yaml_words import syntax_fault  # here, because a sound house never needs it

        at = error.problem_mark.index if error.problem_mark else 0
        context = error.context_mark.index + self.start if error.context_mark else None
        return syntax_fault(self.source, str(error.problem or ""), at + self.start, context)


def _fast_loader() -> Any:
    import yaml

    return getattr(yaml, "CSafeLoader", None)


def _unreadable(source: SourceFile, start: int) -> Fault:
    return fault(
        "LB101",
        "this text cannot be read as fields and values",
        source.span(start, start),
        hints=("compare it with a spec that works, field by field",),
    )


def _shorten(text: str) -> str:
    return text if len(text) <= 40 else text[:39] + "…"
