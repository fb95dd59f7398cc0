"""Amounts that must be put together can be (LB304, LB309).

What an item lacks is one mistake, however many cards need it: faults are gathered by item and kind of unit.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import TypeAlias

from linebook.check.index import Index, place
from linebook.check.weights import base_lines, facts_for, line_amounts
from linebook.check.words import gathered
from linebook.model.amounts import Amount, Kind, Percent
from linebook.model.component import Component
from linebook.model.contents import counted_in, counts_pieces
from linebook.model.conversion import convert, in_makes
from linebook.model.dish import Dish
from linebook.model.quantities import write_amount
from linebook.model.record import Record
from linebook.model.units import GRAM, same_measure
from linebook.source.faults import Fault, Related, ValueMistake
from linebook.source.frozen import frozen
from linebook.source.spans import Span


@frozen(kw_only=False)
class _Use:
    """How much of an item one field of a record takes. ``amount`` is exact, in the unit it was typed in."""

    item: str
    amount: Amount
    record: Record
    fields: tuple[str, ...] = ("amount",)

    @property
    def span(self) -> Span:
        return place(self.record, *self.fields)


@frozen
class _Refusal:
    """An amount that cannot be turned into what is needed, with both ways to mend it."""

    use: _Use
    mistake: ValueMistake
    related: tuple[Related, ...] = ()


_Refusals: TypeAlias = Iterator[_Refusal]


def check_units(index: Index) -> Iterator[Fault]:
    """Yield a fault for each item whose amounts cannot meet, with both ways to mend it."""
    found: dict[tuple[str, Kind, str | None], list[_Refusal]] = defaultdict(list)
    for refusal in _refusals(index):
        if index.is_incomplete(refusal.use.item) or index.is_broken(refusal.use.item):
            continue  # what could not be read may be the density or the pieces
        unit = refusal.use.amount.unit
        found[refusal.use.item, unit.kind, unit.counts].append(refusal)
    for (item, _, counts), refusals in found.items():
        first = refusals[0]
        spans = list(dict.fromkeys(refusal.use.span for refusal in refusals))
        component = index.components.get(item)
        if component is not None and counts == "each" and not component.pieces:
            message = f"`{item}` is taken by the piece, and its card does not say how many pieces it makes"
            mends = ("add `pieces:` and a number to its card, below `makes`", "or take it by weight here")
            made = (Related(span=component.at("makes"), label="it makes this much, in no pieces"),)
            yield gathered("LB309", message, spans, hints=mends, related=made, label="also taken by the piece")
        else:
            hints = _with_place(index, first, spans[0])
            yield gathered("LB304", first.mistake.message, spans, hints=hints, related=first.related)


def _refusals(index: Index) -> _Refusals:
    uses = list(_uses(index))
    yield from _component_uses(index, uses)
    for part in (_batch_sizes, _stage_contents, _percent_bases):
        yield from part(index)
    yield from _bought_sums(index, uses)


def _with_place(index: Index, refusal: _Refusal, span: Span) -> tuple[str, ...]:
    """Return the mends, the first with the file it belongs into where that is another one."""
    mend, *others = refusal.mistake.hints
    record = index.components.get(refusal.use.item) or index.pantry.get(refusal.use.item)
    if record is not None and record.span.source != span.source:
        mend = f"{mend}, in {record.span.source.path}"
    return (mend, *others)


def _component_uses(index: Index, uses: Iterable[_Use]) -> _Refusals:
    for use in (*uses, *_alternative_uses(index)):
        component = index.components.get(use.item)
        if component is not None:
            try:
                in_makes(component, use.amount)
            except ValueMistake as mistake:
                related = Related(span=component.at("makes"), label="made in this unit")
                yield _Refusal(use=use, mistake=_with_piece_weight(component, use, mistake), related=(related,))
        elif use.item not in index.pantry:
            yield from _by_product_use(index, use)


def _by_product_use(index: Index, use: _Use) -> _Refusals:
    for maker, made in index.by_products.get(use.item, ()):
        if not same_measure(made.amount.unit, use.amount.unit):
            hints = (f"type both {_by(made.amount)}, here and in what {maker.name} also makes",)
            message = (
                f"`{write_amount(use.amount)}` of {made.name} is needed, and `{write_amount(made.amount)}` is made"
            )
            related = (Related(span=made.at("amount"), label="made in this unit"),)
            yield _Refusal(use=use, mistake=ValueMistake("LB304", message, hints), related=related)


def _with_piece_weight(component: Component, use: _Use, mistake: ValueMistake) -> ValueMistake:
    """Word the mends for a component whose yield is itself a count: it lacks the weight of one, not the pieces."""
    if component.makes.unit.kind is not Kind.COUNT:
        return mistake
    message = f"`{write_amount(use.amount)}` of {component.name} is needed, and it is made by the piece"
    return ValueMistake("LB304", message, ("add `piece_weighs:` to its card", "or type the amount in pieces here"))


def _batch_sizes(index: Index) -> _Refusals:
    for component in index.components.values():
        for field in ("largest_batch", "smallest_batch", "batch_step"):
            amount: Amount | None = getattr(component, field)
            if amount is None:
                continue
            try:
                in_makes(component, amount)
            except ValueMistake as mistake:
                use = _Use(component.id, amount, component, (field,))
                related = Related(span=component.at("makes"), label="made in this unit")
                yield _Refusal(use=use, mistake=mistake, related=(related,))


def _stage_contents(index: Index) -> _Refusals:
    """Yield what lies in a stage and cannot be turned into what the most of that stage is counted in."""
    for component in index.components.values():
        if all(stage.at_most is None for stage in component.stages):
            continue
        amounts = line_amounts(index, component)
        for at, stage in enumerate(component.stages):
            most = stage.at_most
            for number in () if most is None or counts_pieces(component, at) else counted_in(component, at):
                line, amount = component.ingredients[number], amounts[number]
                facts = facts_for(index, line.item)
                if amount is None or facts is None or most is None:
                    continue
                try:
                    convert(amount, most.unit.kind, facts, counts=most.unit.counts or "each")
                except ValueMistake as mistake:
                    use = _Use(line.item, amount, line)
                    if facts.left_over:
                        mistake = _or_count_it_otherwise(mistake, stage.name, amount)
                    related = Related(span=stage.at("at_most"), label="counted in this unit here")
                    yield _Refusal(use=use, mistake=mistake, related=(related,))


def _or_count_it_otherwise(mistake: ValueMistake, stage: str, amount: Amount) -> ValueMistake:
    """Return a mistake with the mend first that needs no other card: a most in the measure of the by-product."""
    mends = (f"type `at_most` of `{stage}` {_by(amount)}, or name in `of` what it is to count", *mistake.hints)
    return ValueMistake(mistake.code, mistake.message, mends)


def _percent_bases(index: Index) -> _Refusals:
    for component in index.components.values():
        lines = component.ingredients
        needed: dict[int, int] = {}
        for at, line in enumerate(lines):
            if isinstance(line.amount, Percent):
                for base in base_lines(lines, at):
                    needed.setdefault(base, at)
        for base, at in needed.items():
            amount, facts = lines[base].amount, facts_for(index, lines[base].item)
            if not isinstance(amount, Amount) or facts is None:
                continue
            try:
                convert(amount, Kind.MASS, facts)
            except ValueMistake as mistake:
                use = _Use(lines[base].item, amount, lines[base])
                related = Related(span=lines[at].at("amount"), label="this percentage needs its weight")
                yield _Refusal(use=use, mistake=mistake, related=(related,))


def _bought_sums(index: Index, taken: Iterable[_Use]) -> _Refusals:
    """Yield what cannot be added up of a bought item that cards take by more than one kind of unit."""
    uses: dict[str, list[_Use]] = defaultdict(list)
    for use in (*taken, *_percent_uses(index)):
        if use.item in index.pantry:
            uses[use.item].append(use)
    for item, found in uses.items():
        if all(same_measure(found[0].amount.unit, use.amount.unit) for use in found):
            continue
        facts = facts_for(index, item)
        for use in found:
            try:
                if facts is not None:
                    convert(use.amount, Kind.MASS, facts)
            except ValueMistake as mistake:
                other = next(other for other in found if not same_measure(other.amount.unit, use.amount.unit))
                related = Related(span=other.span, label=f"taken {_by(other.amount)} here, and the two are added up")
                yield _Refusal(use=use, mistake=mistake, related=(related,))
                break


def _uses(index: Index) -> Iterator[_Use]:
    for component in index.components.values():
        for line in component.ingredients:
            if isinstance(line.amount, Amount):
                yield _Use(line.item, line.amount, line)
    for dish in index.dishes.values():
        yield from _dish_uses(dish)


def _dish_uses(dish: Dish) -> Iterator[_Use]:
    items = {element.item for element in dish.elements}
    for element in dish.elements:
        yield _Use(element.item, element.amount, element)
    for size in dish.sizes:
        for item, amount in size.amounts.items():
            if item in items:
                yield _Use(item, amount, size, (f"amounts.{item}", "amounts"))


def _alternative_uses(index: Index) -> Iterator[_Use]:
    """Yield the amounts of what is served instead: in the unit it is made in, and never added up for a night."""
    for dish in index.dishes.values():
        for other in dish.alternatives:
            yield _Use(other.item, other.amount, other)


def _percent_uses(index: Index) -> Iterator[_Use]:
    for component in index.components.values():
        for line, amount in zip(component.ingredients, line_amounts(index, component), strict=True):
            if isinstance(line.amount, Percent) and amount is not None and amount.unit == GRAM:
                yield _Use(line.item, amount, line)


def _by(amount: Amount) -> str:
    if amount.unit.kind is Kind.COUNT:
        return f"in {amount.unit.plural}"
    return f"by {amount.unit.kind.value}"
