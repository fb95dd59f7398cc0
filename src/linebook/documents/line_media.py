"""The shared media of a line, as fryer and grill: what goes through each, whose it is, and what it still holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linebook.compute.kitchens import menus_since_oil
from linebook.compute.makeup import components_of
from linebook.documents.naming import medium_name, names_of
from linebook.documents.parts import Member
from linebook.documents.second import menu_name
from linebook.documents.text import Text
from linebook.documents.wording import Wording
from linebook.model.house import House, Medium
from linebook.model.menu import Menu
from linebook.source.frozen import frozen
from linebook.source.remembered import gathered


@frozen
class MediumLine:
    """A medium, as a fryer, and what goes through it."""

    key: str
    """Which medium it is; for data-key."""
    label: Text
    """What it is called."""
    members: tuple[Member, ...]
    """What goes through it from this line, what from others, what it still holds."""


@frozen
class LineMedia:
    """Says what goes through the media that a line uses on a menu."""

    house: House
    menu: Menu
    line: str
    wording: Wording

    def names(self) -> Text:
        """Return the names of those media; nothing where the line uses none."""
        media = (medium for medium, own, _ in self._used() if own)
        return self.wording.listed_with_and(medium_name(self.house, one.id, self.wording) for one in media)

    def facts(self) -> Iterator[MediumLine]:
        """Yield each medium of the line, and what goes through it on this menu."""
        say = self.wording.say
        before = menus_since_oil(self.house, self.menu)[:-1]
        for medium, own, others in self._used():
            if not own:
                continue
            said = {"own": say("line-allergens.own", items=names_of(self.house, own, self.wording))}
            if others:
                said["others"] = say("line-allergens.others", items=names_of(self.house, others, self.wording))
            if medium.carries:
                said["carries"] = say(
                    "line-allergens.carries", items=names_of(self.house, medium.carries, self.wording)
                )
            if medium.changed_between:
                said["changed-between"] = say("line-allergens.changed-between")
            elif before:
                menus = self.wording.listed_with_and(menu_name(self.house, menu.id) for menu in before)
                said["before"] = say("line-allergens.before", menus=menus)
            name = medium_name(self.house, medium.id, self.wording)
            members = (Member(key=f"medium.{medium.id}.{key}", text=text) for key, text in said.items())
            yield MediumLine(key=f"medium.{medium.id}", label=name, members=tuple(members))

    def _used(self) -> Iterator[tuple[Medium, list[str], list[str]]]:
        """Yield each medium with what goes through it from this line and from others, in the order of the menu."""
        through = _through(self.house, self.menu)
        for medium in self.house.file.media:
            items = through.get(medium.id, {})
            own = [item for item, line in items.items() if line == self.line]
            yield medium, own, [item for item in items if item not in own]


@gathered
def _through(house: House, menu: Menu) -> Mapping[str, Mapping[str, str]]:
    """Return what goes through each medium on a menu, with the line it is of."""
    through: dict[str, dict[str, str]] = {}
    for dish in (house.dishes[entry.dish] for entry in menu.dishes):
        for part in dish.ever_served:
            for medium_id in part.through:
                through.setdefault(medium_id, {}).setdefault(part.item, dish.line)
    for component in (house.components[id_] for id_ in components_of(house, menu)):
        for stage in component.stages:
            for medium_id in stage.through:
                through.setdefault(medium_id, {})[component.id] = component.line
    return through
