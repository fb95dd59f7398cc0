"""YAML as typed, with positions: every scalar stays the text the chef wrote.

Tuples, because a house has tens of thousands of them, and a tuple is made in a third of a dataclass's time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple, TypeAlias

from linebook.source.spans import Span


class Scalar(NamedTuple):
    """One value. ``plain`` is false when it was quoted or a block. An empty value has text ''."""

    text: str
    span: Span
    plain: bool = True


class Entry(NamedTuple):
    """One ``key: value`` of a mapping."""

    key: Scalar
    value: Node


class MappingNode:
    """Keys and values in file order; keys are unique (the reader has refused the rest).

    Most fields are read from ``pairs``, which take a third of the time of entries: these are made when asked for.
    """

    __slots__ = ("_entries", "_pairs", "span")

    def __init__(self, entries: tuple[Entry, ...] | None, span: Span, pairs: Pairs | None = None) -> None:
        """Hold the entries, or ``pairs`` of names that were typed without quotes."""
        self._entries, self._pairs, self.span = entries, pairs, span

    @property
    def pairs(self) -> Pairs:
        """What was typed, by the names."""
        if self._pairs is None:
            self._pairs = {entry.key.text: (entry.key.span.start, entry.value, 0) for entry in self._entries or ()}
        return self._pairs

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Keys and values, each with its place."""
        if self._entries is None:
            self._entries = tuple(self._made())
        return self._entries

    @property
    def first_place(self) -> Span:
        """Return where the first name and its value stand, of a mapping that has one."""
        source = self.span.source
        if self._entries is not None:
            key, value = self._entries[0]
            return source.span(key.span.start, max(key.span.end, value.span.end))
        at, typed, start = next(iter(self.pairs.values()))
        return source.span(at, start + len(typed) if isinstance(typed, str) else typed.span.end)

    def _made(self) -> Iterator[Entry]:
        source = self.span.source
        for name, (at, typed, start) in self.pairs.items():
            value = Scalar(typed, source.span(start, start + len(typed))) if isinstance(typed, str) else typed
            yield Entry(Scalar(name, source.span(at, at + len(name))), value)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, MappingNode):
            return NotImplemented
        return self.span == other.span and self.entries == other.entries

    def __hash__(self) -> int:
        return hash((self.span, self.entries))

    def __repr__(self) -> str:
        return f"MappingNode({self.entries!r}, {self.span!r})"


class SequenceNode(NamedTuple):
    """Values in file order."""

    items: tuple[Node, ...]
    span: Span


Node: TypeAlias = Scalar | MappingNode | SequenceNode
Pairs: TypeAlias = Mapping[str, tuple[int, "str | Node", int]]
"""For each name where it begins, and its value: a plain text and where that begins, or a node with its own place."""
