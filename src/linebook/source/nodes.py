"""YAML as typed, with positions: every scalar stays the text the chef wrote.

Named tuples, because a house has tens of thousands of them, and a tuple is made in a third of a dataclass's time.
"""

from __future__ import annotations

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


class MappingNode(NamedTuple):
    """Keys and values in file order; keys are unique (the reader has refused the rest)."""

    entries: tuple[Entry, ...]
    span: Span


class SequenceNode(NamedTuple):
    """Values in file order."""

    items: tuple[Node, ...]
    span: Span


Node: TypeAlias = Scalar | MappingNode | SequenceNode
