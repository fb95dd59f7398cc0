"""Origins agree with what the items declare (LB409), and what is said to be raw is there (LB201, LB411)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.absent import absent_words
from linebook.check.alternatives import inside_of
from linebook.check.index import Index, place
from linebook.check.words import listing, meant
from linebook.model.pantry import Declaration, PantryItem
from linebook.read.house_folder import PANTRY_ID
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related

_DECLARED: Final = ("milk", "egg", "fish", "crustacean", "mollusc")
"""Origins that are substances too: what is of one declares it."""


def check_origins(index: Index) -> Iterator[Fault]:
    """Yield a fault for each item whose origin and declaration cannot both be right."""
    if index.file is None:
        return
    for item in index.pantry.values():
        if item.origin is not None and item.allergens is not None and not index.is_incomplete(item.id):
            yield from _contradictions(item, item.origin, item.allergens, tuple(index.file.allergens.avoid))


def check_raw(index: Index) -> Iterator[Fault]:
    """Yield a fault for each id under ``raw`` that is no pantry item, or goes into nothing of the component."""
    for component in index.components.values():
        for number, item in enumerate(component.raw):
            span = place(component, f"raw.{number}", "raw")
            if index.is_broken(item) or index.is_incomplete(PANTRY_ID):
                continue
            if item in index.components or item in index.by_products:
                mend = "name the bought items that are raw in it"
                yield fault("LB201", f"`{item}` is made here, and `raw` names pantry items", span, hints=(mend,))
            elif item not in index.pantry:
                mend = meant(item, index.pantry, "add it to a pantry file")
                yield fault("LB201", f"no pantry item has the id `{item}`", span, hints=(mend,))
            elif item not in (inside := inside_of(index, component.id)) and _is_known(index, inside):
                mends = (f"take `{item}` out of `raw`", "or list it where it goes in")
                yield fault("LB411", f"{component.name} has no `{item}` in it, raw or cooked", span, hints=mends)


def _is_known(index: Index, inside: frozenset[str]) -> bool:
    """Return whether everything inside a component can be looked up, so that an item is missing for certain."""
    cards = (index.components[id_] for id_ in inside if id_ in index.components)
    return all(index.knows(id_) and not index.is_broken(id_) for id_ in inside) and not any(
        index.is_incomplete(card.id) or absent_words(card) for card in cards
    )


def _contradictions(
    item: PantryItem, origins: tuple[str, ...], declared: Declaration, own: tuple[str, ...]
) -> Iterator[Fault]:
    from linebook.model.origins import origins_of  # here, because it loads the taxonomy
    from linebook.model.taxonomy import SUBSTANCES

    if any(word not in SUBSTANCES and word not in own for word in declared.contains):
        return  # that word is told, and may be the one that is missing here
    for number, word in enumerate(declared.contains):
        for origin in sorted(origins_of((word,)) - frozenset(origins)):
            yield fault(
                "LB409",
                f"{item.name} contains `{word}`, and its origin is {listing(origins)} alone",
                place(item, "origin"),
                hints=(f"add `{origin}` to `origin`, or correct what it contains",),
                related=(Related(span=place(declared, f"contains.{number}", "contains"), label="contains it"),),
            )
    for number, origin in enumerate(origins):
        if (origin in _DECLARED or origin in own) and origin not in origins_of(declared.contains):
            yield fault(
                "LB409",
                f"{item.name} is of `{origin}`, and does not declare that it contains it",
                place(item, f"origin.{number}", "origin"),
                hints=(f"add the substance to `contains`, or take `{origin}` out of `origin`",),
                related=(Related(span=place(declared, "contains"), label="what it contains"),),
            )
