"""YAML as typed, with positions: every scalar stays the text the chef wrote."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

from linebook.source.spans import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalar:
    """One value. ``plain`` is false when it was quoted or a block. An empty value has text ''."""

    text: str
    span: Span = field(compare=False)
    plain: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One ``key: value`` of a mapping."""

    key: Scalar
    value: Node


@dataclass(frozen=True, slots=True, kw_only=True)
class MappingNode:
    """Keys and values in file order; keys are unique (the reader has refused the rest)."""

    entries: tuple[Entry, ...]
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class SequenceNode:
    """Values in file order."""

    items: tuple[Node, ...]
    span: Span = field(compare=False)


Node: TypeAlias = Scalar | MappingNode | SequenceNode
