"""What is looked at while something is made, so that it is known when it must be made again.

Owns one open list of what is looked at now. It must not know what any number or name in it stands for.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Final, TypeVar

R = TypeVar("R")

NOTED: Final[set[Hashable]] = set()
"""What the innermost making that is under way has looked at so far. It stays this one set: ``note`` is its method."""

_OUTER: Final[list[frozenset[Hashable]]] = []

note: Final = NOTED.add
note_all: Final = NOTED.update


def noting(make: Callable[[], R]) -> tuple[R, frozenset[Hashable]]:
    """Return what ``make`` gives, and all it looked at; whatever it is a part of has looked at nothing by that."""
    _OUTER.append(frozenset(NOTED))
    NOTED.clear()
    try:
        made = make()
        return made, frozenset(NOTED)
    finally:
        NOTED.clear()
        NOTED.update(_OUTER.pop())
