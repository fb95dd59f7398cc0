"""What cures food stays under the ceiling that the house names for it (LB327); what cures has a ceiling (LB329)."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor
from typing import Final

from linebook.check.curing import Curing, Ingoing, Weights
from linebook.check.index import Index, place
from linebook.check.weights import grams_of, line_amounts
from linebook.model.component import Component
from linebook.model.numbers import write_number
from linebook.model.pantry import PantryItem
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related
from linebook.source.nearest import nearest
from linebook.source.spans import Span

_HALF: Final = Fraction(1, 2)
_ENOUGH: Final = 3
"""How many of the items it goes on are named."""


def check_ceilings(index: Index) -> Iterator[Fault]:
    """Yield a fault for each card on which an active substance is over its ceiling, or cannot be told to be under."""
    if index.file is None or not index.file.ceilings or not any(item.strength for item in index.pantry.values()):
        return
    curing = _curing(index)
    for component in index.components.values():
        if index.is_incomplete(component.id) or index.is_incomplete("house"):
            continue
        for found in curing.ingoing(component):
            if found.is_over and not _has_loose_end(index, component):
                yield over_ceiling(index.file.at("ceilings"), component, found, index_names(index))


def over_ceiling(ceilings: Span, component: Component, found: Ingoing, names: dict[str, str]) -> Fault:
    """Return LB327 for one substance of one card; ``names`` are the printed names of items."""
    line = component.ingredients[found.line]
    word = found.substance.replace("-", " ")
    most = f"{ppm(found.ceiling or Fraction(0))} ppm"
    if found.part is None or found.unweighed:
        unknown = [names.get(item, item) for item in found.unweighed or found.of]
        of = f"the weight of {_listed(unknown)}" if unknown else "what it cures"
        message = f"{word} from `{line.item}` cannot be held against the ceiling of {most}, because {of} is not known"
        hints = ["give all of it by weight, or in the pantry the weight of one, such as `weighs: {each: 45 g}`"]
    else:
        share = "of its brine and what is in it" if found.estimated else f"of {_listed([names[i] for i in found.of])}"
        comes = f"{ppm(found.part, found.ceiling)} ppm {share}"
        message = f"{word} from `{line.item}` comes to {comes}, over the ceiling of {most}"
        hints = [
            f"use at most {ppm_scaled(found)} of the `{line.item}`",
            "where it goes on something else than that, write its amount as a percentage and name that in `of:`",
        ]
    related = (Related(span=ceilings, label="the ceiling"),)
    return fault("LB327", message, line.at("amount"), hints=hints, related=related)


def ppm(part: Fraction, ceiling: Fraction | None = None) -> str:
    """Return a part of one in parts per million, in three figures; in more where it would not look over its ceiling."""
    million = part * 1_000_000
    places = 0 if million >= 100 else 1 if million >= 10 else 2
    most = None if ceiling is None or part <= ceiling else ceiling * 1_000_000
    while most is not None and floor(million * 10**places + _HALF) <= most * 10**places:
        places += 1
    return write_number(Fraction(floor(million * 10**places + _HALF), 10**places))


def ppm_scaled(found: Ingoing) -> str:
    """Return how much of what is written may stay, in per cent, told downwards: ``62 %``."""
    assert found.part is not None
    assert found.ceiling is not None
    return f"{found.ceiling / found.part * 100 // 1} %"


def check_ceilings_named(index: Index) -> Iterator[Fault]:
    """Yield a warning for each active substance that a card uses without a ceiling, and for each ceiling of nothing."""
    if index.file is None or index.is_incomplete("house"):
        return
    ceilings = index.file.ceilings
    known = {substance for item in index.pantry.values() for substance in item.strength}
    meant: set[str] = set()
    told: set[str] = set()
    for item in index.pantry.values():
        for substance in item.strength:
            if substance in ceilings or substance in told or not _is_used(index, item):
                continue
            told.add(substance)
            near = nearest(substance, [name for name in ceilings if name not in known])
            meant.add(near or "")
            yield _without_ceiling(item, substance, near)
    for substance in ceilings:
        if substance in known or substance in meant or index.parsed.broken:
            continue
        near = nearest(substance, known)
        yield fault(
            "LB329",
            f"`ceilings:` names `{substance}`, and no pantry item says how much of it is in it",
            place(index.file, f"ceilings.{substance}", "ceilings"),
            hints=(
                *((f"did you mean `{near}`?",) if near else ()),
                f"give the item its strength, such as `strength: {{{substance}: 0.6 %}}`, or take the ceiling out",
            ),
        )


def _without_ceiling(item: PantryItem, substance: str, near: str | None) -> Fault:
    return fault(
        "LB329",
        f"`{item.id}` brings `{substance}`, and house.yaml names no ceiling for it",
        place(item, f"strength.{substance}", "strength"),
        hints=(
            *((f"did you mean `{near}`?",) if near else ()),
            f"add the limit of the rules you follow to house.yaml, such as `ceilings: {{{substance}: 150 ppm}}`",
        ),
    )


def index_names(index: Index) -> dict[str, str]:
    """Return the printed names of all items."""
    names = {id_: item.name for id_, item in index.pantry.items()}
    names |= {id_: entries[0][1].name for id_, entries in index.by_products.items()}
    return names | {id_: component.name for id_, component in index.components.items()}


def _curing(index: Index) -> Curing:
    def weights(component: Component) -> Weights:
        amounts = line_amounts(index, component)
        return tuple(
            None if amount is None else grams_of(index, line.item, amount)
            for line, amount in zip(component.ingredients, amounts, strict=True)
        )

    assert index.file is not None
    return Curing(
        pantry=index.pantry,
        components=index.components,
        by_products=index.by_products,
        served=frozenset(element.item for dish in index.dishes.values() for element in dish.ever_served),
        ceilings=index.file.ceilings,
        weights=weights,
        made=lambda component: grams_of(index, component.id, component.makes),
    )


def _has_loose_end(index: Index, component: Component) -> bool:
    """Return whether a line names what does not exist: that is told already, and its weight is not known."""
    words = {word for line in component.ingredients for word in (line.item, *getattr(line.amount, "of", ()))}
    return any(word not in index.items and word != "batch" for word in words)


def _is_used(index: Index, item: PantryItem) -> bool:
    return any(reference.item == item.id for reference in index.references)


def _listed(names: list[str]) -> str:
    more = "" if len(names) <= _ENOUGH else " and more"
    return ", ".join(f"`{name}`" for name in names[:_ENOUGH]) + more
