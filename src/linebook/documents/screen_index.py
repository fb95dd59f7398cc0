"""The first page of a house on a screen: each dish and component by course, by line and by name.

Owns what stands where; a key ``sheet:…`` names the sheet that the words lead to.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence

from linebook.documents import batch_card, cutting_plan, line_cover, plating_guide, station_card
from linebook.documents.binder_order import binder_order
from linebook.documents.parts import Member
from linebook.documents.second import course_name, item_name, line_name, menu_name
from linebook.documents.text import EMPTY, Text, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT = "screen-index"
SHEET = "sheet:"


@frozen
class IndexEntry:
    """One dish or component: its sheets, the one that its name leads to first."""

    key: str
    """For data-key."""
    name: Member
    """Its name; its key leads to the first sheet."""
    more: tuple[Member, ...]
    """Its other sheets, each key leading to one."""


@frozen
class IndexGroup:
    """The entries under one heading, which may be empty; ``sheet`` is the key of what it leads to, or empty."""

    key: str
    """For data-key."""
    title: Text
    """The heading."""
    sheet: str
    """What leads to a sheet of the whole group, as its cover; may be empty."""
    entries: tuple[IndexEntry, ...]
    """What stands under it."""


@frozen
class ScreenIndex:
    """All that the first page shows."""

    id: str
    """The sheet's own id."""
    kicker: Text
    """Over the name: the house."""
    title: Text
    """What this is."""
    menu: Text
    """The menu and its dates."""
    courses: tuple[IndexGroup, ...]
    """The dishes by course."""
    lines: tuple[IndexGroup, ...]
    """What each line makes."""
    alphabetical: tuple[IndexGroup, ...]
    """Everything by name."""


def screen_index(house: House, menu_id: str, lines: Sequence[str], wording: Wording) -> ScreenIndex:
    """Return the index of what these lines have on a menu."""
    menu = house.menus[menu_id]
    writer = _IndexWriter(house=house, menu=menu_id, lines=tuple(lines), wording=wording)
    return ScreenIndex(
        id=DOCUMENT,
        kicker=words(house.file.name),
        title=wording.say(f"document.{DOCUMENT}"),
        menu=wording.say("matrix.menu", menu=menu_name(house, menu_id), first=wording.full_day(menu.first)),
        courses=tuple(writer.courses()),
        lines=tuple(writer.by_line()),
        alphabetical=(writer.alphabetical(),),
    )


@frozen
class _IndexWriter:
    house: House
    menu: str
    lines: tuple[str, ...]
    wording: Wording

    def courses(self) -> Iterator[IndexGroup]:
        """Yield the courses that have dishes, in serving order; a dish of no listed course comes last."""
        menu = self.house.menus[self.menu]
        served = [self.house.dishes[entry.dish] for entry in menu.dishes]
        dishes = [dish for dish in served if dish.line in self.lines]
        titles = {course.id: course_name(self.house, course) for course in menu.courses}
        for course in (*titles, ""):
            found = [dish.id for dish in dishes if (dish.course if dish.course in titles else "") == course]
            if found:
                yield IndexGroup(
                    key=f"course.{course or 'other'}",
                    title=titles.get(course) or self.wording.say("matrix.other-course"),
                    sheet="",
                    entries=tuple(self._entry("course", dish) for dish in found),
                )

    def by_line(self) -> Iterator[IndexGroup]:
        """Yield the lines, each with what its binder holds, in working order."""
        for line in self.lines:
            yield IndexGroup(
                key=f"line.{line}",
                title=self.wording.say("screen.line-card", line=line_name(self.house, line)),
                sheet=f"{SHEET}{line_cover.DOCUMENT}:{line}",
                entries=tuple(self._entry("line", subject) for subject in self._subjects(line)),
            )

    def alphabetical(self) -> IndexGroup:
        """Return everything by its name, whatever its accents and capitals, under no heading of its own."""
        subjects = [subject for line in self.lines for subject in self._subjects(line)]
        subjects.sort(key=lambda subject: (_plain_letters(item_name(self.house, subject).plain), subject))
        entries = tuple(self._entry("a-z", subject) for subject in subjects)
        return IndexGroup(key="a-z", title=EMPTY, sheet="", entries=entries)

    def _subjects(self, line: str) -> list[str]:
        return list(dict.fromkeys(entry.subject for entry in binder_order(self.house, self.menu, line)))

    def _entry(self, group: str, subject: str) -> IndexEntry:
        name = item_name(self.house, subject)
        is_dish = subject in self.house.dishes
        document = station_card.DOCUMENT if is_dish else batch_card.DOCUMENT
        return IndexEntry(
            key=f"{group}.{subject}",
            name=Member(key=f"{SHEET}{document}:{subject}", text=name),
            more=self._guide(subject) if is_dish else self._plan(subject),
        )

    def _guide(self, dish: str) -> tuple[Member, ...]:
        if station_card.find_plate(self.house, self.house.dishes[dish]) is None:
            return ()
        name = self.wording.say(f"document.{plating_guide.DOCUMENT}")
        return (Member(key=f"{SHEET}{plating_guide.DOCUMENT}:{dish}", text=name),)

    def _plan(self, component: str) -> tuple[Member, ...]:
        if self.house.components[component].cut is None:
            return ()
        name = self.wording.say(f"document.{cutting_plan.DOCUMENT}")
        return (Member(key=f"{SHEET}{cutting_plan.DOCUMENT}:{component}", text=name),)


def _plain_letters(name: str) -> str:
    letters = unicodedata.normalize("NFKD", name)
    return "".join(letter for letter in letters if not unicodedata.combining(letter)).casefold()
