"""What a house has not translated yet into the languages it prints, counted: it is printed as the specs have it.

Imported only where a second language, or another than the specs', is printed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from linebook.model.body import Body
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.translatable import NAMES, card_texts, names_of_kind
from linebook.model.translations import LANGUAGE_NAMES, CardWords, HouseWords, Said, Translation, paired_sections
from linebook.source.frozen import frozen

_NAMES: Final = ("name",)
_CARDS: Final = frozenset(("dishes", "components"))


@frozen
class Untranslated:
    """How many different texts of a house stand untranslated: names, whole methods, and notes of every kind."""

    language: str
    written: str
    names: int = 0
    methods: int = 0
    notes: int = 0

    def __bool__(self) -> bool:
        """Return whether anything is missing."""
        return bool(self.names or self.methods or self.notes)

    @property
    def sentence(self) -> str:
        """Return it in words: *Spanish: 3 names and 2 methods are not translated yet; printed in English*."""
        counted = [
            f"{count:,} {one if count == 1 else one + 's'}"
            for count, one in ((self.names, "name"), (self.methods, "method"), (self.notes, "note"))
            if count
        ]
        *first, last = counted
        what = f"{', '.join(first)} and {last}" if first else last
        verb = "is" if self.names + self.methods + self.notes == 1 else "are"
        shown = f"printed in {LANGUAGE_NAMES[self.written]}" if self.written else "printed as the specs have it"
        return f"{LANGUAGE_NAMES[self.language]}: {what} {verb} not translated yet; {shown}"


def find_untranslated(house: House) -> tuple[Untranslated, ...]:
    """Return what is missing in each language that is printed and is not the specs' own; also where nothing is."""
    languages = house.file.languages
    written = house.second.written if house.second else languages[0]
    found = []
    for language in languages:
        said = house.second.find(language) if house.second else None
        if language != written and (said is not None or written):
            found.append(_missing(house, language, written, said))
    return tuple(found)


def untranslated_sentences(house: House) -> tuple[str, ...]:
    """Return a sentence for each language printed in which something is missing."""
    return tuple(missing.sentence for missing in find_untranslated(house) if missing)


def _missing(house: House, language: str, written: str, said: Translation | None) -> Untranslated:
    phrases = said.words.phrases if said and said.words else {}
    names: set[str] = set()
    notes: set[str] = set()
    methods = 0
    cards: tuple[Dish | Component, ...] = (*house.dishes.values(), *house.components.values())
    for card in cards:
        words = (said.cards.get(card.id) if said else None) or _nothing(card, language)
        named = said.words if said else None
        for what, text in _texts_left(card, words, named):
            if " ".join(text.split()) not in phrases:
                (names if what in _NAMES else notes).add(text)
        methods += _lacks_method(card, words)
    for kind in NAMES.keys() - _CARDS:
        there: Mapping[str, Said] = getattr(said.words, kind) if said and said.words else {}
        own = names_of_kind(house, kind)
        names |= {name.text for key, name in own.items() if not _is_said(house, said, key, kind, there)}
    return Untranslated(language=language, written=written, names=len(names), methods=methods, notes=len(notes))


def _is_said(house: House, said: Translation | None, key: str, kind: str, there: Mapping[str, Said]) -> bool:
    """Return whether a name of the house is said; a by-product may have its name from the card that makes it."""
    makers = house.by_products.get(key, ()) if kind == "pantry" and said else ()
    cards = (said.cards.get(maker.id) for maker, _ in makers) if said else ()
    return key in there or any(card is not None and key in card.also_makes for card in cards)


def _texts_left(card: Dish | Component, words: CardWords, named: HouseWords | None) -> Iterator[tuple[str, str]]:
    """Yield kind and text of all on a card that its translation does not say. Stages are counted with the method."""
    is_named = named is not None and card.id in (named.dishes if isinstance(card, Dish) else named.components)
    for texts in card_texts(card, words):
        if texts.key_is in ("a stage", "a by-product") or (is_named and "name" in texts.own and not texts.key_is):
            continue
        for key, own in texts.own.items():
            if key not in texts.said:
                yield texts.what, own.text


def _lacks_method(card: Dish | Component, words: CardWords) -> bool:
    there = {own.key for own, _ in paired_sections(card.body, words.body)}
    return any(section.key not in there for section in card.body.sections if section.blocks)


def _nothing(card: Dish | Component, language: str) -> CardWords:
    none = Body(sections=())
    return CardWords(id=card.id, language=language, is_dish=isinstance(card, Dish), body=none, span=card.span, spans={})
