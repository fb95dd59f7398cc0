"""A house made of its records, before any rule is looked at: which takes few of the modules that the rules take."""

from __future__ import annotations

from types import MappingProxyType

from linebook.check.index import Index
from linebook.check.solvents import with_solvents
from linebook.model.house import House


def whole_house(index: Index) -> House | None:
    """Return a house as it is where the rules find nothing wrong; None where reading has lost a part of it."""
    parsed = index.parsed
    if parsed.file is None or parsed.broken or parsed.incomplete:
        return None
    second = None
    if parsed.translations or parsed.words:
        from linebook.check.translations import gather_translations

        second = gather_translations(index)
    return House(
        file=parsed.file,
        pantry=index.pantry,
        components=with_solvents(index.components, index.pantry),
        dishes=index.dishes,
        menus=index.menus,
        by_products=MappingProxyType(dict(index.by_products)),
        second=second,
    )
