"""Every text of a house that is printed and can be said in another language, by the key that a translation has for it.

What checks look for, what is counted as missing and what documents print all start here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Final, NamedTuple, Protocol, TypeAlias

from linebook.model.component import Component, Ingredient
from linebook.model.dish import Alternative, Dish, Element
from linebook.model.house import HouseFile
from linebook.model.menu import Menu
from linebook.model.pantry import PantryItem
from linebook.model.record import Record
from linebook.model.translations import CardWords, Said
from linebook.source.frozen import frozen
from linebook.source.spans import Span

CardLine: TypeAlias = Ingredient | Element | Alternative
"""A line of a card that has texts of its own."""


class Placed(NamedTuple):
    """A text of a spec and where it stands."""

    text: str
    span: Span


@frozen
class CardTexts:
    """The texts of one kind on a card, and what a translation says for them, by key.

    ``what`` is what each is called, ``key_is`` what a key names; ``known`` are keys of the card with or without a text.
    """

    what: str
    key_is: str
    own: Mapping[str, Placed]
    said: Mapping[str, Said]
    known: frozenset[str]


NAMES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "dishes": "dish",
        "components": "component",
        "pantry": "pantry item or by-product",
        "lines": "line",
        "vessels": "vessel",
        "places": "place",
        "media": "shared medium",
        "plates": "plate",
        "courses": "course",
        "menus": "menu",
        "avoid": "avoidance of the house",
    }
)
"""The kinds of names that ``words.es.yaml`` may have, and what one is called."""


class Named(Protocol):
    """What has the names of a house: it, checked or not yet."""

    @property
    def file(self) -> HouseFile | None: ...
    @property
    def dishes(self) -> Mapping[str, Dish]: ...
    @property
    def components(self) -> Mapping[str, Component]: ...
    @property
    def pantry(self) -> Mapping[str, PantryItem]: ...
    @property
    def menus(self) -> Mapping[str, Menu]: ...
    @property
    def by_products(self) -> Mapping[str, tuple[tuple[Component, Record], ...]]: ...


def line_keys(lines: Iterable[CardLine]) -> Iterator[tuple[str, CardLine]]:
    """Yield each line of a card with its key: the item, or ``item.2`` for its second line."""
    seen: dict[str, int] = {}
    for line in lines:
        count = seen[line.item] = seen.get(line.item, 0) + 1
        yield (line.item if count == 1 else f"{line.item}.{count}"), line


def card_texts(card: Dish | Component, words: CardWords) -> Iterator[CardTexts]:
    """Yield all texts of a card but its method, with what a translation says for them."""
    yield from _single("name", card, card.name, words, words.name)
    if isinstance(card, Dish):
        yield from _single("menu_text", card, card.menu_text, words, words.menu_text)
        yield _of_lines("note", card.ever_served, words.notes)
        yield _of_lines("tool", card.elements, words.tools)
        sizes = {size.id: Placed(size.name, size.at("name")) for size in card.sizes}
        yield _named("name", "a size", sizes, words.sizes)
        yield from _phrases(card)
        return
    yield from _single("sort", card, card.sort, words, words.sort)
    yield _of_lines("prep", card.ingredients, words.preps)
    yield _of_lines("note", card.ingredients, words.notes)
    stages = {stage.name: Placed(stage.name, stage.at("stage")) for stage in card.stages}
    yield _named("name", "a stage", stages, words.stages)
    made = {one.item: Placed(one.name, one.at("name")) for one in card.also_makes}
    yield _named("name", "a by-product", made, words.also_makes)


def names_of_kind(house: Named, kind: str) -> Mapping[str, Placed]:
    """Return the names of one kind by id: ``kind`` is a key of ``NAMES``."""
    if kind == "pantry":
        found = {id: Placed(item.name, item.at("name")) for id, item in house.pantry.items()}
        for id, makers in house.by_products.items():
            made = makers[0][1]
            found.setdefault(id, Placed(getattr(made, "name", id), made.at("name")))
        return found
    if kind in ("dishes", "components", "menus"):
        records: Mapping[str, Dish | Component | Menu] = getattr(house, kind)
        return {id: Placed(one.name, one.at("name")) for id, one in records.items()}
    if kind == "courses":
        courses = (course for menu in house.menus.values() for course in menu.courses)
        return {course.id: Placed(course.name, course.at("name")) for course in courses}
    if house.file is None:
        return {}
    if kind == "avoid":
        policy = house.file.allergens
        return {id: Placed(name, policy.at(f"avoid.{id}")) for id, name in policy.avoid.items()}
    return {one.id: Placed(one.name, one.at("name")) for one in getattr(house.file, kind)}


def phrases_of(cards: Iterable[Dish | Component]) -> Mapping[str, Span]:
    """Return every text of the cards that ``phrases`` may translate, with a place where it stands."""
    found: dict[str, Span] = {}
    for card in cards:
        for text in _texts(card):
            found.setdefault(" ".join(text.text.split()), text.span)
        for section in card.body.sections:
            found.setdefault(section.title, section.span)
    return found


def _texts(card: Dish | Component) -> Iterator[Placed]:
    bare = CardWords(id="", language="", is_dish=isinstance(card, Dish), body=card.body, span=card.span, spans={})
    for texts in card_texts(card, bare):
        yield from texts.own.values()


def _phrases(dish: Dish) -> Iterator[CardTexts]:
    """Yield what a dish says to servers and to the pass: of these a translation has phrases alone."""
    plain = {"plain": Placed(dish.plain, dish.at("plain"))} if dish.plain else {}
    laid = {f"cutlery.{at}": Placed(one, dish.at(f"cutlery.{at}")) for at, one in enumerate(dish.cutlery)}
    done = {f"pick_up.{at}": Placed(one.do, one.at("do")) for at, one in enumerate(dish.pick_up)}
    for what, own in (("plain", plain), ("cutlery", laid), ("do", done)):
        yield CardTexts(what=what, key_is="", own=own, said={}, known=frozenset(own))


def _single(what: str, card: Record, own: str | None, words: CardWords, said: str | None) -> Iterator[CardTexts]:
    placed = {what: Placed(own, card.at(what))} if own else {}
    there = {what: Said(text=said, span=words.at(what), key=words.at(what))} if said else {}
    yield CardTexts(what=what, key_is="", own=placed, said=there, known=frozenset((what,)))


def _of_lines(what: str, lines: Iterable[CardLine], said: Mapping[str, Said]) -> CardTexts:
    keyed = dict(line_keys(lines))
    own = {key: Placed(text, line.at(what)) for key, line in keyed.items() if (text := getattr(line, what))}
    return CardTexts(what=what, key_is="an item", own=own, said=said, known=frozenset(keyed))


def _named(what: str, key_is: str, own: Mapping[str, Placed], said: Mapping[str, Said]) -> CardTexts:
    return CardTexts(what=what, key_is=key_is, own=own, said=said, known=frozenset(own))
