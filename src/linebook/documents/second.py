"""What a house's own texts are called on paper, in the one or two languages it prints: the one place that chooses.

A text that is not translated stands as the specs have it. A house without translations pays one look at a field.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeAlias

from linebook.documents.text import EMPTY, Text, words
from linebook.model.body import Section
from linebook.model.component import Component, Ingredient
from linebook.model.dish import Alternative, Dish, Element, Size
from linebook.model.house import House, Line, Plate, Vessel, Workplace
from linebook.model.menu import Course
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.model.translations import CardWords, Said, Translation

Find: TypeAlias = "Callable[[Translation], str | None]"


@frozen
class SaidSection:
    """A section of a method, and what is printed for it in the first language and, if there is another, in the second.

    ``second`` is None where nothing else stands there than in the first.
    """

    own: Section
    first: Section
    second: Section | None = None


def item_name(house: House, item: str) -> Text:
    """Return the printed name of a pantry item, component, by-product or dish."""
    own = house.name_of(item)
    return words(own) if house.second is None else _both(house, own, lambda said: _item_name(house, said, item))


def dish_name(house: House, dish: str) -> Text:
    """Return the printed name of a dish."""
    own = house.dishes[dish].name
    return words(own) if house.second is None else _both(house, own, lambda said: _card_name(said, "dishes", dish))


def line_name(house: House, line: str) -> Text:
    """Return the name of a line by its id."""
    return _named(house, "lines", line, _name_among(house.file.lines, line))


def place_name(house: House, place: str) -> Text:
    """Return the name of a place by its id."""
    return _named(house, "places", place, _name_among(house.file.places, place))


def vessel_name(house: House, vessel: str) -> Text:
    """Return the name of a vessel by its id."""
    return _named(house, "vessels", vessel, _name_among(house.file.vessels, vessel))


def medium_text(house: House, medium: str, own: str) -> Text:
    """Return the name of a shared medium; ``own`` is how it stands in a sentence."""
    return _named(house, "media", medium, own)


def plate_name(house: House, plate: str) -> Text:
    """Return the name of a plate by its id."""
    return _named(house, "plates", plate, _name_among(house.file.plates, plate))


def course_name(house: House, course: Course) -> Text:
    """Return the name of a course."""
    return _named(house, "courses", course.id, course.name)


def menu_name(house: House, menu: str) -> Text:
    """Return the name of a menu by its id."""
    return _named(house, "menus", menu, house.menus[menu].name)


def avoidance_name(house: House, avoidance: str, own: str) -> Text:
    """Return the printed name of one of the house's own avoidances."""
    return _named(house, "avoid", avoidance, own)


def phrase(house: House, own: str | None, *, italic: bool = False) -> Text:
    """Return a text of a spec that is translated as a phrase or not at all; nothing for nothing."""
    return _both(house, own or "", lambda _: None, italic=italic) if own else EMPTY


def line_text(
    house: House, card: Dish | Component, kind: str, key: str, own: str | None, *, italic: bool = False
) -> Text:
    """Return the ``note``, ``prep`` or ``tool`` of a card's line by its key, such as ``onion`` or ``onion.2``."""
    if not own:
        return EMPTY

    def find(said: Translation) -> str | None:
        card_words = said.cards.get(card.id)
        found: Said | None = getattr(card_words, f"{kind}s").get(key) if card_words else None
        return found.text if found else None

    return _both(house, own, find, italic=italic)


def prep_text(house: House, component: Component, line: Ingredient, *, italic: bool = False) -> Text:
    """Return how an ingredient is cut or prepared first; nothing where the spec does not say."""
    return _own_line(house, component, "prep", line, line.prep, italic=italic)


def ingredient_note(house: House, component: Component, line: Ingredient) -> Text:
    """Return the spec's own note of an ingredient."""
    return _own_line(house, component, "note", line, line.note)


def element_note(house: House, dish: Dish, element: Element | Alternative) -> Text:
    """Return the spec's own note of an element."""
    return _own_line(house, dish, "note", element, element.note)


def tool_text(house: House, dish: Dish, element: Element) -> Text:
    """Return what an element is portioned with."""
    return _own_line(house, dish, "tool", element, element.tool)


def _own_line(
    house: House,
    card: Dish | Component,
    kind: str,
    line: Ingredient | Element | Alternative,
    own: str | None,
    *,
    italic: bool = False,
) -> Text:
    if not own:
        return EMPTY
    if house.second is None:
        return words(own, italic=italic)
    from linebook.model.translatable import line_keys  # here, because most houses have no translation

    lines: Sequence[Ingredient | Element | Alternative] = (
        card.ever_served if isinstance(card, Dish) else card.ingredients
    )
    key = next((key for key, other in line_keys(lines) if other is line), line.item)
    return line_text(house, card, kind, key, own, italic=italic)


def menu_text(house: House, dish: Dish) -> Text:
    """Return how the menu words a dish; nothing where the spec does not say."""
    return _of_card(house, dish.id, dish.menu_text, lambda card: card.menu_text)


def sort_text(house: House, component: Component) -> Text:
    """Return what kind of thing a component is; nothing where the spec does not say."""
    return _of_card(house, component.id, component.sort, lambda card: card.sort)


