"""The smallest batch, the largest batch and the step of a component fit each other and what it makes (LB323, LB324).

Units that cannot meet are told in ``units``.
"""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.index import Index
from linebook.model.amounts import Amount
from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.quantities import write_amount
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related, ValueMistake


def check_batch_sizes(index: Index) -> Iterator[Fault]:
    """Yield an error where no batch is both large and small enough, a warning where the card itself is not in steps."""
    for component in index.components.values():
        if not index.is_incomplete(component.id):
            yield from _over_largest(component)
            yield from _not_in_steps(component)


def _over_largest(component: Component) -> Iterator[Fault]:
    largest = component.largest_batch
    for field, amount, words in (
        ("smallest_batch", component.smallest_batch, "the smallest batch"),
        ("batch_step", component.batch_step, "one step"),
    ):
        if largest is None or amount is None or not _is_more(component, amount, largest):
            continue
        yield fault(
            "LB323",
            f"{words} of {component.name} is `{write_amount(amount)}`, and its largest batch `{write_amount(largest)}`",
            component.at(field),
            hints=(f"make `{field}` smaller or `largest_batch` larger", "check that the two are not interchanged"),
            related=(Related(span=component.at("largest_batch"), label="the most that is made at once"),),
        )
        return


def _not_in_steps(component: Component) -> Iterator[Fault]:
    step = component.batch_step
    if step is None:
        return
    try:
        steps = component.makes.number / in_makes(component, step).number
    except ValueMistake:
        return  # LB304 tells it
    if steps.denominator == 1:
        return
    near = max(1, round(steps))
    made, one = write_amount(component.makes), write_amount(step)
    yield fault(
        "LB324",
        f"{component.name} makes `{made}`, which is not in whole ones of `{one}`",
        component.at("batch_step"),
        hints=(
            f"write what {'one' if near == 1 else near} of them {'makes' if near == 1 else 'make'} in `makes`, "
            "and its ingredients to match",
            "or correct `batch_step`",
        ),
        related=(Related(span=component.at("makes"), label="what the card makes"),),
    )


def _is_more(component: Component, one: Amount, other: Amount) -> bool:
    try:
        return in_makes(component, one).number > in_makes(component, other).number
    except ValueMistake:
        return False  # LB304 tells it
