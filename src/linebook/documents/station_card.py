"""The station card of a dish: what a portion carries, how it is picked up, and what can be said to a guest."""

from __future__ import annotations

from linebook.compute.results import AllergenTable
from linebook.documents.allergen_lines import Verdict, dish_allergens
from linebook.documents.braces import PortionBraces
from linebook.documents.elements import ElementRow, ElementWriter
from linebook.documents.measures import Measures, duration_text
from linebook.documents.method import MethodWriter, begins_with
from linebook.documents.naming import kicker, names_of
from linebook.documents.parts import AllergenLine, Labelled, PlateFigure, Section
from linebook.documents.places import alternative_text, plate_text
from linebook.documents.text import EMPTY, Text, strong, words
from linebook.documents.wording import Wording
from linebook.model.body import Section as BodySection
from linebook.model.body import Words
from linebook.model.dish import Dish
from linebook.model.house import House, Plate
from linebook.model.menu import Menu
from linebook.source.frozen import frozen

DOCUMENT = "station-card"
SMALL_PLATE = "plate-small"
PICK_UP = "pick-up"
AT_THE_PASS = "at-the-pass"


@frozen
class StationCard:
    """All a station card shows."""

    id: str
    line: str
    kicker: Text
    title: Text
    aside: Text
    served: Text
    call: Text
    menu_text: Text
    allergens: tuple[AllergenLine, ...]
    portion_head: Text
    size_heads: tuple[Text, ...]
    elements: tuple[ElementRow, ...]
    plate: PlateFigure | None
    touches: Labelled | None
    pick_up: tuple[Section, ...]
    sections: tuple[Section, ...]
    asked_label: Text
    verdicts: tuple[Verdict, ...]


def station_card(house: House, dish_id: str, table: AllergenTable, wording: Wording) -> StationCard:
    """Return the card of one dish as the menu of ``table`` serves it."""
    dish = house.dishes[dish_id]
    measures = Measures(house=house.file, wording=wording)
    elements = ElementWriter(house=house, dish=dish, measures=measures)
    allergens = dish_allergens(house, table, dish_id, wording)
    plate = find_plate(house, dish)
    pick_up, sections = _sections(dish, measures, has_guide=plate is not None)
    sizes = [words(size.name) if size else EMPTY for size in elements.sizes]
    return StationCard(
        id=f"{DOCUMENT}:{dish.id}",
        line=dish.line,
        kicker=kicker(house, dish.line, DOCUMENT, wording),
        title=words(dish.name),
        aside=EMPTY if dish.tested else wording.say("draft"),
        served=_served(house.menus[table.menu], dish, plate, wording),
        call=wording.say("call", time=duration_text(dish.call)) if dish.call else EMPTY,
        menu_text=_menu_text(dish),
        allergens=allergens.lines(),
        portion_head=wording.say("portion.one-of", size=sizes[0]) if sizes[0] else wording.say("portion.one"),
        size_heads=tuple(sizes[1:]),
        elements=elements.rows_with(
            [elements.pick_up_note(element, with_place=plate is None) for element in dish.elements]
        ),
        plate=_figure(house, dish, plate, wording),
        touches=_touches(house, dish, wording),
        pick_up=pick_up,
        sections=sections,
        asked_label=wording.say("asked"),
        verdicts=allergens.verdicts(),
    )


def find_plate(house: House, dish: Dish) -> Plate | None:
    """Return the plate of a dish, or None where it names none."""
    return next((plate for plate in house.file.plates if plate.id == dish.plate), None)


def _menu_text(dish: Dish) -> Text:
    """Return how the menu words the dish, unless that is its name."""
    text = dish.menu_text or ""
    return words("" if text.casefold() == dish.name.casefold() else text)


def _served(menu: Menu, dish: Dish, plate: Plate | None, wording: Wording) -> Text:
    course = next((words(course.name) for course in menu.courses if course.id == dish.course), words(dish.course))
    return strong(wording.listed((course, plate_text(plate, dish.warm, wording) if plate else EMPTY)))


def _figure(house: House, dish: Dish, plate: Plate | None, wording: Wording) -> PlateFigure | None:
    if plate is None:
        return None
    return PlateFigure(
        name=SMALL_PLATE,
        alternative=alternative_text(house, dish, plate, wording),
        caption=wording.say("plate.see-guide"),
    )


def _touches(house: House, dish: Dish, wording: Wording) -> Labelled | None:
    if not dish.also_touches:
        return None
    names = names_of(house, dish.also_touches, wording)
    return Labelled(key="also-touches", label=wording.say("fact.also-touches"), value=names)


def _sections(dish: Dish, measures: Measures, *, has_guide: bool) -> tuple[tuple[Section, ...], tuple[Section, ...]]:
    """Return the pick-up, and the other sections; what is for the pass is on the plating guide if there is one."""
    method = MethodWriter(say_amount=PortionBraces(dish=dish, measures=measures).say)
    read_ticket = strong(measures.wording.say("pick-up.read-ticket"))
    pick_up: list[Section] = []
    others: list[Section] = []
    for section in sorted(dish.body.sections, key=lambda section: section.key != PICK_UP):
        first = (read_ticket,) if section.key == PICK_UP and not _says(section, read_ticket.plain) else ()
        made = Section(
            key=section.key,
            title=words(section.title),
            aside=EMPTY,
            passages=method.passages(section, before=first, bold=read_ticket.plain),
        )
        if section.key == PICK_UP:
            pick_up.append(made)
        elif not (has_guide and section.key == AT_THE_PASS):
            others.append(made)
    return tuple(pick_up), tuple(others)


def _says(section: BodySection, sentence: str) -> bool:
    """Return whether a section's first step already begins with a sentence."""
    first = section.blocks[0].pieces[0] if section.blocks and section.blocks[0].pieces else None
    return isinstance(first, Words) and begins_with(first.text, sentence)
