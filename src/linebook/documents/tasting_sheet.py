"""The sheet of the tasting before service: a row a dish in the order of the menu, what it must taste of, room to write.

Works from the specs and one day alone: what a dish must taste of stands on its card and on those it is plated from.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby
from typing import Final

from linebook.compute.base import base_batch
from linebook.documents.braces import BinderBraces, PortionBraces
from linebook.documents.measures import Measures
from linebook.documents.method import MethodWriter, SayAmount
from linebook.documents.plan_words import clock
from linebook.documents.second import course_name, dish_name, item_name, line_name, menu_name, said_sections
from linebook.documents.tasting_time import BEFORE_DOORS, tasting_time
from linebook.documents.text import EMPTY, Text, joined, strong
from linebook.documents.wording import Wording
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT: Final = "tasting-sheet"
_TASTE: Final = "taste-for"


@frozen
class TastingRow:
    """One dish."""

    key: str
    """For data-key."""
    name: Text
    """The name of the dish."""
    line: Text
    """Its line."""
    taste: Text
    """What it must taste of; that its card does not say."""
    parts: Text
    """What its components must taste of; may be empty."""


@frozen
class TastingGroup:
    """One course."""

    key: str
    """For data-key."""
    title: Text
    """The course."""
    rows: tuple[TastingRow, ...]
    """Its dishes, in the order of the menu."""


@frozen
class TastingSheet:
    """All a tasting sheet shows."""

    id: str
    """The sheet's own id."""
    kicker: Text
    """Over the name: the menu and what sheet this is."""
    title: Text
    """The day."""
    aside: Text
    """That it is for this service alone."""
    when: Text
    """When it is tasted."""
    groups: tuple[TastingGroup, ...]
    """The dishes by course, in the order of the menu."""


def tasting_sheet(house: House, menu: str, day: date, wording: Wording) -> TastingSheet:
    """Return the tasting sheet of a menu for a day's service."""
    writer = _TastingWriter(house=house, wording=wording)
    return TastingSheet(
        id=f"{DOCUMENT}:{menu}:{day.isoformat()}",
        kicker=joined((menu_name(house, menu), wording.say(f"document.{DOCUMENT}")), wording.say("kicker.between")),
        title=wording.day(day),
        aside=strong(wording.say("tasting.only-for", day=wording.day(day))),
        when=writer.when(day),
        groups=tuple(writer.groups(menu)),
    )


@frozen
class _TastingWriter:
    house: House
    wording: Wording

    @property
    def measures(self) -> Measures:
        return Measures(house=self.house.file, wording=self.wording)

    def when(self, day: date) -> Text:
        """Return the time of the tasting, a quarter of an hour before the doors."""
        at = tasting_time(self.house, day)
        if at is None:
            return self.wording.say("tasting.when-open")
        return self.wording.say("tasting.when", time=clock(at), doors=clock(at + BEFORE_DOORS))

    def groups(self, menu: str) -> Iterator[TastingGroup]:
        """Yield the courses as the menu has them; a dish listed in several sizes or courses is tasted once."""
        served = self.house.menus[menu]
        dishes = [self.house.dishes[id_] for id_ in dict.fromkeys(entry.dish for entry in served.dishes)]
        names = {course.id: course_name(self.house, course) for course in served.courses}
        for course, found in groupby(dishes, key=lambda dish: dish.course):
            rows = tuple(self._row(dish) for dish in found)
            yield TastingGroup(key=f"{course}.{rows[0].key}", title=names.get(course, EMPTY), rows=rows)

    def _row(self, dish: Dish) -> TastingRow:
        own = self._taste(dish, PortionBraces(dish=dish, measures=self.measures).say)
        items = dict.fromkeys(element.item for element in dish.elements)
        parts = [self._part(self.house.components[item]) for item in items if item in self.house.components]
        return TastingRow(
            key=f"dish.{dish.id}",
            name=strong(dish_name(self.house, dish.id)),
            line=line_name(self.house, dish.line),
            taste=own or self.wording.say("tasting.open"),
            parts=joined(parts, " "),
        )

    def _part(self, component: Component) -> Text:
        batch = base_batch(self.house, component.id)
        taste = self._taste(component, BinderBraces(house=self.house, batch=batch, wording=self.wording).say)
        if not taste:
            return EMPTY
        return self.wording.say("tasting.part", item=item_name(self.house, component.id), taste=taste)

    def _taste(self, card: Dish | Component, say_amount: SayAmount) -> Text:
        """Return all that a card says of its taste, in one paragraph; empty where it does not."""
        said = next((one for one in said_sections(self.house, card) if one.own.key == _TASTE), None)
        if said is None:
            return EMPTY
        method = MethodWriter(say_amount=say_amount, measures=self.measures)
        passages = method.passages(said)
        return joined([member.text for passage in passages for member in passage.items], " ")
