"""How what stands in is prepared, in words, and which cards still name what it stands in for.

Knows the words of cards alone; which item stands in for which is decided elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from linebook.check.prose import contains, runs, stems
from linebook.documents.second import item_name, phrase, prep_text
from linebook.documents.text import EMPTY, Text, each_language
from linebook.documents.wording import Wording
from linebook.model.body import Body
from linebook.model.component import Component, Ingredient
from linebook.model.dish import Dish
from linebook.model.house import House

if TYPE_CHECKING:
    from linebook.model.translations import Translation

_SHORTEST: Final = 3
_SMALL: Final = frozenset(("and", "with", "the", "for", "raw", "del", "las", "los", "con", "para", "sin"))


def prep_said(house: House, component: Component, line: Ingredient, wording: Wording, *, italic: bool = False) -> Text:
    """Return how an ingredient is prepared first; whose prep it is where it was written for what is missing."""
    own = prep_text(house, component, line, italic=italic)
    if not own or line.prep_as_for is None or house.tonight is None:
        return own
    said = wording.say("name.prep-as-for", missing=item_name(house.tonight.before, line.prep_as_for), prep=own)
    return _italic(said) if italic else said


def knife_prep(house: House, prep: str, as_for: str | None, wording: Wording) -> Text:
    """Return a prep on a list of several cards, marked in the same way."""
    if as_for is None or house.tonight is None:
        return phrase(house, prep)
    missing = item_name(house.tonight.before, as_for)
    return wording.say("name.prep-as-for", missing=missing, prep=phrase(house, prep))


def method_names(house: House, subject: str, missing: str, instead: str) -> bool:
    """Return whether the method, a note or the pick-up of a card as written names an item that is missing."""
    card = _card(house, subject)
    if card is None:
        return False
    forms = _forms(house, card, missing, instead)
    said = any(_names(text, forms) for text in (*_body_texts(card.body), *_notes(card)))
    return said or any(
        _names(text, _forms_in(translation, card, missing, instead, house))
        for translation in _printed(house)
        if (words := translation.cards.get(subject)) is not None
        for text in _body_texts(words.body)
    )


def title_names(house: House, subject: str, missing: str, instead: str) -> bool:
    """Return whether the name of a card, or what the menu and servers say of it, names an item that is missing."""
    card = _card(house, subject)
    if card is None:
        return False
    texts = [card.name]
    if isinstance(card, Dish):
        texts += [card.menu_text or "", card.plain or ""]
    return any(_names(text, _forms(house, card, missing, instead)) for text in texts)


def _card(house: House, subject: str) -> Component | Dish | None:
    return house.components.get(subject) or house.dishes.get(subject)


def _printed(house: House) -> Iterator[Translation]:
    for language in house.file.languages:
        found = house.second.find(language) if house.second else None
        if found is not None:
            yield found


def _body_texts(body: Body) -> Iterator[str]:
    for section in body.sections:
        for block in section.blocks:
            yield from (run.text for run in runs(block))


def _notes(card: Component | Dish) -> Iterator[str]:
    lines = card.ingredients if isinstance(card, Component) else card.ever_served
    yield from (line.note for line in lines if line.note)
    if isinstance(card, Dish):
        yield from (strand.do for strand in card.pick_up)


def _forms(house: House, card: Component | Dish, missing: str, instead: str) -> tuple[tuple[str, ...], ...]:
    others = {word for item in _items(card) if item != missing for word in stems(house.name_of(item))}
    return _told(house.name_of(missing), missing, others | set(stems(house.name_of(instead))))


def _forms_in(
    translation: Translation, card: Component | Dish, missing: str, instead: str, house: House
) -> tuple[tuple[str, ...], ...]:
    def called(item: str) -> str:
        own = translation.cards.get(item)
        if own is not None and own.name:
            return own.name
        kinds = (translation.words.pantry, translation.words.components) if translation.words else ()
        return next((kind[item].text for kind in kinds if item in kind), house.name_of(item))

    others = {word for item in _items(card) if item != missing for word in stems(called(item))}
    return _told(called(missing), missing, others | set(stems(called(instead))))


def _told(name: str, id_: str, others: set[str]) -> tuple[tuple[str, ...], ...]:
    """Return how an item may be named: all its words side by side, or one that nothing else on the card has."""
    short = stems(name.partition(",")[0])
    alone = {word for word in (*short, *stems(id_.replace("-", " "))) if len(word) >= _SHORTEST}
    return (short, *((word,) for word in sorted(alone - others - _SMALL)))


def _items(card: Component | Dish) -> Iterator[str]:
    yield from (line.item for line in (card.ingredients if isinstance(card, Component) else card.ever_served))


def _names(text: str, forms: tuple[tuple[str, ...], ...]) -> bool:
    said = stems(text)
    return any(form and contains(said, form) for form in forms)


def _italic(text: Text) -> Text:
    return each_language(text, lambda pieces: tuple(replace(piece, italic=True) for piece in pieces)) if text else EMPTY
