"""The allergen matrix of a menu: every dish against every column, for front of house. No cell is ever blank.

Marks come from computed findings. What a cell stands for (which nut, through which fryer, who has not declared) is
named below the table, dish by dish.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.compute.results import AllergenTable, Answer, Column, Finding
from linebook.documents.allergen_lines import column_text, possible_in, reason_text
from linebook.documents.naming import medium_name, names_of
from linebook.documents.parts import Member
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.taxonomy import LISTS
from linebook.source.frozen import frozen

DOCUMENT = "allergen-matrix"
_MARKS: Final = {
    Answer.CONTAINS: "contains",
    Answer.UNDECLARED: "undeclared",
    Answer.MAY: "may",
    Answer.FREE: "free",
}
_LEGEND: Final = ("contains", "may", "undeclared", "free")
_LEAVES: Final = ("contains-leave", "may-leave", "undeclared-leave")


@frozen
class MatrixCell:
    """One answer: a mark of the vocabulary, and how it is said aloud."""

    mark: str
    word: Text


@frozen
class MatrixRow:
    """One dish."""

    key: str
    name: Text
    cells: tuple[MatrixCell, ...]


@frozen
class MatrixCourse:
    """The dishes of one course, in menu order."""

    key: str
    title: Text
    rows: tuple[MatrixRow, ...]


@frozen
class MatrixNote:
    """What the marks of one dish stand for."""

    key: str
    name: Text
    note: Text


@frozen
class AllergenMatrix:
    """All the matrix shows."""

    id: str
    kicker: Text
    title: Text
    menu: Text
    lists: Text
    columns: tuple[Member, ...]
    courses: tuple[MatrixCourse, ...]
    legend: tuple[MatrixCell, ...]
    leaves: tuple[MatrixCell, ...]
    leaves_word: Text
    notes_title: Text
    notes: tuple[MatrixNote, ...]
    drinks: Text
    media: Text
    caution: Text

    @property
    def width(self) -> int:
        """Return how many columns the table has, the names included."""
        return 1 + len(self.columns)


def allergen_matrix(house: House, table: AllergenTable, wording: Wording) -> AllergenMatrix:
    """Return the matrix of the menu of ``table``."""
    menu = house.menus[table.menu]
    writer = _MatrixWriter(house=house, table=table, wording=wording)
    return AllergenMatrix(
        id=f"{DOCUMENT}:{menu.id}",
        kicker=wording.say("matrix.kicker"),
        title=wording.say("document.allergen-matrix"),
        menu=wording.say("matrix.menu", menu=menu.name, first=wording.full_day(menu.first)),
        lists=writer.lists(),
        columns=tuple(Member(key=f"column.{column.id}", text=writer.head(column)) for column in table.columns),
        courses=tuple(writer.courses()),
        legend=tuple(MatrixCell(mark=mark, word=wording.say(f"legend.{mark}")) for mark in _LEGEND),
        leaves=tuple(MatrixCell(mark=mark, word=wording.say(f"legend.{mark}")) for mark in _LEAVES),
        leaves_word=wording.say("legend.leave"),
        notes_title=wording.say("matrix.notes"),
        notes=tuple(writer.notes()),
        drinks=strong(wording.say("matrix.drinks")),
        media=writer.media(),
        caution=wording.say("matrix.caution"),
    )


@frozen
class _MatrixWriter:
    house: House
    table: AllergenTable
    wording: Wording

    def lists(self) -> Text:
        """Return which lists the columns follow."""
        policy = self.house.file.allergens
        titles = self.wording.listed_with_and(words(LISTS[code].title) for code in policy.lists)
        own = self.wording.listed(words(name) for name in policy.avoid.values())
        return self.wording.say("matrix.lists-and-own", lists=titles, own=own) if own else titles

    def head(self, column: Column) -> Text:
        """Return a column's head; it says where it is the house's own, or on some of the house's lists only."""
        if column.own:
            return self.wording.say("matrix.own", name=column.name)
        if column.lists:
            return self.wording.say(
                "matrix.of-lists", name=column.name, lists=self.wording.listed(map(words, column.lists))
            )
        return words(column.name)

    def courses(self) -> Iterator[MatrixCourse]:
        """Yield the courses that have dishes, in serving order; a dish of no listed course comes last."""
        dishes = [self.house.dishes[id_] for id_ in self.table.dishes]
        courses = self.house.menus[self.table.menu].courses
        known = {course.id for course in courses}
        for course in courses:
            rows = tuple(self._row(dish) for dish in dishes if dish.course == course.id)
            if rows:
                yield MatrixCourse(key=f"course.{course.id}", title=words(course.name), rows=rows)
        rest = tuple(self._row(dish) for dish in dishes if dish.course not in known)
        if rest:
            yield MatrixCourse(key="course.other", title=self.wording.say("matrix.other-course"), rows=rest)

    def notes(self) -> Iterator[MatrixNote]:
        """Yield what each dish's marks stand for, where a mark needs it."""
        for dish, findings in self.table.dishes.items():
            note = self._note(dish, [(column, findings[column.id]) for column in self.table.columns])
            if note:
                yield MatrixNote(key=f"note.{dish}", name=strong(words(self.house.dishes[dish].name)), note=note)

    def media(self) -> Text:
        """Return which shared media bring a contact to which dishes, or nothing where none does."""
        said = []
        for medium in self.house.file.media:
            dishes = [
                id_
                for id_, findings in self.table.dishes.items()
                if any(medium.id in (*finding.media, *finding.also_media) for finding in findings.values())
            ]
            if dishes:
                names = names_of(self.house, dishes, self.wording)
                name = medium_name(self.house, medium.id, self.wording)
                said.append(self.wording.say("matrix.medium", medium=name, dishes=names))
        return joined(said, self.wording.say("sentence.between"))

    def _row(self, dish: Dish) -> MatrixRow:
        findings = self.table.dishes[dish.id]
        cells = tuple(self._cell(column, findings[column.id]) for column in self.table.columns)
        return MatrixRow(key=f"dish.{dish.id}", name=words(dish.name), cells=cells)

    def _cell(self, column: Column, finding: Finding) -> MatrixCell:
        mark = _MARKS[finding.answer]
        word = self.wording.say(f"mark.{mark}", what=column_text(column, finding.substances, self.wording))
        if not finding.without:
            return MatrixCell(mark=mark, word=word)
        left = self.wording.say("mark.without", items=self._left_off(finding.without))
        return MatrixCell(mark=f"{mark}-leave", word=self.wording.listed((word, left)))

    def _note(self, dish: str, found: list[tuple[Column, Finding]]) -> Text:
        undeclared = names_of(self.house, self.table.undeclared.get(dish, ()), self.wording)
        without: dict[tuple[str, ...], list[Text]] = {}
        for column, finding in found:
            if finding.without:
                without.setdefault(finding.without, []).append(words(column.name))
        sentences = [
            self.wording.say("matrix.note.undeclared", items=undeclared) if undeclared else EMPTY,
            *self._named(found),
            *(
                self.wording.say(
                    "matrix.note.without",
                    items=self._left_off(items),
                    columns=self.wording.listed(columns),
                )
                for items, columns in without.items()
            ),
        ]
        return joined(sentences, self.wording.say("sentence.between"))

    def _left_off(self, items: tuple[str, ...]) -> Text:
        """Return what is left off, with *and*: one of several alone does not help."""
        return self.wording.listed_with_and(words(self.house.name_of(item)) for item in items)

    def _named(self, found: list[tuple[Column, Finding]]) -> Iterator[Text]:
        """Yield what is in it and what may be, what shared media bring in sentences of their own."""
        sure = [(column, finding) for column, finding in found if finding.answer is Answer.CONTAINS]
        yield from self._sentences("contains", sure)
        may = [(column, possible) for column, finding in found if (possible := possible_in(finding))]
        yield from self._sentences("may", may)

    def _sentences(self, key: str, found: list[tuple[Column, Finding]]) -> Iterator[Text]:
        by_media: dict[tuple[str, ...], list[Text]] = {}
        for column, finding in found:
            reason = reason_text(self.house, finding, self.wording) if finding.partly else EMPTY
            text = column_text(column, finding.substances, self.wording, reason)
            by_media.setdefault(() if finding.partly else finding.media, []).append(text)
        for media in sorted(by_media):
            what = self.wording.listed(by_media[media])
            names = self.wording.listed_with_and(words(medium_name(self.house, id_, self.wording)) for id_ in media)
            said = {"media": names} if media else {}
            yield self.wording.say(f"matrix.note.{key}-from" if media else f"matrix.note.{key}", what=what, **said)
