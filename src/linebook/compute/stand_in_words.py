"""The words of cards and menus with what stands in: braces of methods, keys of translations, dishes not served.

Knows no amounts and decides nothing: what stands in for what is given.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from linebook.compute.fallen import Supply
from linebook.model.body import AmountOf, Block, Body, Fixed, Piece, Words
from linebook.model.component import ByProduct, Component
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.menu import Menu
from linebook.model.translations import CardWords, Said, Translation, Translations

WRITTEN: Final = ""
"""Stands for the language that the specs are written in."""

_IN_PLACE_OF: Final = {"en": "in place of", "es": "en lugar de"}
_MARKS: Final = ".,;:()!?"
_NEAR: Final = 3
_SHORTEST: Final = 3


def menu_without(menu: Menu, fallen: Collection[str]) -> Menu:
    """Return a menu without the dishes that are not served."""
    if all(entry.dish not in fallen for entry in menu.dishes):
        return menu
    return replace(menu, dishes=tuple(entry for entry in menu.dishes if entry.dish not in fallen))


def body_with(house: House, body: Body, supply: Supply, lost: Mapping[str, ByProduct], language: str = WRITTEN) -> Body:
    """Return a method whose braces name what stands in; of a by-product that is not left over there is nothing.

    ``language`` is what the method is written in. Where the missing item's name is typed after its brace, the method
    says in place of what: nobody must read *85 g walnuts* where hazelnuts are meant.
    """

    def block_with(block: Block) -> Block:
        pieces: list[Piece] = []
        for at, piece in enumerate(block.pieces):
            following = block.pieces[at + 1] if at + 1 < len(block.pieces) else None
            pieces += _piece_with(house, piece, following, supply, lost, language)
        return replace(block, pieces=tuple(pieces))

    sections = (
        replace(section, blocks=tuple(block_with(block) for block in section.blocks)) for section in body.sections
    )
    return Body(sections=tuple(sections))


def _piece_with(
    house: House,
    piece: Piece,
    following: Piece | None,
    supply: Supply,
    lost: Mapping[str, ByProduct],
    language: str,
) -> list[Piece]:
    if not isinstance(piece, AmountOf):
        return [piece]
    if piece.item in lost:
        return [Fixed(text=f"0 {lost[piece.item].amount.unit.plural}", span=piece.span)]
    item, _ = supply.serves(piece.item)
    if item == piece.item:
        return [piece]
    name = f" {_name_in(house, item, language)}"
    if isinstance(following, Words) and _names(following.text, house, piece.item, language):
        joint = _IN_PLACE_OF[_known(house, language)]
        last = joint.rpartition(" ")[2]
        said = following.text.split()[0].casefold() == last  # *en lugar* before *de la nuez*
        name += f" {joint.removesuffix(f' {last}') if said else joint}"
    return [replace(piece, item=item), Words(text=name, span=piece.span)]


def _names(text: str, house: House, item: str, language: str) -> bool:
    """Return whether the next words are of an item's name, or of its id: *nuez* is of *nueces* too."""
    near = [word.strip(_MARKS).casefold() for word in text.split()[:_NEAR]]
    known = f"{_name_in(house, item, language)} {item.replace('-', ' ')}".casefold().split()
    own = [word.strip(_MARKS) for word in known]
    return text[:1].isspace() and any(_are_alike(word, other) for word in near for other in own)


def _are_alike(word: str, other: str) -> bool:
    """Return whether two words begin alike, so far that only their endings differ."""
    shorter = min(len(word), len(other))
    stem = max(_SHORTEST, shorter - 1)
    return shorter >= _SHORTEST and word[:stem] == other[:stem]


def _known(house: House, language: str) -> str:
    """Return the language of a method, of those that are known; English where nobody says what specs are in."""
    written = house.second.written if house.second else house.file.languages[0]
    found = written if language == WRITTEN else language
    return found if found in _IN_PLACE_OF else "en"


def _name_in(house: House, item: str, language: str) -> str:
    """Return the name of an item in a language, as the specs have it where it is not translated."""
    translation = house.second.find(language) if house.second and language != WRITTEN else None
    if translation is None:
        return house.name_of(item)
    card = translation.cards.get(item)
    if card is not None and card.name:
        return card.name
    kinds = (translation.words.pantry, translation.words.components) if translation.words else ()
    return next((kind[item].text for kind in kinds if item in kind), house.name_of(item))


def in_second(
    house: House, components: Mapping[str, Component], dishes: Mapping[str, Dish], supply: Supply
) -> Translations | None:
    """Return what the house says in other languages, with what stands in on the cards that changed."""
    if house.second is None:
        return None
    changed: dict[str, Component | Dish] = {
        id_: card for id_, card in components.items() if card is not house.components[id_]
    }
    changed |= {id_: card for id_, card in dishes.items() if card is not house.dishes[id_]}
    return replace(
        house.second,
        by_language=MappingProxyType(
            {
                language: _translation_with(house, translation, changed, supply)
                for language, translation in house.second.by_language.items()
            }
        ),
    )


def _translation_with(
    house: House, translation: Translation, changed: Mapping[str, Component | Dish], supply: Supply
) -> Translation:
    cards = {
        id_: _card_with(house, card, changed[id_], supply) if id_ in changed else card
        for id_, card in translation.cards.items()
    }
    return replace(translation, cards=MappingProxyType(cards))


def _card_with(house: House, card: CardWords, now: Component | Dish, supply: Supply) -> CardWords:
    before: Component | Dish = house.components[card.id] if isinstance(now, Component) else house.dishes[card.id]
    moved = {was: supply.serves(was)[0] for was in (*card.notes, *card.preps, *card.tools)}
    moved |= dict(zip(_keys(before), _keys(now), strict=True))
    lost: dict[str, ByProduct] = {}
    if isinstance(before, Component) and isinstance(now, Component):
        lost = {made.item: made for made in before.also_makes if made not in now.also_makes}
    return replace(
        card,
        notes=_moved(card.notes, moved),
        preps=_moved(_kept_preps(card, before, now), moved),
        tools=_moved(card.tools, moved),
        body=body_with(house, card.body, supply, lost, card.language),
    )


def _kept_preps(card: CardWords, before: Component | Dish, now: Component | Dish) -> Mapping[str, Said]:
    """Return the preps of a card without those of lines whose stand-in says how it is prepared itself."""
    if not (isinstance(before, Component) and isinstance(now, Component)):
        return card.preps
    lines = zip(_keys(before), before.ingredients, now.ingredients, strict=True)
    other = {key for key, was, one in lines if was.prep != one.prep}
    return {key: said for key, said in card.preps.items() if key not in other}


def _keys(card: Component | Dish) -> list[str]:
    """Return the key of each line of a card: its item, with a number from 2 where the item stands there again."""
    named: Sequence[str] = (
        [line.item for line in card.ingredients]
        if isinstance(card, Component)
        else [element.item for element in card.elements]
    )
    seen: dict[str, int] = {}
    keys = []
    for item in named:
        seen[item] = seen.get(item, 0) + 1
        keys.append(item if seen[item] == 1 else f"{item}.{seen[item]}")
    return keys


def _moved(said: Mapping[str, Said], moved: Mapping[str, str]) -> Mapping[str, Said]:
    return MappingProxyType({moved[key]: text for key, text in said.items()})
