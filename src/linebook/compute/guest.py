"""What can be done for a guest: per dish, what to leave off or exchange so that nothing avoided is on the plate.

An element whose answer is not free must change, and no other. An alternative that is itself free is taken before the
element is left off; what touches the dish and is no element cannot change. Nothing here knows how strongly a guest
avoids a thing: a preference is judged as an allergy is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import Enum

from linebook.compute.answers import answer, items_of, media_of
from linebook.compute.avoidances import Avoidance, Examined
from linebook.compute.makeup import Makeup
from linebook.compute.results import Answer
from linebook.model.dish import Alternative, Dish, Element
from linebook.model.house import House
from linebook.source.frozen import frozen


class Action(Enum):
    """What to do with a dish for a guest."""

    SERVE = "serve"
    WITHOUT = "serve without"
    WITH = "serve with instead"
    REFUSE = "do not serve"
    CANNOT_SAY = "cannot say"


@frozen
class Reason:
    """Why a part of a dish is not free of one avoidance.

    ``items`` are the bought items (or the avoided component) that bring it and ``substances`` what of it: substances,
    origins or the avoided things themselves. ``media`` are shared media that bring what is not there without them.
    ``element`` is the element's item, None for what touches the dish; ``alternative`` is set where this is about the
    item that might have been served instead. ``also_may`` is true where it may be in it besides.
    """

    avoidance: Avoidance
    answer: Answer
    items: tuple[str, ...] = ()
    substances: tuple[str, ...] = ()
    media: tuple[str, ...] = ()
    element: str | None = None
    alternative: str | None = None
    also_may: bool = False


@frozen
class DishVerdict:
    """What to do with one dish.

    ``leave_off`` are items of elements in plating order, ``exchange`` pairs of an element's item and what comes
    instead; both are () unless the dish is served changed. ``nothing_left`` is true where leaving off would help and
    would leave the plate empty.
    """

    dish: str
    action: Action
    leave_off: tuple[str, ...] = ()
    exchange: tuple[tuple[str, str], ...] = ()
    reasons: tuple[Reason, ...] = ()
    nothing_left: bool = False


def judge(house: House, menu: str, avoidances: Sequence[Avoidance]) -> tuple[DishVerdict, ...]:
    """Return what to do with every dish of a menu, in menu order, for a guest with all of these avoidances."""
    examined = Examined(house, menu, avoidances)
    return tuple(judge_dish(examined, house.dishes[entry.dish]) for entry in house.menus[menu].dishes)


def judge_dish(examined: Examined, dish: Dish) -> DishVerdict:
    """Return what to do with one dish."""
    reasons = _touch_reasons(examined, dish)
    fixed = list(reasons)
    leave_off: list[str] = []
    exchange: list[tuple[str, str]] = []
    for item, elements in _by_item(dish).items():
        against = [reason for element in elements for reason in _reasons(examined, element, element.item)]
        if not against:
            continue
        reasons += against
        instead = [_first_free(examined, element, reasons) for element in elements]
        if all(other is not None or element.leave_off for other, element in zip(instead, elements, strict=True)):
            taken = dict.fromkeys(other.item for other in instead if other is not None)
            exchange += [(item, other) for other in taken]
            leave_off += [] if taken else [item]
        else:
            fixed += against
    if fixed:
        return DishVerdict(dish=dish.id, action=_stuck(fixed), reasons=_once(reasons))
    if len(leave_off) == len(_by_item(dish)):
        return DishVerdict(dish=dish.id, action=Action.REFUSE, reasons=_once(reasons), nothing_left=True)
    action = Action.WITH if exchange else Action.WITHOUT if leave_off else Action.SERVE
    return DishVerdict(
        dish=dish.id, action=action, leave_off=tuple(leave_off), exchange=tuple(exchange), reasons=_once(reasons)
    )


def _by_item(dish: Dish) -> dict[str, list[Element]]:
    """Return the elements by item: what is on a plate twice is left off or exchanged in both places."""
    found: dict[str, list[Element]] = {}
    for element in dish.elements:
        found.setdefault(element.item, []).append(element)
    return found


def _first_free(examined: Examined, element: Element, reasons: list[Reason]) -> Alternative | None:
    """Return the first alternative that is free of everything avoided; why the ones before it are not is noted."""
    for other in element.alternatives:
        against = _reasons(examined, other, element.item, alternative=other.item)
        if not against:
            return other
        reasons += against
    return None


def _stuck(reasons: Iterable[Reason]) -> Action:
    """A label that nobody has read may yet clear a dish; what is in it, or may be, will not go away."""
    known = any(reason.answer is not Answer.UNDECLARED or reason.also_may for reason in reasons)
    return Action.REFUSE if known else Action.CANNOT_SAY


def _touch_reasons(examined: Examined, dish: Dish) -> list[Reason]:
    found = (reason_for(one, examined.of_touches(one, dish)) for one in examined.avoidances)
    return [reason for reason in found if reason is not None]


def _reasons(
    examined: Examined, part: Element | Alternative, element: str, alternative: str | None = None
) -> list[Reason]:
    found = (
        reason_for(one, examined.of_element(one, part), element=element, alternative=alternative)
        for one in examined.avoidances
    )
    return [reason for reason in found if reason is not None]


def reason_for(
    avoidance: Avoidance, known: Makeup, *, element: str | None = None, alternative: str | None = None
) -> Reason | None:
    """Return what speaks against a part of a dish, None where it is free."""
    given = answer(known)
    if given is Answer.FREE:
        return None
    grounds = {Answer.CONTAINS: known.contains, Answer.UNDECLARED: known.undeclared, Answer.MAY: known.may}[given]
    return Reason(
        avoidance=avoidance,
        answer=given,
        items=items_of(grounds),
        substances=tuple(sorted({trace.substance for trace in grounds if trace.substance})),
        media=media_of(grounds),
        element=element,
        alternative=alternative,
        also_may=bool(known.may) and given is not Answer.MAY,
    )


def _once(reasons: Iterable[Reason]) -> tuple[Reason, ...]:
    return tuple(dict.fromkeys(reasons))
