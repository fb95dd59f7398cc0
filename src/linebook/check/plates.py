"""Elements have a plate, stand on what is there, and stay on it (LB601, LB603, LB604)."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.index import Index
from linebook.check.words import listing, number_text
from linebook.model.dish import Dish, Element
from linebook.model.house import Plate
from linebook.model.plating import lay_out, overhang
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related


def check_stacking(index: Index) -> Iterator[Fault]:
    """Yield a fault for each element that stands on itself, or on one that is set on the plate after it.

    What stands on something the dish does not have is told with all else the card speaks of and does not list.
    """
    for dish in index.dishes.values():
        for number, element in enumerate(dish.elements):
            earlier = {other.item for other in dish.elements[:number]}
            if element.on is not None and element.on not in earlier:
                yield from _set_after(element, dish.elements[number:])


def check_plate_named(index: Index) -> Iterator[Fault]:
    """Yield a fault for each dish that names no plate and has places for its elements, or a photograph, nonetheless."""
    for dish in index.dishes.values():
        placed = [element for element in dish.elements if element.places]
        if (placed or dish.photo) and dish.plate is None and not index.is_incomplete(dish.id):
            plates = [plate.id for plate in index.file.plates] if index.file is not None else []
            known = f", one of {listing(plates, 'or')}" if 0 < len(plates) <= 8 else ""
            yield fault(
                "LB604",
                f"{dish.name} has places for its elements and no plate to set them on"
                if placed
                else f"{dish.name} has a photograph and no plate, so that no plating guide shows it",
                placed[0].at("at") if placed else dish.at("photo"),
                hints=(f"add `plate:` and the id of a plate of house.yaml{known}",),
                related=(Related(span=dish.at("name"), label="no `plate` here"),),
            )


def check_on_the_plate(index: Index) -> Iterator[Fault]:
    """Yield a fault for each element that reaches over the plate's edge as it is placed and sized.

    Only what the spec says is held against it: an element without a size, or several at one place, may be drawn
    larger than it lies.
    """
    plates = {plate.id: plate for plate in index.file.plates} if index.file is not None else {}
    for dish in index.dishes.values():
        plate = plates.get(dish.plate or "")
        if plate is not None and not index.is_incomplete(dish.id):
            yield from _off_the_plate(dish, plate)


def _off_the_plate(dish: Dish, plate: Plate) -> Iterator[Fault]:
    laid = lay_out(dish.elements, plate)
    for number, element in enumerate(dish.elements):
        things = [thing for thing in laid if thing.element == number]
        if element.size is None or len(things) > max(1, len(element.places)):
            continue
        over = max(overhang(thing, plate) for thing in things)
        if over >= 1:
            yield fault(
                "LB601",
                f"`{element.item}` reaches {round(over)} mm over the edge of {plate.name}",
                element.at("size"),
                hints=(
                    f"{plate.name} is {number_text(plate.length)} x {number_text(plate.width)} mm: "
                    "make the element smaller, turn it, or bring its `reach` nearer to 0",
                ),
            )


def _set_after(element: Element, later: tuple[Element, ...]) -> Iterator[Fault]:
    under = next((other for other in later if other.item == element.on), None)
    if under is element:
        message = f"`{element.item}` stands on itself"
        yield fault("LB603", message, element.at("on"), hints=("name the element that lies under it",))
    elif under is not None:
        yield fault(
            "LB603",
            f"`{element.item}` stands on `{under.item}`, which is set after it",
            element.at("on"),
            hints=("elements are listed bottom to top: move the line of what lies under it up",),
            related=(Related(span=under.at("item"), label="set only here"),),
        )
