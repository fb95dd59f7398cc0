"""All names of a house that have another word in its second language, so that what quotes one can say it there too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linebook.documents.second import item_name, line_name, menu_name, place_name, plate_name, vessel_name
from linebook.documents.text import Text
from linebook.model.house import House


def names_in_second(house: House) -> Mapping[str, str]:
    """Return what each name is in the second language, by how it is printed in the first; none in one language.

    A name that two things have, and not in the second language, is left out.
    """
    if house.second is None:
        return {}
    found: dict[str, set[str]] = {}
    for name in _names(house):
        found.setdefault(name.plain, set()).add("".join(piece.words for piece in name.in_second))
    return {name: others.pop() for name, others in found.items() if len(others) == 1}


def _names(house: House) -> Iterator[Text]:
    for item in (*house.dishes, *house.components, *house.pantry):
        yield item_name(house, item)
    yield from (menu_name(house, menu) for menu in house.menus)
    named = (
        (house.file.lines, line_name),
        (house.file.places, place_name),
        (house.file.vessels, vessel_name),
        (house.file.plates, plate_name),
    )
    for entries, name_of in named:
        yield from (name_of(house, entry.id) for entry in entries)