def size_name(house: House, dish: Dish, size: Size) -> Text:
    """Return the name of a size of a dish."""
    return _of_card(house, dish.id, size.name, lambda card: _said(card.sizes.get(size.id)))


def section_title(house: House, said: SaidSection) -> Text:
    """Return the heading of a section; untranslated ones may be among the phrases."""
    if house.second is None:
        return words(said.own.title)
    if said.first is said.own and said.second is None:
        return phrase(house, said.own.title)
    return words(said.first.title, said.second.title if said.second else "")


def stage_name(house: House, component: Component, stage: str, said: SaidSection | None) -> Text:
    """Return a stage's name: as its heading in the method has it, where it has one."""
    if said and (house.second is None or said.second or said.first is not said.own):
        return section_title(house, said)
    own = said.own.title if said else stage
    return _of_card(house, component.id, own, lambda card: _said(card.stages.get(stage)))


def said_sections(house: House, card: Dish | Component) -> tuple[SaidSection, ...]:
    """Return the sections of a card's method, each in the languages printed."""
    sections = card.body.sections
    first, second = _translations(house)
    if first is None and second is None:
        return tuple(SaidSection(own=section, first=section) for section in sections)
    mine, theirs = _sections_in(first, card), _sections_in(second, card)
    return tuple(_said_section(section, mine, theirs, two=len(house.file.languages) > 1) for section in sections)


def find_said(house: House, component: Component, key: str) -> SaidSection | None:
    """Return the section of a component's method with this key, in the languages printed; None where it has none."""
    if house.second is None:
        own = component.body.find_section(key)
        return SaidSection(own=own, first=own) if own else None
    return next((said for said in said_sections(house, component) if said.own.key == key), None)


def by_product_name(house: House, maker: Component, item: str, own: str) -> Text:
    """Return what a component calls one of its by-products."""
    if house.second is None:
        return words(own)

    def find(said: Translation) -> str | None:
        card = said.cards.get(maker.id)
        name = _said(card.also_makes.get(item)) if card else None
        return name or (_said(said.words.pantry.get(item)) if said.words else None)

    return _both(house, own, find)


def _name_among(entries: Sequence[Line | Workplace | Vessel | Plate], id: str) -> str:
    for entry in entries:  # `next` takes half as long again, and cards name places and vessels by the hundred
        if entry.id == id:
            return entry.name
    raise KeyError(id)


def _said_section(own: Section, mine: dict[str, Section], theirs: dict[str, Section], *, two: bool) -> SaidSection:
    first = mine.get(own.key, own)
    second = theirs.get(own.key, own) if two else None
    return SaidSection(own=own, first=first, second=second if second is not first else None)


def _sections_in(said: Translation | None, card: Dish | Component) -> dict[str, Section]:
    """Return the sections that translate a card's own, by the keys of its own."""
    from linebook.model.translations import paired_sections  # here, because most houses have no translation

    card_words = said.cards.get(card.id) if said else None
    return {own.key: other for own, other in paired_sections(card.body, card_words.body)} if card_words else {}


def _translations(house: House) -> tuple[Translation | None, Translation | None]:
    """Return the translations into the first and the second language printed; None for the specs' own."""
    if house.second is None:
        return None, None
    found = [house.second.find(language) for language in house.file.languages]
    return found[0], found[1] if len(found) > 1 else None


def _both(house: House, own: str, find: Find, *, italic: bool = False) -> Text:
    """Return a text in the languages printed: as found, else among the phrases, else as the specs have it."""
    first, second = _translations(house)
    if first is None and second is None:
        return words(own, italic=italic)
    main = _in(first, own, find) or own
    other = (_in(second, own, find) or own) if len(house.file.languages) > 1 else ""
    return words(main, other, italic=italic)


def _in(said: Translation | None, own: str, find: Find) -> str | None:
    if said is None:
        return None
    found = find(said)
    if found or said.words is None:
        return found
    return _said(said.words.phrases.get(" ".join(own.split())))


def _named(house: House, kind: str, id: str, own: str) -> Text:
    if house.second is None:
        return words(own)
    return _both(house, own, lambda said: _said(getattr(said.words, kind).get(id)) if said.words else None)


def _of_card(house: House, card: str, own: str | None, find: Callable[[CardWords], str | None]) -> Text:
    if not own:
        return EMPTY
    if house.second is None:
        return words(own)
    return _both(house, own, lambda said: find(said.cards[card]) if card in said.cards else None)


def _item_name(house: House, said: Translation, item: str) -> str | None:
    if item in house.components:
        return _card_name(said, "components", item)
    if item not in house.pantry and item not in house.by_products:
        return _card_name(said, "dishes", item)
    bought = _said(said.words.pantry.get(item)) if said.words else None
    return bought or next(_made_names(house, said, item), None)


def _card_name(said: Translation, kind: str, id: str) -> str | None:
    card = said.cards.get(id)
    own = card.name if card else None
    return own or (_said(getattr(said.words, kind).get(id)) if said.words else None)


def _made_names(house: House, said: Translation, item: str) -> Iterator[str]:
    """Yield what the components that make a by-product call it in the other language."""
    for maker, _ in house.by_products.get(item, ()):
        card = said.cards.get(maker.id)
        name = _said(card.also_makes.get(item)) if card else None
        if name:
            yield name


def _said(said: Said | None) -> str | None:
    return said.text if said else None
