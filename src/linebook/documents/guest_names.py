"""What a guest's avoidances are called on paper and in the terminal, in each language printed.

Owns the names of groups, substances and diets as an avoidance has them, and what a word was taken as. Another
language's names are the taxonomy's own, loaded only where it is printed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from types import ModuleType
from typing import Final

from linebook.compute.avoidances import Avoidance
from linebook.documents.allergen_names import adds_to
from linebook.documents.guest_request import AskedWord
from linebook.documents.second import avoidance_name, item_name
from linebook.documents.text import Text, joined, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.taxonomy import LISTS, SUBSTANCES

_ENGLISH: Final = "en"
_WAYS_OF_EATING: Final = frozenset(("vegetarian", "vegan", "pescatarian"))
_MOST_FOODS: Final = 8
_KIND_DOES_NOT_MATTER: Final = frozenset(("egg", "milk"))
"""Groups of which nobody needs to be told which one it is; of nuts, cereals and fish everybody does."""


def name_of(house: House, avoidance: Avoidance, wording: Wording) -> Text:
    """Return what one avoidance is called."""
    if avoidance.kind == "own":
        return avoidance_name(house, avoidance.id, avoidance.name)
    if avoidance.kind == "diet":
        return wording.say(f"diet.{avoidance.id}")
    if avoidance.kind == "item":
        return item_name(house, avoidance.id) if _is_food(house, avoidance.id) else words(avoidance.name)
    return _said(wording, lambda language: _group_in(house, avoidance, language))


def avoided_name(house: House, avoidance: Avoidance, wording: Wording) -> Text:
    """Return what a dish may hold that is avoided: *what is not vegan* of a way of eating, else its name."""
    if avoidance.id in _WAYS_OF_EATING:
        return wording.say(f"forbids.{avoidance.id}")
    return name_of(house, avoidance, wording)


def what_is_in_it(
    house: House, avoidance: Avoidance, substances: Iterable[str], items: Sequence[str], wording: Wording
) -> Text:
    """Return what of an avoidance is in a food: *nuts (walnut)*, *what is not vegan (double cream)*, *chives*."""
    if avoidance.kind == "item":
        foods = [id_ for id_ in substances if _is_food(house, id_)]
        bought = [id_ for id_ in foods if id_ in house.pantry] or foods
        return few(wording, [item_name(house, id_) for id_ in bought or items])
    name = avoided_name(house, avoidance, wording)
    if avoidance.kind == "diet":
        return wording.say(
            "allergens.group", group=name, members=few(wording, [item_name(house, id_) for id_ in items], 1)
        )
    if avoidance.kind == "own":
        return name
    added = [_substance(wording, avoidance, id_, house) for id_ in substances if _adds(avoidance, id_)]
    return wording.say("allergens.group", group=name, members=wording.listed(added)) if added else name


def taken_as(house: House, asked: AskedWord, wording: Wording) -> Text:
    """Return what a guest's word is taken as: *nuts and peanuts*; foods by name are counted up."""
    return wording.listed_with_and(_taken(house, one, wording) for one in asked.avoidances)


def few(wording: Wording, texts: Sequence[Text], most: int = 3) -> Text:
    """Return the first of some names, and how many more there are where it is more than one."""
    if len(texts) <= most + 1:
        return wording.named(texts)
    return wording.say_count("guest.more", len(texts) - most, first=wording.named(texts[:most]))


def _taken(house: House, avoidance: Avoidance, wording: Wording) -> Text:
    name = name_of(house, avoidance, wording)
    if avoidance.kind != "item" or avoidance.items == {avoidance.id}:
        return name
    foods = sorted((id_ for id_ in avoidance.items), key=lambda id_: (id_ not in house.pantry, id_))
    named = few(wording, [item_name(house, id_) for id_ in foods], _MOST_FOODS)
    return wording.say("guest.taken.foods", foods=named) if foods else wording.say("guest.taken.no-food", name=name)


def _is_food(house: House, id_: str) -> bool:
    return id_ in house.pantry or id_ in house.components or id_ in house.by_products


def _adds(avoidance: Avoidance, substance: str) -> bool:
    known = None if avoidance.id in _KIND_DOES_NOT_MATTER else SUBSTANCES.get(substance)
    return known is not None and bool(adds_to(avoidance.name, known.name))


def _substance(wording: Wording, avoidance: Avoidance, substance: str, house: House) -> Text:
    """Return what a substance adds to the name of its avoidance. Whether it adds anything, English decides for all."""

    def added_in(language: str) -> str:
        if language == _ENGLISH:
            return adds_to(avoidance.name, SUBSTANCES[substance].name)
        names = _names_in(language)
        other: str = names.SUBSTANCE_NAMES[substance].text
        return adds_to(_group_in(house, avoidance, language), other, names.NOT_NAMED) or other

    return _said(wording, added_in)


def _group_in(house: House, avoidance: Avoidance, language: str) -> str:
    """Return the name of a group or substance, as the first list of the house that has it words it."""
    if language == _ENGLISH:
        return avoidance.name
    names = _names_in(language)
    if avoidance.kind == "group":
        for code in (*house.file.allergens.lists, *LISTS):
            if any(group.id == avoidance.id for group in LISTS[code].groups):
                found: str = names.GROUP_NAMES[code][avoidance.id].text
                return found
    known = names.SUBSTANCE_NAMES.get(avoidance.id)
    return known.text if known else avoidance.name


def _said(wording: Wording, name_in: Callable[[str], str]) -> Text:
    second = name_in(wording.second_language) if wording.second_language else ""
    return words(name_in(wording.language), second)


def _names_in(language: str) -> ModuleType:
    """Return the taxonomy's names in another language; Spanish is the one there is."""
    from linebook.model.taxonomy import spanish

    return {"es": spanish}[language]


def with_between(parts: Iterable[Text], wording: Wording) -> Text:
    """Return parts in a row, parted by semicolons."""
    return joined(parts, wording.say("list.semicolon"))
