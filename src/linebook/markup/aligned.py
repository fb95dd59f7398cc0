"""Which step of an old method is which of a new one: moved, reworded, new or out. Knows no wording."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import Final, TypeAlias

_ALIKE: Final = 0.5

Pair: TypeAlias = tuple[int | None, int | None]


def aligned(old: Sequence[str], new: Sequence[str]) -> Iterator[Pair]:
    """Yield the places of each step that is not the same in its turn: before and now, None where it is not there.

    A step with the same words in another turn is moved. Between steps that stay, one that went is one that came where
    as many did, else where half of their letters are the same.
    """
    changed = [one for one in SequenceMatcher(a=old, b=new, autojunk=False).get_opcodes() if one[0] != "equal"]
    come = {new[at]: at for one in changed for at in range(one[3], one[4])}
    moved = {at: come[old[at]] for one in changed for at in range(one[1], one[2]) if old[at] in come}
    if len(set(moved.values())) < len(moved):
        moved = {}
    for _, old_start, old_end, new_start, new_end in changed:
        gone = [at for at in range(old_start, old_end) if at not in moved]
        here = [at for at in range(new_start, new_end) if at not in moved.values()]
        same = dict(zip(gone, here, strict=True)) if len(gone) == len(here) else _alike(old, new, gone, here)
        yield from same.items()
        yield from ((None, at) for at in here if at not in same.values())
        yield from ((at, None) for at in gone if at not in same)
    yield from moved.items()


def _alike(old: Sequence[str], new: Sequence[str], gone: Sequence[int], come: Sequence[int]) -> dict[int, int]:
    """Return which of the steps that went is which that came, in turn, by their words."""
    found: dict[int, int] = {}
    for at in gone:
        rest = [one for one in come if one > max(found.values(), default=-1)]
        best = max(rest, key=lambda one: SequenceMatcher(a=old[at], b=new[one], autojunk=False).ratio(), default=None)
        if best is not None and SequenceMatcher(a=old[at], b=new[best], autojunk=False).ratio() >= _ALIKE:
            found[at] = best
    return found
