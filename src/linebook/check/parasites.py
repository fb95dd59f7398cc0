"""Fish that is served raw has been frozen for it, or its supplier says why it need not be (LB528).

FDA Food Code 3-402.11 and 3-402.12; Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D. Molluscs
are no fish here: shellfish is exempt, and nobody can tell an oyster from a squid by its origin. Fish that nobody names
as raw, and that is more than one food (sauce, salt cod), is taken to be processed.
"""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.cold_keeping import is_hot, places_of
from linebook.check.index import Index, place
from linebook.check.limits import Figures, figures_for
from linebook.check.words import celsius_text, number_text
from linebook.model.component import Component, Limit
from linebook.model.contents import stage_of
from linebook.model.dating import Places
from linebook.model.dish import Element
from linebook.model.pantry import PantryItem
from linebook.model.taxonomy import SUBSTANCES
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related


def check_raw_fish(index: Index) -> Iterator[Fault]:
    """Yield a warning for each element with raw fish in it that no stage freezes and no supplier exempts."""
    figures = figures_for(index.file.rules) if index.file is not None else None
    if figures is None:
        return
    places = places_of(index)
    for dish in index.dishes.values():
        told: set[str] = set()
        for element in dish.elements:
            for fish in _unfrozen(index, element, places):
                if fish not in told:
                    told.add(fish)
                    yield _not_frozen(index, element, fish, figures)


def _unfrozen(index: Index, element: Element, places: Places) -> Iterator[str]:
    component = index.components.get(element.item)
    if component is None:
        if element.raw and _is_fish(index, element.item, named=True):
            yield element.item
        return
    named = _named_raw(index, component)
    if not element.raw and not named:
        return
    yield from _reached(index, component, named, places, set())


def _named_raw(index: Index, component: Component) -> frozenset[str]:
    """Return the bought items that the plated card itself says are raw in it."""
    return frozenset(item for item in component.raw if _is_fish(index, item, named=True))


def _reached(
    index: Index, component: Component, named: frozenset[str], places: Places, seen: set[str]
) -> Iterator[str]:
    """Yield the fish that gets into a component without being frozen for raw, or cooked where no card calls it raw."""
    if component.id in seen or any(stage.limit is Limit.FREEZE for stage in component.stages):
        return
    seen.add(component.id)
    for at, line in enumerate(component.ingredients):
        cooked = any(is_hot(stage, places) for stage in component.stages[stage_of(component, at) or 0 :])
        if line.item in named or (not named and not cooked and not line.medium and _is_fish(index, line.item)):
            yield line.item
            continue
        if not named and (cooked or line.medium):
            continue
        for part in _parts(index, line.item):
            yield from _reached(index, part, named, places, seen)


def _parts(index: Index, item: str) -> tuple[Component, ...]:
    component = index.components.get(item)
    makers = tuple(maker for maker, _ in index.by_products.get(item, ()))
    return makers if component is None else (component,)


def _is_fish(index: Index, item: str, *, named: bool = False) -> bool:
    """Return whether a bought item is fish and nothing else; if it is ``named`` as raw, whether fish is in it."""
    bought = index.pantry.get(item)
    if bought is None or bought.parasite_exempt is not None or index.is_incomplete(item):
        return False
    if bought.origin is None:
        return named and _declares_fish(bought)
    return "fish" in bought.origin and (bought.one_food or named)


def _declares_fish(bought: PantryItem) -> bool:
    """Return whether a bought item declares fish as an allergen."""
    contains = bought.allergens.contains if bought.allergens is not None else ()
    return any(id_ == "fish" or "fish" in SUBSTANCES[id_].kind_of for id_ in contains if id_ in SUBSTANCES)


def _not_frozen(index: Index, element: Element, fish: str, figures: Figures) -> Fault:
    bought = index.pantry[fish]
    times = " or ".join(
        f"{celsius_text(heat)} for {number_text(minutes / 60)} h" for heat, minutes in figures.freeze_minutes
    )
    return fault(
        "LB528",
        f"`{element.item}` has {bought.name} in it that is served raw, and no stage freezes it for that",
        place(element, "raw", "item"),
        hints=(
            f"add a stage with `limit: {Limit.FREEZE.value}` to its card: {figures.rules} asks for {times}",
            f"or say on `{fish}` why it need not be, as its supplier states: `parasite_exempt: farmed`, `listed tuna`, "
            "`roe` or `frozen by the supplier`",
        ),
        related=(Related(span=bought.span, label="bought here"),),
    )
