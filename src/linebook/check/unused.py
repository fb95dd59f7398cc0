"""What is written and reached by nothing (LB205, LB215). Only told where no reference is broken: then it is certain."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.absent import absent_words
from linebook.check.index import Index
from linebook.check.shares import short_courses, unlisted_dishes
from linebook.source.codes import fault
from linebook.source.faults import Fault


def check_unused_components(index: Index) -> Iterator[Fault]:
    """Yield a warning for each component that no dish and no other component uses.

    What only an unused component uses is not told again. A by-product makes nothing: a component of which only
    the by-product is used is never made.
    """
    if not index.is_whole:
        return
    used = {reference.item for reference in index.references if reference.item != reference.user.id} | index.stands_in
    idle = [component for component in index.components.values() if component.id not in used]
    missed = {word for card in index.cards for word in absent_words(card)} if idle else set()
    for component in idle:
        if component.id in missed:  # what a card speaks of and does not list is told there
            continue
        by_products = [made.item for made in component.also_makes if made.item in used]
        if by_products:
            message = (
                f"nothing uses {component.name} itself, so it is never made and `{by_products[0]}` never left over"
            )
        else:
            message = f"no dish and no other component uses {component.name}"
        yield fault(
            "LB205",
            message,
            component.at("name"),
            hints=(f"add `item: {component.id}` to the card that needs it, or take the file out of the folder",),
        )


def check_unlisted_dishes(index: Index) -> Iterator[Fault]:
    """Yield a warning for each dish that no menu lists."""
    if not index.is_whole:
        return
    short = {course for menu in index.menus.values() for course in short_courses(index, menu)}
    for dish in unlisted_dishes(index):
        if dish.course not in short:  # the warning about the course's shares names it
            yield fault(
                "LB215",
                f"no menu lists {dish.name}",
                dish.at("name"),
                hints=(f"add `- {{dish: {dish.id}, share: ...}}` to a menu, or take the file out of the folder",),
            )
