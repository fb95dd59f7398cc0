"""What may be left off or served instead helps some guest and leaves something on the plate.

LB212 (listed twice), LB406 (no help), LB407 (the element itself) and LB410 (nothing left).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.index import Index
from linebook.model.dish import Alternative, Element
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related

_MOST_NAMED: Final = 4


def check_alternatives(index: Index) -> Iterator[Fault]:
    """Yield a fault for an alternative that is the element itself or stands twice, a warning for one without help."""
    for dish in index.dishes.values():
        for element in dish.elements:
            if element.alternatives:
                yield from _repeated(element)
                for other in element.alternatives:
                    if other.item != element.item and not index.is_incomplete(dish.id):
                        yield from _no_help(index, element, other)


def check_nothing_left(index: Index) -> Iterator[Fault]:
    """Yield a fault for each leave-off of the one thing that is on a plate."""
    for dish in index.dishes.values():
        if len({element.item for element in dish.elements}) != 1 or index.is_incomplete(dish.id):
            continue
        for element in dish.elements:
            if element.leave_off:
                yield fault(
                    "LB410",
                    f"`{element.item}` is all that {dish.name} has on its plate, so it cannot be left off",
                    element.at("leave_off"),
                    hints=("delete `leave_off`, or name an `alternative` that is served instead",),
                )


def _repeated(element: Element) -> Iterator[Fault]:
    seen: dict[str, Alternative] = {}
    for other in element.alternatives:
        if other.item == element.item:
            yield fault(
                "LB407",
                f"the alternative to `{element.item}` is `{element.item}` itself",
                other.at("item"),
                hints=("name what is served to a guest who cannot have it, or delete `alternative`",),
                related=(Related(span=element.at("item"), label="the element"),),
            )
        elif other.item in seen:
            yield fault(
                "LB212",
                f"`{other.item}` stands twice among the alternatives to `{element.item}`",
                other.at("item"),
                hints=("take one of the two away",),
                related=(Related(span=seen[other.item].at("item"), label="first here"),),
            )
        seen.setdefault(other.item, other)


def _no_help(index: Index, element: Element, other: Alternative) -> Iterator[Fault]:
    """Yield the warning where the alternative brings everything that the element is avoided for."""
    brought, brought_too = _known(index, element.item), _known(index, other.item)
    names: dict[str, None] = {}
    for name, words in _avoided(index):
        if not brought.isdisjoint(words):
            if brought_too.isdisjoint(words):
                return
            names.setdefault(name)
    if names:
        listed = list(names)
        more = f" and {len(listed) - _MOST_NAMED} more" if len(listed) > _MOST_NAMED else ""
        why = ", ".join(listed[:_MOST_NAMED]) + more
        yield fault(
            "LB406",
            f"`{other.item}` brings all that `{element.item}` is avoided for ({why}), so it helps no guest",
            other.at("item"),
            hints=("name an alternative without one of them", "or delete this one"),
            related=(Related(span=element.at("item"), label="the element"),),
        )


def _known(index: Index, item: str) -> frozenset[str]:
    """Return the substances an item declares at any depth, and where all that is in it comes from."""
    from linebook.model.origins import origins_of  # here, because most houses name no alternative

    bought = [index.pantry[id_] for id_ in inside_of(index, item) if id_ in index.pantry]
    substances = {word for one in bought if one.allergens is not None for word in one.allergens.contains}
    origins = {word for one in bought for word in one.origin or ()} | origins_of(substances)
    return frozenset(substances) | {f"of {word}" for word in origins}


def _avoided(index: Index) -> Iterator[tuple[str, frozenset[str]]]:
    """Yield what guests avoid: groups of the house's lists, its own avoidances, and diets, with the words for each."""
    from linebook.model.taxonomy import LISTS, covered_by  # here, because most houses name no alternative

    if index.file is None:
        return
    policy = index.file.allergens
    for code in policy.lists:
        for group in LISTS[code].groups if code in LISTS else ():
            yield group.name, frozenset(covered_by(group.members))
    for id_, name in policy.avoid.items():
        yield name, frozenset((id_,))
    from linebook.model.diets import DIETS, Asks

    for diet in DIETS.values():
        if diet.asks is Asks.ORIGIN:
            yield diet.name, frozenset(f"of {word}" for word in diet.forbids)


def inside_of(index: Index, item: str) -> frozenset[str]:
    """Return an item with everything inside it at any depth, by-products with all that their makers are made of."""
    waiting, found = [item], set[str]()
    while waiting:
        id_ = waiting.pop()
        if id_ not in found:
            found.add(id_)
            waiting += index.inside.get(id_, ())
            waiting += [maker.id for maker, _ in index.by_products.get(id_, ())]
    return frozenset(found)
