"""What a menu change means for the shared media: the oil is changed, or what earlier menus left in it still counts.

Says what is left by substance. Judges no dish.
"""

from __future__ import annotations

from dataclasses import replace

from linebook.compute.kitchens import Kind, Kitchens, menus_since_oil
from linebook.model.house import House
from linebook.model.taxonomy import SUBSTANCES
from linebook.source.frozen import frozen


@frozen
class OilState:
    """One medium that food of a menu goes through and that is not changed between uses.

    ``menus`` are the earlier ones that are still in it, () where the oil is changed; ``left`` are the ids of substances
    only they brought, and ``undeclared`` the bought items of which nobody knows.
    """

    medium: str
    menus: tuple[str, ...]
    left: tuple[str, ...] = ()
    undeclared: tuple[str, ...] = ()


def oil_states(house: House, menu: str) -> tuple[OilState, ...]:
    """Return the state of each such medium for a menu, in the order of the house."""
    own = house.menus[menu]
    fresh = replace(house, menus={**house.menus, menu: replace(own, oil_changed=True)})
    before = tuple(one.id for one in menus_since_oil(house, own)[:-1])
    alone, held = (Kitchens(one, menu).of(Kind.SUBSTANCES).pools for one in (fresh, house))
    order = {id_: at for at, id_ in enumerate((*SUBSTANCES, *house.file.allergens.avoid))}
    found = []
    for medium in house.file.media:
        if medium.changed_between or medium.id not in alone:
            continue
        new, all_ = alone[medium.id], held[medium.id]
        brought = {trace.substance for trace in new.contains | new.may}
        left = {trace.substance for trace in all_.contains | all_.may} - brought
        unknown = {trace.item for trace in all_.undeclared} - {trace.item for trace in new.undeclared}
        state = OilState(
            medium=medium.id,
            menus=before,
            left=tuple(sorted(left, key=lambda one: (order.get(one, len(order)), one))),
            undeclared=tuple(sorted(unknown)),
        )
        found.append(state)
    return tuple(found)
