"""The server's line-up sheet: what every dish of a menu is, how it is laid and set down, how long it takes, and what
it contains as a headline. It clears nobody: what can be left off is for the pass alone and stands nowhere here.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

from linebook.compute.calling import compute_call
from linebook.compute.results import AllergenTable
from linebook.documents.allergen_lines import dish_allergens
from linebook.documents.call_sheet import menu_dishes, span_text
from linebook.documents.parts import AllergenLine, Labelled, Member
from linebook.documents.second import course_name, dish_name, menu_name, menu_text, phrase
from linebook.documents.text import EMPTY, NO_BREAK, Piece, Text, each_language, in_two, joined, slanted, strong
from linebook.documents.wording import Wording
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT: Final = "line-up-sheet"


@frozen
class LineUpDish:
    """One dish as a server is told of it."""

    key: str
    """For data-key."""
    course: Text
    """The name of its course; empty where the menu has none of that name."""
    title: Text
    """The name of the dish."""
    call: Text
    """How long from call to pass, or that nobody says."""
    told: Text
    """How the menu words it, then what it is in plain words; may be empty."""
    facts: tuple[Labelled, ...]
    """What is laid for it, and that it is shared."""
    allergens: tuple[AllergenLine, ...]
    """Contains, may contain and undeclared, always all three."""


@frozen
class LineUpSheet:
    """All a line-up sheet shows."""

    id: str
    """The sheet's own id."""
    kicker: Text
    """Over the name: the menu and what sheet this is."""
    title: Text
    """The day."""
    aside: Text
    """That it is for this day alone."""
    headline: Text
    """That the allergen lines clear nobody, and whom to ask."""
    dishes: tuple[LineUpDish, ...]
    """The dishes of the menu, by course."""
    cautions: tuple[Member, ...]
    """What is not covered, and who decides."""


def line_up_sheet(house: House, menu: str, table: AllergenTable, day: date, wording: Wording) -> LineUpSheet:
    """Return the line-up sheet of a menu for one day."""
    writer = _LineUpWriter(house=house, table=table, wording=wording)
    say = wording.say
    named = (menu_name(house, menu), say(f"document.{DOCUMENT}"))
    return LineUpSheet(
        id=f"{DOCUMENT}:{menu}:{day.isoformat()}",
        kicker=joined(named, say("kicker.between")),
        title=say("line-up.title", day=wording.day(day)),
        aside=strong(say("only-for.day", day=wording.day(day))),
        headline=say("line-up.headline"),
        dishes=tuple(writer.dishes(menu)),
        cautions=(
            Member(key="covered", text=say("line-up.caution")),
            Member(key="lists", text=say("caution.allergens")),
        ),
    )


@frozen
class _LineUpWriter:
    house: House
    table: AllergenTable
    wording: Wording

    def dishes(self, menu: str) -> Iterator[LineUpDish]:
        """Yield the dishes that are served, by course and within it in menu order."""
        courses = {course.id: course for course in self.house.menus[menu].courses}
        for dish in menu_dishes(self.house, menu):
            course = courses.get(dish.course)
            yield self._dish(dish, course_name(self.house, course) if course else EMPTY)

    def _dish(self, dish: Dish, course: Text) -> LineUpDish:
        name = dish_name(self.house, dish.id)
        return LineUpDish(
            key=dish.id,
            course=course,
            title=name,
            call=self._call(dish),
            told=self._told(dish, name),
            facts=tuple(self._facts(dish)),
            allergens=dish_allergens(self.house, self.table, dish.id, self.wording).lines(),
        )

    def _told(self, dish: Dish, name: Text) -> Text:
        """Return the menu's words, unless they are the name, and the plain ones; nothing twice for a second language.

        The menu's words are what the guest has read: in a second language they stand only where they are translated.
        """
        said, plain = menu_text(self.house, dish), phrase(self.house, dish.plain)
        menu = slanted(said) if said.both.casefold() != name.both.casefold() else EMPTY
        told = joined((menu, plain), _kept_with_first(self.wording.say("kicker.between")))
        return in_two(told.first, plain.second) if menu.second is None and plain.second is not None else told

    def _call(self, dish: Dish) -> Text:
        """Return the time the spec gives for the whole, else what its longest strand takes."""
        minutes = dish.call.most if dish.call else compute_call(self.house, {dish.id: 1}).minutes
        if not minutes:
            return self.wording.say("line-up.call-unknown")
        return self.wording.say("line-up.call", time=span_text(minutes, self.wording))

    def _facts(self, dish: Dish) -> Iterator[Labelled]:
        if dish.cutlery:
            laid = self.wording.listed(phrase(self.house, one) for one in dish.cutlery)
            yield Labelled(key=f"{dish.id}.cutlery", label=self.wording.say("line-up.cutlery"), value=laid)
        if dish.shared:
            where = strong(self.wording.say("line-up.in-the-middle"))
            yield Labelled(key=f"{dish.id}.shared", label=self.wording.say("line-up.shared"), value=where)


def _kept_with_first(mark: Text) -> Text:
    """Return a mark between two phrases that no line begins with; in italics, as the first of them is."""
    return each_language(
        mark, lambda pieces: tuple(Piece(words=one.words.replace(" ", NO_BREAK, 1), italic=True) for one in pieces)
    )
