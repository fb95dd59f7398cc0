"""In which order components are planned: whoever uses something before it.

Knows who is made from what; knows no amount and no moment.
"""

from __future__ import annotations

from collections.abc import Mapping

from linebook.model.house import House


def users_then_parts(house: House) -> tuple[str, ...]:
    """Return every component after all that are made from it, and users of a by-product after what leaves it.

    A card that uses both a component and what it leaves comes before it all the same. A component comes as soon after
    its users as can be.
    """
    users = _users(house)
    parts: dict[str, list[str]] = {id_: [] for id_ in users}
    for id_, its in users.items():
        for user in its:
            parts[user].append(id_)
    waiting = {id_: len(its) for id_, its in users.items()}
    ready = [id_ for id_ in reversed(tuple(users)) if not waiting[id_]]
    found: list[str] = []
    while ready:
        id_ = ready.pop()
        found.append(id_)
        for part in parts[id_]:
            waiting[part] -= 1
            if not waiting[part]:
                ready.append(part)
    return tuple(found)


def parts_of(house: House) -> dict[str, set[str]]:
    """Return for each component those that must be planned after it."""
    found: dict[str, set[str]] = {id_: set() for id_ in house.components}
    for id_, its in _users(house).items():
        for user in its:
            found[user].add(id_)
    return found


def _users(house: House) -> dict[str, set[str]]:
    """Return for each component those that must be planned before it."""
    users: dict[str, set[str]] = {id_: set() for id_ in house.components}
    for component in house.components.values():
        for line in component.ingredients:
            if line.item in users:
                users[line.item].add(component.id)
    for component in house.components.values():
        for line in component.ingredients:
            for maker, _ in house.by_products.get(line.item, ()):
                if not _reaches(users, maker.id, component.id):
                    users[component.id].add(maker.id)
    return users


def _reaches(users: Mapping[str, set[str]], start: str, target: str) -> bool:
    """Return whether going from a component to its users and on leads to a target."""
    seen, open_ = set[str](), [start]
    while open_:
        at = open_.pop()
        if at == target:
            return True
        if at not in seen:
            seen.add(at)
            open_.extend(users.get(at, ()))
    return False
