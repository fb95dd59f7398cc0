"""Computed values that note what is looked at of them, and which of it is not the same in two of a kind.

Owns their numbers, which follow those of the house. It must not know what they are looked at for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final, TypeAlias

from linebook.compute.results import AllergenTable, Batch, Night
from linebook.source.following import STEP, Looked, following

Results: TypeAlias = Night | AllergenTable

_BY_ID: Final[Mapping[type[Any], tuple[str, ...]]] = {
    Night: ("batches", "balances", "needs"),
    AllergenTable: ("dishes", "components", "undeclared", "parts"),
}


def followed_result(result: Any, number: int) -> Any:
    """Return the same night or table, which notes what is looked at of it."""
    kind = type(result)
    names = list(kind.__dataclass_fields__)
    quiet = {name: Looked(getattr(result, name), number + names.index(name)) for name in _BY_ID[kind]}
    return following(result, number, quiet)


def find_changed_results(before: Sequence[Results], after: Sequence[Results], number: int) -> Iterator[object]:
    """Yield what ``followed_result`` would note of each that is not the same; ``number`` is that of the first."""
    for was, now in zip(before, after, strict=True):
        kind: Any = type(now)
        for at, name in enumerate(kind.__dataclass_fields__):
            old, new = getattr(was, name), getattr(now, name)
            if name in _BY_ID[kind]:
                yield from _changed_by_id(old, new, number + at)
            elif old != new:
                yield number + at
        number += STEP


def _changed_by_id(old: Mapping[str, Any], new: Mapping[str, Any], number: int) -> Iterator[object]:
    changed = [key for key in {**old, **new} if not _same(old.get(key), new.get(key))]
    yield from ((number, key) for key in changed)
    if changed or list(old) != list(new):
        yield number


def _same(old: Any, new: Any) -> bool:
    """Return whether two are equal; the card of a batch is not looked at, for it is followed itself."""
    if not isinstance(old, Batch) or not isinstance(new, Batch):
        return bool(old == new)
    names = [name for name in Batch.__dataclass_fields__ if name != "component"]
    return all(getattr(old, name) == getattr(new, name) for name in names)
