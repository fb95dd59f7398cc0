"""A house as it is once something has turned out wrong in the middle of service: a new label, a spill, a wrong crate.

No spec file is touched: a bought item's declaration is widened in the house that is held in memory, and what got into
a card or a shared medium is added to it as one more thing. It only ever adds: nothing becomes safer by a void.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from linebook.model.component import Component
from linebook.model.house import House
from linebook.model.pantry import Declaration, PantryItem
from linebook.source.frozen import frozen
from linebook.source.spans import Span


@frozen
class Turned:
    """What is wrong with some things: what they hold, may hold, or that nobody knows what they hold.

    ``says`` is how that is known and ``since`` the day; ``called`` is how what got into a card is called there.
    """

    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    undeclared: bool = False
    says: str = ""
    since: date
    called: str = ""


def find_things(house: House, word: str) -> tuple[str, ...]:
    """Return the ids of what is called so: bought items, components, by-products and shared media."""
    typed = _plain(word)
    return tuple(id_ for id_, names in _things(house).items() if typed in map(_plain, (id_, *names)))


def thing_words(house: House) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return every id, then every name, by which a thing can be voided."""
    things = _things(house)
    return tuple(things), tuple(name for names in things.values() for name in names)


def voided(house: House, things: Iterable[str], turned: Turned) -> House:
    """Return the house in which these things have turned out so."""
    for thing in things:
        house = _with_one(house, thing, turned)
    return house


def spec_of(house: House, thing: str) -> Span:
    """Return where a spec says what is in a thing, which must be mended too."""
    if thing in house.pantry:
        item = house.pantry[thing]
        return item.allergens.at("contains") if item.allergens else item.span
    if thing in house.components:
        return house.components[thing].span
    if thing in house.by_products:
        return house.by_products[thing][0][1].at("item")
    return next(medium.span for medium in house.file.media if medium.id == thing)


def _with_one(house: House, thing: str, turned: Turned) -> House:
    if thing in house.pantry:
        item = house.pantry[thing]
        house = replace(house, pantry={**house.pantry, thing: replace(item, allergens=_widened(item, turned))})
    makers = [parent for parent, _ in house.by_products.get(thing, ())] if thing not in house.pantry else []
    cards = [*([house.components[thing]] if thing in house.components else []), *makers]
    for card in cards:
        house = _into_card(house, card, turned)
    if any(medium.id == thing for medium in house.file.media):
        house = _into_medium(house, thing, turned)
    return house


def _widened(item: PantryItem, turned: Turned) -> Declaration | None:
    """Return the declaration with what is now known; what nobody has declared stays so, which is worse."""
    if turned.undeclared or item.allergens is None:
        return None
    contains = tuple(dict.fromkeys((*item.allergens.contains, *turned.contains)))
    may = dict.fromkeys((*item.allergens.may_contain, *turned.may_contain))
    return replace(
        item.allergens,
        contains=contains,
        may_contain=tuple(one for one in may if one not in contains),
        says=turned.says or item.allergens.says,
        since=turned.since,
    )


def _into_card(house: House, card: Component, turned: Turned) -> House:
    """Add what got into it: from the start, because nobody knows when it did."""
    extra = _extra(house, card.id, card.span, turned)
    changed = replace(card, also_touches=(*card.also_touches, extra.id))
    return replace(
        house,
        pantry={**house.pantry, extra.id: extra},
        components={**house.components, card.id: changed},
        by_products={
            id_: tuple((changed if parent.id == card.id else parent, made) for parent, made in makers)
            for id_, makers in house.by_products.items()
        },
    )


def _into_medium(house: House, medium_id: str, turned: Turned) -> House:
    extra = _extra(house, medium_id, spec_of(house, medium_id), turned)
    media = tuple(
        replace(medium, carries=(*medium.carries, extra.id)) if medium.id == medium_id else medium
        for medium in house.file.media
    )
    return replace(house, file=replace(house.file, media=media), pantry={**house.pantry, extra.id: extra})


def _extra(house: House, thing: str, span: Span, turned: Turned) -> PantryItem:
    id_ = f"void-{thing}"
    while id_ in house.pantry or id_ in house.components:
        id_ += "-more"
    declared = None
    if not turned.undeclared:
        declared = Declaration(
            contains=turned.contains,
            may_contain=tuple(one for one in turned.may_contain if one not in turned.contains),
            says=turned.says,
            since=turned.since,
            span=span,
            spans={},
        )
    return PantryItem(id=id_, name=turned.called, allergens=declared, weighs={}, span=span, spans={})


def _things(house: House) -> dict[str, tuple[str, ...]]:
    """Return everything that can turn out wrong with what it is called, in the order of the specs."""
    found: dict[str, tuple[str, ...]] = {item.id: (item.name, *item.also_called) for item in house.pantry.values()}
    named = [(component.id, component.name) for component in house.components.values()]
    named += [(id_, made.name) for id_, makers in house.by_products.items() for _, made in makers]
    named += [(medium.id, medium.name) for medium in house.file.media]
    for id_, name in named:
        found[id_] = (*found.get(id_, ()), name)
    return found


def _plain(word: str) -> str:
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())
