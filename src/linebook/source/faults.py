"""What is wrong, where, and what to do: owns the fault type, knows nothing of how one is printed."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from typing import Generic, TypeVar

from linebook.source.frozen import frozen
from linebook.source.spans import Span

T = TypeVar("T")


class Severity(Enum):
    """An error stops the sheets from being drawn; a warning does not."""

    ERROR = "error"
    WARNING = "warning"


@frozen
class Related:
    """A second place that explains a fault, with a few words about it."""

    span: Span
    label: str


@frozen
class Fault:
    """One mistake. ``message`` is one sentence without a full stop; hints say what to type instead."""

    code: str
    severity: Severity
    message: str
    span: Span | None
    hints: tuple[str, ...] = ()
    related: tuple[Related, ...] = ()


@frozen
class Outcome(Generic[T]):
    """A value or None, and every fault found on the way to it."""

    value: T | None
    faults: tuple[Fault, ...] = ()


def in_file_order(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """Return faults file by file as the files were read, and inside a file from its top down."""
    files: dict[str, int] = {}

    def place(found: Fault) -> tuple[int, int]:
        if found.span is None:
            return -1, 0
        return files.setdefault(found.span.source.path, len(files)), found.span.start

    return tuple(sorted(faults, key=place))


class ValueMistake(Exception):
    """A text that cannot be read as what it should be, raised where the position is not known.

    The nearest reader catches it and adds the span. ``code`` is the fault's code.
    """

    def __init__(self, code: str, message: str, hints: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.hints = hints
