"""What allergens are called on paper, in each language printed: the lists, their groups, the foods.

Owns how a food's name follows its group's: *nuts (walnut)*, *frutos de cáscara (nueces)*. English names are those the
findings bring; another language's are the taxonomy's, in its law's own words, and are loaded only where it is printed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache, lru_cache
from types import ModuleType
from typing import Final

from linebook.compute.results import Column
from linebook.documents.second import avoidance_name
from linebook.documents.text import EMPTY, Text, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.taxonomy import LISTS, SUBSTANCES, Jurisdiction, covered_by

_ENGLISH: Final = "en"
_NOT_NAMED: Final = "not named"
_KNOWN: Final = 1024
"""Texts kept: the same few stand on every card."""


def column_text(
    column: Column, substances: Sequence[str], wording: Wording, reason: Text = EMPTY, *, house: House | None = None
) -> Text:
    """Return a column's name with the substances it stands for, and a reason: *tree nuts (walnut)*.

    ``substances`` are English printed names. ``house`` is the one whose lists and own avoidances are meant.
    """
    if _is_on_lists(column) and not reason:
        return _known_text(column, tuple(substances), wording, _lists(house))
    inside = (*added_names(column, substances, wording, house), reason)
    return _with_inside(column_name(column, wording, house), inside, wording)


def added_names(column: Column, substances: Sequence[str], wording: Wording, house: House | None) -> tuple[Text, ...]:
    """Return what substances add to the name of their column: *walnut* to *nuts*."""
    return _added_names(column, substances, wording, _lists(house))


def column_name(column: Column, wording: Wording, house: House | None = None) -> Text:
    """Return the name of a column alone."""
    if _is_on_lists(column):
        return _name_on(column, wording, _lists(house))
    return avoidance_name(house, column.id.removesuffix("-own"), column.name) if house else words(column.name)


def substance_name(name: str, wording: Wording) -> Text:
    """Return the printed name of a substance, which is given in English."""
    return _said(wording, lambda language: _substance_name(name, language) if _is_other(language) else name)


def list_title(code: str, wording: Wording) -> Text:
    """Return what a list is called."""
    return _said(
        wording, lambda language: _names_in(language).TITLES[code] if _is_other(language) else LISTS[code].title
    )


def list_short(short: str, wording: Wording) -> Text:
    """Return the short name of a list, which is given in English."""
    return _said(wording, lambda language: _short(short, language))


@cache
def adds_to(group: str, substance: str, not_named: str = _NOT_NAMED) -> str:
    """Return what a substance's name adds to its group's: *walnut* to *nuts*, nothing where *soy* is *soybeans*.

    Of a general name only the remark is left: *fish, species not named* adds *species not named* to *fish*.
    """
    name, comma, remark = substance.partition(", ")
    if comma and remark.endswith(not_named):
        return remark
    group_words = [_stem(word) for word in group.split()]
    known = all(any(word.startswith(_stem(part)) for word in group_words) for part in name.split())
    return "" if known else substance


def _is_on_lists(column: Column) -> bool:
    """Return whether what a column is called does not depend on the house, but for its lists."""
    return not column.own or bool(column.diet)


@lru_cache(_KNOWN)
def _known_text(column: Column, substances: tuple[str, ...], wording: Wording, lists: tuple[str, ...]) -> Text:
    inside = _added_names(column, substances, wording, lists)
    return _with_inside(_name_on(column, wording, lists), inside, wording)


def _with_inside(group: Text, inside: Sequence[Text], wording: Wording) -> Text:
    members = wording.listed(inside)
    return wording.say("allergens.group", group=group, members=members) if members else group


def _name_on(column: Column, wording: Wording, lists: tuple[str, ...]) -> Text:
    if column.diet:
        return wording.say(f"also.{column.diet}")
    return _said(wording, lambda language: _group_name(column, language, lists))


def _added_names(
    column: Column, substances: Sequence[str], wording: Wording, lists: tuple[str, ...]
) -> tuple[Text, ...]:
    if column.diet:
        return tuple(wording.say(f"origin.{word}") for word in substances if word != column.diet)
    return tuple(_added(column, name, wording, lists) for name in substances if adds_to(column.name, name))


def _added(column: Column, name: str, wording: Wording, lists: tuple[str, ...]) -> Text:
    """Return what a substance adds to a column's name. Whether it adds anything, English decides for all."""

    def added_in(language: str) -> str:
        if not _is_other(language):
            return adds_to(column.name, name)
        other = _substance_name(name, language)
        return adds_to(_group_name(column, language, lists), other, _names_in(language).NOT_NAMED) or other

    return _said(wording, added_in)


def _said(wording: Wording, name_in: Callable[[str], str]) -> Text:
    second = name_in(wording.second_language) if wording.second_language else ""
    return words(name_in(wording.language), second)


def _lists(house: House | None) -> tuple[str, ...]:
    return house.file.allergens.lists if house else tuple(LISTS)


@cache
def _group_name(column: Column, language: str, lists: tuple[str, ...]) -> str:
    """Return a column's name as the first of the house's lists that has its group words it in a language."""
    if not _is_other(language):
        return column.name
    for code in lists:
        for group in LISTS[code].groups if code in LISTS else ():
            clashing = f"{group.id}-{code}"
            if column.id in (group.id, clashing) and covered_by(group.members) == column.substances:
                name: str = _names_in(language).GROUP_NAMES[code][group.id].text
                return f"{name} ({_having(column, language)})" if column.id == clashing else name
    return column.name


def _having(column: Column, language: str) -> str:
    """Return whose group it is, where two of one name stand side by side: *nuts (EU, UK)*."""
    having = column.name.rpartition("(")[2].rstrip(")").split(", ")
    return ", ".join(_short(short, language) for short in having)


@cache
def _substance_name(name: str, language: str) -> str:
    """Return what a food is called in another language; what is not in the taxonomy stays as it is."""
    id_ = next((substance.id for substance in SUBSTANCES.values() if substance.name == name), None)
    found: str = _names_in(language).SUBSTANCE_NAMES[id_].text if id_ else name
    return found


def _short(short: str, language: str) -> str:
    of: Jurisdiction | None = next((list_ for list_ in LISTS.values() if list_.short == short), None)
    found: str = _names_in(language).SHORT[of.id] if of and _is_other(language) else short
    return found


def _is_other(language: str) -> bool:
    return language != _ENGLISH


def _names_in(language: str) -> ModuleType:
    """Return the taxonomy's names in another language; Spanish is the one there is."""
    from linebook.model.taxonomy import spanish

    return {"es": spanish}[language]


def _stem(name: str) -> str:
    lower = name.casefold()
    return lower[:-1] if lower.endswith("s") else lower
