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
from linebook.documents.second import course_name, dish_name, menu_text, said_sections, size_name
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
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the line and what sheet this is."""
    title: Text
    """The name of the dish."""
    aside: Text
    """That it is a draft; may be empty."""
    served: Text
    """The course, the plate, and whether it is warm."""
    call: Text
    """How long from call to pass; may be empty."""
    menu_text: Text
    """How the menu words the dish; empty where that is its name."""
    allergens: tuple[AllergenLine, ...]
    """Contains, may contain and undeclared, always all three."""
    portion_head: Text
    """The head over the amounts."""
    size_heads: tuple[Text, ...]
    """The heads of the further sizes."""
    elements: tuple[ElementRow, ...]
    """What a portion carries, in plating order."""
    plate: PlateFigure | None
    """The small drawing, where the dish names a plate."""
    touches: Labelled | None
    """What else it touches, as oil for the pan, where there is any."""
    pick_up: tuple[Section, ...]
    """The pick-up: its first step reads the ticket."""
    sections: tuple[Section, ...]
    """The other parts of the method."""
    asked_label: Text
    """The heading over the verdicts."""
    verdicts: tuple[Verdict, ...]
    """What can be said to a guest who asks, the most certain first."""


def station_card(house: House, dish_id: str, table: AllergenTable, wording: Wording) -> StationCard:
    """Return the card of one dish as the menu of ``table`` serves it."""
    dish = house.dishes[dish_id]
    measures = Measures(house=house.file, wording=wording)
    elements = ElementWriter(house=house, dish=dish, measures=measures)
    allergens = dish_allergens(house, table, dish_id, wording)
    plate = find_plate(house, dish)
    pick_up, sections = _sections(house, dish, measures, has_guide=plate is not None)
    sizes = [size_name(house, dish, size) if size else EMPTY for size in elements.sizes]
    return StationCard(
        id=f"{DOCUMENT}:{dish.id}",
        line=dish.line,
        kicker=kicker(house, dish.line, DOCUMENT, wording),
        title=dish_name(house, dish.id),
        aside=EMPTY if dish.tested else wording.say("draft"),
        served=_served(house, house.menus[table.menu], dish, plate, wording),
        call=wording.say("call", time=duration_text(dish.call, wording)) if dish.call else EMPTY,
        menu_text=_menu_text(house, dish),
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


def _menu_text(house: House, dish: Dish) -> Text:
    """Return how the menu words the dish, unless that is its name."""
    text = dish.menu_text or ""
    return EMPTY if text.casefold() == dish.name.casefold() else menu_text(house, dish)


def _served(house: House, menu: Menu, dish: Dish, plate: Plate | None, wording: Wording) -> Text:
    course = next(
        (course_name(house, course) for course in menu.courses if course.id == dish.course), words(dish.course)
    )
    return strong(wording.listed((course, plate_text(house, plate, dish.warm, wording) if plate else EMPTY)))


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


def _sections(
    house: House, dish: Dish, measures: Measures, *, has_guide: bool
) -> tuple[tuple[Section, ...], tuple[Section, ...]]:
    """Return the pick-up, and the other sections; what is for the pass is on the plating guide if there is one."""
    method = MethodWriter(say_amount=PortionBraces(dish=dish, measures=measures).say, measures=measures)
    read_ticket = strong(measures.wording.say("pick-up.read-ticket"))
    pick_up: list[Section] = []
    others: list[Section] = []
    for said in sorted(said_sections(house, dish), key=lambda said: said.own.key != PICK_UP):
        key = said.own.key
        first = (read_ticket,) if key == PICK_UP and not _says(said.first, read_ticket.plain) else ()
        if key == PICK_UP:
            pick_up.append(method.section(house, said, before=first, bold=read_ticket))
        elif not (has_guide and key == AT_THE_PASS):
            others.append(method.section(house, said, bold=read_ticket))
    return tuple(pick_up), tuple(others)


def _says(section: BodySection, sentence: str) -> bool:
    """Return whether a section's first step already begins with a sentence."""
    first = section.blocks[0].pieces[0] if section.blocks and section.blocks[0].pieces else None
    return isinstance(first, Words) and begins_with(first.text, sentence)
