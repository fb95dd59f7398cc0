"""Which columns the matrix has: the groups of the house's lists, merged where equal, then its own avoidances.

Knows no dish and no answer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from linebook.compute.results import Column
from linebook.model.house import AllergenPolicy
from linebook.model.taxonomy import LISTS, Group, Jurisdiction, covered_by


def columns_for(policy: AllergenPolicy) -> tuple[Column, ...]:
    """Return the columns in print order: the first list's groups, what further lists add, the house's own.

    Groups of several lists become one column where they hold the same substances; the first list's wording stands,
    and where not every list has it, the column names those that do. Where two lists give one name to different groups
    (*tree nuts* of twelve and of eight), both stay and their names say whose they are. Codes of lists that do not
    exist are passed over.
    """
    lists = [LISTS[code] for code in dict.fromkeys(policy.lists) if code in LISTS]
    found: dict[tuple[str, ...], list[tuple[Jurisdiction, Group]]] = {}
    for list_ in lists:
        for group in list_.groups:
            found.setdefault(covered_by(group.members), []).append((list_, group))
    clashes = _repeated(same[0][1].id for same in found.values())
    regulated = [_group_column(same, substances, clashes, len(lists)) for substances, same in found.items()]
    return (*regulated, *_own_columns(policy, {column.id for column in regulated}))


def _repeated(ids: Iterable[str]) -> frozenset[str]:
    return frozenset(id_ for id_, times in Counter(ids).items() if times > 1)


def _group_column(
    same: Sequence[tuple[Jurisdiction, Group]], substances: tuple[str, ...], clashes: frozenset[str], lists: int
) -> Column:
    first, group = same[0]
    having = tuple(dict.fromkeys(list_.short for list_, _ in same))
    if group.id in clashes:
        return Column(id=f"{group.id}-{first.id}", name=f"{group.name} ({', '.join(having)})", substances=substances)
    return Column(id=group.id, name=group.name, substances=substances, lists=having if len(having) < lists else ())


def _own_columns(policy: AllergenPolicy, taken: set[str]) -> list[Column]:
    return [
        Column(id=f"{id_}-own" if id_ in taken else id_, name=name, substances=covered_by((id_,)), own=True)
        for id_, name in policy.avoid.items()
    ]
