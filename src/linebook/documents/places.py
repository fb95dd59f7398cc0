"""Where things lie on a plate, in words: clock places, how far out, on what, how large and how turned.

The plate is seen from the guest's side; 6 o'clock is nearest the guest. Everything a drawing shows is said here too,
so that a plate that changes changes the words of its sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import floor
from typing import Final

from linebook.compute.numerals import decimal_text
from linebook.documents.measures import part_text
from linebook.documents.second import item_name, plate_name
from linebook.documents.text import NO_BREAK, Text, joined, words
from linebook.documents.wording import Wording
from linebook.model.dish import Dish, Element, Place, Shape
from linebook.model.house import House, Plate
from linebook.source.exact import Fraction
from linebook.source.remembered import gathered

_STRETCHED: Final = (Shape.LINE, Shape.SWOOSH)


def place_text(house: House, element: Element, wording: Wording) -> Text:
    """Return where an element goes: *5 o'clock, half way out, on Celeriac purée*."""
    reach = []
    if element.reach is not None:
        quarter = min(4, floor(element.reach * 4 + Fraction(1, 2)))
        reach.append(wording.say(f"place.reach.{quarter}"))
    return wording.listed(_place_parts(house, element, wording, reach))


def shape_text(element: Element, wording: Wording) -> Text:
    """Return how an element lies: *swoosh, 90 × 30 mm, turned 20° clockwise*."""
    return wording.listed(_shape_parts(element, wording))


def plate_text(house: House, plate: Plate, warm: bool | None, wording: Wording) -> Text:
    """Return the plate's name and whether it is warm or cold, where the spec says."""
    said = words("") if warm is None else wording.say("plate.warm" if warm else "plate.cold")
    return wording.listed((plate_name(house, plate.id), said))


@gathered
def alternative_text(house: House, dish: Dish, plate: Plate, wording: Wording) -> Text:
    """Return the whole drawing of a dish in words, element by element in plating order."""
    said = [
        wording.say(
            "plate.element",
            number=number,
            name=item_name(house, element.item),
            count=decimal_text(element.amount.number),
            place=wording.listed((_exact_place(house, element, wording), shape_text(element, wording))),
        )
        for number, element in enumerate(dish.elements, start=1)
    ]
    size = (decimal_text(value) for value in (plate.length, plate.width, plate.rim))
    length, width, rim = size
    return wording.say(
        "plate.alternative",
        plate=plate_name(house, plate.id),
        shape=wording.say(f"plate.shape.{plate.shape.value}"),
        length=length,
        width=width,
        rim=rim,
        elements=joined(said, wording.say("list.semicolon")),
    )


@gathered
def side_text(house: House, dish: Dish, plate: Plate, wording: Wording) -> Text:
    """Return the side view of a dish in words, element by element in plating order."""
    said = []
    for number, element in enumerate(dish.elements, start=1):
        base = (
            wording.say("place.on", item=item_name(house, element.on)) if element.on else wording.say("side.on-plate")
        )
        name = item_name(house, element.item)
        if element.height is None:
            said.append(wording.say("side.element.usual", number=number, name=name, base=base))
        else:
            height = decimal_text(element.height)
            said.append(wording.say("side.element", number=number, name=name, height=height, base=base))
    between = wording.say("list.semicolon")
    return wording.say("side.alternative", plate=plate_name(house, plate.id), elements=joined(said, between))


def _exact_place(house: House, element: Element, wording: Wording) -> Text:
    """Return the place with its exact reach, so that no move on the drawing leaves a fingerprint as it was."""
    reach = [] if element.reach is None else [wording.say("place.reach", reach=decimal_text(element.reach))]
    return wording.listed(_place_parts(house, element, wording, reach))


def _place_parts(house: House, element: Element, wording: Wording, reach: Sequence[Text]) -> Iterator[Text]:
    if element.places:
        yield _clock(element, element.places, wording)
    yield from reach
    if element.on:
        yield wording.say("place.on", item=item_name(house, element.on))


def _clock(element: Element, places: Sequence[Place], wording: Wording) -> Text:
    hours = [words("") if place.clock is None else words(part_text(place.clock)) for place in places]
    if element.shape in _STRETCHED and len(places) == 2:
        start, end = (_one(place, wording) for place in places)
        return wording.say("place.from-to", start=start, end=end)
    if all(hours):
        return wording.say(_clock_key(places[0].clock), hours=wording.listed_with_and(hours))
    return wording.listed_with_and(_one(place, wording) for place in places)


def _one(place: Place, wording: Wording) -> Text:
    if place.clock is None:
        return wording.say("place.centre")
    return wording.say(_clock_key(place.clock), hours=part_text(place.clock))


def _clock_key(hour: Fraction | None) -> str:
    """Return the key of an hour, or of hours from it on: one o'clock is a word of its own number in some languages."""
    return "place.clock.from-one" if hour is not None and 1 <= hour < 2 else "place.clock"


def _shape_parts(element: Element, wording: Wording) -> Iterator[Text]:
    if element.shape is not None:
        yield wording.say(f"shape.{element.shape.value}")
    if element.size is not None:
        length, width = element.size
        yield words(f"{decimal_text(length)}{NO_BREAK}×{NO_BREAK}{decimal_text(width)}{NO_BREAK}mm")
    if element.height is not None:
        yield wording.say("place.height", height=decimal_text(element.height))
    if element.turned:
        yield wording.say("place.turned", degrees=decimal_text(element.turned))
