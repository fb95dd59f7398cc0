"""What may stand in for an item can: it exists, makes no component part of itself, and its amounts can be worked out.

Told when the specs are written, so that the night it is needed is not the night it is found (LB201, LB220 to LB222,
LB304, LB314).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from linebook.check.circles import find_circles
from linebook.check.index import Index
from linebook.check.references import item_hints
from linebook.check.weights import base_lines, facts_for
from linebook.model.amounts import Amount, Kind, Percent
from linebook.model.component import Component, Ingredient
from linebook.model.conversion import convert, in_makes
from linebook.model.dish import Dish
from linebook.model.pantry import PantryItem
from linebook.model.quantities import write_amount
from linebook.model.stand_ins import count_words, in_place_of
from linebook.model.supply import Substitute
from linebook.model.units import GRAM, same_measure
from linebook.read.house_folder import PANTRY_ID
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related, ValueMistake
from linebook.source.frozen import frozen
from linebook.source.spans import Span


@frozen
class _Way:
    """One item that another may come to stand in for, straight or by way of others: ``first`` is where that begins."""

    missing: str
    item: str
    ratio: Fraction
    first: Substitute


def check_substitutes(index: Index) -> Iterator[Fault]:
    """Yield what is wrong with each substitute by itself: its id, and items that are weighed exactly."""
    for record in _records(index):
        seen: dict[str, Span] = {}
        for substitute in record.substitutes:
            span = substitute.at("item")
            if substitute.item == record.id:
                message, mend = f"`{record.id}` names itself as what stands in for it", "name another item"
                yield fault("LB220", message, span, hints=(mend,))
            elif substitute.item in seen:
                message, mend = f"`{substitute.item}` stands twice among the substitutes", "take one of the two away"
                related = (Related(span=seen[substitute.item], label="first here"),)
                yield fault("LB220", message, span, hints=(mend,), related=related)
            elif not index.knows(substitute.item):
                if index.is_incomplete(PANTRY_ID):
                    continue  # the id may be the one that was lost
                message = f"no pantry item, component or by-product has the id `{substitute.item}`"
                hints = [hint for hint in item_hints(index, substitute.item) if f"`{record.id}`" not in hint]
                yield fault("LB201", message, span, hints=hints)
            else:
                yield from _exact_faults(index, record, substitute)
            seen.setdefault(substitute.item, span)


def check_substitute_circles(index: Index) -> Iterator[Fault]:
    """Yield a fault for each substitute that would make a component part of itself."""
    graph = {id_: list(dict.fromkeys(items)) for id_, items in index.inside.items()}
    graph |= {
        item: [maker.id for maker, _ in makers] for item, makers in index.by_products.items() if item not in graph
    }
    if any(True for _ in find_circles(graph)):
        return  # LB204 tells of these
    for way in _ways(index):
        users = [component for component in index.components.values() if way.missing in index.inside[component.id]]
        for user in users:
            path = _path(graph, way.item, user.id)
            if path:
                turned = " -> ".join((user.id, *path))
                yield fault(
                    "LB221",
                    f"with `{way.item}` in place of `{way.missing}` a component is made from itself: {turned}",
                    way.first.at("item"),
                    hints=(f"name a substitute that is not made with `{user.id}`",),
                    related=(Related(span=_use_of(user, way.missing), label=f"`{way.missing}` goes in here"),),
                )
                break


def check_substitute_amounts(index: Index) -> Iterator[Fault]:
    """Yield a fault for each substitute whose amount some card could not work out."""
    counted = count_words(index.pantry, index.components, index.dishes)
    for way in _ways(index):
        if index.is_incomplete(way.missing) or index.is_incomplete(way.item):
            continue  # what could not be read may be the density or the pieces
        for span, amount, kinds in _uses(index, way):
            try:
                _refuse_apart(index, way, amount, kinds, counted)
            except ValueMistake as mistake:
                yield fault(
                    "LB304",
                    f"with `{way.item}` in place of `{way.missing}`, {mistake.message}",
                    way.first.at("item"),
                    hints=mistake.hints,
                    related=(Related(span=span, label=f"`{way.item}` would stand in here"),),
                )
                break
        yield from _percent_circles(index, way)


def _exact_faults(index: Index, record: PantryItem | Component, substitute: Substitute) -> Iterator[Fault]:
    other = index.pantry.get(substitute.item)
    for item, message in (
        (record, f"`{record.id}` must be weighed exactly, so nothing stands in for it"),
        (other, f"`{substitute.item}` must be weighed exactly, so it stands in for nothing"),
    ):
        if isinstance(item, PantryItem) and item.weigh_exactly:
            hints = ("delete the substitute: a card without this item is another card",)
            related = (Related(span=item.at("weigh_exactly"), label="weighed exactly"),)
            yield fault("LB222", message, substitute.at("item"), hints=hints, related=related)
            return


def _records(index: Index) -> Iterator[PantryItem | Component]:
    yield from index.pantry.values()
    yield from index.components.values()


def _ways(index: Index) -> Iterator[_Way]:
    """Yield every item that may come to stand in for another, straight or because its own substitute is missing too."""
    for record in _records(index):
        seen = {record.id}
        waiting = [(one, one, one.ratio) for one in record.substitutes]
        while waiting:
            first, one, ratio = waiting.pop(0)
            if one.item in seen or one.item not in index.items:
                continue
            seen.add(one.item)
            yield _Way(missing=record.id, item=one.item, ratio=ratio, first=first)
            onward = index.components.get(one.item) or index.pantry.get(one.item)
            waiting += [(first, other, ratio * other.ratio) for other in (onward.substitutes if onward else ())]


def _refuse_apart(
    index: Index, way: _Way, amount: Amount, kinds: tuple[Kind, ...], counted: Mapping[str, frozenset[str]]
) -> None:
    """Raise ValueMistake where the stand-in cannot be taken in what replaces ``amount``, or turned into ``kinds``."""
    old, new = facts_for(index, way.missing), facts_for(index, way.item)
    if old is None or new is None:
        return
    found = in_place_of(amount, way.ratio, old, new, counted.get(way.item, frozenset())).amount
    component = index.components.get(way.item)
    if component is not None:
        in_makes(component, found)
    elif way.item not in index.pantry:
        for maker, made in index.by_products.get(way.item, ()):
            if not same_measure(made.amount.unit, found.unit):
                raise ValueMistake(
                    "LB304",
                    f"`{write_amount(found)}` of {made.name} would be needed; `{write_amount(made.amount)}` is made",
                    (f"type what {maker.name} also makes by {found.unit.kind.value}",),
                )
    for kind in kinds:
        convert(found, kind, new)


def _uses(index: Index, way: _Way) -> Iterator[tuple[Span, Amount, tuple[Kind, ...]]]:
    """Yield every amount of a missing item on a card, and what kinds of unit the card must turn its stand-in into."""
    item = way.missing
    for component in index.components.values():
        if item not in index.inside[component.id]:
            continue
        lines = [_replaced(line, way) for line in component.ingredients]
        weighed = {base for at in range(len(lines)) for base in base_lines(lines, at)}
        for at, line in enumerate(component.ingredients):
            if line.item == item and isinstance(line.amount, Amount):
                weight = (Kind.MASS,) if at in weighed else ()
                yield line.at("amount"), line.amount, (*weight, *_held_kinds(component, item))
            elif line.item == item and isinstance(line.amount, Percent):
                yield line.at("amount"), Amount(number=Fraction(1), unit=GRAM), ()
    for dish in index.dishes.values():
        yield from ((span, amount, ()) for span, amount in _on_dish(dish, item))


def _on_dish(dish: Dish, item: str) -> Iterator[tuple[Span, Amount]]:
    for one in dish.ever_served:
        if one.item == item:
            yield one.at("amount"), one.amount
    for size in dish.sizes:
        if item in size.amounts:
            yield size.at(f"amounts.{item}"), size.amounts[item]


def _held_kinds(component: Component, item: str) -> Iterator[Kind]:
    """Yield how what is in a vessel is measured, for the stages whose most one item counts towards."""
    for stage in component.stages:
        if stage.at_most and (not stage.of or item in stage.of) and stage.at_most.unit.kind is not Kind.COUNT:
            yield stage.at_most.unit.kind


def _percent_circles(index: Index, way: _Way) -> Iterator[Fault]:
    """Yield a fault where, once both items are one, a percentage of a card would be of itself."""
    for component in index.components.values():
        items = {line.item for line in component.ingredients}
        if way.missing not in items or way.item not in items:
            continue
        lines = [_replaced(line, way) for line in component.ingredients]
        percents = [at for at, line in enumerate(lines) if isinstance(line.amount, Percent)]
        graph = {str(at): [str(other) for other in base_lines(lines, at) if other in percents] for at in percents}
        if any(True for _ in find_circles(graph)):
            yield fault(
                "LB314",
                f"with `{way.item}` in place of `{way.missing}` a percentage of {component.name} is of itself",
                way.first.at("item"),
                hints=("name another substitute, or take that percentage of something else",),
                related=(Related(span=_use_of(component, way.missing), label=f"`{way.missing}` goes in here"),),
            )
            return


def _replaced(line: Ingredient, way: _Way) -> Ingredient:
    amount = line.amount
    if isinstance(amount, Percent):
        amount = replace(amount, of=tuple(way.item if base == way.missing else base for base in amount.of))
    return replace(line, item=way.item if line.item == way.missing else line.item, amount=amount)


def _use_of(component: Component, item: str) -> Span:
    return next((line.at("item") for line in component.ingredients if line.item == item), component.span)


def _path(graph: Mapping[str, list[str]], start: str, goal: str) -> tuple[str, ...]:
    """Return the shortest way from an item to one in it, () where there is none."""
    waiting: list[tuple[str, ...]] = [(start,)]
    seen = {start}
    while waiting:
        path = waiting.pop(0)
        if path[-1] == goal:
            return path
        for onward in graph.get(path[-1], ()):
            if onward not in seen:
                seen.add(onward)
                waiting.append((*path, onward))
    return ()
