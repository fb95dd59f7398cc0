"""A batch does not weigh more than what went into it (LB307)."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.absent import absent_words, weightless_bases
from linebook.check.index import Index
from linebook.check.pieces import pieces_of
from linebook.check.weights import grams_of, line_amounts
from linebook.model.amounts import Amount, ToTaste
from linebook.model.component import Component
from linebook.model.quantities import write_amount
from linebook.model.sums import sum_of
from linebook.model.units import GRAM, KILOGRAM, from_base
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related


def check_balance(index: Index) -> Iterator[Fault]:
    """Yield a warning for each batch that makes more than its ingredients weigh, beyond the house's tolerance.

    Media and what is to taste stay outside. Where one line cannot be weighed nothing is said.
    """
    most = 1 + (index.file.tolerance if index.file is not None else Fraction(1, 100))
    for component in index.components.values():
        if index.is_incomplete(component.id):
            continue
        went_in, comes_out = _weighed_in(index, component), _weighed_out(index, component)
        if went_in is None or comes_out is None or comes_out <= went_in * most:
            continue
        if absent_words(component) or any(pieces_of(component)) or any(weightless_bases(component)):
            continue  # those are told, and this would only follow from them
        yield _too_much(component, went_in, comes_out)


def _weighed_in(index: Index, component: Component) -> Fraction | None:
    found: list[Fraction] = []
    for line, amount in zip(component.ingredients, line_amounts(index, component), strict=True):
        if line.medium or isinstance(line.amount, ToTaste):
            continue
        grams = None if amount is None else grams_of(index, line.item, amount)
        if grams is None:
            return None
        found.append(grams)
    return sum_of(found)


def _weighed_out(index: Index, component: Component) -> Fraction | None:
    made = grams_of(index, component.id, component.makes)
    if made is None or not component.also_makes:
        return made
    beside = (grams_of(index, by_product.item, by_product.amount) for by_product in component.also_makes)
    return made + sum((grams for grams in beside if grams is not None), Fraction(0))


def _too_much(component: Component, went_in: Fraction, comes_out: Fraction) -> Fault:
    beside = " with what it also makes" if component.also_makes else ""
    typed = write_amount(component.makes)
    shown = _shown(comes_out)
    weight = f"`{typed}`" if shown == typed else f"`{typed}`, {shown}{beside},"
    return fault(
        "LB307",
        f"{component.name} makes {weight} from ingredients that weigh {_shown(went_in)}",
        component.at("makes"),
        hints=(
            "check `makes`, and that every ingredient is listed with its amount",
            "what it takes up from a medium is listed as an ingredient of its own",
        ),
        related=(Related(span=component.ingredients[0].at("item"), label="what goes in"),),
    )


def _shown(grams: Fraction) -> str:
    amount = from_base(grams, KILOGRAM if grams >= 1000 else GRAM)
    return write_amount(Amount(number=Fraction(round(amount.number, 2 if grams >= 1000 else 0)), unit=amount.unit))
