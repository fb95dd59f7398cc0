"""The figures of a plating guide: the plate from above, from the side where it is built up, and its photograph.

Owns which figures a guide has and how much room each is given. It must not know how a sheet is laid out.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from typing import Final

from linebook.documents.places import alternative_text, side_text
from linebook.documents.plating_guide import LARGE_PLATE, SIDE_VIEW, photo_name
from linebook.documents.station_card import find_plate
from linebook.documents.wording import Wording
from linebook.figures.plates import BESIDE, LARGE, draw_plate
from linebook.figures.shapes import Drawing, Picture
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.standing import is_built
from linebook.source.faults import Outcome
from linebook.source.frozen import frozen

PHOTO_BOX_MM: Final = (120.0, 120.0)
"""The largest a photograph is printed, with room for a wall poster of twice the size."""


@frozen
class GuideFigures:
    """The figures of one guide by name, and the name of the photograph among them, empty where there is none."""

    figures: Mapping[str, Drawing | Picture]
    photo: str = ""


def guide_figures(house: House, dish: Dish, folder: Path, wording: Wording) -> Outcome[GuideFigures]:
    """Return the figures of a dish's plating guide. Faults: LB113, LB608 to LB610 for its photograph."""
    plate = find_plate(house, dish)
    if plate is None:
        return Outcome(value=GuideFigures(figures={}))
    figures: dict[str, Drawing | Picture] = {}
    photo = ""
    if dish.photo is not None:
        from linebook.pictures import Photograph, prepare

        photograph = Photograph(root=folder, path=PurePosixPath(dish.photo), at=dish.at("photo"))
        picture = prepare(photograph, *PHOTO_BOX_MM, wording.say("photo.alternative", dish=dish.name).plain)
        if picture.value is None:
            return Outcome(value=None, faults=picture.faults)
        photo = photo_name(picture.value.content)
        figures[photo] = picture.value
    built = is_built(dish.elements)
    room = BESIDE if photo or built else LARGE
    from_above = alternative_text(house, dish, plate, wording).plain
    figures[LARGE_PLATE] = draw_plate(plate, dish.elements, small=False, alternative=from_above, room=room)
    if built:
        from linebook.figures.elevation import draw_elevation

        sideways = side_text(house, dish, plate, wording).plain
        figures[SIDE_VIEW] = draw_elevation(plate, dish.elements, alternative=sideways)
    return Outcome(value=GuideFigures(figures=figures, photo=photo))


def small_plate(house: House, dish: Dish, wording: Wording) -> Drawing | None:
    """Return the small drawing of a dish's plate from above, None where it names no plate."""
    plate = find_plate(house, dish)
    if plate is None:
        return None
    alternative = alternative_text(house, dish, plate, wording).plain
    return draw_plate(plate, dish.elements, small=True, alternative=alternative)
