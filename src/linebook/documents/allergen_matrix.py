"""The allergen matrix of a menu: every dish against every column, for front of house. No cell is ever blank.

Marks come from computed findings. What a cell stands for (which nut, through which fryer, who has not declared) is
named below the table, dish by dish.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

from linebook.compute.results import AllergenTable, Answer, Column, Finding
from linebook.documents.allergen_changes import and_names, exchange_of, exchange_text
from linebook.documents.allergen_names import column_name, column_text, list_short, list_title
from linebook.documents.matrix_notes import MatrixNote, NoteWriter
from linebook.documents.parts import Member
from linebook.documents.second import avoidance_name, course_name, item_name, menu_name
from linebook.documents.text import Text, joined, strong
from linebook.documents.wording import Wording
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT = "allergen-matrix"
_MARKS: Final = {
    Answer.CONTAINS: "contains",
    Answer.UNDECLARED: "undeclared",
    Answer.MAY: "may",
    Answer.FREE: "free",
}
LEGEND: Final = ("contains", "may", "undeclared", "free")
LEAVES: Final = ("contains-leave", "may-leave", "undeclared-leave")


@frozen
class MatrixCell:
    """One answer: a mark of the vocabulary, and how it is said aloud."""

    mark: str
    """The mark, a class of span."""
    word: Text
    """What it stands for, in words."""


@frozen
class MatrixRow:
    """One dish."""

    key: str
    """For data-key."""
    name: Text
    """The dish."""
    cells: tuple[MatrixCell, ...]
    """Its answer in each column; none is left out."""


@frozen
class MatrixCourse:
    """The dishes of one course, in menu order."""

    key: str
    """For data-key."""
    title: Text
    """The course."""
    rows: tuple[MatrixRow, ...]
    """Its dishes in menu order."""


@frozen
class AllergenMatrix:
    """All the matrix shows."""

    id: str
    """The sheet's own id."""
    kicker: Text
    """Over the name: who it is for."""
    title: Text
    """Its name."""
    menu: Text
    """The menu and its first day."""
    lists: Text
    """Which lists the columns follow."""
    columns: tuple[Member, ...]
    """The allergens."""
    courses: tuple[MatrixCourse, ...]
    """The dishes by course."""
    legend: tuple[MatrixCell, ...]
    """Each mark once, with its words."""
    leaves: tuple[MatrixCell, ...]
    """The marks with a cut corner."""
    leaves_word: Text
    """What a cut corner means."""
    notes_title: Text
    """The heading over the notes."""
    notes: tuple[MatrixNote, ...]
    """What each dish's marks stand for."""
    drinks: Text
    """That drinks are not on it, and what to do for a guest who avoids several things."""
    about: tuple[Member, ...]
    """What holds for all of it: shared media, old oil, columns that are no allergens, the age of declarations."""
    caution: Text
    """That the kitchen handles all of it, and who decides."""

    @property
    def width(self) -> int:
        """Return how many columns the table has, the names included."""
        return 1 + len(self.columns)


def allergen_matrix(
    house: House, table: AllergenTable, wording: Wording, also: AllergenTable | None = None, on: date | None = None
) -> AllergenMatrix:
    """Return the matrix of the menu of ``table``. ``also`` has the columns that are no allergens.

    ``on`` is the day for which ``table`` says which declarations are too old.
    """
    menu = house.menus[table.menu]
    writer = _MatrixWriter(house=house, table=table, also=also, wording=wording)
    notes = NoteWriter(house=house, table=table, also=also, wording=wording)
    return AllergenMatrix(
        id=f"{DOCUMENT}:{menu.id}",
        kicker=wording.say("matrix.kicker"),
        title=wording.say("document.allergen-matrix"),
        menu=wording.say("matrix.menu", menu=menu_name(house, menu.id), first=wording.full_day(menu.first)),
        lists=writer.lists(),
        columns=tuple(Member(key=f"column.{column.id}", text=writer.head(column)) for column in writer.columns),
        courses=tuple(writer.courses()),
        legend=tuple(MatrixCell(mark=mark, word=wording.say(f"legend.{mark}")) for mark in LEGEND),
        leaves=tuple(MatrixCell(mark=mark, word=wording.say(f"legend.{mark}")) for mark in LEAVES),
        leaves_word=wording.say("legend.leave"),
        notes_title=wording.say("matrix.notes"),
        notes=tuple(notes.notes()),
        drinks=strong(
            joined((wording.say("matrix.several"), wording.say("matrix.drinks")), wording.say("sentence.between"))
        ),
        about=tuple(notes.about(on)),
        caution=wording.say("matrix.caution"),
    )


def matrix_cell(house: House, column: Column, finding: Finding, wording: Wording) -> MatrixCell:
    """Return one answer as a mark, its corner cut where something can be done, and how it is said aloud."""
    mark = _MARKS[finding.answer]
    word = wording.say(f"mark.{mark}", what=column_text(column, finding.substances, wording, house=house))
    said = []
    if exchange := exchange_of(finding):
        said.append(exchange_text(house, "mark.with", exchange, wording))
    if finding.without:
        said.append(wording.say("mark.without", items=and_names(house, finding.without, wording)))
    return (
        MatrixCell(mark=f"{mark}-leave", word=wording.listed((word, *said)))
        if said
        else MatrixCell(mark=mark, word=word)
    )


def column_head(house: House, column: Column, wording: Wording) -> Text:
    """Return a column's head; it says where it is the house's own, or on some of the house's lists only."""
    name = column_name(column, wording, house)
    if column.own:
        return wording.say("matrix.own", name=name)
    if column.lists:
        lists = wording.listed(list_short(short, wording) for short in column.lists)
        return wording.say("matrix.of-lists", name=name, lists=lists)
    return name


@frozen
class _MatrixWriter:
    house: House
    table: AllergenTable
    also: AllergenTable | None
    wording: Wording

    @property
    def columns(self) -> tuple[Column, ...]:
        """Return every column, those of the allergens first."""
        return (*self.table.columns, *(self.also.columns if self.also else ()))

    def lists(self) -> Text:
        """Return which lists the columns follow."""
        policy = self.house.file.allergens
        titles = self.wording.listed_with_and(list_title(code, self.wording) for code in policy.lists)
        own = self.wording.listed(avoidance_name(self.house, id_, name) for id_, name in policy.avoid.items())
        return self.wording.say("matrix.lists-and-own", lists=titles, own=own) if own else titles

    def head(self, column: Column) -> Text:
        """Return the head of a column."""
        return column_head(self.house, column, self.wording)

    def courses(self) -> Iterator[MatrixCourse]:
        """Yield the courses that have dishes, in serving order; a dish of no listed course comes last."""
        dishes = [self.house.dishes[id_] for id_ in self.table.dishes]
        courses = self.house.menus[self.table.menu].courses
        known = {course.id for course in courses}
        for course in courses:
            rows = tuple(self._row(dish) for dish in dishes if dish.course == course.id)
            if rows:
                yield MatrixCourse(key=f"course.{course.id}", title=course_name(self.house, course), rows=rows)
        rest = tuple(self._row(dish) for dish in dishes if dish.course not in known)
        if rest:
            yield MatrixCourse(key="course.other", title=self.wording.say("matrix.other-course"), rows=rest)

    def _row(self, dish: Dish) -> MatrixRow:
        findings = {**self.table.dishes[dish.id], **(self.also.dishes[dish.id] if self.also else {})}
        cells = tuple(matrix_cell(self.house, column, findings[column.id], self.wording) for column in self.columns)
        return MatrixRow(key=f"dish.{dish.id}", name=item_name(self.house, dish.id), cells=cells)
