"""The most that a stage takes counts something that lies in it then, and is enough for one of what is made (LB511 to
LB513); the batch as written does not go through it in more loads than a card can log (LB316).

Units that cannot meet are told in ``units``, vessels in ``vessels``.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from linebook.check.index import Index, place
from linebook.check.least import too_large
from linebook.check.loads import MOST_LOADS, too_many_at_stage
from linebook.check.weights import facts_for, line_amounts
from linebook.check.words import meant
from linebook.model.amounts import Amount
from linebook.model.component import Component, Scale, Stage
from linebook.model.contents import counted_in, counts_pieces, lies_in
from linebook.model.conversion import convert, in_makes
from linebook.model.quantities import write_amount
from linebook.model.units import ratio, to_base
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related, ValueMistake


def check_stage_most(index: Index) -> Iterator[Fault]:
    """Yield the faults of what stages say is the most they take."""
    for component in index.components.values():
        if index.is_incomplete(component.id):
            continue
        for at, stage in enumerate(component.stages):
            if stage.at_most is None and stage.of:
                yield fault(
                    "LB511",
                    f"`of` says what `at_most` counts, and `{stage.name}` has no `at_most`",
                    place(stage, "of", "of.0"),
                    hints=("add `at_most:` and the most that goes in at once, or delete `of`",),
                )
            elif stage.at_most is not None:
                named = tuple(_not_in_it(component, at))
                yield from named or _amiss(index, component, at, stage.at_most)


def _not_in_it(component: Component, at: int) -> Iterator[Fault]:
    """Yield LB512 for what ``of`` names and does not lie in the stage, or where nothing lies in it at all."""
    stage = component.stages[at]
    lines = component.ingredients
    lying = {lines[line].item for line in lies_in(component, at)}
    on_card = {line.item for line in lines}
    for number, item in enumerate(stage.of):
        span = place(stage, f"of.{number}", "of")
        if item not in on_card:
            mend = meant(item, on_card, "name an ingredient of this card")
            yield fault("LB512", f"`{item}` is not an ingredient of {component.name}", span, hints=(mend,))
        elif item not in lying and not _goes_in_nowhere(component, item):
            yield fault(
                "LB512",
                f"`{item}` is not in it at `{stage.name}`, and `at_most` is to count it",
                span,
                hints=(meant(item, lying - {item}, "name what is in it then, or move it to that stage"),),
                related=tuple(
                    Related(span=place(line, "stage", "item"), label="goes in here")
                    for line in lines
                    if line.item == item
                ),
            )
    if not lying and not counts_pieces(component, at):
        yield fault(
            "LB512",
            f"nothing has gone in by `{stage.name}`, and `at_most` has nothing to count",
            stage.at("at_most"),
            hints=("give the ingredients the `stage` they go in at, or move `at_most` to the stage that holds them",),
        )


def _goes_in_nowhere(component: Component, item: str) -> bool:
    """Return whether a line of the item names a stage that the card does not have, which is told already."""
    names = {stage.name for stage in component.stages}
    return any(line.item == item and line.stage not in {None, *names} for line in component.ingredients)


def _amiss(index: Index, component: Component, at: int, most: Amount) -> Iterator[Fault]:
    stage = component.stages[at]
    contents = _contents(index, component, at, most)
    if contents is None:
        return  # LB304 tells it, or it follows from another fault
    growing, kept = contents
    room = to_base(most)
    least = too_large(component, growing, kept, room)
    if least is not None:
        yield fault(
            "LB513",
            f"`{stage.name}` takes `{write_amount(most)}` at most, and {least.words} of {component.name} is more",
            stage.at("at_most"),
            hints=(f"make `at_most` larger, or {least.mend}",),
            related=() if least.field is None else (Related(span=component.at(least.field), label=least.words),),
        )
        return
    loads = ceil(growing / (room - kept)) if growing else 1
    if loads > MOST_LOADS:
        yield too_many_at_stage(component, stage, loads, f"`{write_amount(component.makes)}`")


def _contents(index: Index, component: Component, at: int, most: Amount) -> tuple[Fraction, Fraction] | None:
    """Return what of the written batch lies in a stage, in the base unit of its most: what grows, what is per load."""
    if counts_pieces(component, at):
        try:
            return ratio(component.makes, in_makes(component, most)) * to_base(most), Fraction(0)
        except ValueMistake:
            return None
    amounts = line_amounts(index, component)
    growing, kept = Fraction(0), Fraction(0)
    for line in counted_in(component, at):
        amount, ingredient = amounts[line], component.ingredients[line]
        if amount is None:
            continue
        facts = facts_for(index, ingredient.item)
        try:
            measured = (
                convert(amount, most.unit.kind, facts, counts=most.unit.counts or "each") if facts else Fraction(0)
            )
        except ValueMistake:
            return None
        if ingredient.scale is Scale.PER_LOAD and _own(component, at, ingredient.stage):
            kept += measured
        else:
            growing += measured
    return growing, kept


def _own(component: Component, at: int, name: str | None) -> bool:
    stage: Stage = component.stages[at]
    return name == stage.name or (name is None and len(component.stages) == 1)
