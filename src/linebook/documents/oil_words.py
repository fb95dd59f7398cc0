"""What a menu change means for the oil, in words: it is changed, or what earlier menus left in it still counts."""

from __future__ import annotations

from linebook.compute.oil import OilState, oil_states
from linebook.documents.allergen_names import substance_name
from linebook.documents.naming import medium_name, names_of
from linebook.documents.second import avoidance_name, menu_name
from linebook.documents.text import Text
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.taxonomy import SUBSTANCES


def oil_texts(house: House, menu: str, wording: Wording) -> tuple[Text, ...]:
    """Return a sentence for each medium that a menu's food shares and that is not changed between uses."""
    return tuple(_said(house, state, wording) for state in oil_states(house, menu))


def _said(house: House, state: OilState, wording: Wording) -> Text:
    medium = medium_name(house, state.medium, wording)
    if not state.menus:
        return wording.say("swap.oil.changed", medium=medium)
    menus = wording.listed_with_and(menu_name(house, one) for one in state.menus)
    left = [_substance(house, one, wording) for one in state.left]
    if state.undeclared:
        left.append(wording.say("swap.oil.undeclared", items=names_of(house, state.undeclared, wording)))
    if not left:
        return wording.say("swap.oil.kept-nothing", medium=medium, menus=menus)
    return wording.say("swap.oil.kept", medium=medium, menus=menus, what=wording.named(left))


def _substance(house: House, id_: str, wording: Wording) -> Text:
    own = house.file.allergens.avoid
    return avoidance_name(house, id_, own[id_]) if id_ in own else substance_name(SUBSTANCES[id_].name, wording)
