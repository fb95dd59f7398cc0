"""Which sheets a line's binder holds, in working order: its dishes by course, then what it makes."""

from __future__ import annotations

from linebook.compute.makeup import components_of
from linebook.compute.totals import working_order
from linebook.documents import batch_card, cutting_plan, plating_guide, station_card
from linebook.documents.station_card import find_plate
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.frozen import frozen
from linebook.source.remembered import remembered


@frozen
class BinderEntry:
    """One sheet of a binder: which document, of which dish or component."""

    document: str
    subject: str

    @property
    def id(self) -> str:
        """Return the id of the sheet."""
        return f"{self.document}:{self.subject}"


@remembered
def binder_order(house: House, menu: str, line: str) -> tuple[BinderEntry, ...]:
    """Return the sheets of a line's binder for a menu, the cover left out."""
    entries: list[BinderEntry] = []
    for dish in dishes_of_line(house, menu, line):
        entries.append(BinderEntry(document=station_card.DOCUMENT, subject=dish.id))
        if find_plate(house, dish):
            entries.append(BinderEntry(document=plating_guide.DOCUMENT, subject=dish.id))
    for component in components_of_line(house, menu, line):
        entries.append(BinderEntry(document=batch_card.DOCUMENT, subject=component))
        if house.components[component].cut is not None:
            entries.append(BinderEntry(document=cutting_plan.DOCUMENT, subject=component))
    return tuple(entries)


def dishes_of_line(house: House, menu: str, line: str) -> tuple[Dish, ...]:
    """Return a line's dishes on a menu, by course and within it in menu order."""
    served = house.menus[menu]
    order = {course.id: at for at, course in enumerate(served.courses)}
    dishes = [house.dishes[entry.dish] for entry in served.dishes if house.dishes[entry.dish].line == line]
    return tuple(sorted(dishes, key=lambda dish: order.get(dish.course, len(order))))


def components_of_line(house: House, menu: str, line: str) -> tuple[str, ...]:
    """Return what a line makes for a menu, in the order in which it is started."""
    return tuple(component for component in _order(house, menu) if house.components[component].line == line)


@remembered
def _order(house: House, menu: str) -> tuple[str, ...]:
    return working_order(house, components_of(house, house.menus[menu]))
