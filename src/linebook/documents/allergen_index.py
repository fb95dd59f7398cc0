"""The index for front of house: from every allergen, substance and ingredient to the dishes that carry it.

Works from computed answers alone. What is free of a thing is not under it; what nobody has declared is under all.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence

from linebook.compute.allergen_index import Entry
from linebook.compute.columns import columns_for
from linebook.compute.results import Answer
from linebook.documents.allergen_matrix import column_head
from linebook.documents.allergen_names import substance_name
from linebook.documents.second import dish_name, item_name, menu_name
from linebook.documents.text import EMPTY, Text, joined, strong
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT = "allergen-index"


@frozen
class IndexRow:
    """One thing and the dishes that carry it."""

    key: str
    """For data-key."""
    name: Text
    """The allergen, substance or ingredient."""
    dishes: Text
    """The dishes that contain it, that may, and of which it is not known."""


@frozen
class IndexPart:
    """One part of the index, in an order in which a thing is found."""

    key: str
    """For data-key."""
    title: Text
    """The heading."""
    note: Text
    """What is not under it; may be empty."""
    rows: tuple[IndexRow, ...]
    """What stands under it."""


@frozen
class AllergenIndex:
    """All that the index shows."""

    id: str
    """The sheet's own id."""
    kicker: Text
    """Over the name: who it is for."""
    title: Text
    """Its name."""
    menu: Text
    """The menu and its first day."""
    how: Text
    """How it is read."""
    parts: tuple[IndexPart, ...]
    """The allergens, the substances that are declared, the ingredients."""
    caution: Text
    """That the kitchen handles all of it, and who decides."""


def allergen_index_sheet(house: House, menu_id: str, entries: Sequence[Entry], wording: Wording) -> AllergenIndex:
    """Return the index of a menu from its computed entries."""
    menu = house.menus[menu_id]
    writer = _IndexWriter(house=house, menu=menu_id, wording=wording)
    return AllergenIndex(
        id=f"{DOCUMENT}:{menu_id}",
        kicker=wording.say("matrix.kicker"),
        title=wording.say(f"document.{DOCUMENT}"),
        menu=strong(wording.say("matrix.menu", menu=menu_name(house, menu_id), first=wording.full_day(menu.first))),
        how=wording.say("index.how"),
        parts=tuple(writer.parts(entries)),
        caution=wording.say("matrix.caution"),
    )


@frozen
class _IndexWriter:
    house: House
    menu: str
    wording: Wording

    def parts(self, entries: Sequence[Entry]) -> Iterator[IndexPart]:
        """Yield allergens in the order of their lists, then substances and ingredients from A to Z."""
        lists = [entry for entry in entries if entry.sort in ("group", "own")]
        yield self._part("lists", [(self._column(entry), entry) for entry in lists])
        substances = [
            (substance_name(entry.name, self.wording), entry) for entry in entries if entry.sort == "substance"
        ]
        yield self._part("substances", sorted(substances, key=_by_letters))
        foods = [(item_name(self.house, entry.id), entry) for entry in entries if entry.sort in _FOODS]
        yield self._part("foods", sorted(foods, key=_by_letters))

    def _part(self, key: str, named: Iterable[tuple[Text, Entry]]) -> IndexPart:
        note = self.wording.say("index.foods.note") if key == "foods" else EMPTY
        rows = tuple(
            IndexRow(key=f"{entry.sort}.{entry.id}", name=name, dishes=self._dishes(entry)) for name, entry in named
        )
        return IndexPart(key=f"index.{key}", title=self.wording.say(f"index.{key}"), note=note, rows=rows)

    def _column(self, entry: Entry) -> Text:
        column = next(one for one in columns_for(self.house.file.allergens) if one.id == entry.id)
        return column_head(self.house, column, self.wording)

    def _dishes(self, entry: Entry) -> Text:
        """Return the dishes that have it, by how sure that is; that none has it, where none does."""
        if not entry.dishes:
            return self.wording.say("index.none")
        if len(entry.dishes) == len(self.house.menus[self.menu].dishes) and _all(entry, Answer.CONTAINS):
            return strong(self.wording.say("index.every"))
        return joined(self._by_answer(entry), self.wording.say("list.semicolon"))

    def _by_answer(self, entry: Entry) -> Iterator[Text]:
        for answer, key in _SAID.items():
            dishes = [dish for dish, given in entry.dishes if given is answer]
            if dishes:
                names = self.wording.named(dish_name(self.house, dish) for dish in dishes)
                yield self.wording.say(f"index.{key}", dishes=names)


_FOODS = ("item", "component", "by-product")
_SAID = {Answer.CONTAINS: "contain", Answer.UNDECLARED: "undeclared", Answer.MAY: "may"}


def _all(entry: Entry, answer: Answer) -> bool:
    return all(given is answer for _, given in entry.dishes)


def _by_letters(named: tuple[Text, Entry]) -> tuple[str, str]:
    """Return by what a name is sorted: its letters, whatever their accents and capitals."""
    name, entry = named
    letters = unicodedata.normalize("NFKD", name.plain)
    return "".join(letter for letter in letters if not unicodedata.combining(letter)).casefold(), entry.id
