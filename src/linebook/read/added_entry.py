"""An entry put into a list of a spec's fields, with every other character as it was: comments, line ends, form of list.

Owns where the entry goes and the proof that only it was added. Opens and writes no file, and knows no particular field.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any, Final

from linebook.source.front_matter import FrontMatter
from linebook.source.frozen import frozen
from linebook.source.nodes import Entry, MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import SourceFile

_AS_TYPED: Final = re.compile(r"[^\W_](?:[^,?:#&*!|>%@`\"\\\[\]{}\n]*[^\s,?:#&*!|>%@`\"\\\[\]{}])?")
_NOTHING: Final = frozenset({"null", "Null", "NULL"})
_DASH: Final = re.compile(r"^([ \t]*)-(?=\s)", re.MULTILINE)
_REST_OF_LINE: Final = re.compile(r"[ \t]*(,?)(?:[ \t]+#[^\r\n]*|[ \t]*)(?=\r?\n)")
_REMARK: Final = re.compile(r"([ \t]*)#[^\n]*\n")


@frozen
class Insertion:
    """A text and the offset before which it is put in."""

    at: int
    text: str


def written_entry(pairs: Sequence[tuple[str, str]]) -> str:
    """Return fields and their texts as a group in braces on one line, quoted where YAML needs it."""
    return "{" + ", ".join(f"{name}: {_written(text)}" for name, text in pairs) + "}"


def place_entry(
    source: SourceFile, front: FrontMatter, root: MappingNode, name: str, written: str, after: int
) -> tuple[Insertion, ...]:
    """Return what puts an entry into the list ``name``, behind the item with the index ``after``, -1 for before all.

    The list may be in any form, empty, or not there. () where the field has something else in it.
    """
    found = next((entry for entry in root.entries if entry.key.text == name), None)
    place = _Place(text=source.text, front=front, root=root, written=written)
    if found is None:
        return place.new_field(name)
    if type(found.value) is Scalar:
        return place.after_colon(found) if found.value.plain and not found.value.text else ()
    if type(found.value) is not SequenceNode:
        return ()
    if source.text[found.value.span.start] == "[":
        return place.in_brackets(found.value, after)
    return place.with_dashes(found, found.value, after)


def put_in(text: str, insertions: Sequence[Insertion]) -> str:
    """Return a text with all insertions, which are in the order of the text."""
    parts, done = [], 0
    for one in insertions:
        parts += [text[done : one.at], one.text]
        done = one.at
    return "".join((*parts, text[done:]))


def only_added(before: MappingNode, after: MappingNode, name: str, pairs: Sequence[tuple[str, str]], at: int) -> bool:
    """Return whether two readings of a file differ by one entry alone: ``pairs``, item ``at`` of the list ``name``."""
    expected = [(entry.key.text, bare(entry.value)) for entry in before.entries]
    entry = [list(pair) for pair in pairs]
    for index, (key, value) in enumerate(expected):
        if key == name:
            items = value[1] if isinstance(value, tuple) else []
            expected[index] = (key, ("list", [*items[:at], ("group", entry), *items[at:]]))
            break
    else:
        expected.append((name, ("list", [("group", entry)])))
    return expected == [(one.key.text, bare(one.value)) for one in after.entries]


def bare(node: Node) -> Any:
    """Return what a node holds, without its places."""
    if type(node) is Scalar:
        return node.text
    if type(node) is MappingNode:
        return "group", [[entry.key.text, bare(entry.value)] for entry in node.entries]
    assert type(node) is SequenceNode
    return "list", [bare(item) for item in node.items]


def _written(text: str) -> str:
    if _AS_TYPED.fullmatch(text) and text not in _NOTHING:
        return text
    # Between single quotes nothing is special but they themselves.
    return f'"{text}"' if '"' not in text and "\\" not in text else "'" + text.replace("'", "''") + "'"


@frozen
class _Place:
    """Finds the place in one file."""

    text: str
    front: FrontMatter
    root: MappingNode
    written: str

    def new_field(self, name: str) -> tuple[Insertion, ...]:
        """Put the field in after all others."""
        if self._in_braces(self.root):
            last = self.root.entries[-1].value.span.end if self.root.entries else self.root.span.start + 1
            comma = ", " if self.root.entries else ""
            return (Insertion(at=last, text=f"{comma}{name}: [{self.written}]"),)
        at, indent = self.front.yaml_end, self._indent()
        end = self._line_end(at)
        return (Insertion(at=at, text=f"{indent}{name}:{end}{indent}  - {self.written}{end}"),)

    def after_colon(self, entry: Entry) -> tuple[Insertion, ...]:
        """Put the list in where nothing stands after the field's name; a remark on that line stays where it is."""
        colon = self.text.index(":", entry.key.span.end) + 1
        if self._in_braces(self.root):
            return (Insertion(at=colon, text=f" [{self.written}]"),)
        at = self._next_line(colon)
        return (Insertion(at=at, text=f"{self._indent()}  - {self.written}{self._line_end(at)}"),)

    def in_brackets(self, node: SequenceNode, after: int) -> tuple[Insertion, ...]:
        """Put the entry into a list in brackets, on a line of its own where its neighbour is."""
        if not node.items:
            return (Insertion(at=node.span.start + 1, text=self.written),)
        if after < 0:
            return (Insertion(at=node.items[0].span.start, text=f"{self.written}, "),)
        start, end = node.items[after].span.start, node.items[after].span.end
        indent = self.text[self.text.rfind("\n", 0, start) + 1 : start]
        rest = _REST_OF_LINE.match(self.text, end)
        if indent.strip() or rest is None:
            return (Insertion(at=end, text=f", {self.written}"),)
        line = f"{self._line_end(end)}{indent}{self.written}"
        if rest[1]:
            return (Insertion(at=rest.end(), text=f"{line},"),)
        return Insertion(at=end, text=","), Insertion(at=rest.end(), text=line)

    def with_dashes(self, entry: Entry, node: SequenceNode, after: int) -> tuple[Insertion, ...]:
        """Put the entry in as an item with a dash, under its neighbour and the remarks that stand under that."""
        *_, dash = _DASH.finditer(self.text, entry.key.span.end, node.items[0].span.start)
        item = f"{dash[1]}- {self.written}"
        if after < 0:
            return (Insertion(at=dash.start(), text=f"{item}{self._line_end(dash.start())}"),)
        at = self._next_line(node.items[after].span.end)
        remark = _REMARK.match(self.text, at, self.front.yaml_end)
        while remark and after == len(node.items) - 1 and len(remark[1]) >= max(1, len(dash[1])):
            at = remark.end()
            remark = _REMARK.match(self.text, at, self.front.yaml_end)
        return (Insertion(at=at, text=f"{item}{self._line_end(at)}"),)

    def _in_braces(self, node: MappingNode) -> bool:
        return self.text[node.span.start : node.span.start + 1] == "{"

    def _indent(self) -> str:
        """Return what stands before each field."""
        start = self.root.entries[0].key.span.start if self.root.entries else self.front.yaml_end
        return self.text[self.text.rfind("\n", 0, start) + 1 : start]

    def _next_line(self, at: int) -> int:
        return self.text.index("\n", at) + 1

    def _line_end(self, at: int) -> str:
        """Return how the line before this place ends."""
        last = self.text.rfind("\n", 0, at)
        return "\r\n" if last > 0 and self.text[last - 1] == "\r" else "\n"
