"""Which columns the matrix has: the groups of the house's lists, merged where equal, then its own avoidances.

Knows no dish and no answer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from linebook.compute.results import Column
from linebook.model.house import AllergenPolicy
from linebook.model.taxonomy import LISTS, Group, Jurisdiction, covered_by


def columns_for(policy: AllergenPolicy) -> tuple[Column, ...]:
    """Return the columns in print order: the first list's groups, what further lists add, the house's own.

    Two lists' groups become one column where they hold the same substances; the first list's wording
    stands. Where two lists give one name to different groups (*tree nuts* of twelve and of eight), both
    stay and the list is named with them. Codes of lists that do not exist are passed over.
    """
    found: dict[tuple[str, ...], tuple[Jurisdiction, Group]] = {}
    for code in policy.lists:
        for group in LISTS[code].groups if code in LISTS else ():
            found.setdefault(covered_by(group.members), (LISTS[code], group))
    clashes = _repeated(group.id for _, group in found.values())
    regulated = [
        _group_column(list_, group, substances, group.id in clashes) for substances, (list_, group) in found.items()
    ]
    return (*regulated, *_own_columns(policy, {column.id for column in regulated}))


def _repeated(ids: Iterable[str]) -> frozenset[str]:
    return frozenset(id_ for id_, times in Counter(ids).items() if times > 1)


def _group_column(list_: Jurisdiction, group: Group, substances: tuple[str, ...], clashes: bool) -> Column:
    column = Column(id=group.id, name=group.name, substances=substances)
    if not clashes:
        return column
    return replace(column, id=f"{group.id}-{list_.id}", name=f"{group.name} ({list_.short})")


def _own_columns(policy: AllergenPolicy, taken: set[str]) -> list[Column]:
    return [
        Column(id=f"{id_}-own" if id_ in taken else id_, name=name, substances=covered_by((id_,)), own=True)
        for id_, name in policy.avoid.items()
    ]
