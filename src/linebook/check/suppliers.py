"""What is bought can be ordered and costed: its supplier is known (LB707), listed once (LB212), and its pack and price
are in units that what cards take of it can be turned into (LB333).
"""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.index import Index, place
from linebook.check.weights import base_lines, facts_for, grams_of, line_amounts
from linebook.model.amounts import Amount, Percent
from linebook.model.conversion import convert
from linebook.model.pantry import PantryItem
from linebook.model.quantities import write_amount
from linebook.model.record import Record
from linebook.read.house_folder import HOUSE_ID
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related, ValueMistake
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.spans import Span


@frozen(kw_only=False)
class _Taken:
    """How much of a bought item one field of a record takes."""

    amount: Amount
    record: Record
    fields: tuple[str, ...]

    @property
    def span(self) -> Span:
        return place(self.record, *self.fields)


def check_suppliers(index: Index) -> Iterator[Fault]:
    """Yield a fault for a supplier listed twice, and for each that the house, which lists any, does not list."""
    if index.file is None or not index.file.suppliers or index.is_incomplete(HOUSE_ID):
        return
    listed: dict[str, Span] = {}
    for supplier in index.file.suppliers:
        if supplier.name in listed:
            yield fault(
                "LB212",
                f"`{supplier.name}` stands twice in the suppliers",
                supplier.at("supplier"),
                hints=("put all of its days on one line",),
                related=(Related(span=listed[supplier.name], label="first here"),),
            )
        listed.setdefault(supplier.name, supplier.at("supplier"))
    told: set[str] = set()
    for item in index.pantry.values():
        if item.supplier is None or item.supplier in listed or item.supplier in told:
            continue
        told.add(item.supplier)
        near = nearest(item.supplier, listed)
        buys = [other for other in index.pantry.values() if other.supplier == item.supplier and other is not item]
        yield fault(
            "LB707",
            f"`{item.supplier}` is not among the suppliers of house.yaml, so nobody knows when they deliver",
            item.at("supplier"),
            hints=(
                *((f"did you mean `{near}`?",) if near else ()),
                f"or add `- {{supplier: {item.supplier}, delivers: [tue, fri]}}` to `suppliers:` in house.yaml",
            ),
            related=tuple(Related(span=other.at("supplier"), label="also here") for other in buys[:3]),
        )


def check_bought_units(index: Index) -> Iterator[Fault]:
    """Yield a fault for each item whose pack or price is in a unit that no use of it can be turned into.

    Where some can and others cannot, the uses do not meet one another: that is LB304's to tell, as it is where a
    percentage needs a weight.
    """
    taken = _taken(index)
    needs_weight = _bases(index)
    for item in index.pantry.values():
        uses = taken.get(item.id, [])
        if index.is_incomplete(item.id) or not uses:
            continue
        if item.id in needs_weight and any(grams_of(index, item.id, use.amount) is None for use in uses):
            continue
        yield from _unmet(index, item, uses)


def _unmet(index: Index, item: PantryItem, taken: list[_Taken]) -> Iterator[Fault]:
    per = item.price.per if item.price is not None else None
    for field, amount, kept in (("pack", item.pack, "counted in packs"), ("price", per, "costed")):
        if amount is None:
            continue
        first = _refusal(index, item, taken[0].amount, amount)
        if first is None or any(_refusal(index, item, use.amount, amount) is None for use in taken[1:]):
            continue
        yield fault(
            "LB333",
            f"`{write_amount(taken[0].amount)}` of {item.name} cannot be {kept}: its {field} is"
            f" {'for' if field == 'price' else 'of'} `{write_amount(amount)}`",
            item.at(field),
            hints=first.hints,
            related=(Related(span=taken[0].span, label="taken here"),),
        )
        return


def _refusal(index: Index, item: PantryItem, taken: Amount, bought: Amount) -> ValueMistake | None:
    facts = facts_for(index, item.id)
    assert facts is not None
    try:
        convert(taken, bought.unit.kind, facts, counts=bought.unit.counts or "each")
    except ValueMistake as mistake:
        return mistake
    return None


def _bases(index: Index) -> set[str]:
    """Return the items that a percentage is of, so that their weight must be known."""
    return {
        component.ingredients[base].item
        for component in index.components.values()
        for at, line in enumerate(component.ingredients)
        if isinstance(line.amount, Percent)
        for base in base_lines(component.ingredients, at)
    }


def _taken(index: Index) -> dict[str, list[_Taken]]:
    """Return every amount that cards take of bought items, percentages worked out."""
    found: dict[str, list[_Taken]] = {}
    for component in index.components.values():
        for line, amount in zip(component.ingredients, line_amounts(index, component), strict=True):
            if amount is not None and line.item in index.pantry:
                found.setdefault(line.item, []).append(_Taken(amount, line, ("amount",)))
    for dish in index.dishes.values():
        for element in dish.elements:
            if element.item in index.pantry:
                found.setdefault(element.item, []).append(_Taken(element.amount, element, ("amount",)))
        for size in dish.sizes:
            for item, amount in size.amounts.items():
                if item in index.pantry:
                    taken = _Taken(amount, size, (f"amounts.{item}", "amounts"))
                    found.setdefault(item, []).append(taken)
    return found
