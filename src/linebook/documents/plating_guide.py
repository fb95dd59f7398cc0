"""The plating guide of a dish: the plate seen from the guest's side, numbered and counted, for the pass."""

from __future__ import annotations

from hashlib import blake2b

from linebook.compute.results import AllergenTable
from linebook.documents.allergen_lines import dish_allergens
from linebook.documents.braces import PortionBraces
from linebook.documents.elements import ElementRow, ElementWriter
from linebook.documents.measures import Measures, duration_text
from linebook.documents.method import MethodWriter
from linebook.documents.naming import kicker
from linebook.documents.parts import AllergenLine, PlateFigure, Section
from linebook.documents.places import alternative_text, place_text, plate_text, shape_text, side_text
from linebook.documents.second import dish_name, element_note, item_name, said_sections, size_name
from linebook.documents.station_card import AT_THE_PASS, find_plate
from linebook.documents.text import EMPTY, Text, joined, strong
from linebook.documents.wording import Wording
from linebook.model.dish import Dish, Element
from linebook.model.house import House, Plate
from linebook.model.standing import is_built
from linebook.source.frozen import frozen

DOCUMENT = "plating-guide"
LARGE_PLATE = "plate"
SIDE_VIEW = "side"
PHOTO = "photo"


@frozen
class PlatingGuide:
    """All a plating guide shows."""

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
    plate_name: Text
    """The plate, and whether it is warm."""
    seen: Text
    """From which side the drawing is seen."""
    figure: PlateFigure
    """The large drawing, from above."""
    side: PlateFigure | None
    """The drawing from the side, to the same scale, where something on the plate is built up."""
    photo: PlateFigure | None
    """The photograph, where the spec names one."""
    portion_head: Text
    """The head over the amounts."""
    size_heads: tuple[Text, ...]
    """The heads of the further sizes."""
    elements: tuple[ElementRow, ...]
    """What a portion carries, in plating order."""
    count: Text
    """How many things are on the plate."""
    call: Text
    """How long from call to pass; may be empty."""
    allergens: tuple[AllergenLine, ...]
    """Contains, may contain and undeclared, always all three."""
    sections: tuple[Section, ...]
    """What the pass looks for."""


def plating_guide(
    house: House, dish_id: str, table: AllergenTable, wording: Wording, *, photo: str = ""
) -> PlatingGuide | None:
    """Return the guide of one dish, or None where the dish names no plate.

    ``photo`` is the name under which its photograph is kept beside the sheet, empty where there is none.
    """
    dish = house.dishes[dish_id]
    plate = find_plate(house, dish)
    if plate is None:
        return None
    measures = Measures(house=house.file, wording=wording)
    elements = ElementWriter(house=house, dish=dish, measures=measures)
    method = MethodWriter(say_amount=PortionBraces(dish=dish, measures=measures).say, measures=measures)
    sizes = [size_name(house, dish, size) if size else EMPTY for size in elements.sizes]
    return PlatingGuide(
        id=f"{DOCUMENT}:{dish.id}",
        line=dish.line,
        kicker=kicker(house, dish.line, DOCUMENT, wording),
        title=dish_name(house, dish.id),
        aside=EMPTY if dish.tested else wording.say("draft"),
        plate_name=strong(plate_text(house, plate, dish.warm, wording)),
        seen=wording.say("plate.seen"),
        figure=PlateFigure(name=LARGE_PLATE, alternative=alternative_text(house, dish, plate, wording), caption=EMPTY),
        side=_side(house, dish, plate, wording),
        photo=_photo(house, dish, photo, wording),
        portion_head=wording.say("portion.one-of", size=sizes[0]) if sizes[0] else wording.say("portion.one"),
        size_heads=tuple(sizes[1:]),
        elements=elements.rows_with([_note(house, dish, element, wording) for element in dish.elements]),
        count=strong(wording.say_count("plate.count", len(dish.elements))),
        call=wording.say("call", time=duration_text(dish.call, wording)) if dish.call else EMPTY,
        allergens=dish_allergens(house, table, dish_id, wording).lines(),
        sections=tuple(
            method.section(house, said) for said in said_sections(house, dish) if said.own.key == AT_THE_PASS
        ),
    )


def photo_name(content: bytes) -> str:
    """Return the name of a photograph beside its sheet, another one where the picture is another."""
    return f"{PHOTO}-{blake2b(content, digest_size=4).hexdigest()}"


def _side(house: House, dish: Dish, plate: Plate, wording: Wording) -> PlateFigure | None:
    if not is_built(dish.elements):
        return None
    usual = any(element.height is None for element in dish.elements)
    return PlateFigure(
        name=SIDE_VIEW,
        alternative=side_text(house, dish, plate, wording),
        caption=wording.say("side.caption.usual" if usual else "side.caption"),
    )


def _photo(house: House, dish: Dish, name: str, wording: Wording) -> PlateFigure | None:
    if not name:
        return None
    alternative = wording.say("photo.alternative", dish=item_name(house, dish.id))
    return PlateFigure(name=name, alternative=alternative, caption=EMPTY)


def _note(house: House, dish: Dish, element: Element, wording: Wording) -> Text:
    """Return what the pass must know of an element: where, how it lies, whether it may be left off, the spec's note."""
    parts = (
        place_text(house, element, wording),
        shape_text(element, wording),
        wording.say("element.leave-off") if element.leave_off else EMPTY,
        element_note(house, dish, element),
    )
    return joined(parts, wording.say("note.between"))
