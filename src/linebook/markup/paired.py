"""Which item of an old sheet is which of the new one, where its key is another: a key is made of ids, which change.

Knows no wording.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final, TypeAlias

from linebook.markup.said import Said, SaidList, SaidRow, SaidText

PHOTO: Final = "photo"
_Named: TypeAlias = dict[tuple[Hashable, Hashable], list[str]]


def known_as(
    old: Mapping[str, Said], new: Mapping[str, Said], within: Callable[[str], Hashable] = lambda _: None
) -> Mapping[str, Said]:
    """Return the items of the old sheet, each under the key that the same one has in the new sheet.

    It is the same where it says the same, else where it has the same name, else where it is the steps under a heading
    that is called otherwise now, or that heading. ``within`` gives of a key what both must be a part of.
    """
    pairing = _Pairing(
        gone={key: said for key, said in old.items() if key not in new},
        come={key: said for key, said in new.items() if key not in old},
        within=within,
    )
    for known_by in (_words, _name, _texts, _label):
        pairing.pair(known_by)
    pairing.pair_titles()
    now = pairing.now
    if not now:
        return old
    return {
        now.get(key, key): replace(said, key=new[now[key]].key) if key in now else said for key, said in old.items()
    }


@dataclass(slots=True)
class _Pairing:
    """What is no longer there under its key, what is there now, and ``now``, which of them are the same, by key."""

    gone: Mapping[str, Said]
    come: Mapping[str, Said]
    within: Callable[[str], Hashable]
    now: dict[str, str] = field(default_factory=dict)

    def pair(self, known_by: Callable[[Said], Hashable]) -> None:
        """Pair what is known by the same, in order, where there are as many in both."""
        before, after = self._left(known_by)
        for name, keys in before.items():
            if len(keys) == len(after.get(name, ())):
                self.now |= dict(zip(keys, after[name], strict=True))

    def pair_titles(self) -> None:
        """Pair headings by what is paired under them."""
        called = {title_of(self.gone[key]): title_of(self.come[other]) for key, other in self.now.items()}
        before, after = self._left(title_of)
        for (place, name), keys in before.items():
            here = after.get((place, called.get(name)), [])
            if len(keys) == len(here):
                self.now |= dict(zip(keys, here, strict=True))

    def _left(self, known_by: Callable[[Said], Hashable]) -> tuple[_Named, _Named]:
        taken = {*self.now.values()}
        gone = ((key, said) for key, said in self.gone.items() if key not in self.now)
        come = ((key, said) for key, said in self.come.items() if key not in taken)
        return self._named(known_by, gone), self._named(known_by, come)

    def _named(self, known_by: Callable[[Said], Hashable], items: Iterable[tuple[str, Said]]) -> _Named:
        found: _Named = {}
        for key, said in items:
            name = known_by(said)
            if name is not None:
                found.setdefault((self.within(key), name), []).append(key)
        return found


def _words(said: Said) -> Hashable:
    return repr(replace(said, key=""))


def _name(said: Said) -> Hashable:
    """Return what a row or a fact is called; a photograph is one whatever it shows."""
    if isinstance(said, SaidRow):
        return ("row", said.name) if said.name and said.cells else None
    if isinstance(said, SaidText) and said.kind in ("fact", "figure"):
        name = PHOTO if said.kind == "figure" and said.label.startswith(PHOTO) else said.label
        return (said.kind, name) if name else None
    return None


def _texts(said: Said) -> Hashable:
    return (said.kind, said.texts) if isinstance(said, SaidList) and any(said.texts) else None


def _label(said: Said) -> Hashable:
    return (said.kind, said.label) if isinstance(said, SaidList) and said.label else None


def title_of(said: Said) -> Hashable:
    """Return the words of a heading, of the head of a group or over a list; None for anything else."""
    if isinstance(said, SaidRow):
        return said.name if said.name and not said.cells else None
    return said.label if isinstance(said, SaidList) or said.kind == "heading" else None
