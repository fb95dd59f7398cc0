"""The cards of a house read by two processes, of which each reads some and is sent the others.

Owns when that is as good as to read them all: where nothing is to be said of any of them, and both know the same files
and have read the same before. It must not know how a card is read, nor how anything is sent.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterable, Iterator
from pathlib import PurePosixPath
from typing import Protocol, TypeAlias

from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.source.frozen import frozen
from linebook.source.spans import SourceFile
from linebook.source.written import pickled

ReadCard: TypeAlias = tuple[Component | Dish, SourceFile]
"""A card that was read without any fault, and its file."""


class Sharing(Protocol):
    """One of two processes that each do a part of something."""

    def turns(self, count: int) -> Iterator[int]:
        """Yield which of so many things are this one's to do."""

    def swap(self, *own: bytes) -> tuple[bytes, ...]:
        """Return what came of the other's part, () where it gave up, and send it what came of this one's."""


@frozen
class SharedCards:
    """All cards in the order of their files. ``halves`` are both parts as they were written out."""

    read: tuple[ReadCard, ...]
    halves: tuple[bytes, ...]


def share_cards(
    paths: tuple[PurePosixPath, ...],
    before: tuple[SourceFile, ...],
    read: Callable[[PurePosixPath], ReadCard | None],
    sharing: Sharing,
) -> SharedCards | None:
    """Read this process's part of the cards, and return them all; None where each has to read all of them.

    ``read`` returns None where there is anything to be said of a card; ``before`` are the files by which it reads.
    """
    own: dict[int, ReadCard] = {}
    for at in sharing.turns(len(paths)):
        found = read(paths[at])
        if found is None:
            sharing.swap()
            return None
        own[at] = found
    half = pickled(own)
    sent = sharing.swap(pickled((paths, before)), half)
    if not sent or pickle.loads(sent[0]) != (paths, before):  # something was saved in between
        return None
    other = sent[1]
    cards = own | pickle.loads(other)
    return SharedCards(read=tuple(cards[at] for at in range(len(paths))), halves=tuple(sorted((half, other))))


def cards_of(halves: Iterable[bytes]) -> tuple[Component | Dish, ...]:
    """Return the cards of both parts, in the order of their files."""
    cards: dict[int, ReadCard] = {}
    for half in halves:
        cards |= pickle.loads(half)
    return tuple(cards[at][0] for at in sorted(cards))
