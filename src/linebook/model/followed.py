"""A house that notes which fields of its records are looked at, and which of these are not the same in two houses.

Owns the numbers of those fields. A field is noted by its record alone: what lies deeper comes with it. What no number
stands for (which ids there are and their order, the house file, who leaves what over, other languages) must be the same
throughout. It must not know what a house is looked at for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any, Final

from linebook.model.component import Component
from linebook.model.house import House
from linebook.model.record import Record
from linebook.source.following import STEP, following, spelt

_KINDS: Final = ("dishes", "components", "pantry", "menus")


def followed(house: House) -> House:
    """Return the same house, whose dishes, components, pantry items and menus note what is looked at of them."""
    number = 0
    copies: dict[int, Any] = {}
    mappings: dict[str, Any] = {}
    for kind in _KINDS:
        made: dict[str, Any] = {}
        for id_, record in _records(house, kind).items():
            made[id_] = copies[id(record)] = following(record, number)
            number += STEP
        mappings[kind] = MappingProxyType(made)
    by_products = {
        item: tuple((_parent(copies, mappings, maker), entry) for maker, entry in makers)
        for item, makers in house.by_products.items()
    }
    return replace(house, **mappings, by_products=MappingProxyType(by_products))


def numbers_of(house: House) -> int:
    """Return the first number that no field of a house has."""
    return STEP * sum(len(_records(house, kind)) for kind in _KINDS)


def record_of(house: House, number: int) -> Record:
    """Return the record of a house that has a number."""
    at = number // STEP
    for kind in _KINDS:
        records = _records(house, kind)
        if at < len(records):
            return list(records.values())[at]
        at -= len(records)
    raise KeyError(number)


def find_changed(before: House, after: House) -> frozenset[int] | None:
    """Return the numbers of the fields that two houses, not followed, do not have in common.

    None where they differ in something that has no number.
    """
    if not _in_common(before, after):
        return None
    return frozenset(_changed(before, after))


def _changed(before: House, after: House) -> Iterator[int]:
    number = 0
    for kind in _KINDS:
        for was, now in zip(_records(before, kind).values(), _records(after, kind).values(), strict=True):
            if was is not now:
                for at, name in enumerate(type(now).__dataclass_fields__):
                    if spelt(getattr(was, name)) != spelt(getattr(now, name)):
                        yield number + at
            number += STEP


def _in_common(before: House, after: House) -> bool:
    """Return whether two houses are the same in all that has no number."""
    if any(list(_records(before, kind)) != list(_records(after, kind)) for kind in _KINDS):
        return False
    for name in ("file", "second", "tonight"):
        was, now = getattr(before, name), getattr(after, name)
        if was is not now and spelt(was) != spelt(now):
            return False
    return spelt(_left_over(before)) == spelt(_left_over(after))


def _left_over(house: House) -> object:
    """Return who leaves what: a card by its id, or whole where it is not as the house has it, which has no number."""
    return [
        (item, maker.id if maker is house.components.get(maker.id) else maker, entry)
        for item, makers in house.by_products.items()
        for maker, entry in makers
    ]


def _records(house: House, kind: str) -> Mapping[str, Record]:
    records: Mapping[str, Record] = getattr(house, kind)
    return records


def _parent(copies: Mapping[int, Any], mappings: Mapping[str, Any], maker: Component) -> Component:
    """Return who leaves a by-product: the card as the house has it, or as it was written where that is another one."""
    known: Component | None = copies.get(id(maker))
    return known if known is not None else following(maker, mappings["components"][maker.id].__number__)
