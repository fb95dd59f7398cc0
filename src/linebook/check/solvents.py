"""What an item is dissolved in is a pantry item (LB201), and counts as touching every card that the item is on.

It may go into the food whenever a night needs too little of the item to weigh, so its allergens are on the card always.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from linebook.check.index import Index
from linebook.check.words import meant
from linebook.model.component import Component
from linebook.model.pantry import PantryItem
from linebook.read.house_folder import PANTRY_ID
from linebook.source.codes import fault
from linebook.source.faults import Fault

_HARMLESS = ("plant", "mineral")


def check_solvents(index: Index) -> Iterator[Fault]:
    """Yield a fault for each item that is to be dissolved in what is no other pantry item."""
    for item in index.pantry.values():
        solvent = item.dilute_in
        if solvent is None or (solvent in index.pantry and solvent != item.id) or index.is_broken(solvent):
            continue
        if index.is_incomplete(PANTRY_ID):
            continue  # the id may be the one that was lost
        span = item.at("dilute_in")
        if solvent == item.id or solvent in index.components or solvent in index.by_products:
            mend = "name a bought item that it dissolves in, such as `water`"
            yield fault("LB201", f"`{item.id}` cannot be dissolved in `{solvent}`", span, hints=(mend,))
        else:
            mend = meant(solvent, [id_ for id_ in index.pantry if id_ != item.id], "add it to a pantry file")
            yield fault("LB201", f"no pantry item has the id `{solvent}`", span, hints=(mend,))


def with_solvents(components: Mapping[str, Component], pantry: Mapping[str, PantryItem]) -> Mapping[str, Component]:
    """Return the components touched by what their items dissolve in, where that brings an allergen or is of animals."""
    solvents = {}
    for item in pantry.values():
        solvent = pantry.get(item.dilute_in or "")
        if solvent is not None and not item.weigh_exactly and not _is_harmless(solvent):
            solvents[item.id] = solvent.id
    if not solvents:
        return components
    return MappingProxyType({id_: _touched(component, solvents) for id_, component in components.items()})


def _touched(component: Component, solvents: Mapping[str, str]) -> Component:
    named = {line.item for line in component.ingredients}
    known = {*named, *component.also_touches, *component.adjust_with}
    more = dict.fromkeys(solvents[item] for item in named if item in solvents and solvents[item] not in known)
    return replace(component, also_touches=(*component.also_touches, *more)) if more else component


def _is_harmless(item: PantryItem) -> bool:
    declared = item.allergens
    if declared is None or declared.contains or declared.may_contain:
        return False
    return item.origin is None or all(origin in _HARMLESS for origin in item.origin)
