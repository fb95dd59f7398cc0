"""The plating guide of a dish: the plate seen from the guest's side, numbered and counted, for the pass."""

from __future__ import annotations

from linebook.compute.results import AllergenTable
from linebook.documents.allergen_lines import dish_allergens
from linebook.documents.braces import PortionBraces
from linebook.documents.elements import ElementRow, ElementWriter
from linebook.documents.measures import Measures, duration_text
from linebook.documents.method import MethodWriter
from linebook.documents.naming import kicker
from linebook.documents.parts import AllergenLine, PlateFigure, Section
from linebook.documents.places import alternative_text, place_text, plate_text, shape_text
from linebook.documents.station_card import AT_THE_PASS, find_plate
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.dish import Element
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT = "plating-guide"
LARGE_PLATE = "plate"


@frozen
class PlatingGuide:
    """All a plating guide shows."""

    id: str
    line: str
    kicker: Text
    title: Text
    aside: Text
    plate_name: Text
    seen: Text
    figure: PlateFigure
    portion_head: Text
    size_heads: tuple[Text, ...]
    elements: tuple[ElementRow, ...]
    count: Text
    call: Text
    allergens: tuple[AllergenLine, ...]
    sections: tuple[Section, ...]


def plating_guide(house: House, dish_id: str, table: AllergenTable, wording: Wording) -> PlatingGuide | None:
    """Return the guide of one dish, or None where the dish names no plate."""
    dish = house.dishes[dish_id]
    plate = find_plate(house, dish)
    if plate is None:
        return None
    measures = Measures(house=house.file, wording=wording)
    elements = ElementWriter(house=house, dish=dish, measures=measures)
    method = MethodWriter(say_amount=PortionBraces(dish=dish, measures=measures).say)
    sizes = [words(size.name) if size else EMPTY for size in elements.sizes]
    return PlatingGuide(
        id=f"{DOCUMENT}:{dish.id}",
        line=dish.line,
        kicker=kicker(house, dish.line, DOCUMENT, wording),
        title=words(dish.name),
        aside=EMPTY if dish.tested else wording.say("draft"),
        plate_name=strong(plate_text(plate, dish.warm, wording)),
        seen=wording.say("plate.seen"),
        figure=PlateFigure(name=LARGE_PLATE, alternative=alternative_text(house, dish, plate, wording), caption=EMPTY),
        portion_head=wording.say("portion.one-of", size=sizes[0]) if sizes[0] else wording.say("portion.one"),
        size_heads=tuple(sizes[1:]),
        elements=elements.rows_with([_note(house, element, wording) for element in dish.elements]),
        count=strong(wording.say_count("plate.count", len(dish.elements))),
        call=wording.say("call", time=duration_text(dish.call)) if dish.call else EMPTY,
        allergens=dish_allergens(house, table, dish_id, wording).lines(),
        sections=tuple(
            Section(key=section.key, title=words(section.title), aside=EMPTY, passages=method.passages(section))
            for section in dish.body.sections
            if section.key == AT_THE_PASS
        ),
    )


def _note(house: House, element: Element, wording: Wording) -> Text:
    """Return what the pass must know of an element: where, how it lies, whether it may be left off, the spec's note."""
    parts = (
        place_text(house, element, wording),
        shape_text(element, wording),
        wording.say("element.leave-off") if element.leave_off else EMPTY,
        words(element.note or ""),
    )
    return joined(parts, wording.say("note.between"))
