"""Allergens as facts: which substances there are, which lists name them, and what a name on a label may mean.

Knows no house, dish or sheet. Light to import: plain tables, nothing read from disk.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Final

from linebook.model.taxonomy.exemptions import EXEMPTIONS, Exemption
from linebook.model.taxonomy.lists import LISTS, Group, Jurisdiction
from linebook.model.taxonomy.substances import SUBSTANCES, Substance

__all__ = [
    "EXEMPTIONS",
    "LISTS",
    "SUBSTANCES",
    "Exemption",
    "Group",
    "Jurisdiction",
    "Substance",
    "covered_by",
    "find_substance",
    "known_words",
]


def _kinds() -> dict[str, frozenset[str]]:
    """Return every kind of each substance, at any depth."""
    found: dict[str, set[str]] = {id_: set() for id_ in SUBSTANCES}
    for id_ in SUBSTANCES:
        for general in _generals(id_):
            found[general].add(id_)
    return {id_: frozenset(kinds) for id_, kinds in found.items()}


def _generals(id_: str) -> frozenset[str]:
    """Return every more general name of a substance, at any depth."""
    found: set[str] = set()
    for general in SUBSTANCES[id_].kind_of:
        found |= {general} | _generals(general)
    return frozenset(found)


_KINDS: Final = _kinds()
_WORDS: Final[Mapping[str, str]] = {
    **{word.lower(): substance.id for substance in SUBSTANCES.values() for word in substance.synonyms},
    **{word.lower(): substance.id for substance in SUBSTANCES.values() for word in (substance.name, substance.id)},
}


def covered_by(members: Iterable[str]) -> tuple[str, ...]:
    """Return every substance whose presence must be declared for these members, in taxonomy order.

    These are the members, every kind of them, and every general name that may stand for one of them: a
    label that says *tree nuts* and no more counts as almond and as each other nut. Ids outside the
    taxonomy (a house's own avoidances) are kept and come last.
    """
    wanted = tuple(members)
    found: set[str] = set()
    for member in wanted:
        if member in SUBSTANCES:
            found |= {member} | _KINDS[member] | _generals(member)
    own = tuple(member for member in dict.fromkeys(wanted) if member not in SUBSTANCES)
    return tuple(id_ for id_ in SUBSTANCES if id_ in found) + own


def find_substance(word: str) -> Substance | None:
    """Return the substance with this id, printed name or synonym (letter case does not count), or None.

    A declaration must give the id; a name or synonym is for the hint that says which id was meant.
    """
    id_ = _WORDS.get(word.strip().lower())
    return None if id_ is None else SUBSTANCES[id_]


def known_words() -> tuple[str, ...]:
    """Return every id, name and synonym, for finding the nearest to a mistyped one."""
    return tuple(_WORDS)
