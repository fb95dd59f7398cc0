"""What stands under the allergen matrix: what the marks of each dish stand for, and what holds for all of them.

Which nut, through which fryer, who has not declared, what to leave off or exchange, and how old the word for it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from linebook.compute.ages import oldest
from linebook.compute.inside import items_of_dish, items_of_menu
from linebook.compute.kitchens import menus_since_oil
from linebook.compute.results import AllergenTable, Answer, Column, Finding
from linebook.documents.allergen_changes import brought, brought_text, change_notes, possible_in, reason_text
from linebook.documents.allergen_names import column_name, column_text, substance_name
from linebook.documents.measures import duration_text
from linebook.documents.naming import medium_name, names_of
from linebook.documents.parts import Member
from linebook.documents.second import item_name, menu_name
from linebook.documents.text import EMPTY, Text, joined, strong
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.taxonomy import SUBSTANCES
from linebook.source.frozen import frozen

_MOST_NAMED: Final = 5
"""Items of which nobody has said the origin: where there are more, a list helps nobody at a table."""


@frozen
class MatrixNote:
    """What the marks of one dish stand for."""

    key: str
    """For data-key."""
    name: Text
    """The dish."""
    note: Text
    """Which nut, which cereal, through which fryer, who has not declared, what can be done."""


@frozen
class NoteWriter:
    """Writes the notes of one menu. ``also`` are the answers of the columns that are no allergens."""

    house: House
    table: AllergenTable
    also: AllergenTable | None
    wording: Wording

    def notes(self) -> Iterator[MatrixNote]:
        """Yield what each dish's marks stand for, where a mark needs it."""
        for dish in self.table.dishes:
            if note := self._note(dish):
                yield MatrixNote(key=f"note.{dish}", name=strong(item_name(self.house, dish)), note=note)

    def about(self, on: date | None) -> Iterator[Member]:
        """Yield what holds for the whole sheet; ``on`` is the day of print."""
        said = (
            ("media", self._media()),
            ("oil", self._oil()),
            ("also", self._also()),
            ("exempt", self._exempt()),
            ("oldest", self._oldest()),
            ("aged", self._aged(on)),
        )
        for key, text in said:
            if text:
                yield Member(key=key, text=text)

    def _note(self, dish: str) -> Text:
        findings = self.table.dishes[dish]
        found = [(column, findings[column.id]) for column in self.table.columns]
        undeclared = names_of(self.house, self.table.undeclared.get(dish, ()), self.wording)
        asked = self._asked(dish)
        sentences = [
            self.wording.say("matrix.note.undeclared", items=undeclared) if undeclared else EMPTY,
            *self._named(found),
            *self._named(asked),
            self._not_told(dish),
            *change_notes(self.house, [*found, *asked], self.wording),
            *self._brought(dish),
            self._old(dish),
        ]
        return joined(sentences, self.wording.say("sentence.between"))

    def _asked(self, dish: str) -> list[tuple[Column, Finding]]:
        """Return the answers of the columns that are no allergens."""
        if self.also is None:
            return []
        return [(column, self.also.dishes[dish][column.id]) for column in self.also.columns]

    def _not_told(self, dish: str) -> Text:
        items = self.also.undeclared.get(dish, ()) if self.also else ()
        if len(items) > _MOST_NAMED:
            return self.wording.say("matrix.note.not-told-of", count=len(items))
        names = names_of(self.house, items, self.wording)
        return self.wording.say("matrix.note.not-told", items=names) if names else EMPTY

    def _brought(self, dish: str) -> Iterator[Text]:
        """Yield what each alternative brings itself: what helps one guest may harm another."""
        beside = {(part.item, part.instead_of): part for part in self.also.parts.get(dish, ())} if self.also else {}
        seen = set()
        for part in self.table.parts.get(dish, ()):
            if part.instead_of and part.item not in seen:
                seen.add(part.item)
                what = [*brought(self.house, self.table.columns, part, self.wording)]
                other = beside.get((part.item, part.instead_of))
                if other and self.also:
                    what += brought(self.house, self.also.columns, other, self.wording, "brings.no-answer")
                name = item_name(self.house, part.item)
                yield self.wording.say("matrix.note.brings", item=name, what=brought_text(what, self.wording))

    def _named(self, found: Sequence[tuple[Column, Finding]]) -> Iterator[Text]:
        """Yield what is in it and what may be, what shared media bring in sentences of their own."""
        sure = [(column, finding) for column, finding in found if finding.answer is Answer.CONTAINS]
        yield from self._sentences("contains", sure)
        may = [(column, possible) for column, finding in found if (possible := possible_in(finding))]
        yield from self._sentences("may", may)

    def _sentences(self, key: str, found: list[tuple[Column, Finding]]) -> Iterator[Text]:
        by_media: dict[tuple[str, ...], list[Text]] = {}
        for column, finding in found:
            reason = reason_text(self.house, finding, self.wording) if finding.partly else EMPTY
            text = column_text(column, finding.substances, self.wording, reason, house=self.house)
            by_media.setdefault(() if finding.partly else finding.media, []).append(text)
        for media in sorted(by_media):
            what = self.wording.listed(by_media[media])
            names = self.wording.listed_with_and(medium_name(self.house, id_, self.wording) for id_ in media)
            said = {"media": names} if media else {}
            yield self.wording.say(f"matrix.note.{key}-from" if media else f"matrix.note.{key}", what=what, **said)

    def _media(self) -> Text:
        """Return which shared media bring a contact to which dishes, or nothing where none does."""
        said = []
        for medium in self.house.file.media:
            dishes = [id_ for id_, findings in self.table.dishes.items() if _comes_through(medium.id, findings)]
            if dishes:
                names = names_of(self.house, dishes, self.wording)
                name = medium_name(self.house, medium.id, self.wording)
                said.append(self.wording.say("matrix.medium", medium=name, dishes=names))
        return joined(said, self.wording.say("sentence.between"))

    def _oil(self) -> Text:
        """Return from which menus before the shared media may still hold something."""
        *before, _ = menus_since_oil(self.house, self.house.menus[self.table.menu])
        kept = [medium for medium in self.house.file.media if not medium.changed_between]
        held = [one for one in kept if any(_comes_through(one.id, row) for row in self.table.dishes.values())]
        if not before or not held:
            return EMPTY
        menus = self.wording.listed_with_and(menu_name(self.house, menu.id) for menu in before)
        media = self.wording.listed_with_and(medium_name(self.house, one.id, self.wording) for one in held)
        return self.wording.say("matrix.oil", menus=menus, media=media)

    def _also(self) -> Text:
        if self.also is None:
            return EMPTY
        names = (column_name(column, self.wording, self.house) for column in self.also.columns)
        return self.wording.say("matrix.also", columns=self.wording.listed(names))

    def _exempt(self) -> Text:
        """Return what is made from a food on a list by a process that exempts it: stated, never left out."""
        served = items_of_menu(self.house, self.table.menu)
        items = [
            self.wording.say(
                "matrix.exempt.item",
                item=item_name(self.house, item.id),
                substance=substance_name(SUBSTANCES[substance].name, self.wording),
                process=self.wording.say(f"exempt.{process.replace(' ', '-')}"),
            )
            for item in self.house.pantry.values()
            if item.id in served and item.allergens
            for substance, process in item.allergens.exempt.items()
        ]
        return self.wording.say("matrix.exempt", items=self.wording.listed(items)) if items else EMPTY

    def _oldest(self) -> Text:
        first = oldest(self.house, items_of_menu(self.house, self.table.menu))
        if first is None:
            return EMPTY
        item, since = first
        return self.wording.say("matrix.oldest", item=item_name(self.house, item), day=self.wording.full_day(since))

    def _aged(self, on: date | None) -> Text:
        limit = self.house.file.allergens.older_than
        if on is None or limit is None or not self.table.aged:
            return EMPTY
        return self.wording.say(
            "matrix.aged",
            limit=duration_text(limit, self.wording),
            day=self.wording.full_day(on),
            items=names_of(self.house, self.table.aged, self.wording),
        )

    def _old(self, dish: str) -> Text:
        if not self.table.aged:
            return EMPTY
        inside = items_of_dish(self.house, self.house.dishes[dish])
        old = names_of(self.house, [item for item in self.table.aged if item in inside], self.wording)
        return self.wording.say("matrix.note.old", items=old) if old else EMPTY


def _comes_through(medium: str, findings: Mapping[str, Finding]) -> bool:
    return any(medium in finding.media or medium in finding.also_media for finding in findings.values())
